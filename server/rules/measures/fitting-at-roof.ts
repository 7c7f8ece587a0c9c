/** `fitting.at-roof`: how many removable joints the cage has at roof level. */
import { fittingUses } from '../fittings';
import { roofBand } from '../hoop';
import { reading } from '../readings';
import type { Rule } from '../rule';

/** Short tubes across the top of the hoop, each with a joint. */
const many = (n: number): string =>
  Array.from({ length: n }, (_, i) => {
    const y = String(-200 + 100 * i);
    return `node r${String(i)} = on hoop nearest (0, ${y}, 1000)\nnode f${String(i)} = (400, ${y}, 1000)\ntube bar${String(i)} as brace { section t38; path r${String(i)}, f${String(i)}; last open }\nfitting j${String(i)} { tube bar${String(i)} first; kind muff }`;
  }).join('\n');

export const fittingAtRoof: Rule = {
  code: 'fitting.at-roof',
  unit: '1',
  slack: 0,
  read: (car) => {
    const hoop = car.mainHoops()[0] ?? car.hoops()[0];
    const chief = car.chief();
    const uses = fittingUses(car);
    if (hoop === undefined || chief === null || uses.length === 0) return [];
    const level = roofBand(hoop.line, hoop.figures.top);
    const joints = uses.filter(({ end }) => end.at[2] >= level);
    return [reading(chief.name, joints.length, '1', { fittings: joints.map(({ fitting }) => fitting.name) })];
  },
  mend: () => ({ says: 'weld some of these tubes in', params: {} }),
  explanation: {
    what: 'The cage has more removable joints at the level of the roof than the book wants.',
    why: 'Each of them gives a little; together the roof moves.',
    measured: "Fittings at ends that lie in the top 15 % of the main hoop's height: the book names no level.",
    mend: 'Weld some of the tubes in.',
    stage: 'hoop',
    bad: `rules fia-253\n${many(5)}`,
    good: `rules fia-253\n${many(4)}`,
  },
};
