/** What is said of a weld that a torch cannot go round. */
import type { LengthUnit } from '../../../grammar/units';
import { onTape } from '../on-tape';
import type { Reach } from './reach';
import { MOST_DROP } from './reach';

/** `let the tubes down by 42 mm (1 21/32 in), …`, or what to do where that does not help. */
export function howWords({ by, fixed, drop }: Reach, units: LengthUnit): string {
  if (drop !== null)
    return `let the tubes down by ${onTape(drop, units)} to get past ${by.join(', ')}: plates off, and room below the feet`;
  const tubes = by.filter((name) => !fixed.includes(name));
  const out = tubes.length === 0 ? [] : [`take ${tubes.join(', ')} out again (only tacked) and put it back after it`];
  const past = fixed.length === 0 ? [] : [`get ${fixed.join(', ')} out of the way`];
  return `no drop up to ${onTape(MOST_DROP, units)} frees it: ${[...out, ...past].join('; ')}; or weld it with a smaller torch`;
}

export function reachWords(reach: Reach | null, units: LengthUnit): string {
  if (reach === null) return 'not looked at';
  if (reach.blocked === 0) return 'all round';
  return `not reached over ${String(Math.round((100 * reach.blocked) / reach.of))} % of it: ${howWords(reach, units)}`;
}
