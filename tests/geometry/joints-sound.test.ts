/**
 * Whoever is cut to whom: at random joints of two to four ends, on a straight rail, on a bent one, or at a bare node,
 * nothing is left of one tube inside another. What the cuts leave is checked point by point on the tubes' own surface; a
 * joint that cannot be made must be told.
 */
import { describe, expect, it } from 'vitest';
import { pointAt } from '../../server/centreline/query';
import type { Centreline } from '../../server/centreline/centreline';
import type { Vec3 } from '../../server/centreline/vector';
import { add, addScaled, angleBetween, scale } from '../../server/centreline/vector';
import { clockFrame, endLeg } from '../../server/geometry/clock';
import { shapeOf } from '../../server/geometry/index';
import type { Part } from '../../server/geometry/shape';
import { depthIn, solidOf } from '../../server/geometry/solids';
import type { Solid, SolidEnd } from '../../server/geometry/solids';
import { CarMaker, die, OPEN } from './car-maker';
import { anyDirection, between, random } from './joint-maker';

/** A host is one only where it raises a set-back by more than this, mm: so much may be left. */
const LEFT = 0.5;
const SIZES = [30, 38, 38, 38, 40, 45];

function randomJoint(seed: number): CarMaker {
  const roll = random(seed);
  const car = new CarMaker();
  let rail: Centreline | null = null;
  const kind = roll();
  if (kind < 0.6) {
    const bent = kind < 0.25;
    car.node('r1', bent ? [-20, -600, -500] : [0, -600, 0]).node('r2', [bent ? 30 : 0, 600, 0]);
    if (bent) car.node('rc', [0, -60, 0]);
    car.tube('rail', bent ? ['r1', 'rc', 'r2'] : ['r1', 'r2'], { od: 45, die: die(45, 135), first: OPEN, last: OPEN });
    const made = car.cage().things.get('rail');
    rail = made?.kind === 'tube' ? made.centreline : null;
  }
  const count = 2 + Math.floor(roll() * 3);
  const station = (rail?.length ?? 0) * between(roll, 0.4, 0.6);
  for (let i = 0; i < count; i++) {
    const shift = i === 0 ? 0 : between(roll, -70, 70);
    const on = rail === null ? null : pointAt(rail, station + shift);
    let direction = anyDirection(roll);
    while (on !== null && Math.abs(Math.cos(angleBetween(direction, on.tangent))) > 0.8) direction = anyDirection(roll);
    const at: Vec3 = on?.point ?? [0, 0, 0];
    const od = SIZES[Math.floor(roll() * SIZES.length)] ?? 38;
    const names = [`n${String(i)}`, `m${String(i)}`] as const;
    car.node(names[0], at).node(names[1], addScaled(at, direction, between(roll, 350, 500)));
    car.tube(`t${String(i)}`, names, { od, last: OPEN });
  }
  return car;
}

function solid(part: Part): Solid | null {
  const { centreline } = part;
  const section = part.tube.section;
  if (centreline === null || section === null) return null;
  const ends = part.ends.flatMap((end): SolidEnd[] => {
    const leg = endLeg(centreline, end.which);
    if (end.origin === null || end.minCut === null || end.maxCut === null) return [];
    return [
      {
        origin: end.origin,
        away: leg.away,
        frame: clockFrame(leg.travel),
        straight: leg.straight,
        curve: end.curve,
        minCut: end.minCut,
        maxCut: end.maxCut,
      },
    ];
  });
  const [first, last] = ends;
  if (first === undefined || last === undefined) return null;
  return solidOf(centreline, section.od / 2, section.od / 2 - section.wall, [first, last]);
}

/** The deepest that the surface of a tube's first end lies in another. */
function deepest(one: Solid, other: Solid): number {
  const [end] = one.ends;
  let worst = 0;
  for (let c = 0; c < 48; c++) {
    const clock = (2 * Math.PI * c) / 48;
    const cut = end.curve?.cut(clock) ?? null;
    if (cut === null) continue;
    const { zero, quarter } = end.frame;
    const across = add(scale(zero.vector, Math.cos(clock)), scale(quarter, Math.sin(clock)));
    for (let s = 0; s < 120; s += 3) {
      const p = add(addScaled(end.origin, end.away, cut + 0.001 + s), scale(across, one.radius));
      worst = Math.max(worst, depthIn(other, p));
    }
  }
  return worst;
}

describe('random joints', () => {
  it('leave nothing of one tube inside another, or say so', () => {
    let sound = 0;
    for (let seed = 1000; seed < 1120; seed++) {
      const shape = shapeOf(randomJoint(seed).cage());
      if (shape.findings.some((f) => f.code === 'tube.clash')) continue;
      const solids = [...shape.parts.values()].map(solid);
      for (const [i, one] of solids.entries()) {
        for (const [j, other] of solids.entries()) {
          if (i === j || one === null || other === null) continue;
          expect(deepest(one, other), `seed ${String(seed)}, ${String(i)} in ${String(j)}`).toBeLessThan(LEFT);
        }
      }
      if (solids.every((each) => each !== null)) sound += 1;
    }
    // Most of them can be made, and were looked at.
    expect(sound).toBeGreaterThan(80);
  });
});
