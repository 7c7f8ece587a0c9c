/** The computed model as a build sheet for people: in the file's own unit, one tube after the other. */
import type { LengthUnit } from '../../grammar/units';
import { degrees } from '../../grammar/units';
import type { Bend, End, Part, SeatFigures, Space, StrapFigures } from '../geometry/shape';
import type { Analysis } from './project';
import { fixed, lengthIn, NONE } from './sheet-figures';

/** What a paper for a shop has to say. */
export const CAUTION =
  'An aid, not an approval: the current printed rulebook, the scrutineer and licensed practice decide.';

/** Ordinates of a wrap: a strip of paper folds into halves. */
const FOLDS = 16;
const ROW = 8;

const UNIT_WORDS: Readonly<Record<LengthUnit, string>> = { mm: 'mm', cm: 'cm', m: 'metres', in: 'inches', ft: 'feet' };

/** Prints lengths in one unit. */
type Print = (length: number | null) => string;

const angle = (value: number | null): string => (value === null ? NONE : `${fixed(degrees(value), 1)}°`);
const name = (value: string | null): string => value ?? NONE;

/** Columns, each as wide as its widest cell; the first set left, the others right. */
function columns(rows: readonly (readonly string[])[], indent: string): readonly string[] {
  const widths: number[] = [];
  for (const row of rows) row.forEach((cell, i) => (widths[i] = Math.max(widths[i] ?? 0, cell.length)));
  return rows.map((row) =>
    (
      indent + row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0))).join('  ')
    ).trimEnd(),
  );
}

const bendRow = (bend: Bend, index: number, print: Print): readonly string[] => [
  `${String(index + 1)} ${name(bend.node)}`,
  print(bend.straightBefore),
  angle(bend.angle),
  print(bend.radius),
  angle(bend.rotation),
  print(bend.arcLength),
  angle(bend.overbend),
  print(bend.startMark),
];

function bendLines(part: Part, print: Print): readonly string[] {
  if (part.bends.length === 0) return ['  straight, no bends'];
  const head = ['bend', 'straight before', 'angle', 'radius', 'rotation', 'arc', 'over-bend', 'start mark'];
  return [
    ...columns([head, ...part.bends.map((bend, i) => bendRow(bend, i, print))], '  '),
    `  straight after ${print(part.straightAfter)}; start marks from the end of the stick`,
  ];
}

const fitText = (end: End): string => {
  switch (end.fit) {
    case 'cope':
      return `coped to ${end.hosts.join(', ')}`;
    case 'foot':
      return `cut by the plate of ${end.hosts.join(', ')}`;
    case 'square':
      return 'cut square';
    case 'open':
      return 'left open, cut square';
  }
};

/** The rule of thumb beside the depth (a third of the outside diameter; common practice, no source), and how far off it is. */
function thumb(end: End, od: number | null, print: Print): string {
  if (end.depth === null || od === null) return '';
  const off = od / 3 - end.depth;
  return ` (a third of the diameter, ${print(od / 3)}, is ${print(Math.abs(off))} too ${off < 0 ? 'little' : 'much'})`;
}

/** What a grinder, or a saw, wants to know. */
function cutText(end: End, od: number | null, print: Print): string {
  if (end.fit === 'cope') {
    const angles = `included angle ${angle(end.includedAngle)}, offset ${print(end.offset)}`;
    return `${angles}, depth ${print(end.depth)}${thumb(end, od, print)}, saddle ${print(end.saddleLength)}`;
  }
  const long = end.sawClock === null ? '' : `, long point at clock ${angle(end.sawClock)}`;
  return `saw ${angle(end.sawAngle)} off square${long}`;
}

const clockText = (end: End): string => {
  const inside = end.bendInsideClock === null ? '' : `, inside of the bend at ${angle(end.bendInsideClock)}`;
  return end.clockZero === null ? '' : `clock 0 is ${end.clockZero.name}${inside}`;
};

