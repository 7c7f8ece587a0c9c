/** Pieces of HTML. Whatever comes from a file goes through `escaped`; what is made here is a `Markup`. */
import { escaped } from '../drawing/svg';

declare const markup: unique symbol;
/** Text that is HTML already. A plain string is not: the compiler keeps the two apart. */
export type Markup = string & { readonly [markup]: true };

/** Made by this folder out of fixed text and escaped words. */
export const raw = (html: string): Markup => html as Markup;

export const words = (plain: string): Markup => raw(escaped(plain));

export const join = (parts: readonly Markup[], between = ''): Markup => raw(parts.join(between));

type Attributes = Readonly<Record<string, string>>;

export function element(name: string, attributes: Attributes, ...content: readonly (Markup | string)[]): Markup {
  const written = Object.entries(attributes).map(([key, value]) => ` ${key}="${escaped(value)}"`);
  return raw(`<${name}${written.join('')}>${content.join('')}</${name}>`);
}

export const paragraph = (plain: string, kind = ''): Markup =>
  element('p', kind === '' ? {} : { class: kind }, words(plain));

export interface Row {
  /** The first cell is the row's head. */
  readonly cells: readonly Markup[];
  readonly kind?: string;
}

/** A column: its head, and its share of the table's width, %. */
export type Column = readonly [string, number];

/** A table of so few rows is not broken over two sheets, unless its kind is `long`: of rows as high as pictures. */
const WHOLE = 8;

/** A table whose columns and rows have heads that are read out with each cell. */
export function table(caption: string, columns: readonly Column[], rows: readonly Row[], kind = ''): Markup {
  const classes = [kind, rows.length <= WHOLE && kind !== 'long' ? 'whole' : ''].filter((one) => one !== '').join(' ');
  const widths = columns.map(([, share]) => raw(`<col style="width:${String(share)}%">`));
  const head = columns.map(([one]) => element('th', { scope: 'col' }, words(one)));
  const body = rows.map(({ cells, kind: of = '' }) =>
    element(
      'tr',
      of === '' ? {} : { class: of },
      ...cells.map((cell, i) => element(i === 0 ? 'th' : 'td', i === 0 ? { scope: 'row' } : {}, cell)),
    ),
  );
  return element(
    'table',
    classes === '' ? {} : { class: classes },
    element('caption', {}, words(caption)),
    '\n',
    element('colgroup', {}, ...widths),
    '\n',
    element('thead', {}, element('tr', {}, ...head)),
    '\n',
    element('tbody', {}, '\n', join(body, '\n'), '\n'),
  );
}

/** Terms with what is said of each. */
export const terms = (pairs: readonly (readonly [string, Markup])[]): Markup =>
  element(
    'dl',
    {},
    ...pairs.map(([name, said]) => join([element('dt', {}, words(name)), element('dd', {}, said), raw('\n')])),
  );

/** Words in which `a piece of the language` stands between backticks. */
export const withCode = (plain: string): Markup =>
  join(plain.split('`').map((part, i) => (i % 2 === 0 ? words(part) : element('code', {}, words(part)))));

/** A code such as `strap.drop`, which may break after its dots. */
export const code = (plain: string): Markup => element('code', {}, raw(escaped(plain).replaceAll('.', '.<wbr>')));

/** A figure with its unit: `5 15/32 in`, `139.3 mm`, `END 1`. */
const FIGURE = /(?:\d[\d.]*(?: \d+\/\d+)?|\d+\/\d+) (?:mm|in)\b|END [12]\b/g;

/** Words whose figures are never broken over two lines. */
export function figures(plain: string): Markup {
  let from = 0;
  const parts: Markup[] = [];
  for (const { 0: figure, index } of plain.matchAll(FIGURE)) {
    parts.push(words(plain.slice(from, index)), element('span', { class: 'n' }, words(figure)));
    from = index + figure.length;
  }
  return join([...parts, words(plain.slice(from))]);
}

/** Lines of one cell. */
export const lines = (parts: readonly Markup[]): Markup => join(parts, '<br>');

/** A part of a page under its heading, named by it for those who listen. */
export const section = (id: string, title: string, ...content: readonly Markup[]): Markup =>
  element(
    'section',
    { 'aria-labelledby': id },
    '\n',
    element('h2', { id }, words(title)),
    '\n',
    join(content, '\n'),
    '\n',
  );
