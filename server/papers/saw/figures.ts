/** What a saw does to one end: flat cuts for a fish-mouth, or the one that a plate or a square end wants. */
import type { Angle, Length, LengthUnit } from '../../../grammar/units';
import { mm, rad } from '../../../grammar/units';
import type { Saw } from '../../cage/cage';
import type { End, Part } from '../../geometry/shape';
import type { CopedEnd, FlatCut, FlatStart } from '../../geometry/two-cut';
import { COMMON_REACH, mirroredStart, sampled, settable, twoCut, WORTH_A_CUT } from '../../geometry/two-cut';
import { stepOf } from './tape';

/** A mitre saw is set to half degrees, and a clock is laid out to whole ones. */
const ANGLE_STEP = Math.PI / 360;
const CLOCK_STEP = Math.PI / 180;

/** Whether the vice holds the tube beside a cut. */
export interface Hold {
  /** Straight tube behind the deepest point of the cut: to the nearest bend, or to the other end's cut. */
  readonly straight: Length | null;
  /** What it runs to. */
  readonly upTo: 'bend' | 'other end';
  /** What the vice needs; null: not told. */
  readonly vice: Length | null;
  /** Null where one of the two is not known. */
  readonly holds: boolean | null;
}

export interface HeldCut {
  readonly cut: FlatCut;
  /** From the mark to where the nearest bend begins; null without bends. */
  readonly fromBend: Length | null;
  readonly hold: Hold;
}

/** A coped end. */
export interface CopeStart {
  readonly kind: 'cope';
  readonly end: End;
  readonly coped: CopedEnd;
  /** The one to make, as a saw can be set to. */
  readonly chosen: FlatStart;
  readonly cuts: readonly HeldCut[];
  /** True where a second cut is not worth it. */
  readonly oneIsEnough: boolean;
  /** What a square end at the long point, one cut and two would leave. */
  readonly leftSquare: Length;
  readonly leftOne: Length;
  readonly leftTwo: Length;
}

/** An end that is done when it is sawn. */
export interface PlainSaw {
  readonly kind: 'sawn';
  readonly end: End;
  readonly angle: Angle;
  /** Clock of the long point; null where it is square. */
  readonly longClock: Angle | null;
  /** From the long point to the short side. */
  readonly depth: Length;
  readonly fromBend: Length | null;
  readonly hold: Hold;
  /** False where the saw does not turn so far. */
  readonly reached: boolean;
}

export type SawnFigures = CopeStart | PlainSaw;

/** What the saw reaches, radians. */
export const reachOf = (saw: Saw | null): number => saw?.reach ?? COMMON_REACH;

/** Straight from the end's node to where its nearest bend begins; null without bends or where it is not known. */
export function straightTo(part: Part, end: End): Length | null {
  if (part.bends.length === 0) return null;
  return end.which === 'first' ? (part.bends[0]?.straightBefore ?? null) : part.straightAfter;
}

function holdOf(part: Part, end: End, deep: number, saw: Saw | null): Hold {
  const bent = part.bends.length > 0;
  const other = part.ends[end.which === 'first' ? 1 : 0];
  const whole = part.centrelineLength;
  const straight = bent
    ? straightTo(part, end)
    : whole === null || other.maxCut === null
      ? null
      : mm(whole - other.maxCut);
  const behind = straight === null ? null : mm(straight - deep);
  const vice = saw?.vice ?? null;
  return {
    straight: behind,
    upTo: bent ? 'bend' : 'other end',
    vice,
    holds: behind === null || vice === null ? null : behind >= vice - 1e-6,
  };
}

const fromBend = (part: Part, end: End, deep: number): Length | null => {
  const straight = straightTo(part, end);
  return straight === null ? null : mm(straight - deep);
};

/** The same cut, worked out once for each clock that is asked for again and again. */
function remembered(curve: CopedEnd['curve']): CopedEnd['curve'] {
  const known = new Map<number, number | null>();
  return {
    cut: (clock) => {
      const old = known.get(clock);
      if (old !== undefined) return old;
      const cut = curve.cut(clock);
      known.set(clock, cut);
      return cut;
    },
  };
}

