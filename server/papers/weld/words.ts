/** What is said of a weld that a torch cannot go round. */
import type { LengthUnit } from '../../../grammar/units';
import { angleWords } from '../bend/words';
import { onTape } from '../on-tape';
import type { Reach } from './reach';
import { MOST_DROP, SHARP } from './reach';

/** Tubes that have to be taken out again for this weld: those in its way that no drop gets past. */
export const takenOut = ({
  by,
  fixed,
  drop,
  plates,
}: Pick<Reach, 'by' | 'fixed' | 'drop' | 'plates'>): readonly string[] =>
  drop === null ? by.filter((name) => !fixed.includes(name) && !plates.includes(name)) : [];

/** `let the tubes down by 42 mm (1 21/32 in), …`, or what to do where that does not help. `say`: a part's name as it is written on it. */
export function howWords(
  { by, fixed, drop, lowers, plates }: Reach,
  units: LengthUnit,
  say: (name: string) => string,
): string {
  const names = (of: readonly string[]): string => of.map(say).join(', ');
  if (drop !== null)
    return `let the tubes down by ${onTape(drop, units)} to get past ${names(by)}: plates off, and room below the feet`;
  const tubes = takenOut({ by, fixed, drop, plates });
  const ways = [
    ...(plates.length === 0 ? [] : [`weld it before ${names(plates)} is on its tube, or with that off again`]),
    ...(tubes.length === 0
      ? []
      : [`take ${names(tubes)}, and what is tacked to it, out again and put it back after it`]),
    ...(fixed.length === 0 ? [] : [`get ${names(fixed)} out of the way`]),
    'or weld it with a smaller torch',
  ];
  return `${lowers && by.length > plates.length ? `no drop up to ${onTape(MOST_DROP, units)} frees it: ` : ''}${ways.join('; ')}`;
}

const share = (some: number, { of }: Pick<Reach, 'of'>): string => `${String(Math.round((100 * some) / of))} %`;

/** In one line each: what is reached as it stands, what a gusset will cover, and how sharp its heel is. */
export function reachWords(
  reach: Reach | null,
  units: LengthUnit,
  say: (name: string) => string,
): readonly [string, ...string[]] {
  if (reach === null) return ['not looked at'];
  const { blocked, under, covered, sharp, heel } = reach;
  return [
    blocked === 0 ? 'all round' : `not reached over ${share(blocked, reach)} of it: ${howWords(reach, units, say)}`,
    ...(covered === 0
      ? []
      : [
          `weld it before ${under.map(say).join(' and ')} ${under.length === 1 ? 'goes in, which covers' : 'go in, which cover'} ${share(covered, reach)} of it`,
        ]),
    ...(sharp === 0
      ? []
      : [
          `its heel is ${angleWords(heel)} open, under ${angleWords(SHARP)} over ${share(sharp, reach)} of it: do not count on the root there`,
        ]),
  ];
}
