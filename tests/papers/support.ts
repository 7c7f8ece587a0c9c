/** A report read back: its tables as rows of words, by a general-purpose HTML parser (parse5). */
import { parse, type DefaultTreeAdapterTypes, type ParserError } from 'parse5';
import type { Analysis } from '../../server/project/project';
import { reportHtml } from '../../server/project/report';
import { analyse } from '../support/analyse';

type Node = DefaultTreeAdapterTypes.ChildNode;
export type Element = DefaultTreeAdapterTypes.Element;

export const html = (analysis: Analysis, date: string | null = null): string =>
  reportHtml(analysis, {
    hashOf: (text) => `hash of ${String(text.length)}`,
    placeOf: ({ place }) => `${place.file}:@${String(place.span.start)}`,
    maker: 'Cagewright 1.2.3',
    date,
  });

export const reportOf = async (text: string, files: Readonly<Record<string, string>> = {}): Promise<string> =>
  html(await analyse(text, files));

export interface Read {
  readonly errors: readonly ParserError[];
  readonly elements: readonly Element[];
  /** All words of the page. */
  readonly words: string;
}

export const wordsIn = (node: Node | DefaultTreeAdapterTypes.Document): string => {
  if (node.nodeName === '#text' && 'value' in node) return node.value;
  if (node.nodeName === 'style') return '';
  return 'childNodes' in node
    ? node.childNodes.map((one) => wordsIn(one) + (one.nodeName === 'td' ? ' ' : '')).join('')
    : '';
};

const elementsIn = (node: Node | DefaultTreeAdapterTypes.Document): readonly Element[] => [
  ...('tagName' in node ? [node] : []),
  ...('childNodes' in node ? node.childNodes.flatMap(elementsIn) : []),
];

/** The page that was read last: a test asks one page for several of its tables. */
let last: { readonly page: string; readonly read: Read } | null = null;

export function read(page: string): Read {
  if (last?.page !== page) last = { page, read: parsed(page) };
  return last.read;
}

function parsed(page: string): Read {
  const errors: ParserError[] = [];
  const document = parse(page, { onParseError: (error) => errors.push(error), sourceCodeLocationInfo: true });
  return { errors, elements: elementsIn(document), words: wordsIn(document) };
}

export const attribute = (element: Element, name: string): string | null =>
  element.attrs.find((one) => one.name === name)?.value ?? null;

const inside = (element: Element, tag: string): readonly Element[] =>
  elementsIn(element).filter((one) => one.tagName === tag);

/** The rows of the table whose caption begins so: each a list of cells. */
export function rowsOf(page: string, caption: string): readonly (readonly string[])[] {
  const table = read(page).elements.find(
    (one) => one.tagName === 'table' && inside(one, 'caption').some((c) => wordsIn(c).startsWith(caption)),
  );
  if (table === undefined) return [];
  return inside(table, 'tbody').flatMap((body) =>
    inside(body, 'tr').map((row) =>
      elementsIn(row)
        .filter(({ tagName }) => tagName === 'th' || tagName === 'td')
        .map(wordsIn),
    ),
  );
}

/** Limits that found nothing, by the heading that names the book. */
export const unusedOf = (page: string): readonly string[] =>
  read(page)
    .elements.filter((one) => one.tagName === 'ul' && attribute(one, 'class') === 'rest')
    .flatMap((list) => inside(list, 'li').map(wordsIn));
