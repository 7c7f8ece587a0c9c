/** The order of work: every step after what it needs, on samples, on random graphs, and what a shop would never do. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Step } from '../../../server/papers/order/graph';
import { shortNeeds, sortSteps } from '../../../server/papers/order/graph';
import { orderPapers, orderText } from '../../../server/papers/order/papers';
import * as steps from '../../../server/papers/order/plan';
import type { WorkStep } from '../../../server/papers/order/plan';
import { stepsOf } from '../../../server/papers/order/steps';
import { stretches } from '../../../server/papers/order/words';
import { outOfCarOf } from '../../../server/papers/weld/out';
import { drillingsOf } from '../../../server/papers/drill/holes';
import { crossesPanel } from '../../../server/papers/order/through';
import type { PacketInput } from '../../../server/papers/packet/paper';
import { inputOf, sampleInput } from '../bend/support';

const SAMPLES = ['plover-rollbar', 'siskin-club-bar', 'curlew-cage', 'every-finding'];

const idsOf = (input: PacketInput): readonly string[] => sortSteps(stepsOf(input)).order.map(({ id }) => id);

function expectSorted(order: readonly Step[]): void {
  const at = new Map(order.map(({ id }, i) => [id, i]));
  for (const [i, { id, needs }] of order.entries())
    for (const { on } of needs) {
      const place = at.get(on);
      if (place !== undefined) expect(place, `${id} after ${on}`).toBeLessThan(i);
    }
}

const s = (id: string, ...needs: string[]): Step => ({
  id,
  does: id,
  group: 'g',
  needs: needs.map((on) => ({ on, why: `${id} rests on ${on}` })),
});

describe('sorting', () => {
  it('keeps the given order wherever nothing has to wait', () => {
    expect(sortSteps([s('c'), s('a', 'd'), s('b'), s('d')]).order.map(({ id }) => id)).toEqual(['c', 'b', 'd', 'a']);
  });

  it('tells a circle with its links, and what waits behind it', () => {
    const { order, cycles, stuck } = sortSteps([s('free'), s('a', 'b'), s('b', 'c'), s('c', 'a'), s('last', 'c')]);
    expect(order.map(({ id }) => id)).toEqual(['free']);
    expect(cycles).toEqual([
      [
        { step: 'a', on: 'b', why: 'a rests on b' },
        { step: 'b', on: 'c', why: 'b rests on c' },
        { step: 'c', on: 'a', why: 'c rests on a' },
      ],
    ]);
    expect(stuck.map(({ id }) => id)).toEqual(['a', 'b', 'c', 'last']);
  });

  it('any graph: all needs before, nothing lost, every circle closed and its links real', () => {
    const graph = fc
      .integer({ min: 1, max: 30 })
      .chain((n) =>
        fc.array(fc.array(fc.integer({ min: 0, max: n - 1 }), { maxLength: 3 }), { minLength: n, maxLength: n }),
      );
    fc.assert(
      fc.property(graph, (needs) => {
        const all = needs.map((on, i) => s(String(i), ...on.map(String)));
        const { order, cycles, stuck } = sortSteps(all);
        expectSorted(order);
        expect(order.length + stuck.length).toBe(all.length);
        expect(cycles.length > 0).toBe(stuck.length > 0);
        const sorted = new Set(order.map(({ id }) => id));
        for (const { needs: of } of order) for (const { on } of of) expect(sorted.has(on)).toBe(true);
        for (const cycle of cycles)
          cycle.forEach((link, i) => {
            expect(all[Number(link.step)]?.needs.some(({ on }) => on === link.on)).toBe(true);
            expect(link.on).toBe(cycle[(i + 1) % cycle.length]?.step);
          });
      }),
      { numRuns: 300, seed: 7 },
    );
  });
});

it('needs that are left out because others imply them ask for the same order', () => {
  const graph = fc
    .integer({ min: 1, max: 25 })
    .chain((n) =>
      fc.tuple(...Array.from({ length: n }, (_, i) => fc.array(fc.nat(Math.max(0, i - 1)), { maxLength: 4 }))),
    );
  const reach = (needsOf: (id: string) => readonly string[], from: string): readonly string[] => {
    const seen = new Set(needsOf(from));
    for (const id of seen) for (const on of needsOf(id)) seen.add(on);
    return [...seen].sort();
  };
  let left = 0;
  fc.assert(
    fc.property(graph, (needs) => {
      const { order } = sortSteps(needs.map((on, i) => s(String(i), ...(i === 0 ? [] : on.map(String)))));
      const full = new Map(order.map((one) => [one.id, one.needs.map(({ on }) => on)]));
      const short = shortNeeds(order);
      for (const { id } of order) {
        const few = (one: string): readonly string[] => (short.get(one) ?? []).map(({ on }) => on);
        expect(reach(few, id)).toEqual(reach((one) => full.get(one) ?? [], id));
        left += new Set(full.get(id)).size - new Set(few(id)).size;
      }
    }),
    { numRuns: 200, seed: 3 },
  );
  expect(left).toBeGreaterThan(100);
});

it('writes numbers in a row as a stretch', () => {
  expect(stretches([3, 1, 2, 2, 7, 9, 8, 12, 13])).toBe('1 to 3, 7 to 9, 12, 13');
  expect(stretches([4], 'D')).toBe('D4');
  expect(stretches([5, 6, 7], 'D')).toBe('D5 to D7');
});

/** Tubes at random, each ended anywhere on those before it: the text in any order, feet and a seat here and there. */
const randomCar = fc
  .record({
    ends: fc.array(fc.tuple(fc.nat(9), fc.nat(9), fc.boolean()), { minLength: 1, maxLength: 6 }),
    seat: fc.boolean(),
    wall: fc.boolean(),
  })
  .map(({ ends, seat, wall }) => {
    const posts = [0, 1, 2].map(
      (i) => `node low-${String(i)} = (${String(i * 500)}, 300, 0)
node high-${String(i)} = (${String(i * 500)}, 300, 1200)
foot pad-${String(i)} { at low-${String(i)}; plate 120 x 100 x 3; lies square; bolts 3 x M8 }
tube post-${String(i)} as brace {
  section bar
  path low-${String(i)}, high-${String(i)}
}`,
    );
    const bars = ends.map(
      ([a, b, up], i) => `node in-${String(i)} = (0, 300, ${String(100 + a * 100)})
node out-${String(i)} = (${up ? '500' : '1000'}, 300, ${String(100 + b * 100)})
tube bar-${String(i)} as brace {
  section bar
  path in-${String(i)}, out-${String(i)}
}
vent bar-${String(i)} -> post-0 { at in-${String(i)}; dia 5 }`,
    );
    const more = [
      ...(seat ? ['seat driver { slots (100, 0, 600); slot-spacing 190 }'] : []),
      ...(wall
        ? ['panel wall as firewall { outline (700, -900, 0), (700, 900, 0), (700, 900, 1500), (700, -900, 1500) }']
        : []),
    ];
    return [
      'cage "Random"',
      'units mm',
      'section bar { od 40; wall 2 }',
      ...bars.reverse(),
      ...posts,
      ...more,
      '',
    ].join('\n');
  });

