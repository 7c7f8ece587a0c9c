/** Hover on gussets, holes, padding, fittings, doors, panels, seat mounts and anchors: what is written of them, in both systems. */
import { degrees, type LengthUnit } from '../../grammar/units';
import type { Bolts, CounterPlate, Gusset, Hardware, Plate } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { add, angleBetween, sub, unit as unitVector } from '../centreline/vector';
import { gussetPlaces } from '../geometry/gusset-corners';
import type { Shape } from '../geometry/shape';
import { bothLengths, code, fixed, inUnit, list, NONE, pointIn } from './figures';

/** A metric thread has a whole number of millimetres; anything else is the diameter as it was written. */
const boltSize = (diameter: number, unit: LengthUnit): string =>
  Number.isInteger(diameter) ? `M${String(diameter)}` : bothLengths(diameter, unit);

/** `3 x M8 8.8`. */
export const boltText = (bolts: Bolts | null, unit: LengthUnit): string => {
  if (bolts === null) return NONE;
  const { count, diameter, grade } = bolts;
  const graded =
    grade === null ? '' : grade.standard === 'sae' ? ` grade ${String(grade.value)}` : ` ${String(grade.value)}`;
  return `${String(count)} x ${boltSize(diameter, unit)}${graded}`;
};

export const plateText = (plate: Plate | CounterPlate | null, unit: LengthUnit): string => {
  if (plate === null) return NONE;
  const [long, wide, thick] = [plate.long, plate.wide, plate.thick].map((value) => inUnit(value, unit));
  const held = 'held' in plate && plate.held !== null ? `, ${plate.held}` : '';
  return `${long ?? ''} x ${wide ?? ''} x ${thick ?? ''} ${unit}${held}, ${fixed((plate.long * plate.wide) / 100, 1)} cm²`;
};

const yes = (flag: boolean | null): string => (flag === null ? NONE : flag ? 'yes' : 'no');
const newtons = (load: number | null): string =>
  load === null ? NONE : `${fixed(load / 1000, 2)} kN (${fixed(load / 4.4482216152605, 0)} lbf)`;
const places = (outline: readonly Vec3[] | null, unit: LengthUnit): string =>
  outline === null ? NONE : `${outline.map((at) => pointIn(at, unit)).join(', ')} ${unit}`;

type Row = readonly [string, string];

const rowsOf = (thing: Hardware, unit: LengthUnit): readonly Row[] => {
  const length = (value: number | null): string => bothLengths(value, unit);
  switch (thing.kind) {
    case 'gusset':
      return [
        ['Between', thing.between === null ? NONE : thing.between.map(code).join(', ')],
        ['Legs', thing.legs === null ? NONE : thing.legs.map(length).join(', ')],
        ['Thickness', length(thing.thickness)],
        ['Kind', thing.made ?? NONE],
        ['Cut-out radius', length(thing.cutOut)],
        ['Hole', length(thing.hole)],
      ];
    case 'hole':
      return [
        ['Along the tube from its first node', length(thing.station)],
        ['Clock', thing.clock === null ? NONE : `${fixed(degrees(thing.clock), 1)}°`],
        ['Diameter', length(thing.dia)],
        ['Sleeve', yes(thing.sleeve)],
        ['Plug', thing.plug ?? 'it stays open'],
      ];
    case 'padding':
      return [
        ['Thickness', length(thing.thickness)],
        [
          'From',
          thing.from === null ? (thing.unread ? NONE : 'end to end') : `${length(thing.from)} to ${length(thing.to)}`,
        ],
        ['Standard', thing.standard ?? NONE],
        ['Flame-retardant', yes(thing.flameRetardant)],
        ['Fixed', yes(thing.fixed)],
      ];
    case 'fitting':
      return [
        ['Kind', thing.made ?? NONE],
        ['Shear', thing.shear ?? NONE],
        ['Bolt', boltText(thing.bolt, unit)],
        ['Stand-off of the bolt', length(thing.standOff)],
        ['Drawing', thing.drawing ?? NONE],
        ['Welded up', yes(thing.welded)],
        ['Bush in the tube', yes(thing.bush)],
      ];
    case 'door':
    case 'panel':
      return [['Outline', places(thing.outline, unit)]];
    case 'seat-mount':
      return [
        ['Points on the shell', thing.points === null ? NONE : String(thing.points)],
        ['Bolts to the shell', boltText(thing.bolts, unit)],
        ['Bolts to the seat', boltText(thing.seatBolts, unit)],
        ['Contact', plateText(thing.plate, unit)],
        ['Counter-plate', plateText(thing.counterPlate, unit)],
        ['Material', thing.material ?? NONE],
        ['Approved by the maker of the seat', yes(thing.approved)],
        ['Proved for', newtons(thing.load)],
        ['Quick release proved for', newtons(thing.quickRelease)],
      ];
    case 'anchor':
      return [
        ['At', thing.at === null ? NONE : `${pointIn(thing.at, unit)} ${unit}`],
        ['On', thing.tube === null ? 'the shell' : code(thing.tube)],
        ['Plate', plateText(thing.plate, unit)],
        ['Bolt', boltText(thing.bolt, unit)],
        ['Fixing', thing.fixing ?? NONE],
        ['From the maker of the car', yes(thing.series)],
        ['Through the seat', yes(thing.throughSeat)],
        ['Adjuster from the opening', length(thing.adjuster)],
        ['Proved for', newtons(thing.load)],
      ];
  }
};

