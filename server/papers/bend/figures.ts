/**
 * The figures of a bend sheet: marks along the straight stick, angles to set, rotations, and where to cut after bending.
 * All from the bend table of the geometry. Millimetres, radians; a figure that is not known is null.
 */
import type { Centreline } from '../../centreline/centreline';
import type { Bend, End, Part, Shape } from '../../geometry/shape';
import { arcsOf, bentStick, isFlat } from './stick';

/** Marks that agree so well are on one place of a tape, mm; angles, radians. */
const SAME_LENGTH = 0.05;
const SAME_ANGLE = (0.01 * Math.PI) / 180;

export interface BendRow {
  /** 1, 2, … from END 1. */
  readonly number: number;
  readonly node: string | null;
  readonly angle: number;
  readonly overbend: number | null;
  /** What the machine is set to: the angle and its over-bend. */
  readonly set: number | null;
  readonly radius: number | null;
  /** Where the bend begins, is half done and ends, from END 1 of the straight stick. */
  readonly start: number | null;
  readonly middle: number | null;
  readonly end: number | null;
  readonly arcLength: number | null;
  /** Straight from the bend before; null at the first. */
  readonly straight: number | null;
  /** Of the bend's plane from the one before, clockwise as seen from END 1 toward END 2, (-π, π]; null at the first. */
  readonly rotation: number | null;
  /** The same from the first bend, (-π, π]: from a line drawn along the stick on the inside of bend 1. */
  readonly fromFirst: number | null;
}

/** Where one end is cut off after bending. */
export interface Trim {
  readonly end: End;
  /** 1 or the number of bends. */
  readonly bend: number;
  /** From the nearest bend's tangent along the straight to the end's long point. */
  readonly fromTangent: number | null;
  /** What is cut off there: the tail. */
  readonly tail: number | null;
  /** Clocks of the long point; more than one where they are as long as each other, none where it is square or not known. */
  readonly longAt: readonly number[];
}

/** The middle of a tube whose two halves are alike. Marks go to both sides of it. */
export interface Middle {
  readonly fromFirst: number;
  readonly fromLast: number;
  /** For each bend from END 1: from the middle to where it begins and ends, END 1's side below 0. */
  readonly marks: readonly { readonly begin: number; readonly end: number }[];
}

export interface Twin {
  readonly part: Part;
  /** True where sticks, marks and angles are the same, and rotations the other way round. */
  readonly mirrored: boolean;
}

export interface BendFigures {
  readonly part: Part;
  /** Outside diameter; null where the section is not known. */
  readonly od: number | null;
  readonly rows: readonly BendRow[];
  readonly stick: number | null;
  readonly tails: readonly [number, number] | null;
  readonly trims: readonly [Trim, Trim];
  /** Null where the halves are not alike. */
  readonly middle: Middle | null;
  /** All bends in one plane. */
  readonly flat: boolean;
  /** As it leaves the bender, tails on; and cut square at the long points. Null where that is not known. */
  readonly asBent: Centreline | null;
  readonly trimmed: Centreline | null;
  readonly twin: Twin | null;
}

/** In (-π, π]; what rounding leaves of half a turn is +π. */
export function wrapped(angle: number): number {
  const turn = 2 * Math.PI;
  const rest = angle - turn * Math.round(angle / turn);
  return rest <= -Math.PI + 1e-9 ? Math.PI : rest;
}

function rowsOf(bends: readonly Bend[]): readonly BendRow[] {
  let turned: number | null = 0;
  return bends.map((bend, i): BendRow => {
    const { startMark: start, arcLength, overbend } = bend;
    if (i > 0) turned = turned === null || bend.rotation === null ? null : turned + bend.rotation;
    const along = (share: number): number | null =>
      start === null || arcLength === null ? null : start + arcLength * share;
    return {
      number: i + 1,
      node: bend.node,
      angle: bend.angle,
      overbend,
      set: overbend === null ? null : bend.angle + overbend,
      radius: bend.radius,
      start,
      middle: along(0.5),
      end: along(1),
      arcLength,
      straight: i === 0 ? null : bend.straightBefore,
      rotation: i === 0 ? null : bend.rotation,
      fromFirst: turned === null ? null : wrapped(turned),
    };
  });
}

/** Tails of the stick: what its marks and its length have more than the cut tube. */
function tailsOf(part: Part): readonly [number, number] | null {
  const [first] = part.bends;
  const { minCut } = part.ends[0];
  const { stickLength, cutLength } = part;
  if (first === undefined || first.startMark === null || first.straightBefore === null || minCut === null) return null;
  if (stickLength === null || cutLength === null) return null;
  const lead = Math.max(0, first.startMark - (first.straightBefore - minCut));
  return [lead, Math.max(0, stickLength - cutLength - lead)];
}

const CLOCK_STEPS = 360;
/** A point this much shorter than the longest is as long, mm. */
const AS_LONG = 0.05;

