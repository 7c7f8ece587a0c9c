/** Will it go in: the page of the samples, its link to the order of work, and cars whose answer is plain. */
import { describe, expect, it } from 'vitest';
import { sortSteps } from '../../../server/papers/order/graph';
import { orderText } from '../../../server/papers/order/papers';
import { stepsOf } from '../../../server/papers/order/steps';
import type { PacketInput } from '../../../server/papers/packet/paper';
import { roomPapers } from '../../../server/papers/room/papers';
import { astride, textOf, upright } from '../../geometry/room-car';
import { inputOf, sampleInput } from '../bend/support';
import { read, rowsOf } from '../support';

const pageOf = (input: PacketInput): string => String(roomPapers(input)[0]?.content);

/** As if no error stopped a part: posts that stand in the air have many. */
const unstopped = async (text: string): Promise<PacketInput> => ({ ...(await inputOf(text)), touched: new Map() });

const order = (input: PacketInput): readonly string[] =>
  sortSteps(stepsOf(input, [], input.rooms().before)).order.map(({ id }) => id);

describe('will it go in?', () => {
  it('a diagonal that the harness bar shuts in is tacked before it, in the order of work too', async () => {
    const input = await sampleInput('plover-rollbar');
    const page = pageOf(input);
    expect(read(page).errors).toEqual([]);
    expect(read(page).words).toMatch(/Look here first.*03 diagonal.*Tack it before 04 harness-bar/s);
    expect(rowsOf(page, 'Bars that go in').map((row) => row[0])).toEqual([expect.stringContaining('harness-bar')]);
    expect(input.rooms().before).toEqual([{ bar: 'diagonal', neighbour: 'harness-bar' }]);
    const ids = order(input);
    expect(ids.indexOf('tack diagonal')).toBeGreaterThan(-1);
    expect(ids.indexOf('tack diagonal')).toBeLessThan(ids.indexOf('fit harness-bar'));
    expect(orderText(input)).toContain('does not go in past it');
  });

  it('a wish that would have two wait for each other is left out of the order of work', async () => {
    const input = await sampleInput('plover-rollbar');
    expect(stepsOf(input, [], [{ bar: 'harness-bar', neighbour: 'main-hoop' }])).toEqual(stepsOf(input));
    expect(stepsOf(input, [], [{ bar: 'no such bar', neighbour: 'main-hoop' }])).toEqual(stepsOf(input));
  });

  it.each(['plover-rollbar', 'siskin-club-bar', 'curlew-cage', 'every-finding'])(
    '%s: every bar between two tubes is told of once, or as somebody’s twin, and the same bytes come twice',
    async (name) => {
      const input = await sampleInput(name);
      const page = pageOf(input);
      expect(pageOf(await sampleInput(name))).toBe(page);
      const { words } = read(page);
      for (const part of input.shape.parts.values()) {
        const inside = part.ends.every(({ fit }) => fit === 'cope') && !part.tube.existing;
        const label = input.numbers.get(part.name)?.label ?? part.name;
        if (inside) expect(words).toContain(label);
      }
      expect(words).not.toMatch(/NaN|Infinity|undefined|null/);
    },
  );

  it('a bar that goes in is told how, in the car’s own directions', async () => {
    const page = pageOf(await unstopped(textOf(astride(1000, 4, 45, 38, { feet: true }))));
    const [row] = rowsOf(page, 'Bars that go in');
    expect(row?.[1]).toMatch(/975.8 mm .* over the points/);
    // 1000 - 45 / cos 4° at the axis, and 2 · 19 · tan 4° less along the bar's top: worked by hand.
    expect(row?.[1]).toMatch(/952.[2-5] mm .* clear/);
    expect(row?.[2]).toMatch(/^no: .* too long/);
    expect(row?.[4]).toMatch(/^yes/);
    expect(row?.at(-1)).toMatch(/below/);
  });

  // Points of a bar of radius r on posts of 30 reach 30 - sqrt(900 - r²) past their near side: 0.5 at 5.454 (by hand).
  it.each([
    [10.6, /^with 0.9 mm/],
    [11, /^no: 1 mm .* too long/],
  ])('what hands want is the limit: a bar of %f', async (od, words) => {
    const page = pageOf(await unstopped(textOf(upright(600, 60, od, { bar: { od, wall: 1 } }))));
    const rows = rowsOf(page, 'Bars that go in');
    expect(rows[0]?.[2]).toMatch(words);
  });

  it('says so where nothing can be computed, and where there is no such bar', async () => {
    const lost = textOf(upright(1000, 45, 38)).replace('section right { od 45; wall 2 }', 'section right { od 45 }');
    expect(read(pageOf(await inputOf(lost))).words).toContain('STOP: do not cut');
    const { words } = read(pageOf(await unstopped(lost)));
    expect(words).toContain(words.includes('Look here first') ? 'Not computed' : 'No tube of the file');
    const none = await inputOf('cage "Empty"\nunits mm\n');
    expect(read(pageOf(none)).words).toContain('No tube of the file');
  });

  it('in a file of inches, inches come first', async () => {
    const { words } = read(pageOf(await sampleInput('siskin-club-bar')));
    expect(words).toMatch(/\d+( \d+\/\d+)? in \(\d+(\.\d+)? mm\) over the points/);
  });
});

it('what a neighbour has to wait for is said of both: seat bars before the struts that would shut them out', async () => {
  const input = await sampleInput('curlew-cage');
  const { bars, before } = input.rooms();
  expect(before.length).toBeGreaterThan(0);
  const { words } = read(pageOf(input));
  const ids = order(input);
  const step = (what: string, part: string): number => ids.findIndex((id) => id === `${what} ${part}`);
  for (const { bar, neighbour } of before) {
    expect(bars.find(({ part }) => part.name === bar)?.before).toContain(neighbour);
    expect(words).toMatch(new RegExp(`Tack it before [^.]*${input.numbers.get(neighbour)?.label ?? 'no label'}`));
    // Jobs are called by their first part: only those that stand for themselves are looked up here.
    if (step('tack', bar) >= 0 && step('fit', neighbour) >= 0)
      expect(step('tack', bar)).toBeLessThan(step('fit', neighbour));
  }
});
