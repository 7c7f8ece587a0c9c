/**
 * An end before another is its host where it raises SOME set-back by more than 0.5 mm (language page, "What ends
 * where"; a set-back is one generator's at one radius, geometry page). Checked by marching along the generators.
 */
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../server/centreline/vector';
import { shapeOf } from '../../server/geometry/index';
import { CarMaker, OPEN, section } from '../geometry/car-maker';
import { clockFace, lastExit, straight } from './measured-by-marching';

describe('an end that raises only the outer set-backs', () => {
  const u: Vec3 = [-300.382437, 164.256918, -201.56758];
  const v: Vec3 = [307.532608, -164.256918, 201.56758];
  const o0: Vec3 = [3.575086, 0, 0];
  const e0: Vec3 = [-299.52256, -332.469444, 218.164814];
  const o1: Vec3 = [6.213585, -1.42583, 1.749704];
  const e1: Vec3 = [-237.870944, 401.044165, 170.393252];
  const shape = shapeOf(
    new CarMaker()
      .node('u', u)
      .node('v', v)
      .node('o0', o0)
      .node('e0', e0)
      .node('o1', o1)
      .node('e1', e1)
      .tube('main', ['v', 'u'], { od: 50, first: OPEN, last: OPEN })
      .tube('before', ['o0', 'e0'], { od: 38, last: OPEN })
      .tube('after', ['o1', 'e1'], { od: 40, last: OPEN })
      .joint(['o0', 'o1'], ['before', 'after'])
      .cage(),
  );
  const end = shape.parts.get('after')?.ends[0];

  it('is a host', () => {
    expect(end?.hosts).toEqual(['main', 'before']);
  });

  it('counts in every figure', () => {
    // E moves onto the nearest point of the main tube's axis: here it lies within 1e-6 of it already.
    const away: Vec3 = [e1[0] - o1[0], e1[1] - o1[1], e1[2] - o1[2]];
    const face = clockFace(away);
    const bodies = [straight(v, u, 25, false), straight(o0, e0, 19, true)];
    const wall = section(40).wall;
    for (const ordinate of end?.ordinates ?? []) {
      const radial = face(ordinate.clock);
      expect(ordinate.outer).toBeCloseTo(lastExit(bodies, o1, away, radial, 20, 100) ?? NaN, 4);
      expect(ordinate.inner).toBeCloseTo(lastExit(bodies, o1, away, radial, 20 - wall, 100) ?? NaN, 4);
    }
    expect(end?.ordinates).toHaveLength(37);
  });
});
