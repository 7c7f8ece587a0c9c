/** `cagewright window`: text, JSON by its schema (JSON Schema 2020-12), a drawing, exit status, and arguments that are wrong. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv2020 from 'ajv/dist/2020';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { World } from './world';
import { world } from './world';

const ajv = new Ajv2020({ allErrors: true, strict: true, allowUnionTypes: true });
const valid = ajv.compile(
  JSON.parse(readFileSync(join(__dirname, '../../server/cli/schemas/window.schema.json'), 'utf8')) as Record<
    string,
    unknown
  >,
);

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
/** The hardware is longer than the recommended strap: no place for the bar has both. */
const TIGHT = CAR.replaceAll('hardware 110', 'hardware 260');
/** A club that wants long straps with a short straight run: to be had steeply down, but that it does not allow. */
const club = (hardware: string): string =>
  `${CAR.replace('rules fia-253, shop', 'rules mine').replaceAll('hardware 110', hardware)}rulebook mine {
  limit strap.length from 300 mm to 320 mm
  limit strap.free-run to 100 mm
  limit strap.drop from 0 deg to 45 deg
  cite "1"
}
`;

let w: World;
beforeAll(async () => {
  w = await world({
    'car.cage': CAR,
    'tight.cage': TIGHT,
    'low.cage': CAR.replaceAll('735', '780'),
    'no.cage': club('hardware 60'),
    'never.cage': club('hardware 110'),
  });
});
afterAll(() => w.remove());

interface Json {
  readonly bar: { readonly at: readonly number[]; readonly inside: boolean; readonly good: boolean };
  readonly window: Region;
  readonly preferred: Region;
}
interface Region {
  readonly empty: boolean;
  readonly polygons: readonly (readonly (readonly [number, number])[])[];
  readonly rectangle: { readonly x: readonly [number, number]; readonly z: readonly [number, number] } | null;
  readonly excluded: { readonly limits: readonly { readonly code: string; readonly measured: unknown }[] } | null;
  readonly nearest: { readonly onTape: readonly [number, number] | null } | null;
}

const json = async (...argv: readonly string[]): Promise<{ readonly data: Json; readonly exit: number }> => {
  const { stdout, stderr, exit } = await w.run(['window', ...argv, '--format', 'json']);
  expect(stderr).toBe('');
  const data: unknown = JSON.parse(stdout);
  expect(valid(data) ? [] : valid.errors?.slice(0, 5)).toEqual([]);
  expect(stdout).not.toMatch(/: -0[,\n]|NaN|undefined/);
  return { data: data as Json, exit };
};

describe('text', () => {
  it('names the rectangle, the preferred part, where the bar is and what bounds it', async () => {
    const { stdout, exit } = await w.run(['window', 'car.cage', '--tube', 'bar']);
    expect(stdout).toMatch(/^Window: x -?\d+ to -\d+, z \d+ to \d+$/m);
    expect(stdout).toMatch(/^Preferred, with the recommendations of the books: x -?\d+ to -?\d+, z \d+ to \d+$/m);
    expect(stdout).toContain('The bar now: x = 20, z = 735: inside, also the preferred part');
    expect(stdout).toContain('bounded by strap.length of');
    expect(stdout).toContain('An aid, not an approval');
    expect(exit).toBe(0);
  });

  it('is in inches, in sixteenths as a tape shows them, for a file in inches', async () => {
    const { stdout } = await w.run(
      ['window', '-'],
      `units in\n${CAR.replace(/\d+(?= deg)/g, '12').replace(/(?<![\w-])(\d{2,3})(?! deg|\w|-)/g, (n) => String(Number(n) / 25))}`,
    );
    expect(stdout).toMatch(/^Window: x -?[\d/ ]+ to -?[\d/ ]+, z [\d/ ]+ to [\d/ ]+$/m);
    expect(stdout).toContain('side view, in in');
  });

  it('exits with 1 where the bar lies outside, and says where the nearest place is', async () => {
    const { stdout, exit } = await w.run(['window', 'low.cage']);
    expect(exit).toBe(1);
    expect(stdout).toMatch(/nearest place: x = 20, z = \d+, \d+ mm down/);
    expect(stdout).toMatch(/broken now: strap\.drop of l \(fia-253 allows 0 to 45°; .*2013 text, published\): -/);
  });
});

