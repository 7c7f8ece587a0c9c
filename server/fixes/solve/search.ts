/**
 * The least change of a number that mends a finding, in whole steps of a tape. The figure is taken along the secant;
 * whether it is mended is asked of the finding itself, so that a figure that jumps is found too.
 */
import type { TextEdit } from '../fix';
import type { Literal } from './literals';
import { stepOf, worthOf, write } from './literals';
import type { Meter, Read } from './meter';
import type { Knob } from './scope';
import type { Moved, Trial } from './trial';

/** A number moved farther than this makes another car: mm, rad, share, count; as they are inside. */
const FARTHEST = { length: 300, angle: Math.PI / 6, share: 0.6, count: 6 } as const;
/** Steps of the first try. */
const PROBE = { length: 4, angle: 2, share: 2, count: 1 } as const;
/** Where nothing is measured these are tried as well, as many times as far. */
const FARTHER = [1, 4, 16] as const;
/** A figure that changes less than this, in its own unit, does not hang on the number. */
const FLAT = 1e-7;
const MOST_READINGS = 14;

/** What a search may still spend, in quick readings. */
export interface Purse {
  left: number;
}

/** A number tried once: which way it mends, about how many steps it takes, and what moves with it. */
export interface Probed {
  readonly knob: Knob;
  readonly way: 1 | -1;
  /** About so many steps. */
  readonly steps: number;
  /** Excess at 0 and at `probe` steps. */
  readonly start: number;
  readonly probe: { readonly steps: number; readonly read: Read };
  readonly moved: Moved;
  /** About how far things move in all, mm. */
  readonly cost: number;
}

/** The value of the leading number `k` steps of its tape in one direction; k = 0 is what is written. */
export function valueAt({ literals }: Knob, way: 1 | -1, k: number): number {
  const [first] = literals as readonly [Literal];
  if (k === 0) return first.value;
  const step = stepOf(first);
  const slack = 1e-6;
  const on = first.value / step;
  return (way > 0 ? Math.floor(on + slack) + k : Math.ceil(on - slack) - k) * step;
}

/** The edits that give the leading number that value, and all that move with it the same move; null where it cannot be so written. */
export function editsFor({ literals }: Knob, value: number): readonly TextEdit[] | null {
  const [first] = literals as readonly [Literal];
  const by = (value - first.value) * worthOf(first);
  const edits: TextEdit[] = [];
  for (const literal of literals) {
    if (edits.some(({ file, span }) => file === literal.file && span.end === literal.span.end)) continue;
    // Of a value that is shared by both sides each goes its own way: outward, or inward.
    const side = literal.value * first.value < 0 ? -1 : 1;
    const now = literal.value + (side * by) / worthOf(literal);
    const rounded = Math.round(now * 1e6) / 1e6;
    if (rounded <= 0 && !literal.signed) return null;
    if (literal.unit === '%' && rounded > 100) return null;
    edits.push({ file: literal.file, span: literal.span, newText: write(literal, rounded) });
  }
  return edits;
}

const mostSteps = ({ literals }: Knob): number => {
  const [first] = literals as readonly [Literal];
  return Math.max(1, Math.floor(FARTHEST[first.quantity] / (stepOf(first) * worthOf(first))));
};

/** Tries a number a few steps each way; null where the finding does not hang on it. */
export function probe(trial: Trial, meter: Meter, knob: Knob, purse: Purse): Probed | null {
  const [first] = knob.literals as readonly [Literal];
  const { start } = meter;
  const blind = start === null;
  // A figure that is not measured is looked for far and near, but only where that is cheap.
  for (const times of blind && meter.price === 1 && knob.far === 0 ? FARTHER : [1]) {
    for (const way of [1, -1] as const) {
      const steps = PROBE[first.quantity] * times;
      const edits = editsFor(knob, valueAt(knob, way, steps));
      if (edits === null || steps > mostSteps(knob)) continue;
      purse.left -= meter.price;
      const cage = trial.cage(edits);
      const moved = trial.moved(cage);
      // A number of a level bar that would leave its other nodes behind is no mend.
      if (moved.seats || moved.tilted.includes(knob.path)) return null;
      const read = meter.price === 1 ? meter.readCage(cage) : meter.read(edits);
      if (!read.gone && (read.excess === null || blind)) continue;
      const before = start ?? 1;
      const change = before - (read.excess ?? 0);
      if (!read.gone && Math.abs(change) < FLAT) {
        // A figure may hang on a number one way only: a strap that lies on its edge, a gap that another tube bounds.
        if (way === 1) continue;
        return null;
      }
      const about = read.gone && change <= 0 ? steps : (before / Math.abs(change)) * steps;
      const size = moved.path === 0 ? Math.abs(valueAt(knob, way, steps) - first.value) * worthOf(first) : moved.path;
      const right = read.gone || change > 0 ? way : way === 1 ? -1 : 1;
      return {
        knob,
        way: right,
        steps: about,
        start: before,
        probe: { steps: right === way ? steps : -steps, read },
        moved,
        cost: (size / steps) * about * (1 + knob.far),
      };
    }
  }
  return null;
}

