/** Every JSON that the program prints is what its schemas (JSON Schema 2020-12) say. */
import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import Ajv2020 from 'ajv/dist/2020';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { World } from './world';
import { BROKEN, GOOD, UNVENTED, world } from './world';

const schema = (name: string): Record<string, unknown> =>
  JSON.parse(readFileSync(join(__dirname, `../../server/cli/schemas/${name}.schema.json`), 'utf8')) as Record<
    string,
    unknown
  >;

const ajv = new Ajv2020({ allErrors: true, strict: true, allowUnionTypes: true });
const valid = { check: ajv.compile(schema('check')), describe: ajv.compile(schema('describe')) };

let w: World;
beforeAll(async () => {
  w = await world();
});
afterAll(() => w.remove());

async function judge(command: 'check' | 'describe', argv: readonly string[], text = ''): Promise<string> {
  const { stdout, stderr } = await w.run([command, ...argv, '--format', 'json'], text);
  expect(stderr).toBe('');
  const data: unknown = JSON.parse(stdout);
  const fits = valid[command](data);
  expect(fits ? [] : valid[command].errors?.slice(0, 5)).toEqual([]);
  // -0 and exponents of rounding noise have no place in it.
  expect(stdout).not.toMatch(/: -0[,\n]/);
  return stdout;
}

const folders = ['samples', 'tests/findings/fixtures'].map((name) => join(__dirname, '../..', name));
const files = folders.flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.cage'))
    .map((name) => join(folder, name)),
);

describe('json', () => {
  it.each(files.map((file) => [basename(file), file]))('of %s', async (_, file) => {
    await judge('check', [file]);
    await judge('describe', [file]);
  });

  it.each([
    ['nothing', ''],
    ['a good car', GOOD],
    ['a closed bore', UNVENTED],
    ['a broken car', BROKEN],
    ['one without a node', GOOD.replace('node e', 'node q')],
    ['one whose wall leaves no bore', GOOD.replace('wall 2.5 }', 'wall 25 }')],
    ['one that is very far away', GOOD.replaceAll('300', '30000000000')],
    ['an overflow', GOOD.replace('900', `1${'0'.repeat(300)} * 1${'0'.repeat(300)}`)],
    [
      'a shop',
      `${GOOD}saw { kerf 2 }\ntorch { nozzle 16; reach 60 }\nstock s { length 6000; have 0.5 mm }\nstock t { length x }`,
    ],
    ['waivers', `${UNVENTED}waive shop strap.drop on rail first up to 12 deg because "x"\n`],
  ])('of %s', async (_, text) => {
    await judge('check', ['-'], text);
    await judge('describe', ['-'], text);
  });

  it('of any damage to a car', async () => {
    const sample = readFileSync(join(folders[0] ?? '', 'plover-rollbar.cage'), 'utf8');
    const lines = sample.split('\n');
    await fc.assert(
      fc.asyncProperty(
        fc.nat(lines.length - 1),
        fc.constantFrom('cut', 'drop', 'twice', 'minus', 'zero'),
        async (at, damage) => {
          const line = lines[at] ?? '';
          const hurt = {
            cut: [line.slice(0, line.length / 2)],
            drop: [],
            twice: [line, line],
            minus: [line.replace(/\d+/, '-$&')],
            zero: [line.replace(/\d+/g, '0')],
          }[damage];
          await judge('describe', ['-'], [...lines.slice(0, at), ...hurt, ...lines.slice(at + 1)].join('\n'));
        },
      ),
      { numRuns: 60 },
    );
  });

  it('is the same bytes every time', async () => {
    expect(await judge('describe', ['-'], GOOD)).toBe(await judge('describe', ['-'], GOOD));
  });
});

describe('the schemas', () => {
  const model = async (): Promise<Record<string, unknown>> =>
    JSON.parse(await judge('describe', ['-'], GOOD)) as Record<string, unknown>;

  it('refuse what is missing, what is more, and what is no number', async () => {
    expect(valid.describe(await model())).toBe(true);
    for (const key of Object.keys(await model())) {
      const data = await model();
      Reflect.deleteProperty(data, key);
      expect(valid.describe(data)).toBe(false);
    }
    expect(valid.describe({ ...(await model()), more: 1 })).toBe(false);
    expect(valid.describe({ ...(await model()), mass: 'heavy' })).toBe(false);
    expect(valid.describe({ ...(await model()), version: 2 })).toBe(false);
  });
});