const titleOf = (thing: Hardware): string => {
  switch (thing.kind) {
    case 'gusset':
      return `**gusset** ${code(thing.name)} at ${code(thing.node)}`;
    case 'hole':
      return `**hole** in ${code(thing.tube)} for ${thing.purpose}`;
    case 'padding':
      return `**padding** on ${code(thing.tube)}`;
    case 'fitting':
      return `**fitting** ${code(thing.name)} at the ${thing.end ?? ''} end of ${code(thing.tube)}`;
    case 'door':
      return `**door** ${code(thing.name)}`;
    case 'panel':
      return `**panel** ${code(thing.name)}, ${thing.as ?? NONE}`;
    case 'seat-mount':
      return `**seat-mount** ${code(thing.name)} of ${code(thing.seat)}`;
    case 'anchor':
      return `**anchor** ${code(thing.name)}, ${thing.as ?? NONE} strap of ${code(thing.seat)}`;
  }
};

const RANKS = ['the sharpest', 'the second sharpest', 'the third sharpest'] as const;

/** The ways of the axes, along them and against them. */
const WAYS = [
  ['forward', 'aft'],
  ['left', 'right'],
  ['up', 'down'],
] as const;
/** A way counts that is at least this share of a direction. */
const COUNTS = 0.3;

/** `left and up`: where a direction goes, what it does most first. */
const wayOf = (way: Vec3): string =>
  WAYS.map(([along, against], k) => ({ size: Math.abs(way[k] ?? 0), word: (way[k] ?? 0) < 0 ? against : along }))
    .filter(({ size }) => size >= COUNTS)
    .sort((a, b) => b.size - a.size)
    .map(({ word }) => word)
    .join(' and ');

/** The corner in which a gusset is drawn, and that the file leaves it open where there are several. */
function cornerOf(shape: Shape, gusset: Gusset): readonly Row[] {
  const found = gussetPlaces(shape).get(gusset.name);
  if (found === undefined) return [];
  const [apex, p, q] = found.corners;
  const [a, b] = [unitVector(sub(p, apex)), unitVector(sub(q, apex))];
  const open = `${fixed(degrees(angleBetween(a, b)), 1)}°, opens ${wayOf(unitVector(add(a, b)))}`;
  const { rank, of } = found;
  const which =
    of === 1
      ? 'the only one between them'
      : `taken to be ${RANKS[rank] ?? 'the widest'} of the ${String(of)} between them: the file cannot say which`;
  return [['Corner', `${open}, ${which}`]];
}

/** What is written of it; what is not written, or cannot be read, stands as none. */
export const hoverHardware = (shape: Shape, thing: Hardware, unit: LengthUnit): string =>
  `${titleOf(thing)}\n\n${list(
    ['', ''],
    [...rowsOf(thing, unit), ...(thing.kind === 'gusset' ? cornerOf(shape, thing) : [])].filter(
      ([, text]) => text !== NONE,
    ),
  )}`;
