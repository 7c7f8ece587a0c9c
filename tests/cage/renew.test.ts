import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseFile, StatementCache } from '../../grammar/parser';
import { buildCage, CageKeeper } from '../../server/cage/build';
import type { Cage } from '../../server/cage/cage';
import { BOOKS } from './cage-of';

const CAR = `cage "Kept"
rules fia-253, shop
vehicle { mass 980 kg without driver; body closed }
let h = 775
let far = h + 25
material cds { yield 360 MPa }
section hoop { od 45; wall 2.5; material cds }
section bar { od 38; wall 2.5 }
die d45 { od 45; radius 135; grip 90 }
plane hoop { at (0, 0, 118); leans 3 deg aft }
mirror left {
  node foot = in hoop (out 596, up 0)
  node crown = in hoop (out 455, up 1010)
  node stay-top = on main-hoop at 60 before crown
  node stay-foot = (-760, 520, 430)
  node bar-end = on main-hoop where z = h
  tube backstay as backstay { section bar; path stay-top, stay-foot }
  foot shoe { at foot; plate 140 x 100 x 3; lies 3 deg up out; bolts 3 x M8 }
  vent harness -> main-hoop { at bar-end; dia 5 }
}
adjust foot.right by (down 4)
tube main-hoop as main-rollbar { section hoop; die d45; path foot.left, crown.left, crown.right, foot.right }
tube harness as harness-bar { section bar; path bar-end.left, bar-end.right }
seat driver { hip (230, 345, 300); recline 15; slot-height 545; slot-spacing 220; back 45; shoulder (forward 110, out 3, up 35) }
strap outer-strap { seat driver; slot outer; to harness; at y = 385; width 75 }
joint bar-end.left { order main-hoop, harness }
welding { process tig; weld round }
mirror left {
  gusset web { at stay-top; between main-hoop, backstay; legs 120 x h / 10; thickness 1.5; kind sheet }
  hole main-hoop for drain { at foot; from h / 5; clock 30; dia 6 }
  padding backstay { thickness 25; from 0 to h / 4; standard fia 8857 }
  fitting pin { tube backstay first; kind clevis; bolt M10 8.8 }
  door front { outline (900, 700, 250), crown, (-150, 700, 250 + h / 10) }
}
seat-mount rails { seat driver; points 4; bolts 4 x M8 }
anchor belt as lap { seat driver; at (150, 555, h / 6); on harness }
panel skin as roof { outline crown.left, crown.right, (0, 0, h + 500) }
stock hoop { length 6000 price 84; length h * 4 price 40; have 1450, h }
stock bar { length 6000; price 52 }
saw { vice 120; kerf h / 400 }
torch { nozzle h / 50; reach 60; lean 20 deg }
waive strap.drop on outer-strap up to 14 deg because "measured"
node top = between crown.left and crown.right at 50 %
`;

/** Everything that a cage says, without the trees that it was read from. */
function flat(cage: Cage): unknown {
  const plain = (value: unknown): unknown =>
    JSON.parse(
      JSON.stringify(value, (key, part: unknown) => {
        if (key === 'statement') return (part as { offset: number }).offset;
        if (key === 'entry') return (part as { span: unknown }).span;
        return part;
      }),
    ) as unknown;
  const uses = cage.uses.map((use) => JSON.stringify(use)).sort();
  return {
    ...(plain({
      ...cage,
      things: 0,
      planes: 0,
      materials: 0,
      sections: 0,
      dies: 0,
      lets: 0,
      stocks: 0,
      uses: 0,
    }) as object),
    uses,
    maps: [cage.things, cage.planes, cage.materials, cage.sections, cage.dies, cage.lets, cage.stocks].map((map) =>
      plain([...map]),
    ),
  };
}

const sourcesOf = (text: string, cache?: StatementCache) => ({
  root: 'car.cage',
  trees: new Map([['car.cage', parseFile('car.cage', text, cache)]]),
  uses: new Map(),
  books: BOOKS,
});

