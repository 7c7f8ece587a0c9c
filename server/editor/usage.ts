/** How a statement or a fact is written, out of the vocabulary's patterns. */
import { KIND_SHAPES, usage } from '../../grammar/pattern';
import type { KindEntry } from '../../grammar/vocabulary';

/** What follows the word of a statement, or of its fact: `LONG x WIDE x THICK [turned TURNED]`. */
export const usageOf = (kind: KindEntry, fact: string | null): string => {
  const shapes = KIND_SHAPES.get(kind.name);
  const shape = fact === null ? shapes?.head : shapes?.facts.get(fact)?.shape;
  return shape === undefined ? '' : usage(shape.pattern);
};
