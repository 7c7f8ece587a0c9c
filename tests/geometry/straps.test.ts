/** Strap figures against arithmetic by hand: every expected value is worked out beside its check. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deg, degrees, mm } from '../../grammar/units';
import type { Seat, Strap } from '../../server/cage/cage';
import { nearestOn } from '../../server/centreline/query';
import type { Vec3 } from '../../server/centreline/vector';
import { distance, dot, mirrorY, sub } from '../../server/centreline/vector';
import type { StrapFigures } from '../../server/geometry/shape';
import { markCrossed, seatIn, strapFigures, strapsOf } from '../../server/geometry/straps';
import { cageOf, partOf, partsByName, seatOf, strapOf, tubeOf } from './strap-car';

const INCH = 25.4;

/** A bar of od 40 right across the car at x, z. */
const across = (x: number, z: number) =>
  partOf(
    tubeOf(
      'bar',
      [
        [x, 500, z],
        [x, -500, z],
      ],
      40,
    ),
  );

const figures = (seat: Seat, strap: Strap, bar = across(-240, 700)): StrapFigures =>
  strapFigures(strap, seat, partsByName(bar)).figures;

const value = (angle: number | null): number => degrees(angle ?? Number.NaN);

describe('a level bar behind an upright seat', () => {
  // Slot S (0, 100, 800), lip L (-40, 100, 800). The bar's axis is 200 behind L and 100 below it: the sight line to it
  // falls atan(100 / 200) = 26.565°, the distance is sqrt(50000) = 223.607, and the tangent lifts it off by
  // asin(20 / 223.607) = 5.132°: a drop of 21.434°.
  const seat = seatOf([0, 0, 800]);

  it('drops by the sight line less the tangent, from the lip', () => {
    const f = figures(seat, strapOf());
    expect(f.onLip).toBe(true);
    expect(f.start).toEqual([-40, 100, 800]);
    expect(value(f.drop)).toBeCloseTo(degrees(Math.atan(0.5) - Math.asin(20 / Math.sqrt(50_000))), 9);
    expect(f.length).toBeCloseTo(Math.sqrt(50_000 - 400), 9);
    expect(value(f.spread)).toBeCloseTo(0, 9);
    expect(value(f.skew)).toBeCloseTo(0, 9);
    expect(f.crossed).toBe(false);
  });

  it('has free run from the rear face to the front of the bar, along the run', () => {
    const f = figures(seat, strapOf());
    // 180 mm of level distance from x = -40 to the bar's front at x = -220.
    expect(f.freeRun).toBeCloseTo(180 / Math.cos(f.drop ?? 0), 9);
  });

  it('adds the tangent where it wraps under', () => {
    const f = figures(seat, strapOf({ wrap: 'under' }));
    expect(value(f.drop)).toBeCloseTo(degrees(Math.atan(0.5) + Math.asin(20 / Math.sqrt(50_000))), 9);
  });

  it('runs level to the top of a bar whose top is as high as the slot, and needs no lip', () => {
    const f = figures(seat, strapOf(), across(-240, 780));
    expect(f.onLip).toBe(false);
    expect(f.start).toEqual([0, 100, 800]);
    expect(f.contact?.[0]).toBeCloseTo(-240, 9);
    expect(f.contact?.[2]).toBeCloseTo(800, 9);
    expect(value(f.drop)).toBeCloseTo(0, 9);
    // From the rear face at x = -40, not from the slot.
    expect(f.freeRun).toBeCloseTo(180, 9);
  });

  it('rises to a higher bar: a negative drop', () => {
    expect(value(figures(seat, strapOf(), across(-240, 900)).drop)).toBeLessThan(0);
  });

  it('spreads away from the middle to the side, and is crossed when two straps change sides', () => {
    // A top as high as the slot keeps the run level: tan(spread) = 60 / 240 in plan, whatever the tangent.
    const bar = across(-240, 780);
    const out = figures(seat, strapOf({ at: { axis: 'y', value: mm(160) } }), bar);
    expect(value(out.spread)).toBeCloseTo(degrees(Math.atan2(60, 240)), 9);
    const inward = figures(seat, strapOf({ slot: 'right', at: { axis: 'y', value: mm(-40) } }), bar);
    expect(value(inward.spread)).toBeCloseTo(-degrees(Math.atan2(60, 240)), 9);

    const cage = cageOf(seat);
    const pair = (left: number, right: number) =>
      markCrossed(
        [
          figures(seat, strapOf({ name: 'a', at: { axis: 'y', value: mm(left) } }), bar),
          figures(seat, strapOf({ name: 'b', slot: 'right', at: { axis: 'y', value: mm(right) } }), bar),
        ],
        seatIn(cage),
      ).map((f) => f.crossed);
    expect(pair(20, -20)).toEqual([false, false]);
    expect(pair(-20, 20)).toEqual([true, true]);
  });

  it('measures the same from the shoulder, and from the yoke above it', () => {
    // The bar's top is level with the slot, so T is (-240, 100, 800) by hand.
    const bar = across(-240, 780);
    const shoulder: Vec3 = [100, 0, 30];
    const f = figures(seatOf([0, 0, 800], { shoulder }), strapOf(), bar);
    expect(value(f.dropFromShoulder)).toBeCloseTo(degrees(Math.atan2(30, 340)), 9);
    const yoked = figures(seatOf([0, 0, 800], { shoulder, yoke: mm(30) }), strapOf(), bar);
    expect(value(yoked.dropFromShoulder)).toBeCloseTo(degrees(Math.atan2(60, 340)), 9);
    expect(figures(seat, strapOf(), bar).dropFromShoulder).toBeNull();
  });

  it('agrees with the inch arithmetic of the shoulder rule: 4 in lower is 20° at 11 in and 26.6° at 8 in', () => {
    // Plain trigonometry on the rule that a cross bar lies at most 4 in below the shoulder: atan(4/11), atan(4/8).
    const bar = across(-240, 780);
    const at = (back: number) =>
      figures(seatOf([0, 0, 800], { shoulder: [back * INCH - 240, 0, 4 * INCH] }), strapOf(), bar).dropFromShoulder;
    expect(value(at(11))).toBeCloseTo(20, 1);
    expect(value(at(8))).toBeCloseTo(26.6, 1);
  });
});

