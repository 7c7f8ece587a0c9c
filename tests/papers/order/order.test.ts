/** The order of work: every step after what it needs, on samples, on random graphs, and what a shop would never do. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Step } from '../../../server/papers/order/graph';
import { sortSteps } from '../../../server/papers/order/graph';
import { orderPapers, orderText } from '../../../server/papers/order/papers';
import * as steps from '../../../server/papers/order/steps';
import { crossesPanel } from '../../../server/papers/order/through';
import type { PacketInput } from '../../../server/papers/packet/paper';
import { inputOf, sampleInput } from '../bend/support';

const SAMPLES = ['plover-rollbar', 'siskin-club-bar', 'curlew-cage', 'every-finding'];

const idsOf = (input: PacketInput): readonly string[] => sortSteps(steps.stepsOf(input)).order.map(({ id }) => id);

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
      const all = steps.stepsOf(input);
      const ids = new Set(all.map(({ id }) => id));
      for (const { needs } of all) for (const { on } of needs) expect(ids.has(on), on).toBe(true);
      const { order, cycles, stuck } = sortSteps(all);
      expectSorted(order);
      expect(order.length + stuck.length).toBe(all.length);
      if (cycles.length > 0) {
        expect(orderText(input)).toContain('Circle 1');
        return;
      }
      const at = new Map(order.map(({ id }, i) => [id, i]));
      vents += all.filter(({ id }) => id.startsWith('vent ')).length;
      for (const part of input.shape.parts.values())
        for (const end of part.ends)
          if (end.fit === 'cope')
            for (const host of end.hosts) {
              copes++;
              expect(at.get(steps.tackId(host))).toBeLessThan(at.get(steps.copeId(part.name)) ?? -1);
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
      const all = steps.stepsOf(input);
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
    before(steps.TAPE, steps.weldId('harness-bar'), steps.WELDED, steps.PAINT);
  });

  it('is Markdown with boxes, numbered, with the hash and the reasons', async () => {
    const input = await sampleInput('plover-rollbar');
    const [paper] = orderPapers(input);
    const text = String(paper?.content);
    const boxes = text.match(/^- \[ \] \*\*(\d+)\.\*\*/gm) ?? [];
    expect(boxes).toHaveLength(steps.stepsOf(input).length);
    expect(text).toContain(input.hash.slice(0, 16));
    expect(text).toContain('bend before cope');
    expect(text).not.toContain('STOP');
  });
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
  const all = steps.stepsOf(input);
  const waits = (id: string): readonly string[] => all.find((one) => one.id === id)?.needs.map(({ on }) => on) ?? [];
  expect([...input.shape.parts.keys()]).toContain('brace');
  expect(waits(steps.fitId('brace'))).toContain(steps.passId('brace'));
  const feet = ['rear', 'nose'].filter((name) => waits(steps.footId(name)).includes(steps.passId('brace')));
  expect(feet).toEqual(['nose']);
  expect(waits(steps.footId('nose'))).toContain(steps.plateId('nose'));
});
