/** Completion: statements, facts, roles, the words of phrases, names in scope. Works on half-typed text. */
import { unitsOf as unitOfFile } from '../../grammar/file-units';
import type { Span } from '../../grammar/finding';
import { isFigure, KIND_SHAPES, type Pattern, type Slot } from '../../grammar/pattern';
import type { FileTree } from '../../grammar/tree';
import { KIND_BY_NAME, ROLES } from '../../grammar/vocabulary';
import type { Side } from '../cage/cage';
import type { Analysis } from '../project/project';
import {
  axes,
  choices,
  facts,
  figures,
  acceptedWords,
  groups,
  names,
  phrase,
  refs,
  statements,
  unitsOf,
  word,
  type Around,
  type Completion,
  type Draft,
} from './completion-drafts';
import { elementsOf, wordsBehind, type Element } from './completion-pattern';
import {
  afterDot,
  ENDS_IN_NUMBER,
  insidePlace,
  insideSum,
  isLevel,
  isPlace,
  levelPair,
  triple,
} from './completion-place';
import { lineSpanAt } from './cursor';
import { segmentAt, type Segment } from './segment';

export { snippetOf, type Completion, type CompletionKind } from './completion-drafts';

/** What a value may begin with. */
const startOf = (around: Around, slot: Slot): Draft[] => {
  switch (slot.type) {
    case 'ref':
      return slot.space === null ? [] : refs(around, slot.space);
    case 'role':
      return Object.entries(ROLES).map(([role, meaning]) => word(role, 'role', meaning));
    case 'place':
      return [...phrase('on', 'between', 'in', 'where'), ...names(around, 'node'), ...figures(around)];
    case 'triple':
      return triple();
    case 'pair':
      return levelPair();
    case 'plane':
      return axes();
    case 'choice':
      return choices(slot.words);
    case 'string':
      return slot.name === 'groups' ? groups(around) : slot.name === 'words' ? acceptedWords(around) : [];
    case 'name':
    case 'word':
    case 'bolt':
      return [];
    default:
      return figures(around);
  }
};

const slotsOf = (rows: readonly (readonly Element[])[]): Slot[] =>
  rows.flat().flatMap((element) => ('slot' in element ? [element.slot] : []));

const hasCoordinates = ({ type }: Slot): boolean =>
  ['place', 'figure', 'triple', 'pair', 'plane', 'length'].includes(type);

/** What is written behind the last comma that stands in no bracket. */
const lastItem = (before: string): string => {
  let [depth, start] = [0, 0];
  for (let at = 0; at < before.length; at += 1) {
    if (before[at] === '(') depth += 1;
    else if (before[at] === ')') depth -= 1;
    else if (before[at] === ',' && depth <= 0) start = at + 1;
  }
  return before.slice(start);
};

/** What can follow in a line whose values are laid down by `pattern`; `before` is what stands behind the line's word. */
const following = (around: Around, pattern: Pattern, before: string): Draft[] => {
  const rows = elementsOf(pattern);
  const slots = slotsOf(rows);
  const begins = (row: readonly Element[], index: number): Draft[] => {
    const element = row[index];
    if (element === undefined) return [];
    const here = 'slot' in element ? startOf(around, element.slot) : choices([element.literal]);
    return element.spare ? [...here, ...begins(row, index + 1)] : here;
  };
  const inside = (): Draft[] | null => {
    if (slots.some(isPlace)) return insidePlace(around, before);
    const drafts = slots.some((slot) => isFigure(slot) || hasCoordinates(slot)) ? insideSum(around, before) : null;
    return slots.some(({ type }) => type === 'pair') ? (drafts?.filter(isLevel) ?? null) : drafts;
  };
  const item = lastItem(before);
  if (item.trim() === '') {
    const listed = new Set(before.split(/[\s,]+/));
    return rows.flatMap((row) => begins(row, 0)).filter(({ kind, label }) => kind !== 'word' || !listed.has(label));
  }
  const lastWord = /(->|[\p{L}][\p{L}\d_-]*)\s+$/u.exec(before)?.[1];
  const isLast = (element: Element): boolean => 'literal' in element && element.literal === lastWord;
  // A book's name before a code: what may be left out was not.
  const isBook = (element: Element): boolean =>
    element.spare && 'slot' in element && element.slot.space === 'book' && item.trim() === lastWord;
  const behindWord = rows.flatMap((row) =>
    row.flatMap((element, index) =>
      isLast(element) || (isBook(element) && refs(around, 'book').some(({ label }) => label === lastWord))
        ? begins(row, index + 1)
        : [],
    ),
  );
  if (behindWord.length > 0) return behindWord;
  const within = inside();
  if (within !== null) return within;
  const written = new Set(item.split(/[\s,()]+/));
  const words = choices([...new Set(rows.flatMap((row) => wordsBehind(row, written)))]);
  const units = ENDS_IN_NUMBER.test(before) ? unitsOf(slots.map(({ type }) => type)) : [];
  return [...words, ...units];
};

const sideOf = ({ blocks, heads }: Segment): Side | null => {
  const head = heads[blocks.indexOf('mirror')];
  return head === 'left' || head === 'right' ? head : null;
};