describe('a reclined seat', () => {
  it('lets the run leave from the slot while it drops less than the shell leans', () => {
    // Recline 20°: the slot's lower edge falls aft by 20°. The bar gives about 10° of drop.
    const seat = seatOf([0, 0, 800], { recline: deg(20) });
    const f = figures(seat, strapOf(), across(-240, 740));
    expect(f.onLip).toBe(false);
    // Axis 240 behind and 60 below the slot: atan(60 / 240) less asin(20 / sqrt(240² + 60²)).
    const drop = Math.atan2(60, 240) - Math.asin(20 / Math.hypot(240, 60));
    expect(f.drop).toBeCloseTo(drop, 9);
    // It leaves the rear face where 40 mm of thickness are behind it: 40 / cos(20° - drop) along the run.
    const leaves = 40 / Math.cos((20 * Math.PI) / 180 - drop);
    expect(f.freeRun).toBeCloseTo(220 / Math.cos(drop) - leaves, 9);
  });

  it('lies on the lip where it drops more', () => {
    const seat = seatOf([0, 0, 800], { recline: deg(10) });
    const f = figures(seat, strapOf());
    expect(f.onLip).toBe(true);
    const lip: Vec3 = [-40 * Math.cos(Math.PI / 18), 100, 800 - 40 * Math.sin(Math.PI / 18)];
    expect(distance(f.start ?? [0, 0, 0], lip)).toBeLessThan(1e-9);
    const [back, down] = [lip[0] + 240, lip[2] - 700];
    expect(f.drop).toBeCloseTo(Math.atan2(down, back) - Math.asin(20 / Math.hypot(back, down)), 9);
  });

  it('gives the usual layout its usual figure', () => {
    // Common practice, no source: a bar about 200 mm behind the seat with straps at 10 to 11° is a usual, accepted
    // layout. Slots at 800 in a seat reclined 15°, tube od 38 with its front 200 behind the slot's rear edge.
    const seat = seatOf([0, 0, 800], { recline: deg(15), back: mm(45) });
    const bar = partOf(
      tubeOf('bar', [
        [-262, 500, 732],
        [-262, -500, 732],
      ]),
    );
    const f = figures(seat, strapOf(), bar);
    expect(value(f.drop)).toBeGreaterThan(10);
    expect(value(f.drop)).toBeLessThan(11);
    expect(f.freeRun).toBeGreaterThan(180);
  });
});

