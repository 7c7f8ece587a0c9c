/** `gusset.count`: how many gussets stand at one joint. */
import { stays } from '../examples';
import { gussetUses } from '../gussets';
import { reading } from '../readings';
import type { Rule } from '../rule';

const shown = (n: number): string =>
  `${stays()}\nmirror left {\n${Array.from({ length: n }, (_, i) => `  gusset g${String(i)} { at stay-top; between hoop, stay; legs 120 x 120; kind flat; thickness 2 }`).join('\n')}\n}`;

export const gussetCount: Rule = {
  code: 'gusset.count',
  unit: '1',
  slack: 0,
  read: (car) => {
    const byNode = new Map<string, string[]>();
    for (const { gusset } of gussetUses(car)) {
      if (gusset.node === null) continue;
      const list = byNode.get(gusset.node);
      if (list === undefined) byNode.set(gusset.node, [gusset.name]);
      else list.push(gusset.name);
    }
    return [...byNode].map(([node, names]) =>
      reading(names[names.length - 1] ?? '', names.length, '1', { node }, { fact: 'at' }),
    );
  },
  mend: () => ({ says: 'leave the others out', params: {} }),
  explanation: {
    what: 'There are more gussets at a joint than some classes allow.',
    why: 'Classes near to the road car do not want the shell stiffened by way of the cage.',
    measured: 'The gussets at one node.',
    mend: 'Leave some out; look up the class.',
    stage: 'hoop',
    bad: `rules scca-gcr\n${shown(3)}`,
    good: `rules scca-gcr\n${shown(2)}`,
  },
};
