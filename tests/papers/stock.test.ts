/** Stock: published instances with a known optimum, brute force on small ones, and never behind first fit decreasing. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layOut } from '../../server/papers/stock/lay-out';
import type { Layout, Piece, Supply } from '../../server/papers/stock/stock';

const pieces = (list: readonly (readonly [length: number, count: number])[]): Piece[] =>
  list.flatMap(([length, count], i) =>
    Array.from({ length: count }, (_, k) => ({ name: `p${String(i)}.${String(k)}`, length })),
  );
const supply = (length: number, kerf = 0, have: readonly number[] = []): Supply => ({
  sold: [{ length, price: null }],
  have,
  kerf,
});

/** Everything is cut once, from sticks that are long enough; offcuts only as often as they are there. */
function sound(list: readonly Piece[], from: Supply, layout: Layout): void {
  const cut = layout.sticks.flatMap((stick) => stick.pieces);
  expect([...cut, ...layout.tooLong].map(({ name }) => name).sort()).toEqual(list.map(({ name }) => name).sort());
  for (const { pieces: on, length } of layout.sticks) {
    const need = on.reduce((sum, one) => sum + one.length, 0) + from.kerf * (on.length - 1);
    expect(need).toBeLessThanOrEqual(length + 1e-9);
  }
  for (const have of new Set(from.have)) {
    const used = layout.sticks.filter(({ bought, length }) => !bought && length === have).length;
    expect(used).toBeLessThanOrEqual(from.have.filter((one) => one === have).length);
  }
}

/** First fit decreasing, written again on its own: sticks that it buys. */
function firstFitCount(list: readonly Piece[], length: number, kerf: number): number {
  const free: number[] = [];
  for (const piece of [...list].sort((a, b) => b.length - a.length)) {
    const at = free.findIndex((room) => room >= piece.length + kerf - 1e-9);
    if (at < 0) free.push(length + kerf - piece.length - kerf);
    else free[at] = (free[at] ?? 0) - piece.length - kerf;
  }
  return free.length;
}

/** The fewest sticks, by trying every piece in every stick. */
function fewest(list: readonly number[], length: number, kerf: number): number {
  const sorted = [...list].sort((a, b) => b - a);
  let best = sorted.length;
  const free: number[] = [];
  const place = (k: number): void => {
    if (free.length >= best) return;
    const piece = sorted[k];
    if (piece === undefined) {
      best = free.length;
      return;
    }
    const tried = new Set<number>();
    for (let i = 0; i < free.length; i++) {
      const room = free[i] ?? 0;
      if (room < piece + kerf || tried.has(room)) continue;
      tried.add(room);
      free[i] = room - piece - kerf;
      place(k + 1);
      free[i] = room;
    }
    free.push(length - piece);
    place(k + 1);
    free.pop();
  };
  place(0);
  return best;
}

describe('published instances', () => {
  // The paper-mill example of the article "Cutting stock problem", Wikipedia (rolls of 5600 mm, 13 widths, 219 pieces; the
  // known optimum is 73 rolls; the figures are from memory of the article).
  it('cuts the thirteen widths from 73 rolls of 5600', () => {
    const list = pieces([
      [1380, 22],
      [1520, 25],
      [1560, 12],
      [1710, 14],
      [1820, 18],
      [1880, 18],
      [1930, 20],
      [2000, 10],
      [2050, 12],
      [2100, 14],
      [2140, 16],
      [2150, 18],
      [2200, 20],
    ]);
    const layout = layOut(list, supply(5600));
    sound(list, supply(5600), layout);
    expect(layout).toMatchObject({ bought: 73, bound: 73, proven: true, tooLong: [] });
  });
});

describe('instances of textbooks and papers', () => {
  // Chvátal, Linear Programming (1983), chapter 13: rolls of 100 in, 97 of 45, 610 of 36, 395 of 31, 211 of 14; the
  // relaxation is 452.25, the optimum 453 (from memory).
  it('cuts 1313 finals from 453 raws of 100', () => {
    const list = pieces([
      [45, 97],
      [36, 610],
      [31, 395],
      [14, 211],
    ]);
    const layout = layOut(list, supply(100));
    sound(list, supply(100), layout);
    expect(layout).toMatchObject({ bought: 453, bound: 453, proven: true });
  });

  // Triplets, as Falkenauer makes them (A Hybrid Grouping Genetic Algorithm for Bin Packing, Journal of Heuristics 2, 1996;
  // the construction from memory): bins of 1000, each filled to the last unit by three pieces, the first from 380 to 490,
  // the second from 250 up. The optimum is the number of triplets; none wastes anything.
  const triplets = (count: number, seed: number): Piece[] => {
    let state = seed;
    const next = (): number => (state = (state * 1664525 + 1013904223) % 2 ** 32) / 2 ** 32;
    return Array.from({ length: count }, (_, i) => {
      const a = 380 + Math.floor(next() * 111);
      const b = 250 + Math.floor(next() * ((1000 - a) / 2 - 250 + 1));
      return [a, b, 1000 - a - b].map((length, k) => ({ name: `${String(i)}-${String(k)}`, length }));
    }).flat();
  };

  it.each([1, 2])(
    'packs sixty pieces of triplets without waste (%i)',
    (seed) => {
      const list = triplets(20, seed);
      const layout = layOut(list, supply(1000));
      sound(list, supply(1000), layout);
      expect(layout).toMatchObject({ bought: 20, bound: 20, proven: true });
    },
    60_000,
  );

  it('says how far it may be off where it does not get there: 120 pieces of triplets', () => {
    const list = triplets(40, 1);
    const layout = layOut(list, supply(1000));
    sound(list, supply(1000), layout);
    expect(layout.bound).toBe(40);
    expect(layout.bought).toBeLessThanOrEqual(41);
    expect(layout.proven).toBe(layout.bought === 40);
  }, 60_000);

  // The small instance without the integer round-up property, in the papers of Rietz and Scheithauer: length 132, pieces
  // of 44, 33 and 12, wanted 2, 3 and 6 times; the relaxation rounds up to 2, the optimum is 3 (from memory).
  // With patterns that hold no more of a piece than is wanted the relaxation is above 2, which proves it.
  it('needs three where the length alone would let two do', () => {
    const list = pieces([
      [44, 2],
      [33, 3],
      [12, 6],
    ]);
    expect(fewest([44, 44, 33, 33, 33, 12, 12, 12, 12, 12, 12], 132, 0)).toBe(3);
    expect(layOut(list, supply(132))).toMatchObject({ bought: 3, bound: 3, proven: true });
  });
});

