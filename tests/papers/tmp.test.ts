import { it } from 'vitest';
import { layOut } from '../../server/papers/stock/lay-out';
it('x', () => {
  let s = 12345; const rnd = () => ((s = (s * 1103515245 + 12345) % 2147483648) / 2147483648);
  for (const [lo, hi] of [[200, 3000], [120, 2000], [1000,3000],[1500,3000],[300, 5000], [600,1600]] as const)
  for (let r = 0; r < 4; r++) {
    const list = Array.from({ length: 120 }, (_, i) => ({ name: String(i), length: Math.round(lo + (hi - lo) * rnd()) }));
    for (const sold of [[{length:6000,price:null}], [{length:6000,price:84},{length:3000,price:45}]]) {
    const t = performance.now();
    const l = layOut(list, { sold, have: [1450, 2200, 800], kerf: 2 });
    console.log(lo, hi, l.bought, l.cost, l.bound, l.proven, Math.round(performance.now() - t)); }
  }
}, 600000);
