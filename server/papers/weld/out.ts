/** Ends that are welded out of the car, or let down to be: those that a torch does not get round with everything in. */
import type { OutOfCar } from '../order/weld-steps';
import type { PacketInput } from '../packet/paper';
import { howWords } from './words';

/** In the order of the parts. */
export const outOfCarOf = (input: PacketInput): readonly OutOfCar[] =>
  input.welds().flatMap(({ part, end, reach }) =>
    reach === null || reach.blocked === 0
      ? []
      : [
          {
            part: part.name,
            end: end.which,
            how: `where the torch cannot go round it in its place; ${howWords(reach, input.units, (name) => input.numbers.get(name)?.label ?? name)}`,
          },
        ],
  );
