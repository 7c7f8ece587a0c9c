/** 120 pieces laid out on sticks: how long, and how good. */
import { performance } from 'node:perf_hooks';
import { layOut } from '../../server/papers/stock/lay-out';
import type { Sold } from '../../server/papers/stock/stock';

const SUPPLIES: readonly (readonly [string, readonly Sold[]])[] = [
  ['one length', [{ length: 6000, price: 84 }]],
  [
    'two lengths with prices',
    [
      { length: 6000, price: 84 },
      { length: 3000, price: 45 },
    ],
  ],
  [
    'three lengths with prices close to each other',
    [
      { length: 6000, price: 84.5 },
      { length: 5000, price: 72.35 },
      { length: 7500, price: 103.9 },
    ],
  ],
];

/** A fixed row of pieces between 120 and 2220 mm (linear congruence, Numerical Recipes). */
function piecesOf(seed: number): readonly { readonly name: string; readonly length: number }[] {
  let state = seed;
  return Array.from({ length: 120 }, (_, i) => {
    state = (state * 1664525 + 1013904223) % 2 ** 32;
    return { name: `p${String(i)}`, length: Math.round(1200 + (state / 2 ** 32) * 21000) / 10 };
  });
}

/** Rows of the table: what is sold, how many of the runs are proven, the widest gap in hundredths, the longest in seconds. */
export function measureStock(quick: boolean): readonly (readonly string[])[] {
  const seeds = quick ? [1, 2] : [1, 2, 3, 4, 5];
  return SUPPLIES.map(([name, sold]) => {
    const runs = seeds.map((seed) => {
      const start = performance.now();
      const { cost, bound, proven } = layOut(piecesOf(seed), { sold, have: [1450, 2200], kerf: 2 });
      return {
        took: (performance.now() - start) / 1000,
        proven,
        gap: cost === null ? 0 : (100 * (cost - bound)) / bound,
      };
    });
    const most = (of: readonly number[]): number => Math.max(...of);
    return [
      name,
      `${String(runs.filter(({ proven }) => proven).length)} of ${String(runs.length)}`,
      most(runs.map(({ gap }) => gap)).toFixed(2),
      most(runs.map(({ took }) => took)).toFixed(2),
    ];
  });
}
