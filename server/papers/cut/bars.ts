/** A stick drawn as a bar, with the pieces that come off it in the order of the cuts. */
import type { Markup } from '../html';
import { element, words } from '../html';
import type { Stick } from '../stock/stock';

/** mm of paper. */
const WIDE = 178;
const HIGH = 7;
const EDGE = 0.3;
/** A number of two or three digits needs so much, mm of paper. */
const ROOM = 5;

const at = (value: number): string => (Math.round(value * 1000) / 1000).toFixed(3);

/** `labels`: what stands in each piece, by its name. `longest`: the stick that fills the width, mm. `says`: in words. */
export function barOf(
  stick: Stick,
  kerf: number,
  longest: number,
  labels: ReadonlyMap<string, string>,
  says: string,
): Markup {
  const scale = longest > 0 ? WIDE / longest : 0;
  let from = 0;
  const pieces = stick.pieces.flatMap(({ name, length }): Markup[] => {
    const [x, wide] = [from * scale, length * scale];
    from += length + kerf;
    const box = element('rect', {
      x: at(x),
      y: '0.5',
      width: at(wide),
      height: at(HIGH - 1),
      fill: '#fff',
      stroke: '#000',
      'stroke-width': at(EDGE),
    });
    if (wide < ROOM) return [box];
    return [
      box,
      element(
        'text',
        {
          x: at(x + wide / 2),
          y: at(HIGH / 2 + 1.1),
          'font-size': '3.2',
          'text-anchor': 'middle',
          'font-family': 'Arial, Helvetica, sans-serif',
        },
        words(labels.get(name) ?? ''),
      ),
    ];
  });
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      role: 'img',
      'aria-label': says,
      viewBox: `-0.5 0 ${at(WIDE + 1)} ${at(HIGH)}`,
      width: `${at(WIDE + 1)}mm`,
      height: `${at(HIGH)}mm`,
      style: 'max-width:100%;display:block',
    },
    element('rect', {
      x: '0',
      y: '0.5',
      width: at(stick.length * scale),
      height: at(HIGH - 1),
      fill: '#ccc',
      stroke: '#000',
      'stroke-width': at(EDGE),
    }),
    ...pieces,
  );
}
