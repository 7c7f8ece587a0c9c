/** Every feature at every place of the samples, whole and cut short: nothing throws, every span lies in the text. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Span } from '../../grammar/finding';
import { fixesAt, solveFix } from '../../server/editor/actions';
import { complete } from '../../server/editor/completion';
import { folds } from '../../server/editor/folding';
import { hover } from '../../server/editor/hover';
import { definitionAt, occurrences, rename } from '../../server/editor/names';
import { outline } from '../../server/editor/symbols';
import type { Analysis } from '../../server/project/project';
import { analyse } from '../support/analyse';

const folder = new URL('../../samples/', import.meta.url);
const samples = Object.fromEntries(
  readdirSync(folder)
    .filter((name) => name.endsWith('.cage'))
    .map((name) => [name, readFileSync(new URL(name, folder), 'utf8')]),
);

const inside = (text: string, { start, end }: Span): boolean => start >= 0 && start <= end && end <= text.length;

const ask = (analysis: Analysis, file: string, offset: number): void => {
  const text = analysis.trees.get(file)?.text ?? '';
  const said = hover(analysis, file, offset);
  if (said !== null) {
    expect(inside(text, said.span)).toBe(true);
    expect(said.markdown).not.toMatch(/\bNaN\b|\bundefined\b|\bInfinity\b|\[object/);
  }
  for (const { span } of complete(analysis, file, offset)) {
    expect(span.end).toBe(offset);
    expect(text.slice(span.start, span.end)).not.toContain('\n');
  }
  for (const { place } of occurrences(analysis, file, offset)) {
    expect(inside(analysis.trees.get(place.file)?.text ?? '', place.span)).toBe(true);
  }
  definitionAt(analysis, file, offset);
  rename(analysis, file, offset, 'renamed');
  for (const fix of fixesAt(analysis, file, { start: offset, end: offset })) {
    for (const edit of solveFix(analysis, fix.id, fix.finding)) {
      expect(inside(analysis.trees.get(edit.file)?.text ?? '', edit.span)).toBe(true);
    }
  }
};

describe('every feature', () => {
  it.each(Object.keys(samples))('answers at every word of %s', async (name) => {
    const text = samples[name] ?? '';
    const analysis = await analyse(text, samples, name);
    outline(analysis, name);
    for (const { span } of folds(analysis.trees.get(name) ?? { file: name, text, statements: [], findings: [] })) {
      expect(inside(text, span)).toBe(true);
    }
    for (const match of text.matchAll(/\S+/g)) {
      if (match.index % 3 === 0) ask(analysis, name, match.index);
    }
  });

  it('answers in texts that are cut short and shuffled', async () => {
    const text = samples['plover-rollbar.cage'] ?? '';
    const cuts = fc.tuple(
      fc.nat(text.length),
      fc.nat(80),
      fc.constantFrom('', '{', '}', '(', '"', ',\n', '= ', '.', '\0', '🏁'),
      fc.nat(text.length),
    );
    await fc.assert(
      fc.asyncProperty(cuts, async ([start, length, put, at]) => {
        const broken = text.slice(0, start) + put + text.slice(start + length);
        const analysis = await analyse(broken);
        for (const offset of [start, start + put.length, Math.min(at, broken.length), broken.length])
          ask(analysis, 'example.cage', offset);
        outline(analysis, 'example.cage');
      }),
      { numRuns: 25 },
    );
  });
});
