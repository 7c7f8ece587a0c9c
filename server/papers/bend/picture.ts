/** The bent tube alone, looked at square to its bends: its bends and ends named, its check dimensions lettered. */
import type { Centreline } from '../../centreline/centreline';
import { arcPoint } from '../../centreline/piece';
import { pointAt } from '../../centreline/query';
import type { Vec3 } from '../../centreline/vector';
import { addScaled, cross, dot, norm, scale, sub, unit } from '../../centreline/vector';
import { drawCage } from '../../drawing/drawing';
import type { Mark } from '../../drawing/marks';
import type { Scene } from '../../drawing/scene';
import type { View } from '../../drawing/view';
import type { Part, Shape } from '../../geometry/shape';
import { arcsOf, isFlat } from './stick';

/** Millimetres of paper. */
const WIDTH = 180;
const HEIGHT = 92;

/** Square to the bends as well as can be: the normal of the whole, each bend with what it turns. */
function faceOn(line: Centreline): View | null {
  const arcs = arcsOf(line);
  const largest = [...arcs].sort((a, b) => b.angle - a.angle)[0];
  if (largest === undefined) return null;
  const normal = unit(
    arcs.reduce<Vec3>(
      (sum, { axis, angle }) => addScaled(sum, axis, dot(axis, largest.axis) < 0 ? -angle : angle),
      [0, 0, 0],
    ),
  );
  if (norm(normal) < 0.5) return null;
  // Up on the picture is up in the car; of a tube that lies level, forward.
  const upward = ([0, 0, 1] as const)[2] * Math.abs(normal[2]) > 0.94 ? ([1, 0, 0] as const) : ([0, 0, 1] as const);
  const up = unit(addScaled(upward, normal, -dot(upward, normal)));
  // The tube's END 1 is on the left.
  const right = cross(up, normal);
  const run = sub(pointAt(line, line.length).point, pointAt(line, 0).point);
  return dot(run, right) < 0
    ? { right: scale(right, -1), up, toward: scale(normal, -1) }
    : { right, up, toward: normal };
}

/** What is lettered on the picture. */
export interface Lettered {
  readonly letter: string;
  readonly ends: readonly [Vec3, Vec3];
}

const OFFSETS = [0, 0, 0, 0] as const;

function marksOf(line: Centreline, lettered: readonly Lettered[]): readonly Mark[] {
  const bends = arcsOf(line).map((arc, i): Mark => {
    const at = arcPoint(arc, arc.angle / 2);
    return { kind: 'spot', what: 'bend', of: [], says: `bend ${String(i + 1)}`, value: i + 1, at };
  });
  const ends = [0, line.length].map((station, i): Mark => {
    const at = pointAt(line, station).point;
    return { kind: 'spot', what: 'end', of: [], says: `END ${String(i + 1)}`, value: i + 1, at };
  });
  const checks = lettered.map(({ letter, ends: [from, to] }, i): Mark => {
    const value = norm(sub(to, from));
    return { kind: 'distance', what: 'check', of: [], says: letter, value, from, to, offset: OFFSETS[i] ?? 0 };
  });
  return [...ends, ...bends, ...checks];
}

/** One picture of a flat tube; of one that is bent in several planes a second, square to the first. */
export function bendPictures(part: Part, shape: Shape, lettered: readonly Lettered[]): readonly Scene[] {
  const line = part.centreline;
  const face = line === null ? null : faceOn(line);
  if (line === null || face === null) return [];
  const alone: Shape = {
    ...shape,
    parts: new Map([[part.name, part]]),
    seats: [],
    straps: [],
    spaces: [],
    cage: { ...shape.cage, things: new Map() },
  };
  const draw = (view: View, title: string, marks: readonly Mark[]): Scene =>
    drawCage(alone, { view, title, width: WIDTH, height: HEIGHT, marks }).scene;
  const first = draw(face, 'Square to the bends', marksOf(line, lettered));
  if (isFlat(arcsOf(line))) return [first];
  const turned: View = { right: face.right, up: scale(face.toward, -1), toward: face.up };
  return [first, draw(turned, 'The same from above it, turned by a quarter', marksOf(line, []))];
}
