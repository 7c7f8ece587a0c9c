/** `joint.od-ratio`: the diameter of an end against that of the tube that it lands on. */
import { figure } from '../../geometry/tell';
import type { Part } from '../../geometry/shape';
import type { Car } from '../car';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';
import { anchorOf } from '../welds';

const stub = (od: string): string =>
  `section probe { od ${od}; wall 1 }\nnode pa = (-400, 0, 900)\nnode pb = on hoop nearest (0, 0, 1000)\ntube stub as brace { section probe; path pa, pb; first open }`;

interface Ratio {
  readonly pair: string;
  readonly isUsual: boolean;
  readonly item: Reading;
}

/** At the ends of one part. */
const ratiosOf = (part: Part, { shape }: Car): readonly Ratio[] =>
  part.ends.flatMap((end): readonly Ratio[] => {
    // An end that reaches past the side of its host has that as a fault of its own.
    if (end.fit !== 'cope' || end.depth === null) return [];
    const host = shape.parts.get(end.hosts[0] ?? '');
    const [od, hostOd] = [part.tube.section?.od, host?.tube.section?.od];
    if (host === undefined || od === undefined || hostOd === undefined) return [];
    const params = {
      tube: part.name,
      od: figure(od, 'mm'),
      host: host.name,
      hostOd: figure(hostOd, 'mm'),
      end: end.which,
    };
    return [
      {
        pair: `${String(od)} ${String(hostOd)}`,
        isUsual: od <= hostOd && od >= hostOd / 4,
        item: reading(part.tube.name, od / hostOd, '1', params, { at: anchorOf(part, end) }),
      },
    ];
  });

export const jointOdRatio: Rule = {
  code: 'joint.od-ratio',
  unit: '1',
  slack: 0.005,
  read: (car) => {
    // Of the usual ones each pair of sizes is read once.
    const usual = new Set<string>();
    return car.parts().flatMap((part) =>
      car.ask(ratiosOf, part).flatMap(({ pair, isUsual, item }) => {
        if (usual.has(pair)) return [];
        if (isUsual) usual.add(pair);
        return [item];
      }),
    );
  },
  mend: (item) =>
    item.measured.value < 1
      ? {
          says: 'use a larger tube, or spread its load with a plate',
          ask: ', less than a fifth of it, the least for which welded joints of tubes are worked out',
          params: {},
        }
      : {
          says: 'cut the smaller one to the larger',
          ask: ', and a branch should not be larger than what carries it',
          params: {},
        },
  explanation: {
    what: 'A tube is far thinner than the tube that it lands on, or larger than it.',
    why: 'A thin branch punches through the wall of a wide tube; a larger one has nothing under its sides to be welded to.',
    measured:
      'Outside diameter of the end over that of the first tube that cuts it. An end whose sides hang free is told by cope.overhang.',
    mend: 'Let the larger tube run through, or choose sizes that are nearer to each other.',
    stage: 'hoop',
    bad: stub('8'),
    good: stub('12'),
  },
};
