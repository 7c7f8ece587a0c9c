/** A paper of a packet as a page: its head, the cautions, and on every printed sheet which paper of which file it is. */
import type { Markup } from '../html';
import { element, join, paragraph, raw, words } from '../html';
import { MARK, page } from '../page';
import { CAUTIONS, footer, header, markupMark } from './marks';
import type { PacketInput } from './paper';

/** A string of CSS: whatever is no plain letter, digit or blank is written as its number. */
export const cssString = (text: string): string =>
  `"${text.replace(/[^A-Za-z0-9 ]/gu, (sign) => `\\${(sign.codePointAt(0) ?? 0).toString(16)} `)}"`;

/** Longer words do not fit beside the number of the sheet. */
const LONGEST = 90;

const short = (text: string): string => {
  const signs = [...text.replace(/\s+/g, ' ')];
  return signs.length <= LONGEST ? signs.join('') : `${signs.slice(0, LONGEST - 1).join('')}…`;
};

/** In the margins of every sheet: sheets that were mixed up on a bench find back to each other. */
const sheetStyle = (input: PacketInput, what: string): string => `
@page {
  margin: 14mm 12mm 15mm;
  @top-left { content: ${cssString(short(header(input, what)))}; width: 75%; text-align: left; font: 7.5pt Arial, Helvetica, sans-serif; }
  @top-right { content: counter(page) " of " counter(pages); width: 25%; text-align: right; font: 7.5pt Arial, Helvetica, sans-serif; }
  @bottom-left { content: ${cssString(footer(input))}; width: 100%; text-align: left; font: 7.5pt Arial, Helvetica, sans-serif; }
}
`;

export interface Head {
  /** `Bend sheet 07 backstay LEFT`. */
  readonly title: string;
  /** What the sheets say beside the car's title. */
  readonly what: string;
  /** `LEFT`, `RIGHT`: in large letters; empty: none. */
  readonly hand?: string;
  /** Looks of this page alone. */
  readonly style?: string;
}

/** Nothing is fetched and nothing runs. Begins with the packet's mark. */
export function paperPage(
  input: PacketInput,
  { title, what, hand = '', style = '' }: Head,
  content: readonly Markup[],
): string {
  const body = [
    element('style', {}, raw(sheetStyle(input, what) + style)),
    element('h1', {}, words(title)),
    ...(hand === '' ? [] : [element('p', { class: 'strong', style: 'font-size: 15pt' }, words(`${hand} HAND`))]),
    paragraph(input.title, 'strong'),
    paragraph(footer(input), 'small'),
    element('div', { class: 'caution', role: 'note' }, ...CAUTIONS.map((one) => paragraph(one))),
    ...content,
  ];
  return page(header(input, what), join(body, '\n')).replace(`<!-- ${MARK} -->`, () => markupMark);
}
