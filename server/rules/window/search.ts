/**
 * Looks for every place where all chosen demands are kept: the searched box is cut into quarters again and again, except
 * where one demand alone is broken all over a cell. How a demand behaves inside a cell is estimated from its corners and
 * its middle: as far as it is off a plane there, it may be off twice elsewhere.
 */
import type { Demand } from './demands';
import type { Choice, Field, Point } from './field';

/** Cells begin so large and end so small, mm. A window in which a bar can be moved by less than the least is none. */
const FIRST_CELL = 128;
const LAST_CELL = 1;
/** Where a cell's corners are partly inside, what is inside of it is found from there: it is cut no smaller. */
const MIXED_CELL = 32;
/** By how much a demand may be off its estimate at least, mm. */
const DOUBT = 0.05;

interface Cell {
  /** The middle. */
  readonly x: number;
  readonly z: number;
  readonly half: number;
}

/** What is known of a demand in a cell: at its corners, then its middle. */
function spread(values: readonly number[]): { readonly most: number; readonly least: number } {
  const [a = 0, b = 0, c = 0, d = 0, middle = 0] = values;
  const bent = Math.max(Math.abs(middle - (a + b + c + d) / 4), Math.abs(a - b - c + d) / 4);
  const doubt = 2 * bent + DOUBT;
  return { most: Math.max(...values) + doubt, least: Math.min(...values) - doubt };
}

type Verdict = 'outside' | 'inside' | 'open';

/** What one stage says of a cell. */
function ofStage(field: Field, stage: number, points: readonly Point[], choice: Choice): Verdict {
  const all = new Map<Demand, number[]>();
  for (const point of points) {
    for (const { demand, room } of field.levelsOf(stage, point)) {
      if (!choice(demand)) continue;
      const old = all.get(demand);
      if (old === undefined) all.set(demand, [room]);
      else old.push(room);
    }
  }
  let inside = true;
  for (const values of all.values()) {
    if (values.length < points.length) {
      inside = false;
      continue;
    }
    const { most, least } = spread(values);
    if (most < 0) return 'outside';
    if (least < 0) inside = false;
  }
  return inside ? 'inside' : 'open';
}

function verdictOn(field: Field, points: readonly Point[], choice: Choice, stages: readonly number[]): Verdict {
  let inside = true;
  for (const i of stages) {
    const verdict = ofStage(field, i, points, choice);
    if (verdict === 'outside') return verdict;
    if (verdict === 'open') inside = false;
  }
  return inside ? 'inside' : 'open';
}

export interface Found {
  /** Places where all is kept: of every part of the window at least one. */
  readonly inside: readonly Point[];
  /** Places beside its edge: of every part of that at least one. */
  readonly edges: readonly Point[];
}

/** @param first to stop at the first place that is found */
export function search(field: Field, choice: Choice, first = false): Found {
  const { box } = field;
  const stages = field.stagesOf(choice);
  const inside: Point[] = [];
  const edges: Point[] = [];
  const isIn = (point: Point): boolean => {
    const kept = field.room(point, choice) >= 0;
    if (kept) inside.push(point);
    return kept;
  };
  const cells: Cell[] = [];
  const half = FIRST_CELL / 2;
  for (let x = box.x[0] + half; x - half < box.x[1]; x += FIRST_CELL) {
    for (let z = box.z[0] + half; z - half < box.z[1]; z += FIRST_CELL) cells.push({ x, z, half });
  }
  for (let cell = cells.pop(); cell !== undefined; cell = cells.pop()) {
    const { x, z, half: h } = cell;
    const points: readonly Point[] = [
      [x - h, z - h],
      [x + h, z - h],
      [x - h, z + h],
      [x + h, z + h],
      [x, z],
    ];
    const verdict = verdictOn(field, points, choice, stages);
    if (verdict === 'outside') continue;
    const some = points.filter(isIn).length;
    if (first && inside.length > 0) break;
    const mixed = some > 0 && some < points.length;
    if (mixed) edges.push([x, z]);
    if (verdict === 'inside' || 2 * h <= (mixed ? MIXED_CELL : LAST_CELL)) continue;
    const q = h / 2;
    cells.push({ x: x - q, z: z - q, half: q }, { x: x + q, z: z - q, half: q });
    cells.push({ x: x - q, z: z + q, half: q }, { x: x + q, z: z + q, half: q });
  }
  return { inside, edges };
}
