/** What is said of a weld that a torch cannot go round. */
import type { LengthUnit } from '../../../grammar/units';
import { onTape } from '../on-tape';
import type { Reach } from './reach';
import { MOST_DROP } from './reach';

/** `let the tubes down by 42 mm (1 21/32 in), …`, or what to do where that does not help. */
export function howWords({ by, drop }: Reach, units: LengthUnit): string {
  const names = by.join(', ');
  return drop === null
    ? `no drop up to ${onTape(MOST_DROP, units)} frees it: weld it before ${names} is in its way, or with a smaller torch`
    : `let the tubes down by ${onTape(drop, units)} to get past ${names}`;
}

export function reachWords(reach: Reach | null, units: LengthUnit): string {
  if (reach === null) return 'not looked at';
  if (reach.blocked === 0) return 'all round';
  return `not reached over ${String(Math.round((100 * reach.blocked) / reach.of))} % of it: ${howWords(reach, units)}`;
}
