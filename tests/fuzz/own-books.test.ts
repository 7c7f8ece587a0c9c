/** Rulebooks that no club writes: nothing throws, nothing hangs, the finding is at its place. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RULE_CODES } from '../../grammar/codes';
import { libraryOf } from '../../server/rules/library';
import { soundly } from './everything';
import { codes, times } from './monster';

describe('rulebooks without end', () => {
  it('a chain of three thousand, each based on the next', async () => {
    const text = `cage "x"\nrules b0\n${times(3000, (i) => `rulebook b${String(i)} based on b${String(i + 1)} { }`)}
rulebook b3000 based on shop { limit strap.drop to 20 }\n`;
    const analysis = await soundly(text);
    expect(analysis.findings).toEqual([]);
    const first = libraryOf(analysis.cage).byName.get('b0');
    expect(first?.limits.find(({ code }) => code === 'strap.drop')?.inherited).toBe('b3000');
  });

  it('a circle of three thousand', async () => {
    const { findings } = await soundly(
      times(3000, (i) => `rulebook b${String(i)} based on b${String((i + 1) % 3000)} { limit strap.drop to 20 }`),
    );
    expect(findings.map(({ code }) => code)).toEqual(['name.cycle']);
    expect(findings[0]?.message.length).toBeLessThan(400);
  });

  it('three thousand on bases that there are not', async () => {
    const analysis = await soundly(times(3000, (i) => `rulebook b${String(i)} based on c${String(i)} { }`));
    expect(codes(analysis)).toEqual(['rule.unknown-book']);
  });

  it('ten thousand limits on one quantity, and as many drops', async () => {
    const lines = times(10_000, (i) => `  limit strap.drop to ${String(i)}\n  drop strap.spread`);
    const analysis = await soundly(`rulebook b based on shop {\n${lines}\n}\n`);
    expect(codes(analysis)).toEqual(['fact.twice']);
    const own = libraryOf(analysis.cage)
      .byName.get('b')
      ?.limits.filter(({ inherited }) => inherited === undefined);
    expect(own?.map(({ code, allowed }) => [code, allowed.to])).toEqual([['strap.drop', 0]]);
  });

  it('two thousand groups that there are not', async () => {
    const of = times(2000, (i) => `"group ${String(i)}"`, ', ');
    expect(codes(await soundly(`rulebook b based on shop {\n  limit foot.area from 1 cm2 of ${of}\n}\n`))).toEqual([
      'rulebook.group',
    ]);
  });
});

const WORDS = ['limit', 'drop', 'cite', 'from', 'to', 'of', 'recommended', 'based', 'on', 'rulebook', 'rules', 'waive'];
const CODES = Object.keys(RULE_CODES).filter((_, i) => i % 7 === 0);
const OTHER = [
  '{',
  '}',
  '\n',
  ';',
  ',',
  '"hoop foot"',
  '"',
  '20',
  '-5',
  '3 deg',
  '2 in',
  '5 cm2',
  '1/0',
  '%',
  'a',
  'b',
  'shop',
  '.',
];

describe('words of rulebooks in any order', () => {
  it('never throw, and say where they are wrong', { timeout: 60_000 }, async () => {
    const piece = fc.constantFrom(...WORDS, ...CODES, ...OTHER);
    await fc.assert(
      fc.asyncProperty(fc.array(piece, { maxLength: 40 }), async (pieces) => {
        const text = `cage "x"\nrulebook a based on fia-253 {\n  ${pieces.join(' ')}\n}\nrules a, b\n`;
        const { findings } = await soundly(text);
        for (const { place, message } of findings) {
          expect(place.span.start).toBeLessThanOrEqual(text.length);
          expect(message).not.toMatch(/undefined|NaN|\[object|\{\w+\}/);
        }
      }),
      { numRuns: 300 },
    );
  });
});
