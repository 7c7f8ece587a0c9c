/** A drill list's sentences: what a hole is for, where it is, before which step. */
import { sayMeasure } from '../../../grammar/print';
import type { LengthUnit } from '../../../grammar/units';
import { degrees, UNITS } from '../../../grammar/units';
import type { Part } from '../../geometry/shape';
import { inchFraction, onTape } from '../on-tape';
import { endLabel, endName } from '../packet/numbers';
import type { PacketInput } from '../packet/paper';
import type { AlongTube } from './along';
import { isInchBolt } from './bolt-holes';
import type { Drilling, OnPlate, Step } from './holes';

const INCH = UNITS['in']?.factor ?? 25.4;
const LENGTH = 'mm';

/** A drill's size: a fraction where it is one of 1/64 in, otherwise decimals. `5 mm (0.197 in)`, `3/16 in (4.8 mm)`. */
export function drillSize(dia: number | null, units: LengthUnit): string {
  if (dia === null) return 'not known';
  const parts = (dia / INCH) * 64;
  const fraction = Math.abs(parts - Math.round(parts)) < 1e-6 && Math.round(parts) % 2 === 0 ? inchFraction(dia) : null;
  const inches = fraction ?? sayMeasure({ value: dia, unit: LENGTH }, 'in');
  const metric = sayMeasure({ value: dia, unit: LENGTH }, 'mm');
  return units === 'in' || units === 'ft' ? `${inches} (${metric})` : `${metric} (${inches})`;
}

/** `M8`, `3/8 in`. */
const boltWords = (bolt: number): string =>
  isInchBolt(bolt) ? inchFraction(bolt) : `M${String(Math.round(bolt * 100) / 100)}`;

const nameOf = (part: Part, { numbers }: Pick<PacketInput, 'numbers'>): string =>
  numbers.get(part.name)?.label ?? `${part.name} (in the car already)`;

/** What the hole is. */
export function sortWords({ sort, bolt, count, dia, thing }: Drilling, units: LengthUnit): string {
  const size = drillSize(dia, units);
  const times = count === 1 ? '' : `${String(count)} x `;
  const through = bolt === null ? '' : ` for ${boltWords(bolt)}`;
  switch (sort) {
    case 'vent':
      return `Vent inside the joint, ${size}`;
    case 'air':
      return `Vent to the air, ${size}`;
    case 'inspection':
      return `Inspection hole, ${size}`;
    case 'drain':
      return `Drain hole, ${size}`;
    case 'bolt':
      return `Bolt hole, ${size}`;
    case 'plate-hole':
      return `Vent in the plate, ${size}`;
    case 'gusset':
      return `${times}hole in gusset ${thing.name}, ${size}`;
    case 'strap':
      return dia === null
        ? `${times}hole for the threaded insert${through}: by its maker`
        : `${times}bolt hole${through} of strap ${thing.name}, ${size}`;
    case 'fitting':
      return `${times}bolt hole${through} of fitting ${thing.name}`;
    case 'plate-bolts':
    case 'mount':
    case 'anchor':
      return `${times}bolt hole${through}, ${dia === null ? 'as its maker says' : size}`;
  }
}

/** Vents and holes have no name of their own: where their tube is not known, nobody can say in what. */
export const thingName = ({ kind, name }: Drilling['thing']): string =>
  kind === 'vent' || kind === 'hole' ? 'a tube that is not known' : name;

/** In what it is drilled. */
export function inWords({ part, thing, sort }: Drilling, input: Pick<PacketInput, 'numbers'>): string {
  if (sort === 'plate-hole') return `foot plate ${thing.name}`;
  if (sort === 'plate-bolts') {
    const counter = thing.kind === 'foot' && thing.counterPlate !== null;
    return `foot plate ${thing.name}${counter ? ' and its counter-plate, drilled together' : ''}`;
  }
  if (sort === 'mount' || sort === 'gusset') return thing.name;
  return part === null ? thingName(thing) : nameOf(part, input);
}

const BESIDE: Readonly<Record<'begins' | 'ends', string>> = { begins: 'where bend', ends: 'the end of bend' };

/** `120 mm (4 23/32 in) from the end of bend 2, toward END 2`. */
function bendWords({ fromBend }: AlongTube, units: LengthUnit): string | null {
  if (fromBend === null) return null;
  const { bend, tangent, distance, toward, inBend } = fromBend;
  const place = `${BESIDE[tangent]} ${String(bend)}${tangent === 'begins' ? ' begins' : ''}`;
  return `${onTape(distance, units)} from ${place}, toward ${toward}${inBend ? ' (in the bend, along its middle)' : ''}`;
}

/**
 * Along the tube: from the nearest bend if it has one, from the nearer end, and, where it is of use (`marked`), on the
 * straight stick.
 */
