/** Runs everything that the tool can do with a text, and says what a reader of its answers may rely on. */
import { expect } from 'vitest';
import { formatFile } from '../../grammar/format';
import { fixesAt, solveFix } from '../../server/editor/actions';
import { complete } from '../../server/editor/completion';
import { folds } from '../../server/editor/folding';
import { hover } from '../../server/editor/hover';
import { definitionAt, occurrences, rename, renameTarget } from '../../server/editor/names';
import { outline } from '../../server/editor/symbols';
import { rangesOf } from '../../server/cli/ranges';
import { findingsJson, modelJson } from '../../server/project/describe';
import { modelText } from '../../server/project/describe-text';
import type { Analysis } from '../../server/project/project';
import { dragged } from '../../server/view/drag';
import { measureBetween } from '../../server/view/measure';
import { newViewCache, viewOf } from '../../server/view/view';
import { analyse } from '../support/analyse';

export const FILE = 'example.cage';

/** Paths in plain data at which a number stands that is none: JSON would turn it into null without a word. */
export function unsound(data: unknown, path = ''): string[] {
  if (typeof data === 'number') return Number.isFinite(data) ? [] : [`${path}: ${data}`];
  if (data === undefined) return [`${path}: undefined`];
  if (typeof data !== 'object' || data === null) return [];
  return Object.entries(data).flatMap(([key, value]) => unsound(value, `${path}/${key}`));
}

/** What a person reads holds no holes of the program's own. */
const HOLES = /undefined|NaN|Infinity|\[object /;

/** Every finding stands in its file, ends behind its beginning, and says a sentence. */
export function soundFindings({ findings, trees }: Analysis, written = ''): void {
  for (const { place, message, notes } of findings) {
    const length = trees.get(place.file)?.text.length ?? 0;
    expect(place.span.start).toBeGreaterThanOrEqual(0);
    expect(place.span.end).toBeGreaterThanOrEqual(place.span.start);
    expect(place.span.end).toBeLessThanOrEqual(length);
    for (const sentence of [message, ...notes.map((note) => note.message)]) {
      expect(sentence).not.toBe('');
      if (!HOLES.test(written)) expect(sentence).not.toMatch(HOLES);
    }
  }
}

/** Analyses a text; nothing throws, every figure is a number or null, and what the tool says stands in the text. */
export async function soundly(text: string, files: Readonly<Record<string, string>> = {}): Promise<Analysis> {
  const analysis = await analyse(text, files, FILE);
  const ranges = rangesOf([analysis]);
  expect(unsound(modelJson(analysis, ranges))).toEqual([]);
  expect(unsound(findingsJson([analysis], ranges))).toEqual([]);
  expect(modelText(analysis)).toContain('An aid, not an approval');
  soundFindings(analysis, Object.values(files).join(text));
  return analysis;
}

/** Asks for every feature of the editor at an offset, in the text or beyond it. */
export function askAll(analysis: Analysis, offset: number): void {
  hover(analysis, FILE, offset);
  complete(analysis, FILE, offset);
  definitionAt(analysis, FILE, offset);
  occurrences(analysis, FILE, offset);
  renameTarget(analysis, FILE, offset);
  rename(analysis, FILE, offset, 'renamed');
  rename(analysis, FILE, offset, 'no name { at all');
}

/** Asks for what belongs to the whole file, and solves every fix that is offered: edits stay in the text. */
export function askFile(analysis: Analysis): void {
  const tree = analysis.trees.get(FILE);
  if (tree === undefined) throw new Error('The judged file is not in the analysis.');
  const { text } = tree;
  outline(analysis, FILE);
  folds(tree);
  askPicture(analysis);
  for (const { id, finding } of fixesAt(analysis, FILE, { start: 0, end: text.length })) {
    for (const { file, span } of solveFix(analysis, id, finding)) {
      expect(span.start).toBeGreaterThanOrEqual(0);
      expect(span.end).toBeGreaterThanOrEqual(span.start);
      expect(span.end).toBeLessThanOrEqual(analysis.trees.get(file)?.text.length ?? 0);
    }
  }
}

/** So many nodes are dragged, and so many things measured against the one before. */
const PICKED = 4;

/** Asks for the picture, drags some nodes and measures between some things: numbers are numbers, edits stay in the text. */
export function askPicture(analysis: Analysis): void {
  const say = (): string => 'line 1';
  const model = viewOf(analysis, newViewCache(), { pack: () => '', say, have: {} });
  expect(unsound(model)).toEqual([]);
  for (const { id, at } of model.nodes.slice(0, PICKED)) {
    const { edits, why } = dragged(analysis, id, [at[0] + 17.3, at[1] - 4, at[2] + 1e4], say);
    expect(edits === null).toBe(why !== null);
    for (const { file, span, newText } of edits ?? []) {
      expect(analysis.trees.get(file)?.text.slice(span.start, span.end)).toMatch(/^-?\s*[\d.]/);
      expect(newText).toMatch(/^-?[\d ./]+$/);
    }
  }
  const picks = model.things.slice(0, PICKED).map(({ id, box }) => ({ id, at: box?.[0] ?? ([0, 0, 0] as const) }));
  picks.forEach((pick, i) => {
    const answer = measureBetween(analysis.shape, picks[i - 1] ?? pick, pick);
    expect(unsound(answer)).toEqual([]);
    for (const { says } of answer?.lines ?? []) expect(says).not.toMatch(HOLES);
  });
}

/** Laying out loses nothing and is done once. */
export function soundFormat(text: string): void {
  const once = formatFile(text);
  expect(formatFile(once)).toBe(once);
}
