/** Colours for editors, from the vocabulary: a TextMate grammar. It sees one line at a time and knows no names. */
import { KIND_SHAPES, type Part } from '../pattern';
import { NAME_PATTERN } from '../tokens';
import { UNITS } from '../units';
import { FACT_NAMES, KINDS, ROLES, TOLD_BY_QUOTES } from '../vocabulary';
import { DIRECTIONS, FUNCTIONS, PHRASE_WORDS } from '../words';

interface Rule {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
  readonly patterns?: readonly Rule[];
}

const escape = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

const oneOf = (words: Iterable<string>): string =>
  `(?:${[...new Set(words)]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map(escape)
    .join('|')})`;

/** Not inside a longer name. */
const BEGINS = String.raw`(?<![\p{L}\p{M}\d_.]|[\p{L}\d_]-)`;
const ENDS = String.raw`(?![\p{L}\p{M}\d_]|-[\p{L}\d_])`;
const whole = (words: Iterable<string>): string => `${BEGINS}${oneOf(words)}${ENDS}`;

/** Where a statement or fact begins: at the beginning of a line, or behind `{`, `}` or `;`. */
const STARTS = String.raw`(?:^\s*|(?<=[{};])\s*)`;

function wordsOf(part: Part): readonly string[] {
  switch (part.part) {
    case 'slot':
      return part.words;
    case 'literal':
      return [part.word];
    case 'sized':
      return part.slots.flatMap(wordsOf);
    case 'optional':
    case 'list':
      return part.parts.flatMap(wordsOf);
    case 'arrow':
      return [];
  }
}

/** Every word that some pattern wants as it stands. */
const PATTERN_WORDS = [...KIND_SHAPES.values()].flatMap(({ head, facts }) =>
  [head, ...[...facts.values()].map(({ shape }) => shape)].flatMap(({ pattern }) =>
    pattern.flatMap((parts) => parts.flatMap(wordsOf)),
  ),
);

const named = KINDS.filter((kind) => kind.target || kind.head.startsWith('<name:')).map((kind) => kind.name);
const blocks = KINDS.filter((kind) => kind.block !== 'none').map((kind) => kind.name);
const lines = KINDS.filter((kind) => kind.block === 'none' && !kind.target && !TOLD_BY_QUOTES.has(kind.name)).map(
  (kind) => kind.name,
);
const targets = KINDS.filter((kind) => kind.target).map((kind) => kind.name);

const STATEMENT = 'keyword.control.statement.cage';
const DEFINED = 'entity.name.type.cage';
const FACT = 'storage.type.fact.cage';
const NUMBER = String.raw`(?<![\p{L}\p{M}\d_.])(?:(?:\d+[ \t]+)?\d+/\d+(?!\d|\.\d)|\d+(?:\.\d+)?|\.\d+)`;