/** The least that sticks of two sorts cost, by trying every piece in every stick that is open or could be. */
function cheapest(
  list: readonly number[],
  sold: readonly (readonly [length: number, price: number])[],
  kerf: number,
): number {
  const sorted = [...list].sort((a, b) => b - a);
  let best = Infinity;
  const free: number[] = [];
  const place = (k: number, cost: number): void => {
    if (cost >= best) return;
    const piece = sorted[k];
    if (piece === undefined) {
      best = cost;
      return;
    }
    const tried = new Set<number>();
    for (let i = 0; i < free.length; i++) {
      const room = free[i] ?? 0;
      if (room < piece + kerf || tried.has(room)) continue;
      tried.add(room);
      free[i] = room - piece - kerf;
      place(k + 1, cost);
      free[i] = room;
    }
    for (const [length, price] of sold) {
      if (length < piece) continue;
      free.push(length - piece);
      place(k + 1, cost + price);
      free.pop();
    }
  };
  place(0, 0);
  return best;
}

describe('several lengths with prices', () => {
  it('are as cheap as trying everything, and the bound is never above', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 90, max: 700 }), { minLength: 1, maxLength: 7 }),
        fc.tuple(fc.integer({ min: 20, max: 60 }), fc.integer({ min: 30, max: 90 })),
        fc.integer({ min: 0, max: 5 }),
        (lengths, [small, large], kerf) => {
          const list = lengths.map((length, i) => ({ name: String(i), length }));
          const from = {
            sold: [
              { length: 700, price: small },
              { length: 1100, price: large },
            ],
            have: [],
            kerf,
          };
          const layout = layOut(list, from);
          sound(list, from, layout);
          const best = cheapest(
            lengths,
            [
              [700, small],
              [1100, large],
            ],
            kerf,
          );
          expect(layout.bound).toBeLessThanOrEqual(best);
          expect(layout.cost).toBe(best);
        },
      ),
      { numRuns: 150, seed: 5 },
    );
  }, 60_000);

  /** A fixed row of figures between 0 and 1 (linear congruence, Numerical Recipes). */
  const row = (seed: number): (() => number) => {
    let state = seed;
    return () => (state = (state * 1664525 + 1013904223) % 2 ** 32) / 2 ** 32;
  };

  /** 120 pieces at random from these lengths and two offcuts: sound, and proven. */
  const proven = (seed: number, sold: Supply['sold']): { readonly layout: Layout; readonly again: () => Layout } => {
    const next = row(seed);
    const list = Array.from({ length: 120 }, (_, i) => ({
      name: `p${String(i)}`,
      length: Math.round(1200 + next() * 21000) / 10,
    }));
    const from = { sold, have: [1450, 2200], kerf: 2 };
    const layout = layOut(list, from);
    sound(list, from, layout);
    expect(layout.proven).toBe(true);
    return { layout, again: () => layOut(list, from) };
  };

  it.each([1, 2, 3, 4, 5])(
    'of 120 pieces are proven, with three lengths whose prices are close to each other (%i)',
    (seed) => {
      proven(seed, [
        { length: 6000, price: 84.5 },
        { length: 5000, price: 72.35 },
        { length: 7500, price: 103.9 },
      ]);
    },
    120_000,
  );

  it.each([1, 2, 3])(
    'of 120 pieces are proven, with two lengths, and laid out the same way twice (%i)',
    (seed) => {
      const { layout, again } = proven(seed, [
        { length: 6000, price: 84 },
        { length: 3000, price: 45 },
      ]);
      expect(again()).toEqual(layout);
    },
    60_000,
  );
});

