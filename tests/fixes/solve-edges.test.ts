/** Fixes that solve, for every rule in turn: the car that stands just outside the rule's limit. */
import { describe, expect, it } from 'vitest';
import { STAGES } from '../../grammar/explanations';
import type { PlacedFinding } from '../../grammar/finding';
import { solve } from '../../server/fixes/fixes';
import { applyEdits } from '../../server/fixes/solve/trial';
import type { Analysis } from '../../server/project/project';
import { EDGES as COMMON, type Edge } from '../rules/edge-cars';
import { FIA_EDGES } from '../rules/edge-cars-fia';
import { FIA_OUTFIT_EDGES } from '../rules/edge-cars-fia-outfit';
import { NA_EDGES } from '../rules/edge-cars-na';
import { SHOP_EDGES } from '../rules/edge-cars-shop';
import { analyse, told } from '../support/analyse';

const EDGES: readonly Edge[] = [...COMMON, ...FIA_EDGES, ...FIA_OUTFIT_EDGES, ...NA_EDGES, ...SHOP_EDGES];

const textOf = (edge: Edge): string =>
  `${STAGES[edge.stage ?? 'hoop']}rules ${[edge.book, ...(edge.also === undefined ? [] : [edge.also])].join(', ')}\n${edge.outside}\n`;

const bare = (text: string): string => text.replace(/\.(left|right)\b/g, '');
const keyOf = ({ code, subject, rule }: PlacedFinding): string => `${code} ${bare(subject)} ${rule?.book ?? ''}`;

/** Kinds of findings that the second car has and the first has not. */
const fresh = (before: Analysis, after: Analysis): string[] => {
  const was = new Set(before.findings.map(keyOf));
  return after.findings.map(keyOf).filter((key) => !was.has(key));
};

/** Rules whose figure one number governs, in cars that leave room for it. */
const GOVERNED = [
  ...['backstay.angle', 'backstay.crown', 'backstay.drop', 'backstay.hoop-angle', 'backstay.rearward', 'bend.radius'],
  ...['diagonal.bottom', 'diagonal.corner', 'diagonal.feet', 'diagonal.in-plane', 'diagonal.top', 'door.height'],
  ...['foot.area', 'foot.bolt-size', 'foot.bolts', 'foot.side', 'foot.thickness', 'foot.tube-wall', 'gusset.legs'],
  ...['gusset.thickness', 'helmet.clearance', 'hoop.flat', 'hoop.leg-spacing', 'hoop.tilt', 'padding.thickness'],
  ...[
    'pillar.bend',
    'pillar.bottom',
    'pillar.side-view',
    'pillar.top',
    'roof.ends',
    'strap.gap',
    'strap.shoulder-angle',
  ],
  ...['strap.shoulder-drop', 'strap.spacing', 'tube.size', 'vent.size'],
];

describe('just outside its limit', () => {
  it('a rule is mended by the number that governs it, and no other finding comes', async () => {
    const solved = new Set<string>();
    for (const edge of EDGES) {
      const text = textOf(edge);
      const before = await analyse(text);
      const finding = before.findings.find(({ code }) => code === edge.code);
      const [best] = finding === undefined ? [] : solve(finding, before, 1);
      if (finding === undefined || best === undefined) continue;
      const after = await analyse(applyEdits(text, best.edits));
      const why = `${edge.code}: ${best.title}\n${told(after.findings).join('\n')}`;
      expect(
        after.findings.some(({ message }) => message === finding.message),
        why,
      ).toBe(false);
      expect(fresh(before, after), why).toEqual([]);
      expect(best.title, why).not.toMatch(/undefined|null|NaN|\{\w+\}/);
      solved.add(edge.code);
    }
    expect(GOVERNED.filter((code) => !solved.has(code))).toEqual([]);
  }, 240_000);
});
