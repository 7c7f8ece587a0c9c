/** Whole packets of cars as odd as they come: nothing throws, no figure is nonsense, and nothing is given to cut that must not be. */
import { describe, expect, it } from 'vitest';
import type { Packet } from '../../../server/papers/packet/paper';
import { packetOf } from '../../../server/project/packet';
import { analyse } from '../../support/analyse';
import { read } from '../support';

const packetFor = async (source: string): Promise<Packet> =>
  packetOf(await analyse(source), {
    hashOf: () => 'feedface'.repeat(8),
    placeOf: ({ place }) => `${place.file}:${String(place.span.start)}`,
    maker: 'Cagewright 1.2.3',
  });

const INCHES = `cage "Inches, mirrored and split"
units in
section s { size 1 3/4 x .120 }
die d { od 1 3/4; radius 6; grip 4; between 3; springback 3 deg }
mirror left {
  node low = (0, 22, 0)
  node top = (0, 20, 40)
  node rear = (-30, 20, 6)
  node high = on hoop at 4 before top
  tube stay { section s; path high, rear }
  foot pad { at low; plate 6 x 5 x 3/16; lies level; bolts 4 x 3/8 in; bolts-at (forward 2, out 1 3/4), (forward 2, in 1 3/4), (aft 2, out 1 3/4), (aft 2, in 1 3/4); hole 5/16 }
  foot heel { at rear; plate 5 x 4 x 3/16; lies square }
  vent stay -> hoop { at high; dia 3/16 }
}
tube hoop as main-rollbar { section s; die d; path low.left, top.left, top.right, low.right }
node xa = on hoop at 6 before top.left
node xb = on hoop at 8 from low.right
node ya = on hoop at 6 before top.right
node yb = on hoop at 8 from low.left
tube xl as diagonal { section s; path xa, xb }
tube xs as diagonal { section s; path ya, yb; split by xl }
panel floor as floor { outline (-50, -40, -0.2), (50, -40, -0.2), (50, 40, -0.2), (-50, 40, -0.2) }
panel roof as roof { outline (-20, -30, 42), (20, -30, 42), (20, 30, 42), (-20, 30, 42) }
stock s { length 20 ft price 118; length 10 ft price 66; have 40 }
saw { vice 5; kerf 1/8 }
torch { nozzle 5/8; reach 2 1/2 }
`;

const ONE = `cage "One tube"
units ft
section s { od 1.5 in; wall 0.095 in }
node a = (0, 0, 0)
node b = (0, 0, 2.5)
tube t { section s; path a, b; first open; last open }
`;

const NAMES = `cage "Ünï | pipe \`tick\` *star* <b>&amp; \\u202e [link](x) --> </style>"
units mm
section s { od 38; wall 2.5 }
mirror left {
  node á = (0, 500, 0)
  node b-ø = (0, 500, 900)
  tube straße { section s; path á, b-ø; first open; last open }
}
node c = (500, 0, 0)
node e = (500, 0, 900)
tube Ωmega-99 { section s; path c, e; first open; last open }
`;

const WRONG = `cage "All wrong
section s { od 38; wall nought }
section t { od 0; wall 2 }
die d { od 38; radius x }
node a = (0, 0, nought)
node b = (0, 0, 900)
tube one { section s; die d; path a, b, c, d; first onto nothing; last onto two }
tube two { section t; path b, b }
tube three { path }
foot f { at a; plate 0 x 0 x 0; bolts 0 x M8 }
vent one -> two { at a; dia 0 }
hole two for inspection { at q; dia 5 }
gusset g { at a; between one, two }
stock s { length 6000 price x; have y }
saw { kerf -1; vice 0 }
torch { nozzle -5; reach 0; lean 200 deg }
seat x { }
strap y { seat x; to one }
panel p as firewall { outline (0,0,0), (1,0,0) }
}}}
`;

const many = (count: number): string =>
  [
    'cage "Many"',
    'units mm',
    'section s { od 38; wall 2.5 }',
    'stock s { length 6000 price 84; length 3000 price 45; have 1450, 2200 }',
    ...Array.from(
      { length: count },
      (_, i) => `node l${String(i)} = (${String(i * 400)}, 0, 0)
node h${String(i)} = (${String(i * 400)}, 0, ${String(300 + ((i * 53) % 1500))})
tube r${String(i)} { section s; path l${String(i)}, h${String(i)}; first open; last open }`,
    ),
    '',
  ].join('\n');

