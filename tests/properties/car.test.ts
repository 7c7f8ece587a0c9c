/**
 * What must hold for every car, whatever its figures: the mirror, the choice of origin, the order of statements and the
 * unit of the file change nothing but names and coordinates. (Invariants of the language, no outside source needed.)
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { modelJson } from '../../server/project/describe';
import type { Analysis } from '../../server/project/project';
import { analyse as analyseText } from '../support/analyse';

interface Draw {
  readonly halfFoot: number;
  readonly halfWaist: number;
  readonly halfCrown: number;
  readonly waistUp: number;
  readonly crownUp: number;
  readonly lean: number;
  readonly bar: number;
  readonly stayAft: number;
  readonly recline: number;
  readonly hipX: number;
}

const draw: fc.Arbitrary<Draw> = fc.record({
  halfFoot: fc.integer({ min: 560, max: 620 }),
  halfWaist: fc.integer({ min: 600, max: 660 }),
  halfCrown: fc.integer({ min: 440, max: 520 }),
  waistUp: fc.integer({ min: 420, max: 500 }),
  crownUp: fc.integer({ min: 980, max: 1080 }),
  lean: fc.integer({ min: 0, max: 9 }),
  bar: fc.integer({ min: 700, max: 800 }),
  stayAft: fc.integer({ min: 600, max: 900 }),
  recline: fc.integer({ min: 5, max: 25 }),
  hipX: fc.integer({ min: 220, max: 330 }),
});

/** Prints a length of the draw in the file's unit; 30 digits' worth is exact enough for both. */
type Say = (mm: number) => string;
const inMm: Say = (value) => String(value);
const inInches: Say = (value) => (value / 25.4).toFixed(12);

/** The statements of a symmetric car; `dx`, `dz` move it. */
const statements = (d: Draw, say: Say, units: string, dx = 0, dz = 0): string[] => [
  'cage "An invented bar"',
  `units ${units}`,
  'rules fia-253, shop',
  `section hoop { od ${say(45)}; wall ${say(2.5)} }`,
  `section bar { od ${say(38)}; wall ${say(2.5)} }`,
  `die d45 { od ${say(45)}; radius ${say(135)}; grip ${say(90)}; between ${say(60)} }`,
  `plane hoop { at (${say(dx)}, 0, ${say(100 + dz)}); leans ${d.lean} deg aft }`,
  `mirror left {
  node foot = in hoop (out ${say(d.halfFoot)}, up 0)
  node waist = in hoop (out ${say(d.halfWaist)}, up ${say(d.waistUp)})
  node crown = in hoop (out ${say(d.halfCrown)}, up ${say(d.crownUp)})
  node stay-top = on main-hoop at ${say(60)} before crown
  node stay-foot = (${say(dx - d.stayAft)}, ${say(520)}, ${say(430 + dz)})
  node bar-end = on main-hoop where z = ${say(d.bar + dz)}
  tube backstay as backstay { section bar; path stay-top, stay-foot }
  foot hoop-foot { at foot; plate ${say(140)} x ${say(100)} x ${say(3)}; lies level; bolts 3 x M8; hole ${say(8)} }
  foot stay-plate { at stay-foot; plate ${say(100)} x ${say(60)} x ${say(3)}; lies square }
}`,
  `tube main-hoop as main-rollbar { section hoop; die d45; path foot.left, waist.left, crown.left, crown.right, waist.right, foot.right }`,
  `tube harness-bar as harness-bar { section bar; path bar-end.left, bar-end.right }`,
  `mirror left {
  seat driver { hip (${say(dx + d.hipX)}, ${say(345)}, ${say(280 + dz)}); recline ${d.recline} deg; slot-height ${say(545)}; slot-spacing ${say(220)}; back ${say(45)} }
  strap outer-strap { seat driver; slot outer; to harness-bar; width ${say(75)}; hardware ${say(110)}; collars ${say(20)} gap ${say(1.5)} }
  strap inner-strap { seat driver; slot inner; to harness-bar; width ${say(75)}; hardware ${say(110)} }
}`,
];

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
/** Ranges are dropped before anything is compared. */
const nowhere = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
const model = (analysis: Analysis): Json => JSON.parse(JSON.stringify(modelJson(analysis, () => nowhere))) as Json;

/** Compares two JSON trees; numbers within `slack`. Returns the paths that differ. */
function differences(a: Json, b: Json, slack: number, path = ''): string[] {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= slack ? [] : [`${path}: ${a} ${b}`];
  if (a === null || b === null || typeof a !== 'object' || typeof b !== 'object')
    return a === b ? [] : [`${path}: ${String(a)} ${String(b)}`];
  const keys = [...new Set([...Object.keys(a), ...Object.keys(b)])];
  return keys.flatMap((key) =>
    differences(
      (a as Record<string, Json>)[key] ?? null,
      (b as Record<string, Json>)[key] ?? null,
      slack,
      `${path}/${key}`,
    ),
  );
}

