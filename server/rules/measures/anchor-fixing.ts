/** `anchor.fixing`: how a lap strap is fixed. */
import { anchorExample } from '../anchors';
import { missing, reading } from '../readings';
import type { Item, Rule } from '../rule';

const WORDS = { bolt: 'bolted', eye: 'hooked into an eye', wrap: 'wrapped round a tube' } as const;

export const anchorFixing: Rule = {
  code: 'anchor.fixing',
  unit: '1',
  slack: 0,
  groups: ['lap', 'crotch', 'shoulder'],
  read: (car) =>
    car.ofKind('anchor').flatMap((anchor): readonly Item[] => {
      const { fixing, as } = anchor;
      if (as === null) return [];
      if (fixing === null)
        return [
          missing(anchor.name, 'how it is fixed is not written: fixing bolt, fixing eye, fixing wrap', { group: as }),
        ];
      const params = { anchor: anchor.name, as, way: WORDS[fixing] };
      return [reading(anchor.name, 1, '1', params, { fact: 'fixing', word: fixing, group: as })];
    }),
  mend: () => ({ says: 'bolt it to a bracket, or hook it into an eye bolt', params: {} }),
  explanation: {
    what: 'A lap strap is wrapped round a tube of the cage.',
    why: 'It slips along the tube when it loads, and it cannot be made tight.',
    measured: 'The fact `fixing` of the anchor.',
    mend: 'Bolt it to a bracket, or hook it into an eye bolt.',
    stage: 'hoop',
    bad: `rules harness-makers\n${anchorExample('bolt M12 8.8; fixing wrap')}`,
    good: `rules harness-makers\n${anchorExample('bolt M12 8.8; fixing bolt')}`,
  },
};
