/** The reference page of the language and of its findings, from the vocabulary and the table of codes. */
import { CODES, RULE_CODES } from '../codes';
import { EXPLANATIONS } from '../explanations';
import { KIND_SHAPES, saySlot, usage, type KindShape, type Part, type Pattern, type Slot } from '../pattern';
import { UNITS } from '../units';
import { KINDS, ROLES } from '../vocabulary';
import { AXES, DIRECTIONS, FUNCTIONS, PHRASE_WORDS } from '../words';

const cell = (text: string): string => text.replace(/\|/g, '\\|');
const code = (text: string): string => `\`${text}\``;
const row = (...cells: readonly string[]): string => `| ${cells.map(cell).join(' | ')} |`;
const table = (head: readonly string[], rows: readonly (readonly string[])[]): readonly string[] => [
  row(...head),
  `|${head.map(() => ' --- |').join('')}`,
  ...rows.map((cells) => row(...cells)),
  '',
];

function slotsOf(part: Part): readonly Slot[] {
  switch (part.part) {
    case 'slot':
      return [part];
    case 'sized':
      return part.slots;
    case 'optional':
    case 'list':
      return part.parts.flatMap(slotsOf);
    case 'literal':
    case 'arrow':
      return [];
  }
}

/** The unit that a bare number of this type takes. */
const BARE: Readonly<Record<string, string>> = {
  length: "a bare number takes the file's unit",
  angle: 'a bare number is degrees',
};

const limitOf = ({ limit }: Slot): string =>
  limit === null ? '' : `, ${limit.op === '>' ? 'more than' : 'at least'} ${String(limit.value)}`;

/** What the values of a pattern are. */
function typesOf(pattern: Pattern): string {
  const slots = pattern.flatMap((parts) => parts.flatMap(slotsOf));
  const seen = new Map<string, string>();
  for (const slot of slots) {
    const bare = BARE[slot.type];
    seen.set(slot.name, `${saySlot(slot)}${limitOf(slot)}${bare === undefined ? '' : ` (${bare})`}`);
  }
  const entries = [...seen];
  if (entries.length === 1) return entries[0]?.[1] ?? '';
  return entries.map(([name, says]) => `${name.toUpperCase()}: ${says}`).join('; ');
}

const written = (word: string, pattern: Pattern): string => `${word} ${usage(pattern)}`.trim();

function neededIn(shape: KindShape, fact: string): string {
  const { needs, needsWhen } = shape.kind;
  const group = needs.find((names) => names.includes(fact));
  if (group !== undefined) return group.length === 1 ? 'yes' : `one of ${group.join(', ')}`;
  const when = needsWhen.find((one) => one.fact === fact);
  if (when === undefined) return '';
  return when.withFact === undefined ? `with ${when.withHeadWord ?? ''}` : `with ${when.withFact}`;
}

function statement(shape: KindShape): readonly string[] {
  const { kind, head, facts } = shape;
  const begin = kind.target ? `${kind.name} NAME = ${usage(head.pattern)}` : written(kind.name, head.pattern);
  const block = kind.block === 'none' ? '' : kind.block === 'facts' ? ' { facts }' : ' { statements }';
  const notes = [
    kind.notInMirror === null ? 'May stand inside `mirror`.' : `Not inside \`mirror\`: ${kind.notInMirror}.`,
    ...(kind.once ? ['Once in a file.'] : []),
    ...(kind.judgedOnly ? ['Counts only in the file that is judged.'] : []),
  ];
  const lines = [`### ${kind.name}`, '', '```', `${begin}${block}`, '```', '', kind.meaning, notes.join(' '), ''];
  if (kind.example !== null) lines.push(`For example \`${kind.name} ${kind.example}\`.`, '');
  if (facts.size === 0) return lines;
  const rows = [...facts.values()].map(({ fact, shape: { name, pattern } }) => [
    code(written(name, pattern)),
    typesOf(pattern),
    neededIn(shape, name),
    fact.default ?? '',
    `${fact.meaning}${fact.many ? ' Any number of times.' : ''}${fact.example === null ? '' : ` For example \`${name} ${fact.example}\`.`}`,
  ]);
  return [...lines, ...table(['fact', 'value', 'needed', 'without it', 'meaning'], rows)];
}

const words = (entries: Readonly<Record<string, string>>): readonly string[] =>
  table(
    ['word', 'meaning'],
    Object.entries(entries).map(([word, meaning]) => [code(word), meaning]),
  );

const meanings = (entries: Readonly<Record<string, { readonly meaning: string }>>): Readonly<Record<string, string>> =>
  Object.fromEntries(Object.entries(entries).map(([word, { meaning }]) => [word, meaning]));

const WHATS: Readonly<Record<string, { readonly what: string }>> = EXPLANATIONS;

function findings(): readonly string[] {
  const rows = Object.entries(CODES).map(([name, entry]) => [
    code(name),
    entry.severity,
    entry.waivable ? 'yes' : '',
    Object.hasOwn(RULE_CODES, name)
      ? `Judged by rulebooks: ${entry.says.replace(/\{ask\}|: \{mend\}/g, '').replace(/\{\w+(?:#|:[^{}]*)?\}/g, '…')}`
      : (WHATS[name]?.what ?? ''),
  ]);
  return table(['code', 'severity', 'can be waived', 'says'], rows);
}

/** The page, in Markdown. */
export function referencePage(): string {
  return [
    '# The cage language: reference',
    '',
    'Made from the vocabulary by `npm run generate`; do not edit it by hand.',
    '',
    '## Statements',
    '',
    ...KINDS.flatMap((kind) => {
      const shape = KIND_SHAPES.get(kind.name);
      return shape === undefined ? [] : statement(shape);
    }),
    '## Roles of tubes',
    '',
    ...words(ROLES),
    '## Units',
    '',
    'A unit follows its number, with or without a blank.',
    '',
    ...words(meanings(UNITS)),
    '## Functions',
    '',
    ...table(
      ['function', 'meaning'],
      Object.entries(FUNCTIONS).map(([name, { takes, more, meaning }]) => [
        code(`${name}(${takes.join(', ')}${more ? ', …' : ''})`),
        meaning,
      ]),
    ),
    '## Directions',
    '',
    ...words(meanings(DIRECTIONS)),
    '## Axes',
    '',
    ...words(AXES),
    '## Words of places and phrases',
    '',
    ...words(PHRASE_WORDS),
    '## Findings',
    '',
    'An aid, not an approval: the current printed rulebook, the scrutineer and licensed practice decide.',
    '`cagewright explain CODE` tells each at length. A rulebook that is chosen may give another severity.',
    '',
    ...findings(),
  ].join('\n');
}
