/** Seat mountings that a book has to judge, and the example that the rules about them share. */
import type { SeatMount } from '../cage/cage';
import type { Car } from './car';

/** Those that the maker of the seat approves are not asked about. */
export const ownMounts = (car: Car): readonly SeatMount[] =>
  car.ofKind('seat-mount').filter(({ approved }) => approved !== true);

const FACTS = {
  points: 'points 4',
  bolts: 'bolts 4 x M8 8.8',
  'seat-bolts': 'seat-bolts 4 x M8 8.8',
  plate: 'plate 80 x 60 x 3',
  'counter-plate': 'counter-plate 80 x 60 x 3 welded',
  material: 'material steel',
  load: 'load 15 kN',
} as const;

/** A mounting in order, with some facts changed. */
export const mountExample = (changed: Readonly<Partial<Record<keyof typeof FACTS, string>>> = {}): string =>
  `seat driver { slots (240, 300, 750); recline 10 deg; slot-spacing 220; back 45 }\nseat-mount mount { seat driver; ${Object.values(
    { ...FACTS, ...changed },
  )
    .filter((fact) => fact !== '')
    .join('; ')} }`;
