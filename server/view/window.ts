/** The region where a harness bar may be, for the side view. It takes a tenth of a second and more: asked for by itself. */
import type { Cage, Tube } from '../cage/cage';
import type { Shape } from '../geometry/shape';
import type { Region } from '../rules/window/window';
import { barWindow } from '../rules/window/window';
import type { ViewWindow } from './model';
import { rounded } from './rounded';

/** The straps' own width of the car, edge to edge, mm of y; of straps that lie nowhere that is known: the bar's. */
function across(shape: Shape, tube: Tube): readonly [number, number] {
  const ys = shape.straps.flatMap(({ name, tube: bar, barPoint }) => {
    const strap = shape.cage.things.get(name);
    const half = strap?.kind === 'strap' && strap.width !== null ? strap.width / 2 : 0;
    return bar !== tube.name || barPoint === null ? [] : [barPoint[1] - half, barPoint[1] + half];
  });
  const all = ys.length > 0 ? ys : (tube.centreline?.points ?? []).map(([, y]) => y);
  return all.length === 0 ? [0, 0] : [rounded(Math.min(...all)), rounded(Math.max(...all))];
}

const outlines = ({ polygons }: Region): ViewWindow['regions'][number]['outlines'] =>
  polygons.map((polygon) => polygon.map(([x, z]) => [rounded(x), rounded(z)] as const));

/**
 * Of the first bar, by name, on which straps lie and whose window can be worked out; null: there is none. A region
 * without outlines: no place is inside.
 */
export function windowOfView({ cage, shape }: { readonly cage: Cage; readonly shape: Shape }): ViewWindow | null {
  const bars = new Set(shape.straps.flatMap(({ tube }) => tube ?? []));
  for (const name of [...bars].sort()) {
    const window = barWindow(cage, shape, name);
    if (window.kind === 'none') continue;
    const { tube } = window;
    return {
      bar: tube.name,
      regions: [
        { level: 'required', outlines: outlines(window.required) },
        { level: 'recommended', outlines: outlines(window.preferred) },
      ],
      across: across(shape, tube),
    };
  }
  return null;
}
