/** The cut list and the buying list, read back: what is to be sawn, from which stick, and what must not be. */
import { parse } from 'parse5';
import { describe, expect, it } from 'vitest';
import { buyingOf, costWords, proofOf, USUAL_KERF, USUAL_LENGTH } from '../../../server/papers/cut/buying';
import { cutPapers } from '../../../server/papers/cut/cut-papers';
import { piecesOf } from '../../../server/papers/cut/pieces';
import { packetInput } from '../../../server/papers/packet/packet';
import type { PacketInput } from '../../../server/papers/packet/paper';
import { analyse } from '../../support/analyse';
import { read, rowsOf } from '../support';

const HEAD = `cage "Lists"
units mm
section post { od 45; wall 2.5 }
section rail { od 38; wall 2.5 }
die d38 { od 38; radius 114; grip 200; between 50; follow 150 }
`;
/** Two posts sawn off open, a bent rail with short end straights, one that is split by another, one that stands already. */
const CAR = `${HEAD}
mirror left {
  node low = (0, 600, 0)
  node high = (0, 600, 1000)
  tube post as brace { section post; path low, high; first open; last open }
}
node old-a = (900, 300, 0)
node old-b = (900, 300, 700)
tube old as brace { section post; path old-a, old-b; first open; last open; existing yes }
node r1 = (2000, 0, 0)
node r2 = (2000, 0, 200)
node r3 = (2000, 800, 200)
tube bent as brace { section rail; die d38; path r1, r2, r3; first open; last open }
node x1 = (3000, -500, 0)
node x2 = (3000, 500, 1000)
node y1 = (3000, 500, 0)
node y2 = (3000, -500, 1000)
tube whole as brace { section rail; path x1, x2; first open; last open }
tube halves as brace { section rail; path y1, y2; split by whole; first open; last open }
`;

async function inputOf(text: string): Promise<PacketInput> {
  const { cage, shape, findings } = await analyse(text);
  return packetInput({
    cage,
    shape,
    findings,
    hash: 'ab'.repeat(32),
    maker: 'Cagewright 1.2.3',
    placeOf: () => 'car.cage:1',
  });
}
const contentOf = (input: PacketInput, path: string): string =>
  String(cutPapers(input).find((paper) => paper.path === path)?.content ?? '');

describe('the cut list', () => {
  it('has twins as two pieces, both pieces of a split tube, and not what stands already', async () => {
    const input = await inputOf(CAR);
    const names = piecesOf(input).map(({ section, pieces }) => [section, pieces.map(({ part }) => part.name)]);
    expect(names).toEqual([
      ['post', ['post.left', 'post.right']],
      ['rail', ['bent', 'halves.a', 'halves.b', 'whole']],
    ]);
  });

  it('gives the stick with its tails, in both systems', async () => {
    const input = await inputOf(CAR);
    const pieces = piecesOf(input).flatMap((of) => of.pieces);
    const bent = pieces.find(({ part }) => part.name === 'bent');
    // By hand: legs 200 and 800, a bend of 90 degrees on radius 114: 86 + 179.07 + 686. The bender holds 200 before.
    expect(bent?.cut).toBeCloseTo(200 + 800 - 2 * 114 + (114 * Math.PI) / 2, 6);
    expect(bent?.stick).toBeCloseTo((bent?.cut ?? 0) + 200 - 86, 6);
    const rows = rowsOf(contentOf(input, 'cut-list.html'), 'rail');
    expect(rows.find(([name]) => name?.includes('bent'))?.[1]).toContain('1065.1 mm (41 15/16 in)');
    expect(rows.find(([name]) => name?.includes('bent'))?.[1]).toContain('with tails');
    expect(rows.find(([name]) => name?.includes('halves'))?.[3]).toContain('fish-mouth onto 06 whole at 90.0°');
  });

  it('gives inches first in a file of inches', async () => {
    const input = await inputOf(
      'cage "Inches"\nunits in\nsection s { od 1.5; wall .095 }\nnode a = (0, 0, 0)\nnode b = (0, 0, 40)\ntube t as brace { section s; path a, b; first open; last open }',
    );
    expect(rowsOf(contentOf(input, 'cut-list.html'), 's,')[0]?.[1]).toContain('40 in (1016 mm)');
  });

  it('gives no length of a part that an open error touches', async () => {
    const input = await inputOf(CAR.replace('path x1, x2; first open', 'path x1, x2'));
    const stopped = piecesOf(input)
      .flatMap((of) => of.pieces)
      .filter((piece) => piece.stopped !== null);
    expect(stopped.map(({ part }) => part.name)).toContain('whole');
    for (const { stick, cut } of stopped) expect([stick, cut]).toEqual([null, null]);
    const row = rowsOf(contentOf(input, 'cut-list.html'), 'rail').find(([name]) => name?.includes('whole'));
    expect(row?.[1]).toContain('Do not cut');
    expect(row?.join(' ')).not.toMatch(/\d mm/);
    expect(contentOf(input, 'buying-list.html')).toContain('whole is not in this list');
  });
});

