/** Hover on the words of the language: what they mean, out of the vocabulary. */
import { CODES, type Code } from '../../grammar/codes';
import { KIND_SHAPES, type Part } from '../../grammar/pattern';
import { UNITS, type LengthUnit } from '../../grammar/units';
import { KIND_BY_NAME, ROLES, type FactEntry, type KindEntry } from '../../grammar/vocabulary';
import { AXES, DIRECTIONS, FUNCTIONS, PHRASE_WORDS } from '../../grammar/words';
import { explanationOf } from '../rules/explanations';
import { findBook, type Library } from '../rules/library';
import type { Cursor, Word } from './cursor';
import { code, plain, list } from './figures';
import { booksOn, hoverBook } from './hover-book';
import { usageOf } from './usage';

/** A look-up that does not find `constructor` and the like. */
const own = <T>(record: Readonly<Record<string, T>>, key: string): T | undefined =>
  Object.hasOwn(record, key) ? record[key] : undefined;

const factText = (kind: KindEntry, fact: FactEntry): string => {
  const without = fact.default === null ? '' : `\n\nWithout it: ${plain(fact.default)}.`;
  return `**${fact.name}** of ${kind.name}\n\n${code(`${fact.name} ${usageOf(kind, fact.name)}`)}\n\n${plain(fact.meaning)}${without}`;
};

const kindText = (kind: KindEntry): string => {
  const head = `${kind.name} ${kind.target ? 'NAME = ' : ''}${usageOf(kind, null)}`.trim();
  const facts = kind.facts.map((fact) => [`\`${fact.name}\``, plain(fact.meaning)]);
  const listed = facts.length === 0 ? '' : `\n\n${list(['fact', 'meaning'], facts)}`;
  return `**${kind.name}**\n\n${code(head)}\n\n${plain(kind.meaning)}${listed}`;
};

const unitText = (name: string): string | null => {
  const unit = own(UNITS, name);
  return unit === undefined ? null : `**${name}**: ${unit.meaning}`;
};

const functionText = (name: string): string | null => {
  const entry = own(FUNCTIONS, name);
  if (entry === undefined) return null;
  return `${code(`${name}(${entry.takes.join(', ')}${entry.more ? ', …' : ''})`)}\n\n${plain(entry.meaning)}`;
};

const codeText = (name: string): string | null => {
  if (!Object.hasOwn(CODES, name)) return null;
  const entry = explanationOf(name as Code);
  return `**${name}**\n\n${plain(entry.what)}\n\n${plain(entry.why)}\n\n${plain(entry.mend)}`;
};

