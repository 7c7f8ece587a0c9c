/** What books want to know of a hoop: its plane, its top, its crown bends and its legs. */
import type { Arc, Centreline, Piece } from '../centreline/centreline';
import { pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled } from '../centreline/vector';
import type { FittedPlane } from './flat';
import { offPlane, planeThrough } from './flat';

export interface HoopFigures {
  /** Nearest to the bent centreline; null where the tube is straight. */
  readonly plane: FittedPlane | null;
  /** The greatest distance of the centreline from it, mm. */
  readonly outOfPlane: number;
  /** Height of the centreline's highest point, mm, and its station: the middle of a level top. */
  readonly top: number;
  readonly topStation: number;
  /** The bends next to the top, on the first node's side and on the last's; null: there is none. */
  readonly crowns: readonly [Arc | null, Arc | null];
  /** How many bends lie on each side of the top. */
  readonly bendsBeside: readonly [number, number];
  /** Sum of all bends, radians. */
  readonly turned: number;
}

const isArc = (piece: Piece): piece is Arc => piece.kind === 'arc';

/** The point of an arc `angle` radians on from where it begins. */
const onArc = (arc: Arc, angle: number): Vec3 =>
  addScaled(
    addScaled(arc.centre, arc.fromCentre, arc.radius * Math.cos(angle)),
    arc.tangent,
    arc.radius * Math.sin(angle),
  );

/** The points that decide a height and the greatest distance from a plane: ends of all pieces, thirds of bends, and a bend's own highest point. */
function marks(line: Centreline): readonly { readonly point: Vec3; readonly station: number }[] {
  return line.pieces.flatMap((piece) => {
    const end = piece.start + piece.length;
    const ends = [piece.start, end].map((station) => ({ point: pointAt(line, station).point, station }));
    if (!isArc(piece)) return ends;
    const highest = Math.atan2(piece.tangent[2], piece.fromCentre[2]);
    const inner = [piece.angle / 3, (2 * piece.angle) / 3, ...(highest > 0 && highest < piece.angle ? [highest] : [])];
    return [...ends, ...inner.map((a) => ({ point: onArc(piece, a), station: piece.start + a * piece.radius }))];
  });
}

/** Nodes and weights of the three-point rule of Gauss and Legendre on 0 to 1 (Abramowitz and Stegun, table 25.4). */
const GAUSS = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 8 / 18],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;

/** The plane for which the squared distance, summed along the whole centreline, is least. */
function planeOf(line: Centreline): FittedPlane | null {
  const along = line.pieces.flatMap((piece) =>
    GAUSS.map(([share, weight]) => ({
      point: pointAt(line, piece.start + share * piece.length).point,
      weight: weight * piece.length,
    })),
  );
  return planeThrough(
    along.map(({ point }) => point),
    along.map(({ weight }) => weight),
  );
}

/** Two heights of one level top, mm. */
const LEVEL = 1e-6;

/** Null for a centreline without pieces. */
export function hoopFigures(line: Centreline): HoopFigures | null {
  const points = marks(line);
  if (points.length === 0) return null;
  const arcs = line.pieces.filter(isArc);
  const plane = arcs.length === 0 ? null : planeOf(line);
  const top = Math.max(...points.map(({ point }) => point[2]));
  const highest = points.filter(({ point }) => point[2] >= top - LEVEL).map(({ station }) => station);
  const topStation = (Math.min(...highest) + Math.max(...highest)) / 2;
  const before = arcs.filter((arc) => arc.start + arc.length / 2 < topStation);
  const after = arcs.filter((arc) => arc.start + arc.length / 2 >= topStation);
  return {
    plane,
    outOfPlane: plane === null ? 0 : Math.max(...points.map(({ point }) => Math.abs(offPlane(plane, point)))),
    top,
    topStation,
    crowns: [before[before.length - 1] ?? null, after[0] ?? null],
    bendsBeside: [before.length, after.length],
    turned: arcs.reduce((sum, arc) => sum + arc.angle, 0),
  };
}

/** Bends whose middle lies within this share of the hoop's height below its top belong to its top: a corner in two bends. */
const TOP_SHARE = 0.25;

/** What lies within this share of the hoop's height below its top is at roof level. */
const ROOF_SHARE = 0.15;

/** The height above which a hoop is at roof level, mm. */
export function roofBand(line: Centreline, top: number): number {
  const foot = Math.min(pointAt(line, 0).point[2], pointAt(line, line.length).point[2]);
  return top - ROOF_SHARE * (top - foot);
}

const middleOf = (arc: Arc): Vec3 => onArc(arc, arc.angle / 2);

/** What stands on one side of a hoop's top. */
export interface Flank {
  /** The bend at its top corner, the lowest one of them; null: there is none. */
  readonly corner: Arc | null;
  /** Bends below it. */
  readonly below: number;
}

/**
 * The two sides of a hoop: the lowest bend that still belongs to its top, and how many bends the leg below has. `from` and
 * `to` are the stations that bound the side; a side without a bend near the top has its highest bend for a corner.
 */
export function flankOf(line: Centreline, top: number, from: number, to: number): Flank {
  const arcs = line.pieces
    .filter(isArc)
    .filter(({ start, length }) => start + length / 2 >= from && start + length / 2 <= to);
  if (arcs.length === 0) return { corner: null, below: 0 };
  const foot = Math.min(pointAt(line, from).point[2], pointAt(line, to).point[2]);
  const byHeight = [...arcs].sort((a, b) => middleOf(b)[2] - middleOf(a)[2]);
  const tops = byHeight.filter((arc) => middleOf(arc)[2] >= top - TOP_SHARE * (top - foot));
  const corner = tops[tops.length - 1] ?? byHeight[0] ?? null;
  return { corner, below: arcs.length - Math.max(1, tops.length) };
}

/** The height at which a bend's lower end lies, or the tube `beyond` it. */
export const lowerEnd = (line: Centreline, { start, length }: Arc, beyond: number): number =>
  Math.min(pointAt(line, start - beyond).point[2], pointAt(line, start + length + beyond).point[2]);

/** The two legs, as stations: from the first end up to the first crown's beginning, and from the last crown's end. */
export function legsOf(
  line: Centreline,
  hoop: HoopFigures,
): readonly [readonly [number, number], readonly [number, number]] {
  const [first, last] = hoop.crowns;
  return [
    [0, first?.start ?? hoop.topStation],
    [last === null ? hoop.topStation : last.start + last.length, line.length],
  ];
}
