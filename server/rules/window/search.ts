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
/** The same where figures jump inside of it. */
const JUMPING_CELL = 8;
/** By how much a demand may be off its estimate at least, mm. */
const DOUBT = 0.05;

interface Cell {
  /** The middle. */
  readonly x: number;
  readonly z: number;
  readonly half: number;
}

/** Where straps begin to lie on the edge of their slot inside a cell, so much room may be won or lost in a millimetre. */
const STEEPEST = 2;

/** What is known of a demand in a cell: the room to each of its bounds, at the cell's corners, then in its middle. */
interface Sampled {
  readonly sides: readonly number[][];
  readonly branch: number;
  jumps: boolean;
}

function spread(
  values: readonly number[],
  jumps: boolean,
  size: number,
): { readonly most: number; readonly least: number } {
  const [a = 0, b = 0, c = 0, d = 0, middle = 0] = values;
  const bent = Math.max(Math.abs(middle - (a + b + c + d) / 4), Math.abs(a - b - c + d) / 4);
  const doubt = DOUBT + (jumps ? STEEPEST * size : 2 * bent);
  return { most: Math.max(...values) + doubt, least: Math.min(...values) - doubt };
}

/** `jumps`: open, and figures jump inside of it. */
type Verdict = 'outside' | 'inside' | 'open' | 'jumps';

/** What one stage says of a cell. */
function ofStage(field: Field, stage: number, points: readonly Point[], choice: Choice, size: number): Verdict {
  const all = new Map<Demand, Sampled>();
  for (const point of points) {
    for (const { demand, sides, branch } of field.levelsOf(stage, point)) {
      if (!choice(demand)) continue;
      const old = all.get(demand);
      if (old === undefined) all.set(demand, { sides: sides.map((room) => [room]), branch, jumps: false });
      else {
        sides.forEach((room, i) => old.sides[i]?.push(room));
        old.jumps ||= branch !== old.branch;
      }
    }
  }
  let inside = true;
  let jumping = false;
  for (const { sides, jumps } of all.values()) {
    for (const values of sides) {
      if (values.length < points.length) {
        inside = false;
        continue;
      }
      const { most, least } = spread(values, jumps, size);
      if (most < 0) return 'outside';
      if (least >= 0) continue;
      inside = false;
      jumping ||= jumps;
    }
  }
  return inside ? 'inside' : jumping ? 'jumps' : 'open';
}

function verdictOn(
  field: Field,
  points: readonly Point[],
  choice: Choice,
  stages: readonly number[],
  size: number,
): Verdict {
  let all: Verdict = 'inside';
  for (const i of stages) {
    const verdict = ofStage(field, i, points, choice, size);
    if (verdict === 'outside') return verdict;
    if (verdict === 'jumps' || (verdict === 'open' && all === 'inside')) all = verdict;
  }
  return all;
}

/** From inside to outside. */
export type Way = readonly [Point, Point];

export interface Found {
  /** Places where all is kept: of every part of the window at least one. */
  readonly inside: readonly Point[];
  /** Of every part of its edge at least one way across it: from a place inside to one outside. */
  readonly edges: readonly Way[];
}

export interface Manner {
  /** To stop at the first place that is found. */
  readonly first?: boolean;
  /** For a line of words: what is small beside another part of the window may be passed over. */
  readonly rough?: boolean;
}

export function search(field: Field, choice: Choice, { first = false, rough = false }: Manner = {}): Found {
  const { box } = field;
  const stages = field.stagesOf(choice);
  const inside: Point[] = [];
  const edges: Way[] = [];
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
    const verdict = verdictOn(field, points, choice, stages, 2 * h);
    if (verdict === 'outside') continue;
    const kept = points.filter(isIn);
    if (first && inside.length > 0) break;
    const mixed = kept.length > 0 && kept.length < points.length;
    const [within] = kept;
    const without = points.find((point) => !kept.includes(point));
    if (within !== undefined && without !== undefined) edges.push([within, without]);
    const last = !mixed ? LAST_CELL : verdict === 'jumps' && !rough ? JUMPING_CELL : MIXED_CELL;
    if (verdict === 'inside' || 2 * h <= last) continue;
    const q = h / 2;
    cells.push({ x: x - q, z: z - q, half: q }, { x: x + q, z: z - q, half: q });
    cells.push({ x: x - q, z: z + q, half: q }, { x: x + q, z: z + q, half: q });
  }
  return { inside, edges };
}
