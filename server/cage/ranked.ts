/** Ids of statements without a name, by what they say and not by where they stand: their order has no meaning. */
import type { Written } from './names';

const textOf = ({ scope, entry }: Written): string =>
  scope.statement.tree.text.slice(entry.span.start, entry.span.end).replace(/\s+/g, ' ');

/** `vent:0`, `vent:1`, … in the alphabetical order of their texts; given back in the order of the list. */
export function ranked(
  list: readonly Written[],
  kind: string,
): readonly { readonly id: string; readonly written: Written }[] {
  const keyed = list.map((written, index) => ({ written, index, key: textOf(written) }));
  const rank = new Map<number, number>();
  [...keyed]
    .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : a.index - b.index))
    .forEach(({ index }, i) => rank.set(index, i));
  return keyed.map(({ written, index }) => ({ id: `${kind}:${String(rank.get(index) ?? index)}`, written }));
}