describe('the buying list', () => {
  it('says what the tool has chosen where no stock is told', async () => {
    const page = read(contentOf(await inputOf(CAR), 'buying-list.html')).words;
    expect(page).toContain(`${String(USUAL_LENGTH)} mm (236 7/32 in) is the tool's own choice`);
    expect(page).toContain(`${String(USUAL_KERF)} mm (1/8 in) at each cut`);
  });

  it('says the saw once, what to order of every section in one table, and what it costs together', async () => {
    const none = read(contentOf(await inputOf(CAR), 'buying-list.html')).words;
    expect(none.match(/What the saw takes is not told/g)).toHaveLength(1);
    const text = `${CAR}stock post { length 6000; price 80 }\nstock rail { length 6000; price 52.5 }\nsaw { kerf 2 }\n`;
    const page = contentOf(await inputOf(text), 'buying-list.html');
    expect(rowsOf(page, 'To buy').map((row) => row.slice(1, 3))).toEqual([
      ['1 x 6000 mm (236 7/32 in)', '80'],
      ['1 x 6000 mm (236 7/32 in)', '52.5'],
    ]);
    expect(read(page).words).toContain('Together: 132.5.');
    expect(read(page).words).not.toContain('What the saw takes');
  });

  it('takes offcuts first, counts the kerf, and buys the cheapest', async () => {
    // Two posts of 1000: one out of the rack (1450), one bought. With a kerf of 2 both do not fit into 2000.
    const input = await inputOf(
      `${CAR}stock post { length 2000 price 30; length 6000 price 80; have 1450 }\nsaw { vice 120; kerf 2 }\n`,
    );
    const [post] = piecesOf(input);
    if (post === undefined) throw new Error('no section');
    const buying = buyingOf(post, input.cage, String);
    expect(buying.chosen).toEqual([]);
    expect(buying.layout).toMatchObject({ cost: 30, bought: 1, proven: true });
    expect(buying.layout.sticks.map(({ length, bought }) => [length, bought])).toEqual([
      [1450, false],
      [2000, true],
    ]);
    expect(proofOf(buying)).toBe('Proven: it cannot be had cheaper');
    const own = input.cage.stocks.get('post');
    if (own === undefined) throw new Error('no stock');
    const bare = { ...input.cage, stocks: new Map([['post', { ...own, have: [] }]]) };
    const without = buyingOf(post, bare, String);
    expect(without.layout).toMatchObject({ cost: 60, bought: 2 });
  });

  it('says what is paid where every stick that is bought has a price, though another length has none', async () => {
    const input = await inputOf(`${CAR}stock post { length 6000 price 80; length 1500 }\nsaw { vice 120; kerf 2 }\n`);
    const [post] = piecesOf(input);
    if (post === undefined) throw new Error('no section');
    const buying = buyingOf(post, input.cage, String);
    expect(buying.layout.sticks.map(({ length }) => length)).toEqual([6000]);
    expect([costWords(buying), proofOf(buying)]).toEqual(['80', 'Proven: fewer sticks are not possible']);
    const cheap = buyingOf(
      post,
      (await inputOf(`${CAR}stock post { length 6000; length 9000 price 3 }\n`)).cage,
      String,
    );
    expect([cheap.layout.sticks.map(({ length }) => length), costWords(cheap)]).toEqual([[6000], 'not told']);
  });

  it('names a piece that is longer than every stick', async () => {
    const page = contentOf(await inputOf(`${CAR}stock post { length 900 }\n`), 'buying-list.html');
    expect(page).toContain('longer than every stick that can be had');
  });
});

describe('both', () => {
  it('are HTML without errors, the same twice, and say what they are made from', async () => {
    const hostile = CAR.replace('cage "Lists"', 'cage "<b>Lists & more</b>"');
    const [one, two] = [await inputOf(hostile), await inputOf(hostile)];
    expect(cutPapers(one)).toEqual(cutPapers(two));
    for (const { path, content } of cutPapers(one)) {
      expect(String(content).slice(0, 600)).toContain('a paper of a packet');
      expect(content).toContain('abababab');
      if (!path.endsWith('.html')) continue;
      const errors: unknown[] = [];
      parse(String(content), { onParseError: (error) => errors.push(error) });
      expect(errors).toEqual([]);
      expect(content).not.toContain('<b>Lists');
    }
  });

  it('stay whole on a file with nothing in it', async () => {
    for (const text of ['', 'cage "Empty"']) expect(cutPapers(await inputOf(text))).toHaveLength(3);
  });

  it("have lengths in both systems in the table, the file's first, as figures", async () => {
    // 1016 mm are 40 in: 25.4 mm to the inch.
    const table = async (units: string, long: string): Promise<readonly string[]> => {
      const text = `cage "x"\nunits ${units}\nsection s { od 38 mm; wall 2.5 mm }\nnode a = (0, 0, 0)\nnode b = (0, 0, ${long})\ntube t { section s; path a, b; first open; last open }\n`;
      return contentOf(await inputOf(text), 'cut-list.csv')
        .split('\r\n')
        .slice(1, 3);
    };
    const [head, row] = await table('in', '40');
    expect(head).toContain('stick in,between long points in,stick mm,between long points mm');
    expect(row).toContain('40.000,40.000,1016.0,1016.0');
    expect((await table('mm', '1016'))[1]).toContain('1016.0,1016.0,40.000,40.000');
  });

  it('have a table for a spreadsheet with as many cells in every row (RFC 4180)', async () => {
    const rows = contentOf(await inputOf(CAR), 'cut-list.csv')
      .split('\r\n')
      .slice(1, -1);
    const cells = rows.map((row) => row.replace(/"(?:[^"]|"")*"/g, 'quoted').split(',').length);
    expect(rows).toHaveLength(7);
    expect(new Set(cells).size).toBe(1);
  });
});
