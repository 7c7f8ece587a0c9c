/** Completion: statements, facts, roles, the words of phrases, names in scope. Works on half-typed text. */
import { unitsOf } from '../../grammar/file-units';
import { CODES } from '../../grammar/codes';
import type { Span } from '../../grammar/finding';
import { sameDimension, UNITS, ANGLE, LENGTH, type LengthUnit } from '../../grammar/units';
import { KIND_BY_NAME, KINDS, ROLES, type KindEntry, type NameSpace } from '../../grammar/vocabulary';
import { AXES, DIRECTIONS, FUNCTIONS, PHRASE_WORDS } from '../../grammar/words';
import type { Side } from '../cage/cage';
import type { Analysis } from '../project/project';
import { KIND_SHAPES, type Part, type Pattern, type Slot } from '../../grammar/pattern';
import { BOOKS } from '../rules/books';
import { letItems, nameItems, type NameItem } from './name-items';
import { segmentAt, type Segment } from './segment';
import { usageOf } from './usage';

export type CompletionKind = 'statement' | 'fact' | 'word' | 'unit' | 'function' | 'role' | 'code' | NameItem['kind'];

export interface Completion {
  readonly label: string;
  readonly kind: CompletionKind;
  readonly detail: string;
  readonly meaning: string;
  /** What is written: a snippet (`$1`, `${2:name}`) where `snippet` says so. */
  readonly insert: string;
  readonly snippet: boolean;
  /** What is replaced; always on one line. */
  readonly span: Span;
}

type Draft = Omit<Completion, 'span'>;

const word = (label: string, kind: CompletionKind, meaning: string, detail = ''): Draft => ({
  label,
  kind,
  detail,
  meaning,
  insert: label,
  snippet: false,
});

const named = ({ name, kind, detail }: NameItem): Draft => word(name, kind, '', detail);

/** One element of a pattern: a word that stands as it is, or a value; `spare`: it may be left out. */
type Element = { readonly spare: boolean } & ({ readonly literal: string } | { readonly slot: Slot });

const flat = (part: Part, spare = false): Element[] => {
  switch (part.part) {
    case 'slot':
      return [{ slot: part, spare }];
    case 'literal':
      return [{ literal: part.word, spare }];
    case 'arrow':
      return [{ literal: '->', spare }];
    case 'sized':
      return part.slots.map((slot) => ({ slot, spare }));
    case 'optional':
      return part.parts.flatMap((inner) => flat(inner, true));
    case 'list':
      return part.parts.flatMap((inner) => flat(inner, spare));
  }
};

/** Alternatives of a pattern as rows of elements; what may be left out or repeated is in them: all of it is offered. */
const elementsOf = (pattern: Pattern): Element[][] => pattern.map((parts) => parts.flatMap((part) => flat(part)));

/** A statement as a snippet: what its head wants and the facts that it needs, each with a place to type. */
export const snippetOf = (kind: KindEntry): string => {
  let stop = 0;
  const place = (name: string): string => `\${${String((stop += 1))}:${name}}`;
  const piece = (part: Part): string => {
    switch (part.part) {
      case 'slot':
        if (part.type === 'choice') return `\${${String((stop += 1))}|${part.words.join(',')}|}`;
        return part.type === 'string' ? `"${place(part.name)}"` : place(part.name);
      case 'literal':
        return part.word;
      case 'arrow':
        return '->';
      case 'sized':
        return part.slots.map(piece).join(' x ');
      case 'list':
        return part.parts.map(piece).join(' ');
      case 'optional':
        return '';
    }
  };
  const pattern = KIND_SHAPES.get(kind.name)?.head.pattern[0] ?? [];
  const target = kind.target ? [place('name'), '='] : [];
  const line = [kind.name, ...target, ...pattern.map(piece)].filter((text) => text !== '').join(' ');
  if (kind.block === 'none') return line;
  const facts = [...new Set(kind.needs.map((one) => one[0] ?? ''))].filter((name) => name !== '');
  const body = facts.map((name) => `\t${name} $${String((stop += 1))}`);
  return [`${line} {`, ...(body.length > 0 ? body : [`\t$${String((stop += 1))}`]), '}'].join('\n');
};

const statements = (inMirror: boolean): Draft[] =>
  KINDS.filter((kind) => !inMirror || kind.notInMirror === null).map((kind) => ({
    ...word(kind.name, 'statement', kind.meaning, usageOf(kind, null)),
    insert: snippetOf(kind),
    snippet: true,
  }));

const facts = (kind: KindEntry, written: ReadonlySet<string>): Draft[] =>
  kind.facts
    .filter((fact) => !written.has(fact.name))
    .filter((fact) => !kind.oneOf.some((group) => group.includes(fact.name) && group.some((one) => written.has(one))))
    .map((fact) => word(fact.name, 'fact', fact.meaning, usageOf(kind, fact.name)));

