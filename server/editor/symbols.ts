/** The outline of a file: its statements, those of a mirror below it, each with its value. */
import { unitsOf } from '../../grammar/file-units';
import type { Span } from '../../grammar/finding';
import type { Arg, Entry, FileTree, Line } from '../../grammar/tree';
import type { LengthUnit } from '../../grammar/units';
import { KIND_BY_NAME } from '../../grammar/vocabulary';
import type { Analysis } from '../project/project';
import { shift } from './cursor';
import { letItems, nameItems, thingDetail } from './name-items';

export type SymbolKind =
  'car' | 'file' | 'setting' | 'value' | 'place' | 'tube' | 'material' | 'tool' | 'thing' | 'mirror';

export interface OutlineSymbol {
  readonly name: string;
  readonly kind: SymbolKind;
  readonly detail: string;
  readonly span: Span;
  /** The name itself; inside `span`. */
  readonly nameSpan: Span;
  readonly children: readonly OutlineSymbol[];
}

const SYMBOL_KINDS: Readonly<Record<string, SymbolKind>> = {
  cage: 'car',
  use: 'file',
  units: 'setting',
  rules: 'setting',
  rulebook: 'setting',
  vehicle: 'setting',
  welding: 'setting',
  stock: 'setting',
  saw: 'setting',
  torch: 'setting',
  waive: 'setting',
  adjust: 'setting',
  let: 'value',
  plane: 'place',
  node: 'place',
  material: 'material',
  section: 'material',
  die: 'tool',
  tube: 'tube',
  mirror: 'mirror',
};

const textOf = (tree: FileTree, span: Span, offset: number): string =>
  tree.text
    .slice(span.start + offset, span.end + offset)
    .replace(/\s+/g, ' ')
    .slice(0, 80);

/** What a statement is called: its target, else its first argument, else its word. */
const nameOf = (tree: FileTree, line: Line, offset: number): { name: string; span: Span } => {
  if (line.target !== null) return { name: line.target.text, span: line.target.span };
  const first: Arg | undefined = line.groups[0]?.args[0];
  if (first?.kind === 'string') return { name: first.value === '' ? line.word.text : first.value, span: first.span };
  if (first?.kind === 'ref' && KIND_BY_NAME.get(line.word.text)?.head.startsWith('<name:name>') === true) {
    return { name: textOf(tree, first.span, offset), span: first.span };
  }
  const last = line.groups.at(-1)?.span.end ?? line.word.span.end;
  return {
    name: textOf(tree, { start: line.word.span.start, end: last }, offset) || line.word.text,
    span: line.word.span,
  };
};

/** Details of what is defined in this file, by kind and name, computed once for the whole outline. */
type Details = ReadonlyMap<string, string>;

const detailsOf = (analysis: Analysis, unit: LengthUnit): Details => {
  const details = new Map<string, string>();
  for (const space of ['plane', 'material', 'section', 'die'] as const) {
    for (const { name, detail } of nameItems(analysis, space, null, unit)) details.set(`${space} ${name}`, detail);
  }
  for (const { name, detail } of letItems(analysis.cage, unit)) details.set(`let ${name}`, detail);
  for (const [name, { base, limits, drops }] of analysis.cage.ownBooks) {
    const counted = [
      base === null ? '' : `based on ${base.value}`,
      limits.length === 0 ? '' : limits.length === 1 ? '1 limit' : `${String(limits.length)} limits`,
      drops.length === 0 ? '' : `${String(drops.length)} dropped`,
    ].filter((text) => text !== '');
    details.set(`rulebook ${name}`, counted.join(', '));
  }
  for (const thing of analysis.cage.things.values()) {
    if (!thing.twin) details.set(`${thing.kind} ${thing.base}`, thingDetail(analysis, thing, unit));
  }
  return details;
};

const symbolOf = (tree: FileTree, entry: Entry, offset: number, details: Details): OutlineSymbol => {
  const { line } = entry;
  const { name, span } = nameOf(tree, line, offset);
  const word = line.word.text;
  const inner = word === 'mirror' ? (entry.block?.entries ?? []) : [];
  return {
    name,
    kind: SYMBOL_KINDS[word] ?? 'thing',
    detail: details.get(`${word} ${name.normalize('NFC')}`) ?? (name.startsWith(word) ? '' : word),
    span: shift(entry.span, offset),
    nameSpan: shift(span, offset),
    children: inner.map((child) => symbolOf(tree, child, offset, details)),
  };
};

/** The outline of a file. */
export const outline = (analysis: Analysis, file: string): OutlineSymbol[] => {
  const tree = analysis.trees.get(file);
  if (tree === undefined) return [];
  const details = detailsOf(analysis, unitsOf(tree));
  return tree.statements.map(({ offset, tree: statement }) => symbolOf(tree, statement.entry, offset, details));
};