/**
 * From a solution on: so far that another finding, which came with it, goes again. Null where it does not, or where the
 * first comes back before.
 */
export function pushOn(first: Meter, other: Meter, solution: Solution, moved: Moved, purse: Purse): Solution | null {
  const { knob, way, steps } = solution;
  const { start } = other;
  if (start === null || !(start > 0)) return null;
  const more = PROBE[(knob.literals as readonly [Literal])[0].quantity];
  const edits = editsFor(knob, valueAt(knob, way, steps + more));
  if (edits === null) return null;
  purse.left -= other.price;
  const read = other.read(edits);
  const change = start - (read.excess ?? start);
  if (!read.gone && !(change > FLAT)) return null;
  const about = steps + (change > 0 ? (start / change) * more : more);
  const probed: Probed = { knob, way, steps: about, start, probe: { steps: steps + more, read }, moved, cost: 0 };
  const found = search(other, probed, purse, steps);
  if (found === null) return null;
  purse.left -= first.price;
  return first.read(found.edits).gone ? found : null;
}

export interface Solution {
  readonly knob: Knob;
  readonly value: number;
  readonly edits: readonly TextEdit[];
  /** Steps taken. */
  readonly steps: number;
  readonly way: 1 | -1;
}

/** The fewest steps that mend it, beyond `from` where it is broken for sure; null where none does. */
export function search(meter: Meter, probed: Probed, purse: Purse, from = 0): Solution | null {
  const { knob, way } = probed;
  const most = mostSteps(knob);
  const reads = new Map<number, Read>();
  const readAt = (k: number): Read => {
    const known = reads.get(k);
    if (known !== undefined) return known;
    const edits = editsFor(knob, valueAt(knob, way, k));
    purse.left -= meter.price;
    const read: Read = edits === null ? { gone: false, excess: null } : meter.read(edits);
    reads.set(k, read);
    return read;
  };
  let bad = from;
  let badExcess = probed.start;
  let good: number | null = null;
  let goodExcess = 0;
  if (probed.probe.steps > 0) {
    reads.set(probed.probe.steps, probed.probe.read);
    if (probed.probe.read.gone) {
      good = probed.probe.steps;
      goodExcess = probed.probe.read.excess ?? 0;
    } else if (probed.probe.read.excess !== null && probed.probe.read.excess > 0) {
      bad = probed.probe.steps;
      badExcess = probed.probe.read.excess;
    }
  }
  let next = Math.ceil(probed.steps - 1e-9);
  for (let i = 0; i < MOST_READINGS && purse.left > 0; i++) {
    if (good !== null && good - bad <= 1) break;
    const limit: number = good === null ? most : good - 1;
    const k = Math.min(Math.max(next, bad + 1), limit);
    if (k <= bad) break;
    const read = readAt(k);
    if (read.gone) {
      good = k;
      goodExcess = read.excess ?? 0;
    } else if (read.excess === null) {
      // Beyond what can be built: nothing farther out is looked at.
      if (good !== null || k - bad <= 1) break;
      next = bad + Math.floor((k - bad) / 2);
      continue;
    } else {
      const slope: number = (badExcess - read.excess) / (k - bad);
      // A figure that turns back, or is met by its figure and broken by something else, is followed no farther.
      if (good === null && (slope <= 0 || read.excess <= 0)) {
        if (read.excess > 0 || k >= most) break;
        next = k + 1;
        bad = k;
        badExcess = read.excess;
        continue;
      }
      if (good === null) next = Math.ceil(k + read.excess / slope - 1e-9);
      bad = k;
      badExcess = read.excess;
    }
    if (good !== null) {
      const falsi = badExcess > 0 && goodExcess < 0 ? bad + ((good - bad) * badExcess) / (badExcess - goodExcess) : 0;
      const middle = Math.floor((bad + good) / 2);
      next = i % 3 === 2 || falsi === 0 ? Math.max(middle, bad + 1) : Math.ceil(falsi - 1e-9);
      if (next >= good) next = good - 1;
    } else if (bad >= most) break;
  }
  if (good === null) return null;
  const value = valueAt(knob, way, good);
  const edits = editsFor(knob, value);
  return edits === null ? null : { knob, value, edits, steps: good, way };
}
