/** What completion offers, made from the vocabulary: statements, facts, units, functions, words, names. */
import { CODES } from '../../grammar/codes';
import type { Span } from '../../grammar/finding';
import { KIND_SHAPES, type Part, type SlotType } from '../../grammar/pattern';
import {
  ANGLE,
  DENSITY,
  FORCE,
  LENGTH,
  MASS,
  sameDimension,
  STRESS,
  UNITS,
  type Dimension,
  type LengthUnit,
} from '../../grammar/units';
import { KINDS, type KindEntry, type NameSpace } from '../../grammar/vocabulary';
import { AXES, DIRECTIONS, FUNCTIONS, PHRASE_WORDS } from '../../grammar/words';
import type { Side } from '../cage/cage';
import type { Analysis } from '../project/project';
import { libraryOf } from '../rules/library';
import { canBeAccepted, canBeDropped, canBeLimited, groupsOf, quantities, wordsOf } from '../rules/own-book';
import { letItems, nameItems, type NameItem } from './name-items';
import type { Segment } from './segment';
import { usageOf } from './usage';

export type CompletionKind =
  'statement' | 'fact' | 'word' | 'unit' | 'function' | 'role' | 'code' | 'file' | NameItem['kind'];

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

export type Draft = Omit<Completion, 'span'>;

export const word = (label: string, kind: CompletionKind, meaning: string, detail = ''): Draft => ({
  label,
  kind,
  detail,
  meaning,
  insert: label,
  snippet: false,
});

export const named = ({ name, kind, detail }: NameItem): Draft => word(name, kind, '', detail);

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

export const statements = (inMirror: boolean): Draft[] =>
  KINDS.filter((kind) => !inMirror || kind.notInMirror === null).map((kind) => ({
    ...word(kind.name, 'statement', kind.meaning, usageOf(kind, null)),
    insert: snippetOf(kind),
    snippet: true,
  }));

export const facts = (kind: KindEntry, written: ReadonlySet<string>): Draft[] =>
  kind.facts
    .filter((fact) => fact.many || !written.has(fact.name))
    .filter((fact) => !kind.oneOf.some((group) => group.includes(fact.name) && group.some((one) => written.has(one))))
    .map((fact) => word(fact.name, 'fact', fact.meaning, usageOf(kind, fact.name)));

/** Which units a value of a type may have; null: any. */
const DIMENSIONS: Partial<Readonly<Record<SlotType, readonly Dimension[] | null>>> = {
  length: [LENGTH],
  plane: [LENGTH],
  triple: [LENGTH],
  pair: [LENGTH],
  place: [LENGTH],
  angle: [ANGLE],
  mass: [MASS],
  stress: [STRESS],
  density: [DENSITY],
  force: [FORCE],
  figure: null,
};

/** The units of values of these types. */
export const unitsOf = (types: readonly SlotType[]): Draft[] => {
  const wanted = types.flatMap((type) => {
    const dimensions = DIMENSIONS[type];
    return dimensions === undefined ? [] : [dimensions];
  });
  // A share has its own unit, and no other.
  const shares = types.includes('share') ? [share()] : [];
  const units = Object.entries(UNITS)
    .filter(([, { dimension }]) =>
      wanted.some((dimensions) => dimensions === null || dimensions.some((one) => sameDimension(one, dimension))),
    )
    .map(([name, { meaning }]) => word(name, 'unit', meaning));
  return [...shares, ...units];
};

/** The sign of a share. */
export const share = (): Draft => word('%', 'unit', UNITS['%']?.meaning ?? '');

export const functions = (): Draft[] =>
  Object.entries(FUNCTIONS).map(([name, entry]) => ({
    ...word(name, 'function', entry.meaning, `(${entry.takes.join(', ')})`),
    insert: `${name}(${entry.takes.map((arg, i) => `\${${String(i + 1)}:${arg}}`).join(', ')})`,
    snippet: true,
  }));

export const phrase = (...words: readonly string[]): Draft[] =>
  words.map((one) => word(one, 'word', PHRASE_WORDS[one] ?? DIRECTIONS[one]?.meaning ?? ''));

/** What the completion of one request looks at. */
export interface Around {
  readonly analysis: Analysis;
  readonly segment: Segment;
  readonly side: Side | null;
  readonly unit: LengthUnit;
}

export const names = ({ analysis, side, unit }: Around, ...spaces: readonly NameSpace[]): Draft[] =>
  spaces.flatMap((space) => nameItems(analysis, space, side, unit)).map(named);

export const figures = (around: Around): Draft[] => [
  ...letItems(around.analysis.cage, around.unit).map(named),
  ...functions(),
];

export const choices = (words: readonly string[]): Draft[] =>
  words.map((one) => word(one, 'word', PHRASE_WORDS[one] ?? ''));

export const refs = (around: Around, space: NameSpace): Draft[] => {
  if (space === 'book')
    return libraryOf(around.analysis.cage).books.map(({ name, title }) => word(name, 'word', title));
  if (space !== 'code') return names(around, space);
  const { blocks, before } = around.segment;
  const all = quantities();
  const inBook = before.startsWith('drop') ? canBeDropped : before.startsWith('accept') ? canBeAccepted : canBeLimited;
  const fits = blocks.at(-1) === 'rulebook' ? inBook : null;
  return Object.entries(CODES)
    .filter(([code, entry]) => (fits === null ? entry.waivable : fits(code, all)))
    .map(([code, entry]) => word(code, 'code', entry.says));
};

/** The groups of things that a limit may be meant for, as the texts that they are. */
export const groups = ({ segment }: Around): Draft[] =>
  groupsOf(/^(?:limit|accept|drop)\s+([\w.-]+)/.exec(segment.before)?.[1] ?? '').map((group) =>
    word(`"${group}"`, 'word', ''),
  );

/** The words that a book may accept of a quantity, as the texts that they are. */
export const acceptedWords = ({ segment }: Around): Draft[] =>
  wordsOf(/^accept\s+([\w.-]+)/.exec(segment.before)?.[1] ?? '').map((one) => word(`"${one}"`, 'word', ''));

export const axes = (): Draft[] =>
  (['x', 'y', 'z'] as const).map((axis) => word(axis, 'word', AXES[axis], `${axis} = …`));
