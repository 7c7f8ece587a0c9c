/** `fitting.on-harness-bar`: whether a harness bar can be taken out. */
import { fittingUses } from '../fittings';
import { reading } from '../readings';
import type { Rule } from '../rule';

const BAR =
  'mirror left { node bar-end = on hoop where z = 700 }\ntube bar as harness-bar { section t38; path bar-end.left, bar-end.right }';

export const fittingOnHarnessBar: Rule = {
  code: 'fitting.on-harness-bar',
  unit: '1',
  slack: 0,
  read: (car) => {
    const uses = fittingUses(car);
    if (uses.length === 0) return [];
    return car.of('harness-bar').flatMap(({ name }) => {
      const own = uses.filter(({ member }) => member.name === name);
      const first = own[0]?.fitting.name;
      return first === undefined
        ? []
        : [reading(name, own.length, '1', { tube: name, fitting: first }, { fact: 'path' })];
    });
  },
  mend: () => ({ says: 'weld it in', ask: ', {book} allows no removable joint there', params: {} }),
  explanation: {
    what: 'The harness bar has a removable joint.',
    why: 'The straps of two people pull on it at once.',
    measured: 'Fittings at the ends of tubes `as harness-bar`.',
    mend: 'Weld the bar in.',
    stage: 'hoop',
    bad: `rules fia-253\n${BAR}\nfitting pin { tube bar first; kind clevis; shear double; bolt M10 8.8 }`,
    good: `rules fia-253\n${BAR}`,
  },
};