describe('json', () => {
  it('holds polygons that hold the rectangle, and the same bytes every time', async () => {
    const { data, exit } = await json('car.cage');
    expect(exit).toBe(0);
    expect(data.bar).toEqual({ at: [20, 735], off: 0, inside: true, good: true });
    expect(data.window.polygons).toHaveLength(1);
    expect(data.preferred.rectangle).not.toBeNull();
    const [one, two] = [
      await w.run(['window', 'car.cage', '--format', 'json']),
      await w.run(['window', 'car.cage', '--format', 'json']),
    ];
    expect(one.stdout).toBe(two.stdout);
  });

  it('names the two limits that exclude each other', async () => {
    const { data } = await json('tight.cage');
    expect(data.window.empty).toBe(false);
    expect(data.preferred.empty).toBe(true);
    const codes = data.preferred.excluded?.limits.map(({ code }) => code).sort();
    expect(codes).toEqual(['strap.free-run', 'strap.length']);
    const { stdout } = await w.run(['window', 'tight.cage']);
    expect(stdout).toContain('Two limits exclude each other');
  });

  it('is 1 where no place is left, and names the three limits that it takes', async () => {
    const { data, exit } = await json('no.cage');
    expect(exit).toBe(1);
    expect(data.window.empty).toBe(true);
    expect(data.window.excluded?.limits.map(({ code }) => code).sort()).toEqual([
      'strap.drop',
      'strap.free-run',
      'strap.length',
    ]);
  });

  it('names the one limit that can be met nowhere: its hardware needs more than the club allows', async () => {
    const { data } = await json('never.cage');
    expect(data.window.excluded?.limits).toMatchObject([
      {
        code: 'strap.free-run',
        allowed: { from: 110, to: 100, unit: 'mm' },
        rule: { book: 'mine', source: 'written here' },
      },
    ]);
    expect((await w.run(['window', 'never.cage'])).stdout).toContain('One limit alone is met nowhere');
  });

  it.each(['plover-rollbar', 'siskin-club-bar', 'curlew-cage', 'every-finding'])('of the sample %s', async (name) => {
    const { stdout } = await w.run([
      'window',
      join(__dirname, `../../samples/${name}.cage`),
      '--tube',
      'harness-bar',
      '--format',
      'json',
    ]);
    if (stdout === '') return;
    expect(valid(JSON.parse(stdout)) ? [] : valid.errors).toEqual([]);
  });
});

describe('svg', () => {
  it('is self-contained, and says its caution', async () => {
    const { stdout } = await w.run(['window', 'car.cage', '--format', 'svg']);
    expect(stdout).toMatch(/^<\?xml version="1\.0"/);
    expect(stdout).toContain('</svg>');
    expect(stdout).toContain('An aid, not an approval: the current printed book and the scrutineer decide.');
    expect(stdout).not.toMatch(/href|<script|<image|url\(|NaN|undefined|Infinity/);
    for (const part of ['window', 'preferred', 'rectangle', 'bar', 'seat', 'axes'])
      expect(stdout).toContain(`class="${part}"`);
  });

  it('is written beside the text with --out, over its own file but not over another', async () => {
    for (let i = 0; i < 2; i++) {
      const { stdout, exit } = await w.run(['window', 'car.cage', '--out', 'w.svg']);
      expect(exit).toBe(0);
      expect(stdout).toContain('Window: ');
    }
    expect(readFileSync(w.path('w.svg'), 'utf8')).toContain('<svg');
    expect((await w.run(['window', 'car.cage', '--out', 'w.svg', '--format', 'svg'])).stdout).toBe('');
    await w.put('mine.svg', '<svg/>');
    expect((await w.run(['window', 'car.cage', '--out', 'mine.svg'])).exit).toBe(2);
    expect(readFileSync(w.path('mine.svg'), 'utf8')).toBe('<svg/>');
    expect((await w.run(['window', 'car.cage', '--out', 'mine.svg', '--force'])).exit).toBe(0);
  });
});

describe('what cannot be done is one line, with status 2', () => {
  const TWO = `${CAR}node c = (0, 700, 700)
node d = (0, -700, 700)
tube other as harness-bar { section t; path c, d; first open; last open }
strap x { seat s; slot left; to other; width 75; hardware 110 }
`;
  it.each([
    ['an unknown tube', CAR, ['--tube', 'baar'], "there is no tube 'baar'; did you mean 'bar'"],
    ['no tube', CAR, ['--tube', 's'], 's is a seat, not a tube'],
    [
      'a tube without straps',
      `${CAR}tube bare { section t; path a, b; first open; last open }\n`,
      ['--tube', 'bare'],
      'no strap lies on bare; straps lie on bar',
    ],
    ['no straps at all', CAR.replace(/^strap.*\n/gm, ''), [], 'no strap lies on any tube that is known'],
    ['straps on two tubes', TWO, [], 'say --tube with one of bar, other'],
    ['a strap without its seat', CAR.replace(/^seat.*\n/m, ''), [], 'no strap on bar has a seat whose slots are known'],
    ['a bar that cannot be computed', CAR.replace('node b', 'node q'), [], 'where bar runs is not known'],
    ['two tubes', CAR, ['--tube', 'bar', '--tube', 'x'], '--tube is given twice'],
    ['an out that is no drawing', CAR, ['--out', 'x.png'], '--out is the drawing'],
    ['another format', CAR, ['--format', 'sarif'], '--format is one of text, json, svg'],
    ['two files', CAR, ['car.cage'], 'window takes one FILE'],
    ['a date', CAR, ['--date', 'x'], 'window has no option --date'],
  ])('%s', async (_, text, argv, why) => {
    const { stdout, stderr, exit } = await w.run(['window', '-', ...argv], text);
    expect(stderr).toContain(why);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(stdout).toBe('');
    expect(exit).toBe(2);
  });

  it('of straps on two tubes each has its own window', async () => {
    for (const tube of ['bar', 'other']) {
      const { stdout } = await w.run(['window', '-', '--tube', tube], TWO);
      expect(stdout).toContain(`Where the axis of ${tube} may lie`);
    }
  });
});