it('random cars: every need is a step and comes before; vents before what closes them, hosts before what is cut to them', async () => {
  let [copes, vents] = [0, 0];
  await fc.assert(
    fc.asyncProperty(randomCar, async (text) => {
      const input = await inputOf(text);
      const all = stepsOf(input);
      const ids = new Set(all.map(({ id }) => id));
      for (const { needs } of all) for (const { on } of needs) expect(ids.has(on), on).toBe(true);
      const { order, cycles, stuck } = sortSteps(all);
      expectSorted(order);
      expect(order.length + stuck.length).toBe(all.length);
      if (cycles.length > 0) {
        expect(orderText(input)).toContain('Circle 1');
        return;
      }
      vents += all.filter(({ id }) => id.startsWith('drill ')).length;
      const place = (id: (part: string) => string, part: string): number =>
        order.findIndex((one) => one.parts.includes(part) && one.id.startsWith(id('')));
      for (const part of input.shape.parts.values())
        for (const end of part.ends)
          if (end.fit === 'cope')
            for (const host of end.hosts) {
              copes++;
              expect(place(steps.tackId, host)).toBeLessThan(place(steps.copeId, part.name));
            }
    }),
    { numRuns: 25, seed: 11 },
  );
  // Otherwise nothing was looked at.
  expect(copes).toBeGreaterThan(50);
  expect(vents).toBeGreaterThan(20);
});