/** Clocks at which the end is longest, to the whole degree. */
function longPoints(end: End): readonly number[] {
  const { curve, minCut, sawAngle, sawClock } = end;
  if (minCut === null || curve === null) return [];
  if (sawAngle !== null) return sawAngle > SAME_ANGLE && sawClock !== null ? [sawClock] : [];
  const cuts = Array.from({ length: CLOCK_STEPS }, (_, i) => curve.cut((2 * Math.PI * i) / CLOCK_STEPS) ?? Infinity);
  const found: number[] = [];
  cuts.forEach((cut, i) => {
    const [before, after] = [cuts.at(i - 1) ?? Infinity, cuts[(i + 1) % CLOCK_STEPS] ?? Infinity];
    if (cut <= minCut + AS_LONG && cut <= before && cut < after) found.push((2 * Math.PI * i) / CLOCK_STEPS);
  });
  return found;
}

function trimsOf(part: Part, tails: readonly [number, number] | null): readonly [Trim, Trim] {
  const of = (which: 0 | 1): Trim => {
    const end = part.ends[which];
    const straight = which === 0 ? (part.bends[0]?.straightBefore ?? null) : part.straightAfter;
    return {
      end,
      bend: which === 0 ? 1 : part.bends.length,
      fromTangent: straight === null || end.minCut === null ? null : straight - end.minCut,
      tail: tails?.[which] ?? null,
      longAt: longPoints(end),
    };
  };
  return [of(0), of(1)];
}

const near = (a: number | null, b: number | null, within: number): boolean =>
  a !== null && b !== null && Math.abs(a - b) <= within;

/** Rotations that bend the same way round the tube but for its sense. */
const opposite = (a: number | null, b: number | null): boolean =>
  (a === null && b === null) || (a !== null && b !== null && Math.abs(wrapped(a + b)) <= SAME_ANGLE);

const sameTurn = (a: number | null, b: number | null): boolean =>
  a !== null && b !== null && Math.abs(wrapped(a - b)) <= SAME_ANGLE;

/**
 * Alike from both ends: the same angles and straights, and rotations that are each other's image, or each other's turn by
 * half a circle. (Read from the other end a rotation keeps its sign; a mirror changes it.)
 */
function isSymmetric(rows: readonly BendRow[]): boolean {
  const n = rows.length;
  const rotations = rows.slice(1).map(({ rotation }) => rotation);
  const angles = rows.every((row, i) => {
    const other = rows[n - 1 - i];
    return (
      other !== undefined &&
      near(row.angle, other.angle, SAME_ANGLE) &&
      near(row.arcLength, other.arcLength, SAME_LENGTH)
    );
  });
  const straights = rows.slice(1).every((row, i) => near(row.straight, rows[n - 1 - i]?.straight ?? null, SAME_LENGTH));
  const turned = (same: typeof opposite): boolean =>
    rotations.every((rotation, i) => same(rotation, rotations[n - 2 - i] ?? null));
  return n > 1 && angles && straights && (turned(opposite) || turned(sameTurn));
}

/**
 * The middle between the first and the last bend of a tube that is alike from both ends. Its legs need not be cut alike.
 */
function middleOf(rows: readonly BendRow[], stick: number | null): Middle | null {
  const first = rows[0]?.start ?? null;
  const last = rows[rows.length - 1]?.end ?? null;
  if (first === null || last === null || stick === null || !isSymmetric(rows)) return null;
  const middle = (first + last) / 2;
  return {
    fromFirst: middle,
    fromLast: stick - middle,
    marks: rows.map(({ start, end }) => ({ begin: (start ?? 0) - middle, end: (end ?? 0) - middle })),
  };
}

const SIDE = /\.(left|right)(?=$|\.[ab]$)/;

function twinOf(part: Part, shape: Shape): Twin | null {
  const side = SIDE.exec(part.name)?.[1];
  if (side === undefined) return null;
  const other = shape.parts.get(part.name.replace(SIDE, side === 'left' ? '.right' : '.left'));
  if (other === undefined || other.bends.length === 0) return null;
  const [a, b] = [rowsOf(part.bends), rowsOf(other.bends)];
  const mirrored =
    a.length === b.length &&
    near(part.stickLength, other.stickLength, SAME_LENGTH) &&
    a.every((row, i) => {
      const its = b[i];
      return (
        its !== undefined &&
        near(row.start, its.start, SAME_LENGTH) &&
        near(row.angle, its.angle, SAME_ANGLE) &&
        opposite(row.rotation, its.rotation)
      );
    });
  return { part: other, mirrored };
}

/** The figures of one bent part. */
export function bendFigures(part: Part, shape: Shape): BendFigures {
  const rows = rowsOf(part.bends);
  const tails = tailsOf(part);
  const cuts = part.ends.map((end) => end.minCut);
  const [first = null, last = null] = cuts;
  const known = tails !== null && first !== null && last !== null;
  return {
    part,
    od: part.tube.section?.od ?? null,
    rows,
    stick: part.stickLength,
    tails,
    trims: trimsOf(part, tails),
    middle: middleOf(rows, part.stickLength),
    flat: isFlat(arcsOf(part.centreline)),
    asBent: known ? bentStick(part, tails[0] - first, tails[1] - last) : null,
    trimmed: known ? bentStick(part, -first, -last) : null,
    twin: twinOf(part, shape),
  };
}

/** The parts that are bent, in the order of the car. What is in the car already needs no sheet. */
export const bentParts = (shape: Shape): readonly Part[] =>
  [...shape.parts.values()].filter((part) => part.bends.length > 0 && !part.tube.existing);
