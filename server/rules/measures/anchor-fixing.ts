/** `anchor.fixing`: how a lap strap is fixed. */
import { anchorExample, anchorFact } from '../anchors';
import { reading } from '../readings';
import type { Rule } from '../rule';

const WORDS = { bolt: 'bolted', eye: 'hooked into an eye', wrap: 'wrapped round a tube' } as const;

export const anchorFixing: Rule = {
  code: 'anchor.fixing',
  unit: '1',
  slack: 0,
  groups: ['lap', 'crotch', 'shoulder'],
  read: (car) =>
    (['lap', 'crotch', 'shoulder'] as const).flatMap((group) =>
      anchorFact(
        car,
        car.ofKind('anchor').filter(({ as }) => as === group),
        'how an anchor is fixed is not written: fixing bolt, fixing eye, fixing wrap',
        () => ({ group }),
        ({ name, fixing }) =>
          fixing === null
            ? null
            : reading(
                name,
                1,
                '1',
                { anchor: name, as: group, way: WORDS[fixing] },
                { fact: 'fixing', word: fixing, group },
              ),
      ),
    ),
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