describe('the steps of a car', () => {
  for (const name of SAMPLES)
    it(`${name}: every need is a step, and comes before`, async () => {
      const input = await sampleInput(name);
      const all = stepsOf(input);
      const ids = new Set(all.map(({ id }) => id));
      expect(ids.size).toBe(all.length);
      const { order, cycles } = sortSteps(all);
      expectSorted(order);
      if (name !== 'every-finding') {
        for (const { needs } of all) for (const { on } of needs) expect(ids.has(on), on).toBe(true);
        expect(cycles).toEqual([]);
        expect(order).toHaveLength(all.length);
      }
      // Level first, all welding before paint: common practice, no source.
      const at = (id: string): number => order.findIndex((one) => one.id === id);
      expect(at(steps.MEASURE)).toBe(0);
      for (const [i, { group }] of order.entries())
        if (group === steps.GROUPS.weld || group === steps.GROUPS.out) {
          if (at(steps.PAINT) >= 0) expect(i).toBeLessThan(at(steps.PAINT));
          expect(i).toBeGreaterThan(at(steps.TAPE));
        }
      expect(orderText(input)).toBe(orderText(await sampleInput(name)));
    });

  it('the roll bar: seat, height, bend, cope, hosts, vents, tape, weld, paint', async () => {
    const ids = idsOf(await sampleInput('plover-rollbar'));
    const before = (...chain: string[]): void => {
      const places = chain.map((id) => ids.indexOf(id));
      expect(places, chain.join(' < ')).not.toContain(-1);
      expect([...places].sort((a, b) => a - b)).toEqual(places);
    };
    before(steps.MEASURE, steps.SEATS, steps.BAR_HEIGHT, steps.copeId('harness-bar'));
    before(
      steps.bendId('main-hoop'),
      steps.copeId('main-hoop'),
      steps.tackId('main-hoop'),
      steps.copeId('harness-bar'),
    );
    before(steps.copeId('backstay.left'), steps.fitId('backstay.left'), steps.tackId('backstay.left'), steps.TAPE);
    before(
      steps.drillId('harness-bar'),
      steps.tackId('harness-bar'),
      steps.TAPE,
      // Seats are in to be taped by, and out before sparks fly: common practice, no source.
      steps.SEATS_OUT,
      steps.WELD,
      steps.WELDED,
      steps.PAINT,
    );
  });

  it('is Markdown with boxes, numbered, with the hash and the reasons', async () => {
    const input = await sampleInput('plover-rollbar');
    const [paper] = orderPapers(input);
    const text = String(paper?.content);
    const boxes = text.match(/^- \[ \] \*\*(\d+)\.\*\*/gm) ?? [];
    expect(boxes).toHaveLength(stepsOf(input).length);
    expect(text).toContain(input.hash.slice(0, 16));
    expect(text).toContain('bend before cope');
    expect(text).not.toContain('STOP');
  });
});

/** Where a step of that sort for that part stands in the order; -1: there is none. */
const placeOf = (order: readonly WorkStep[], id: (part: string) => string, part: string): number =>
  order.findIndex((one) => one.id.startsWith(id('')) && one.parts.includes(part));

