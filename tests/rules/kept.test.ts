/**
 * What judging keeps from one run to the next changes nothing of what is said: held, edit by edit, against a judgement
 * of the same car that knows nothing from before; word for word, and in the same order. (The tool against itself: what
 * is right of a figure is held against the books elsewhere.) And what is taken anew is counted.
 */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { STAGES } from '../../grammar/explanations';
import { Project } from '../../server/project/pipeline';
import { BOOKS } from '../../server/rules/books';
import { Judging, judge } from '../../server/rules/judge';
import { RULES } from '../../server/rules/rules';
import { generateCar } from '../bench/generate';
import { mapHost } from '../support/analyse';
import { EDGES } from './edge-cars';
import { FIA_EDGES } from './edge-cars-fia';
import { FIA_OUTFIT_EDGES } from './edge-cars-fia-outfit';
import { NA_EDGES } from './edge-cars-na';
import { SHOP_EDGES } from './edge-cars-shop';

const SAMPLES = path.resolve(__dirname, '../../samples');
const FILES = new Map(
  readdirSync(SAMPLES)
    .filter((name) => name.endsWith('.cage'))
    .map((name): [string, string] => [name, readFileSync(path.join(SAMPLES, name), 'utf8')]),
);
const sample = (name: string): string => FILES.get(name) ?? '';

const ALL = `rules ${BOOKS.map(({ name }) => name).join(', ')}`;
const byAll = (text: string): string =>
  /^rules .*$/m.test(text) ? text.replace(/^rules .*$/m, ALL) : `${ALL}\n${text}`;

/** One car that is judged again and again, as an editor does. */
class Bench {
  private readonly project = new Project();
  readonly kept = new Judging();

  /** Judges the next text of it, by what is kept and by nothing; gives how much was taken anew. */
  async next(text: string): Promise<number> {
    const { cage, shape } = this.project.analyse(await this.project.load(mapHost(FILES), 'car.cage', text));
    const { findings, asked } = this.kept.judge(cage, shape);
    const taken = this.kept.takeRuns();
    expect(findings).toEqual(judge(cage, shape));
    expect([...asked]).toEqual([...new Judging().judge(cage, shape).asked]);
    return taken;
  }
}

/** Facts that many rules hang on, written in and out again. */
const FACTS = [
  'vehicle { mass 2600 lb }',
  'vehicle { mass 980 kg without driver; body open; homologated "1994-06-01"; kind formula }',
  'vehicle { mass 700 kg with driver; body closed; passport "2003-01-01"; cage asn; identified yes; shell aluminium }',
  'vehicle { mass 1300 kg; cage fia; frame yes; codriver no; finish galvanized; elapsed-time 9.5 }',
  'vehicle { elapsed-time 10.5; codriver yes; shell steel; front-suspension (1760, 455, 640); rear-suspension (-900, 480, 560) }',
  'welding { process mig; ground yes }',
  'welding { process tig; weld part }',
] as const;

const ROLES = ['main-rollbar', 'backstay', 'diagonal', 'harness-bar', 'roof-bar', 'door-bar', 'transverse', 'brace'];
const IN_A_TUBE = ['existing yes', 'finish chrome', 'finish galvanized', 'carries "a hose"'];

const BOOK = (to: number, base: string): string =>
  `rulebook own-club { based-on ${base}; limit strap.drop to ${String(to)} deg }\n`;

interface Edit {
  readonly kind: number;
  readonly where: number;
  readonly pick: number;
}

const edit: fc.Arbitrary<Edit> = fc.record({
  kind: fc.noBias(fc.nat({ max: 9 })),
  where: fc.noBias(fc.nat({ max: 9999 })).map((n) => n / 10_000),
  pick: fc.noBias(fc.nat({ max: 999 })),
});

/** Puts something else in the place of one of the matches. */
function swapped(text: string, pattern: RegExp, where: number, put: (match: RegExpExecArray) => string): string {
  const matches = [...text.matchAll(pattern)];
  const match = matches[Math.floor(where * matches.length)];
  if (match === undefined) return text;
  return text.slice(0, match.index) + put(match) + text.slice(match.index + match[0].length);
}

const from = (list: readonly string[], pick: number): string => list[pick % list.length] ?? '';

