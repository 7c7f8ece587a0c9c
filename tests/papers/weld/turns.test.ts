/** The order of the welds: every joint once, hosts first, heat balanced between left and right, neighbours not in a row. */
import { describe, expect, it } from 'vitest';
import { distance, mirrorY } from '../../../server/centreline/vector';
import { orderText } from '../../../server/papers/order/papers';
import { outOfCarOf } from '../../../server/papers/weld/out';
import { weldPapers } from '../../../server/papers/weld/papers';
import type { NumberedWeld } from '../../../server/papers/weld/turns';
import { weldOrder } from '../../../server/papers/weld/turns';
import { inputOf, sampleInput } from '../bend/support';
import { rowsOf } from '../support';

const key = ({ part, end }: NumberedWeld): string => `${part.name} ${end.which}`;
const isLeft = ({ end }: NumberedWeld): boolean => (end.origin?.[1] ?? 0) > 30;
const isRight = ({ end }: NumberedWeld): boolean => (end.origin?.[1] ?? 0) < -30;

describe.each(['siskin-club-bar', 'curlew-cage'] as const)('%s', (name) => {
  it('every weld once, numbered down the list; what the torch does not get round in its place first', async () => {
    const input = await sampleInput(name);
    const order = weldOrder(input);
    expect(order.map(({ number }) => number)).toEqual(order.map((_, i) => i + 1));
    expect(order.map(key).sort()).toEqual(
      input
        .welds()
        .map(({ part, end }) => `${part.name} ${end.which}`)
        .sort(),
    );
    const out = outOfCarOf(input).map(({ part, end }) => `${part} ${end}`);
    expect(order.slice(0, out.length).map(key)).toEqual(out);
    for (const { turn } of order.slice(out.length)) expect(turn).not.toBeNull();
    const rows = rowsOf(String(weldPapers(input)[0]?.content), 'Welds, joint by joint');
    expect(rows.map(([no]) => no)).toEqual(order.map((_, i) => `W${String(i + 1)}`));
  });

  it('a tube is welded to what it is cut to after that itself is welded in', async () => {
    const order = weldOrder(await sampleInput(name)).filter(({ turn }) => turn !== null);
    const last = new Map(order.map(({ part, number }) => [part.name, number]));
    for (const { part, end, number } of order)
      if (end.fit === 'cope' && part.ends.every((one) => order.some((weld) => weld.end === one)))
        for (const host of end.hosts) expect(number, `${part.name} on ${host}`).toBeGreaterThan(last.get(host) ?? 0);
  });

  it('left and right by turns: never more weld on one side than on the other but for what is in hand', async () => {
    const order = weldOrder(await sampleInput(name)).filter(({ turn }) => turn !== null);
    const longest = Math.max(...order.map(({ length }) => length ?? 0));
    let more = 0;
    for (const weld of order) {
      more += (isLeft(weld) ? 1 : isRight(weld) ? -1 : 0) * (weld.length ?? 0);
      expect(Math.abs(more), `W${String(weld.number)}`).toBeLessThanOrEqual(longest + 1e-6);
    }
  });

  it('joints of one turn are each other’s image', async () => {
    const order = weldOrder(await sampleInput(name));
    for (const [i, one] of order.entries()) {
      const other = order[i + 1];
      if (one.turn === null || other?.turn !== one.turn || one.end.origin === null || other.end.origin === null)
        continue;
      expect(distance(mirrorY(one.end.origin), other.end.origin)).toBeLessThan(60);
    }
  });
});

it('of many joints along one sill no two in a row are neighbours while there are others', async () => {
  const posts = Array.from(
    { length: 8 },
    (_, i) => `node f${String(i)} = on rail at ${String(100 + 90 * i)} from a
node t${String(i)} = f${String(i)} + (up 400)
tube post${String(i)} { section s; path f${String(i)}, t${String(i)}; last open }`,
  );
  const input = await inputOf(`cage "Rail"
units mm
section s { od 38; wall 2.5 }
node a = (0, 0, 0)
node b = (900, 0, 0)
tube rail { section s; path a, b; first open; last open }
${posts.join('\n')}
`);
  const order = weldOrder(input);
  expect(order).toHaveLength(8);
  const apart = order.slice(1).map((one, i) => Math.abs((one.end.origin?.[0] ?? 0) - (order[i]?.end.origin?.[0] ?? 0)));
  // Eight joints 90 mm apart: 150 mm and more can be kept between all that follow each other but at most the last.
  expect(apart.filter((by) => by < 150).length).toBeLessThanOrEqual(1);
});

it('the order of work names them by the same numbers', async () => {
  const input = await sampleInput('curlew-cage');
  const text = orderText(input);
  const order = weldOrder(input);
  const out = order.filter(({ turn }) => turn === null);
  expect(out.length).toBeGreaterThan(0);
  expect(text).toContain(`in its turns: W${String(out.length + 1)} to W${String(order.length)}`);
  for (const { number, part } of out) {
    const label = input.numbers.get(part.name)?.label ?? '';
    const line = text.split('\n').find((one) => new RegExp(`Weld [W0-9, to]*W${String(number)}\\b`).test(one));
    expect(line, `W${String(number)}`).toContain(label);
  }
});
