/** "Did you mean": the known word nearest to one that is not known. */

/**
 * The least number of letters put in, left out, changed or swapped with their neighbour that turns `a` into `b`
 * (optimal string alignment distance), or `limit` + 1 when it is more.
 */
export function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a.charCodeAt(i - 1) === b.charCodeAt(j - 1);
      let cost = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1));
      if (
        i > 1 &&
        j > 1 &&
        a.charCodeAt(i - 1) === b.charCodeAt(j - 2) &&
        a.charCodeAt(i - 2) === b.charCodeAt(j - 1)
      ) {
        cost = Math.min(cost, (before[j - 2] ?? 0) + 1);
      }
      row.push(cost);
      least = Math.min(least, cost);
    }
    if (least > limit) return limit + 1;
    before = last;
    last = row;
  }
  return last[b.length] ?? limit + 1;
}

/** The nearest of `known` to `word`, case aside; null where none is near (a third of the letters, at least one). First in the alphabet among equals. */
export function nearestWord(word: string, known: Iterable<string>): string | null {
  const folded = word.toLowerCase();
  let limit = Math.max(1, Math.floor(folded.length / 3));
  let best: string | null = null;
  for (const candidate of known) {
    if (candidate === word) continue;
    const far = editDistance(folded, candidate.toLowerCase(), limit);
    if (far > limit || (best !== null && far === limit && candidate >= best)) continue;
    best = candidate;
    limit = far;
  }
  return best;
}

/** The hint for a message: `; did you mean 'foot'` or nothing. */
export const meant = (nearest: string | null): string => (nearest === null ? '' : `; did you mean '${nearest}'`);
