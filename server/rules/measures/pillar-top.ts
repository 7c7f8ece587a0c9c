/** `pillar.top`: from the upper end of a pillar bar to the junction at the roof's front corner. */
import { onPillar, pillarExample } from '../pillars';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const pillarTop: Rule = {
  code: 'pillar.top',
  unit: 'mm',
  slack: 1e-6,
  read: (car) =>
    car.of('pillar-bar').flatMap((member) => {
      const on = onPillar(car, car.upDown(member)[0]);
      if (on === null) return [];
      // The junction is the one at the roof: of several tubes across, the highest counts.
      const across = [...car.landedOn(on.host, 'transverse', 'longitudinal')].sort((a, b) => b.end.at[2] - a.end.at[2]);
      const first = across[0];
      if (first === undefined) return [];
      const far = Math.abs(first.station - on.station);
      return [reading(member.name, far, 'mm', { tube: member.name, host: on.host.name }, { fact: 'path' })];
    }),
  mend: (item, target) => ({
    says: 'bring it {by~} nearer',
    params: { by: { value: Math.ceil(item.measured.value - target), unit: 'mm' } },
  }),
  explanation: {
    what: 'The upper end of a pillar bar is too far from the junction at the front corner of the roof.',
    why: 'The pillar is bent between the two joints.',
    measured:
      'Along the bent centreline of the tube that it lands on, to the joint of the highest transverse or longitudinal tube there.',
    mend: 'Place its node nearer to the junction.',
    stage: 'hoop',
    bad: `rules fia-253\n${pillarExample('at 160 before head')}`,
    good: `rules fia-253\n${pillarExample('at 100 before head')}`,
  },
};
