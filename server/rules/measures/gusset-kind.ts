/** `gusset.kind`: how a gusset is made. */
import { gussetExample, gussetUses } from '../gussets';
import { nearestOn } from '../../centreline/query';
import { dot, sub, unit } from '../../centreline/vector';
import type { Car } from '../car';
import type { GussetUse } from '../gussets';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

const WORDS = { sheet: 'a U of bent sheet', flat: 'flat plate', tube: 'a piece of tube' } as const;

/** Axes that miss each other by more than this lie in no plane, mm. */
const MISS = 1;

/** A door bar and a pillar bar that lie in no plane have a reinforcement of their own. */
function groupOf(car: Car, { tubes, at }: GussetUse): string {
  const roles = tubes.map(({ role }) => role);
  const members = tubes.map(({ name }) => car.member(name));
  const [a, b] = members;
  if (!roles.includes('door-bar') || !roles.includes('pillar-bar') || !a || !b || at === null) return 'corner';
  const [one, other] = [nearestOn(a.line, at), nearestOn(b.line, at)];
  const [u, v] = [one.tangent, other.tangent];
  const normal = unit([u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]]);
  return Math.abs(dot(normal, sub(one.point, other.point))) > MISS ? 'door and pillar, not in one plane' : 'corner';
}

export const gussetKind: Rule = {
  code: 'gusset.kind',
  unit: '1',
  slack: 0,
  read: (car) =>
    gussetUses(car).map((use) => {
      const { gusset } = use;
      const group = groupOf(car, use);
      if (gusset.made === null) return missing(gusset.name, 'how it is made is not written: kind sheet', { group });
      const params = { gusset: gusset.name, word: WORDS[gusset.made] };
      return reading(gusset.name, 1, '1', params, { fact: 'kind', group, word: gusset.made });
    }),
  mend: () => ({
    says: 'bend it to a U from sheet: kind sheet',
    ask: ', {book} wants a U of bent sheet there',
    params: {},
  }),
  explanation: {
    what: 'A gusset is made in a way that the book does not draw.',
    why: 'A flat plate welded to two tubes folds along its free edge; a U stands.',
    measured:
      'The word of `kind`. Where a door bar and a pillar bar do not lie in one plane (their axes miss each other by more than a millimetre), plate is accepted too.',
    mend: 'Bend it from sheet, and write `kind sheet`.',
    stage: 'hoop',
    bad: `rules fia-253\n${gussetExample('legs 120 x 120; kind flat; thickness 3')}`,
    good: `rules fia-253\n${gussetExample('legs 120 x 120; kind sheet; thickness 1.5')}`,
  },
};
