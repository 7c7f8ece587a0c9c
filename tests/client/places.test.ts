/** Between the samples' text and their picture: where the cursor lights what, and what the hover at a thing tells. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { hoverPlace, idsAt } from '../../client/view/places';
import { hover } from '../../server/editor/hover';
import { nodeHost } from '../../server/host/node';
import { wireModel } from '../../server/lsp/view-places';
import type { WireModel } from '../../server/lsp/view-wire';
import { Project } from '../../server/project/pipeline';
import type { Analysis } from '../../server/project/project';
import { newViewCache, viewOf } from '../../server/view/view';
import { TextDocument } from 'vscode-languageserver-textdocument';

const uriOf = (file: string): string => `file:///${file}`;

const seen = async (
  file: string,
): Promise<{ analysis: Analysis; model: WireModel; texts: Map<string, TextDocument> }> => {
  const project = new Project();
  const analysis = project.analyse(await project.load(nodeHost({ root: '.' }), file, readFileSync(file, 'utf8')));
  const texts = new Map(
    [...analysis.trees].map(([key, { text }]) => [key, TextDocument.create(uriOf(key), 'cage', 1, text)] as const),
  );
  const view = viewOf(analysis, newViewCache(), { pack: () => '', say: () => '', have: {} });
  return { analysis, texts, model: wireModel(view, (key) => texts.get(key) ?? null, uriOf(file), 1) };
};

describe.each(['samples/curlew-cage.cage', 'samples/every-finding.cage'])('%s', (file) => {
  it('lights a thing from every line of its statement, its twin with it, and from no line of another', async () => {
    const { model, texts } = await seen(file);
    const same = (a: string, b: string): boolean => a === b;
    const written = [...model.things, ...model.nodes].filter(({ statement }) => statement !== null);
    expect(written.length).toBeGreaterThan(20);
    for (const { id, statement, place } of written) {
      if (statement === null || place === null) continue;
      const text = texts.get(statement.uri.slice('file:///'.length));
      if (text === undefined) throw new Error(statement.uri);
      // The statement is as it is written: it ends with its block, and begins where a word does.
      const words = text.getText(statement);
      expect(words, id).toMatch(/^[a-z]/);
      expect((words.match(/\{/g) ?? []).length, words).toBe((words.match(/\}/g) ?? []).length);
      const inside = words.split('\n').map((_, line) => ({
        uri: statement.uri,
        at: line === 0 ? place.start : { line: statement.start.line + line, character: 1 },
      }));
      for (const cursor of inside) {
        const lit = idsAt(model, cursor, same);
        if (!lit.includes(id)) {
          // Then another statement is written within it.
          const inner = lit.map((other) => written.find((one) => one.id === other)?.statement);
          expect(
            inner.every((one) => one && text.getText(one).length < words.length),
            `${id}: ${words}`,
          ).toBe(true);
          expect(lit.length, id).toBeGreaterThan(0);
        }
      }
      const before = { line: statement.start.line, character: statement.start.character - 1 };
      if (before.character >= 0) expect(idsAt(model, { uri: statement.uri, at: before }, same)).not.toContain(id);
    }
    const left = model.things.filter(({ id }) => id.endsWith('.left'));
    for (const { id, statement } of left) {
      if (statement === null) continue;
      const twin = id.replace(/\.left$/, '.right');
      const lit = idsAt(model, { uri: statement.uri, at: statement.start }, same);
      if (model.things.some((one) => one.id === twin && one.statement?.start.line === statement.start.line))
        expect(lit, id).toContain(twin);
    }
  });

  it('has a hover at every thing that tells of it', async () => {
    const { analysis, model, texts } = await seen(file);
    const others: string[] = [];
    const told = new Set<string>();
    for (const { id, name } of [...model.things, ...model.nodes]) {
      const place = hoverPlace(model, id);
      // Twins are told in one place.
      const spot = JSON.stringify(place);
      if (place === null || told.has(spot)) continue;
      told.add(spot);
      const key = place.uri.slice('file:///'.length);
      const said = hover(analysis, key, texts.get(key)?.offsetAt(place.start) ?? 0)?.markdown ?? '';
      // By its name without side and piece; what has none, by what it is and where.
      const bare = name.replace(/(\.(left|right|a|b))+$/, '');
      const [kind, counted] = bare.split(':');
      const tells =
        counted === undefined ? said.includes(bare) : new RegExp(`^\\*\\*${kind ?? ''}\\*\\* .*`).test(said);
      if (!tells) others.push(`${id}: ${said.slice(0, 80)}`);
    }
    expect(others).toEqual([]);
  });
});
