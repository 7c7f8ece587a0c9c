/** `vent.span`: a hole to the open air in the middle third between two joints. */
import { figure } from '../../geometry/tell';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';
import { airHoles } from '../holes';

const long = (from: string): string =>
  `node a = (0, 0, 0)\nnode b = (0, 0, 900)\ntube t { section t38; path a, b; first open; last open }\nvent t -> air { at a; from ${from}; dia 4 }`;

export const ventSpan: Rule = {
  code: 'vent.span',
  unit: 'mm',
  slack: 0.5,
  read: (car) =>
    airHoles(car).map(({ hole, member, station }): Reading => {
      const joints = [0, member.line.length, ...car.landedOn(member).map((landed) => landed.station)];
      const before = Math.max(...joints.filter((joint) => joint <= station));
      const after = Math.min(...joints.filter((joint) => joint >= station));
      const params = { tube: member.name, span: figure(after - before, 'mm') };
      return reading(hole, Math.min(station - before, after - station), 'mm', params, {
        fact: 'from',
        limit: { from: null, to: (after - before) / 3 },
      });
    }),
  mend: (_, target) => ({
    says: 'drill it within {limit} of a joint, or inside the joint',
    ask: ', in the middle third of it',
    params: { limit: figure(target, 'mm') },
  }),
  explanation: {
    what: 'A vent is drilled into the middle third of a span.',
    why: 'A tube that is loaded between two joints bends most there: the hole is where it folds.',
    measured: 'Along the bent centreline to the nearest joint of the tube, against a third of the way between its two.',
    mend: 'Drill near a joint, or inside it.',
    stage: 'parts',
    bad: long('420'),
    good: long('60'),
  },
};
