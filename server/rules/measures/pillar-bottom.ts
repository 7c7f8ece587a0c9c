/** `pillar.bottom`: from the lower end of a pillar bar to the front foot. */
import { onPillar, pillarExample } from '../pillars';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const pillarBottom: Rule = {
  code: 'pillar.bottom',
  unit: 'mm',
  slack: 1e-6,
  read: (car) =>
    car.of('pillar-bar').flatMap((member) => {
      const on = onPillar(car, car.upDown(member)[1]);
      if (on === null) return [];
      const { host, station } = on;
      const feet = host.ends.flatMap(({ foot }, i) =>
        foot === null ? [] : [i === 0 ? station : host.line.length - station],
      );
      if (feet.length === 0) return [];
      return [reading(member.name, Math.min(...feet), 'mm', { tube: member.name, host: host.name }, { fact: 'path' })];
    }),
  mend: (item, target) => ({
    says: 'bring it {by~} nearer',
    params: { by: { value: Math.ceil(item.measured.value - target), unit: 'mm' } },
  }),
  explanation: {
    what: 'The lower end of a pillar bar is too far from the front foot.',
    why: 'The pillar is bent between the joint and the foot.',
    measured: "Along the bent centreline of the tube that it lands on, from axis to the top of the foot's plate.",
    mend: 'Place its node nearer to the foot.',
    stage: 'hoop',
    bad: `rules fia-253\n${pillarExample('at 60 before head', 'at 140 from front-foot')}`,
    good: `rules fia-253\n${pillarExample('at 60 before head', 'at 90 from front-foot')}`,
  },
};