/** One edit: so many characters at a share of the text become another piece. */
const edit = fc.record({
  where: fc.double({ min: 0, max: 1, noNaN: true }),
  cut: fc.nat({ max: 6 }),
  put: fc.oneof(
    fc.constantFrom(
      '',
      '1',
      '9',
      ' ',
      '\n',
      '5 mm',
      '# ',
      '}',
      '{',
      'h',
      'foot',
      '-',
      ';',
      'deg',
      ', ',
      '(',
      ')',
      'node z = (1, 2, 3)\n',
      '0',
      '.',
    ),
    fc.string({ maxLength: 4 }),
  ),
});

describe('a cage that is kept', () => {
  it('says after any edits what one built anew says', () => {
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 12 }), (edits) => {
        const keeper = new CageKeeper();
        const cache = new StatementCache();
        let text = CAR;
        keeper.build(sourcesOf(text, cache));
        for (const { where, cut, put } of edits) {
          const at = Math.floor(where * text.length);
          text = text.slice(0, at) + put + text.slice(at + cut);
          expect(flat(keeper.build(sourcesOf(text, cache)))).toEqual(flat(buildCage(sourcesOf(text))));
        }
      }),
      { numRuns: 60 },
    );
  });

  it('says after changes of figures what one built anew says', () => {
    const digits = [...CAR.matchAll(/\d+/g)].map((m) => m.index);
    fc.assert(
      fc.property(
        fc.array(fc.record({ which: fc.nat({ max: digits.length - 1 }), digit: fc.nat({ max: 9 }) }), {
          minLength: 1,
          maxLength: 10,
        }),
        (edits) => {
          const keeper = new CageKeeper();
          const cache = new StatementCache();
          let text = CAR;
          keeper.build(sourcesOf(text, cache));
          for (const { which, digit } of edits) {
            const at = digits[which] ?? 0;
            text = text.slice(0, at) + String(digit) + text.slice(at + 1);
            expect(flat(keeper.build(sourcesOf(text, cache)))).toEqual(flat(buildCage(sourcesOf(text))));
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('knows everything again when a slip of the pen, wherever it was, is taken back', () => {
    const first = flat(buildCage(sourcesOf(CAR)));
    const keeper = new CageKeeper();
    const cache = new StatementCache();
    keeper.build(sourcesOf(CAR, cache));
    for (let at = 0; at < CAR.length; at++) {
      keeper.build(sourcesOf(`${CAR.slice(0, at)}.${CAR.slice(at)}`, cache));
      const again = keeper.build(sourcesOf(CAR, cache));
      expect(again.findings.length, `after a dot at ${String(at)}`).toBe(0);
      if (at % 50 === 0) expect(flat(again)).toEqual(first);
    }
  });

  it('keeps all things that say the same when a statement comes or goes', () => {
    const keeper = new CageKeeper();
    const cache = new StatementCache();
    const first = keeper.build(sourcesOf(CAR, cache));
    const [foot] = [first.things.get('foot.right')];
    const more = keeper.build(sourcesOf(`node first-of-all = (1, 2, 3)\n${CAR}`, cache));
    for (const [name, thing] of first.things) expect(more.things.get(name)).toBe(thing);
    expect(more.things.size).toBe(first.things.size + 1);
    const moved = keeper.build(sourcesOf(CAR.replace('by (down 4)', 'by (down 5)'), cache));
    expect(moved.things.get('foot.left')).toBe(first.things.get('foot.left'));
    expect(moved.things.get('foot.right')).not.toBe(foot);
  });

  it('works out again only what hangs on the edit', () => {
    const keeper = new CageKeeper();
    const cache = new StatementCache();
    const first = keeper.build(sourcesOf(CAR, cache));
    keeper.takeRuns();
    const moved = keeper.build(sourcesOf(`# a line more\n${CAR}`, cache));
    expect(keeper.takeRuns()).toBe(0);
    expect(moved.things.get('driver')).toBe(first.things.get('driver'));
    const other = keeper.build(sourcesOf(CAR.replace('recline 15', 'recline 16'), cache));
    // The seat, the strap, the mounting and the anchor that hang on it, and the waiver that names the strap.
    expect(keeper.takeRuns()).toBe(5);
    expect(other.things.get('main-hoop')).toBe(first.things.get('main-hoop'));
    expect(other.things.get('driver')).not.toBe(first.things.get('driver'));
    // Worked out again, it says the same.
    expect(other.things.get('outer-strap')).toBe(first.things.get('outer-strap'));
  });
});
