/**
 * The window of a harness bar against brute force: the same car written with its bar at thousands of places, each judged
 * as a whole by the books, against what the window says of that place.
 */
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../server/project/project';
import { Project } from '../../server/project/pipeline';
import { barWindow } from '../../server/rules/window/window';
import type { BarWindow } from '../../server/rules/window/window';
import type { Polygon } from '../../server/rules/window/polygon';
import { contains, nearestOn } from '../../server/rules/window/polygon';
import { analyse, mapHost } from '../support/analyse';
import { judged, WINDOW_CARS, type Place, type WindowCar } from './window-cars';

/** Nearer to the edge than this nobody can say, mm. */
const DOUBT = 0.2;

async function windowOf(car: WindowCar): Promise<BarWindow> {
  const { cage, shape } = await analyse(car.text(car.bar, true));
  const window = barWindow(cage, shape, 'bar');
  if (window.kind === 'none') throw new Error(window.why);
  return window;
}

/** One project for all: what does not change is kept. */
function judge(project: Project, text: string): Promise<Analysis> {
  return project
    .load(mapHost(new Map([['car.cage', text]])), 'car.cage', text)
    .then((sources) => project.analyse(sources));
}

type Spot = readonly [number, number];

/** Places over and round the outlines, and close beside their sides. */
function places(polygons: readonly Polygon[], window: BarWindow, count: number): readonly Spot[] {
  const all = polygons.flat();
  const xs = all.map(([x]) => x);
  const zs = all.map(([, z]) => z);
  const [x0, x1, z0, z1] = [Math.min(...xs) - 8, Math.max(...xs) + 8, Math.min(...zs) - 8, Math.max(...zs) + 8];
  const side = Math.ceil(Math.sqrt(count));
  const grid = Array.from({ length: side * side }, (_, i): Spot => {
    const [u, v] = [(i % side) / (side - 1), Math.floor(i / side) / (side - 1)];
    return [x0 + (x1 - x0) * u, z0 + (z1 - z0) * v];
  });
  const beside = polygons.flatMap((polygon) =>
    polygon.flatMap((a, i): readonly Spot[] => {
      const b = polygon[(i + 1) % polygon.length] ?? a;
      const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
      const [ox, oz] = [(b[1] - a[1]) / long, (a[0] - b[0]) / long];
      return [0.15, 0.5, 0.8].flatMap((t) =>
        [-0.3, 0.3, 1.5].map((off): Spot => [a[0] + (b[0] - a[0]) * t + ox * off, a[1] + (b[1] - a[1]) * t + oz * off]),
      );
    }),
  );
  const { x, z } = window.searched;
  return [...grid, ...beside].filter(
    ([u, w]) => u > x[0] + DOUBT && u < x[1] - DOUBT && w > z[0] + DOUBT && w < z[1] - DOUBT,
  );
}

describe('against the whole car, written with its bar at each place', () => {
  let total = 0;
  it.each(WINDOW_CARS.map((car) => [car.name, car] as const))('%s', { timeout: 240_000 }, async (_, car) => {
    const window = await windowOf(car);
    const apart = new Set(window.apart.map(({ demand }) => `${demand.code} ${demand.subject}`));
    const project = new Project();
    const rate = car.rate;
    const spots = [window.required, window.preferred].flatMap(({ polygons }) => places(polygons, window, rate));
    expect(spots.length).toBeGreaterThan(100);
    const wrong: string[] = [];
    for (const spot of spots) {
      const place: Place = { x: spot[0] / car.unit, z: spot[1] / car.unit };
      let [required, preferred] = [true, true];
      for (const setting of car.settings) {
        const verdict = judged(await judge(project, car.text({ ...place, ...setting }, false)), apart);
        total += 1;
        required &&= verdict.required;
        preferred &&= verdict.preferred;
        if (!required) break;
      }
      for (const [name, region, truth] of [
        ['window', window.required, required],
        ['preferred', window.preferred, preferred],
      ] as const) {
        if ((nearestOn(region.polygons, spot)?.far ?? Infinity) <= DOUBT) continue;
        if (contains(region.polygons, spot) !== truth)
          wrong.push(`${name} at ${spot.map((v) => v.toFixed(2)).join(', ')}: ${String(truth)}`);
      }
    }
    expect(wrong).toEqual([]);
  });

  it('over several thousand cars', () => {
    expect(total).toBeGreaterThan(4000);
  });
});
