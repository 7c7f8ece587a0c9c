/** `galvanized.sealed`: whether the bath gets into every bore that is dipped. */
import { dippedExample, isDipped, isGalvanized } from '../galvanized';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';

const CAP =
  'node left = (-400, 300, 700)\nnode right = (-400, -300, 700)\ntube cap as brace { section t38; path left, right; first open; last open }\n';

export const galvanizedSealed: Rule = {
  code: 'galvanized.sealed',
  unit: '1',
  slack: 0,
  read: (car) =>
    (isDipped(car) ? car.shape.spaces : []).flatMap(({ tubes, vented }): readonly Reading[] => {
      const dipped = tubes.find((name) => {
        const tube = car.shape.parts.get(name)?.tube;
        return tube !== undefined && isGalvanized(car, tube);
      });
      const tube = dipped === undefined ? undefined : car.shape.parts.get(dipped)?.tube;
      if (tube === undefined || vented === null) return [];
      return [reading(tube.name, vented ? 1 : 0, '1', { tubes, tube: tube.name })];
    }),
  mend: () => ({
    says: 'open it to the air at its highest and its lowest point before it is dipped',
    ask: ', and it is to be galvanized',
    params: {},
  }),
  explanation: {
    what: 'A closed bore is to be hot-dip galvanized.',
    why: 'Water or air that is shut in becomes steam at 450 °C, about 1750 times its room: the tube bursts in the bath, and people stand beside it.',
    measured:
      'Bores that hang together by vents, holes and open ends have a way to the air or not. What is galvanized is told by `finish`, of the tube or of the vehicle.',
    mend: 'Drill holes to the air, large ones: see galvanized.hole; or choose another finish.',
    stage: 'hoop',
    bad: CAP + dippedExample('galvanized', ''),
    good: CAP + dippedExample('galvanized', '; hole 24'),
  },
};
