/** How near the main hoop comes to panels of the car. */
import type { Panel, PanelKind } from '../cage/cage';
import type { Centreline } from '../centreline/centreline';
import { facesOf } from '../centreline/outline';
import { pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled, cross, distance, dot, norm, sub } from '../centreline/vector';
import type { Params } from '../../grammar/finding';
import type { Car, Hoop } from './car';
import { missingOfCar, reading } from './readings';
import type { Item } from './rule';

function toSegment(p: Vec3, a: Vec3, b: Vec3): number {
  const along = sub(b, a);
  const size = dot(along, along);
  const share = size > 0 ? Math.min(1, Math.max(0, dot(sub(p, a), along) / size)) : 0;
  return distance(p, addScaled(a, along, share));
}

/** From a point to a triangle. */
function toTriangle(p: Vec3, a: Vec3, b: Vec3, c: Vec3): number {
  const edges = Math.min(toSegment(p, a, b), toSegment(p, b, c), toSegment(p, c, a));
  const n = cross(sub(b, a), sub(c, a));
  const size = norm(n);
  if (size < 1e-9) return edges;
  const inside = [
    [a, b],
    [b, c],
    [c, a],
  ].every(([from, to]) => dot(cross(sub(to ?? a, from ?? a), sub(p, from ?? a)), n) >= 0);
  return inside ? Math.abs(dot(sub(p, a), n)) / size : edges;
}

/** How far a point is from a panel: a line, or a face by its edge, which may turn inward. Null: its outline is not known. */
export function distanceTo({ outline }: Pick<Panel, 'outline'>): ((p: Vec3) => number) | null {
  if (outline === null || outline.length < 2) return null;
  const faces = facesOf(outline);
  return faces.length > 0
    ? (p) => Math.min(...faces.map((face) => toTriangle(p, ...face)))
    : (p) => Math.min(...outline.slice(1).map((q, i) => toSegment(p, outline[i] ?? q, q)));
}

/** A stretch is looked at this closely, mm. */
const STEP = 25;

/** From a stretch of a centreline to the nearest panel of a kind; null: there is none. */
export function nearestPanel(
  car: Car,
  as: PanelKind,
  line: Centreline,
  [from, to]: readonly [number, number],
  own: (panel: Panel) => boolean = () => true,
): { readonly panel: string; readonly far: number } | null {
  const panels = car
    .ofKind('panel')
    .filter((panel) => panel.as === as && own(panel))
    .flatMap((panel) => {
      const far = distanceTo(panel);
      return far === null ? [] : [{ name: panel.name, far }];
    });
  const count = Math.max(1, Math.ceil((to - from) / STEP));
  let best: { panel: string; far: number } | null = null;
  for (let i = 0; i <= count; i++) {
    const { point } = pointAt(line, from + ((to - from) * i) / count);
    for (const panel of panels) {
      const far = panel.far(point);
      if (best === null || far < best.far) best = { panel: panel.name, far };
    }
  }
  return best;
}

/** A stretch of a hoop, what its reading says besides, and which panels may be beside it. */
export interface Beside {
  readonly stretch: readonly [number, number];
  readonly says: Params;
  readonly own?: (panel: Panel) => boolean;
}

/** From the outside of the main hoops to the panels of a kind, on these stretches; of an open car nothing is asked. */
export function panelGaps(
  car: Car,
  as: PanelKind,
  unwritten: string,
  of: (hoop: Hoop) => readonly Beside[],
): readonly Item[] {
  if (car.cage.vehicle?.body === 'open') return [];
  const hoops = car.mainHoops().filter(({ tube }) => tube.section !== null);
  if (hoops.length === 0) return [];
  if (!car.ofKind('panel').some((panel) => panel.as === as)) return missingOfCar(car, unwritten);
  return hoops.flatMap((hoop) =>
    of(hoop).flatMap(({ stretch, says, own }) => {
      const near = nearestPanel(car, as, hoop.line, stretch, own);
      if (near === null) return [];
      const gap = Math.max(0, near.far - (hoop.tube.section?.od ?? 0) / 2);
      return [reading(hoop.name, gap, 'mm', { tube: hoop.name, ...says, panel: near.panel }, { fact: 'path' })];
    }),
  );
}

/** A roof over the example's hoop, so high, and pillars beside it, so far out. */
export const panelExample = (roof: number, pillar = 640): string =>
  `panel roof-skin as roof { outline (300, 500, ${String(roof)}), (300, -500, ${String(roof)}), (-300, -500, ${String(roof)}), (-300, 500, ${String(roof)}) }
mirror left { panel b-post as pillar { outline (0, ${String(pillar)}, 200), (0, ${String(pillar)}, 900) } }`;
