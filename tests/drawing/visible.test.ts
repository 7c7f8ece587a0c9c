/** What hides what: crossings whose hidden stretch is known from plain geometry. */
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../server/centreline/vector';
import { bodyOf, solidsOf } from '../../server/drawing/body';
import { cutOf, edgesOf } from '../../server/drawing/outline';
import { block, Crowd, rod } from '../../server/drawing/solids';
import { VIEWS } from '../../server/drawing/view';
import { runsOf } from '../../server/drawing/visible';
import { analyse } from '../support/analyse';

/** A tube along y, 40 thick, 200 above one along x, 30 thick. */
const CROSSED = `section above { od 40; wall 2 }
section below { od 30; wall 2 }
node a = (0, -500, 200)
node b = (0, 500, 200)
node c = (-400, 0, 0)
node d = (400, 0, 0)
tube over { section above; path a, b; first open; last open }
tube under { section below; path c, d; first open; last open }
`;

describe('a tube that crosses below another', () => {
  it('is hidden just where the upper one is, seen from above, and nowhere from the front', async () => {
    const { shape } = await analyse(CROSSED);
    const bodies = [...shape.parts.values()].flatMap((part) => bodyOf(part) ?? []);
    const under = bodies.find(({ part }) => part.name === 'under');
    const over = bodies.find(({ part }) => part.name === 'over');
    if (under === undefined || over === undefined) throw new Error('no bodies');
    const view = VIEWS.plan;
    const crowd = new Crowd(bodies.flatMap((body, i) => solidsOf(body, view, i)));
    for (const edge of edgesOf(under, view)) {
      const runs = runsOf(view, crowd, edge, 5);
      expect(runs.map(({ seen }) => seen)).toEqual([true, false, true]);
      const hidden = runs[1]?.points.map(([u]) => u) ?? [];
      expect(Math.min(...hidden)).toBeCloseTo(-20, 0);
      expect(Math.max(...hidden)).toBeCloseTo(20, 0);
    }
    for (const edge of edgesOf(over, view))
      expect(runsOf(view, crowd, edge, 5).map(({ seen }) => seen)).toEqual([true]);
    const front = new Crowd(bodies.flatMap((body, i) => solidsOf(body, VIEWS.front, i)));
    for (const edge of edgesOf(over, VIEWS.front))
      expect(runsOf(VIEWS.front, front, edge, 5).map(({ seen }) => seen)).toEqual([true]);
  });
  it('seen end on is a circle that nothing hides', async () => {
    const { shape } = await analyse(CROSSED);
    const body = [...shape.parts.values()].flatMap((part) => bodyOf(part) ?? [])[1];
    if (body === undefined) throw new Error('no body');
    const view = VIEWS.front;
    const crowd = new Crowd(solidsOf(body, view, 0));
    expect(edgesOf(body, view)).toEqual([]);
    const near = cutOf(body, 1);
    const runs = runsOf(view, crowd, near, 5);
    expect(runs.map(({ seen }) => seen)).toEqual([true]);
    for (const [u, v] of runs[0]?.points ?? []) expect(Math.hypot(u, v)).toBeCloseTo(15, 6);
  });
});

describe('solids', () => {
  const at = (x: number, y: number, z: number): Vec3 => [x, y, z];
  it('say how near they come: a level cylinder, a leaning one, one end on, a box', () => {
    const level = rod(0, at(-100, 0, 50), at(100, 0, 50), 20, false);
    expect(level.depth(0, 0)).toBeCloseTo(70, 9);
    expect(level.depth(0, 12)).toBeCloseTo(50 + 16, 9);
    expect(level.depth(0, 20.01)).toBe(-Infinity);
    expect(level.depth(100.01, 0)).toBe(-Infinity);
    // Leaning by 45 degrees the near side is r √2 above the axis.
    const leaning = rod(0, at(-100, 0, -100), at(100, 0, 100), 10, false);
    expect(leaning.depth(0, 0)).toBeCloseTo(10 * Math.SQRT2, 9);
    const upright = rod(0, at(5, 5, 0), at(5, 5, 300), 10, false);
    expect(upright.depth(5, 14)).toBe(300);
    expect(upright.depth(5, 15.1)).toBe(-Infinity);
    const ball = rod(0, at(0, 0, 0), at(50, 0, 0), 10, true);
    expect(ball.depth(-6, 0)).toBeCloseTo(8, 9);
    const box = block(0, at(0, 0, 10), [at(30, 0, 0), at(0, 20, 0), at(0, 0, 3)]);
    expect(box.depth(29, -19)).toBeCloseTo(13, 9);
    expect(box.depth(31, 0)).toBe(-Infinity);
  });
});
