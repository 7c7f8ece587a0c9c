/** Hover on a shoulder strap and on its seat: figures, and the limits of the books that judge this car. */
import type { Code } from '../../grammar/codes';
import { degrees, type LengthUnit } from '../../grammar/units';
import type { Cage, Seat, Strap } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { add } from '../centreline/vector';
import type { Shape } from '../geometry/shape';
import { bothLengths, code, fixed, inDegrees, inUnit, NONE, otherUnit, pointIn, list } from './figures';
import { limitsOn } from './hover-book';

/** `16.1° inward`: toward the seat's middle, or away from it. */
const spreadText = (spread: number | null, crossed: boolean): string => {
  if (spread === null) return NONE;
  const way = Math.abs(degrees(spread)) < 0.05 ? '' : spread > 0 ? ' outward' : ' inward';
  return `${inDegrees(Math.abs(spread))}${way}${crossed ? ', crossed' : ''}`;
};

/** Everything about a strap. */
export const hoverStrap = (cage: Cage, shape: Shape, strap: Strap, unit: LengthUnit): string => {
  const figures = shape.straps.find((one) => one.name === strap.name);
  const title = `**strap** ${code(strap.name)}: seat ${code(strap.seat)}, ${strap.slot ?? NONE} slot, wrapped ${strap.wrap} ${code(strap.tube)}`;
  if (figures === undefined) return `${title}\n\nIt cannot be computed yet.`;
  const need = strap.hardware === null ? '' : `the hardware needs ${inUnit(strap.hardware, unit)} ${unit}`;
  const on = (quantity: Code): string => limitsOn(cage, quantity, unit) || NONE;
  const rows = [
    ['Drop', inDegrees(figures.drop), on('strap.drop')],
    ['Drop from the shoulder', inDegrees(figures.dropFromShoulder), NONE],
    ['Spread', spreadText(figures.spread, figures.crossed), on('strap.spread')],
    ['Skew on the bar', inDegrees(figures.skew), on('strap.skew')],
    ['Length', bothLengths(figures.length, unit), on('strap.length')],
    ['Free run', bothLengths(figures.freeRun, unit), need || NONE],
  ];
  const start = figures.onLip ? "It lies on the slot's rear edge and is measured from there." : '';
  const contact = figures.contact === null ? '' : `It meets the bar at ${pointIn(figures.contact, unit)} ${unit}.`;
  return [title, list(['', 'here', 'limit'], rows), `${start} ${contact}`.trim()]
    .filter((text) => text !== '')
    .join('\n\n');
};

/** Everything about a seat. */
/** From one to the other; null where there is none, or both are the same. */
const rangeText = (
  range: { readonly from: number; readonly to: number } | null,
  say: (value: number) => string,
): string | null => (range === null || range.from === range.to ? null : `${say(range.from)} to ${say(range.to)}`);

const helmetText = (middle: Vec3, radius: number, unit: LengthUnit): string =>
  `its middle at ${pointIn(middle, unit)} ${unit}, its top at z = ${bothLengths(middle[2] + radius, unit)}`;

export const hoverSeat = (cage: Cage, shape: Shape, seat: Seat, unit: LengthUnit): string => {
  const figures = shape.seats.find((one) => one.name === seat.name);
  const other = otherUnit(unit);
  const slots =
    seat.slots === null ? NONE : `${pointIn(seat.slots, unit)} ${unit}, ${pointIn(seat.slots, other)} ${other}`;
  const yaw = degrees(seat.yaw);
  const facing =
    Math.abs(yaw) < 1e-9 ? 'straight ahead' : `${fixed(Math.abs(yaw), 1)}° to the ${yaw > 0 ? 'left' : 'right'}`;
  const to = figures?.to ?? null;
  const nearest = to === null ? '' : ` to ${code(to)}`;
  const slide = rangeText(seat.slideRange, (value) => bothLengths(value, unit));
  const rows = [
    ['Slots, midway between their lower front edges', slots],
    ['Recline', rangeText(seat.reclineRange, inDegrees) ?? inDegrees(seat.recline)],
    ...(slide === null ? [] : [['Slides forward', slide]]),
    ['Faces', facing],
    ['Gap behind the shell', `${bothLengths(figures?.gap ?? null, unit)}${nearest}`],
    ["Gap to the straps' bar", bothLengths(figures?.barGap ?? null, unit)],
    ...(seat.helmet === null || seat.slots === null
      ? []
      : [['Helmet', helmetText(add(seat.slots, seat.helmet.offset), seat.helmet.radius, unit)]]),
    ['Gap wanted', limitsOn(cage, 'seat.gap', unit) || NONE],
  ];
  return `**seat** ${code(seat.name)}\n\n${list(['', ''], rows)}`;
};
