/** What a message says mends it does mend it, by no more than the next mark of a tape, in the file's own units. */
import { describe, expect, it } from 'vitest';
import type { PlacedFinding } from '../../grammar/finding';
import { analyse } from '../support/analyse';

/** A bar at `z` far below the shoulder; books that measure from the shoulder, by angle, by height and to the spine. */
const METRIC = (z: string): string => `cage "Low bar"
units mm
rules nasa-ccr, nhra, harness-makers
section t38 { od 38; wall 2.5 }
node a = (0, 700, ${z})
node b = (0, -700, ${z})
tube bar as harness-bar { section t38; path a, b; first open; last open }
seat driver { slots (200, 0, 830); recline 12 deg; slot-spacing 200; back 40; shoulder (forward 100, up 40) }
strap outer { seat driver; slot left; to bar; width 75; hardware 60 }
`;
const INCHES = (z: string): string => `cage "Low bar"
units in
rules nasa-ccr, nhra, harness-makers
section t { size 1 1/2 x .095 }
node a = (0, 27 1/2, ${z})
node b = (0, -27 1/2, ${z})
tube bar as harness-bar { section t; path a, b; first open; last open }
seat driver { slots (8, 0, 32 3/4); recline 12 deg; slot-spacing 8; back 1 1/2; shoulder (forward 4, up 1 1/2) }
strap outer { seat driver; slot left; to bar; width 3; hardware 2 1/2 }
`;

const inches = (text: string): number =>
  text
    .split(' ')
    .map((part) => part.split('/').map(Number))
    .reduce((sum, [over = NaN, under = 1]) => sum + over / under, 0);

const found = async (text: string, code: string, book: string): Promise<PlacedFinding | undefined> =>
  (await analyse(text)).findings.find((one) => one.code === code && one.rule?.book === book);

const HEIGHT = /raise the bar to z = ([\d /.]+)\.$/;

describe.each([
  ['strap.shoulder-angle', 'nasa-ccr'],
  ['strap.shoulder-angle', 'harness-makers'],
  ['strap.spine', 'harness-makers'],
] as const)('%s of %s', (code, book) => {
  it.each([
    ['mm', METRIC, '660', 1, Number],
    ['inches', INCHES, '26', 1 / 16, inches],
  ] as const)('says the height that mends it, in %s', async (_, car, low, step, read) => {
    const finding = await found(car(low), code, book);
    const said = HEIGHT.exec(finding?.message ?? '')?.[1] ?? `no height in: ${finding?.message ?? 'nothing'}`;
    const height = read(said);
    expect(height, said).toBeGreaterThan(read(low));
    // The strictest of what the book allows and recommends is met there, and not two marks lower.
    expect(await found(car(said), code, book)).toBeUndefined();
    expect(await found(car(String(height - 2 * step)), code, book)).toBeDefined();
  });
});

describe('a file in inches', () => {
  const cage = (more: string): string =>
    `cage "Hints"
units in
rules scca-gcr, shop
section t { size 1 3/4 x .095 }
die d { od 1 3/4; radius 5 1/4; grip 4; between 3 }
node a = (0, 20, 0)
node b = (0, 18, 36)
node c = (0, -18, 36)
node d2 = (0, -20, 0)
tube hoop as main-rollbar { section t; die d; path a, b, c, d2 }
mirror left { foot f { at ${'a'}; plate 5 x 5 x 1/8; bolts 3 x 5/16 in } }
${more}`.replace(/mirror left \{ foot f \{ at a;(.*)\} \}/, 'foot fl { at a;$1}\nfoot fr { at d2;$1}');

  it('gets its examples in inches, and its figures as a tape has them', async () => {
    const { findings } = await analyse(cage(''));
    const said = (code: string): string => findings.find((one) => one.code === code)?.message ?? '';
    expect(said('hole.inspection')).toContain('hole hoop for inspection { from 24; dia 3/16 }');
    // 5/16 and 3/8 in are 0.3125 and 0.375 in.
    expect(said('foot.bolt-size')).toMatch(/are of 5\/16 in, scca-gcr wants at least 3\/8 in/);
    expect(said('foot.thickness')).toMatch(/is 1\/8 in thick, scca-gcr wants at least 3\/16 in/);
  });
});

