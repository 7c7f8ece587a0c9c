/** One finding explained: for the terminal, and as Markdown for an editor. Made from the explanations and the books. */
import type { Code } from '../../grammar/codes';
import { CODES } from '../../grammar/codes';
import type { Stage } from '../../grammar/explanations';
import type { Allowed } from '../../grammar/finding';
import { STAGE_WORDS } from '../../grammar/explanations';
import { BOOKS } from './books';
import { explanationOf } from './explanations';
import type { Book, Limit } from './rule';
import { tableWords } from './sizes';

/** What safety text has to say everywhere. */
const CAUTION = 'An aid, not an approval: the current printed rulebook, the scrutineer and licensed practice decide.';

const isCode = (code: string): code is Code => Object.prototype.hasOwnProperty.call(CODES, code);

/** The limits of all books on a code. */
export function limitsOn(code: Code): readonly { readonly book: Book; readonly limit: Limit }[] {
  return BOOKS.flatMap((book) => book.limits.filter((limit) => limit.code === code).map((limit) => ({ book, limit })));
}

const UNIT_WORDS: Readonly<Record<Allowed['unit'], string>> = {
  mm: ' mm',
  deg: '°',
  kg: ' kg',
  N: ' N',
  MPa: ' MPa',
  '1': '',
  mm2: ' mm²',
};

/** A limit as words: `0 to 45°`, `at most 20°`, `what the thing itself asks for`. */
export function allowedWords(allowed: Allowed): string {
  const unit = UNIT_WORDS[allowed.unit];
  if (allowed.from !== null && allowed.to !== null) return `${String(allowed.from)} to ${String(allowed.to)}${unit}`;
  if (allowed.to !== null) return `at most ${String(allowed.to)}${unit}`;
  if (allowed.from !== null) return `at least ${String(allowed.from)}${unit}`;
  return 'what the thing itself asks for';
}

/** What a limit asks for: a range, a table of sizes, or words. */
export function limitWords(limit: Limit): string {
  if (limit.sizes !== undefined) return tableWords(limit.sizes);
  if (limit.accepts !== undefined) return limit.accepts.join(', ');
  const words = allowedWords(limit.allowed);
  return limit.strict === true ? words.replace(/^at most/, 'less than').replace(/^at least/, 'more than') : words;
}

/** For which things and which cars a limit holds; empty: for all. */
function scopeWords(limit: Limit): string {
  const scopes = [
    limit.of === undefined ? '' : limit.of.join(', '),
    limit.notOf === undefined ? '' : `all but ${limit.notOf.join(', ')}`,
    limit.structure === undefined ? '' : limit.structure === 'cage' ? 'full cages' : 'bare roll bars',
    limit.since === undefined ? '' : `homologated from ${limit.since} on`,
    limit.before === undefined ? '' : `homologated before ${limit.before}`,
  ].filter((scope) => scope !== '');
  return scopes.length === 0 ? '' : ` for ${scopes.join('; ')}`;
}

const limitLine = (book: Book, limit: Limit): string => {
  const text = limit.edition === '' ? '' : `, ${limit.edition} text`;
  const where = limit.source === 'common practice' ? limit.citation : `${limit.citation}${text}, ${limit.source}`;
  return `${book.name} ${limit.force} ${limitWords(limit)}${scopeWords(limit)} (${where}): ${limit.severity}. ${limit.why}`.trim();
};

const waiverLine = (code: Code): string =>
  CODES[code].waivable
    ? `Can be waived: waive ${code} on NAME because "reason"`
    : 'Cannot be waived: with it the car cannot be read or built.';

interface Section {
  readonly title: string;
  readonly lines: readonly string[];
  readonly code: boolean;
}

function sections(code: Code): readonly Section[] {
  const told = explanationOf(code);
  const limits = limitsOn(code);
  const text = (title: string, ...lines: readonly string[]): Section => ({ title, lines, code: false });
  return [
    text('What', told.what),
    text('Why', told.why),
    text('Measured', told.measured),
    text('Source', told.source),
    ...(limits.length > 0 ? [text('Limits', ...limits.map(({ book, limit }) => limitLine(book, limit)))] : []),
    text('Mend', told.mend),
    { title: around(told.stage), lines: shown(told.bad), code: true },
    { title: 'But so', lines: shown(told.good), code: true },
    text('Waiver', waiverLine(code)),
    ...(limits.length > 0 ? [text('Caution', CAUTION)] : []),
  ];
}

const around = (stage: Stage): string => (STAGE_WORDS[stage] === '' ? 'Not so' : `Not so (${STAGE_WORDS[stage]})`);

/** An example as it is shown: no line longer than a page is wide. */
function shown(example: string): readonly string[] {
  const longest = 200;
  return example.split('\n').map((line) => (line.length > longest ? `${line.slice(0, longest)} …` : line));
}

/** The text of `cagewright explain CODE`; null where there is no such code. */
export function explainText(code: string): string | null {
  if (!isCode(code)) return null;
  const body = sections(code).map(({ title, lines, code: isExample }) =>
    isExample
      ? `${title}:\n${lines.map((line) => `    ${line}`).join('\n')}`
      : `${title}: ${lines.join(`\n${' '.repeat(title.length + 2)}`)}`,
  );
  return `${code}: ${CODES[code].severity}\n\n${body.join('\n\n')}\n`;
}

/** The same as Markdown; null where there is no such code. */
export function explainMarkdown(code: string): string | null {
  if (!isCode(code)) return null;
  const body = sections(code).map(({ title, lines, code: isExample }) =>
    isExample
      ? `**${title}**\n\n\`\`\`cage\n${lines.join('\n')}\n\`\`\``
      : lines.length === 1
        ? `**${title}.** ${lines[0] ?? ''}`
        : `**${title}.**\n\n${lines.map((line) => `- ${line}`).join('\n')}`,
  );
  return `# ${code}\n\n${CODES[code].severity}\n\n${body.join('\n\n')}\n`;
}
