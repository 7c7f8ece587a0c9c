/** Hover on a tube: what it is, how long, how it is bent, what it weighs. */
import { ROLES } from '../../grammar/vocabulary';
import type { LengthUnit } from '../../grammar/units';
import type { Tube } from '../cage/cage';
import type { Bend, End, Part, Shape } from '../geometry/shape';
import { bothLengths, bothMasses, code, fixed, inDegrees, inUnit, lengthTable, NONE, table } from './figures';

/** A tube's part, or its two pieces. */
export const partsOf = (shape: Shape, tube: Tube): Part[] =>
  [tube.name, `${tube.name}.a`, `${tube.name}.b`]
    .map((name) => shape.parts.get(name))
    .filter((part) => part !== undefined);

/** `45.0 x 2.50 mm`, or in inches: the units in which tube is sold. */
export const sizeOf = (od: number, wall: number, unit: LengthUnit): string => {
  const inches = unit === 'in' || unit === 'ft';
  const one = (length: number): string => (inches ? fixed(length / 25.4, 3) : fixed(length, 2));
  return `${one(od)} x ${one(wall)} ${inches ? 'in' : 'mm'}`;
};

const bendRow = (bend: Bend, index: number, unit: LengthUnit): string[] => [
  String(index + 1),
  code(bend.node),
  inUnit(bend.straightBefore, unit),
  inDegrees(bend.angle),
  inDegrees(bend.rotation),
  inUnit(bend.arcLength, unit),
  inDegrees(bend.overbend),
  inUnit(bend.startMark, unit),
];

const bendTable = (part: Part, unit: LengthUnit): string => {
  if (part.bends.length === 0) return 'Straight, no bends.';
  const radius = part.bends[0]?.radius ?? null;
  const head = [
    'Bend',
    'at',
    `straight before, ${unit}`,
    'angle',
    'rotation',
    `arc, ${unit}`,
    'over-bend',
    `start mark, ${unit}`,
  ];
  const rows = part.bends.map((bend, index) => bendRow(bend, index, unit));
  const after = `Straight after the last bend: ${inUnit(part.straightAfter, unit)} ${unit}. Centreline radius ${inUnit(radius, unit)} ${unit}.`;
  const marks =
    'Start marks are measured from the end of the stick; rotation is that of the bend plane from the bend before.';
  return `${table(head, rows)}\n\n${after} ${marks}`;
};

const endLine = (end: End, unit: LengthUnit): string => {
  const at = end.node === null ? 'at the split' : `at ${code(end.node)}`;
  const hosts = end.hosts.map(code).join(', ');
  if (end.fit !== 'cope') {
    const saw = end.sawAngle === null ? '' : `, sawn ${inDegrees(end.sawAngle)} off square`;
    return `- ${end.which} end ${at}: ${end.fit === 'foot' ? 'on foot' : end.fit} ${hosts}`.trimEnd() + saw;
  }
  return `- ${end.which} end ${at}: coped to ${hosts}, ${inDegrees(end.includedAngle)}, ${bothLengths(end.depth, unit)} deep`;
};

const partText = (part: Part, unit: LengthUnit): string => {
  const lengths = lengthTable(unit, [
    ['Centreline', part.centrelineLength],
    ['Cut, long point to long point', part.cutLength],
    ['Hole-saw', part.holeSawLength],
    ['Stick to order', part.stickLength],
  ]);
  const title = part.piece === null ? '' : `Piece ${code(part.name)}\n\n`;
  const ends = part.ends.map((end) => endLine(end, unit)).join('\n');
  return `${title}Mass ${bothMasses(part.mass)}\n\n${lengths}\n\n${bendTable(part, unit)}\n\n${ends}`;
};

/**
 * Everything about a tube.
 * @param piece of a split one: only that piece; null: all of it
 */
export const hoverTube = (shape: Shape, tube: Tube, piece: 'a' | 'b' | null, unit: LengthUnit): string => {
  const { section, die, role } = tube;
  const size = section === null ? NONE : `${code(section.name)}, ${sizeOf(section.od, section.wall, unit)}`;
  const bent = die === null ? '' : `; die ${code(die.name)}`;
  const existing = tube.existing ? ' Already in the car.' : '';
  const carries = tube.carries === null ? '' : ` It carries: ${tube.carries}.`;
  const finish = tube.finish === null ? '' : ` Finish: ${tube.finish}.`;
  const parts = partsOf(shape, tube).filter((part) => piece === null || part.piece === piece);
  const body =
    parts.length === 0 ? 'It cannot be computed yet.' : parts.map((part) => partText(part, unit)).join('\n\n');
  return `**tube** ${code(tube.name)}: ${role}, ${ROLES[role]}.${existing}${carries}${finish}\n\nSection ${size}${bent}\n\n${body}`;
};
