/** A bend sheet's sentences: places, ends, steps. */
import { sayMeasure } from '../../../grammar/print';
import type { LengthUnit } from '../../../grammar/units';
import { degrees } from '../../../grammar/units';
import type { PartNumber } from '../packet/numbers';
import { endLabel, endName } from '../packet/numbers';
import { fromBend, noLess, onTape } from '../on-tape';
import type { Check, Reach, Spot } from './checks';
import type { BendFigures, BendRow, Trim } from './figures';
import { rotationWords } from './sketch';

/** `76.4°`. */
export const angleWords = (angle: number | null): string =>
  angle === null ? 'not known' : sayMeasure({ value: degrees(angle), unit: 'deg' }, 'mm');

export const spotWords = (spot: Spot): string =>
  spot.kind === 'end'
    ? `${endName(spot)}, ${spot.face} edge`
    : `bend ${String(spot.bend)}, ${spot.face} at its middle mark`;

const REACHES: Readonly<Record<Reach, string>> = {
  tape: 'tape straight from point to point',
  square: 'tube flat on the floor, a square held to both points',
};

/** What is measured, and how. */
export function checkWords(check: Check): { readonly what: string; readonly how: string } {
  switch (check.kind) {
    case 'between': {
      const { from, to } = check;
      const what =
        from.kind === 'end' && to.kind === 'end'
          ? `Leg end to leg end, ${from.face}`
          : from.kind === 'bend' && to.kind === 'bend'
            ? `Corner to corner, ${from.face}: bend ${String(from.bend)} to bend ${String(to.bend)}, at their middle marks`
            : `${spotWords(from)}, to ${spotWords(to)}`;
      return { what, how: REACHES[check.reach] };
    }
    case 'height':
      return {
        what: 'Height, outside',
        how: 'from a straightedge over both leg ends, square to it, to the farthest outside',
      };
    case 'across':
      return { what: 'Overall width, outside', how: 'along that straightedge, between two squares' };
    case 'rise':
      return {
        what: `${endName(check)} off the floor, highest point of its edge`,
        how: `both legs of bend ${String(check.bend)} flat on the floor`,
      };
  }
}

const nothing = (length: number | null): boolean => length !== null && length < 0.05;

/** How the end is made after it has been cut to length. */
function finished({ end, longAt, bend }: Trim): string {
  const { clockZero, bendInsideClock: inside } = end;
  const from = [
    ...(clockZero === null ? [] : [`0° is ${clockZero.name} of this end`]),
    ...(inside === null ? [] : [`the inside of bend ${String(bend)} is at ${angleWords(inside)}`]),
  ].join(', ');
  const long =
    longAt.length === 0
      ? ''
      : `; the long point stands at clock ${longAt.map((clock) => angleWords(clock)).join(' and ')}${from === '' ? '' : ` (${from})`}`;
  switch (end.fit) {
    case 'cope':
      return `then coped to ${end.hosts.join(', ')} (its template)${long}`;
    case 'foot':
      return end.sawAngle === null || longAt.length === 0
        ? `square on ${end.hosts.join(', ')}`
        : `then sawn ${angleWords(end.sawAngle)} off square for ${end.hosts.join(', ')}${long}`;
    case 'open':
    case 'square':
      return 'stays square';
  }
}

export function trimWords(trim: Trim, units: LengthUnit): readonly [string, string, string, string] {
  const { end, bend, fromTangent, tail } = trim;
  return [
    endLabel(end),
    fromTangent !== null && fromTangent < 0
      ? `${fromBend(fromTangent, `bend ${String(bend)}`, units)}: no straight is left there, move the bend away`
      : `${noLess(fromTangent, units)} from where bend ${String(bend)} ${end.which === 'first' ? 'begins' : 'ends'}, along the straight leg`,
    nothing(tail) ? 'nothing: the stick ends there' : `a tail of ${onTape(tail, units)}`,
    finished(trim),
  ];
}

/** How the tube is turned in the machine for a bend. */
function turnWords({ rotation, number }: BendRow): string {
  const last = String(number - 1);
  if (rotation === null) return 'rotation not known';
  const words = rotationWords(rotation);
  if (words.startsWith('0°')) return `leave it as it lies: it bends to the same side as bend ${last}`;
  if (words.startsWith('180°')) return `turn the tube half round: it bends to the side opposite to bend ${last}`;
  const value = angleWords(Math.abs(rotation));
  return `its plane stands ${words} of that of bend ${last}: where the machine always bends to one side, turn the tube ${value} ${rotation > 0 ? 'anticlockwise' : 'clockwise'}, seen from END 1`;
}

const setWords = ({ angle, set, overbend }: BendRow): string =>
  set === null || overbend === null
    ? `bend to ${angleWords(angle)} after it has sprung back`
    : `set ${angleWords(set)}; it springs back to ${angleWords(angle)}`;

/** The steps from the straight stick to the tube with cut ends. */
export function orderWords(figures: BendFigures, units: LengthUnit): readonly string[] {
  const { rows, stick, tails, part } = figures;
  const [first, last] = part.ends;
  const trimmed = tails === null || tails.some((tail) => tail >= 0.05);
  return [
    `Cut the stick to ${onTape(stick, units)}, both ends square. Write ${endLabel(first)} and ${endLabel(last)} on it.`,
    'Mark all bends from END 1 with the tape left where it is, and draw one straight line along the whole stick: the inside of bend 1.',
    ...rows.map((row) => {
      const at =
        row.start === null
          ? 'where the one before leaves the straight given above'
          : `begins at ${onTape(row.start, units)}`;
      const turn = row.number === 1 ? 'the line along the stick to the inside' : turnWords(row);
      return `Bend ${String(row.number)}: ${row.number === 1 ? 'END 1 is the end in the clamp; ' : ''}${at}; ${turn}; ${setWords(row)}.`;
    }),
    'Take every check dimension before anything is cut off.',
    trimmed
      ? 'Cut both ends to length, measured from the nearest bend as listed below, not from the stick.'
      : 'Both ends are as long as they have to be: nothing is cut off.',
    'Only then cope or saw the ends, fit, tack, and tape again.',
  ];
}

/** What is said of the other hand; null where there is none. */
export function twinWords(
  { part, twin, flat, rows }: BendFigures,
  numbers: ReadonlyMap<string, PartNumber>,
): string | null {
  const own = numbers.get(part.name);
  if (twin === null || own === undefined) return null;
  const other = numbers.get(twin.part.name)?.label ?? twin.part.name;
  if (!twin.mirrored)
    return `This is the ${own.hand} one. ${other} is not its mirror image: bend that from its own sheet.`;
  const same = `This is the ${own.hand} one. ${other} is its mirror image: the same stick, marks and angles`;
  if (flat)
    return `${same}; all bends lie in one plane, so that until its ends are cut the bent tube fits either side. Then the two differ.`;
  const turned = rows
    .filter(({ rotation }) => rotation !== null)
    .map(({ number, rotation }) => `bend ${String(number)} ${rotationWords(-(rotation ?? 0))}`);
  return `${same}, but every rotation the other way round (there: ${turned.join('; ')}). One cannot be made into the other.`;
}
