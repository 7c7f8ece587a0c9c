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

describe('a level harness bar stays level, however its equal heights are written', () => {
  const car = (end: string, bend: string, lets = ''): string => `cage "Level bar"
rules fia-253, shop
${lets}
section hoop { od 45; wall 2.5 }
section bar { od 38; wall 2.5 }
die d45 { od 45; radius 135 }
die d38 { od 38; radius 114 }
plane hoop { at (0, 0, 60); leans 3 deg aft }
mirror left {
  node foot = in hoop (out 600, up 0)
  node waist = in hoop (out 640, up 480)
  node crown = in hoop (out 470, up 1050)
  node bar-end = ${end}
  node bar-bend = ${bend}
}
tube main-hoop as main-rollbar { section hoop; die d45; path foot.left, waist.left, crown.left, crown.right, waist.right, foot.right; first open; last open }
tube bar as harness-bar { section bar; die d38; path bar-end.left, bar-bend.left, bar-bend.right, bar-end.right }
vent bar -> main-hoop { at bar-end.left; dia 5 }
seat driver { slots (220, 340, 850); recline 15 deg; slot-spacing 220; back 45 }
strap outer { seat driver; slot left; to bar; at y = 380; width 75; hardware 60; collars 20 gap 1.5 }
`;

  it.each([
    ['the same figure twice', 'on main-hoop where z = 740', '(-190, 560, 740)', '', true],
    ['other units', 'on main-hoop where z = 740', '(-190, 560, 74 cm)', '', true],
    ['a let and a figure', 'on main-hoop where z = high', '(-190, 560, 740)', 'let high = 740', true],
    ['a figure and a sum', 'on main-hoop where z = 740', '(-190, 560, 700 + 40)', '', true],
    ['a difference', 'on main-hoop where z = 740', '(-190, 560, 800 - 60)', '', true],
    ['a let with more', 'on main-hoop where z = low + 40', '(-190, 560, 740)', 'let low = 700', true],
    // No one number governs both: then the bar is left at its height.
    ['an offset', 'on main-hoop where z = 740', '(-190, 560, 0) + (up 740)', '', false],
  ])('%s', async (_, end, bend, lets, raised) => {
    const text = car(end, bend, lets);
    const before = await analyse(text);
    const finding = before.findings.find(({ code }) => code === 'strap.drop');
    expect(finding).toBeDefined();
    if (finding === undefined) return;
    const solved = solve(finding, before);
    expect(solved.some(({ title }) => title.startsWith('Raise'))).toBe(raised);
    for (const { edits } of solved) {
      const after = await analyse(applyEdits(text, edits));
      const heights = ['bar-end.left', 'bar-end.right', 'bar-bend.left', 'bar-bend.right'].map((name) => {
        const node = after.cage.things.get(name);
        return node?.kind === 'node' ? (node.at?.[2] ?? NaN) : NaN;
      });
      expect(Math.max(...heights) - Math.min(...heights)).toBeLessThan(0.5);
    }
  });
});