/** A bar as odd as can be: every kind of hole, a gusset, plates of all sorts, an old tube, a fitting, anchors. */
const ODD = `cage "Odd"
units mm
section bar { od 40; wall 2.5 }
die d { od 40; radius 120; grip 80 }
mirror left {
  node low = (0, 500, 0)
  node top = (0, 500, 900)
  node back = (-700, 450, 0)
  node half = (0, 500, 450)
  node high = (0, 500, 700)
  node stub-end = (300, 500, 450)
  foot pad { at low; plate 140 x 100 x 3; lies square; bolts 3 x M8; bolts-at (50, 20), (50, -20), (-50, 0); hole 8 }
  foot heel { at back; plate 120 x 90 x 3; lies square; welded yes; counter-plate 120 x 90 x 3 welded }
  tube stay { section bar; path high, back }
  vent stay -> hoop { at high; dia 5 }
  hole hoop for inspection { at half; from 90; clock 90; dia 5 }
  hole stay for drain { at back; from 80; dia 4 }
  tube stub { section bar; path half, stub-end; last open }
  vent stub -> hoop { at half; dia 6 }
  fitting pin { tube stub first; kind lug; bolt 2 x M10 10.9 }
  gusset web { at high; between hoop, stay; legs 80 x 80; thickness 2; kind sheet; hole 20 }
}
tube hoop as main-rollbar { section bar; die d; path low.left, top.left, top.right, low.right }
node old-low = (900, 0, 0)
node old-high = (900, 0, 700)
tube old { section bar; path old-low, old-high; existing yes; first open; last open }
hole old for bolt { from 100; dia 9 }
seat chair { hip (300, 0, 200); recline 15 deg; slot-height 500; slot-spacing 200; back 40 }
seat-mount rails { seat chair; points 4; bolts 4 x M8 }
anchor belt as lap { seat chair; at (100, 300, 0); bolt 1 x M10 }
`;

describe('holes', () => {
  for (const [name, get] of [
    ...SAMPLES.map((one) => [one, () => sampleInput(one)] as const),
    ['an odd car', () => inputOf(ODD)] as const,
  ])
    it(`${name}: every hole of the drill list is drilled in one step`, async () => {
      const input = await get();
      const drilled = stepsOf(input).flatMap(({ holes }) => holes);
      const wanted = drillingsOf(input).map((_, i) => `D${String(i + 1)}`);
      expect([...drilled].sort()).toEqual(wanted.sort());
    });

  it('in plates before they are bolted, in tubes after bending and before fitting, in the car before the cage', async () => {
    const input = await inputOf(ODD);
    const { order, cycles } = sortSteps(stepsOf(input));
    expect(cycles).toEqual([]);
    expectSorted(order);
    const sorts = new Map(order.flatMap(({ id, holes }) => holes.map((hole) => [hole, id] as const)));
    // The odd car has all of them: otherwise nothing was looked at.
    expect(new Set([...sorts.values()].map((id) => id.split(' ')[0]))).toEqual(
      new Set(['plate', 'bench', 'drill', 'gussets', 'car-holes']),
    );
    const at = (id: string): number => order.findIndex((one) => one.id === id);
    expect(at(steps.plateId('pad.left'))).toBeLessThan(at(steps.footId('pad.left')));
    expect(at(steps.bendId('hoop'))).toBeLessThan(at(steps.benchId('hoop')));
    expect(at(steps.benchId('hoop'))).toBeLessThan(at(steps.fitId('hoop')));
    expect(at(steps.CAR_HOLES)).toBeLessThan(at(steps.fitId('hoop')));
    expect(at(steps.fitId('stub.left'))).toBeLessThan(at(steps.drillId('stub.left')));
    expect(at(steps.drillId('stub.left'))).toBeLessThan(at(steps.tackId('stub.left')));
    // A gusset covers the joint: cut to the tacked corner, welded in after it. Common practice, no source.
    const chain = [steps.tackId('stay.left'), steps.GUSSETS, steps.WELD, steps.WELD_GUSSETS, steps.WELDED].map(at);
    expect(chain).not.toContain(-1);
    expect([...chain].sort((a, b) => a - b)).toEqual(chain);
    const text = orderText(input);
    expect(text).toContain('Weld plates heel (both sides) to the car; weld the counter-plates of heel (both sides)');
    expect(text).toContain('Measure what is in the car already: old');
  });
});

