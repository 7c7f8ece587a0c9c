/** What is dipped in zinc, and how the bath gets into it and out again. */
import type { Tube } from '../cage/cage';
import type { Car } from './car';

/** By the tube's own finish, else by that of the whole cage. A tube that is in the car already is not dipped. */
export const isGalvanized = (car: Car, tube: Tube): boolean =>
  !tube.existing && (tube.finish ?? car.cage.vehicle?.finish ?? null) === 'galvanized';

/** True where anything of the car is dipped: most are not, and nobody looks on. */
export const isDipped = (car: Car): boolean => car.cage.vehicle?.finish === 'galvanized' || car.keep(anyDipped);

const anyDipped = (car: Car): boolean => car.tubes().some(({ finish }) => finish === 'galvanized');

export const boreOf = ({ section }: Tube): number | null =>
  section === null || section.od <= 2 * section.wall ? null : section.od - 2 * section.wall;

/** The example: a tube that stands on a plate, dipped or painted. */
export const dippedExample = (finish: string, hole: string, more = ''): string =>
  `node low = (-400, 0, 0)\nnode high = (-400, 0, 700)\ntube post as brace { section t38; path low, high${more}; finish ${finish} }\nfoot base { at low; plate 90 x 90 x 3${hole} }`;