describe('a seat that faces inward', () => {
  it('keeps its figures when seat and bar turn together, but for the drop in side view', () => {
    const turned = (p: Vec3, yaw: number): Vec3 => [
      p[0] * Math.cos(yaw) - p[1] * Math.sin(yaw),
      p[0] * Math.sin(yaw) + p[1] * Math.cos(yaw),
      p[2],
    ];
    const straight = figures(seatOf([0, 0, 800]), strapOf());
    const yaw = deg(7);
    const bar = partOf(tubeOf('bar', [turned([-240, 500, 700], yaw), turned([-240, -500, 700], yaw)], 40));
    const f = figures(seatOf([0, 0, 800], { yaw }), strapOf(), bar);
    expect(f.length).toBeCloseTo(straight.length ?? 0, 9);
    expect(f.spread).toBeCloseTo(0, 9);
    expect(f.skew).toBeCloseTo(0, 9);
    expect(f.freeRun).toBeCloseTo(straight.freeRun ?? 0, 9);
    // Side view shortens the level distance by cos(yaw).
    expect(Math.tan(f.drop ?? 0)).toBeCloseTo(Math.tan(straight.drop ?? 0) / Math.cos(yaw), 9);
  });

  it('goes straight back along its own forward where no place is written', () => {
    const yaw = deg(5);
    const f = figures(seatOf([0, 0, 800], { yaw }), strapOf(), across(-240, 780));
    // The slot is at (-100 sin 5°, 100 cos 5°); the bar at x = -240 is crossed there + tan 5° of the way.
    const [x, y] = [-100 * Math.sin(yaw), 100 * Math.cos(yaw)];
    expect(f.barPoint?.[1]).toBeCloseTo(y + (-240 - x) * Math.tan(yaw), 9);
    expect(f.spread).toBeCloseTo(0, 9);
    expect(value(f.skew)).toBeCloseTo(5, 6);
  });
});