const units = (): Draft[] =>
  Object.entries(UNITS)
    .filter(([, { dimension }]) => sameDimension(dimension, LENGTH) || sameDimension(dimension, ANGLE))
    .map(([name, { meaning }]) => word(name, 'unit', meaning));

const allUnits = (): Draft[] => Object.entries(UNITS).map(([name, { meaning }]) => word(name, 'unit', meaning));

const functions = (): Draft[] =>
  Object.entries(FUNCTIONS).map(([name, entry]) => ({
    ...word(name, 'function', entry.meaning, `(${entry.takes.join(', ')})`),
    insert: `${name}(${entry.takes.map((arg, i) => `\${${String(i + 1)}:${arg}}`).join(', ')})`,
    snippet: true,
  }));

const phrase = (...words: readonly string[]): Draft[] =>
  words.map((one) => word(one, 'word', PHRASE_WORDS[one] ?? DIRECTIONS[one]?.meaning ?? ''));

/** What the completion of one request looks at. */
interface Around {
  readonly analysis: Analysis;
  readonly segment: Segment;
  readonly side: Side | null;
  readonly unit: LengthUnit;
}

const names = ({ analysis, side, unit }: Around, ...spaces: readonly NameSpace[]): Draft[] =>
  spaces.flatMap((space) => nameItems(analysis, space, side, unit)).map(named);

const figures = (around: Around): Draft[] => [
  ...letItems(around.analysis.cage, around.unit).map(named),
  ...functions(),
];

const choices = (words: readonly string[]): Draft[] => words.map((one) => word(one, 'word', PHRASE_WORDS[one] ?? ''));

const refs = (around: Around, space: NameSpace): Draft[] => {
  if (space === 'book') return BOOKS.map((book) => word(book.name, 'word', book.title));
  if (space !== 'code') return names(around, space);
  return Object.entries(CODES)
    .filter(([, entry]) => entry.waivable)
    .map(([code, entry]) => word(code, 'code', entry.says));
};

const axes = (): Draft[] => (['x', 'y', 'z'] as const).map((axis) => word(axis, 'word', AXES[axis], `${axis} = …`));

/** What a value may begin with. */
const startOf = (around: Around, slot: Slot): Draft[] => {
  switch (slot.type) {
    case 'ref':
      return slot.space === null ? [] : refs(around, slot.space);
    case 'role':
      return Object.entries(ROLES).map(([role, meaning]) => word(role, 'role', meaning));
    case 'place':
      return [...phrase('on', 'between', 'in', 'where'), ...names(around, 'node'), ...figures(around)];
    case 'plane':
      return axes();
    case 'choice':
      return choices(slot.words);
    case 'name':
    case 'word':
    case 'string':
    case 'bolt':
      return [];
    default:
      return figures(around);
  }
};

const isPlaceLike = ({ type }: Slot): boolean => ['place', 'figure', 'triple', 'plane', 'length'].includes(type);

