/** One finding explained: for the terminal, and as Markdown for an editor. Made from the explanations and the books. */
import type { Code } from '../../grammar/codes';
import { CODES } from '../../grammar/codes';
import type { Stage } from '../../grammar/explanations';
import type { MeasureUnit } from '../../grammar/finding';
import { STAGE_WORDS } from '../../grammar/explanations';
import { explanationOf } from './explanations';
import type { Library } from './library';
import { BUILT_IN, findBook } from './library';
import { askWords, differenceOn, onCode, sourceWords } from './limit-words';
import { canBeLimited, groupsOf, quantities, unitOf, wordsOf } from './own-book';

/** What safety text has to say everywhere. */
const CAUTION = 'An aid, not an approval: the current printed rulebook, the scrutineer and licensed practice decide.';

const isCode = (code: string): code is Code => Object.prototype.hasOwnProperty.call(CODES, code);

/** What the books say of a code, a line each. A book that is based on another says only where it differs. */
function limitLines(code: Code, library: Library): readonly string[] {
  return library.books.flatMap((book): readonly string[] => {
    const difference = differenceOn(library, book, code);
    if (difference === 'dropped') return [`${book.name} does not limit it, ${book.base ?? ''} does.`];
    if (difference === 'same') return [`${book.name}: as ${book.base ?? ''}.`];
    return onCode(book, code).map((limit) =>
      `${book.name} ${askWords(limit)} (${sourceWords(limit)}): ${limit.severity}. ${limit.why}`.trim(),
    );
  });
}

/** What a sum of a limit is written in. */
const UNITS: Readonly<Record<MeasureUnit, string>> = {
  mm: 'lengths',
  deg: 'angles',
  kg: 'masses',
  N: 'forces',
  MPa: 'stresses',
  '1': 'plain numbers',
  mm2: 'areas',
};

/** How a club's own book limits a quantity; null: no book can. */
function ownLine(code: Code): string | null {
  const all = quantities();
  const unit = unitOf(code, all);
  if (unit === null) return null;
  const groups = groupsOf(code, all).map((group) => `"${group}"`);
  const of = groups.length === 0 ? '' : `; of tells apart ${groups.join(', ')}`;
  const words = wordsOf(code, all).map((word) => `"${word}"`);
  if (words.length > 0) return `accept ${code} ${words.join(', ')}, or some of these${of}; or drop ${code}`;
  return canBeLimited(code, all)
    ? `limit ${code} from A to B (${UNITS[unit]})${of}; or drop ${code}`
    : `drop ${code}: no range limits it${of}`;
}

const waiverLine = (code: Code): string =>
  CODES[code].waivable
    ? `Can be waived: waive ${code} on NAME because "reason"`
    : 'Cannot be waived: with it the car cannot be read or built.';

interface Section {
  readonly title: string;
  readonly lines: readonly string[];
  readonly code: boolean;
}

function sections(code: Code, library: Library): readonly Section[] {
  const told = explanationOf(code);
  const limits = limitLines(code, library);
  const own = ownLine(code);
  const text = (title: string, ...lines: readonly string[]): Section => ({ title, lines, code: false });
  return [
    text('What', told.what),
    text('Why', told.why),
    text('Measured', told.measured),
    text('Source', told.source),
    ...(limits.length > 0 ? [text('Limits', ...limits)] : []),
    text('Mend', told.mend),
    { title: around(told.stage), lines: shown(told.bad), code: true },
    { title: 'But so', lines: shown(told.good), code: true },
    text('Waiver', waiverLine(code)),
    ...(own === null ? [] : [text('In a rulebook of your own', own)]),
    ...(limits.length > 0 ? [text('Caution', CAUTION)] : []),
  ];
}

const around = (stage: Stage): string => (STAGE_WORDS[stage] === '' ? 'Not so' : `Not so (${STAGE_WORDS[stage]})`);

/** An example as it is shown: no line longer than a page is wide. */
function shown(example: string): readonly string[] {
  const longest = 200;
  return example.split('\n').map((line) => (line.length > longest ? `${line.slice(0, longest)} …` : line));
}

/** The text of `cagewright explain CODE`, with the limits of these books; null where there is no such code. */
export function explainText(code: string, library: Library = BUILT_IN): string | null {
  if (!isCode(code)) return null;
  const body = sections(code, library).map(({ title, lines, code: isExample }) =>
    isExample
      ? `${title}:\n${lines.map((line) => `    ${line}`).join('\n')}`
      : `${title}: ${lines.join(`\n${' '.repeat(title.length + 2)}`)}`,
  );
  return `${code}: ${CODES[code].severity}\n\n${body.join('\n\n')}\n`;
}

/** The same as Markdown; null where there is no such code. */
export function explainMarkdown(code: string, library: Library = BUILT_IN): string | null {
  if (!isCode(code)) return null;
  const body = sections(code, library).map(({ title, lines, code: isExample }) =>
    isExample
      ? `**${title}**\n\n\`\`\`cage\n${lines.join('\n')}\n\`\`\``
      : lines.length === 1
        ? `**${title}.** ${lines[0] ?? ''}`
        : `**${title}.**\n\n${lines.map((line) => `- ${line}`).join('\n')}`,
  );
  return `# ${code}\n\n${CODES[code].severity}\n\n${body.join('\n\n')}\n`;
}

/** A rulebook with all its limits, for the terminal; null where there is no such book. */
export function bookText(name: string, library: Library = BUILT_IN): string | null {
  const book = findBook(library, name);
  if (book === null) return null;
  const base = book.base ?? null;
  const lines = book.limits.map((limit) => {
    const whose = limit.inherited === undefined ? '' : `, from ${limit.inherited}`;
    return `${limit.code} ${askWords(limit)} (${sourceWords(limit)}${whose}): ${limit.severity}.`;
  });
  const dropped = [...new Set((findBook(library, base ?? '')?.limits ?? []).map(({ code }) => code))].filter(
    (code) => onCode(book, code).length === 0,
  );
  const left = dropped.length === 0 ? [] : [`Left out of ${base ?? ''}: ${dropped.join(', ')}.`];
  const head = `${book.name}: ${book.title}${base === null ? '' : `, based on ${base}`}`;
  return `${[head, '', ...(lines.length === 0 ? ['It limits nothing.'] : lines), ...left, '', CAUTION].join('\n')}\n`;
}
