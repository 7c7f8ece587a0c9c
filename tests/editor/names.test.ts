/** Definitions, references, renames and the outline, across files and sides. */
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../server/project/project';
import { definitionAt, occurrences, rename, renameTarget } from '../../server/editor/names';
import { outline, type OutlineSymbol } from '../../server/editor/symbols';
import { analyse } from '../support/analyse';
import { readCursor } from '../support/markers';

const PARTS = 'units mm\nsection bar { od 38; wall 2.5 }\n';

const CAR = `cage "Two"
units mm
use "parts.cage"
mirror left {
  node foot = (0, 600, 0)
  node top = foot + (up 500)
  tube leg { section bar; path foot, top }
}
let high = 2
tube cross { section bar; path top.left, top.right }
`;

/** The texts that places cover, with their files. */
const shown = (
  analysis: Analysis,
  places: readonly { readonly file: string; readonly span: { start: number; end: number } }[],
): string[] =>
  places.map(({ file, span }) => {
    const text = analysis.trees.get(file)?.text ?? '';
    const line = text.slice(0, span.start).split('\n').length;
    return `${file}:${String(line)} ${text.slice(span.start, span.end)}`;
  });

const load = async (marked: string): Promise<{ analysis: Analysis; cursor: number }> => {
  const { text, cursor } = readCursor(marked);
  return { analysis: await analyse(text, { 'parts.cage': PARTS }, 'car.cage'), cursor };
};

describe('names', () => {
  it('are found where they are defined, also in another file, and the file of a use line', async () => {
    const top = await load(CAR.replace('path top.left', 'path t<|>op.left'));
    expect(shown(top.analysis, definitionAt(top.analysis, 'car.cage', top.cursor)?.targets ?? [])).toEqual([
      'car.cage:6 top',
    ]);
    const bar = await load(CAR.replace('cross { section bar', 'cross { section b<|>ar'));
    expect(shown(bar.analysis, definitionAt(bar.analysis, 'car.cage', bar.cursor)?.targets ?? [])).toEqual([
      'parts.cage:2 bar',
    ]);
    const use = await load(CAR.replace('"parts', '"pa<|>rts'));
    expect(definitionAt(use.analysis, 'car.cage', use.cursor)?.targets).toEqual([
      { file: 'parts.cage', span: { start: 0, end: 0 } },
    ]);
    const word = await load(CAR.replace('units', 'un<|>its'));
    expect(definitionAt(word.analysis, 'car.cage', word.cursor)).toBeNull();
  });

  it('are found everywhere, on both sides, without the side', async () => {
    const { analysis, cursor } = await load(CAR.replace('node foot', 'node f<|>oot'));
    expect(
      shown(
        analysis,
        occurrences(analysis, 'car.cage', cursor).map(({ place }) => place),
      ),
    ).toEqual(['car.cage:5 foot', 'car.cage:6 foot', 'car.cage:7 foot']);
  });

  it('are renamed everywhere, the sides kept', async () => {
    const { analysis, cursor } = await load(
      CAR.replace('top.left', 'top.le<|>ft').replace('<|>', '').replace('path top', 'path t<|>op'),
    );
    const result = rename(analysis, 'car.cage', cursor, 'crown');
    expect(result.kind === 'edits' ? shown(analysis, result.places) : result).toEqual([
      'car.cage:6 top',
      'car.cage:7 top',
      'car.cage:10 top',
      'car.cage:10 top',
    ]);
    expect(renameTarget(analysis, 'car.cage', cursor)?.text).toBe('top');
  });

  it('are not renamed to what is no name or is taken, and words of the language are not renamed', async () => {
    const { analysis, cursor } = await load(CAR.replace('node foot', 'node f<|>oot'));
    expect(rename(analysis, 'car.cage', cursor, 'top')).toMatchObject({
      kind: 'refused',
      why: expect.stringContaining('already'),
    });
    // A let and a node of one name would be read for each other in a sum.
    expect(rename(analysis, 'car.cage', cursor, 'high').kind).toBe('refused');
    for (const wrong of ['', '4a', 'a b', 'a--b', 'a.b'])
      expect(rename(analysis, 'car.cage', cursor, wrong).kind).toBe('refused');
    expect(rename(analysis, 'car.cage', cursor, 'foot').kind).toBe('edits');
    const word = await load(CAR.replace('units', 'un<|>its'));
    expect(renameTarget(word.analysis, 'car.cage', word.cursor)).toBeNull();
    expect(rename(word.analysis, 'car.cage', word.cursor, 'x').kind).toBe('refused');
  });
});

describe('the outline', () => {
  it('shows statements with their values, those of a mirror below it', async () => {
    const { analysis } = await load(`${CAR}<|>`);
    const flat = (symbols: readonly OutlineSymbol[], depth = 0): string[] =>
      symbols.flatMap(({ name, kind, detail, children }) => [
        `${'  '.repeat(depth)}${kind} ${name}${detail === '' ? '' : ` · ${detail}`}`,
        ...flat(children, depth + 1),
      ]);
    expect(flat(outline(analysis, 'car.cage'))).toEqual([
      'car Two · cage',
      'setting units mm',
      'file parts.cage · use',
      'mirror mirror left',
      '  place foot · node at (0.0, 600.0, 0.0) mm',
      '  place top · node at (0.0, 600.0, 500.0) mm',
      '  tube leg · brace, 500.0 mm',
      'value high · let, 2 (bare, mm)',
      'tube cross · brace, 1200.0 mm',
    ]);
    expect(flat(outline(analysis, 'parts.cage'))).toEqual(['setting units mm', 'material bar · 38.00 x 2.50 mm']);
  });

  it('shows what a foot, a seat and a strap come to', async () => {
    const text = `foot f { at n; plate 140 x 100 x 3 }
seat s { slots (100, 345, 800); recline 15 deg; slot-spacing 220; back 45 }
`;
    const details = outline(await analyse(text), 'example.cage').map(({ detail }) => detail);
    expect(details).toEqual(['foot, plate 140.0 x 100.0 x 3.0 mm', 'seat, slots at (100.0, 345.0, 800.0) mm']);
  });

  it('keeps every name inside its statement, whatever the text', async () => {
    const { analysis } = await load('node\nnode = \ntube {\n  x\nlet 4\n"s" {\n}\nmirror { node a = 1 }\n<|>');
    const check = ({ span, nameSpan, name, children }: OutlineSymbol): void => {
      expect(nameSpan.start).toBeGreaterThanOrEqual(span.start);
      expect(nameSpan.end).toBeLessThanOrEqual(span.end);
      expect(name).not.toBe('');
      children.forEach(check);
    };
    outline(analysis, 'car.cage').forEach(check);
  });
});
