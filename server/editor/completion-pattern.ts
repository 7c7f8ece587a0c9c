/** A pattern of the vocabulary as rows of elements, for completion: what may come behind what is written. */
import type { Part, Pattern, Slot } from '../../grammar/pattern';

/** One element: a word that stands as it is, or a value. */
export type Element = {
  /** It may be left out. */
  readonly spare: boolean;
  /** What may be left out together has the same number; null for what must stand. */
  readonly group: number | null;
} & ({ readonly literal: string } | { readonly slot: Slot });

/** Alternatives of a pattern as rows of elements; what may be left out or repeated is in them. */
export const elementsOf = (pattern: Pattern): Element[][] => {
  let groups = 0;
  const flat = (part: Part, group: number | null): Element[] => {
    const spare = group !== null;
    switch (part.part) {
      case 'slot':
        return [{ slot: part, spare, group }];
      case 'literal':
        return [{ literal: part.word, spare, group }];
      case 'arrow':
        return [{ literal: '->', spare, group }];
      case 'sized':
        return part.slots.map((slot) => ({ slot, spare, group }));
      case 'optional': {
        const inner = (groups += 1);
        return part.parts.flatMap((one) => flat(one, inner));
      }
      case 'list':
        return part.parts.flatMap((one) => flat(one, group));
    }
  };
  return pattern.map((parts) => parts.flatMap((part) => flat(part, null)));
};

const wordsOf = (element: Element): readonly string[] =>
  'literal' in element ? [element.literal] : element.slot.words;

/**
 * The words that may come next in a row, when something is written already.
 * @param written the words of the line so far
 */
export const wordsBehind = (row: readonly Element[], written: ReadonlySet<string>): string[] => {
  const next: string[] = [];
  let skipped: number | null = null;
  for (const [index, element] of row.entries()) {
    if (element.group !== null && element.group === skipped) continue;
    const words = wordsOf(element);
    if (words.length === 0 || words.some((one) => written.has(one))) continue;
    // Another alternative was begun.
    if (index === 0 && !element.spare) return [];
    next.push(...words);
    // Nothing behind what must stand comes before it; nothing inside what may be left out comes before its first word.
    if (element.group === null) return next;
    skipped = element.group;
  }
  return next;
};