const CARS: readonly (readonly [string, string])[] = [
  ['nothing', ''],
  ['a title alone', 'cage "Nothing"'],
  ['no text', '\0\ufffd{{{"'],
  ['one straight tube, in feet', ONE],
  ['inches, mirrored and split', INCHES],
  ['odd names', NAMES],
  ['errors everywhere', WRONG],
  ['only what is in the car already', ONE.replace('first open', 'existing yes; first open')],
  ['a wall that leaves no bore', ONE.replace('wall 0.095 in', 'wall 0.8 in')],
  ['a mile away', ONE.replace('(0, 0, 2.5)', '(0, 0, 5280)')],
  ['120 pieces', many(120)],
];

const textOf = (content: string | Uint8Array): string =>
  typeof content === 'string' ? content : Buffer.from(content).toString('latin1');

describe('a packet of', () => {
  it.each(CARS)(
    '%s',
    async (_, source) => {
      const packet = await packetFor(source);
      const again = await packetFor(source);
      expect(packet.papers.map(({ path }) => path)).toEqual(again.papers.map(({ path }) => path));
      expect(packet.papers.at(-1)?.path).toBe('index.html');
      for (const [i, { path, content, parts }] of packet.papers.entries()) {
        const text = textOf(content);
        expect(text === textOf(again.papers[i]?.content ?? ''), path).toBe(true);
        expect(text.includes('feedface'), path).toBe(true);
        expect(path).toMatch(/^[a-z0-9.-]+(\/[a-z0-9.-]+)*$/);
        // Nothing to cut by for a part that an error touches.
        if (/^(templates|bend|saw)\//.test(path))
          for (const name of parts) expect(packet.errorsTouch.has(name)).toBe(false);
        if (path.endsWith('.html')) {
          const page = read(text);
          expect(page.errors, path).toEqual([]);
          expect(page.words, path).not.toMatch(/\bNaN\b|undefined|\bnull\b|Infinity|\[object|\b-0 /);
          expect(page.elements.filter(({ tagName }) => ['script', 'img', 'iframe'].includes(tagName))).toEqual([]);
        }
        if (/\.(md|csv|svg)$/.test(path))
          expect(text, path).not.toMatch(/\bNaN\b|undefined|\bnull\b|Infinity|\[object/);
      }
    },
    120_000,
  );

  it('inches says inches first everywhere, and the other system beside', async () => {
    const { papers } = await packetFor(INCHES);
    for (const path of ['cut-list.html', 'buying-list.html', 'weld-list.html', 'drill-list.html']) {
      const { words } = read(textOf(papers.find((one) => one.path === path)?.content ?? ''));
      expect(words, path).toContain('lengths in inches');
      // A length in mm stands in brackets behind one in inches.
      const bare = words.replace(/\([^)]*\)/g, '');
      expect(bare.match(/\d mm/g), path).toBeNull();
      expect(words, path).toMatch(/\d in \(\d[\d.]* mm\)/);
    }
  });

  it('nothing has no step, no weld, no hole, nothing to buy', async () => {
    const { papers } = await packetFor('cage "Nothing"');
    const words = (path: string): string => {
      const text = textOf(papers.find((one) => one.path === path)?.content ?? '');
      return path.endsWith('.html') ? read(text).words : text;
    };
    expect(words('order-of-work.md')).toContain('Nothing is built');
    expect(words('weld-list.html')).toContain('The file tells of no weld.');
    expect(words('drill-list.html')).toContain('The file tells of no hole that is drilled.');
    expect(words('buying-list.html')).toContain('Nothing is bought.');
    expect(words('cut-list.html')).toContain('Nothing is cut');
  });

  it('a title cannot break out of the style of the sheets', async () => {
    const { papers } = await packetFor(NAMES);
    for (const { path, content } of papers.filter(({ path: one }) => one.endsWith('.html'))) {
      const page = read(textOf(content));
      expect(page.words, path).toContain('</style>');
      const styles = textOf(content).match(/<\/style>/g) ?? [];
      expect(styles.length, path).toBe(page.elements.filter(({ tagName }) => tagName === 'style').length);
    }
  });
});