describe('readable', () => {
  it('twins and the pieces of a split tube share their steps; the cage of 42 tubes fits on a few sheets', async () => {
    const input = await sampleInput('curlew-cage');
    const { order } = sortSteps(stepsOf(input, outOfCarOf(input)));
    const made = [...input.shape.parts.values()].filter(({ tube }) => !tube.existing);
    for (const part of made) {
      const cut = order.filter(({ id, parts }) => id.startsWith('cope ') && parts.includes(part.name));
      expect(cut).toHaveLength(1);
      const base = made.filter(({ tube }) => tube.base === part.tube.base).map(({ name }) => name);
      expect(cut[0]?.parts).toEqual(base);
      for (const id of [steps.copeId, steps.fitId, steps.tackId])
        expect(placeOf(order, id, part.name)).toBeGreaterThanOrEqual(0);
    }
    expect(order.length).toBeLessThan(150);
    // No two steps say the same.
    const said = order.map(({ about, does }) => `${about ?? ''}: ${does}`);
    expect(new Set(said).size).toBe(said.length);
    // Out of the car before in the car, by the torch that does not get round below the roof.
    const out = order.filter(({ group }) => group === steps.GROUPS.out);
    expect(out.length).toBeGreaterThan(0);
    const inCar = order.findIndex(({ id }) => id === steps.WELD);
    for (const one of out) expect(order.indexOf(one)).toBeLessThan(inCar);
    expect(order.findIndex(({ id }) => id === steps.TAPE)).toBeLessThan(order.indexOf(out[0] as WorkStep));
  });

  it('a twin that is cut to its twin stands for itself, and the other one comes first', async () => {
    const input = await inputOf(`cage "Cut to each other"
units mm
section bar { od 40; wall 2 }
mirror left {
  node low = (0, 400, 0)
  node end = (0, 0, 600)
  tube leg { section bar; path low, end }
  foot pad { at low; plate 100 x 100 x 3; lies square }
}
joint end order leg.left, leg.right
`);
    const { order, cycles } = sortSteps(stepsOf(input));
    expect(cycles).toEqual([]);
    const cut = [...input.shape.parts.values()].filter(({ ends }) => ends.some(({ fit }) => fit === 'cope'));
    expect(cut).toHaveLength(1);
    const [child] = cut;
    const host = child?.name === 'leg.left' ? 'leg.right' : 'leg.left';
    expect(order.find(({ id }) => id === steps.copeId(host))?.parts).toEqual([host]);
    expect(placeOf(order, steps.tackId, host)).toBeLessThan(placeOf(order, steps.copeId, child?.name ?? ''));
  });

  it('says what all steps of a heading wait for once, and stops at what an error touches', async () => {
    const text = orderText(await inputOf(ODD));
    expect(text.match(/their place in the car has to be known/g)).toHaveLength(1);
    expect(text).not.toContain('STOP');
    const broken = orderText(await inputOf(ODD.replace('node half = (0, 500, 450)', 'node half = (0, 500, nought)')));
    expect(broken).toMatch(/^- \[ \] \*\*\d+\.\*\* \*\*STOP, an error is open:\*\* /m);
  });

  it('an empty file has nothing to build', async () => {
    for (const text of ['', 'cage "x"', 'node a = (0, 0, 0)']) {
      const input = await inputOf(text);
      expect(stepsOf(input)).toEqual([]);
      expect(orderText(input)).toContain('Nothing is built');
    }
  });
});