const without = (json: Json, drop: ReadonlySet<string>): Json => {
  if (json === null || typeof json !== 'object') return json;
  if (Array.isArray(json)) return json.map((item: Json) => without(item, drop));
  return Object.fromEntries(
    Object.entries(json)
      .filter(([key]) => !drop.has(key))
      .map(([key, value]) => [key, without(value as Json, drop)]),
  );
};

const byName = (json: Json): Json => {
  if (json === null || typeof json !== 'object') return json;
  if (Array.isArray(json)) {
    const items = json.map((item: Json) => byName(item));
    return items.every((item) => item !== null && typeof item === 'object' && 'name' in item)
      ? [...items].sort((p, q) => (String((p as { name: Json }).name) < String((q as { name: Json }).name) ? -1 : 1))
      : items;
  }
  return Object.fromEntries(Object.entries(json).map(([key, value]) => [key, byName(value as Json)]));
};

const RUNS = { numRuns: 25, seed: 20260101 };

describe('every car', () => {
  it('has twins that are exact reflections', async () => {
    await fc.assert(
      fc.asyncProperty(draw, async (d) => {
        const { cage, shape } = await analyseText(statements(d, inMm, 'mm').join('\n'));
        for (const thing of cage.things.values()) {
          if (thing.kind !== 'node' || thing.side !== 'left') continue;
          const twin = cage.things.get(`${thing.base}.right`);
          expect(twin?.kind).toBe('node');
          if (twin?.kind !== 'node' || thing.at === null) continue;
          expect(twin.at).toEqual([thing.at[0], -thing.at[1], thing.at[2]]);
        }
        const left = shape.parts.get('backstay.left');
        const right = shape.parts.get('backstay.right');
        expect(left?.cutLength).not.toBeNull();
        expect(right?.cutLength).toBeCloseTo(left?.cutLength ?? Number.NaN, 9);
        for (const which of [0, 1] as const) {
          const a = left?.ends[which].ordinates ?? [];
          const b = right?.ends[which].ordinates ?? [];
          // The clock of the twin runs the other way round.
          a.forEach((ordinate, n) => expect(b[36 - n]?.cut).toBeCloseTo(ordinate.cut ?? Number.NaN, 7));
        }
      }),
      RUNS,
    );
  });

  it('has the same figures wherever it stands along the road and above it', async () => {
    await fc.assert(
      fc.asyncProperty(
        draw,
        fc.integer({ min: -3000, max: 3000 }),
        fc.integer({ min: -500, max: 500 }),
        async (d, dx, dz) => {
          const drop = new Set(['at', 'slot', 'start', 'contact', 'message', 'range', 'notes']);
          const here = without(model(await analyseText(statements(d, inMm, 'mm').join('\n'))), drop);
          const there = without(model(await analyseText(statements(d, inMm, 'mm', dx, dz).join('\n'))), drop);
          expect(differences(here, there, 2e-6)).toEqual([]);
        },
      ),
      RUNS,
    );
  });

  it('does not care in which order it is written', async () => {
    await fc.assert(
      fc.asyncProperty(draw, fc.array(fc.nat(), { minLength: 20, maxLength: 20 }), async (d, seeds) => {
        const lines = statements(d, inMm, 'mm');
        const rest = lines.slice(2);
        const shuffled = rest
          .map((text, n) => ({ text, key: seeds[n] ?? 0 }))
          .sort((p, q) => p.key - q.key)
          .map(({ text }) => text);
        const drop = new Set(['range', 'notes']);
        const a = byName(without(model(await analyseText(lines.join('\n'))), drop));
        const b = byName(without(model(await analyseText([...lines.slice(0, 2), ...shuffled].join('\n'))), drop));
        const sort = (json: Json): Json => {
          const { findings, ...others } = json as { findings: Json[] };
          return { ...others, findings: [...findings].map((f) => JSON.stringify(f)).sort() };
        };
        expect(differences(sort(a), sort(b), 1e-9)).toEqual([]);
      }),
      RUNS,
    );
  });

  it('has the same figures in millimetres and in inches', async () => {
    await fc.assert(
      fc.asyncProperty(draw, async (d) => {
        const drop = new Set(['message', 'range', 'notes']);
        const a = without(model(await analyseText(statements(d, inMm, 'mm').join('\n'))), drop);
        const b = without(model(await analyseText(statements(d, inInches, 'in').join('\n'))), drop);
        expect(differences(a, b, 2e-6)).toEqual([]);
      }),
      RUNS,
    );
  });
});
