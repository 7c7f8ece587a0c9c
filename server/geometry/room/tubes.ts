/** What stands round a bar, as straight round stretches: legs as they are, bends as short chords. Millimetres. */
import type { Vec3 } from '../../centreline/vector';
import { addScaled, norm, scale, sub, unit } from '../../centreline/vector';
import { onPiece } from '../../centreline/piece';
import type { Part } from '../shape';
import { bodyStretch } from '../stretch';
import type { Frame } from './frame';
import { pointIn } from './frame';

/** A bend is taken as chords of at most this turn, set outward by half of what they cut off: 0.03 mm off at 150 mm. */
const CHORD = Math.PI / 60;
/** A leg that stands on a plate goes on so far: nothing comes past the plate. */
const INTO_FLOOR = 3000;

/** One stretch: flat ends, each of them `more` beyond its end. */
export interface Stretch3 {
  readonly name: string;
  readonly a: Vec3;
  readonly b: Vec3;
  readonly radius: number;
  readonly more: number;
  /** The leg or bend that it is a chord of: the same object for all its chords. */
  readonly piece: object;
}

/** A whole part, from long point to long point. `standing`: legs on plates go on through the floor. */
export function stretchesOf(part: Part, standing: boolean): readonly Stretch3[] {
  const { centreline, name, tube } = part;
  const radius = (tube.section?.od ?? 0) / 2;
  const body = bodyStretch(part);
  if (centreline === null || body === null || !(radius > 0)) return [];
  const last = centreline.pieces.length - 1;
  return centreline.pieces.flatMap((piece, i): readonly Stretch3[] => {
    // The end legs go on beyond their nodes, or stop short of them.
    const from = i === 0 ? body.from : Math.max(body.from, piece.start);
    const to = i === last ? body.to : Math.min(body.to, piece.start + piece.length);
    if (!(to > from)) return [];
    const at = (station: number): Vec3 => onPiece(piece, station - piece.start).point;
    if (piece.kind === 'leg') {
      const floor = (end: 0 | 1): number => (standing && part.ends[end].fit === 'foot' ? INTO_FLOOR : 0);
      const a = addScaled(at(from), piece.direction, i === 0 ? -floor(0) : 0);
      const b = addScaled(at(to), piece.direction, i === last ? floor(1) : 0);
      return [{ name, a, b, radius, more: 0, piece }];
    }
    const count = Math.max(1, Math.ceil((to - from) / piece.radius / CHORD));
    const half = (to - from) / piece.radius / count / 2;
    const out = (p: Vec3): Vec3 => addScaled(p, unit(sub(p, piece.centre)), (piece.radius * (1 - Math.cos(half))) / 2);
    return Array.from({ length: count }, (_, k) => ({
      name,
      a: out(at(from + ((to - from) * k) / count)),
      b: out(at(from + ((to - from) * (k + 1)) / count)),
      radius,
      more: radius * Math.tan(half),
      piece,
    }));
  });
}

/** Numbers of a stretch: its begin, its unit direction, its length, its radius, how far it goes on beyond both ends. */
export const STRIDE = 9;

/** Chords of one bend, or a leg alone, in a ball: what is far from it is far from all of them. */
export interface Group {
  readonly from: number;
  readonly to: number;
  readonly middle: Vec3;
  readonly around: number;
}

/** Stretches as numbers, in a bar's axes. */
export interface Tubes {
  readonly count: number;
  readonly data: Float64Array;
  readonly names: readonly string[];
  readonly groups: readonly Group[];
}

export function tubesIn(frame: Frame, all: readonly Stretch3[]): Tubes {
  const data = new Float64Array(all.length * STRIDE);
  const groups: Group[] = [];
  let from = 0;
  all.forEach(({ a, b, radius, more, piece }, i) => {
    const begin = pointIn(frame, a);
    const way = sub(pointIn(frame, b), begin);
    const length = norm(way);
    const along = length > 0 ? scale(way, 1 / length) : ([0, 0, 1] as const);
    data.set([...begin, ...along, length, radius, more], i * STRIDE);
    if (all[i + 1]?.piece === piece) return;
    groups.push(groupOf(frame, all, from, i + 1));
    from = i + 1;
  });
  return { count: all.length, data, names: all.map(({ name }) => name), groups };
}

function groupOf(frame: Frame, all: readonly Stretch3[], from: number, to: number): Group {
  const own = all.slice(from, to);
  const points = own.flatMap(({ a, b }) => [pointIn(frame, a), pointIn(frame, b)]);
  const middle = points.reduce((sum, p) => addScaled(sum, p, 1 / points.length), [0, 0, 0] as Vec3);
  const thick = own.reduce((most, { radius, more }) => Math.max(most, radius + more), 0);
  const around = points.reduce((most, p) => Math.max(most, norm(sub(p, middle))), 0) + thick;
  return { from, to, middle, around };
}