/** Three bars, each ending on the next one's side: none can be there first. */
const ROUND = `cage "Round"
units mm
section bar { od 30; wall 2 }
node a-from = (500, 866.025404, 0)
node a-to = (0, 0, 0)
node b-from = (-600, 0, 0)
node b-to = (400, 0, 0)
node c-from = (700, -519.615242, 0)
node c-to = (200, 346.410162, 0)
tube a { section bar; path a-from, a-to; first open }
tube b { section bar; path b-from, b-to; first open }
tube c { section bar; path c-from, c-to; first open }
`;

it('three bars that end on each other in a ring: the page tells the circle with its links, then what can be done', async () => {
  const input = await inputOf(ROUND);
  const hosts = [...input.shape.parts.values()].map(({ name, ends }) => `${name} ${ends[1].hosts.join()}`);
  expect(hosts).toEqual(['a b', 'b c', 'c a']);
  const { cycles, order } = sortSteps(stepsOf(input));
  expect(cycles).toHaveLength(1);
  const links = (cycles[0] ?? []).map(({ step, on }) => `${step} -> ${on}`);
  // Each waits for the tack of its host, that for its fit, that for its cut.
  expect(links).toHaveLength(9);
  for (const [child, host] of ['ab', 'bc', 'ca'])
    for (const link of [
      `${steps.copeId(child ?? '')} -> ${steps.tackId(host ?? '')}`,
      `${steps.tackId(host ?? '')} -> ${steps.fitId(host ?? '')}`,
      `${steps.fitId(host ?? '')} -> ${steps.copeId(host ?? '')}`,
    ])
      expect(links).toContain(link);
  expect(order.map(({ id }) => id)).toEqual([steps.MEASURE]);
  const text = orderText(input);
  expect(text).toContain('## STOP: steps that wait for one another');
  expect(text).toContain('waits for "02 b: Tack": cut to 02 b as that stands');
  expect(text).toContain('Write in the file which tube runs through');
  expect(text).toContain('Waiting behind a circle, in no order:\n\n- Tape all again');
  expect(text.match(/^- \[ \]/gm)).toHaveLength(1);
});

it('a stretch goes through a face inside its edge only', () => {
  const face = [
    [0, -1, -1],
    [0, 1, -1],
    [0, 1, 1],
    [0, -1, 1],
  ] as const;
  expect(crossesPanel([-1, 0.5, 0.5], [1, 0.5, 0.5], face)).toBe(true);
  expect(crossesPanel([-1, -0.5, 0.9], [1, -0.5, 0.9], face)).toBe(true);
  expect(crossesPanel([-1, 1.5, 0], [1, 1.5, 0], face)).toBe(false);
  expect(crossesPanel([1, 0, 0], [2, 0, 0], face)).toBe(false);
  expect(crossesPanel([-1, 0, 0], [1, 0, 0], face.slice(0, 2))).toBe(false);
});

/** A bar on two feet through a firewall at x = 600; the foot in front of it lies beyond. */
const FIREWALL = `cage "Through"
section bar { od 40; wall 2 }
node back = (0, 300, 300)
node front = (1200, 300, 300)
tube brace as brace {
  section bar
  path back, front
}
foot rear {
  at back
  plate 100 x 100 x 3
  lies square
}
foot nose {
  at front
  plate 100 x 100 x 3
  lies square
  bolts 3 x M8
}
panel bulkhead as firewall { outline (600, 800, 0), (600, -800, 0), (600, -800, 900), (600, 800, 900) }
`;

it('a brace goes through the firewall before its far pad is set, and the near one does not wait', async () => {
  const input = await inputOf(FIREWALL);
  const all = stepsOf(input);
  const waits = (id: string): readonly string[] => all.find((one) => one.id === id)?.needs.map(({ on }) => on) ?? [];
  expect([...input.shape.parts.keys()]).toContain('brace');
  expect(waits(steps.fitId('brace'))).toContain(steps.passId('brace'));
  const feet = ['rear', 'nose'].filter((name) => waits(steps.footId(name)).includes(steps.passId('brace')));
  expect(feet).toEqual(['nose']);
  expect(waits(steps.footId('nose'))).toContain(steps.plateId('nose'));
});
