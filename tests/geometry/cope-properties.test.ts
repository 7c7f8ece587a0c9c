/** What holds for every cope: it does not care where it stands, and mirrors as the car does. Nothing makes it throw. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pointAt } from '../../server/centreline/query';
import { mirrorCentreline } from '../support/mirrored';
import type { Vec3 } from '../../server/centreline/vector';
import { add, cross, dot, mirrorY, scale, unit } from '../../server/centreline/vector';
import { clockFrame } from '../../server/geometry/clock';
import type { Cope } from '../../server/geometry/cope';
import { cope, copeCurve } from '../../server/geometry/cope';
import { footprint } from '../../server/geometry/cope-hosts';
import type { ChildEnd, Host, TubeHost } from '../../server/geometry/setback';
import { anyDirection, between, bentOnce, endOf, leaning, line, random, through } from './joint-maker';

/** A joint on a bent tube, in line or beside, on a leg, an arc or across. */
function anyJoint(roll: () => number): { readonly child: ChildEnd; readonly host: TubeHost; readonly bend: number } {
  const radius = between(roll, 15, 30);
  const bend = radius * between(roll, 3, 7);
  const c = bentOnce(roll, bend);
  const arc = c.pieces.find((piece) => piece.kind === 'arc');
  const station = (arc?.start ?? 0) + (arc?.length ?? 0) * between(roll, -0.5, 1.5);
  const on = pointAt(c, station);
  const away = leaning(roll, on.tangent, between(roll, 0.6, Math.PI - 0.6));
  const r = radius * between(roll, 0.35, 0.97);
  const beside = between(roll, -1, 1) * (radius * 0.97 - r);
  const origin = add(on.point, scale(unit(cross(on.tangent, away)), beside));
  return { child: endOf(origin, away, r, 1.8, 150), host: through(c, radius, station), bend };
}

const figuresOf = (made: Cope): readonly (number | null)[] => [
  made.minCut,
  made.maxCut,
  made.minOuter,
  made.maxOuter,
  made.depth,
  made.saddleLength,
  made.maxGap,
  made.includedAngle,
  made.offset,
  made.overhang,
];

function expectAlike(a: readonly (number | null)[], b: readonly (number | null)[], within: number): void {
  expect(a.map((v) => v === null)).toEqual(b.map((v) => v === null));
  const worst = Math.max(0, ...a.map((v, i) => Math.abs((v ?? 0) - (b[i] ?? 0))));
  expect(worst).toBeLessThan(within);
}

