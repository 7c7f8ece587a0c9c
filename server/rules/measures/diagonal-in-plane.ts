/** `diagonal.in-plane`: how far a diagonal lies out of the main hoop's plane. */
import { diagonal } from '../examples';
import { offPlane } from '../flat';
import { reading } from '../readings';
import type { Rule } from '../rule';

export const diagonalInPlane: Rule = {
  code: 'diagonal.in-plane',
  unit: 'mm',
  slack: 1e-6,
  read: (car) =>
    car.mainHoops().flatMap((hoop) => {
      const { plane } = hoop.figures;
      if (plane === null) return [];
      const limit = { from: null, to: (hoop.tube.section?.od ?? 0) / 2 };
      return car.of('diagonal').map((member) => {
        const off = Math.max(...member.line.points.map((point) => Math.abs(offPlane(plane, point))));
        return reading(member.name, off, 'mm', { tube: member.name, hoop: hoop.name }, { fact: 'path', limit });
      });
    }),
  mend: () => ({
    says: 'bring both its ends into the plane of the hoop',
    ask: ', {book} wants it in that plane',
    params: {},
  }),
  explanation: {
    what: 'The diagonal does not lie in the plane of the main hoop.',
    why: 'A diagonal out of the plane twists the hoop when it is loaded.',
    measured:
      "The greatest distance of its path from the hoop's plane. The book names no tolerance; half the hoop's diameter is not told.",
    mend: 'Place both its nodes on the hoop.',
    stage: 'hoop',
    bad: 'rules nasa-ccr\nnode low = (-300, -500, 0)\nnode high = on hoop at 110 before crown.left\ntube cross as diagonal { section t38; path high, low; last open }',
    good: `rules fia-253\n${diagonal()}`,
  },
};
