/** "Did you mean": the known word nearest to one that is not known. */

/** Longer words are no slips of a finger: nothing is meant by them, and comparing them takes long. */
const LONGEST = 60;

/**
 * The least number of letters put in, left out, changed or swapped with their neighbour that turns `a` into `b`
 * (optimal string alignment distance), or `limit` + 1 when it is more.
 */
function editDistance(a: string, b: string, limit: number): number {
  const beyond = limit + 1;
  if (Math.abs(a.length - b.length) > limit) return beyond;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  let row: number[] = [];
  for (let i = 1; i <= a.length; i++) {
    // What lies further from the diagonal costs more than the limit.
    const from = Math.max(1, i - limit);
    const to = Math.min(b.length, i + limit);
    row[from - 1] = from === 1 ? i : beyond;
    let least = row[from - 1] ?? beyond;
    for (let j = from; j <= to; j++) {
      const same = a.charCodeAt(i - 1) === b.charCodeAt(j - 1);
      const above = j === i + limit ? beyond : (last[j] ?? beyond);
      let cost = Math.min(above + 1, (row[j - 1] ?? beyond) + 1, (last[j - 1] ?? beyond) + (same ? 0 : 1));
      if (
        i > 1 &&
        j > 1 &&
        a.charCodeAt(i - 1) === b.charCodeAt(j - 2) &&
        a.charCodeAt(i - 2) === b.charCodeAt(j - 1)
      ) {
        cost = Math.min(cost, (before[j - 2] ?? beyond) + 1);
      }
      row[j] = cost;
      least = Math.min(least, cost);
    }
    if (least > limit) return beyond;
    [before, last, row] = [last, row, before];
  }
  return Math.min(last[b.length] ?? beyond, beyond);
}

/** The nearest of `known` to `word`, case aside; null where none is near (a third of the letters, at least one) or it is too long. First in the alphabet among equals. */
export function nearestWord(word: string, known: Iterable<string>): string | null {
  if (word.length > LONGEST) return null;
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