describe('a strap that can slide', () => {
  const bar = (units: string, size: string, strap: string, scale: number): string => `cage "Slides"
units ${units}
section t { ${size} }
node a = (0, ${String(700 / scale)}, ${String(700 / scale)})
node b = (0, ${String(-700 / scale)}, ${String(700 / scale)})
tube bar as harness-bar { section t; path a, b; first open; last open }
seat driver { slots (${String(254 / scale)}, 0, ${String(762 / scale)}); recline 12 deg; slot-spacing ${String(203.2 / scale)}; back ${String(38.1 / scale)} }
strap outer { seat driver; slot left; to bar; ${strap} }
`;

  it.each([
    ['mm', 'od 38; wall 2.5', 'width 75; hardware 60', 1],
    ['in', 'size 1 1/2 x .095', 'width 3; hardware 2 1/2', 25.4],
  ] as const)('is told the fact that holds it, in %s', async (units, size, strap, scale) => {
    const sliding = async (facts: string): Promise<string | undefined> =>
      (await analyse(bar(units, size, facts, scale))).findings.find(({ code }) => code === 'strap.can-slide')?.message;
    const message = await sliding(strap);
    const fact = /write (collars .+) in it\.$/.exec(message ?? '')?.[1] ?? '';
    expect(fact).not.toBe('');
    expect(await sliding(`${strap}; ${fact}`)).toBeUndefined();
  });
});

describe('a bore without a way to the air', () => {
  const car = (scale: number, units: string, feet: string): string => {
    const at = (...point: readonly number[]): string => point.map((value) => String(value / scale)).join(', ');
    return `cage "Closed bores"
units ${units}
rules shop
section t { od ${String(44.45 / scale)}; wall ${String(2.413 / scale)} }
die d { od ${String(44.45 / scale)}; radius ${String(139.7 / scale)} }
node a = (${at(0, 508, 0)})
node b = (${at(0, 457.2, 914.4)})
node c = (${at(0, -457.2, 914.4)})
node d2 = (${at(0, -508, 0)})
node low = (${at(-508, 381, 254)})
node top = on hoop nearest (${at(0, 457.2, 711.2)})
tube hoop as main-rollbar { section t; die d; path a, b, c, d2 }
tube stay as backstay { section t; path top, low; last open }
foot f1 { at a; plate ${[152.4, 127, 3.175].map((value) => String(value / scale)).join(' x ')}${feet} }
foot f2 { at d2; plate ${[152.4, 127, 3.175].map((value) => String(value / scale)).join(' x ')}${feet} }
tube rail as brace { section t; path r1, r2 }
node r1 = on hoop nearest (${at(0, 508, 457.2)})
node r2 = on hoop nearest (${at(0, -508, 457.2)})
`;
  };
  const closed = async (text: string): Promise<readonly string[]> =>
    (await analyse(text)).findings.filter(({ code }) => code === 'space.unvented').map(({ message }) => message);

  it.each([
    ['mm', 1],
    ['in', 25.4],
  ] as const)('is told the vent that opens it, in %s', async (units, scale) => {
    const told = await closed(car(scale, units, ''));
    const hole =
      told.map((message) => / through the plate of f\d: (hole .+)\.$/.exec(message)?.[1]).find(Boolean) ?? '';
    const vent = told.map((message) => /vent it: (vent .+ \})\.$/.exec(message)?.[1]).find(Boolean) ?? '';
    expect([told.length, hole !== '', vent !== '']).toEqual([2, true, true]);
    expect(await closed(`${car(scale, units, `; ${hole}`)}${vent}\n`)).toEqual([]);
  });
});
