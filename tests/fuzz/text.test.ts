/** Any text at all: nothing throws, no figure is anything but a number or null, and every answer stands in the text. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CODES } from '../../grammar/codes';
import { KINDS } from '../../grammar/vocabulary';
import { DIRECTIONS, FUNCTIONS } from '../../grammar/words';
import { UNITS } from '../../grammar/units';
import { askAll, askFile, soundFormat, soundly, FILE } from './everything';

const sample = (name: string): string => readFileSync(path.join(import.meta.dirname, '../../samples', name), 'utf8');
const PLOVER = sample('plover-rollbar.cage');
const FILES = { 'curlew-seats.cage': sample('curlew-seats.cage') };
/** Every kind of hardware, round a small hoop. */
const HARDWARE = `cage "Hardware"
rules fia-253, scca-gcr, nhra
vehicle { mass 980 kg without driver; homologated "2006-04-01"; cage self-built; front-suspension (900, 500, 600) }
section t45 { od 45; wall 2.5 }
section t38 { od 38; wall 2.5 }
die d45 { od 45; radius 135 }
mirror left {
  node foot  = (0, 600, 0)
  node crown = (0, 550, 1000)
  node top = on hoop at 60 before crown
  node heel = (-700, 520, 430)
  tube stay as backstay { section t38; path top, heel; last open; carries "line"; finish chrome }
  foot shoe { at foot; plate 140 x 100 x 3; bolts 3 x M8 8.8; bolts-at (forward 50, out 30), (50, -30), (aft 50, out 0); counter-plate 160 x 120 x 3 welded }
  gusset web { at top; between hoop, stay; legs 120 x 110; thickness 1.5; kind sheet; cut-out 40; hole 20 }
  hole hoop for inspection { at foot; from 300; clock 90; dia 5 }
  padding hoop { thickness 25; from 900 to 1300; standard sfi 45.1 }
  fitting pin { tube stay first; kind clevis; shear double; bolt M10 8.8; stand-off 35; drawing "253-37" }
  door front { outline (900, 700, 250), (-150, 700, 250), (-150, 650, 900), (300, 650, 900) }
}
panel skin as roof { outline crown.left, crown.right, (-500, 0, 1200) }
tube hoop as main-rollbar { section t45; die d45; path foot.left, crown.left, crown.right, foot.right }
seat driver { hip (230, 345, 300); recline 12 to 25 deg; slide 0 to 80; slot-height 545; slot-spacing 220; back 45; helmet (forward 60, up 280) radius 150 }
seat-mount rails { seat driver; points 4; bolts 4 x M8 8.8; plate 80 x 60 x 3; load 15 kN }
anchor belt as lap { seat driver; at (150, 600, 200); plate 80 x 60 x 3; bolt 7/16 in grade 5 }
`;
const SAMPLES = [PLOVER, FILES['curlew-seats.cage'], sample('every-finding.cage'), HARDWARE];

/** Pieces of text that once broke something somewhere, or might. */
const NASTY = [
  '{',
  '}',
  '(',
  ')',
  '"',
  '\\',
  '#',
  ';',
  ',',
  '\n',
  '\r\n',
  '\r',
  '\t',
  '->',
  '-',
  ' - ',
  '=',
  '.',
  '/',
  'x',
  ' x ',
  '°',
  '%',
  '\0',
  '\u2028',
  '\ufeff',
  '\ud800',
  '\udc00',
  '😀',
  'e\u0301',
  '\u0301',
  '\u202e',
  '\u200d',
  '0',
  '-1',
  '1/0',
  '0/0',
  '1 1/2',
  '1-1/2',
  '1,5',
  '1.5"',
  '1e400',
  '9'.repeat(400),
  `.${'0'.repeat(330)}1`,
  '999999999999999999',
  '0.0000001',
  '90 deg',
  '180 deg',
  '-90 deg',
  'sqrt(-1)',
  'asin(2)',
  'tan(90 deg)',
  'atan2(0, 0)',
  '(0, 0, 0)',
  '__proto__',
  'constructor',
  'toString',
  '.left',
  '.right',
  '.a',
  'mirror left {',
  'split by main-hoop',
  'first onto main-hoop',
  'use "example.cage"',
  'use "../x.cage"',
  'on main-hoop where z = ',
  'adjust foot.left by (down 4)',
] as const;

const nasty = fc.constantFrom(...NASTY);

type Change = (text: string) => string;

/** One change to a text: something put in, taken out, doubled, exchanged. */
const change: fc.Arbitrary<Change> = fc.oneof(
  fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), nasty).map(([at, piece]): Change => (text) => {
    const offset = Math.floor(at * text.length);
    return text.slice(0, offset) + piece + text.slice(offset);
  }),
  fc
    .tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.integer({ min: 1, max: 60 }))
    .map(([at, length]): Change => (text) => {
      const offset = Math.floor(at * text.length);
      return text.slice(0, offset) + text.slice(offset + length);
    }),
  // A number becomes another one.
  fc
    .tuple(fc.nat(), fc.constantFrom('0', '-1', '1', '0.001', '360', '10000', '9'.repeat(309), '1/3', '5 in', '3 deg'))
    .map(
      ([pick, number]): Change =>
        (text) =>
          replaceNth(text, /\d+(?:\.\d+)?/g, pick, number),
    ),
  // A name becomes another name of the same text.
  fc.tuple(fc.nat(), fc.nat()).map(([pick, other]): Change => (text) => {
    const words = text.match(/[a-z][a-z-]+/g) ?? ['a'];
    return replaceNth(text, /[a-z][a-z-]+/g, pick, words[other % words.length] ?? 'a');
  }),
  // A line again, or in another place.
  fc.tuple(fc.nat(), fc.nat(), fc.boolean()).map(([from, to, keep]): Change => (text) => {
    const lines = text.split('\n');
    const line = lines[from % lines.length] ?? '';
    if (!keep) lines.splice(from % lines.length, 1);
    lines.splice(to % (lines.length + 1), 0, line);
    return lines.join('\n');
  }),
);

