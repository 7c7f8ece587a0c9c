/** Names and where they are used: definition, references, highlights, rename. Offsets in, offsets out. */
import type { Place, Span } from '../../grammar/finding';
import { readName } from '../../grammar/tokens';
import type { NameUse } from '../cage/cage';
import type { Analysis } from '../project/project';
import { bookNamed } from '../rules/books';
import { holds, quietAt } from './cursor';

/** One occurrence of a name, only the name itself, without a side. */
export interface Occurrence {
  readonly place: Place;
  readonly definition: boolean;
}

/** The bare name of a use: what stands before its first dot. */
const bareSpan = (analysis: Analysis, { place }: NameUse): Span => {
  const text = analysis.trees.get(place.file)?.text ?? '';
  const name = readName(text, place.span.start);
  const end = name === null ? place.span.end : Math.min(place.span.end, place.span.start + name.length);
  return { start: place.span.start, end };
};

const useHolding = (analysis: Analysis, file: string, offset: number): NameUse | null => {
  let best: NameUse | null = null;
  for (const use of analysis.cage.uses) {
    if (use.place.file !== file || !holds(use.place.span, offset)) continue;
    if (best === null || use.place.span.start >= best.place.span.start) best = use;
  }
  return best;
};

/** The use of a name at an offset, also where the offset stands in what follows its dot: `foot.ri|ght`. */
export const useAt = (analysis: Analysis, file: string, offset: number): NameUse | null => {
  const found = useHolding(analysis, file, offset);
  if (found !== null) return found;
  const before = analysis.trees.get(file)?.text.slice(Math.max(0, offset - 300), offset) ?? '';
  const dotted = /(?<![\p{L}\p{M}\d_.-])\p{L}[\p{L}\p{M}\d_-]*(?:\.[\p{L}\d_-]+)*\.[\p{L}\d_-]*$/u.exec(before)?.[0];
  return dotted === undefined ? null : useHolding(analysis, file, offset - dotted.length);
};

/** Every place where what stands at the offset is named, definitions first. */
export const occurrences = (analysis: Analysis, file: string, offset: number): Occurrence[] => {
  const use = useAt(analysis, file, offset);
  if (use === null) return [];
  const seen = new Set<string>();
  return analysis.cage.uses
    .filter((other) => other.target === use.target)
    .map((other) => ({
      place: { file: other.place.file, span: bareSpan(analysis, other) },
      definition: other.definition,
    }))
    .filter(({ place }) => {
      const key = `${place.file}:${String(place.span.start)}`;
      return !seen.has(key) && seen.add(key) !== undefined;
    })
    .sort((a, b) => Number(b.definition) - Number(a.definition));
};

export interface Definition {
  /** What was pointed at. */
  readonly origin: Span;
  readonly targets: readonly Place[];
}

/** The file behind the path of a `use` line, by its key; null where it was not loaded. */
const usedFile = (analysis: Analysis, from: string, path: string): string | null => {
  const parts = from.split('/').slice(0, -1);
  for (const part of path.split('/')) {
    if (part === '..') parts.pop();
    else if (part !== '.' && part !== '') parts.push(part);
  }
  const key = parts.join('/');
  return analysis.trees.has(key) ? key : null;
};

/** Where what stands at the offset is defined: a name's statement, or the file of a `use` line. */
export const definitionAt = (analysis: Analysis, file: string, offset: number): Definition | null => {
  const tree = analysis.trees.get(file);
  if (tree === undefined) return null;
  if (quietAt(tree.text, offset) === 'string') {
    for (const { offset: from, tree: statement } of tree.statements) {
      const { word, groups } = statement.entry.line;
      if (word.text !== 'use') continue;
      for (const arg of groups.flatMap((group) => group.args)) {
        const origin = { start: arg.span.start + from, end: arg.span.end + from };
        if (arg.kind !== 'string' || !holds(origin, offset)) continue;
        const target = usedFile(analysis, file, arg.value);
        return target === null ? null : { origin, targets: [{ file: target, span: { start: 0, end: 0 } }] };
      }
    }
    return null;
  }
  const use = useAt(analysis, file, offset);
  if (use === null) return null;
  const targets = occurrences(analysis, file, offset).filter((found) => found.definition);
  return { origin: bareSpan(analysis, use), targets: targets.map(({ place }) => place) };
};

export type RenameResult =
  | { readonly kind: 'edits'; readonly places: readonly Place[]; readonly newName: string }
  | { readonly kind: 'refused'; readonly why: string };

/** The span and text that a rename would change; null where there is no name of the cage. */
export const renameTarget = (analysis: Analysis, file: string, offset: number): { span: Span; text: string } | null => {
  const use = useAt(analysis, file, offset);
  const text = analysis.trees.get(file)?.text;
  if (use === null || text === undefined) return null;
  // The tool's own books are named by the tool, not by the text.
  if (!analysis.cage.uses.some((other) => other.target === use.target && other.definition)) return null;
  const span = bareSpan(analysis, use);
  return holds(span, offset) ? { span, text: text.slice(span.start, span.end) } : null;
};

/** Both stand in sums: a let named like a node would be read for it. */
const SHARED: readonly string[] = ['thing', 'let'];

/** Renames what stands at the offset, everywhere in the files of the analysis. */
export const rename = (analysis: Analysis, file: string, offset: number, wanted: string): RenameResult => {
  const use = useAt(analysis, file, offset);
  if (use === null || renameTarget(analysis, file, offset) === null) {
    return { kind: 'refused', why: 'No name of the cage stands here.' };
  }
  const newName = wanted.trim().normalize('NFC');
  if (readName(newName, 0) !== newName) {
    return { kind: 'refused', why: `'${newName}' is no name: letters, digits, '_' and single hyphens inside.` };
  }
  const space = use.target.slice(0, use.target.indexOf(':'));
  if (space === 'book' && bookNamed(newName) !== null) {
    return { kind: 'refused', why: `'${newName}' is a rulebook of the tool.` };
  }
  const spaces = SHARED.includes(space) ? SHARED : [space];
  const targets = new Set(spaces.map((one) => `${one}:${newName}`));
  const taken = analysis.cage.uses.some((other) => other.definition && targets.has(other.target));
  if (taken && `${space}:${newName}` !== use.target) return { kind: 'refused', why: `'${newName}' is named already.` };
  return { kind: 'edits', places: occurrences(analysis, file, offset).map(({ place }) => place), newName };
};
