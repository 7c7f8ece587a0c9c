/** What a window is made of: which quantities hang on the bar's place, which facts are missing, why one is empty. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { assess } from '../../server/rules/assess';
import { BOOKS } from '../../server/rules/books';
import { Car } from '../../server/rules/car';
import { isMissing } from '../../server/rules/rule';
import { PLACE_CODES } from '../../server/rules/window/demands';
import { rectangleIn, type Polygon } from '../../server/rules/window/polygon';
import { allSettings, seatAt } from '../../server/rules/window/settings';
import { barWindow, type BarWindow } from '../../server/rules/window/window';
import { deg, mm } from '../../grammar/units';
import { analyse } from '../support/analyse';

const CAR = `cage "One seat"
rules fia-253, shop
section t { od 38; wall 2.5 }
node a = (20, 700, 735)
node b = (20, -700, 735)
tube bar as harness-bar { section t; path a, b; first open; last open }
seat s { slots (240, 0, 760); recline 12 deg; slot-spacing 220; back 40 }
strap l { seat s; slot left; to bar; width 75; hardware 110; collars 20 gap 1 }
strap r { seat s; slot right; to bar; width 75; hardware 110; collars 20 gap 1 }
`;

async function windowOf(text: string, thorough = true): Promise<BarWindow> {
  const { cage, shape } = await analyse(text);
  const window = barWindow(cage, shape, 'bar', thorough);
  if (window.kind === 'none') throw new Error(window.why);
  return window;
}

/** Every reading of straps, seats and the bar by any book, by code and subject; what a rule reads as missing has none. */
async function readings(text: string, files: Readonly<Record<string, string>>): Promise<ReadonlyMap<string, number>> {
  const { cage, shape } = await analyse(text, files);
  const map = new Map<string, number>();
  for (const { rule, item } of assess(new Car(cage, shape), BOOKS)) {
    const thing = cage.things.get(item.subject);
    const concerns =
      thing?.kind === 'strap' || thing?.kind === 'seat' || (thing?.kind === 'tube' && thing.role === 'harness-bar');
    if (!isMissing(item) && concerns) map.set(`${rule.code} ${item.subject}`, item.measured.value);
  }
  return map;
}

describe('the settings of a seat that are looked at', () => {
  const settings = async (facts: string): Promise<readonly string[]> => {
    const text = CAR.replace('slots (240, 0, 760); recline 12 deg', `hip (300, 0, 260); slot-height 500; ${facts}`);
    const seat = (await analyse(text)).cage.things.get('s');
    return seat?.kind === 'seat'
      ? allSettings(seat).map(({ recline, slide }) => `${String(recline)} ${String(slide)}`)
      : expect.fail('no seat');
  };

  it('go from end to end by a degree and 20 mm', async () => {
    expect(new Set(await settings('recline 12 to 25 deg; slide 0 to 80')).size).toBe(14 * 5);
  });

  it('do not grow without bound with what is written', async () => {
    expect(new Set(await settings('recline -89 to 89 deg; slide -1000 to 1000')).size).toBe(31 * 31);
  });
});

describe('the quantities that hang on where the bar lies', () => {
  const cars: readonly (readonly [string, string, string])[] = [
    [
      'one seat',
      CAR.replaceAll('hardware 110', 'hardware 110; slider 12; tail 150').replace(
        'back 40',
        'back 40; shoulder (forward 110, up 30); yoke 20; helmet (forward 60, up 280) radius 150',
      ),
      '735',
    ],
    [
      'a yawed seat and a diagonal',
      `${CAR.replace('recline 12 deg', 'recline 12 deg; yaw 4 deg; shoulder (forward 100, up 20)')}node e = (0, 500, 1100)
node f = (0, -500, 200)
tube cross as diagonal { section t; path e, f; first open; last open }
`
        .replace('slots (240, 0, 760)', 'slots (240, 20, 760)')
        .replace('yaw 4 deg', 'yaw 4 deg in'),
      '735',
    ],
  ];
  it.each(cars)('are all known, and no other: %s', async (_, text, height) => {
    const before = await readings(text, {});
    const after = await readings(text.replaceAll(height, '722').replaceAll('(20, ', '(7, '), {});
    const moved = [...before].flatMap(([key, value]) => {
      const then = after.get(key);
      return then !== undefined && Math.abs(then - value) > 1e-6 ? [key.split(' ')[0] ?? ''] : [];
    });
    expect(moved.length).toBeGreaterThan(5);
    expect([...new Set(moved)].filter((code) => !(PLACE_CODES as ReadonlySet<string>).has(code))).toEqual([]);
  });

  it('are all codes of rules that some book asks for', () => {
    const asked = new Set(BOOKS.flatMap(({ limits }) => limits.map(({ code }) => code)));
    expect([...PLACE_CODES].filter((code) => !asked.has(code))).toEqual([]);
  });
});

