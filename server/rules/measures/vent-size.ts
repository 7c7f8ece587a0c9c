/** `vent.size`: the diameter of the holes that let a bore breathe. */
import { reading } from '../readings';
import type { Rule } from '../rule';

const bar = (dia: string): string =>
  `mirror left { node bar-end = on hoop where z = 700 }\ntube bar as harness-bar { section t38; path bar-end.left, bar-end.right }\nvent bar -> hoop { at bar-end.left; dia ${dia} }`;

export const ventSize: Rule = {
  code: 'vent.size',
  unit: 'mm',
  // 1/8 in is 3.175: drills are named in tenths.
  slack: 0.05,
  read: (car) => [
    ...car.feet().flatMap(({ name, hole }) => {
      if (hole === null) return [];
      const params = { what: 'The hole of {foot}', foot: name };
      return [reading(name, hole, 'mm', params, { fact: 'hole', group: 'open' })];
    }),
    ...car.ofKind('vent').flatMap(({ name, tube, dia, plug }) => {
      if (dia === null) return [];
      const params = { what: 'The vent of {tube}', tube: tube ?? '' };
      return [reading(name, dia, 'mm', params, { fact: 'dia', group: plug === null ? 'open' : 'plugged' })];
    }),
  ],
  mend: (_, target) => ({ says: 'drill {to}', params: { to: { value: target, unit: 'mm' } } }),
  explanation: {
    what: 'The hole through which a bore breathes is very small.',
    why: 'The hot air does not get out fast enough: it blows through the last of the bead. A small hole is also closed by spatter.',
    measured:
      "The diameter as it is written, of vents and of the holes in plates. Welders drill 1/8 in (3.2 mm) for each closed bore; 1/16 in (1.6 mm) does for a hole that is plugged afterwards. How large a hole may be is vent.too-large's matter.",
    mend: 'Drill larger.',
    stage: 'hoop',
    bad: bar('2'),
    good: bar('4'),
  },
};