const drafts = (around: Around): Draft[] => {
  const { segment } = around;
  const { before, blocks } = segment;
  const inner = blocks.at(-1);
  const kind = inner === undefined ? undefined : KIND_BY_NAME.get(inner);
  const inFacts = kind !== undefined && kind.block === 'facts';
  if (before.trim() === '') return inFacts ? facts(kind, segment.written) : statements(inner === 'mirror');
  const [, first = '', rest = ''] = /^([\p{L}][\p{L}\p{M}\d_-]*)(.*)$/su.exec(before) ?? [];
  const shapes = inFacts ? undefined : KIND_SHAPES.get(first);
  const shape = inFacts ? KIND_SHAPES.get(kind.name)?.facts.get(first)?.shape : shapes?.head;
  if (shape === undefined) return [];
  const dotted = afterDot(around, before, slotsOf(elementsOf(shape.pattern)).some(hasCoordinates));
  const inCode = (first === 'waive' && !/\son\s/.test(rest)) || (inner === 'rulebook' && /^\s*[\w-]+\.$/.test(rest));
  if (dotted !== null && !inCode) return dotted;
  // In a waiver and in a rulebook the code is one word, dot and all.
  const behind = dotted === null ? rest : rest.replace(/[\w-]+\.$/, '');
  if (shapes?.kind.target !== true) return following(around, shape.pattern, behind.trimStart());
  const equals = rest.indexOf('=');
  return equals < 0 ? [] : following(around, shape.pattern, rest.slice(equals + 1).trimStart());
};

/** The name that the statement around the cursor gives: nothing hangs on itself. */
const ownName = ({ before, heads, blocks }: Segment): string => {
  const head = blocks.length > 0 && blocks.at(-1) !== 'mirror' ? (heads.at(-1) ?? '') : before.replace(/^\S+\s+/, '');
  return /^[\p{L}\p{M}\d_-]+(?=\s|$)/u.exec(head)?.[0].normalize('NFC') ?? '';
};

/** In a waiver or a rulebook a code is one word with a dot in it: what is replaced begins before the dot. */
const dottedStart = ({ before, partial, start, blocks }: Segment): number => {
  const lines =
    blocks.at(-1) === 'rulebook' ? /^(?:limit|accept|drop)\s+([\w-]+\.)$/ : /^waive\b(?!.*\son\s).*?([\w-]+\.)$/s;
  const dotted = lines.exec(before)?.[1];
  return dotted === undefined ? start : start + partial.length - (dotted.length + partial.length);
};

/** The way from one file to another, as a `use` line writes it. */
const wayTo = (from: string, to: string): string => {
  const [here, there] = [from.split('/').slice(0, -1), to.split('/')];
  let shared = 0;
  while (shared < here.length && shared < there.length - 1 && here[shared] === there[shared]) shared += 1;
  return [...here.slice(shared).map(() => '..'), ...there.slice(shared)].join('/');
};

interface TypedPath {
  readonly span: Span;
  /** What has to stand before and behind it for a text in quotes. */
  readonly quotes: readonly [string, string];
}

/** What is typed of the path of a `use` line; null elsewhere. */
const pathAt = (text: string, offset: number): TypedPath | null => {
  const { start, end } = lineSpanAt(text, offset);
  const [, quote, typed = ''] = /^\s*use[ \t]+("?)([^"\\]*)$/.exec(text.slice(start, offset)) ?? [];
  if (quote === undefined) return null;
  const closed = text.slice(offset, end).includes('"');
  return { span: { start: offset - typed.length, end: offset }, quotes: [quote === '' ? '"' : '', closed ? '' : '"'] };
};

/** Whether the cursor stands in the path of a `use` line: only then are files wanted. */
export const wantsFiles = (text: string, offset: number): boolean => pathAt(text, offset) !== null;

const paths = (tree: FileTree, { span, quotes }: TypedPath, files: readonly string[]): Completion[] => {
  const { start } = lineSpanAt(tree.text, span.start);
  const others = tree.text.slice(0, start) + tree.text.slice(span.end);
  const used = new Set([...others.matchAll(/^[ \t]*use[ \t]+"([^"\n]*)"/gm)].map((match) => match[1]));
  return files
    .filter((file) => file !== tree.file)
    .map((file) => wayTo(tree.file, file))
    .filter((path) => !used.has(path))
    .map((path) => ({ ...word(path, 'file', ''), insert: `${quotes[0]}${path}${quotes[1]}`, span }));
};

/**
 * What may be written at the offset.
 * @param files keys of the files that a `use` line may name
 */
export const complete = (
  analysis: Analysis,
  file: string,
  offset: number,
  files: readonly string[] = [],
): Completion[] => {
  const tree = analysis.trees.get(file);
  if (tree === undefined) return [];
  const path = pathAt(tree.text, offset);
  if (path !== null) return paths(tree, path, files);
  const segment = segmentAt(tree, offset);
  if (segment.quiet) return [];
  const around = { analysis, segment, side: sideOf(segment), unit: unitOfFile(tree) };
  const span = { start: dottedStart(segment), end: offset };
  const seen = new Set<string>();
  const own = ownName(segment);
  return drafts(around)
    .filter(({ label }) => label !== own && label !== `${own}.left` && label !== `${own}.right`)
    .filter(({ label }) => !seen.has(label) && seen.add(label) !== undefined)
    .map((draft) => ({ ...draft, span }));
};
