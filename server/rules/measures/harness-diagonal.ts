/** `harness.diagonal`: harness bar and diagonal cross each other in one joint. */
import { nearestBetween } from '../../centreline/query';
import { reading } from '../readings';
import type { Rule } from '../rule';

const BAR = 'mirror left { node bar-end = on hoop where z = 700 }\n';

export const harnessDiagonal: Rule = {
  code: 'harness.diagonal',
  unit: 'mm',
  slack: 1e-6,
  read: (car) =>
    car.of('harness-bar').flatMap((bar) => {
      const nearest = car
        .of('diagonal')
        .map((cross) => ({ cross, far: nearestBetween(bar.line, cross.line)?.distance ?? Infinity }))
        .sort((a, b) => a.far - b.far)[0];
      const od = bar.tube.section?.od;
      const other = nearest?.cross.tube.section?.od;
      if (nearest === undefined || od === undefined || other === undefined || !Number.isFinite(nearest.far)) return [];
      const params = { tube: bar.name, diagonal: nearest.cross.name };
      return [
        reading(bar.name, nearest.far, 'mm', params, { fact: 'path', limit: { from: null, to: (od + other) / 2 } }),
      ];
    }),
  mend: () => ({
    says: 'let them meet, and split the bar by the diagonal',
    ask: ', {book} wants them to meet',
    params: {},
  }),
  explanation: {
    what: 'Harness bar and diagonal pass each other without touching.',
    why: 'The middle of a long harness bar is bent by the straps; the diagonal is there to hold it.',
    measured: 'The shortest distance between the two bent centrelines, against half the sum of their diameters.',
    mend: 'Move the bar into the plane of the hoop, and write `split by` the diagonal.',
    stage: 'hoop',
    bad: `rules nasa-ccr\n${BAR}node x-top = on hoop at 110 before crown.left\nnode x-low = on hoop at 70 from foot.right\ntube cross as diagonal { section t38; path x-top, x-low }\nmirror left { node back = (-200, 500, 700) }\ntube bar as harness-bar { section t38; die d38; path bar-end.left, back.left, back.right, bar-end.right }`,
    good: 'rules fia-253\nnode x-top = on hoop at 110 before crown.left\nnode x-low = on hoop at 70 from foot.right\ntube cross as diagonal { section t38; path x-top, x-low }',
  },
};