/** Set-backs of a coped end at sixteen clocks, in two rows. */
function wrapLines(end: End, print: Print): readonly string[] {
  const curve = end.curve;
  if (end.fit !== 'cope' || curve === null) return [];
  const clocks = Array.from({ length: FOLDS }, (_, i) => (2 * Math.PI * i) / FOLDS);
  const rows = [0, ROW].flatMap((from) => {
    const row = clocks.slice(from, from + ROW);
    return [
      ['clock', ...row.map((clock) => fixed(degrees(clock), 1))],
      ['cut', ...row.map((clock) => print(curve.cut(clock)))],
    ];
  });
  return columns(rows, '      ');
}

const endLines = (end: End, od: number | null, print: Print): readonly string[] => [
  `  ${end.which} end at ${name(end.node)}: ${fitText(end)}`,
  `    ${[cutText(end, od, print), clockText(end)].filter((text) => text !== '').join('; ')}`,
  ...wrapLines(end, print),
];

function tubeLines(part: Part, print: Print): readonly string[] {
  const { section, existing } = part.tube;
  const size = section === null ? NONE : `${section.name} ${print(section.od)} x ${print(section.wall)}`;
  const mass = part.mass === null ? NONE : `${fixed(part.mass, 2)} kg`;
  const title = `TUBE ${part.name}: ${part.role}, ${size}, ${mass}${existing ? ', already in the car' : ''}`;
  if (existing) return [title, ''];
  return [
    title,
    `  ${part.nodes.map(name).join(' - ')}`,
    `  centreline ${print(part.centrelineLength)}, cut ${print(part.cutLength)} (long point to long point), hole-saw ${print(part.holeSawLength)}, stick ${print(part.stickLength)}`,
    ...bendLines(part, print),
    ...part.ends.flatMap((end) => endLines(end, section?.od ?? null, print)),
    '',
  ];
}

const seatLine = (seat: SeatFigures, print: Print): string =>
  `SEAT ${seat.name}: ${print(seat.gap)} from the rear face to ${name(seat.to)}, ${print(seat.barGap)} to the straps' bar`;

function strapLines(strap: StrapFigures, print: Print): readonly string[] {
  const shoulder = strap.dropFromShoulder === null ? '' : ` (${angle(strap.dropFromShoulder)} from the shoulder)`;
  const start = strap.onLip ? "the slot's rear edge" : 'the slot';
  return [
    `STRAP ${strap.name}: seat ${name(strap.seat)}, to ${name(strap.tube)}, measured from ${start}${strap.crossed ? ', crossed' : ''}`,
    `  drop ${angle(strap.drop)}${shoulder}, spread ${angle(strap.spread)}, skew ${angle(strap.skew)}, length ${print(strap.length)}, free run ${print(strap.freeRun)}`,
  ];
}

const spaceLine = (space: Space): string => {
  const state = space.vented === null ? 'not known' : space.vented ? 'vented' : 'closed';
  return `SPACE ${space.tubes.join(', ')}: ${state}`;
};

const block = (lines: readonly string[]): readonly string[] => (lines.length === 0 ? [] : [...lines, '']);

/** The build sheet of a judged file, lengths in the unit of that file. */
export function modelText(analysis: Analysis): string {
  const { cage, shape, findings } = analysis;
  const unit: LengthUnit = cage.units;
  const print: Print = (length) => lengthIn(length, unit);
  const counting = findings.filter((finding) => !finding.waived);
  const errors = counting.filter((finding) => finding.severity === 'error').length;
  const lines = [
    cage.title ?? cage.file,
    `Lengths in ${UNIT_WORDS[unit]}, angles in degrees, masses in kg.`,
    '',
    ...[...shape.parts.values()].flatMap((part) => tubeLines(part, print)),
    ...block(shape.seats.map((seat) => seatLine(seat, print))),
    ...block(shape.straps.flatMap((strap) => strapLines(strap, print))),
    ...block(shape.spaces.map(spaceLine)),
    `MASS ${shape.mass === null ? NONE : `${fixed(shape.mass, 2)} kg`}, without what is already in the car`,
    `FINDINGS ${String(counting.length)}, of them ${String(errors)} to mend first; cagewright check tells them`,
    '',
    CAUTION,
  ];
  return `${lines.join('\n')}\n`;
}
