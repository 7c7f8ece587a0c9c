/** Ordinates of a template, for those who lay out with a tape. */
import { sayNumber } from '../../../grammar/print';
import type { LengthUnit } from '../../../grammar/units';
import { degrees } from '../../../grammar/units';
import type { Item } from '../../drawing/scene';
import { group, point, text } from '../../drawing/scene';
import { fineOnTape } from '../on-tape';
import { helveticaWidth } from '../pdf-text';
import type { Wrap } from './wrap';
import { stationsOf } from './wrap';

const ROW = 3.9;
const HEAD = 2.9;
const CELL = 2.6;
const ABOVE = 15.4;
/** Where the columns of one half begin, and how wide a figure may be. */
const STARTS = [0, 11, 40, 68];
const FULL = 25.5;

/** Rows of the ordinate table and their room, mm. */
export const tableHeight = (wrap: Wrap): number => ABOVE + Math.ceil(stationsOf(wrap).length / 2) * ROW;

/** Two columns of stations below `y`, from `left`, `room` wide. */
export function ordinates(wrap: Wrap, units: LengthUnit, left: number, y: number, room: number): Item {
  const stations = stationsOf(wrap);
  const half = Math.ceil(stations.length / 2);
  const zero = wrap.end.clockZero?.name ?? 'TOP';
  const items: Item[] = [
    text(
      point(left, y + 3),
      `Ordinates, for a tape: round the tube from ${zero}, clockwise seen from END 1 toward END 2, then along it from the long point.`,
      HEAD,
      { bold: true },
    ),
    text(
      point(left, y + 6.6),
      'Minus: before the long point, toward the joint. Sixty-fourths of an inch along the tube are rounded toward the waste.',
      CELL,
    ),
  ];
  const rows = stations.map(({ clock, round, cut, outer }): readonly string[] => [
    `${sayNumber(degrees(clock), 1)}°`,
    fineOnTape(round, units, Math.round),
    ...[cut, outer].map((one) => fineOnTape(one, units, Math.floor)),
  ]);
  const widest = Math.max(...rows.flatMap((said) => said.map((one) => helveticaWidth(one, CELL, false))));
  const size = CELL * Math.min(1, FULL / widest);
  const column = room / 2;
  const cells = (x: number, at: number, said: readonly string[], bold: boolean): void => {
    STARTS.forEach((by, i) => items.push(text(point(x + by, at), said[i] ?? '', bold ? CELL : size, { bold })));
  };
  for (const i of [0, 1]) cells(left + i * column, y + 11, ['clock', 'round', 'cut line', 'outer edge'], true);
  rows.forEach((said, i) => cells(left + (i < half ? 0 : column), y + 15 + (i % half) * ROW, said, false));
  return group('ordinates', items);
}
