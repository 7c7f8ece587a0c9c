/** Meshes of tubes, and of what lies round them: the tube as it is bent and cut, sleeves on it, the space in it. */
import type { Centreline } from '../centreline/centreline';
import { pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { scale } from '../centreline/vector';
import type { BodyEnd } from '../drawing/body';
import { bodyOf } from '../drawing/body';
import { stretchOf } from '../geometry/bodies';
import { clockFrame } from '../geometry/clock';
import type { Part } from '../geometry/shape';
import type { Mesh } from './mesh';
import type { PipeEnd } from './cut';
import type { Fineness } from './pipe';
import { pipeMesh, TO_VIEW } from './pipe';

const cutEnd = ({ origin, away, zero, quarter, setback, bored, deepest }: BodyEnd): PipeEnd => ({
  origin,
  away,
  zero,
  quarter,
  outer: setback,
  inner: bored,
  deepest,
});

/** The tube as it is bent and cut; null where its centreline or its section is not known. */
export function tubeMesh(part: Part, fineness: Fineness = TO_VIEW): Mesh | null {
  const body = bodyOf(part);
  const wall = part.tube.section?.wall ?? null;
  if (body === null || wall === null || !(wall > 0 && wall < body.radius)) return null;
  const { pieces, radius, ends } = body;
  return pipeMesh({ pieces, outer: radius, inner: radius - wall, ends: [cutEnd(ends[0]), cutEnd(ends[1])] }, fineness);
}

/** What is inside a tube, as a body that lies just outside of it, mm, so that its tint is seen. */
const ROUND_IT = 0.5;

/** The tube's bore as it is tinted: a solid a little thicker than the tube. */
export function spaceMesh(part: Part, fineness: Fineness = TO_VIEW): Mesh | null {
  const body = bodyOf(part);
  if (body === null) return null;
  const { pieces, radius, ends } = body;
  return pipeMesh({ pieces, outer: radius + ROUND_IT, inner: 0, ends: [cutEnd(ends[0]), cutEnd(ends[1])] }, fineness);
}

/** A square end of a stretch of a centreline. */
function squareEnd(at: Vec3, travel: Vec3, last: boolean): PipeEnd {
  const { zero, quarter } = clockFrame(travel);
  const none = (): number => 0;
  const away = scale(travel, last ? -1 : 1);
  return { origin: at, away, zero: zero.vector, quarter, outer: none, inner: none, deepest: 0 };
}

/** A sleeve round a centreline between two stations, mm: collars, padding. Null where nothing of it lies on the line. */
export function sleeveMesh(
  line: Centreline,
  from: number,
  to: number,
  inner: number,
  outer: number,
  fineness: Fineness = TO_VIEW,
): Mesh | null {
  const stretch = stretchOf(line, Math.max(0, from), Math.min(line.length, to));
  if (stretch === null) return null;
  const [first, last] = [pointAt(stretch, 0), pointAt(stretch, stretch.length)];
  return pipeMesh(
    {
      pieces: stretch.pieces,
      outer,
      inner,
      ends: [squareEnd(first.point, first.tangent, false), squareEnd(last.point, last.tangent, true)],
    },
    fineness,
  );
}
