/** Hover on a shoulder strap and on its seat: figures, and the limits of the books that judge this car. */
import type { Code } from '../../grammar/codes';
import { degrees, type LengthUnit } from '../../grammar/units';
import type { Cage, Seat, Strap } from '../cage/cage';
import type { Shape } from '../geometry/shape';
import { bookNamed } from '../rules/books';
import { standsBack } from '../rules/assess';
import type { Book, Limit } from '../rules/rule';
import { bothLengths, code, fixed, inDegrees, inUnit, NONE, otherUnit, pointIn, list } from './figures';

const bound = (value: number, unit: Limit['allowed']['unit'], length: LengthUnit): string =>
  unit === 'mm' ? `${inUnit(value, length)} ${length}` : `${fixed(value, 0)}°`;

const limitText = (limit: Limit, length: LengthUnit): string => {
  const { from, to, unit } = limit.allowed;
  const range =
    from !== null && to !== null
      ? `${bound(from, unit, length)} to ${bound(to, unit, length)}`
      : to !== null
        ? `at most ${bound(to, unit, length)}`
        : from !== null
          ? `at least ${bound(from, unit, length)}`
          : null;
  return range === null ? '' : `${limit.force} ${range}`;
};

/** What the chosen books say about a quantity. */
const limitsOn = (cage: Cage, quantity: Code, length: LengthUnit): string => {
  const books = cage.rules.map(bookNamed).filter((book): book is Book => book !== null);
  return books
    .map((book) => {
      const asked = book.limits
        .filter((limit) => limit.code === quantity && !standsBack(limit, book, books))
        .map((limit) => limitText(limit, length))
        .filter((text) => text !== '');
      return asked.length === 0 ? '' : `${book.name} ${asked.join(', ')}`;
    })
    .filter((text) => text !== '')
    .join('; ');
};

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
  const rows = [
    ['Slots, midway between their lower front edges', slots],
    ['Recline', inDegrees(seat.recline)],
    ['Faces', facing],
    ['Gap behind the shell', `${bothLengths(figures?.gap ?? null, unit)}${nearest}`],
    ["Gap to the straps' bar", bothLengths(figures?.barGap ?? null, unit)],
    ['Gap wanted', limitsOn(cage, 'seat.gap', unit) || NONE],
  ];
  return `**seat** ${code(seat.name)}\n\n${list(['', ''], rows)}`;
};
