/** Hover on a tube's end: how to cope or saw it, with the figures for a paper wrap. */
import type { LengthUnit } from '../../grammar/units';
import { degrees, rad } from '../../grammar/units';
import type { Tube } from '../cage/cage';
import type { End, Part } from '../geometry/shape';
import { bothLengths, code, fixed, inDegrees, inUnit, NONE, otherUnit, list, table } from './figures';

/** A paper wrap folds in halves: sixteen marks, every 22.5°. */
const MARKS = 16;

const ordinal = (end: End): string => (end.which === 'first' ? 'First' : 'Last');

/** Where 0 is, which way the clock runs, where the inside of the bend lies. */
const clockText = (part: Part, end: End): string => {
  if (end.clockZero === null) return '';
  const zero = end.clockZero.name;
  const meaning =
    zero === 'TOP'
      ? 'the side of the tube nearest to vehicle up'
      : 'the side of the tube nearest to forward, since the leg is within 20° of vertical';
  const [from, to] = [part.nodes[0] ?? null, part.nodes.at(-1) ?? null];
  const look = `looking from ${from === null ? 'the split' : code(from)} toward ${to === null ? 'the split' : code(to)}`;
  const bend =
    end.bendInsideClock === null
      ? 'The tube has no bend.'
      : `The inside of the nearest bend lies at ${inDegrees(end.bendInsideClock)}.`;
  return `Clock 0° is **${zero}**: ${meaning}. It runs clockwise, ${look}. ${bend}`;
};

/** A third of the diameter (common practice, no source), and by how much that is off here. */
const thumbText = (depth: number | null, od: number | null, unit: LengthUnit): string => {
  if (depth === null || od === null) return NONE;
  const thumb = od / 3;
  const off = thumb - depth;
  const share = depth > 0 ? `, ${fixed((Math.abs(off) / depth) * 100, 0)} %,` : '';
  const verdict =
    Math.abs(off) < 0.05
      ? 'right here'
      : `off by ${bothLengths(Math.abs(off), unit)}${share} too ${off > 0 ? 'deep' : 'shallow'} here`;
  return `${bothLengths(thumb, unit)}: ${verdict}`;
};

const ordinateTable = (end: End, od: number | null, unit: LengthUnit): string => {
  const { curve } = end;
  if (curve === null || end.clockZero === null) return '';
  const other = otherUnit(unit);
  const rows: string[][] = [];
  for (let mark = 0; mark < MARKS; mark += 1) {
    const clock = rad((mark * 2 * Math.PI) / MARKS);
    const cut = curve.cut(clock);
    const fromLong = cut === null || end.minCut === null ? null : cut - end.minCut;
    rows.push([
      mark === 0 ? `**0° ${end.clockZero.name}**` : `${fixed(degrees(clock), 1)}°`,
      od === null ? NONE : inUnit((mark * Math.PI * od) / MARKS, unit),
      inUnit(fromLong, unit),
      inUnit(fromLong, other),
      inUnit(cut, unit),
      inUnit(curve.outer(clock), unit),
      inUnit(curve.inner(clock), unit),
      inUnit(curve.gap(clock), unit),
    ]);
  }
  const head = ['Clock', `round, ${unit}`, `from long point, ${unit}`, other, `cut, ${unit}`, 'outer', 'inner', 'gap'];
  const note =
    'Cut, outer and inner are set-backs along the leg from its node; cut clears the whole wall, outer is the hole saw’s.';
  return `${table(head, rows)}\n\n${note}`;
};

const copeText = (end: End, od: number | null, unit: LengthUnit): string =>
  list(
    ['', ''],
    [
      ['Included angle', inDegrees(end.includedAngle)],
      ['Offset of the axes', bothLengths(end.offset, unit)],
      ['Depth', bothLengths(end.depth, unit)],
      ['Rule of thumb, a third of the diameter', thumbText(end.depth, od, unit)],
      ['Saddle length', bothLengths(end.saddleLength, unit)],
    ],
  );

const SAWN: Readonly<Record<Exclude<End['fit'], 'cope'>, string>> = {
  foot: 'sawn to lie on',
  square: 'cut square',
  open: 'cut square and left open',
};

const sawText = (end: End): string => {
  if (end.sawAngle === null) return '';
  const clock = end.sawAngle > 1e-9 ? `; the long point lies at clock ${inDegrees(end.sawClock)}` : '';
  return `Saw ${inDegrees(end.sawAngle)} off square${clock}.`;
};

/** Everything about one end of a part. */
export const hoverEnd = (tube: Tube, part: Part, end: End, unit: LengthUnit): string => {
  const od = tube.section?.od ?? null;
  const at = end.node === null ? '' : ` at ${code(end.node)}`;
  const hosts = end.hosts.map(code).join(', ');
  const fit = end.fit === 'cope' ? 'coped to' : SAWN[end.fit];
  const title = `**${ordinal(end)} end** of ${code(part.name)}${at}: ${fit}${hosts === '' ? '' : ` ${hosts}`}`;
  const figures = end.fit === 'cope' ? copeText(end, od, unit) : sawText(end);
  return [title, figures, clockText(part, end), end.fit === 'cope' ? ordinateTable(end, od, unit) : '']
    .filter((text) => text !== '')
    .join('\n\n');
};
