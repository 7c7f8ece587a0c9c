/** Cope templates measured on the paper: the PDF's own operators, rolled back round a mesh; DXF by another library. */
import DxfParser from 'dxf-parser';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Item } from '../../../server/drawing/scene';
import type { Part } from '../../../server/geometry/shape';
import { templatePapers, templatesOf } from '../../../server/papers/template/papers';
import { stationsOf, wrapOf } from '../../../server/papers/template/wrap';
import type { Spot, Vec3 } from './on-paper';
import { branchOf, find, inputOf, latin, long, pathsOf, skew } from './on-paper';

/** Places of a curve on the tube: paper right is away × outward where the print is outside and the arrow is up. */
function rolled(part: Part, which: 0 | 1, curve: readonly Spot[], lowest: number, mirrored = false): readonly Vec3[] {
  const { origin, away, clockZero, minCut } = part.ends[which];
  const radius = (part.tube.section?.od ?? NaN) / 2;
  if (origin === null || away === null || clockZero === null || minCut === null) throw new Error('not known');
  const z = clockZero.vector;
  const q: Vec3 = [away[1] * z[2] - away[2] * z[1], away[2] * z[0] - away[0] * z[2], away[0] * z[1] - away[1] * z[0]];
  const [left, right] = [curve[0]?.[0] ?? 0, curve.at(-1)?.[0] ?? 0];
  return curve.map(([x, y]) => {
    const turn = ((x - (left + right) / 2) / (right - left)) * 2 * Math.PI * (mirrored ? -1 : 1);
    const s = minCut + lowest - y;
    const at = (i: 0 | 1 | 2): number =>
      origin[i] + away[i] * s + radius * (z[i] * Math.cos(turn) + q[i] * Math.sin(turn));
    return [at(0), at(1), at(2)];
  });
}

/** Distance to a mesh of the host: 720 flat facets round its axis (x = 0, z = 500), corners on the radius. */
function offMesh([x, , z]: Vec3): number {
  const facets = 720;
  const step = (2 * Math.PI) / facets;
  const i = Math.round((Math.atan2(z - 500, x) - step / 2) / step);
  const normal = (i + 0.5) * step;
  return x * Math.cos(normal) + (z - 500) * Math.sin(normal) - 30 * Math.cos(step / 2);
}

const worst = (points: readonly Vec3[]): number => Math.max(...points.map((one) => Math.abs(offMesh(one))));