export function alongWords(along: AlongTube, units: LengthUnit, marked: boolean): readonly string[] {
  const { fromFirst, fromLast, onStick } = along;
  const bend = bendWords(along, units);
  const last = fromLast !== null && (fromFirst === null || fromLast < fromFirst);
  const value = last ? fromLast : fromFirst;
  const end = value === null ? null : `${onTape(value, units)} from the long point of ${last ? 'END 2' : 'END 1'}`;
  const stick =
    onStick === null || !marked ? null : `(marked before bending: ${onTape(onStick, units)} from END 1 of the stick)`;
  return [bend, end, stick].filter((one): one is string => one !== null);
}

export function clockWords({ clock, zero, round }: AlongTube, units: LengthUnit): string {
  if (clock === null) return 'not told';
  const value = sayMeasure({ value: degrees(clock), unit: 'deg' }, 'mm');
  if (clock < 1e-3 || clock > 2 * Math.PI - 1e-3) return `0°: ${zero}`;
  return `${value} from ${zero}${round === null ? '' : `: ${onTape(round, units)} round, clockwise`}`;
}

const plateWords = ({ forward, left }: OnPlate, units: LengthUnit): string => {
  const say = (value: number, plus: string, minus: string): string | null =>
    Math.abs(value) < 0.05 ? null : `${onTape(Math.abs(value), units)} ${value > 0 ? plus : minus}`;
  const parts = [say(forward, 'forward', 'aft'), say(left, 'left', 'right')].filter((one) => one !== null);
  return parts.length === 0 ? 'in the middle of the plate' : `${parts.join(', ')} of its middle`;
};

/** Where, and at which clock. What a fitted tube shows by its outline has no mark on the straight stick. */
export function whereWords({ where, step }: Drilling, units: LengthUnit): readonly [readonly string[], string] {
  switch (where.kind) {
    case 'tube':
      return [alongWords(where.along, units, step !== 'joint'), clockWords(where.along, units)];
    case 'plate':
      return [where.points.map((one) => plateWords(one, units)), ''];
    case 'told':
      return [[where.words], ''];
    case 'unknown':
      return [['cannot be drilled as it is written: see the findings'], ''];
  }
}

/** Before which step, and what comes before it. */
export function beforeWords(drilling: Drilling, input: Pick<PacketInput, 'numbers'>): string {
  const { sort, closing, part, thing } = drilling;
  const closes = closing === null ? '' : `${nameOf(closing.part, input)} ${endName(closing.end)}`;
  const bent = part !== null && !part.tube.existing && part.bends.length > 0 ? 'after bending, ' : '';
  // While a drill can stand there.
  const free =
    drilling.step === 'car' ? 'in the car, before the cage stands in the way' : `${bent}before the tube is fitted`;
  const plug = 'plug' in thing && thing.plug !== null ? `; closed afterwards: ${thing.plug}` : '';
  switch (sort) {
    case 'vent':
      return closing === null ? 'before the joint over it is tacked' : `${bent}before ${closes} is tacked over it`;
    case 'air': {
      const ends = closing === null ? 'its ends' : closing.part.ends.map((end) => endLabel(end)).join(' and ');
      return `${bent}before the last of ${ends} is welded, which closes the tube${plug}`;
    }
    case 'inspection':
    case 'drain':
    case 'bolt': {
      const sleeve = 'sleeve' in thing && thing.sleeve ? '; its sleeve is welded in before the tube is closed' : '';
      return `${free}${drilling.step === 'car' ? '' : sleeve}${plug}`;
    }
    case 'plate-hole':
      return closing === null
        ? 'before a tube is welded on it'
        : `before ${closes} is welded to the plate, which covers it`;
    case 'plate-bolts':
      return closing === null
        ? 'before a tube is welded on it'
        : `before ${closes} is welded to the plate: beside the tube no drill stands square`;
    case 'gusset':
      return 'before the gusset is welded in';
    case 'strap':
      return `${free}; an insert is welded in before the tube is closed`;
    case 'fitting':
      return closing === null ? 'before its halves are welded on' : `before the fitting is welded to ${closes}`;
    case 'mount':
      return 'with the seat set up in the car, before the cage is fitted round it';
    case 'anchor':
      return free;
  }
}

export const STEP_WORDS: Readonly<Record<Step, readonly [string, string]>> = {
  plate: ['Plates and gussets, on the bench', 'Drill these before any tube is welded to them.'],
  tube: [
    'Tubes, after bending and before fitting',
    'A hole in a straight tube that is bent afterwards starts a kink: bend first.',
  ],
  joint: [
    'Joints, after fitting and before tacking',
    'Fit the tube that lands there, scribe round it, take it off, drill inside the line, put it back, weld. No weld closes a tube that cannot breathe.',
  ],
  car: ['In the car', 'Look what lies behind before drilling: lines, wires, tank.'],
};
