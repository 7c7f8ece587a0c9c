/** Completion: statements, facts, roles, the words of phrases, names in scope. Works on half-typed text. */
import { CODES } from '../../grammar/codes';
import type { Span } from '../../grammar/finding';
import { sameDimension, UNITS, ANGLE, LENGTH, type LengthUnit } from '../../grammar/units';
import { KIND_BY_NAME, KINDS, ROLES, type FactEntry, type KindEntry, type NameSpace } from '../../grammar/vocabulary';
import { DIRECTIONS, FUNCTIONS, PHRASE_WORDS } from '../../grammar/words';
import type { Side } from '../cage/cage';
import type { Analysis } from '../project/project';
import { BOOKS } from '../rules/books';
import { unitOfFile } from './figures';
import { readable } from './hover-word';
import { letItems, nameItems, type NameItem } from './name-items';
import { segmentAt, type Segment } from './segment';

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

/** One element of a pattern: a word that stands as it is, or a value with its type. */
type Element = { readonly literal: string } | { readonly type: string };

/** Alternatives of a pattern as rows of elements; brackets and repetition are left out: all of it is offered. */
export const elementsOf = (pattern: string): Element[][] =>
  pattern
    .split(/\s\|\s/)
    .map((alternative) =>
      [...alternative.matchAll(/<[\w-]+:([^>]*?)(?: >=? 0)?>|->|[\p{L}][\p{L}\d-]*/gu)].map(([all, type]) =>
        type === undefined ? { literal: all } : { type },
      ),
    );

/** A block statement as a snippet: the facts that it needs, each with a place to type. */
export const snippetOf = (kind: KindEntry): string => {
  let stop = 0;
  const place = (name: string): string => `\${${String((stop += 1))}:${name}}`;
  const head = readable(kind.head.replace(/\[[^\]]*\]/g, '').split(' | ')[0] ?? '')
    .replace(/, …/g, '')
    .split(/\s+/)
    .filter((part) => part !== '')
    .map((part) =>
      part === part.toUpperCase() && /[A-Z]/.test(part)
        ? place(part.toLowerCase())
        : part.includes('|')
          ? choice(part, (stop += 1))
          : part,
    );
  const target = kind.target ? [place('name'), '='] : [];
  const line = [kind.name, ...target, ...head].join(' ');
  if (kind.block === 'none') return line;
  const facts = [...new Set(kind.needs.map((one) => one[0] ?? ''))].filter((name) => name !== '');
  const body = facts.map((name) => `\t${name} $${String((stop += 1))}`);
  return [`${line} {`, ...(body.length > 0 ? body : [`\t$${String((stop += 1))}`]), '}'].join('\n');
};

const choice = (words: string, stop: number): string => `\${${String(stop)}|${words.split('|').join(',')}|}`;

const statements = (inMirror: boolean): Draft[] =>
  KINDS.filter((kind) => !inMirror || kind.notInMirror === null).map((kind) => ({
    ...word(kind.name, 'statement', kind.meaning, readable(kind.head)),
    insert: snippetOf(kind),
    snippet: true,
  }));

const facts = (kind: KindEntry, written: ReadonlySet<string>): Draft[] =>
  kind.facts
    .filter((fact) => !written.has(fact.name))
    .filter((fact) => !kind.oneOf.some((group) => group.includes(fact.name) && group.some((one) => written.has(one))))
    .map((fact) => word(fact.name, 'fact', fact.meaning, readable(fact.pattern)));

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

/** What a value of this type may begin with. */
const startOf = (around: Around, type: string): Draft[] => {
  if (type.startsWith('@')) {
    const space = type.slice(1);
    if (space === 'book') return BOOKS.map((book) => word(book.name, 'word', book.title));
    if (space === 'code') {
      return Object.entries(CODES)
        .filter(([, entry]) => entry.waivable)
        .map(([code, entry]) => word(code, 'code', entry.says));
    }
    return names(around, space as NameSpace);
  }
  if (type === 'role') return Object.entries(ROLES).map(([role, meaning]) => word(role, 'role', meaning));
  if (type === 'place')
    return [...phrase('on', 'between', 'in', 'where'), ...names(around, 'node'), ...figures(around)];
  if (type === 'plane') return ['x', 'y', 'z'].map((axis) => word(axis, 'word', '', `${axis} = …`));
  if (type.includes('|')) return type.split('|').map((one) => word(one, 'word', PHRASE_WORDS[one] ?? ''));
  if (['name', 'word', 'string', 'bolt'].includes(type)) return [];
  return figures(around);
};

const isPlaceLike = (type: string): boolean => ['place', 'figure', 'triple', 'plane', 'length'].includes(type);