/** The grammar as an object that is written out as JSON. */
export function textMateGrammar(): object {
  const namedBlocks = blocks.filter((kind) => named.includes(kind));
  const plainBlocks = blocks.filter((kind) => !named.includes(kind));
  const unit = `${oneOf(Object.keys(UNITS).filter((word) => word !== '%'))}(?:(?=x[\\d.M])|${ENDS})|%`;
  const rules: readonly Rule[] = [
    { name: 'comment.line.number-sign.cage', match: '#.*$' },
    {
      name: 'string.quoted.double.cage',
      begin: String.raw`(?<!\d)"`,
      end: String.raw`"|$`,
      patterns: [{ name: 'constant.character.escape.cage', match: String.raw`\\["\\]` }],
    },
    // A word that is a fact as well (section, die, seat) is a statement where its `{` follows.
    {
      match: `${STARTS}(${oneOf(namedBlocks)})${ENDS}\\s+(${NAME_PATTERN})(?=[^#"{};]*\\{)`,
      captures: { 1: { name: STATEMENT }, 2: { name: DEFINED } },
    },
    { match: `${STARTS}(${oneOf(plainBlocks)})${ENDS}(?=[^#"{};]*\\{)`, captures: { 1: { name: STATEMENT } } },
    {
      match: `${STARTS}(${oneOf(targets)})${ENDS}\\s+(${NAME_PATTERN})(?=\\s*=)`,
      captures: { 1: { name: STATEMENT }, 2: { name: DEFINED } },
    },
    { match: `${STARTS}(${oneOf(lines)})${ENDS}(?=\\s*[^\\s=])`, captures: { 1: { name: STATEMENT } } },
    { match: `${STARTS}(${oneOf(TOLD_BY_QUOTES)})${ENDS}(?=\\s*")`, captures: { 1: { name: STATEMENT } } },
    { match: `${STARTS}(${oneOf(FACT_NAMES)})${ENDS}`, captures: { 1: { name: FACT } } },
    { match: `${STARTS}(${oneOf(KINDS.map((kind) => kind.name))})${ENDS}`, captures: { 1: { name: STATEMENT } } },
    {
      match: `${BEGINS}(as)\\s+(${oneOf(Object.keys(ROLES))})${ENDS}`,
      captures: { 1: { name: 'keyword.operator.word.cage' }, 2: { name: 'support.constant.role.cage' } },
    },
    {
      match: `(${NUMBER})(?:[ \\t]*(${unit}))?`,
      captures: { 1: { name: 'constant.numeric.cage' }, 2: { name: 'keyword.other.unit.cage' } },
    },
    {
      match: `${BEGINS}(${oneOf(Object.keys(FUNCTIONS))})(?=\\s*\\()`,
      captures: { 1: { name: 'support.function.cage' } },
    },
    {
      match: `(\\.)(left|right)${ENDS}`,
      captures: { 1: { name: 'punctuation.separator.cage' }, 2: { name: 'variable.language.side.cage' } },
    },
    { name: 'support.constant.direction.cage', match: whole(Object.keys(DIRECTIONS)) },
    { name: 'keyword.operator.word.cage', match: whole(Object.keys(PHRASE_WORDS).filter((word) => word !== 'x')) },
    { name: 'constant.language.cage', match: whole(PATTERN_WORDS) },
    { name: 'keyword.operator.times.cage', match: String.raw`(?<=[\d\s)])x(?=[\d.M\s(])|(?<=\p{L})x(?=[\d.M])` },
    { name: 'variable.other.cage', match: NAME_PATTERN },
    { name: 'keyword.operator.arrow.cage', match: '->' },
    { name: 'keyword.operator.cage', match: '[-+*/=]' },
    { name: 'punctuation.separator.cage', match: '[,;.]' },
    { name: 'punctuation.section.cage', match: '[{}()]' },
  ];
  return {
    name: 'Cage',
    scopeName: 'source.cage',
    fileTypes: ['cage'],
    patterns: rules,
  };
}

/** What an editor knows without the server: comments, brackets, what a word is, what Enter does. */
export function languageConfiguration(): object {
  const inText = ['string', 'comment'];
  return {
    comments: { lineComment: '#' },
    brackets: [
      ['{', '}'],
      ['(', ')'],
    ],
    autoClosingPairs: [
      { open: '{', close: '}', notIn: inText },
      { open: '(', close: ')', notIn: inText },
      { open: '"', close: '"', notIn: inText },
    ],
    surroundingPairs: [
      ['{', '}'],
      ['(', ')'],
      ['"', '"'],
    ],
    wordPattern: { pattern: `${NAME_PATTERN}|\\d+(?:\\.\\d+)?`, flags: 'u' },
    indentationRules: {
      increaseIndentPattern: '^[^#"]*\\{[^}#"]*(#.*)?$',
      decreaseIndentPattern: '^\\s*\\}',
    },
    onEnterRules: [
      { beforeText: '^[^#]*\\{\\s*$', afterText: '^\\s*\\}', action: { indent: 'indentOutdent' } },
      { beforeText: '^[^#]*\\{\\s*(#.*)?$', action: { indent: 'indent' } },
    ],
  };
}
