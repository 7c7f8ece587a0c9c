/** Where a hand drags a node to. */
import { Ray, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { draggedTo, flattest, nearestWay, stepOf, stepped, waysOf, type Way } from '../../client/view-web/move';

const ray = (from: readonly [number, number, number], to: readonly [number, number, number]) =>
  new Ray(new Vector3(...from), new Vector3(...to).sub(new Vector3(...from)).normalize());
const all = waysOf({ axes: ['x', 'y', 'z'], along: null });
const only = (axis: Way['axis']) => all.filter((way) => way.axis === axis);

describe('ways', () => {
  it('are the axes that are numbers in the text, and the tube that it slides on', () => {
    expect(waysOf({ axes: [], along: null })).toEqual([]);
    expect(waysOf({ axes: ['y'], along: null }).map(({ axis }) => axis)).toEqual(['y']);
    const [slide] = waysOf({ axes: [], along: [0, 3, 4] });
    expect(slide?.axis).toBe('along');
    expect(slide?.unit.length()).toBeCloseTo(1, 12);
    expect(waysOf({ axes: [], along: [0, 0, 0] })).toEqual([]);
  });

  it('of three the two that lie flattest in the picture are dragged', () => {
    expect(flattest(all, new Vector3(0, 1, 0)).map(({ axis }) => axis)).toEqual(['x', 'z']);
    expect(flattest(all, new Vector3(0.2, 0.1, 0.97)).map(({ axis }) => axis)).toEqual(['y', 'x']);
    expect(flattest(only('x'), new Vector3(1, 0, 0))).toEqual(only('x'));
  });
});

describe('dragging', () => {
  const start = [100, 200, 300] as const;

  it('in a plane follows the pointer, in whole steps, and leaves the third coordinate', () => {
    // Seen from the left, square on: a ray along -y meets the plane where it points.
    const to = draggedTo(
      start,
      flattest(all, new Vector3(0, 1, 0)),
      ray([100, 5000, 300], [100, 0, 300]),
      ray([142.4, 5000, 271.8], [142.4, 0, 271.8]),
      1,
    );
    expect(to).toEqual([142, 200, 272]);
  });

  it('along one axis leaves the other two, wherever the pointer goes', () => {
    const to = draggedTo(
      start,
      only('z'),
      ray([100, 5000, 300], [100, 0, 300]),
      ray([400, 5000, 333.3], [400, 0, 333.3]),
      10,
    );
    expect(to).toEqual([100, 200, 330]);
  });

  it('goes by how far the hand moved, not by where it gripped', () => {
    const to = draggedTo(
      start,
      only('x'),
      ray([107, 5000, 300], [107, 0, 300]),
      ray([127, 5000, 300], [127, 0, 300]),
      1,
    );
    expect(to).toEqual([120, 200, 300]);
  });

  it('does nothing along the line of sight, where a pixel would be a mile', () => {
    expect(
      draggedTo(start, only('y'), ray([100, 5000, 300], [100, 0, 300]), ray([100, 5000, 300], [100, 0, 300]), 1),
    ).toBeNull();
    expect(draggedTo(start, [], ray([0, 0, 0], [1, 0, 0]), ray([0, 0, 0], [1, 0, 0]), 1)).toBeNull();
  });

  it('follows a tube that slopes', () => {
    const [slide] = waysOf({ axes: [], along: [1, 0, 1] });
    if (!slide) throw new Error('there is a way');
    const to = draggedTo([0, 0, 0], [slide], ray([0, 5000, 0], [0, 0, 0]), ray([100, 5000, 100], [100, 0, 100]), 1);
    expect(Math.hypot(...(to ?? []))).toBeCloseTo(141, 9);
    expect(to?.[0]).toBeCloseTo(to?.[2] ?? NaN, 9);
  });
});

describe('keys', () => {
  it('move to the next whole step, along the axis that runs that way in the picture', () => {
    const found = nearestWay(all, new Vector3(-0.9, 0.1, 0.3));
    expect(found?.way.axis).toBe('x');
    expect(found?.sign).toBe(-1);
    const [x] = only('x');
    if (!x) throw new Error('there is a way');
    expect(stepped([100.4, 0, 0], x, 1, 1)[0]).toBeCloseTo(101, 9);
    expect(nearestWay(only('y'), new Vector3(1, 0, 0))).toBeNull();
  });

  it('go in millimetres or in sixteenths of an inch of 25.4 mm', () => {
    expect(stepOf('mm', false)).toBe(1);
    expect(stepOf('mm', true)).toBe(10);
    // International yard and pound agreement, 1959: one inch is 25.4 mm.
    expect(stepOf('in', false) * 16).toBeCloseTo(25.4, 12);
  });
});
