/** The difference of two texts as edits of whole lines, so that formatting moves no cursor that it need not move. */

/** Lines `from` (kept ones before) up to `to` of the old text become `lines`. */
export interface LineEdit {
  readonly from: number;
  readonly to: number;
  readonly lines: readonly string[];
}

/** A table of this many cells is quickly made. */
const LARGEST_TABLE = 1_000_000;

/** Longest common subsequence of two short lists, as pairs of indices in order. */
const common = (a: readonly string[], b: readonly string[]): [number, number][] => {
  const width = b.length + 1;
  const lengths = new Uint32Array((a.length + 1) * width);
  const at = (i: number, j: number): number => lengths[i * width + j] ?? 0;
  for (let i = a.length - 1; i >= 0; i -= 1) {
    for (let j = b.length - 1; j >= 0; j -= 1) {
      lengths[i * width + j] = a[i] === b[j] ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
    }
  }
  const pairs: [number, number][] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length;) {
    if (a[i] === b[j]) pairs.push([i++, j++]);
    else if (at(i + 1, j) >= at(i, j + 1)) i += 1;
    else j += 1;
  }
  return pairs;
};

/** Edits that make `after` of `before`; ascending, not overlapping. */
export const lineEdits = (before: readonly string[], after: readonly string[]): LineEdit[] => {
  let start = 0;
  while (start < before.length && start < after.length && before[start] === after[start]) start += 1;
  let end = 0;
  const most = Math.min(before.length, after.length) - start;
  while (end < most && before[before.length - 1 - end] === after[after.length - 1 - end]) end += 1;
  const old = before.slice(start, before.length - end);
  const fresh = after.slice(start, after.length - end);
  if (old.length === 0 && fresh.length === 0) return [];
  const small = old.length * fresh.length <= LARGEST_TABLE;
  const pairs: [number, number][] = small ? common(old, fresh) : [];
  const edits: LineEdit[] = [];
  let [i, j] = [0, 0];
  for (const [nextI, nextJ] of [...pairs, [old.length, fresh.length] as const]) {
    if (nextI > i || nextJ > j) {
      const lines = fresh.slice(j, nextJ);
      if (nextI - i === lines.length) {
        // As many as before: each line by itself, so that a range may take some of them.
        lines.forEach((line, k) => {
          if (old[i + k] !== line) edits.push({ from: start + i + k, to: start + i + k + 1, lines: [line] });
        });
      } else edits.push({ from: start + i, to: start + nextI, lines });
    }
    [i, j] = [nextI + 1, nextJ + 1];
  }
  return edits;
};
