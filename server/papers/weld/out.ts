/** Ends that are welded out of the car. */
import type { OutOfCar } from '../order/steps';
import type { PacketInput } from '../packet/paper';

/** In the order of the parts. */
export const outOfCarOf = (_input: PacketInput): readonly OutOfCar[] => [];
