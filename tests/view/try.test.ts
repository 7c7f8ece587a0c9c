/** A car with a node elsewhere: truly what it would be, while little is made anew and nothing reaches back. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { Viewer } from '../../server/project/view';
import { editedFiles } from '../../server/view/drag';
import type { Point3, ViewModel } from '../../server/view/model';
import { analyse } from '../support/analyse';
import { packed as pack } from '../../server/lsp/view-places';

const TEXT = readFileSync('samples/plover-rollbar.cage', 'utf8');
const NODE = 'node:stay-foot.left';
const say = (): string => 'line 1';
const keysOf = ({ things }: ViewModel): Record<string, string> =>
  Object.fromEntries(things.map(({ id, key }) => [id, key]));

it('is the car of the changed text, figure by figure', async () => {
  const analysis = await analyse(TEXT);
  const viewer = new Viewer(pack);
  const before = viewer.model(analysis, say, {});
  const [x, y, z] = before.nodes.find(({ id }) => id === NODE)?.at ?? [0, 0, 0];
  for (const by of [-30, -60, 45]) {
    const to: Point3 = [x + by, y, z + by / 3];
    const tried = viewer.try(analysis, NODE, to, say, {});
    const text = editedFiles(analysis.sources.files, tried.edits ?? []).get(analysis.root) ?? '';
    expect(text).toContain(`stay-foot = (${String(-790 + by)}, 505, ${String(392 + Math.round(by / 3))})`);
    const fresh = new Viewer(pack).model(await analyse(text), say, {});
    const { things, ...rest } = tried.car?.model ?? before;
    const { things: freshThings, ...freshRest } = fresh;
    expect(rest).toEqual(freshRest);
    expect(things.map(({ id, label, ends }) => ({ id, label, ends }))).toEqual(
      freshThings.map(({ id, label, ends }) => ({ id, label, ends })),
    );
  }
  // Nothing reaches back.
  expect(viewer.model(analysis, say, {})).toEqual(before);
});

it('sends what moves, coarser than it was; what stays has its key', async () => {
  const analysis = await analyse(TEXT);
  const viewer = new Viewer(pack);
  const model = viewer.model(analysis, say, {});
  const have = keysOf(model);
  const [x, y, z] = model.nodes.find(({ id }) => id === NODE)?.at ?? [0, 0, 0];
  const sizeOf = (things: ViewModel['things']): number =>
    things.find(({ id }) => id === 'tube:backstay.left')?.mesh?.positions.length ?? NaN;
  for (const by of [3, 6, 9]) {
    const sent = viewer.try(analysis, NODE, [x + by, y, z], say, have).car?.model.things ?? [];
    const moved = sent.filter(({ mesh }) => mesh !== null).map(({ id }) => id);
    expect(moved).toContain('tube:backstay.left');
    expect(moved).toContain('foot:stay-plate.right');
    expect(moved).not.toContain('tube:main-hoop');
    for (const { id, key } of sent) if (!moved.includes(id)) expect(key).toBe(have[id]);
    expect(sizeOf(sent)).toBeLessThan(sizeOf(model.things));
  }
});

it('a hand that has not moved a step changes nothing, and what hangs says why', async () => {
  const analysis = await analyse(TEXT);
  const viewer = new Viewer(pack);
  const model = viewer.model(analysis, say, {});
  const { at } = model.nodes.find(({ id }) => id === NODE) ?? { at: [0, 0, 0] as const };
  const still = viewer.try(analysis, NODE, [at[0] + 0.3, at[1], at[2] - 0.4], say, keysOf(model));
  expect(still.edits).toEqual([]);
  expect(still.says).toBe('x -790, y 505, z 392');
  expect(still.car?.model.things.every(({ mesh }) => mesh === null)).toBe(true);
  const hangs = viewer.try(analysis, 'node:bar-end.left', [0, 0, 0], say, {});
  expect(hangs.car).toBeNull();
  expect(hangs.why).toBe(
    'bar-end.left: on main-hoop where z = bar-height: it moves with that tube; z comes from let bar-height (line 1)',
  );
});
