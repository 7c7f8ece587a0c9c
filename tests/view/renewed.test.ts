/** The picture after any edits is that of a car which is judged for the first time, though most of it is kept and not sent. */
import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { packed as pack } from '../../server/lsp/view-places';
import { Project } from '../../server/project/pipeline';
import type { Analysis } from '../../server/project/project';
import { Viewer } from '../../server/project/view';
import type { ViewModel, ViewThing } from '../../server/view/model';
import { nodeHost } from '../../server/host/node';

const FILE = 'samples/plover-rollbar.cage';
const TEXT = readFileSync(FILE, 'utf8');
const say = (): string => 'line 1';

const analyse = async (project: Project, text: string): Promise<Analysis> =>
  project.analyse(await project.load(nodeHost({ root: '.' }), FILE, text));

/** What a panel holds: it is told of a thing again only where the key is another. */
class Holder {
  private held = new Map<string, ViewThing>();

  get have(): Readonly<Record<string, string>> {
    return Object.fromEntries([...this.held].map(([id, { key }]) => [id, key]));
  }

  /** The things as the panel has them now. */
  take({ things }: ViewModel): readonly ViewThing[] {
    const now = things.map((thing) => {
      const before = this.held.get(thing.id);
      const kept = thing.ends === null && before?.key === thing.key ? before : thing;
      return { ...thing, mesh: kept.mesh, ends: kept.ends };
    });
    this.held = new Map(now.map((thing) => [thing.id, thing]));
    return now;
  }
}

/** Numbers of the text, that a hand may write anew. */
const NUMBERS = [...TEXT.matchAll(/\d+(\.\d+)?/g)].map((match) => ({ at: match.index, text: match[0] }));
const LINES = TEXT.split('\n').length;

const edit = fc.oneof(
  fc.record({
    kind: fc.constant('number' as const),
    which: fc.nat(NUMBERS.length - 1),
    by: fc.integer({ min: -25, max: 25 }),
  }),
  fc.record({ kind: fc.constant('line' as const), which: fc.nat(LINES - 1), by: fc.constant(0) }),
  fc.record({ kind: fc.constant('back' as const), which: fc.constant(0), by: fc.constant(0) }),
);

/** The sample with one number changed, or without one line, or as it was. */
function edited({ kind, which, by }: { readonly kind: string; readonly which: number; readonly by: number }): string {
  if (kind === 'back') return TEXT;
  if (kind === 'line')
    return TEXT.split('\n')
      .filter((_, i) => i !== which)
      .join('\n');
  const number = NUMBERS[which] ?? { at: 0, text: '' };
  const value = String(Math.max(0, Number(number.text) + by));
  return TEXT.slice(0, number.at) + value + TEXT.slice(number.at + number.text.length);
}

it('renewed edit by edit it is as made from nothing', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(edit, { minLength: 3, maxLength: 5 }), async (edits) => {
      const [project, viewer, holder] = [new Project(), new Viewer(pack), new Holder()];
      holder.take(viewer.model(await analyse(project, TEXT), say, {}));
      for (const text of edits.map(edited)) {
        const renewed = viewer.model(await analyse(project, text), say, holder.have);
        const fresh = new Viewer(pack).model(await analyse(new Project(), text), say, {});
        expect(holder.take(renewed)).toEqual(fresh.things);
        expect({ ...renewed, things: [] }).toEqual({ ...fresh, things: [] });
      }
    }),
    { numRuns: 8 },
  );
});