/** What was worked out for an end, so that its twin, or an end cut alike, has the same. */
interface KnownStart {
  readonly heights: Float64Array;
  readonly outerRadius: number;
  readonly innerRadius: number;
  readonly starts: Starts;
}

/** One cut and two as a saw can be set to, and which to make. */
interface Starts {
  readonly one: FlatStart;
  readonly two: FlatStart;
  readonly better: 'pair' | 'single';
}

/** Ends worked out so far. Whoever makes many sheets hands the same one in again: twins then never differ by rounding. */
export type KnownStarts = KnownStart[];

/** Two curves that differ by less are one, mm: a hundredth of what the cuts stay clear. */
const ALIKE = 1e-4;

/** The starts of an end that is cut like this one, or is its mirror image. */
function startsAgain(end: CopedEnd, heights: Float64Array, known: KnownStarts): Starts | null {
  const like = (there: Float64Array, at: (k: number) => number): boolean =>
    heights.every((height, k) => Math.abs(height - (there[at(k)] ?? NaN)) < ALIKE);
  for (const { outerRadius, innerRadius, heights: there, starts } of known) {
    if (outerRadius !== end.outerRadius || innerRadius !== end.innerRadius) continue;
    if (like(there, (k) => k)) return starts;
    if (like(there, (k) => (heights.length - k) % heights.length))
      return { ...starts, one: mirroredStart(starts.one), two: mirroredStart(starts.two) };
  }
  return null;
}

function startsOf(end: CopedEnd, reach: number, markStep: number, known: KnownStarts): Starts | null {
  const heights = sampled(end);
  if (heights === null) return null;
  const again = startsAgain(end, heights, known);
  if (again !== null) return again;
  const cuts = twoCut(end, reach);
  if (cuts === null) return null;
  const set = (start: FlatStart): FlatStart | null => settable(end, start, ANGLE_STEP, CLOCK_STEP, reach, markStep);
  const [slanted, two] = [set(cuts.single), set(cuts.pair)];
  const flat = set({
    ...cuts.single,
    cuts: cuts.single.cuts.map((cut) => ({ ...cut, angle: rad(0), deepClock: null })),
  });
  if (slanted === null || two === null || flat === null) return null;
  // A slant that saves next to nothing is one more thing to get wrong: then the one cut is square.
  const one = flat.left - slanted.left < WORTH_A_CUT ? flat : slanted;
  const starts = { one, two, better: cuts.better };
  known.push({ heights, outerRadius: end.outerRadius, innerRadius: end.innerRadius, starts });
  return starts;
}

/**
 * The figures of one end; null where its cut is not known. Marks stand where a tape of `units` has its own. `known`: of ends
 * of the same car, saw and tape.
 */
export function sawnFigures(
  part: Part,
  end: End,
  saw: Saw | null,
  units: LengthUnit = 'mm',
  known: KnownStarts = [],
): SawnFigures | null {
  const { curve, minCut, maxCut, sawAngle } = end;
  const section = part.tube.section;
  if (curve === null || minCut === null || maxCut === null || section === null) return null;
  const reach = reachOf(saw);
  if (sawAngle !== null) {
    return {
      kind: 'sawn',
      end,
      angle: sawAngle,
      longClock: end.sawClock,
      depth: mm(maxCut - minCut),
      fromBend: fromBend(part, end, minCut),
      hold: holdOf(part, end, maxCut, saw),
      reached: sawAngle <= reach + 1e-9,
    };
  }
  const outerRadius = section.od / 2;
  const coped: CopedEnd = { curve: remembered(curve), outerRadius, innerRadius: outerRadius - section.wall, minCut };
  const starts = startsOf(coped, reach, stepOf(units), known);
  if (starts === null) return null;
  const { one, two, better } = starts;
  const chosen = better === 'single' ? one : two;
  const leftSquare = mm(maxCut - minCut);
  return {
    kind: 'cope',
    end,
    coped,
    chosen,
    cuts: chosen.cuts.map((cut) => ({
      cut,
      fromBend: fromBend(part, end, cut.deep),
      hold: holdOf(part, end, cut.deep, saw),
    })),
    oneIsEnough: better === 'single',
    leftSquare,
    leftOne: one.left,
    leftTwo: two.left,
  };
}
