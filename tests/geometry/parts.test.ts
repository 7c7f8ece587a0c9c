/**
 * The language page's own example, figure by figure, from closed forms: the two-cylinder quadratic for set-backs, the
 * handbook's bend allowance and tangent lengths for the hoop, mass per metre from pi (d - t) t · density.
 */
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../server/centreline/vector';
import { add, addScaled, angleBetween, cross, dot, norm, scale, sub, unit } from '../../server/centreline/vector';
import { clockFrame } from '../../server/geometry/clock';
import { shapeOf } from '../../server/geometry/index';
import type { Part, Shape } from '../../server/geometry/shape';
import { CarMaker, die, OPEN } from './car-maker';

const LEAN = (3 * Math.PI) / 180;
/** In the hoop's plane: at (0, 0, 118), leaning 3 degrees aft. */
const inHoop = (out: number, up: number): Vec3 => [-Math.sin(LEAN) * up, out, 118 + Math.cos(LEAN) * up];
const CLR = 135;
const BAR_CLR = 114;

const foot = inHoop(596, 0);
const waist = inHoop(622, 470);
const crown = inHoop(455, 1010);
const crownRight = inHoop(-455, 1010);
/** The turns of the hoop's corners. */
const turn = (a: Vec3, b: Vec3, c: Vec3): number => angleBetween(sub(b, a), sub(c, b));
const waistTurn = turn(foot, waist, crown);
const crownTurn = turn(waist, crown, crownRight);
const upper = unit(sub(crown, waist));
/** 60 before the bend at the crown begins. */
const stayTop = addScaled(crown, upper, -(CLR * Math.tan(crownTurn / 2) + 60));
const stayFoot: Vec3 = [-760, 520, 430];
const barEnd = addScaled(waist, upper, (775 - waist[2]) / upper[2]);
const barBend: Vec3 = [-190, 560, 775];

const car = (): CarMaker =>
  new CarMaker()
    .nodes('foot', foot)
    .nodes('waist', waist)
    .nodes('crown', crown)
    .nodes('stay-top', stayTop)
    .nodes('stay-foot', stayFoot)
    .nodes('bar-end', barEnd)
    .nodes('bar-bend', barBend)
    .tube('backstay.left', ['stay-top.left', 'stay-foot.left'], { role: 'backstay' })
    .tube('backstay.right', ['stay-top.right', 'stay-foot.right'], { role: 'backstay' })
    .foot('hoop-foot.left', 'foot.left')
    .foot('hoop-foot.right', 'foot.right')
    .foot('stay-plate.left', 'stay-foot.left', 'square')
    .foot('stay-plate.right', 'stay-foot.right', 'square')
    .tube('main-hoop', ['foot.left', 'waist.left', 'crown.left', 'crown.right', 'waist.right', 'foot.right'], {
      od: 45,
      die: die(45, CLR, { grip: 90, between: 60 }),
      role: 'main-rollbar',
    })
    .tube('harness-bar', ['bar-end.left', 'bar-bend.left', 'bar-bend.right', 'bar-end.right'], {
      die: die(38, BAR_CLR, { grip: 75, between: 50 }),
      role: 'harness-bar',
    });

const part = (shape: Shape, name: string): Part => {
  const found = shape.parts.get(name);
  if (found === undefined) throw new Error(`no part ${name}`);
  return found;
};

/** Set-back of a generator on an endless straight host through E: the larger root of |w - (w · t) t|² = R². */
function straightHost(u: Vec3, t: Vec3, radius: number, rho: number, clock: number, travel: Vec3): number {
  const frame = clockFrame(travel);
  const d = add(scale(frame.zero.vector, rho * Math.cos(clock)), scale(frame.quarter, rho * Math.sin(clock)));
  const flat = (v: Vec3): Vec3 => addScaled(v, t, -dot(v, t));
  const [p, q] = [flat(d), flat(u)];
  const [a, b, c] = [dot(q, q), dot(p, q), dot(p, p) - radius * radius];
  return (-b + Math.sqrt(b * b - a * c)) / a;
}

