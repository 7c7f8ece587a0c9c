/** `roof.gap`: where the two bars of a V do not meet, how far apart they land. */
import { nearestOn } from '../../centreline/query';
import { distance } from '../../centreline/vector';
import type { Car } from '../car';
import { front } from '../examples';
import { reading } from '../readings';
import { apexOf, roofOf } from '../roof';
import type { Item, Rule } from '../rule';

/** Along the tube that both land on; else straight across. */
function gapOf(car: Car): Item | null {
  const roof = roofOf(car);
  const apex = apexOf(roof);
  const [first, second] = roof.legs;
  if (apex === null || first === undefined || second === undefined) return null;
  const [a, b] = apex;
  const host = a.hosts.map((name) => car.member(name)).find((on) => on !== null && b.hosts.includes(on.name)) ?? null;
  const gap =
    host === null
      ? distance(a.at, b.at)
      : Math.abs(nearestOn(host.line, a.at).station - nearestOn(host.line, b.at).station);
  return reading(first.name, gap, 'mm', { tube: first.name, other: second.name }, { fact: 'path' });
}

const vee = (at: string): string =>
  `rules fia-253\nvehicle { homologated "2010" }\n${front()}\nmirror left {\n  node v-rear = on hoop at 80 after crown\n  node v-front = on header at ${at}\n  tube v as roof-bar { section t38; path v-rear, v-front }\n  vent v -> hoop { at v-rear; dia 5 }\n}`;

export const roofGap: Rule = {
  code: 'roof.gap',
  unit: 'mm',
  slack: 1e-6,
  read: (car) => {
    const gap = gapOf(car);
    return gap === null ? [] : [gap];
  },
  mend: (item, target) => ({
    says: 'bring each {by~} nearer to the other',
    params: { by: { value: Math.ceil((item.measured.value - target) / 2), unit: 'mm' } },
  }),
  explanation: {
    what: "The two bars of the roof's V land too far apart at its point.",
    why: 'Between them the tube that they land on is bent.',
    measured: 'Along the bent centreline of the tube on which both land, from axis to axis.',
    mend: 'Move the ends together, or let them meet.',
    stage: 'hoop',
    bad: vee('40 %'),
    good: vee('46 %'),
  },
};
