/** The model as data: units, rounding, nulls, names; figures against arithmetic and tables from outside. */
import { describe, expect, it } from 'vitest';
import { findingsJson, modelJson, rounded } from '../../server/project/describe';
import { modelText } from '../../server/project/describe-text';
import { rangesOf } from '../../server/cli/ranges';
import type { Analysis } from '../../server/project/project';
import { GOOD, UNVENTED } from '../cli/world';
import { analyse } from '../support/analyse';

const model = (analysis: Analysis) => modelJson(analysis, rangesOf([analysis]));

describe('rounding', () => {
  it('is to 1e-6, and knows no -0 and no infinity', () => {
    expect(rounded(1.23456789)).toBe(1.234568);
    expect(Object.is(rounded(-1e-9), 0)).toBe(true);
    expect(Object.is(rounded(-0), 0)).toBe(true);
    expect(rounded(Number.NaN)).toBeNull();
    expect(rounded(Infinity)).toBeNull();
    expect(rounded(null)).toBeNull();
    expect(rounded(1e300)).toBe(1e300);
  });
});

describe('the model', () => {
  it('carries sticks, saw and torch: null or empty where nothing is told', async () => {
    const bare = model(await analyse('cage "x"'));
    expect([bare.stocks, bare.saw, bare.torch]).toEqual([[], null, null]);
    const told = model(
      await analyse(`cage "x"
units in
section s { od 1.5; wall 0.095 }
stock s { length 20 ft price 61.5; length 10 ft; have 36, 40 }
saw { kerf 1/8; reach 60 deg }
torch { nozzle 5/8; reach 2.5; lean 20 deg }`),
    );
    // The foot is 304.8 mm, the inch 25.4 mm (international yard and pound agreement, 1959).
    expect(told.stocks).toEqual([
      {
        section: 's',
        sold: [
          { length: 6096, price: 61.5 },
          { length: 3048, price: null },
        ],
        have: [914.4, 1016],
        unread: false,
      },
    ]);
    expect(told.saw).toEqual({ vice: null, kerf: 3.175, reach: 60 });
    expect(told.torch).toEqual({ nozzle: 15.875, reach: 63.5, stickOut: null, lean: 20 });
  });

  it('lists what stands round the tubes, on both sides, and the facts of the car', async () => {
    const data = model(
      await analyse(`cage "x"
rules shop
vehicle { mass 1000 lb with driver; body open; homologated "2006"; cage asn; elapsed-time 11.49; finish powder }
section s { od 38; wall 2.5 }
mirror left {
  node a = (0, 500, 0)
  node b = (0, 500, 900)
  node c = (0, 500, 400)
  node d = (-400, 500, 400)
  tube post { section s; path a, b; last open }
  tube stay { section s; path c, d; last open }
  foot shoe { at a; plate 140 x 100 x 3; bolts 2 x M8 8.8; bolts-at (50, 10), (-50, 10); counter-plate 160 x 120 x 3 bonded; hole 8 }
  gusset web { at c; between post, stay; legs 100 x 90; thickness 1.5; kind flat }
  hole post for inspection { at b; from 200; clock -90; dia 3/16 in }
  padding stay { thickness 1 in; from 100 to 300; standard sfi 45.2 }
  fitting pin { tube stay first; kind lug; bolt 2 x M10 10.9 }
  door front { outline (900, 700, 250), (-150, 700, 250), (-150, 650, 900) }
}
panel skin as roof { outline (0, 0, 1200), (100, 0, 1200) }
seat chair { hip (0, 0, 200); recline 10 to 20 deg; slide 0 to 2 in; slot-height 500; slot-spacing 200; back 40; helmet (forward 50, up 250) radius 150 }
seat-mount rails { seat chair; points 4; plate 80 x 60 x 3; load 1000 lbf }
anchor belt as crotch { seat chair; at (100, 0, 100); fixing bolt }`),
    );
    expect(data.vehicle).toMatchObject({ withDriver: true, homologated: '2006-01-01', cage: 'asn', finish: 'powder' });
    // 1 lb = 0.45359237 kg, 1 lbf = 4.4482216 N (international pound, standard gravity).
    expect(data.vehicle?.mass).toBeCloseTo(453.59237, 6);
    expect(data.seatMounts[0]?.load).toBeCloseTo(4448.221615, 6);
    expect(data.feet.map(({ name, boltsAt, counterPlate }) => [name, boltsAt?.[0], counterPlate?.held])).toEqual([
      ['shoe.left', { forward: 50, left: 10 }, 'bonded'],
      ['shoe.right', { forward: 50, left: -10 }, 'bonded'],
    ]);
    expect(data.gussets.map(({ between }) => between)).toEqual([
      ['post.left', 'stay.left'],
      ['post.right', 'stay.right'],
    ]);
    expect(data.holes.map(({ station, clock, dia }) => [station, clock, dia])).toEqual([
      [700, 270, 4.7625],
      [700, 90, 4.7625],
    ]);
    expect(data.padding[0]).toMatchObject({
      tube: 'stay.left',
      thickness: 25.4,
      from: 100,
      to: 300,
      standard: 'sfi-45.2',
    });
    expect(data.fittings[1]).toMatchObject({
      tube: 'stay.right',
      end: 'first',
      kind: 'lug',
      bolt: { count: 2, grade: 10.9 },
    });
    expect(data.doors[1]?.outline?.[0]).toEqual([900, -700, 250]);
    expect(data.panels).toEqual([
      {
        name: 'skin',
        as: 'roof',
        outline: [
          [0, 0, 1200],
          [100, 0, 1200],
        ],
      },
    ]);
    expect(data.anchors[0]).toMatchObject({ as: 'crotch', at: [100, 0, 100], tube: null, fixing: 'bolt', load: null });
    expect(data.seats[0]).toMatchObject({ recline: { from: 10, to: 20 }, slide: { from: 0, to: 50.8 } });
    // The slots are 500 up the back line, at its first angle; the helmet's middle 50 before and 250 above them.
    const lean = (10 * Math.PI) / 180;
    expect(data.seats[0]?.helmet?.middle?.[0]).toBeCloseTo(50 - 500 * Math.sin(lean), 6);
    expect(data.seats[0]?.helmet?.middle?.[2]).toBeCloseTo(200 + 500 * Math.cos(lean) + 250, 6);
  });

  it('lists nodes, tubes, ends and spaces of a plain car, with figures that can be worked out by hand', async () => {
    const data = model(await analyse(GOOD));
    expect(data).toMatchObject({ format: 'cagewright-model', version: 1, title: 'Two posts and a rail', findings: [] });
    expect(data.nodes.map((node) => node.name)).toEqual(['a', 'b', 'c', 'd', 'e', 'f']);
    expect(data.nodes[4]).toEqual({ name: 'e', at: [0, 300, 500] });
    const rail = data.tubes.find((tube) => tube.name === 'rail');
    expect(rail).toMatchObject({
      role: 'transverse',
      existing: false,
      nodes: ['e', 'f'],
      bends: [],
      centrelineLength: 600,
    });
    const [first] = rail?.ends ?? [];
    expect(first).toMatchObject({
      which: 'first',
      node: 'e',
      fit: 'cope',
      hosts: ['left-post'],
      clockName: 'TOP',
      clockZero: [0, 0, 1],
      bendInsideClock: null,
      includedAngle: 90,
      offset: 0,
      sawAngle: null,
      sawClock: null,
    });
    // Square onto a larger tube, closed form: s = sqrt(R² - (ρ sin φ)²), R = 22.5, outside 19, inside 16.5.
    expect(first?.ordinates).toHaveLength(36);
    expect(first?.ordinates.map((ordinate) => ordinate.clock)).toEqual(Array.from({ length: 36 }, (_, i) => 10 * i));
    for (const { clock, outer, inner, cut } of first?.ordinates ?? []) {
      const sine = Math.sin(((clock ?? 0) * Math.PI) / 180);
      expect(outer).toBeCloseTo(Math.sqrt(22.5 ** 2 - (19 * sine) ** 2), 5);
      expect(inner).toBeCloseTo(Math.sqrt(22.5 ** 2 - (16.5 * sine) ** 2), 5);
      expect(cut).toBeCloseTo(inner ?? 0, 5);
    }
    expect(first?.depth).toBeCloseTo(22.5 - Math.sqrt(22.5 ** 2 - 16.5 ** 2), 5);
    // Mass per metre of 38 x 2.5 steel: 0.02466 (od - wall) wall = 2.19 kg/m, as the tables of round tube have it
    // (EN 10305, from memory), and in pounds a foot 10.68 (od - wall) wall in inches.
    expect(rail?.section?.massPerMetre).toBeCloseTo(2.19, 2);
    const pounds = (10.68 * ((38 - 2.5) / 25.4) * 2.5) / 25.4;
    expect(rail?.section?.massPerMetre).toBeCloseTo(pounds * 1.48816, 2);
    expect(rail?.mass).toBeCloseTo(0.6 * (rail?.section?.massPerMetre ?? 0), 6);
    expect(data.mass).toBeCloseTo(
      data.tubes.reduce((sum, tube) => sum + (tube.mass ?? 0), 0),
      5,
    );
    expect(data.spaces).toEqual([
      { tubes: ['left-post', 'rail'], vented: true },
      { tubes: ['right-post'], vented: true },
    ]);
  });

  it('carries the side of names that exist twice, and the pieces of a split tube', async () => {
    const data = model(
      await analyse(`cage "x"
section s { od 38; wall 2.5 }
mirror left {
  node low = (0, 400, 0)
  node high = (0, 400, 800)
  tube post { section s; path low, high; first open; last open }
}
tube long { section s; path low.left, high.right }
tube short { section s; path low.right, high.left; split by long }
`),
    );
    expect(data.nodes.map((node) => node.name)).toEqual(['low.left', 'low.right', 'high.left', 'high.right']);
    expect(data.tubes.map((tube) => tube.name)).toEqual(['post.left', 'post.right', 'long', 'short.a', 'short.b']);
    expect(data.tubes[3]?.nodes).toEqual(['low.right', null]);
    expect(data.tubes[4]?.nodes).toEqual([null, 'high.left']);
  });

  it('says null where nothing can be computed, and lists what is broken', async () => {
    const data = model(
      await analyse(
        `cage "x"\nnode a = (0, 0, oops)\ntube t { section none; path a, b }\nseat s { }\nstrap b { seat s; slot left; to t }\n`,
      ),
    );
    expect(data.nodes).toEqual([{ name: 'a', at: null }]);
    expect(data.tubes).toHaveLength(1);
    expect(data.tubes[0]).toMatchObject({
      name: 't',
      section: null,
      centrelineLength: null,
      cutLength: null,
      stickLength: null,
      mass: null,
    });
    expect(data.seats).toMatchObject([{ name: 's', gap: null, to: null, barGap: null, helmet: null }]);
    expect(data.straps[0]).toMatchObject({
      name: 'b',
      seat: 's',
      tube: 't',
      start: null,
      drop: null,
      spread: null,
      length: null,
      freeRun: null,
      crossed: false,
    });
    expect(data.findings.length).toBeGreaterThan(0);
  });

  it('is in millimetres and degrees whatever the file is written in', async () => {
    const inches = GOOD.replace('cage', 'units in\ncage').replace(/\d+(\.\d+)?(?=[,;) ])/g, (text) =>
      String(Number(text) / 25.4),
    );
    const [one, two] = [model(await analyse(GOOD)), model(await analyse(inches))];
    expect(two.tubes.map((tube) => tube.cutLength)).toEqual(
      one.tubes.map((tube) => expect.closeTo(tube.cutLength ?? 0, 4)),
    );
    expect(two.nodes[4]?.at).toEqual([0, expect.closeTo(300, 4), expect.closeTo(500, 4)]);
  });
});