function replaceNth(text: string, pattern: RegExp, pick: number, by: string): string {
  const found = [...text.matchAll(pattern)];
  const one = found[pick % Math.max(1, found.length)];
  return one === undefined ? text : text.slice(0, one.index) + by + text.slice(one.index + one[0].length);
}

const changed = (from: fc.Arbitrary<string>): fc.Arbitrary<string> =>
  fc
    .tuple(from, fc.array(change, { minLength: 1, maxLength: 6 }))
    .map(([text, changes]) => changes.reduce((now, one) => one(now), text));

/** Words of the language, names and numbers, in any order. */
const KIND_NAMES = KINDS.map((kind) => kind.name);
const WORDS = [
  ...KIND_NAMES,
  ...KINDS.flatMap((kind) => kind.facts.map((fact) => fact.name)),
  ...Object.keys(DIRECTIONS),
  ...Object.keys(FUNCTIONS),
  ...Object.keys(UNITS),
  ...Object.keys(CODES),
  ...['on', 'in', 'between', 'and', 'at', 'from', 'where', 'meets', 'near', 'nearest', 'before', 'after', 'mid'],
];
const NAMES = ['a', 'b', 'c', 't', 'u', 'a.left', 'b.right', 't.a', 'a.x', 'main-hoop', 's', 'd'];
const NUMBERS = ['0', '1', '38', '2.5', '-40', '100', '300', '1 1/2', '30 deg', '40 %', '(0, 0, 0)', '(300, 400, 500)'];
const atom = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...NAMES) },
  { weight: 3, arbitrary: fc.constantFrom(...NUMBERS) },
  { weight: 2, arbitrary: fc.constantFrom(...WORDS) },
  { weight: 2, arbitrary: fc.constantFrom(',', '=', '+', '(', ')', '->', '"x"', 'x') },
  { weight: 1, arbitrary: nasty },
);
const words = (most: number): fc.Arbitrary<string> => fc.array(atom, { maxLength: most }).map((all) => all.join(' '));

/** A line of a fact of a kind, with something behind it that may or may not fit. */
const factOf = (kind: string): fc.Arbitrary<string> => {
  const facts = KINDS.find(({ name }) => name === kind)?.facts.map((fact) => fact.name) ?? [];
  const name = facts.length === 0 ? fc.constantFrom(...WORDS) : fc.constantFrom(...facts);
  return fc.tuple(name, words(5)).map(([fact, rest]) => `${fact} ${rest}`);
};
const statement = fc
  .constantFrom(...KIND_NAMES)
  .chain((kind) =>
    fc
      .tuple(fc.constantFrom(...NAMES), words(4), fc.option(fc.array(factOf(kind), { maxLength: 5 })))
      .map(([name, rest, facts]) =>
        kind === 'node' || kind === 'let'
          ? `${kind} ${name} = ${rest}`
          : `${kind} ${name} ${rest}${facts === null ? '' : ` { ${facts.join('; ')} }`}`,
      ),
  );
const soup = fc
  .tuple(fc.array(fc.oneof({ weight: 5, arbitrary: statement }, words(8)), { maxLength: 25 }), fc.boolean())
  .map(([lines, car]) => `${car ? `${PLOVER}\n` : ''}${lines.join('\n')}`);

const offsetIn = fc.double({ min: 0, max: 1.02, noNaN: true });
const SEED = 20260214;

/** The property of both: what is computed is sound, and the editor has an answer everywhere. */
async function holds(text: string, offsets: readonly number[]): Promise<void> {
  const analysis = await soundly(text, FILES);
  for (const at of offsets) askAll(analysis, Math.floor(at * text.length));
  askFile(analysis);
  soundFormat(text);
  expect(analysis.trees.get(FILE)?.text).toBe(text);
}

describe('any text', () => {
  it('samples with things put in, taken out, doubled and exchanged', async () => {
    const offsets = fc.array(offsetIn, { minLength: 4, maxLength: 8 });
    await fc.assert(fc.asyncProperty(changed(fc.constantFrom(...SAMPLES)), offsets, holds), {
      numRuns: 40,
      seed: SEED,
    });
  });

  it('statements of words, names and numbers in any order', async () => {
    const offsets = fc.array(offsetIn, { minLength: 4, maxLength: 8 });
    await fc.assert(fc.asyncProperty(soup, offsets, holds), { numRuns: 100, seed: SEED });
  });

  it('characters of any kind', async () => {
    const any = fc.string({ unit: 'binary', maxLength: 300 });
    const bits = fc.array(fc.oneof(nasty, any), { maxLength: 12 }).map((all) => all.join(''));
    await fc.assert(fc.asyncProperty(bits, fc.array(offsetIn, { maxLength: 4 }), holds), { numRuns: 150, seed: SEED });
  });
});