describe('what is told beside a window', () => {
  it('a limit that no place mends stands apart, and the window is made without it', async () => {
    const window = await windowOf(CAR.replace('fia-253, shop', 'scca-gcr, shop'));
    expect(window.apart.map(({ demand }) => demand.code)).toEqual(['strap.spacing']);
    expect(window.required.polygons).toHaveLength(1);
  });

  it.each([
    [
      'the shoulder, for books that measure from it',
      CAR.replace('fia-253, shop', 'nasa-ccr'),
      /shoulder is not written/,
    ],
    ['the hip of a seat that reclines', CAR.replace('recline 12 deg', 'recline 12 to 25 deg'), /hip is not written/],
    ['the hardware of a strap', CAR.replace('hardware 110; ', ''), /hardware is not written/],
    ['the back of the shell', CAR.replace('; back 40', ''), /how it runs to the bar is not known/],
    [
      'the seat of one strap',
      CAR.replace('strap r { seat s', 'strap r { seat q'),
      /its seat, or where the slots of that are/,
    ],
  ])('a missing fact is listed: %s', async (_, text, words) => {
    const { unknown } = await windowOf(text);
    expect(unknown.map(({ fact }) => fact).join('\n')).toMatch(words);
  });

  it('what a book only tells makes no window', async () => {
    const window = await windowOf(CAR);
    expect(window.told.map(({ code }) => code)).toEqual(['strap.bar-drop']);
  });

  it('a bar that does not run straight across is placed by the middle of its straps', async () => {
    const { at, off } = await windowOf(CAR.replace('node b = (20, -700, 735)', 'node b = (-20, -700, 735)'));
    expect(at[0]).toBeCloseTo(0, 6);
    expect(off).toBeCloseTo((20 * 110) / 700, 3);
  });
});

describe('seats that recline and slide', () => {
  /** Rotation about a point, in the plane (textbook). */
  it('turn about the hip and slide along their own forward', async () => {
    const { cage } = await analyse(
      CAR.replace(
        'slots (240, 0, 760); recline 12 deg',
        'hip (300, 0, 262); slot-height 560; recline 12 to 25 deg; slide 0 to 80',
      ),
    );
    const seat = cage.things.get('s');
    if (seat?.kind !== 'seat') throw new Error('no seat');
    const at = seatAt(seat, { recline: deg(25), slide: mm(80) });
    expect(at.slots?.[0]).toBeCloseTo(300 + 80 - 560 * Math.sin((25 * Math.PI) / 180), 6);
    expect(at.slots?.[2]).toBeCloseTo(262 + 560 * Math.cos((25 * Math.PI) / 180), 6);
    expect(at.hip?.[0]).toBeCloseTo(380, 9);
  });

  it('have a smaller window than at each of their ends', async () => {
    const text = (recline: string, more: string): string =>
      CAR.replace(
        'slots (240, 0, 760); recline 12 deg',
        `hip (300, 0, 262); slot-height 560; recline ${recline} deg; ${more}`,
      );
    const all = await windowOf(text('12 to 25', 'slide 0 to 80'));
    const ends = [await windowOf(text('12', 'slide 0 to 0')), await windowOf(text('25', 'slide 80 to 80'))];
    for (const one of ends)
      expect(all.required.bounds?.x[1]).toBeLessThanOrEqual((one.required.bounds?.x[1] ?? 0) + 0.2);
    const rough = await windowOf(text('12 to 25', 'slide 0 to 80'), false);
    expect(rough.required.area / all.required.area).toBeGreaterThan(0.98);
    expect(rough.required.area / all.required.area).toBeLessThan(1.02);
  });
});

describe('the largest upright rectangle', () => {
  const L: Polygon = [
    [0, 0],
    [100, 0],
    [100, 20],
    [30, 20],
    [30, 90],
    [0, 90],
  ];
  it('of an L is its longer leg, or the one that holds a place', () => {
    expect(rectangleIn([L])).toEqual({ x: [0, 30], z: [0, 90] });
    expect(rectangleIn([L], { x: [80, 80], z: [10, 10] })).toEqual({ x: [0, 100], z: [0, 20] });
    expect(rectangleIn([L], { x: [80, 80], z: [50, 50] })).toBeNull();
  });

  it('keeps out of a hole', () => {
    const square: Polygon = [
      [0, 0],
      [100, 0],
      [100, 100],
      [0, 100],
    ];
    const hole: Polygon = [
      [40, 40],
      [40, 60],
      [60, 60],
      [60, 40],
    ];
    const found = rectangleIn([square, hole]);
    expect(found === null ? 0 : (found.x[1] - found.x[0]) * (found.z[1] - found.z[0])).toBeCloseTo(4000, 6);
  });
});

describe('no text makes it throw', () => {
  const folder = join(__dirname, '../findings/fixtures');
  it('nor any fixture, of any tube', async () => {
    for (const name of readdirSync(folder).filter(
      (file) => file.endsWith('.cage') && /strap|seat|harness|place/.test(file),
    )) {
      const { cage, shape } = await analyse(readFileSync(join(folder, name), 'utf8'));
      for (const thing of cage.things.values()) {
        if (thing.kind !== 'tube') continue;
        const window = barWindow(cage, shape, thing.name, false);
        if (window.kind === 'none') expect(window.why).not.toBe('');
        else expect(JSON.stringify(window.required.polygons)).not.toMatch(/null/);
      }
    }
  });
});
