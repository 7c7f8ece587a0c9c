/** Words of the order of work: tubes, plates and holes of one step, and numbers in a row. */
import type { Part } from '../../geometry/shape';
import { thingName } from '../drill/words';
import type { PacketInput } from '../packet/paper';
import type { Job } from './jobs';
import type { Numbered } from './holes';

/** `3 to 5, 8`: rising numbers, three or more in a row as a stretch. */
export function stretches(numbers: readonly number[], mark = ''): string {
  const sorted = [...new Set(numbers)].sort((a, b) => a - b);
  const found: [number, number][] = [];
  for (const n of sorted) {
    const last = found.at(-1);
    if (last !== undefined && last[1] === n - 1) last[1] = n;
    else found.push([n, n]);
  }
  const say = (n: number): string => `${mark}${String(n)}`;
  return found.map(([a, b]) => (a === b ? say(a) : `${say(a)}${b === a + 1 ? ', ' : ' to '}${say(b)}`)).join(', ');
}

type Named = Pick<PacketInput, 'numbers'>;

export const labelOf = (part: Part, { numbers }: Named): string =>
  numbers.get(part.name)?.label ?? `${part.name} (in the car already)`;

/** `19 half-lateral LEFT and 20 half-lateral RIGHT`. */
export function jobLabel({ parts }: Job, input: Named): string {
  const labels = parts.map((part) => labelOf(part, input));
  return labels.length === 2 && labels.every((label) => !label.includes(', '))
    ? labels.join(' and ')
    : labels.join('; ');
}

/** `D3 to D5`. */
export const holeNumbers = (holes: readonly Numbered[]): string =>
  stretches(
    holes.map(({ id }) => Number(id.slice(1))),
    'D',
  );

/** `D14 in 26 main-hoop under END 2 of 23 hoop-x-long`, by what is drilled. */
export function holeWords(holes: readonly Numbered[], input: Named): string {
  const byPart = new Map<string, Numbered[]>();
  for (const hole of holes) {
    const { part, thing } = hole.drilling;
    const where = part === null ? thingName(thing) : labelOf(part, input);
    byPart.set(where, [...(byPart.get(where) ?? []), hole]);
  }
  return [...byPart].map(([where, of]) => `${holeNumbers(of)} in ${where}`).join(', ');
}
