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
