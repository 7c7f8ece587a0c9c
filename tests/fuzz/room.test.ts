/** Will it go in, asked of cars that nobody builds: nothing throws, no figure is no number, and it comes to an end. */
import { describe, expect, it } from 'vitest';
import type { Room } from '../../server/geometry/room/room';
import { between, random } from '../geometry/joint-maker';
import { inputOf } from '../papers/bend/support';
import { roomPapers } from '../../server/papers/room/papers';
import type { PacketInput } from '../../server/papers/packet/paper';
import { onSphere, PARTS, times } from './monster';

const sound = (room: Room): void => {
  for (const figure of [room.overPoints, room.clear ?? 0]) expect(Number.isFinite(figure)).toBe(true);
  for (const sought of Object.values(room.ways)) {
    if (sought === null) continue;
    const { way, blockers } = sought;
    for (const { length } of way.paths) expect(length).toBeGreaterThanOrEqual(0);
    expect(way.tight?.tooLong ?? 0).toBeGreaterThanOrEqual(0);
    expect(Number.isFinite(way.by + (way.tight?.tooLong ?? 0) + (way.tight?.out ?? 0))).toBe(true);
    expect(Number.isNaN(way.spare)).toBe(false);
    for (const { least } of blockers) expect(Number.isFinite(least)).toBe(true);
  }
};

async function asked(text: string): Promise<PacketInput> {
  const input = await inputOf(text);
  for (const { room } of input.rooms().bars) if (room !== null) sound(room);
  expect(String(roomPapers({ ...input, touched: new Map() })[0]?.content)).not.toMatch(/NaN|Infinity|undefined/);
  return input;
}

describe('will it go in, of', () => {
  it('a ladder of sixty rungs: each with those below it in', async () => {
    const rungs = times(
      60,
      (i) =>
        `node a${i} = on l at ${30 + i * 15} from l1\nnode b${i} = on r at ${30 + i * 15} from r1\ntube t${i} { section thin; path a${i}, b${i} }`,
    );
    const text = `${PARTS}section thin { od 14; wall 1 }\nnode l1 = (0, 200, 0)\nnode l2 = (0, 260, 1000)\nnode r1 = (0, -200, 0)\nnode r2 = (0, -260, 1000)\ntube l { section s; path l1, l2 }\ntube r { section s; path r1, r2 }\n${rungs}`;
    const { bars } = (await asked(text)).rooms();
    expect(bars).toHaveLength(60);
    expect(bars.every(({ room }) => room !== null)).toBe(true);
  });

  it('struts every way between two bent hoops', async () => {
    const roll = random(3);
    const hoop = (name: string, x: number): string =>
      `node ${name}1 = (${x}, 500, 0)\nnode ${name}2 = (${x}, 450, 900)\nnode ${name}3 = (${x}, -450, 900)\nnode ${name}4 = (${x}, -500, 0)\ntube ${name} { section s; die d; path ${name}1, ${name}2, ${name}3, ${name}4 }`;
    const struts = times(
      16,
      (i) =>
        `node p${i} = on f at ${between(roll, 2, 98).toFixed(3)} %\nnode q${i} = on g at ${between(roll, 2, 98).toFixed(3)} %\ntube t${i} { section s; path p${i}, q${i} }`,
    );
    await asked(
      `units mm\nsection s { od 40; wall 2 }\ndie d { od 40; radius 120; grip 50 }\n${hoop('f', 0)}\n${hoop('g', 700)}\n${struts}`,
    );
  });

  it('stubs, bars between a tube and itself, and stars', async () => {
    await asked(
      `${PARTS}node a = (0, 0, 0)\nnode b = (1000, 0, 0)\ntube m { section m; path a, b }\nnode c = on m at 200 from a\nnode d = on m at 260 from a\ntube t { section s; path c, d }`,
    );
    await asked(
      `${PARTS}node c = (0, 0, 0)\n${times(12, (i) => `node p${i} = (${onSphere(i, 12)})\ntube t${i} { section s; path c, p${i} }`)}`,
    );
    await asked(
      `${PARTS}node a = (0, 0, 0)\nnode b = (0, 0, 900)\nnode c = (50, 0, 0)\nnode d = (50, 0, 900)\ntube m { section s; path a, b }\ntube n { section s; path c, d }\nnode e = on m at 400 from a\nnode f = on n at 400 from c\ntube t { section s; path e, f }`,
    );
  });
});