describe('cope templates', () => {
  it.each([
    ['first', 'c, d', 'branch-end-1.a4.pdf', 0],
    ['last', 'd, c', 'branch-end-2.a4.pdf', 1],
  ] as const)(
    'rolled back round a mesh of the host, the curve of the %s end lies on it, mirrored it does not',
    async (_, path, name, which) => {
      const input = await inputOf(skew(38, path));
      const [page = []] = pathsOf(find(templatePapers(input), name));
      const [outer = [], cut = []] = long(page);
      const lowest = Math.max(...cut.map(([, y]) => y));
      expect(Math.min(outer.length, cut.length)).toBeGreaterThan(20);
      expect(worst(rolled(branchOf(input), which, outer, lowest))).toBeLessThan(0.05);
      expect(worst(rolled(branchOf(input), which, outer, lowest, true))).toBeGreaterThan(2);
      // Cut square, nothing of the outside is left inside the host.
      expect(Math.min(...rolled(branchOf(input), which, cut, lowest).map(offMesh))).toBeGreaterThan(-0.05);
    },
  );

  it('is as wide as the paper round the tube, and both bars of the scale are right, on both sheets', async () => {
    const papers = templatePapers(await inputOf(skew(38, 'c, d')));
    for (const [name, width, height] of [
      ['branch-end-1.a4.pdf', 210, 297],
      ['branch-end-1.letter.pdf', 215.9, 279.4],
    ] as const) {
      const paper = find(papers, name);
      // Sizes: ISO 216 and ANSI/ASME Y14.1.
      const box = /MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(latin(paper));
      expect((Number(box?.[1]) * 25.4) / 72).toBeCloseTo(width, 2);
      expect((Number(box?.[2]) * 25.4) / 72).toBeCloseTo(height, 2);
      expect(latin(paper)).toContain('/PrintScaling /None');
      const [page = []] = pathsOf(paper);
      const [cut = []] = long(page);
      expect((cut.at(-1)?.[0] ?? 0) - (cut[0]?.[0] ?? 0)).toBeCloseTo(Math.PI * 38.1, 1);
      const bars = page.filter((one) => one.length === 2 && one[0]?.[0] === 10 && one[0][1] === one[1]?.[1]);
      expect(bars.map(([a, b]) => (b?.[0] ?? 0) - (a?.[0] ?? 0)).map((one) => Math.round(one * 100) / 100)).toEqual([
        100, 101.6,
      ]);
      for (const [x, y] of page.flat()) {
        expect(x).toBeGreaterThan(5);
        expect(x).toBeLessThan(width - 5);
        expect(y).toBeGreaterThan(5);
        expect(y).toBeLessThan(height - 5);
      }
    }
  });

  it('equal tubes at 90 degrees: the closed form on the paper', async () => {
    // A cylinder cut by an equal one square to it: r |sin|, and with the wall √(r² - rᵢ² cos²), from Pythagoras.
    const input = await inputOf(`cage "Square"
units mm
section t { od 40; wall 2 }
node a = (0, -600, 500)
node b = (0, 600, 500)
node c = (0, 0, 500)
node d = (700, 0, 500)
tube host as main-rollbar { section t; path a, b }
tube branch { section t; path c, d }
`);
    const [page = []] = pathsOf(find(templatePapers(input), 'branch-end-1.a4.pdf'));
    const [outer = [], cut = []] = long(page);
    const lowest = Math.max(...cut.map(([, y]) => y));
    const least = Math.sqrt(20 ** 2 - 18 ** 2);
    const middle = ((cut[0]?.[0] ?? NaN) + (cut.at(-1)?.[0] ?? NaN)) / 2;
    const between = (curve: readonly Spot[]): readonly Spot[] =>
      curve.flatMap((a, i) => {
        const b = curve[i + 1] ?? a;
        return [0, 0.25, 0.5, 0.75].map((k): Spot => [a[0] + k * (b[0] - a[0]), a[1] + k * (b[1] - a[1])]);
      });
    for (const [x, y] of between(cut))
      expect(Math.abs(least + lowest - y - Math.sqrt(400 - (18 * Math.cos((x - middle) / 20.05)) ** 2))).toBeLessThan(
        0.05,
      );
    for (const [x, y] of between(outer))
      expect(Math.abs(least + lowest - y - 20 * Math.abs(Math.sin((x - middle) / 20.05)))).toBeLessThan(0.05);
    const wrap = wrapOf(branchOf(input), branchOf(input).ends[0], input.shape);
    const stations = wrap === null ? [] : stationsOf(wrap);
    expect(stations).toHaveLength(24);
    expect(stations[6]?.round).toBeCloseTo(Math.PI * 10, 6);
    expect(stations[6]?.cut).toBeCloseTo(20 - least, 3);
    // The hole saw goes straight through at 90 and 270 degrees, level with the crossing of the axes.
    expect(wrap?.saws[0]?.through.map(({ s }) => Math.abs(s) < 1e-6)).toEqual([true, true]);
    expect(
      wrap?.saws[0]?.through.map(({ x }) => Math.abs(x / wrap.width)).every((x) => Math.abs(x - 0.25) < 1e-6),
    ).toBe(true);
    expect(wrap?.saws[0]?.offsetClock).toBe(null);
  });

  it('DXF read back by another library: the curves at full size on layers with plain names', async () => {
    const input = await inputOf(skew(38, 'c, d'));
    const papers = templatePapers(input);
    const dxf = new DxfParser().parseSync(latin(find(papers, '.dxf')));
    const cut = dxf?.entities.find(({ layer, type }) => layer === 'cut' && type === 'LWPOLYLINE');
    const xs =
      cut !== undefined && 'vertices' in cut && Array.isArray(cut.vertices)
        ? cut.vertices.map((v: { x: number }) => v.x)
        : [];
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(Math.PI * 38.1, 2);
    const layers = new Set(dxf?.entities.map(({ layer }) => layer));
    for (const name of [
      'cut',
      'outer-edge',
      'top-line',
      'clock',
      'waste',
      'hole-saw',
      'seam',
      'mark-line',
      'scale-bar',
      'words',
    ])
      expect(layers, name).toContain(name);
  });

  it('what is cut out and wrapped itself has angle and line of the hole saw, and how far the long point lies from the bend', async () => {
    const car = (corner: number): string => `cage "Bent branch"
units mm
section h { od 160; wall 4 }
section t { od 40; wall 2 }
die t { od 40; radius 120 }
node a = (0, -600, 500)
node b = (0, 600, 500)
node c = (0, 0, 500)
node d = (${String(corner)}, 0, 500)
node e = (${String(corner)}, 300, 500)
tube host as main-rollbar { section h; path a, b }
tube branch { section t; die t; path c, d, e; last open }
`;
    const input = await inputOf(car(400));
    const [end] = branchOf(input).ends;
    const wordsOf = (items: readonly Item[]): readonly (Item & { kind: 'text' })[] =>
      items.flatMap((item) =>
        item.kind === 'text' ? [item] : item.kind === 'group' || item.kind === 'clip' ? wordsOf(item.items) : [],
      );
    const drawn = templatesOf(branchOf(input), input)[0]?.drawn;
    const said = wordsOf(drawn?.items ?? []).map(({ text }) => text);
    // The bend turns by 90 degrees: its tangent is 120 before the corner. The long point is the bore's least: √(80² - 18²).
    const long = 400 - 120 - Math.sqrt(80 ** 2 - 18 ** 2);
    expect(end.minCut).toBeCloseTo(Math.sqrt(80 ** 2 - 18 ** 2), 3);
    // 202.05 mm are 7.9547 in, of 64ths 509.1: never short of it.
    expect(long).toBeCloseTo(202.05, 2);
    expect(said.filter((one) => one === 'long point 202.1 mm (7 31/32 in) from bend 1')).toHaveLength(2);
    // Its centre lies 78 mm before the long point, off the paper; its line stays.
    expect(said.filter((one) => one === 'hole saw 02: 90°')).toHaveLength(2);
    const svg = latin(find(templatePapers(input), 'branch-end-1.svg'));
    // Out along x, clockwise from the top is the right-hand side: the bend goes to the left, +y.
    expect(svg).toContain('&quot;inside of bend&quot; lies on the inside of the nearest bend, at clock 270°');
    // With the corner at 190 the bend begins at 70: 77.95 - 70 = 7.95 before it is reached, no length below nothing.
    const close = await inputOf(car(190));
    const into = latin(find(templatePapers(close), 'branch-end-1.svg'));
    expect(into).toContain('The long point lies 7.9 mm (5/16 in) into the nearest bend');
    expect(into).toContain('long point 7.9 mm (5/16 in) into bend 1');
    const straight = latin(find(templatePapers(await inputOf(skew(38, 'c, d'))), 'branch-end-1.svg'));
    expect(straight).toContain('draw line TOP along all of it before anything is cut');
  });

  it('says which way, tells twins and ends apart, gives the same bytes twice, and stops at errors', async () => {
    const input = await inputOf(readFileSync('samples/plover-rollbar.cage', 'utf8'));
    const papers = templatePapers(input);
    expect(templatePapers(input)).toEqual(papers);
    const [left, right] = ['01-backstay.left-end-1.svg', '02-backstay.right-end-1.svg'].map((name) =>
      latin(find(papers, name)),
    );
    expect(left).toContain('01 backstay LEFT');
    expect(right).toContain('02 backstay RIGHT');
    const [first = '', last = ''] = ['harness-bar-end-1.svg', 'harness-bar-end-2.svg'].map((name) =>
      latin(find(papers, name)),
    );
    expect(first).toContain('The clock grows to the RIGHT');
    expect(last).toContain('The clock grows to the LEFT');
    for (const said of [
      'PRINTED SIDE OUT',
      'Long point',
      'inside of bend',
      'hole saw',
      'WASTE',
      '0123456789abcdef',
      'a paper of a packet',
      'An aid, not an approval',
    ])
      expect(last).toContain(said);
    const finding = input.findings[0];
    if (finding === undefined) throw new Error('a finding was expected');
    const stopped = templatePapers({ ...input, touched: new Map([['harness-bar', { why: 'x', finding }]]) });
    expect(stopped.some(({ parts }) => parts.includes('harness-bar'))).toBe(false);
    expect(stopped.length).toBe(papers.length - 8);
  });
});
