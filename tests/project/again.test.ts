/**
 * An editor's project lives for thousands of edits and works out again only what an edit touches. What it says is held
 * here against a project that has never seen the car before; and what it works out is counted.
 */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Project } from '../../server/project/pipeline';
import type { Analysis } from '../../server/project/project';
import { mapHost } from '../support/analyse';

const SAMPLES = path.resolve(__dirname, '../../samples');
const sample = (name: string): string => readFileSync(path.join(SAMPLES, name), 'utf8');

const FILES = new Map(
  ['curlew-seats.cage', 'every-finding-part.cage'].map((name): [string, string] => [name, sample(name)]),
);

async function run(project: Project, text: string, files: ReadonlyMap<string, string> = FILES): Promise<Analysis> {
  return project.analyse(await project.load(mapHost(files), 'car.cage', text));
}

/** Everything that an analysis says, without the trees that it was read from. Curves are asked at a few clocks. */
function plain(analysis: Analysis): unknown {
  const { cage, shape, findings, waivers } = analysis;
  const seen = (value: unknown): unknown =>
    JSON.parse(
      JSON.stringify(value, (key, part: unknown) => {
        if (key === 'statement') return (part as { offset: number }).offset;
        if (key === 'entry') return (part as { span: unknown }).span;
        // Asked for below: what an end holds to work that out is nobody's business.
        if (key === 'curve' || key === 'figures') return null;
        return part;
      }) ?? 'null',
    ) as unknown;
  const parts = [...shape.parts.values()];
  return {
    things: seen([...cage.things]),
    planes: seen([...cage.planes]),
    parts: seen(parts),
    ends: seen(parts.map(({ ends }) => ends.map(({ ordinates, saddleLength }) => ({ ordinates, saddleLength })))),
    curves: parts.map(({ ends }) => ends.map(({ curve }) => [0.1, 2, 4].map((clock) => curve?.cut(clock) ?? null))),
    straps: seen(shape.straps),
    seats: seen(shape.seats),
    spaces: seen(shape.spaces),
    mass: shape.mass,
    findings: seen(findings),
    waivers: seen(waivers),
  };
}

/** One edit, at a share of the text: a figure, some characters, or a whole line. */
interface Edit {
  readonly kind: 'digit' | 'characters' | 'cut-line' | 'copy-line' | 'new-line';
  readonly where: number;
  readonly cut: number;
  readonly put: string;
}

const edit: fc.Arbitrary<Edit> = fc.record({
  kind: fc.constantFrom('digit', 'digit', 'digit', 'characters', 'cut-line', 'copy-line', 'new-line'),
  // Anywhere alike: a car's edges are not where it is most delicate.
  where: fc.noBias(fc.nat({ max: 9999 })).map((n) => n / 10000),
  cut: fc.noBias(fc.nat({ max: 3 })),
  put: fc.constantFrom(
    '1',
    '7',
    ' ',
    '.',
    '}',
    '{',
    '-',
    'left',
    'in',
    'x',
    ';',
    '# ',
    '5 mm',
    'node spare = (1, 2, 3)',
  ),
});

function edited(text: string, { kind, where, cut, put }: Edit): string {
  if (kind === 'digit') {
    const digits = [...text.matchAll(/\d/g)];
    const { index } = digits[Math.floor(where * digits.length)] ?? { index: 0 };
    return text.slice(0, index) + String((cut * 3 + put.length) % 10) + text.slice(index + 1);
  }
  const at = Math.floor(where * text.length);
  if (kind === 'characters') return text.slice(0, at) + put + text.slice(at + cut);
  const from = text.lastIndexOf('\n', at) + 1;
  const to = text.indexOf('\n', at) + 1 || text.length;
  if (kind === 'cut-line') return text.slice(0, from) + text.slice(to);
  if (kind === 'copy-line') return text.slice(0, to) + text.slice(from, to) + text.slice(to);
  return `${text.slice(0, from)}${put}\n${text.slice(from)}`;
}