/** A statement at the left edge, with its block. */
const STATEMENT = /^(?:tube|foot|strap|seat|vent|gusset|padding|node|mirror|anchor|panel)\b[^\n{]*(?:\{[^{}]*\})?\n/gm;

function edited(text: string, { kind, where, pick }: Edit): string {
  switch (kind) {
    case 0:
    case 1:
      return swapped(text, /\d+(\.\d+)?/g, where, ([figure]) => String(Number(figure) + (pick % 7) - 3));
    case 2:
      return swapped(text, /\bas [a-z-]+/g, where, () => `as ${from(ROLES, pick)}`);
    case 3:
      return swapped(
        text,
        /^( *(?:tube|strap|seat|foot|gusset|anchor)\b[^\n]*\{) */gm,
        where,
        ([head]) => `${head} ${from(IN_A_TUBE, pick)}; `,
      );
    case 4:
      return /^(vehicle|welding) /m.test(text)
        ? text.replace(/^(vehicle|welding) \{[^}]*\}/m, from(FACTS, pick))
        : `${text}\n${from(FACTS, pick)}\n`;
    case 5:
      return text.replace(
        /^rules .*$/m,
        `rules ${BOOKS.filter((_, i) => ((pick >> i) & 1) === 1 || i === pick % BOOKS.length)
          .map(({ name }) => name)
          .join(', ')}`,
      );
    case 6:
      return swapped(text, STATEMENT, where, () => '');
    case 7:
      return swapped(text, STATEMENT, where, ([statement]) => `${statement}# ${String(pick)}\n`).replace(
        /^units (mm|in)$/m,
        pick % 10 === 0 ? 'units in' : 'units $1',
      );
    case 8: {
      const base = BOOKS[pick % BOOKS.length]?.name ?? '';
      const without = text.replace(/^rulebook own-club .*\n/m, '').replace(/^rules (own-club, )?/m, 'rules own-club, ');
      return without + BOOK(pick % 40, base);
    }
    default:
      // The same lines at another place.
      return swapped(text, STATEMENT, where, () => '') + (statementAt(text, where) ?? '');
  }
}

function statementAt(text: string, where: number): string | undefined {
  const matches = [...text.matchAll(STATEMENT)];
  return matches[Math.floor(where * matches.length)]?.[0];
}

describe('what is kept says what one says that judges for the first time', () => {
  const edges = [...EDGES, ...FIA_EDGES, ...FIA_OUTFIT_EDGES, ...NA_EDGES, ...SHOP_EDGES];
  for (const stage of ['hoop', 'parts'] as const) {
    it(
      `of every rule just inside, just outside and with its fact missing, one car after the other: ${stage}`,
      { timeout: 400_000 },
      async () => {
        const bench = new Bench();
        for (const { inside, outside, missing, stage: own } of edges) {
          if ((own ?? 'hoop') !== stage) continue;
          for (const text of [inside, outside, ...(missing === null ? [] : [missing[0]])])
            await bench.next(byAll(STAGES[stage] + text));
        }
      },
    );
  }

  it('of every rule good and bad', { timeout: 400_000 }, async () => {
    const bench = new Bench();
    for (const { explanation } of RULES) {
      for (const text of [explanation.good, explanation.bad])
        await bench.next(byAll(STAGES[explanation.stage ?? 'hoop'] + text));
    }
  });

  for (const [name, runs] of [
    ['plover-rollbar.cage', 16],
    ['siskin-club-bar.cage', 10],
    ['curlew-cage.cage', 8],
    ['every-finding.cage', 6],
  ] as const) {
    it(`of ${name}, whatever is written in it`, { timeout: 400_000 }, async () => {
      await fc.assert(
        fc.asyncProperty(fc.array(edit, { minLength: 4, maxLength: 10 }), fc.boolean(), async (edits, all) => {
          const bench = new Bench();
          let text = all ? byAll(sample(name)) : sample(name);
          await bench.next(text);
          for (const one of edits) {
            const before = text;
            text = edited(text, one);
            await bench.next(text);
            // Half of what takes something out is put back: the car goes on to be one.
            if (one.kind > 5 && one.pick % 2 === 0) {
              text = before;
              await bench.next(text);
            }
          }
        }),
        { numRuns: runs },
      );
    });
  }

  it('of two cars in turn', { timeout: 200_000 }, async () => {
    const bench = new Bench();
    for (let i = 0; i < 3; i++)
      for (const name of ['plover-rollbar.cage', 'curlew-cage.cage']) await bench.next(byAll(sample(name)));
  });
});

describe('what is taken anew', () => {
  const CAR = byAll(sample('curlew-cage.cage'));

  it('is nothing where nothing is different, where lines move and where a comment is written', async () => {
    const bench = new Bench();
    const all = await bench.next(CAR);
    expect(all).toBeGreaterThan(500);
    expect(await bench.next(CAR)).toBe(0);
    expect(await bench.next(`# a line\n\n${CAR}`)).toBe(0);
  });

  it('after one height is as much in a long car as in a short one', async () => {
    const anew = async (modules: number): Promise<number> => {
      const bench = new Bench();
      const text = byAll(generateCar(modules * 65));
      await bench.next(text);
      return bench.next(text.replace(/let bar-height-1 = .*/, 'let bar-height-1 = 760'));
    };
    const [short, long] = [await anew(4), await anew(24)];
    expect(short).toBeGreaterThan(10);
    expect(short).toBeLessThan(150);
    expect(long).toBeLessThanOrEqual(short);
  });

  it('is kept no longer than a car needs it', async () => {
    const bench = new Bench();
    await bench.next(CAR);
    const { size } = bench.kept;
    for (let i = 0; i < 60; i++)
      await bench.next(CAR.replace(/\b(\d{3})\b/, (_, figure: string) => String(Number(figure) + i)));
    expect(bench.kept.size).toBeLessThan(1.5 * size + 300);
  });
});