/** What goes on inside a place: after `on`, a tube; after `from`, a node; … Null where the words before say nothing. */
const insidePlace = (around: Around, before: string): Draft[] | null => {
  const last = /([\p{L}][\p{L}\d_-]*)\s+$/u.exec(before)?.[1];
  if (/\((?:[^()]*,)?\s*$/.test(before)) {
    return [...Object.entries(DIRECTIONS).map(([one, { meaning }]) => word(one, 'word', meaning)), ...figures(around)];
  }
  switch (last) {
    case 'on':
      return names(around, 'tube');
    case 'in':
      return names(around, 'plane');
    case 'meets':
      return names(around, 'tube');
    case 'where':
      return /\bon\s+\S+\s+where\s+$/.test(before) ? startOf(around, 'plane') : names(around, 'tube');
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
  if (/\bon\s+[^\s,]+\s+$/u.test(before)) return phrase('at', 'mid', 'where', 'nearest');
  if (/\bwhere\s+[^\s,=]+\s+$/u.test(before)) return phrase('meets');
  if (/\bbetween\s+[^\s,]+\s+$/u.test(before)) return phrase('and');
  if (/\band\s+[^\s,]+\s+$/u.test(before)) return phrase('at');
  if (/\bat\s+[\d.]+\s*(?:mm|cm|m|in|ft)?\s+$/u.test(before)) return [...phrase('from', 'before', 'after'), ...units()];
  if (/=\s*-?[\d.]+\s+$/u.test(before)) return [...phrase('near'), ...units()];
  return null;
};

/** What can follow in a line whose values are laid down by `pattern`; `before` is what stands behind the line's word. */
const following = (around: Around, pattern: string, before: string): Draft[] => {
  const rows = elementsOf(pattern);
  const types = rows.flat().flatMap((element) => ('type' in element ? [element.type] : []));
  const literals = rows.flat().flatMap((element) => ('literal' in element ? [element.literal] : []));
  const written = new Set(before.split(/[\s,()]+/));
  const lastWord = /(->|[\p{L}][\p{L}\d_-]*)\s+$/u.exec(before)?.[1];
  const begins = (row: readonly Element[], index: number): Draft[] => {
    const element = row[index];
    if (element === undefined) return [];
    return 'type' in element
      ? startOf(around, element.type)
      : [word(element.literal, 'word', PHRASE_WORDS[element.literal] ?? '')];
  };
  if (before.trim() === '' || /,\s*$/.test(before)) {
    if (types.some(isPlaceLike)) {
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
  if (types.some(isPlaceLike)) {
    const inside = insidePlace(around, before);
    if (inside !== null) return inside;
    if (/[+*/(]\s*$|\s-\s+$/.test(before)) return [...names(around, 'node'), ...figures(around)];
  }
  const rest = rows
    .flat()
    .flatMap((element) =>
      'literal' in element ? [element.literal] : element.type.includes('|') ? element.type.split('|') : [],
    )
    .filter((one) => !written.has(one) && one !== 'x');
  const afterNumber = /[\d.]\s*$/.test(before) ? allUnits() : [];
  return [...rest.map((one) => word(one, 'word', PHRASE_WORDS[one] ?? '')), ...afterNumber];
};

/** After `NAME.`: the sides of a mirrored thing, the pieces of a split tube, the coordinates of a place. */
const afterDot = ({ analysis }: Around, before: string): Draft[] | null => {
  const path = /([\p{L}][\p{L}\p{M}\d_-]*(?:\.[\p{L}][\p{L}\d_-]*)*)\.$/u.exec(before)?.[1]?.normalize('NFC');
  if (path === undefined) return null;
  const { things } = analysis.cage;
  const sides = (['left', 'right'] as const).filter((side) => things.has(`${path}.${side}`));
  const thing = things.get(path) ?? things.get(`${path}.left`) ?? things.get(`${path}.right`);
  const pieces = ['a', 'b'].filter((piece) => analysis.shape.parts.has(`${path}.${piece}`));
  const axes = thing?.kind === 'node' ? ['x', 'y', 'z'] : [];
  return [
    ...sides.map((side) => word(side, 'word', `on the car's ${side}`)),
    ...pieces.map((piece) => word(piece, 'word', piece === 'a' ? 'the piece with the first node' : 'the other piece')),
    ...axes.map((axis) => word(axis, 'word', `its ${axis}`)),
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
  const dotted = afterDot(around, before);
  const [, first = '', rest = ''] = /^([\p{L}][\p{L}\p{M}\d_-]*)(.*)$/su.exec(before) ?? [];
  if (dotted !== null && !(first === 'waive' && !/\son\s/.test(rest))) return dotted;
  const fact: FactEntry | undefined = inFacts ? kind.facts.find((one) => one.name === first) : undefined;
  if (fact !== undefined) return following(around, fact.pattern, rest.trimStart());
  const head = inFacts ? undefined : KIND_BY_NAME.get(first);
  if (head === undefined) return [];
  if (!head.target) return following(around, head.head, rest.trimStart());
  const equals = rest.indexOf('=');
  return equals < 0 ? [] : following(around, head.head, rest.slice(equals + 1).trimStart());
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
  const around = { analysis, segment, side: sideOf(segment), unit: unitOfFile(tree) };
  const span = { start: dottedStart(segment), end: offset };
  const seen = new Set<string>();
  return drafts(around)
    .filter(({ label }) => !seen.has(label) && seen.add(label) !== undefined)
    .map((draft) => ({ ...draft, span }));
};
