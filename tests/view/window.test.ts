/** The hatched region of the side view: the same outlines as the command's, as wide as the straps, in a request of its own. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { Project } from '../../server/project/pipeline';
import { Viewer } from '../../server/project/view';
import { windowJson, windowOf } from '../../server/project/window';
import type { ViewWindow } from '../../server/view/model';
import { windowOfView } from '../../server/view/window';
import { analyse, mapHost } from '../support/analyse';

const TEXT = readFileSync('samples/plover-rollbar.cage', 'utf8');

/** True inside: a ray to the right crosses the outlines an odd number of times. */
const holds = (outlines: ViewWindow['regions'][number]['outlines'], [x, z]: readonly [number, number]): boolean =>
  outlines
    .flatMap((outline) => outline.map((a, i) => [a, outline[(i + 1) % outline.length] ?? a] as const))
    .filter(([a, b]) => a[1] > z !== b[1] > z && a[0] + ((b[0] - a[0]) * (z - a[1])) / (b[1] - a[1]) > x).length %
    2 ===
  1;

it('has the outlines that `window` writes, the bar inside, and the width of the straps', async () => {
  const analysis = await analyse(TEXT);
  const window = windowOfView(analysis);
  const bar = windowOf(analysis, null);
  if (window === null || typeof bar === 'string') throw new Error('There is no window.');
  expect(window.bar).toBe('harness-bar');
  const written = windowJson(bar) as { window: { polygons: number[][][]; holdsBar: boolean } };
  const [required, recommended] = window.regions;
  expect(required?.level).toBe('required');
  expect(recommended?.level).toBe('recommended');
  expect(required?.outlines.map((outline) => outline.length)).toEqual(
    written.window.polygons.map((outline) => outline.length),
  );
  for (const [i, outline] of (required?.outlines ?? []).entries())
    for (const [k, [x, z]] of outline.entries()) {
      expect(x).toBeCloseTo(written.window.polygons[i]?.[k]?.[0] ?? NaN, 2);
      expect(z).toBeCloseTo(written.window.polygons[i]?.[k]?.[1] ?? NaN, 2);
    }
  // The bar of the sample lies at x = -150, z = 756.
  expect(holds(required?.outlines ?? [], [-150, 756])).toBe(written.window.holdsBar);
  // Straps at y = ±400 and ±275, 75 wide.
  expect(window.across).toEqual([-437.5, 437.5]);
});

it('is worked out once for a judgement, and there is none without straps', async () => {
  const viewer = new Viewer(() => '');
  const project = new Project();
  const sources = await project.load(mapHost(new Map()), 'car.cage', TEXT);
  const analysis = project.analyse(sources);
  expect(viewer.window(analysis)).toBe(viewer.window(analysis));
  expect(windowOfView(await analyse(TEXT.replace(/^strap [\s\S]*/m, '')))).toBeNull();
  expect(windowOfView(await analyse(''))).toBeNull();
});
