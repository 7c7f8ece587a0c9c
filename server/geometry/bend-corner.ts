/** Nodes on the corner of a bend: the tube cuts that corner, so nothing of it is there. */
import type { Tube } from '../cage/cage';
import { STRAIGHT_ON } from '../centreline/build';

/** Without a section: what is this near to the centreline is on it, mm. */
const ON_CENTRELINE = 0.5;

/**
 * Whether a node is the corner of a bend of the tube, and stands clear of it: farther from its centreline than its
 * radius. Between the corner and the middle of the bend are T · tan(angle / 4), with the tangent length T.
 */
export function isBendCorner(tube: Tube, node: string | null): boolean {
  if (node === null || tube.centreline === null) return false;
  const clear = tube.section === null ? ON_CENTRELINE : tube.section.od / 2;
  return tube.corners.some(
    ({ index, angle, tangentLength }) =>
      tube.path[index] === node && angle > STRAIGHT_ON && (tangentLength ?? 0) * Math.tan(angle / 4) > clear,
  );
}
