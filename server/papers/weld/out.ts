/** Ends that are welded out of the car, or let down to be: those that a torch does not get round with everything in. */
import type { OutOfCar } from '../order/weld-steps';
import type { PacketInput } from '../packet/paper';
import type { WeldLine } from './list';
import { howWords, takenOut } from './words';

const PLACE = 'where the torch cannot go round it in its place';

/**
 * In the order of the parts, those that want a plate off before the others. Of two that are in each other's way the first is welded with the other one out; for the other
 * the first is welded already, and only a smaller torch is left.
 */
export function outOfCarOf(input: PacketInput): readonly OutOfCar[] {
  const say = (name: string): string => input.numbers.get(name)?.label ?? name;
  const welded = new Set<string>();
  // While plates can still come off their tubes: before any foot is welded.
  const needsPlateOff = ({ reach }: WeldLine): number => Number((reach?.plates.length ?? 0) > 0);
  const lines = [...input.welds()].sort((a, b) => needsPlateOff(b) - needsPlateOff(a));
  return lines.flatMap(({ part, end, reach }): readonly OutOfCar[] => {
    if (reach === null || reach.blocked === 0) return [];
    const stuck = takenOut(reach).filter((name) => welded.has(name));
    welded.add(part.name);
    const how =
      stuck.length === 0
        ? howWords(reach, input.units, say)
        : `with a smaller torch: ${stuck.map(say).join(', ')} is welded by then, and in its way`;
    return [{ part: part.name, end: end.which, how: `${PLACE}; ${how}` }];
  });
}