describe('bars that are not straight across', () => {
  it('skews by the angle of a bar that is turned in plan', () => {
    // Turned 10°, its top level with the slot: a level run, straight back, so it meets the bar 10° off square.
    const t = (10 * Math.PI) / 180;
    const run = (s: number): Vec3 => [-240 + s * Math.sin(t), 100 + s * Math.cos(t), 780];
    const f = figures(seatOf([0, 0, 800]), strapOf(), partOf(tubeOf('bar', [run(400), run(-400)], 40)));
    expect(value(f.skew)).toBeCloseTo(10, 9);
    expect(value(f.drop)).toBeCloseTo(0, 9);
    expect(f.freeRun).toBeCloseTo(200 - 20 / Math.cos(t), 9);
  });

  it('touches the top of a sloping bar square across it', () => {
    const slope = (15 * Math.PI) / 180;
    const run = (s: number): Vec3 => [-240, 100 + s * Math.cos(slope), 740 + s * Math.sin(slope)];
    const bar = partOf(tubeOf('bar', [run(400), run(-400)], 40));
    const f = figures(seatOf([0, 0, 800], { recline: deg(20) }), strapOf(), bar);
    const T = f.contact ?? [0, 0, 0];
    const P = f.barPoint ?? [0, 0, 0];
    const S = f.start ?? [0, 0, 0];
    expect(P[1]).toBeCloseTo(100, 9);
    const axis: Vec3 = [0, Math.cos(slope), Math.sin(slope)];
    expect(distance(T, P)).toBeCloseTo(20, 9);
    expect(dot(sub(T, P), axis)).toBeCloseTo(0, 9);
    // Tangent: the radius to T is square to the run, seen along the bar.
    expect(dot(sub(T, P), sub(S, T))).toBeCloseTo(0, 6);
    expect(T[2]).toBeGreaterThan(P[2]);
    // By hand: the start projected along the bar is S less its part along it; then the tangent in that plane.
    const rel = sub(S, P);
    const up = -rel[1] * Math.sin(slope) + rel[2] * Math.cos(slope);
    const drop = Math.atan2(up, rel[0]) - Math.asin(20 / Math.hypot(rel[0], up));
    const n = [-Math.sin(drop), Math.cos(drop)];
    expect(sub(T, P)[0]).toBeCloseTo(20 * (n[0] ?? 0), 9);
    expect(sub(T, P)[2]).toBeCloseTo(20 * (n[1] ?? 0) * Math.cos(slope), 9);
  });

  it('takes the crossing nearest to the slot of a bent bar that is there twice', () => {
    // Down, across and up again: y = 100 is crossed once; z = 700 twice, the nearer on the slot's side.
    const path: readonly Vec3[] = [
      [-240, 300, 900],
      [-240, 300, 500],
      [-240, -300, 500],
      [-240, -300, 900],
    ];
    const bar = partOf(tubeOf('bar', path, 40, 120));
    const f = figures(seatOf([0, 0, 800]), strapOf({ at: { axis: 'z', value: mm(700) } }), bar);
    expect(f.barPoint).toEqual([-240, 300, 700]);
    const other = figures(seatOf([0, 0, 800]), strapOf({ slot: 'right', at: { axis: 'z', value: mm(700) } }), bar);
    expect(other.barPoint?.[1]).toBeCloseTo(-300, 9);
  });

  it('says what it cannot compute', () => {
    const seat = seatOf([0, 0, 800]);
    const parts = (z: number) => partsByName(across(-240, z));
    const away = strapFigures(strapOf({ at: { axis: 'y', value: mm(600) } }), seat, parts(700));
    expect(away.miss).toBe('no-crossing');
    expect(away.figures.drop).toBeNull();
    expect(strapFigures(strapOf(), seatOf([-230, 0, 700]), parts(700)).miss).toBe('inside');
    const upright = partOf(
      tubeOf(
        'bar',
        [
          [-240, 100, 0],
          [-240, 100, 900],
        ],
        40,
      ),
    );
    const up = strapFigures(strapOf({ at: { axis: 'z', value: mm(700) } }), seat, partsByName(upright));
    expect(up.miss).toBe('upright');
    expect(strapFigures(strapOf(), null, parts(700)).figures.slot).toBeNull();
    expect(strapFigures(strapOf({ tube: 'none' }), seat, parts(700)).miss).toBeNull();
    expect(figures(seatOf([0, 0, 800], { back: null }), strapOf()).drop).toBeNull();
  });
});