describe('small ones', () => {
  it('are as good as trying everything', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 90, max: 700 }), { minLength: 1, maxLength: 9 }),
        fc.integer({ min: 0, max: 5 }),
        (lengths, kerf) => {
          const list = lengths.map((length, i) => ({ name: String(i), length }));
          const layout = layOut(list, supply(1000, kerf));
          sound(list, supply(1000, kerf), layout);
          const best = fewest(lengths, 1000, kerf);
          expect(layout.bound).toBeLessThanOrEqual(best);
          expect(layout.bought).toBe(best);
        },
      ),
      { numRuns: 150, seed: 7 },
    );
  }, 60_000);
});

it('opens no more offcuts than it needs', () => {
  // 2 x 737 and a cut of 3 fit into 1588, so that 1016 stays in the rack.
  const pieces = [0, 1].map((i) => ({ name: String(i), length: 737 }));
  const layout = layOut(pieces, { sold: [{ length: 6096, price: 96 }], have: [1016, 1588], kerf: 3 });
  expect(layout.sticks.map(({ length, pieces: of }) => [length, of.length])).toEqual([[1588, 2]]);
  // One that does not fit with the other into any needs both.
  const both = layOut(pieces, { sold: [{ length: 6096, price: 96 }], have: [1016, 1400], kerf: 3 });
  expect(both.sticks.map(({ length }) => length)).toEqual([1400, 1016]);
});

it('takes offcuts first: what fits them is not cut from what is bought', () => {
  // 1016 would go into the bought stick as well, and nothing would cost more: but it lies in the rack.
  const pieces = [1016, 3000].map((length, i) => ({ name: String(i), length }));
  const layout = layOut(pieces, { sold: [{ length: 6096, price: 96 }], have: [1016, 1588], kerf: 3 });
  expect(layout.sticks.map(({ length, pieces: of }) => [length, of.map((one) => one.length)])).toEqual([
    [1016, [1016]],
    [6096, [3000]],
  ]);
});

it('offcuts hold as much as filling them one after the other would, whatever is bought', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 120, max: 900 }), { minLength: 1, maxLength: 9 }),
      fc.array(fc.integer({ min: 300, max: 1500 }), { minLength: 1, maxLength: 3 }),
      (lengths, have) => {
        const list = lengths.map((length, i) => ({ name: String(i), length }));
        const from = supply(6000, 2, have);
        const { sticks } = layOut(list, from);
        sound(list, from, { ...layOut(list, from) });
        const left = [...have];
        for (const { bought, length } of sticks) if (!bought) left.splice(left.indexOf(length), 1);
        const onBought = sticks.filter(({ bought }) => bought).flatMap(({ pieces: of }) => of);
        // No piece of a bought stick fits an offcut that still lies there, nor what is left of one that was begun.
        const room = [...left, ...sticks.filter(({ bought }) => !bought).map(({ rest }) => rest)];
        for (const { length } of onBought) expect(Math.max(0, ...room)).toBeLessThan(length);
      },
    ),
    { numRuns: 200, seed: 3 },
  );
}, 60_000);

it.each([
  // Two halves with the kerf between them are the stick: 2 x 19 15/16 + 1/8 = 40 inches, and so on.
  ['sixteenths and eighths of an inch', [19.9375, 19.9375], 40, 0.125],
  ['sixty-fourths', [13 + 19 / 64, 13 + 19 / 64, 13 + 19 / 64], 40 + 1 / 64, 1 / 16],
  ['thousandths', [19.9545, 19.9545], 40, 0.091],
])('a stick is used up to its end, in %s', (_, inches, stick, kerf) => {
  const list = inches.map((inch, i) => ({ name: String(i), length: inch * 25.4 }));
  const layout = layOut(list, { sold: [{ length: 6096, price: 96 }], have: [stick * 25.4], kerf: kerf * 25.4 });
  expect([layout.bought, layout.sticks.length, layout.sticks[0]?.rest.toFixed(6)]).toEqual([0, 1, '0.000000']);
  // A thousandth of an inch more does not go.
  const more = list.map((one, i) => (i === 0 ? { ...one, length: one.length + 0.0254 } : one));
  expect(layOut(more, { sold: [{ length: 6096, price: 96 }], have: [stick * 25.4], kerf: kerf * 25.4 }).bought).toBe(1);
});

describe('500 random ones', () => {
  it('are never behind first fit decreasing, and never below the bound', () => {
    let proven = 0;
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 120, max: 2900 }), { minLength: 1, maxLength: 40 }),
        fc.array(fc.integer({ min: 300, max: 2500 }), { maxLength: 3 }),
        fc.integer({ min: 0, max: 4 }),
        (lengths, have, kerf) => {
          const list = lengths.map((length, i) => ({ name: String(i), length }));
          const from = supply(6000, kerf, have);
          const layout = layOut(list, from);
          sound(list, from, layout);
          expect(layout.bought).toBeLessThanOrEqual(firstFitCount(list, 6000, kerf));
          expect(layout.bound).toBeLessThanOrEqual(layout.bought);
          if (layout.proven) proven++;
        },
      ),
      { numRuns: 500, seed: 11 },
    );
    expect(proven).toBeGreaterThan(490);
  }, 120_000);
});
