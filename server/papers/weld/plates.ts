/** The plates of feet as they stand in the way of a torch. Millimetres. */
import type { Vec3 } from '../../centreline/vector';
import { add, scale } from '../../centreline/vector';
import { platesOf } from '../../drawing/things';
import type { Shape } from '../../geometry/shape';
import type { Obstacle } from './torch';

/** The upper and the lower face of each, as four triangles: what is between them is thinner than any nozzle. */
export const plateObstacles = (shape: Shape): readonly Obstacle[] =>
  platesOf(shape).flatMap(({ foot, centre, halves: [long, wide, thick] }) =>
    [1, -1].flatMap((side): readonly Obstacle[] => {
      const at = (u: number, v: number): Vec3 =>
        add(add(add(centre, scale(thick, side)), scale(long, u)), scale(wide, v));
      const face = (...corners: readonly [Vec3, Vec3, Vec3]): Obstacle => ({
        kind: 'face',
        name: foot.name,
        corners,
        moves: true,
      });
      return [face(at(-1, -1), at(1, -1), at(1, 1)), face(at(-1, -1), at(1, 1), at(-1, 1))];
    }),
  );
