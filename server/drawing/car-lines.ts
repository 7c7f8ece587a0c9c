/** Everything of a car as lines on the picture, each where it is seen; what lies behind something is told by its style. */
import type { Shape } from '../geometry/shape';
import type { Body } from './body';
import { solidsOf } from './body';
import { gussetBodies, gussetEdges, gussetSolid } from './gusset-bodies';
import { curvesOf, type Curve } from './outline';
import type { Box, Style } from './scene';
import { boxOf, overlap, point } from './scene';
import { block, Crowd } from './solids';
import { plateEdges, platesOf, thingLines } from './things';
import type { View } from './view';
import { project } from './view';
import { runsOf } from './visible';

/** A line on the picture: mm to the right and up. */
export interface Flat {
  readonly style: Style;
  readonly points: readonly (readonly [number, number])[];
}

/** A line that runs along the window's edge is in it. */
const TOUCH = 1e-6;

const crosses = (points: Flat['points'], window: Box): boolean => {
  const box = boxOf(points.map(([u, v]) => point(u, v)));
  const { left, right, top, bottom } = window;
  return (
    box !== null &&
    overlap(
      { left: box.left - TOUCH, right: box.right + TOUCH, top: box.top - TOUCH, bottom: box.bottom + TOUCH },
      { left, right, top, bottom },
    )
  );
};

/** What stands on tubes, or beside them, of steel: its edges, and whose surfaces are its own. */
interface Steel {
  readonly edges: readonly Curve[];
  /** Owners that hide nothing of it worth a line: its own far side, and the tubes that it lies on. */
  readonly own: ReadonlySet<number>;
}

/**
 * All lines, mm of the view, and what hides what. `step`: mm between two looks along a line; `window`: only lines that
 * reach into it. Of a plate or a gusset what lies behind something else is drawn as hidden; its own far edges are not, nor
 * are those that run inside the tubes that it stiffens.
 */
export function flatLines(
  shape: Shape,
  view: View,
  bodies: readonly Body[],
  step: number,
  window: Box | null,
): { readonly lines: readonly Flat[]; readonly crowd: Crowd } {
  const plates = platesOf(shape).filter(({ centre }) => centre.every(Number.isFinite));
  const gussets = gussetBodies(shape);
  const [firstPlate, firstGusset] = [bodies.length, bodies.length + plates.length];
  const crowd = new Crowd([
    ...bodies.flatMap((body, i) => solidsOf(body, view, i)),
    ...plates.map(({ centre, halves: [a, b, c] }, i) =>
      block(firstPlate + i, project(view, centre), [project(view, a), project(view, b), project(view, c)]),
    ),
    ...gussets.flatMap((gusset, i) => gussetSolid(gusset, view, firstGusset + i) ?? []),
  ]);
  const lines: Flat[] = [];
  const hidden: Flat[] = [];
  for (const body of bodies) {
    const { existing } = body.part.tube;
    for (const curve of curvesOf(body, view)) {
      for (const { seen, points } of runsOf(view, crowd, curve, step)) {
        if (seen) lines.push({ style: existing ? 'existing' : curve.kind === 'cut' ? 'joint' : 'outline', points });
        else if (curve.kind === 'edge') hidden.push({ style: existing ? 'existing-hidden' : 'hidden', points });
      }
    }
  }
  const owners = new Map(bodies.map(({ part }, i) => [part.name, i]));
  const steel: readonly Steel[] = [
    ...plates.map((plate, i) => ({ edges: plateEdges(plate), own: new Set([firstPlate + i]) })),
    ...gussets.map((gusset, i) => ({
      edges: gussetEdges(gusset, view),
      own: new Set([firstGusset + i, ...gusset.on.flatMap((name) => owners.get(name) ?? [])]),
    })),
  ];
  for (const { edges, own } of steel) {
    const others = crowd.without(own);
    for (const curve of edges) {
      for (const { seen, points } of runsOf(view, crowd, curve, step)) if (seen) lines.push({ style: 'plate', points });
      for (const { seen, points } of runsOf(view, others, curve, step))
        if (!seen) hidden.push({ style: 'hidden', points });
    }
  }
  const things = thingLines(shape, view.right, view.up).map(({ style, curve }): Flat => {
    const points = curve.points.map(({ at }): readonly [number, number] => {
      const [u, v] = project(view, at);
      return [u, v];
    });
    return { style, points };
  });
  const all = [...hidden, ...lines, ...things];
  return { lines: window === null ? all : all.filter(({ points }) => crosses(points, window)), crowd };
}