/** What goes on inside a place: after `on`, a tube; after `from`, a node; … Null where the words before say nothing. */
const insidePlace = (around: Around, before: string): Draft[] | null => {
  const last = /([\p{L}][\p{L}\d_-]*)\s+$/u.exec(before)?.[1];
  if (/\((?:[^()]*,)?\s*$/.test(before)) {
    return [...Object.entries(DIRECTIONS).map(([one, { meaning }]) => word(one, 'word', meaning)), ...figures(around)];
  }
  // Whole phrases first: no word is reserved, a node may be called `mid`.
  if (/\bon\s+[^\s,]+\s+$/u.test(before)) return phrase('at', 'mid', 'where', 'nearest');
  if (/\bwhere\s+[^\s,=]+\s+$/u.test(before)) return phrase('meets');
  if (/\bbetween\s+[^\s,]+\s+$/u.test(before)) return phrase('and');
  if (/\band\s+[^\s,]+\s+$/u.test(before)) return phrase('at');
  if (/\bat\s+[\d.]+\s*(?:mm|cm|m|in|ft)?\s+$/u.test(before)) return [...phrase('from', 'before', 'after'), ...units()];
  if (/=\s*-?[\d.]+\s+$/u.test(before)) return [...phrase('near'), ...units()];
  switch (last) {
    case 'on':
      return names(around, 'tube');
    case 'in':
      return names(around, 'plane');
    case 'meets':
      return names(around, 'tube');
    case 'where':
      return /\bon\s+\S+\s+where\s+$/.test(before) ? axes() : names(around, 'tube');
    case 'from':
    case 'before':
    case 'after':
    case 'mid':
    case 'near':
    case 'nearest':
    case 'between':
    case 'and':
      return names(around, 'node');
    default:
  }
  return null;
};

/** What can follow in a line whose values are laid down by `pattern`; `before` is what stands behind the line's word. */
const following = (around: Around, pattern: Pattern, before: string): Draft[] => {
  const rows = elementsOf(pattern);
  const slots = rows.flat().flatMap((element) => ('slot' in element ? [element.slot] : []));
  const literals = rows.flat().flatMap((element) => ('literal' in element ? [element.literal] : []));
  const written = new Set(before.split(/[\s,()]+/));
  const lastWord = /(->|[\p{L}][\p{L}\d_-]*)\s+$/u.exec(before)?.[1];
  const begins = (row: readonly Element[], index: number): Draft[] => {
    const element = row[index];
    if (element === undefined) return [];
    const here = 'slot' in element ? startOf(around, element.slot) : choices([element.literal]);
    return element.spare ? [...here, ...begins(row, index + 1)] : here;
  };
  if (before.trim() === '' || /,\s*$/.test(before)) {
    if (slots.some(isPlaceLike)) {
      const inside = insidePlace(around, before);
      if (inside !== null) return inside;
    }
    return rows.flatMap((row) => begins(row, 0));
  }
  if (lastWord !== undefined && literals.includes(lastWord)) {
    return rows.flatMap((row) =>
      row.flatMap((element, index) =>
        'literal' in element && element.literal === lastWord ? begins(row, index + 1) : [],
      ),
    );
  }
  if (slots.some(isPlaceLike)) {
    const inside = insidePlace(around, before);
    if (inside !== null) return inside;
    if (/[+*/(]\s*$|\s-\s+$/.test(before)) return [...names(around, 'node'), ...figures(around)];
  }
  const rest = rows
    .flat()
    .flatMap((element) => ('literal' in element ? [element.literal] : element.slot.words))
    .filter((one) => !written.has(one));
  const afterNumber = /[\d.]\s*$/.test(before) ? allUnits() : [];
  return [...choices(rest), ...afterNumber];
};

/** After `NAME.`: the sides of a mirrored thing, the pieces of a split tube, the coordinates of a place. */
const afterDot = ({ analysis }: Around, before: string, inPlace: boolean): Draft[] | null => {
  const path = /([\p{L}][\p{L}\p{M}\d_-]*(?:\.[\p{L}][\p{L}\d_-]*)*)\.$/u.exec(before)?.[1]?.normalize('NFC');
  if (path === undefined) return null;
  const { things } = analysis.cage;
  const sides = (['left', 'right'] as const).filter((side) => things.has(`${path}.${side}`));
  const thing = things.get(path) ?? things.get(`${path}.left`) ?? things.get(`${path}.right`);
  const pieces = ['a', 'b'].filter((piece) => analysis.shape.parts.has(`${path}.${piece}`));
  const coordinates = thing?.kind === 'node' && inPlace ? (['x', 'y', 'z'] as const) : [];
  return [
    ...sides.map((side) => word(side, 'word', `on the car's ${side}`)),
    ...pieces.map((piece) => word(piece, 'word', piece === 'a' ? 'the piece with the first node' : 'the other piece')),
    ...coordinates.map((axis) => word(axis, 'word', AXES[axis])),
  ];
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
  const inPlace = elementsOf(shape.pattern).some((row) => row.some((one) => 'slot' in one && isPlaceLike(one.slot)));
  const dotted = afterDot(around, before, inPlace);
  if (dotted !== null && !(first === 'waive' && !/\son\s/.test(rest))) return dotted;
  // In a waiver the code is one word, dot and all.
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

/** In a waiver a code is one word with a dot in it: what is replaced begins before the dot. */
const dottedStart = ({ before, partial, start }: Segment): number => {
  const dotted = /^waive\b(?!.*\son\s).*?([\w-]+\.)$/s.exec(before)?.[1];
  return dotted === undefined ? start : start + partial.length - (dotted.length + partial.length);
};

/** What may be written at the offset. */
export const complete = (analysis: Analysis, file: string, offset: number): Completion[] => {
  const tree = analysis.trees.get(file);
  if (tree === undefined) return [];
  const segment = segmentAt(tree, offset);
  if (segment.quiet) return [];
  const around = { analysis, segment, side: sideOf(segment), unit: unitsOf(tree) };
  const span = { start: dottedStart(segment), end: offset };
  const seen = new Set<string>();
  const own = ownName(segment);
  return drafts(around)
    .filter(({ label }) => label !== own && label !== `${own}.left` && label !== `${own}.right`)
    .filter(({ label }) => !seen.has(label) && seen.add(label) !== undefined)
    .map((draft) => ({ ...draft, span }));
};
