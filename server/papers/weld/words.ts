/** What is said of a weld that a torch cannot go round. */
import type { LengthUnit } from '../../../grammar/units';
import { onTape } from '../on-tape';
import type { Reach } from './reach';
import { MOST_DROP } from './reach';

/** Tubes that have to be taken out again for this weld: those in its way that no drop gets past. */
export const takenOut = ({ by, fixed, drop }: Pick<Reach, 'by' | 'fixed' | 'drop'>): readonly string[] =>
  drop === null ? by.filter((name) => !fixed.includes(name)) : [];

/** `let the tubes down by 42 mm (1 21/32 in), …`, or what to do where that does not help. `say`: a part's name as it is written on it. */
export function howWords({ by, fixed, drop, lowers }: Reach, units: LengthUnit, say: (name: string) => string): string {
  const names = (of: readonly string[]): string => of.map(say).join(', ');
  if (drop !== null)
    return `let the tubes down by ${onTape(drop, units)} to get past ${names(by)}: plates off, and room below the feet`;
  const tubes = takenOut({ by, fixed, drop });
  const ways = [
    ...(tubes.length === 0
      ? []
      : [`take ${names(tubes)}, and what is tacked to it, out again and put it back after it`]),
    ...(fixed.length === 0 ? [] : [`get ${names(fixed)} out of the way`]),
    'or weld it with a smaller torch',
  ];
  return `${lowers ? `no drop up to ${onTape(MOST_DROP, units)} frees it: ` : ''}${ways.join('; ')}`;
}

export function reachWords(reach: Reach | null, units: LengthUnit, say: (name: string) => string): string {
  if (reach === null) return 'not looked at';
  if (reach.blocked === 0) return 'all round';
  return `not reached over ${String(Math.round((100 * reach.blocked) / reach.of))} % of it: ${howWords(reach, units, say)}`;
}