/** What a small word means where it stands: units after numbers, functions before brackets, directions in brackets. */
const smallWord = (text: string, { text: word, span }: Word): string | null => {
  const before = text.slice(Math.max(0, span.start - 60), span.start);
  const after = text.slice(span.end, span.end + 60);
  if (/[\d.][ \t]*$/.test(before)) {
    const unit = unitText(word);
    if (unit !== null) return unit;
  }
  if (/^[ \t]*\(/.test(after) && own(FUNCTIONS, word) !== undefined) return functionText(word);
  const direction = own(DIRECTIONS, word);
  const inBrackets = before.lastIndexOf('(') > before.lastIndexOf(')');
  const phrase = own(PHRASE_WORDS, word);
  if (direction !== undefined && (inBrackets || phrase === undefined))
    return `**${word}**: ${plain(direction.meaning)}`;
  if (phrase !== undefined) return `**${word}**: ${plain(phrase)}`;
  const axis = own(AXES, word);
  return axis === undefined ? null : `**${word}**: ${plain(axis)}`;
};

/** Whether a statement (or its fact) begins with a choice of words that holds this one. */
const choosesFirst = (kind: KindEntry, fact: string | null, word: string): boolean => {
  const shapes = KIND_SHAPES.get(kind.name);
  const shape = fact === null ? shapes?.head : shapes?.facts.get(fact)?.shape;
  return (shape?.pattern ?? []).some(([first]) => first?.part === 'slot' && first.words.includes(word));
};

/** Whether a fact takes a word that is nobody's name. */
const takesAnyWord = (kind: KindEntry, fact: string): boolean =>
  (KIND_SHAPES.get(kind.name)?.facts.get(fact)?.shape.pattern ?? [])
    .flat()
    .flatMap((part): readonly Part[] => (part.part === 'sized' ? part.slots : [part]))
    .some((part) => part.part === 'slot' && (part.type === 'word' || part.type === 'bolt'));

/** The kind of the innermost block around the cursor. */
const blockKind = (cursor: Cursor): KindEntry | null => {
  const around = cursor.entries.filter((entry) => entry !== cursor.onLine);
  const word = around.at(-1)?.line.word.text;
  return word === undefined ? null : (KIND_BY_NAME.get(word) ?? null);
};

/** Statements in whose head a rulebook is named. */
const NAMES_BOOKS: ReadonlySet<string> = new Set(['rules', 'waive', 'rulebook']);

/** The meaning of the word at the cursor, where it is one of the language's. */
export const hoverWord = (cursor: Cursor, word: Word, unit: LengthUnit, library: Library): string | null => {
  const { text } = cursor.tree;
  const line = cursor.onLine?.line ?? null;
  const start = cursor.statement?.offset ?? 0;
  const kind = blockKind(cursor);
  if (line !== null && line.word.span.start + start === word.span.start) {
    const fact = kind?.facts.find((one) => one.name === word.text);
    if (kind !== null && fact !== undefined) return factText(kind, fact);
    const statement = KIND_BY_NAME.get(word.text);
    return statement === undefined ? null : kindText(statement);
  }
  // `strap.drop` in a waiver is one word of two names.
  const dotted = /[\w.-]*$/.exec(text.slice(Math.max(0, word.span.start - 40), word.span.end))?.[0] ?? '';
  const rest = /^\.[\w-]+/.exec(text.slice(word.span.end, word.span.end + 40))?.[0] ?? '';
  const inBook = kind?.name === 'rulebook' && ['limit', 'accept', 'drop'].includes(line?.word.text ?? '');
  const finding = line?.word.text === 'waive' || inBook ? codeText(dotted + rest) : null;
  if (finding !== null) return inBook ? `${finding}\n\n${booksOn(library, dotted + rest, unit)}` : finding;
  const book = NAMES_BOOKS.has(line?.word.text ?? '') ? findBook(library, word.text) : null;
  if (book !== null) return hoverBook(library, book, unit);
  if (line?.word.text === 'units') return unitText(word.text);
  const role = line?.word.text === 'tube' ? own<string>(ROLES, word.text) : undefined;
  if (role !== undefined) return `**${word.text}**: ${plain(role)}`;
  const fact = kind?.facts.find((one) => one.name === line?.word.text);
  const head = line === null ? undefined : KIND_BY_NAME.get(line.word.text);
  // `slot left` and `mirror left` choose a side, they do not point there.
  const chooses = kind !== null && fact !== undefined ? choosesFirst(kind, fact.name, word.text) : false;
  if (kind !== null && fact !== undefined && chooses) return factText(kind, fact);
  if (fact === undefined && head !== undefined && choosesFirst(head, null, word.text)) return kindText(head);
  // A word that only its fact knows (`across`, `over`, `yes`): the fact says what it chooses between.
  const known = (text: string): boolean => new RegExp(`(^|[^\\w-])${word.text}($|[^\\w-])`).test(text);
  // `from` and `to` of a limit are no places on a tube.
  if (inBook && fact !== undefined && known(usageOf(kind, fact.name))) return factText(kind, fact);
  const small = smallWord(text, word);
  if (small !== null) return small;
  if (kind !== null && fact !== undefined && known(usageOf(kind, fact.name))) return factText(kind, fact);
  // A word of the person's own, or a thread: what is asked for there.
  if (kind !== null && fact !== undefined && takesAnyWord(kind, fact.name)) return factText(kind, fact);
  if (head !== undefined && known(usageOf(head, null))) return unitText(word.text) ?? kindText(head);
  return unitText(word.text);
};