describe('a cope', () => {
  it('has mirrored ordinates in the mirror: clock φ there is 360 - φ here', () => {
    const roll = random(51);
    for (let i = 0; i < 60; i++) {
      const { child, host } = anyJoint(roll);
      const frame = clockFrame(mirrorY(child.away));
      const image: ChildEnd = {
        ...child,
        origin: mirrorY(child.origin),
        away: mirrorY(child.away),
        zero: frame.zero.vector,
        quarter: frame.quarter,
      };
      const one = cope(child, [host]);
      const other = cope(image, [{ ...host, centreline: mirrorCentreline(host.centreline) }]);
      expectAlike(figuresOf(other), figuresOf(one), 1e-8);
      for (const key of ['cut', 'outer', 'inner', 'gap'] as const) {
        const here = one.ordinates.map((o) => o[key]);
        const there = [...other.ordinates].reverse().map((o) => o[key]);
        expectAlike(there, here, 1e-7);
      }
    }
  });

  it('is the same wherever the car stands and however it is turned', () => {
    const roll = random(52);
    for (let i = 0; i < 60; i++) {
      const { child, host, bend } = anyJoint(roll);
      const x = anyDirection(roll);
      const y = unit(cross(x, anyDirection(roll)));
      const z = cross(x, y);
      const by: Vec3 = [between(roll, -2000, 2000), between(roll, -2000, 2000), between(roll, -2000, 2000)];
      const turned = (v: Vec3): Vec3 => [dot(v, x), dot(v, y), dot(v, z)];
      const moved = (p: Vec3): Vec3 => add(turned(p), by);
      const there: ChildEnd = {
        ...child,
        origin: moved(child.origin),
        away: turned(child.away),
        zero: turned(child.zero),
        quarter: turned(child.quarter),
      };
      const c = line(host.centreline.points.map(moved), bend);
      const one = cope(child, [host]);
      const other = cope(there, [{ ...host, centreline: c }]);
      expectAlike(figuresOf(other), figuresOf(one), 1e-6);
      for (const key of ['cut', 'outer', 'inner', 'gap'] as const) {
        expectAlike(
          other.ordinates.map((o) => o[key]),
          one.ordinates.map((o) => o[key]),
          1e-6,
        );
      }
    }
  });

  it('is the same when its host runs the other way', () => {
    const roll = random(53);
    for (let i = 0; i < 40; i++) {
      const { child, host, bend } = anyJoint(roll);
      const back = line([...host.centreline.points].reverse(), bend);
      const other = cope(child, [{ ...host, centreline: back, station: back.length - host.station }]);
      expectAlike(figuresOf(other), figuresOf(cope(child, [host])), 1e-6);
    }
  });

  it('of several hosts is the largest of theirs, in any order', () => {
    const roll = random(54);
    for (let i = 0; i < 40; i++) {
      const { child, host } = anyJoint(roll);
      const away = leaning(roll, child.away, between(roll, 0.8, 1.4));
      const other: TubeHost = {
        ...through(line([child.origin, add(child.origin, scale(away, 400))]), host.radius * 0.8, 0),
        from: 0,
      };
      const both = copeCurve(child, [host, other]);
      const turned = copeCurve(child, [other, host]);
      const one = copeCurve(child, [host]);
      const two = copeCurve(child, [other]);
      for (let k = 0; k < 36; k++) {
        const clock = (k * Math.PI) / 18;
        const s = both.outer(clock);
        expect(turned.outer(clock)).toBe(s);
        expect(turned.cut(clock)).toBe(both.cut(clock));
        expect(s ?? Infinity).toBeGreaterThanOrEqual(one.outer(clock) ?? -Infinity);
        const largest = Math.max(one.outer(clock) ?? -Infinity, two.outer(clock) ?? -Infinity);
        expect(s ?? -Infinity).toBeLessThanOrEqual(largest);
      }
    }
  });

  it('obeys: inner and outer within the cut, gap not negative, 37 ordinates that close', () => {
    const roll = random(55);
    for (let i = 0; i < 60; i++) {
      const { child, host } = anyJoint(roll);
      const { ordinates, minCut, maxCut, maxGap } = cope(child, [host]);
      expect(ordinates).toHaveLength(37);
      expect({ ...ordinates[36], clock: 0 }).toEqual(ordinates[0]);
      for (const o of ordinates) {
        if (o.cut === null) continue;
        expect(o.cut).toBeGreaterThanOrEqual(Math.max(o.outer ?? -Infinity, o.inner ?? -Infinity));
        expect(o.gap).toBeGreaterThanOrEqual(0);
        if (minCut === null || maxCut === null || maxGap === null) continue;
        expect(o.cut).toBeGreaterThanOrEqual(minCut - 1e-9);
        expect(o.cut).toBeLessThanOrEqual(maxCut + 1e-9);
        expect(o.gap ?? 0).toBeLessThanOrEqual(maxGap + 1e-9);
      }
    }
  });
});

describe('nothing throws, nothing hangs', () => {
  const number = fc.oneof(
    fc.double({ min: -1000, max: 1000, noNaN: true }),
    fc.constantFrom(0, -0, 1, 1e-300, 1e300, -1e12, NaN, Infinity, -Infinity),
  );
  const vector = fc.tuple(number, number, number);
  const orNone = fc.option(number, { nil: null });
  const sound = line(
    [
      [0, 0, 0],
      [0, 300, 0],
      [0, 300, 300],
    ],
    100,
  );

  it('whatever the numbers are', () => {
    const child = fc.record({
      origin: vector,
      away: fc.oneof(vector, fc.constant<Vec3>([0, 1, 0])),
      zero: vector,
      quarter: vector,
      outerRadius: number,
      innerRadius: number,
      limit: number,
    });
    const tube = fc.record({
      kind: fc.constant('tube' as const),
      centreline: fc.constantFrom(sound, { pieces: [], length: 0, points: [] }),
      radius: number,
      station: number,
      from: orNone,
      to: orNone,
    });
    const plane = fc.record({ kind: fc.constant('plane' as const), point: vector, normal: vector });
    fc.assert(
      fc.property(child, fc.array(fc.oneof(tube, plane), { maxLength: 3 }), (c: ChildEnd, hosts: readonly Host[]) => {
        const made = cope(c, hosts);
        expect(made.ordinates).toHaveLength(37);
        for (const value of [...figuresOf(made), ...made.ordinates.flatMap((o) => [o.cut, o.outer, o.inner, o.gap])]) {
          expect(value === null || Number.isFinite(value)).toBe(true);
        }
        footprint(c, hosts, 0);
      }),
      { seed: 56, numRuns: 600 },
    );
  }, 60_000);
});
