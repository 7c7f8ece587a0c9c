/** `hole.existing`: a hole to be drilled into a tube that is already in the car. */
import type { Car } from '../car';
import { reading } from '../readings';
import type { Item, Rule } from '../rule';

/** What is to be drilled, and through the wall of which tube. */
const drillings = (car: Car): readonly { readonly name: string; readonly drilled: string | null }[] => [
  ...car.ofKind('vent').map(({ name, tube, to }) => ({
    name,
    drilled: typeof to === 'string' ? to : to === null ? null : tube,
  })),
  ...car.ofKind('hole').map(({ name, tube }) => ({ name, drilled: tube })),
];

const shown = (vent: string): string =>
  `node a = (0, 700, 0)\nnode b = (0, 700, 900)\nnode c = (0, -700, 0)\nnode d = (0, -700, 900)\ntube left as main-rollbar { section t45; path a, b; first open; last open; existing yes }\ntube right { section t45; path c, d; first open; last open }\nnode e = on left at 50 %\nnode f = on right at 50 %\ntube bar as transverse { section t38; path e, f }\n${vent}`;

export const holeExisting: Rule = {
  code: 'hole.existing',
  unit: '1',
  slack: 0,
  read: (car): readonly Item[] =>
    drillings(car).flatMap(({ name, drilled }): readonly Item[] => {
      const tube = drilled === null ? undefined : car.cage.things.get(drilled.replace(/\.[ab]$/, ''));
      if (tube?.kind !== 'tube') return [];
      // Built by the text of the book: there is no certificate to lose.
      const certified = (car.cage.vehicle?.cage ?? null) !== 'self-built';
      return [reading(name, tube.existing && certified ? 1 : 0, '1', { tube: tube.name })];
    }),
  mend: () => ({
    says: 'vent the new tube at its other end, or into another new tube',
    ask: ', {book} allows none in a certified cage',
    params: {},
  }),
  explanation: {
    what: 'A vent is drilled into a tube that is already in the car.',
    why: 'A hole in a certified cage ends its certificate; the maker of the cage alone may drill or weld it.',
    measured:
      'The tube whose wall the vent goes through, where it is `existing yes`. Vents and holes alike. Where the vehicle says `cage self-built` nothing is told; where it does not say how the cage came, the tool does not know whether it is certified.',
    mend: 'Vent the new tube elsewhere; or waive it where the cage that is there is not certified.',
    stage: 'parts',
    bad: `rules fia-253\n${shown('vent bar -> left { at e; dia 5 }')}`,
    good: `rules fia-253\n${shown('vent bar -> right { at f; dia 5 }')}`,
  },
};