describe('any layout', () => {
  const coordinate = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });
  const layouts = fc.record({
    y: coordinate(-300, 300),
    z: coordinate(600, 900),
    recline: coordinate(0, 30),
    yaw: coordinate(-10, 10),
    back: coordinate(20, 60),
    barX: coordinate(-500, -150),
    barZ: coordinate(600, 850),
    plan: coordinate(-15, 15),
    slope: coordinate(-15, 15),
    at: coordinate(-200, 200),
    wrap: fc.constantFrom('over' as const, 'under' as const),
    slot: fc.constantFrom('left' as const, 'right' as const),
  });
  type Layout = typeof layouts extends fc.Arbitrary<infer T> ? T : never;

  const build = (l: Layout, image: (p: Vec3) => Vec3, swap: boolean) => {
    const [p, s] = [(l.plan * Math.PI) / 180, (l.slope * Math.PI) / 180];
    const bar = (u: number): Vec3 =>
      image([l.barX + u * Math.sin(p) * Math.cos(s), l.y + u * Math.cos(p) * Math.cos(s), l.barZ + u * Math.sin(s)]);
    const seat = seatOf(image([0, l.y, l.z]), {
      recline: deg(l.recline),
      yaw: deg(swap ? -l.yaw : l.yaw),
      back: mm(l.back),
      shoulder: [100, 0, 40],
    });
    const slot = swap ? (l.slot === 'left' ? 'right' : 'left') : l.slot;
    const y = image([0, l.y + l.at, 0])[1];
    const strap = strapOf({ slot, wrap: l.wrap, at: { axis: 'y', value: mm(y) } });
    const part = partOf(tubeOf('bar', [bar(600), bar(-600)], 40));
    return strapsOf(cageOf(seat, strap), partsByName(part)).straps[0] as StrapFigures;
  };
  const numbers = (f: StrapFigures) =>
    [f.drop, f.dropFromShoulder, f.spread, f.skew, f.length, f.freeRun].map((each) => each ?? -1);
  const near = (a: readonly number[], b: readonly number[]): void =>
    a.forEach((each, i) => expect(Math.abs(each - (b[i] ?? Number.NaN))).toBeLessThan(1e-7));

  it('has the same figures in the mirror, and its points mirrored', () => {
    fc.assert(
      fc.property(layouts, (layout) => {
        const one = build(layout, (p) => p, false);
        const two = build(layout, mirrorY, true);
        near(numbers(one), numbers(two));
        expect(two.contact === null).toBe(one.contact === null);
        if (one.contact !== null && two.contact !== null) {
          expect(distance(mirrorY(one.contact), two.contact)).toBeLessThan(1e-7);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('has the same figures wherever the car stands', () => {
    fc.assert(
      fc.property(layouts, coordinate(-3000, 3000), coordinate(-500, 500), (layout, dx, dz) => {
        const one = build(layout, (p) => p, false);
        const two = build(layout, (p) => [p[0] + dx, p[1], p[2] + dz], false);
        near(numbers(one), numbers(two));
      }),
      { numRuns: 200 },
    );
  });

  it('touches the bar and does not cut through it', () => {
    fc.assert(
      fc.property(layouts, (layout) => {
        const f = build(layout, (p) => p, false);
        if (f.start === null || f.contact === null || f.barPoint === null) return;
        expect(distance(f.contact, f.barPoint)).toBeCloseTo(20, 6);
        const [p, s] = [(layout.plan * Math.PI) / 180, (layout.slope * Math.PI) / 180];
        const along: Vec3 = [Math.sin(p) * Math.cos(s), Math.cos(p) * Math.cos(s), Math.sin(s)];
        const line = tubeOf('bar', [
          [f.barPoint[0] - 900 * along[0], f.barPoint[1] - 900 * along[1], f.barPoint[2] - 900 * along[2]],
          [f.barPoint[0] + 900 * along[0], f.barPoint[1] + 900 * along[1], f.barPoint[2] + 900 * along[2]],
        ]).centreline;
        if (line === null) return;
        for (const share of [0, 0.25, 0.5, 0.75, 0.95, 1]) {
          const q = f.start.map((c, i) => c + share * ((f.contact?.[i] ?? 0) - c)) as unknown as Vec3;
          expect(nearestOn(line, q).distance).toBeGreaterThan(20 - 1e-6);
        }
      }),
      { numRuns: 200 },
    );
  });
});
