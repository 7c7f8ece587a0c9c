/** Which rows of the fact sheets are rules, and why the others are not; and how many rules there are. A page, as text. */
import type { SourceState } from '../../../grammar/finding';
import { BOOKS } from '../books';
import { RULES } from '../rules';
import type { Reason } from './reasons';
import { REASONS } from './reasons';
import { FIA_ROWS, NORTH_AMERICA_ROWS } from './rows';

export interface Row {
  readonly id: string;
  /** `fia-253 hoop.tilt`. */
  readonly rules: readonly string[];
  readonly reason: Reason | null;
}

/** By the id of the row. */
function rulesByRow(): ReadonlyMap<string, readonly string[]> {
  const map = new Map<string, string[]>();
  for (const book of BOOKS) {
    for (const { code, rows } of book.limits) {
      for (const row of rows) {
        const list = map.get(row) ?? [];
        const said = `${book.name} ${code}`;
        if (!list.includes(said)) list.push(said);
        map.set(row, list);
      }
    }
  }
  return map;
}

export function coverage(): readonly Row[] {
  const rules = rulesByRow();
  return [...FIA_ROWS, ...NORTH_AMERICA_ROWS].map((id) => ({
    id,
    rules: rules.get(id) ?? [],
    reason: REASONS.get(id) ?? null,
  }));
}

const STATES: readonly SourceState[] = ['published', 'from memory', 'common practice'];

/** Rows of a table: a book, its quantities, its limits, and the limits by the state of their source. */
function countsByBook(): readonly (readonly string[])[] {
  const count = (limits: (typeof BOOKS)[number]['limits']): readonly string[] => [
    String(new Set(limits.map(({ code }) => code)).size),
    String(limits.length),
    ...STATES.map((state) => String(limits.filter(({ source }) => source === state).length)),
  ];
  const all = BOOKS.flatMap((book) => book.limits);
  return [...BOOKS.map((book) => [`\`${book.name}\``, ...count(book.limits)]), ['all', ...count(all)]];
}

const KIND_WORDS: Readonly<Record<Reason['kind'], string>> = {
  needs: 'needs a fact that the language does not have',
  built: 'told whatever the book',
  'not a limit': 'no limit to judge',
  'drawing not seen': 'the drawing was not seen',
  'no book': 'no book',
  open: 'open',
};

const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;

const table = (head: readonly string[], rows: readonly (readonly string[])[]): readonly string[] => [
  line(head),
  line(head.map(() => '---')),
  ...rows.map(line),
];

/** The table of the books, for the README. */
export const booksTable = (): readonly string[] => table(['book', 'quantities', 'limits', ...STATES], countsByBook());

/** The page, in Markdown. */
export function coveragePage(): string {
  const rows = coverage();
  const ruled = rows.filter(({ rules }) => rules.length > 0).length;
  return [
    '# What the rulebooks of this tool cover',
    '',
    'Made from the books by `node server/rules/tools/coverage.mjs`; do not edit it by hand. The rows are those of the',
    'collected facts, each with its state of source; the current printed book and the scrutineer decide.',
    '',
    `${String(RULES.length)} quantities are measured. Of ${String(rows.length)} rows ${String(ruled)} are rules.`,
    '',
    '## Rules by book and by state of source',
    '',
    ...booksTable(),
    '',
    '## Rows',
    '',
    ...table(
      ['row', 'rule, or why it is none'],
      rows.map(({ id, rules, reason }) => [
        id,
        rules.length > 0
          ? rules.map((rule) => `\`${rule}\``).join(', ')
          : reason === null
            ? ''
            : reason.kind === 'built'
              ? `${KIND_WORDS.built}: \`${reason.says}\``
              : `${KIND_WORDS[reason.kind]}: ${reason.says}`,
      ]),
    ),
    '',
  ].join('\n');
}