describe('a project that has lived through edits', () => {
  it('says the same when the edits are in a file that the car uses', { timeout: 60_000 }, async () => {
    const project = new Project();
    const text = sample('curlew-cage.cage');
    const seats = sample('curlew-seats.cage');
    await run(project, text);
    for (const [from, to] of [
      ['recline', '# moved\n  recline'],
      [/\d(?= deg)/, '9'],
      [/^seat \S+/m, 'seat other'],
      [/\}/, ''],
    ] as const) {
      const files = new Map([['curlew-seats.cage', seats.replace(from, to)]]);
      expect(plain(await run(project, text, files))).toEqual(plain(await run(new Project(), text, files)));
      expect(plain(await run(project, text))).toEqual(plain(await run(new Project(), text)));
    }
  });

  it('keeps cars apart that it judges in turn', { timeout: 60_000 }, async () => {
    const project = new Project();
    const cars = ['plover-rollbar.cage', 'siskin-club-bar.cage', 'every-finding.cage'];
    for (const note of ['', '# once more\n', '\n# and again\n']) {
      for (const name of cars) {
        const text = note + sample(name);
        const own = await project.load(mapHost(FILES), name, text);
        const fresh = new Project();
        const anew = fresh.analyse(await fresh.load(mapHost(FILES), name, text));
        expect(plain(project.analyse(own))).toEqual(plain(anew));
      }
    }
  });

  for (const [name, runs] of [
    ['plover-rollbar.cage', 10],
    ['every-finding.cage', 4],
    ['curlew-cage.cage', 3],
  ] as const) {
    it(`says of ${name} what one says that sees it for the first time`, { timeout: 120_000 }, async () => {
      await fc.assert(
        fc.asyncProperty(fc.array(edit, { minLength: 2, maxLength: 6 }), async (edits) => {
          const project = new Project();
          let text = sample(name);
          await run(project, text);
          for (const one of edits) {
            const before = text;
            text = edited(text, one);
            expect(plain(await run(project, text))).toEqual(plain(await run(new Project(), text)));
            // Most edits are taken back or mended: so what follows is not all in a broken car.
            if (one.kind !== 'digit') text = before;
          }
        }),
        { numRuns: runs },
      );
    });
  }
});

const CAR = sample('plover-rollbar.cage');
const NOTHING = { end: 0, part: 0, clash: 0, strap: 0, seat: 0, vent: 0 };

/** What runs again in a project that knows the car when it becomes another text. */
async function runsAfter(before: string, after: string): Promise<Readonly<Record<string, number>>> {
  const project = new Project();
  await run(project, before);
  return (await run(project, after)).runs;
}

describe('what runs again', () => {
  it('is nothing when nothing is different', async () => {
    expect(await runsAfter(CAR, CAR)).toEqual({ ...NOTHING, parse: 0, statement: 0, evaluate: 0, judgement: 0 });
  });

  it('is no figure when lines only move', async () => {
    expect(await runsAfter(CAR, `# a line\n\n${CAR}`)).toEqual({
      ...NOTHING,
      parse: 1,
      statement: 0,
      evaluate: 0,
      judgement: 0,
    });
  });

  it('is no figure when a comment is written into a statement', async () => {
    const after = CAR.replace('  section bar\n', '  section bar # the thin one\n');
    expect(await runsAfter(CAR, after)).toMatchObject({ ...NOTHING, statement: 1 });
  });

  it('is no figure when a statement is written that nothing hangs on', async () => {
    expect(await runsAfter(CAR, `${CAR}\nnode spare = (1, 2, 3)\n`)).toMatchObject(NOTHING);
  });

  it('is no figure when statements change places', async () => {
    const lines = /^strap [^}]*\}\n/gm;
    const straps = CAR.match(lines) ?? [];
    expect(straps.length).toBeGreaterThan(1);
    const turned = [...straps].reverse();
    let i = 0;
    expect(
      await runsAfter(
        CAR,
        CAR.replace(lines, () => turned[i++] ?? ''),
      ),
    ).toMatchObject(NOTHING);
  });

  it('is one strap when one strap is different', async () => {
    const after = CAR.replace(/width 75/, 'width 74');
    expect(after).not.toBe(CAR);
    expect(await runsAfter(CAR, after)).toMatchObject({ ...NOTHING, statement: 1, evaluate: 1, strap: 1 });
  });

  it('is one seat and its straps when a seat is different', async () => {
    const after = CAR.replace(/recline (\d+)/, 'recline 1$1');
    expect(after).not.toBe(CAR);
    expect(await runsAfter(CAR, after)).toMatchObject({ ...NOTHING, seat: 1, strap: 2 });
  });

  it('is the harness bar, what is cut to it and what lies on it when its height is different', async () => {
    const whole = new Project();
    const all = (await run(whole, CAR)).runs;
    const runs = await runsAfter(CAR, CAR.replace('bar-height = 756', 'bar-height = 757'));
    expect(runs['part']).toBe(1);
    expect(runs['strap']).toBe(all['strap']);
    expect(runs['end']).toBeLessThan(all['end'] ?? 0);
    expect(runs['end']).toBeGreaterThan(0);
  });
});