describe('the example of the language page', () => {
  const shape = shapeOf(car().cage());

  it('has nothing to complain of in its joints, bends and bodies', () => {
    const about = shape.findings
      .map((f) => f.code)
      .filter((code) => /^(end|cope|place|bend|leg|tube|foot|joint)\./.test(code));
    expect(about).toEqual([]);
  });

  it('bends the hoop by the handbook', () => {
    const hoop = part(shape, 'main-hoop');
    expect(hoop.bends.map((b) => b.node)).toEqual(['waist.left', 'crown.left', 'crown.right', 'waist.right']);
    for (const [i, angle] of [waistTurn, crownTurn, crownTurn, waistTurn].entries()) {
      expect(hoop.bends[i]?.angle).toBeCloseTo(angle, 9);
      expect(hoop.bends[i]?.arcLength).toBeCloseTo(((0.017453292519943295 * CLR * angle) / Math.PI) * 180, 6);
    }
    // All in one plane and the same way round.
    expect(hoop.bends.map((b) => b.rotation)).toEqual([null, ...[0, 0, 0].map(() => expect.closeTo(0, 9) as number)]);
    const [low, high] = [CLR * Math.tan(waistTurn / 2), CLR * Math.tan(crownTurn / 2)];
    const straights = [
      norm(sub(waist, foot)) - low,
      norm(sub(crown, waist)) - low - high,
      norm(sub(crownRight, crown)) - 2 * high,
    ];
    expect(hoop.bends[0]?.straightBefore).toBeCloseTo(straights[0] ?? NaN, 6);
    expect(hoop.bends[1]?.straightBefore).toBeCloseTo(straights[1] ?? NaN, 6);
    expect(hoop.bends[2]?.straightBefore).toBeCloseTo(straights[2] ?? NaN, 6);
    const length =
      2 * ((straights[0] ?? NaN) + (straights[1] ?? NaN) + CLR * (waistTurn + crownTurn)) + (straights[2] ?? NaN);
    expect(hoop.centrelineLength).toBeCloseTo(length, 6);
    // EN 10219-2: (45 - 2.5) 2.5 pi mm², 7850 kg/m³.
    expect(hoop.mass).toBeCloseTo(((Math.PI * 42.5 * 2.5 * 7850) / 1e6) * (length / 1000), 6);
  });

  it('saws the feet of the hoop by the level plate: the leg leans 3 degrees aft and a little outward', () => {
    const e = part(shape, 'main-hoop').ends[0];
    const leg = unit(sub(waist, foot));
    const off = Math.acos(leg[2]);
    expect(e.fit).toBe('foot');
    expect(e.sawAngle).toBeCloseTo(off, 9);
    expect(e.minCut).toBeCloseTo(-22.5 * Math.tan(off), 9);
    expect(e.depth).toBeCloseTo(45 * Math.tan(off), 9);
    // Edge: the ellipse's length is between those of its inscribed and circumscribed circles.
    expect(e.saddleLength).toBeGreaterThan(2 * Math.PI * 22.5);
    expect(e.saddleLength).toBeLessThan((2 * Math.PI * 22.5) / Math.cos(off));
    expect(part(shape, 'main-hoop').cutLength).toBeCloseTo(
      (part(shape, 'main-hoop').centrelineLength ?? NaN) + 45 * Math.tan(off),
      6,
    );
  });

  it.each([
    ['backstay.left', 0, stayTop, stayFoot],
    ['harness-bar', 0, barEnd, barBend],
  ] as const)('copes %s to the hoop', (name, which, from, to) => {
    const e = part(shape, name).ends[which];
    const u = unit(sub(to, from));
    expect(e.fit).toBe('cope');
    expect(e.hosts).toEqual(['main-hoop']);
    expect(e.offset).toBeCloseTo(0, 7);
    const angle = angleBetween(u, upper);
    expect(e.includedAngle).toBeCloseTo(Math.min(angle, Math.PI - angle), 9);
    for (const o of e.ordinates) {
      const at = (rho: number): number => straightHost(u, upper, 22.5, rho, o.clock, u);
      expect(o.outer).toBeCloseTo(at(19), 6);
      expect(o.inner).toBeCloseTo(at(16.5), 6);
      let most = -Infinity;
      for (let i = 0; i <= 100; i++) most = Math.max(most, at(16.5 + (2.5 * i) / 100));
      expect(o.cut).toBeCloseTo(most, 3);
    }
  });

  it('orders the harness bar longer, because its ends are too short for the die', () => {
    const bar = part(shape, 'harness-bar');
    const bend = turn(barEnd, barBend, [barBend[0], -barBend[1], barBend[2]]);
    const straight = norm(sub(barBend, barEnd)) - BAR_CLR * Math.tan(bend / 2);
    const cut = bar.ends[0].minCut ?? NaN;
    const tail = Math.max(0, 75 - (straight - cut));
    expect(tail).toBeGreaterThan(0);
    expect(bar.stickLength).toBeCloseTo((bar.cutLength ?? NaN) + 2 * tail, 6);
    expect(bar.bends[0]?.startMark).toBeCloseTo(tail + straight - cut, 6);
    expect(bar.ends[0].clockZero?.name).toBe('TOP');
    // The bar runs aft there: seen so, clockwise from the top, 90 degrees is the car's left. The inside lies to the right.
    const quarter = cross(unit(sub(barBend, barEnd)), [0, 0, 1]);
    expect(quarter[1]).toBeGreaterThan(0.9);
    expect(bar.ends[0].bendInsideClock).toBeCloseTo((3 * Math.PI) / 2, 6);
  });

  it('weighs what is welded in, and not what stands in the car already', () => {
    const all = [...shape.parts.values()].reduce((sum, p) => sum + (p.mass ?? NaN), 0);
    expect(shape.mass).toBeCloseTo(all, 9);
    const more = car()
      .node('s1', [300, -500, 200])
      .node('s2', [300, 500, 200])
      .tube('sill', ['s1', 's2'], { existing: true });
    const with_ = shapeOf(more.cage());
    expect(with_.mass).toBeCloseTo(all, 9);
    expect(part(with_, 'sill').mass).toBeGreaterThan(2);
    // It is in the car, so nobody asks where its ends are joined.
    expect(with_.findings.map((f) => f.code)).not.toContain('end.loose');
  });
});

describe('what stands in the car already', () => {
  it('is not cut to what is new, and nothing is guessed', () => {
    const shape = shapeOf(
      new CarMaker()
        .node('o', [0, 0, 0])
        .node('p', [0, 400, 0])
        .node('q', [400, 0, 0])
        .node('e', [0, -19, 0])
        .tube('old', ['p', 'e'], { od: 38, existing: true })
        .tube('new', ['o', 'q'], { od: 38, last: OPEN })
        .cage(),
    );
    expect(part(shape, 'new').ends[0].hosts).toEqual(['old']);
    expect(part(shape, 'old').ends[1].fit).toBe('square');
  });
});
