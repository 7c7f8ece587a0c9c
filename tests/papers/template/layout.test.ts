/** Words on a wrap stand clear of each other on thin tubes and thick ones; sheets of a large one fit over each other. */
import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import type { Item } from '../../../server/drawing/scene';
import type { PacketInput } from '../../../server/papers/packet/paper';
import { templatePapers, templatesOf } from '../../../server/papers/template/papers';
import { helveticaWidth } from '../../../server/papers/pdf-text';
import { OVERLAP, stretchesOf } from '../../../server/papers/template/tiles';
import type { Spot } from './on-paper';
import { find, inputOf, latin, long, pathsOf, skew } from './on-paper';

interface Words {
  readonly said: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Boxes of words: as wide as the font's published metrics, from the tops of capitals to the feet of descenders. */
const wordsIn = (items: readonly Item[]): readonly Words[] =>
  items.flatMap((item): readonly Words[] => {
    if (item.kind === 'group' || item.kind === 'clip') return wordsIn(item.items);
    if (item.kind !== 'text') return [];
    const width = helveticaWidth(item.text, item.size, item.bold);
    const left = item.at.x - (item.anchor === 'middle' ? width / 2 : item.anchor === 'end' ? width : 0);
    const [top, bottom] = [item.at.y - 0.72 * item.size, item.at.y + 0.2 * item.size];
    return [{ said: item.text, left, right: left + width, top, bottom }];
  });

const collisions = (words: readonly Words[]): readonly string[] =>
  words.flatMap((a, i) =>
    words
      .slice(i + 1)
      .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
      .map((b) => `${a.said} / ${b.said}`),
  );

/** Level pieces of the line at which a bend begins: the only one of its kind on a wrap. */
const bendLine = (
  items: readonly Item[],
): readonly { readonly y: number; readonly from: number; readonly to: number }[] =>
  items.flatMap((item) => {
    if (item.kind === 'group' || item.kind === 'clip') return bendLine(item.items);
    const [a, b] = item.kind === 'line' && item.style === 'panel' ? item.points : [];
    return a === undefined || b === undefined ? [] : [{ y: a.y, from: a.x, to: b.x }];
  });

/** What is written large on both halves of a wrap. */
const NAMING = /^(\d\d$|strut|END|cut to|arrow:|long point \d)/;

const wrapsOf = (input: PacketInput): ReturnType<typeof templatesOf> =>
  [...input.shape.parts.values()].flatMap((part) => templatesOf(part, input));

/** A level branch, a leaning one, an upright one and a bent one, coped to a tube that lies across. */
const car = (od: number, wall: number): string =>
  `cage "Words"
units mm
section h { od 60; wall 2 }
section t { od ${String(od)}; wall ${String(wall)} }
die d { od ${String(od)}; radius ${String(3 * od)} }
node a = (0, -900, 500)
node b = (0, 900, 500)
node c = (0, -700, 500)
node d = (700, -630, 560)
node e = (0, -300, 500)
node f = (500, -300, 500)
node g = (0, 200, 500)
node k = (0, 210, 900)
node l = (0, 500, 500)
node m = (300, 500, 500)
node n = (600, 700, 800)
tube main-hoop-of-the-car as main-rollbar { section h; path a, b; first open; last open }
tube thin-diagonal-brace-with-a-long-name { section t; path c, d; last open }
tube strut { section t; path f, e; first open }
tube upright { section t; path g, k; last open }
tube bent { section t; die d; path l, m, n; last open }
`;

describe('words on a wrap', () => {
  it.each([
    [12, 1],
    [16, 1.5],
    [20, 1.5],
    [25, 2],
    [25.4, 2.11],
    [30, 2],
    [38, 2.5],
    [45, 2.5],
    [60, 3],
  ])('of %s mm stand clear of each other and on the paper', async (od, wall) => {
    const templates = wrapsOf(await inputOf(car(od, wall)));
    expect(templates).toHaveLength(4);
    for (const { drawn, number } of templates) {
      const words = wordsIn(drawn.items);
      expect([number.label, collisions(words)]).toEqual([number.label, []]);
      for (const { said, left, right, top, bottom } of words) {
        expect([said, left >= 0, right <= drawn.width]).toEqual([said, true, true]);
        expect([said, top >= 0, bottom <= drawn.height]).toEqual([said, true, true]);
      }
      // Thin tubes have it shorter, or in two lines.
      for (const needed of od < 20 ? ['WASTE', 'arrow:'] : ['WASTE: err on this side', 'arrow: to END '])
        expect(words.some(({ said }) => said.startsWith(needed))).toBe(true);
      for (const needed of ['mark line', 'long point', 'hole saw'])
        expect(words.some(({ said }) => said.startsWith(needed))).toBe(true);
    }
    const upright = templates.find(({ number }) => number.label.includes('upright'));
    expect(wordsIn(upright?.drawn.items ?? []).filter(({ said }) => said === 'FRONT')).toHaveLength(2);
    const bent = wordsIn(templates.find(({ number }) => number.label.includes('bent'))?.drawn.items ?? []);
    expect(bent.map(({ said }) => said)).toContain('inside of bend');
  });

  it.each(['mm', 'in'])('stand clear wherever on the paper a bend begins, in a file of %s', async (units) => {
    let named = 0;
    let stops = 0;
    for (const od of [20, 25.4, 38, 44.45])
      for (const straight of [46, 49, 52, 55, 58, 61, 64, 67, 70, 73, 76, 90]) {
        const turn = (Math.PI * straight) / 40;
        const corner = straight + 3 * od * Math.tan(0.4);
        const out = (by: number): string =>
          `(${[corner + by, Math.cos(turn) * by * 0.8, 500 + Math.sin(turn) * by * 0.8].map((x) => `${x.toFixed(2)} mm`).join(', ')})`;
        const [{ drawn } = { drawn: null }] = wrapsOf(
          await inputOf(`cage "Bends"
units ${units}
section h { od 45 mm; wall 2 mm }
section t { od ${String(od)} mm; wall 2 mm }
die d { od ${String(od)} mm; radius ${String(3 * od)} mm }
node a = (0 mm, -900 mm, 500 mm)
node b = (0 mm, 900 mm, 500 mm)
node c = (0 mm, 0 mm, 500 mm)
node k = ${out(0)}
node e = ${out(400)}
tube host as main-rollbar { section h; path a, b; first open; last open }
tube strut { section t; die d; path c, k, e; last open }
`),
        );
        const words = wordsIn(drawn?.items ?? []);
        expect(words.length).toBeGreaterThan(20);
        named += words.filter(({ said }) => said === 'bend begins').length;
        expect([od, straight, collisions(words)]).toEqual([od, straight, []]);
        for (const { said, left, right } of words)
          expect([said, left >= 0, right <= (drawn?.width ?? 0)]).toEqual([said, true, true]);
        const pieces = bendLine(drawn?.items ?? []);
        const naming = words.filter(({ said }) => NAMING.test(said));
        expect(naming.length).toBeGreaterThanOrEqual(10);
        stops += pieces.length > 1 ? 1 : 0;
        for (const { y, from, to } of pieces)
          expect([
            od,
            straight,
            naming.filter(({ left, right, top, bottom }) => top < y && y < bottom && left < to && from < right),
          ]).toEqual([od, straight, []]);
      }
    expect(named).toBeGreaterThan(30);
    // It does run where words are, in many of them, and stops for them.
    expect(stops).toBeGreaterThan(10);
  });

  it('a car in inches: fractions first, and FRONT where a tube stands upright', async () => {
    const input = await inputOf(`cage "Inches"
units in
section h { od 1.75; wall 0.12 }
section t { od 1; wall 0.083 }
node a = (0, -20, 0)
node b = (0, 20, 0)
node c = (0, 4, 0)
node d = (0, 3, 30)
tube host as main-rollbar { section h; path a, b; first open; last open }
tube branch { section t; path c, d; last open }
`);
    const svg = latin(find(templatePapers(input), 'branch-end-1.svg'));
    expect(svg).toContain('line FRONT on the front of the tube as it stands in the car');
    expect(svg).toMatch(/The straight mark line lies 7\/16 in \(11(\.\d)? mm\) behind the long point/);
    // Half round a tube of 1 in is π/2 in: 1.5708, of 64ths 36.5.
    expect(svg).toContain('1 37/64 in (39.9 mm)');
    expect(svg).toMatch(/Hole saw for host: 1 3\/4 in \(44\.[45] mm\)/);
  });
});

describe('sheets of a wrap larger than one', () => {
  it('stretches cover the whole, overlap, and are no longer than the sheet', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 3000, noNaN: true }),
        fc.double({ min: 100, max: 300, noNaN: true }),
        fc.boolean(),
        (length, room, avoid) => {
          const stretches = stretchesOf(length, room, avoid ? length / 2 : null);
          expect(stretches[0]?.[0]).toBe(0);
          expect(stretches.at(-1)?.[1]).toBeCloseTo(length, 6);
          stretches.forEach(([from, to], i) => {
            expect(to - from).toBeLessThanOrEqual(room + 1e-9);
            const next = stretches[i + 1];
            if (next !== undefined) expect(to - next[0]).toBeCloseTo(OVERLAP, 6);
          });
        },
      ),
    );
  });

  it('two rows of two: crosses of one number lie on one place of the wrap, and each sheet says which it is', async () => {
    // 114 mm round is 358 mm of paper; at 24 degrees the cut is some 270 mm deep.
    const input = await inputOf(
      skew(114, 'c, d')
        .replace('od 60', 'od 120')
        .replace('(0, 40, 508)', '(0, -300, 500)')
        .replace('(700, 330, 760)', '(400, 600, 560)'),
    );
    for (const sort of ['a4', 'letter']) {
      const paper = find(templatePapers(input), `branch-end-1.${sort}.pdf`);
      const pages = [...latin(paper).matchAll(/stream\n([\s\S]*?)\nendstream/g)].map(([, content = '']) => content);
      const paths = pathsOf(paper);
      expect(pages).toHaveLength(5);
      const sheets = pages.slice(1).map((content, i) => {
        const [, x = 0, y = 0, w = 0, h = 0] = (/q ([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+) re W n/.exec(content) ?? []).map(
          Number,
        );
        // The crosses' long strokes: 8 mm, straight across.
        const strokes = (paths[i + 1] ?? []).filter(
          (path) => path.length === 2 && Math.abs((path[1]?.[0] ?? 0) - (path[0]?.[0] ?? 0) - 8) < 1e-6,
        );
        const curve = long(paths[i + 1] ?? [])[1] ?? [];
        const [ox, oy] = curve[0] ?? [0, 0];
        const crosses = strokes
          .map(([a]): Spot => [(a?.[0] ?? 0) + 4, a?.[1] ?? 0])
          .filter(([cx, cy]) => cx > x && cx < x + w && cy > y && cy < y + h)
          .map(([cx, cy]) => `${(cx - ox).toFixed(2)} ${(cy - oy).toFixed(2)}`);
        return { content, crosses };
      });
      const [one, two, three, four] = sheets.map(({ crosses }) => new Set(crosses));
      const both = (a = new Set<string>(), b = new Set<string>()): number =>
        [...a].filter((cross) => b.has(cross)).length;
      // Neighbours share two crosses at least: with one, a sheet could still turn.
      expect(
        [both(one, two), both(three, four), both(one, three), both(two, four)].every((shared) => shared >= 2),
      ).toBe(true);
      const said = (row: number, column: number): string =>
        `row ${String(row)} of 2 from the top, column ${String(column)} of 2 from the left`;
      sheets.forEach(({ content }, i) => {
        expect(content).toContain(`Sheet ${String(i + 1)} of 4: ${said(1 + Math.floor(i / 2), 1 + (i % 2))}`);
        expect(content).toContain('Sheets overlap by 12 mm');
        expect(content).toContain('(100 mm) Tj');
      });
    }
  });
});
