/** Hole saws: said in words, and their centres on a wrap. */
import { sayNumber } from '../../../grammar/print';
import type { LengthUnit } from '../../../grammar/units';
import { degrees } from '../../../grammar/units';
import type { Item, Point } from '../../drawing/scene';
import { line, point } from '../../drawing/scene';
import { onTape } from '../on-tape';
import { helveticaWidth } from '../pdf-text';
import { fitted } from './draw-words';
import type { HoleSaw, Wrap, WrapPoint } from './wrap';
import { clockAt } from './wrap';

/** A centre so far before the long point lies off the sheet: its place is told in words alone. */
export const FAR = 45;

const SIZE = 2.2;
const CROSS = 6;

/** Centres that lie on the sheet. */
export const onSheet = ({ minCut, saws }: Pick<Wrap, 'minCut' | 'saws'>, top: number): readonly WrapPoint[] =>
  saws.flatMap(({ through }) => through.filter(({ s }) => s > minCut - FAR && s < top));

/** A centre that lies off the sheet is named so far before the long point. */
const NAMED = 7;

/** Where each saw's centre line is named on the sheet; `far`: its centre lies off it, before the long point. */
export function sawPlaces(
  wrap: Pick<Wrap, 'minCut' | 'saws'>,
  top: number,
): readonly { readonly place: WrapPoint; readonly far: boolean; readonly saw: HoleSaw; readonly index: number }[] {
  return wrap.saws.flatMap((saw, index) =>
    saw.through.flatMap((place) => {
      if (place.s >= top) return [];
      const far = place.s <= wrap.minCut - FAR;
      return [{ place: far ? { x: place.x, s: wrap.minCut - NAMED } : place, far, saw, index }];
    }),
  );
}

/** `272.9°`. */
export const clockWords = (angle: number): string => `${sayNumber(degrees(angle), 1)}°`;

/** Between a saw's axis and the tube. */
const angleOf = ({ angle }: HoleSaw): string => clockWords(angle);

/** Words of one hole saw, with its place on the clock. */
export function sawWords(saw: HoleSaw, wrap: Wrap, units: LengthUnit): string {
  const offset =
    saw.offsetClock === null
      ? 'through the middle of the tube'
      : `${onTape(saw.offset, units)} off the middle, toward clock ${clockWords(saw.offsetClock)}`;
  const near = saw.bent ? '; the host is bent here: a hole saw comes near, the drawn line decides' : '';
  const lean =
    saw.angle > Math.PI / 2 - 1e-6
      ? `square across, axis in line with clock ${clockWords(saw.clock)}`
      : `axis leans away from the joint toward clock ${clockWords(saw.clock)}`;
  const places = saw.through.map((place) => {
    const by = wrap.minCut - place.s;
    return `clock ${clockWords(clockAt(wrap, place.x))}, ${onTape(Math.abs(by), units)} ${by >= 0 ? 'before' : 'behind'} the long point`;
  });
  const through = places.length === 0 ? '' : ` Its axis goes through the outside at ${places.join('; ')}.`;
  return `Hole saw for ${saw.host}: ${onTape(saw.diameter, units)}, ${angleOf(saw)} between its axis and this tube (${clockWords(Math.PI / 2 - saw.angle)} off square), ${lean}, ${offset}${near}.${through}`;
}

/** Centre lines, centres, and whose saw it is; `low` and `top`: set-backs of the sheet's edges. */
export function sawItems(
  wrap: Wrap,
  at: (p: WrapPoint) => Point,
  low: number,
  top: number,
  numberOf: (host: string) => string,
): readonly Item[] {
  const middle = wrap.width / 2;
  return sawPlaces(wrap, top).flatMap(({ place, far, saw, index: i }): readonly Item[] => {
    const words = `hole saw ${numberOf(saw.host)}: ${angleOf(saw)}`;
    const wide = helveticaWidth(words, SIZE, false) + 2.4;
    const p = at(place);
    // Words stay on their own half, clear of the line TOP; those of a second saw below the cross.
    const [from, to] = p.x < middle ? [1, middle - 1] : [middle + 1, wrap.width - 1];
    const y = i % 2 === 0 ? p.y - 1.6 : p.y + 3.2;
    const said =
      p.x + wide <= to
        ? fitted(point(p.x + 1.6, y), words, SIZE, wide, { anchor: 'start' })
        : p.x - wide >= from
          ? fitted(point(p.x - 1.6, y), words, SIZE, wide, { anchor: 'end' })
          : fitted(point((from + to) / 2, i % 2 === 0 ? p.y - 2 : p.y + 3.6), words, SIZE, to - from);
    const along = line('centre', [at({ x: place.x, s: low }), at({ x: place.x, s: Math.min(top, place.s + 14) })]);
    if (far) return [along, said];
    return [
      along,
      line('centre', [point(Math.max(0, p.x - CROSS), p.y), point(Math.min(wrap.width, p.x + CROSS), p.y)]),
      { kind: 'circle', style: 'dimension', centre: p, radius: 1.2 },
      said,
    ];
  });
}