describe('findings', () => {
  it('are sorted by file, start, code and subject, with their places', async () => {
    const analysis = await analyse(UNVENTED.replace('section post;', 'section pots;'));
    const data = findingsJson([analysis], rangesOf([analysis]));
    expect(data).toMatchObject({ format: 'cagewright-findings', version: 1, waivers: [] });
    expect(data.findings.map((finding) => finding.code)).toContain('name.unknown');
    const starts = data.findings.map((finding) => finding.range.start.line * 10_000 + finding.range.start.character);
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
    for (const finding of data.findings) {
      expect(finding.file).toBe('example.cage');
      expect(finding.message).not.toMatch(/\{\w+[#~]?\}|undefined|NaN/);
    }
  });

  it('are the same in the model', async () => {
    const analysis = await analyse(UNVENTED);
    expect(model(analysis).findings).toEqual(findingsJson([analysis], rangesOf([analysis])).findings);
  });
});

describe('the build sheet', () => {
  it('reads like one', async () => {
    const text = modelText(await analyse(GOOD));
    expect(text.split('\n').slice(0, 2)).toEqual([
      'Two posts and a rail',
      'Lengths in mm, angles in degrees, masses in kg.',
    ]);
    expect(text).toContain('TUBE rail: transverse, rail 38.0 x 2.5, 1.31 kg');
    expect(text).toContain('  first end at e: coped to left-post');
    // 22.5 - sqrt(22.5² - 16.5²) = 7.2; a third of 38 is 12.7.
    expect(text).toContain(
      'included angle 90.0°, offset 0.0, depth 7.2 (a third of the diameter, 12.7, is 5.5 too much)',
    );
    expect(text).toContain('SPACE left-post, rail: vented');
    expect(text).toContain('the current printed rulebook, the scrutineer and licensed practice decide');
  });

  it('is in the unit of the file', async () => {
    const text = modelText(await analyse(`units in\n${GOOD.replaceAll('od 45; wall 2.5', 'od 1 3/4; wall .095')}`));
    expect(text).toContain('Lengths in inches,');
    expect(text).toContain('post 1.750 x 0.095');
  });
});
