/** What a hover inside `mirror` says of the other side: that it is the mirror image, or how it differs. */
import { rad, type LengthUnit } from '../../grammar/units';
import type { Thing, Tube } from '../cage/cage';
import type { End, Part, Shape } from '../geometry/shape';
import type { Analysis } from '../project/project';
import { bothLengths, code, inDegrees, pointIn } from './figures';
import { hoverEnd } from './hover-end';
import { partsOf } from './hover-tube';

/** mm, rad: below what anybody can measure, above what rounding does. */
const SAME = 1e-6;

const same = (a: number | null, b: number | null): boolean =>
  a === null || b === null ? a === b : Math.abs(a - b) <= SAME;

const opposite = (a: number | null, b: number | null): boolean =>
  a === null || b === null ? a === b : Math.abs(Math.sin(a + b)) <= SAME && Math.cos(a + b) > 0;

/** The same thing on the other side; null where it exists once. */
const twinOf = ({ cage }: Analysis, thing: Thing): Thing | null => {
  if (thing.side === null) return null;
  return cage.things.get(`${thing.base}.${thing.side === 'left' ? 'right' : 'left'}`) ?? null;
};

/** Whether two ends are cut alike, with the clock the other way round. */
const endsMirror = (a: End, b: End): boolean => {
  if (a.fit !== b.fit || a.clockZero?.name !== b.clockZero?.name) return false;
  const figures = [
    [a.depth, b.depth],
    [a.includedAngle, b.includedAngle],
    [a.offset, b.offset],
    [a.saddleLength, b.saddleLength],
    [a.sawAngle, b.sawAngle],
    [a.minCut, b.minCut],
  ] as const;
  if (!figures.every(([one, other]) => same(one, other))) return false;
  if (!opposite(a.bendInsideClock, b.bendInsideClock)) return false;
  if (a.curve === null || b.curve === null) return a.curve === b.curve;
  for (let mark = 0; mark < 16; mark += 1) {
    const clock = (mark * Math.PI) / 8;
    if (!same(a.curve.cut(rad(clock)), b.curve.cut(rad(-clock)))) return false;
  }
  return true;
};

const partsMirror = (a: Part, b: Part): boolean =>
  same(a.cutLength, b.cutLength) &&
  same(a.centrelineLength, b.centrelineLength) &&
  a.bends.length === b.bends.length &&
  a.bends.every((bend, i) => {
    const other = b.bends[i];
    return (
      other !== undefined &&
      same(bend.angle, other.angle) &&
      same(bend.startMark, other.startMark) &&
      opposite(bend.rotation, other.rotation)
    );
  }) &&
  a.ends.every((end, i) => endsMirror(end, b.ends[i === 0 ? 0 : 1]));

const tubesMirror = (shape: Shape, a: Tube, b: Tube): boolean => {
  const [mine, others] = [partsOf(shape, a), partsOf(shape, b)];
  return (
    mine.length === others.length && mine.every((part, i) => others[i] !== undefined && partsMirror(part, others[i]))
  );
};

type Row = readonly [string, number | null, number | null, (value: number | null) => string];

/** What differs, with the twin's own figure. */
const differing = (rows: readonly Row[]): readonly string[] =>
  rows.flatMap(([what, own, other, say]) => (same(own, other) ? [] : [`${what} ${say(other)}`]));

/** How the figures of a strap's twin differ; null where one of the two has none. */
function strapRows(shape: Shape, name: string, twin: string, unit: LengthUnit): readonly string[] | null {
  const [a, b] = [name, twin].map((one) => shape.straps.find((strap) => strap.name === one));
  if (a === undefined || b === undefined) return null;
  const long = (value: number | null): string => bothLengths(value, unit);
  return differing([
    ['drop', a.drop, b.drop, inDegrees],
    ['drop from the shoulder', a.dropFromShoulder, b.dropFromShoulder, inDegrees],
    ['spread', a.spread, b.spread, inDegrees],
    ['skew', a.skew, b.skew, inDegrees],
    ['length', a.length, b.length, long],
    ['free run', a.freeRun, b.freeRun, long],
  ]);
}

/** How the figures of a seat's twin differ; null where one of the two has none. */
function seatRows(shape: Shape, name: string, twin: string, unit: LengthUnit): readonly string[] | null {
  const [a, b] = [name, twin].map((one) => shape.seats.find((seat) => seat.name === one));
  if (a === undefined || b === undefined) return null;
  const long = (value: number | null): string => bothLengths(value, unit);
  return differing([
    ['gap behind the shell', a.gap, b.gap, long],
    ["gap to the straps' bar", a.barGap, b.barGap, long],
  ]);
}

/** A line about the twin of a node, a tube, a seat or a strap; '' where there is nothing to say. */
export const twinText = (analysis: Analysis, thing: Thing, unit: LengthUnit): string => {
  const twin = twinOf(analysis, thing);
  if (twin === null) return '';
  if (thing.kind === 'node' && twin.kind === 'node') {
    if (thing.at === null || twin.at === null) return '';
    const [x, y, z] = thing.at;
    const mirrored = same(x, twin.at[0]) && same(-y, twin.at[1]) && same(z, twin.at[2]);
    return mirrored
      ? `${code(twin.name)} is its mirror image: the same with y negated.`
      : `${code(twin.name)} is not its mirror image: it lies at ${pointIn(twin.at, unit)} ${unit}.`;
  }
  if (thing.kind === 'strap' || thing.kind === 'seat') {
    const differ = (thing.kind === 'strap' ? strapRows : seatRows)(analysis.shape, thing.name, twin.name, unit);
    if (differ === null) return '';
    return differ.length === 0
      ? `${code(twin.name)} is its mirror image: the same figures.`
      : `${code(twin.name)} is not its mirror image: ${differ.join(', ')}.`;
  }
  if (thing.kind !== 'tube' || twin.kind !== 'tube') return '';
  return tubesMirror(analysis.shape, thing, twin)
    ? `${code(twin.name)} is its mirror image: the same lengths and angles, rotations and clocks negated.`
    : `${code(twin.name)} is not its mirror image and has figures of its own.`;
};

/** The same end of the twin: a line where it is the mirror image, all of its figures where it is not. */
export const twinEndText = (analysis: Analysis, tube: Tube, part: Part, end: End, unit: LengthUnit): string => {
  const twin = twinOf(analysis, tube);
  if (twin?.kind !== 'tube') return '';
  const other = partsOf(analysis.shape, twin).find((one) => one.piece === part.piece);
  if (other === undefined) return '';
  const opposed = other.ends[end.which === 'first' ? 0 : 1];
  if (!endsMirror(end, opposed)) return `---\n\n${hoverEnd(twin, other, opposed, unit)}`;
  return `${code(other.name)} is the mirror image: the same cut with clocks negated, so 22.5° here is 337.5° there.`;
};
