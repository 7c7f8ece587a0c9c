/** `hole.sleeve`: a hole through the wall of a tube, and whether a sleeve closes it again. */
import type { Car } from '../car';
import { stays } from '../examples';
import { reading } from '../readings';
import type { Item, Rule } from '../rule';

/** Holes from outside, and vents into the open air; what lies inside a joint is closed by the weld round it. */
const openings = (
  car: Car,
): readonly { readonly name: string; readonly tube: string | null; readonly closed: boolean }[] => [
  ...car.ofKind('hole').map(({ name, tube, sleeve, plug }) => ({ name, tube, closed: sleeve || plug !== null })),
  ...car
    .ofKind('vent')
    .flatMap(({ name, tube, to, plug }) =>
      to !== null && typeof to !== 'string' ? [{ name, tube, closed: plug !== null }] : [],
    ),
];

const drilled = (sleeve: string): string =>
  `rules fia-253\n${stays()}\nhole hoop for bolt { from 400; dia 12; sleeve ${sleeve} }`;

export const holeSleeve: Rule = {
  code: 'hole.sleeve',
  unit: '1',
  slack: 0,
  read: (car): readonly Item[] =>
    openings(car).flatMap(({ name, tube, closed }) =>
      tube === null ? [] : [reading(name, closed ? 1 : 0, '1', { tube: tube.replace(/\.[ab]$/, '') })],
    ),
  mend: () => ({
    says: 'weld a sleeve into it, or leave it undrilled',
    ask: ', {book} knows only holes with a welded bush or insert',
    params: {},
  }),
  explanation: {
    what: 'A hole goes through the wall of a tube and stays open.',
    why: 'At a hole the tube tears and buckles first, and water gets in.',
    measured:
      'The facts `sleeve` and `plug` of a `hole`, and `plug` of a vent to the air. Vents inside a joint are not meant. The book asks for no holes and names none but those for bolts, with a bush or an insert: that it forbids the others cannot be proved from excerpts.',
    mend: 'Weld a sleeve in, or close the hole once it has done its work: `plug weld`.',
    stage: 'hoop',
    bad: drilled('no'),
    good: drilled('yes'),
  },
};
