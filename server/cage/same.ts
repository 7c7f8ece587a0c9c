/**
 * Things that say what they said at the building before are the same objects again, wherever they stand now: whoever
 * has made something of them may keep it.
 */
import type { Thing } from './cage';
import type { Written } from './names';
import { isDefinition } from './names';

/**
 * Gives a statement the things that it had before, where they say the same.
 * @param before the thing of that name at the building before
 */
export function keepThings(written: Written, before: (name: string) => Thing | undefined): void {
  // Of two with one name only the first is the one that was there before.
  if (isDefinition(written) && written.repeated) return;
  const old = written.things.map((thing) => {
    const was = before(thing.name);
    return was !== undefined && was.origin.file === thing.origin.file && sameThing(was, thing) ? was : null;
  });
  const origin = old.find((thing) => thing !== null)?.origin;
  if (origin === undefined) return;
  written.origin = Object.assign(origin, { statement: written.origin.statement, entry: written.origin.entry });
  written.things = written.things.map((thing, i) => old[i] ?? { ...thing, origin });
}

/** True where two things say the same; where they stand is no part of that. */
const sameThing = (a: Thing, b: Thing): boolean => a === b || samePlain(a, b, 'origin');

/** Deep equality of plain data, but for one key at the top. */
export function samePlain(a: unknown, b: unknown, but?: string): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    for (let i = 0; i < a.length; i++) if (!samePlain(a[i], b[i])) return false;
    return true;
  }
  const [one, two] = [a as Readonly<Record<string, unknown>>, b as Readonly<Record<string, unknown>>];
  let left = 0;
  for (const key in two) if (key in one) left += 1;
  for (const key in one) {
    if (key !== but && !samePlain(one[key], two[key])) return false;
    left -= 1;
  }
  return left === 0;
}
