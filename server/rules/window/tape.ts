/** What a tape can show of a window: rectangles and places in whole millimetres or sixteenths of an inch. */
import type { LengthUnit } from '../../../grammar/units';
import { tapeStep } from '../what-if';
import { OFF } from './contour';
import type { Box, Choice, Field, Point } from './field';
import type { Polygon } from './polygon';
import { rectangleIn } from './polygon';

/** What sums leave of whole steps. */
const SLACK = 1e-6;

/** A range drawn in to whole steps; null: nothing is left. */
function drawnIn([from, to]: readonly [number, number], step: number): readonly [number, number] | null {
  const low = Math.ceil((from + OFF) / step - SLACK) * step;
  const high = Math.floor((to - OFF) / step + SLACK) * step;
  return high > low ? [low, high] : null;
}

/** All of the rectangle's rim is kept. */
function rimIsKept(field: Field, choice: Choice, { x, z }: Box): boolean {
  const points = 6;
  for (let i = 0; i <= points; i++) {
    const [u, v] = [x[0] + ((x[1] - x[0]) * i) / points, z[0] + ((z[1] - z[0]) * i) / points];
    const rim: readonly Point[] = [
      [u, z[0]],
      [u, z[1]],
      [x[0], v],
      [x[1], v],
    ];
    if (rim.some((point) => field.room(point, choice) < 0)) return false;
  }
  return true;
}

const holds = ({ x, z }: Box, [u, w]: Point): boolean =>
  x[0] - SLACK <= u && u <= x[1] + SLACK && z[0] - SLACK <= w && w <= z[1] + SLACK;

/** Whole steps of a rectangle that are kept all round; null: nothing is left, or not the place that it should hold. */
function steppedIn(field: Field, choice: Choice, box: Box | null, step: number, holding: Point | null): Box | null {
  if (box === null) return null;
  const [x, z] = [drawnIn(box.x, step), drawnIn(box.z, step)];
  if (x === null || z === null) return null;
  const drawn = { x, z };
  return (holding === null || holds(drawn, holding)) && rimIsKept(field, choice, drawn) ? drawn : null;
}

/** Whole steps of a tape, or tenths of them where that leaves nothing. */
const stepsOf = (units: LengthUnit): readonly number[] => [tapeStep(units), tapeStep(units) / 10];

/** What a tape can show of the largest rectangle; null: none is that large. */
export function forTape(field: Field, choice: Choice, polygons: readonly Polygon[], units: LengthUnit): Box | null {
  const box = rectangleIn(polygons);
  for (const step of stepsOf(units)) {
    const found = steppedIn(field, choice, box, step, null);
    if (found !== null) return found;
  }
  return null;
}

/** Room that the bar should have on all sides in the rectangle round it, mm: the first that can be had. */
const MARGINS = [10, 5, 2, 1, 0.5, 0];

/** The largest rectangle that holds the bar with room to move it, as a tape can show it; null: there is none. */
export function roundBar(field: Field, choice: Choice, polygons: readonly Polygon[], units: LengthUnit): Box | null {
  const [x, z] = field.at;
  const boxes = new Map<number, Box | null>();
  const withMargin = (margin: number): Box | null => {
    const known = boxes.get(margin);
    if (known !== undefined) return known;
    const box = rectangleIn(polygons, { x: [x - margin, x + margin], z: [z - margin, z + margin] });
    boxes.set(margin, box);
    return box;
  };
  for (const step of stepsOf(units)) {
    for (const margin of MARGINS) {
      const found = steppedIn(field, choice, withMargin(margin), step, field.at);
      if (found !== null) return found;
    }
  }
  return null;
}

/** The nearest place with whole steps of a tape that is inside, near a place on the edge. */
export function onTape(field: Field, choice: Choice, edge: Point, units: LengthUnit): Point | null {
  const step = tapeStep(units);
  const reach = 4;
  const [i, k] = [Math.round(edge[0] / step), Math.round(edge[1] / step)];
  const places: { readonly point: Point; readonly far: number }[] = [];
  for (let a = -reach; a <= reach; a++) {
    for (let b = -reach; b <= reach; b++) {
      const point: Point = [(i + a) * step, (k + b) * step];
      places.push({ point, far: Math.hypot(point[0] - field.at[0], point[1] - field.at[1]) });
    }
  }
  places.sort((p, q) => p.far - q.far);
  return places.find(({ point }) => field.room(point, choice) >= 0)?.point ?? null;
}
