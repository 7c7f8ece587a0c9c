/**
 * In which order the joints are welded: tubes before what is cut to them, so that shrinking goes toward what is still free;
 * left and right by turns, so that heat is balanced while welding goes on (both: AWS D1.1, control of distortion and
 * shrinkage, from memory); and no turn beside the one before where another is left (common practice, no source).
 */
import type { Vec3 } from '../../centreline/vector';
import { distance, mirrorY } from '../../centreline/vector';
import type { Part } from '../../geometry/shape';
import type { PacketInput } from '../packet/paper';
import type { WeldLine } from './list';
import { outOfCarOf } from './out';

/** Nearer to the middle of the car than this a joint is on no side, mm. */
const CENTRE = 30;
/** Two joints this near to being each other's mirror image are welded in one turn, mm: shells, and cages, are not symmetric. */
const IMAGE = 60;
/** A turn keeps so far from the one before, mm. */
const APART = 150;

export interface NumberedWeld extends WeldLine {
  /** 1, 2, … down the weld list. */
  readonly number: number;
  /** Two of one turn are welded one after the other, on both sides; null: out of its place, before all turns. */
  readonly turn: number | null;
}

type Turn = readonly WeldLine[];

const placeOf = ({ end }: WeldLine): Vec3 | null => end.origin;

/** 1 on the left, -1 on the right, 0 in the middle or where it is not known. */
function sideOf(line: WeldLine): -1 | 0 | 1 {
  const y = placeOf(line)?.[1] ?? 0;
  return y > CENTRE ? 1 : y < -CENTRE ? -1 : 0;
}

/** How many tubes one after the other a tube hangs on: those that are made here. Tubes in a circle hang on none of it. */
function depthsOf(parts: ReadonlyMap<string, Part>): (part: Part) => number {
  const known = new Map<Part, number>();
  const depthOf = (part: Part): number => {
    const before = known.get(part);
    if (before !== undefined) return before;
    known.set(part, 0);
    const hosts = part.ends
      .flatMap((end) => (end.fit === 'cope' ? end.hosts : []))
      .flatMap((name) => parts.get(name) ?? [])
      .filter((host) => host !== part && !host.tube.existing);
    const depth = hosts.reduce((most, host) => Math.max(most, depthOf(host) + 1), 0);
    known.set(part, depth);
    return depth;
  };
  return depthOf;
}

/** Joints with their mirror images, a twin's own first; the others each by itself. */
function pairsOf(lines: readonly WeldLine[]): readonly Turn[] {
  const free = new Set(lines);
  return lines.flatMap((one): readonly Turn[] => {
    if (!free.delete(one)) return [];
    const at = placeOf(one);
    const side = sideOf(one);
    if (at === null || side === 0) return [[one]];
    let image: WeldLine | null = null;
    let least = IMAGE;
    for (const other of free) {
      const there = placeOf(other);
      if (there === null || sideOf(other) !== -side) continue;
      const isTwin = other.part.tube.base === one.part.tube.base;
      const off = distance(mirrorY(at), there) + (isTwin ? 0 : IMAGE / 2);
      if (off < least) [image, least] = [other, off];
    }
    if (image === null) return [[one]];
    free.delete(image);
    return [[one, image]];
  });
}

/** The same place whichever side it is on. */
const folded = (turn: Turn): Vec3 | null => {
  const at = turn[0] === undefined ? null : placeOf(turn[0]);
  return at === null ? null : [at[0], Math.abs(at[1]), at[2]];
};

/** Turns of joints that wait for nothing, in an order that spreads the heat. `after`: what was welded before them. */
function spread(turns: readonly Turn[], after: Turn): readonly Turn[] {
  const left = [...turns];
  const order: Turn[] = [];
  let before = after;
  while (left.length > 0) {
    const [from, side] = [folded(before), before.length === 0 ? 0 : sideOf(before[before.length - 1] as WeldLine)];
    const ranks = left.map((turn) => {
      const at = folded(turn);
      const apart = from === null || at === null ? Infinity : distance(from, at);
      const [one] = turn;
      const sameSide = turn.length === 1 && one !== undefined && side !== 0 && sideOf(one) === side;
      return { rank: apart < APART ? 2 : sameSide ? 1 : 0, apart };
    });
    let best = 0;
    ranks.forEach(({ rank, apart }, i) => {
      const than = ranks[best];
      if (than === undefined) return;
      if (rank < than.rank || (rank === 2 && than.rank === 2 && apart > than.apart)) best = i;
    });
    const [turn = []] = left.splice(best, 1);
    const [first, second] = turn;
    // The side that has cooled longer comes first.
    before =
      first !== undefined && second !== undefined && side !== 0 && sideOf(first) === side ? [second, first] : turn;
    order.push(before);
  }
  return order;
}

/** Every weld of the car with its number: what is welded out of its place first, then turn by turn. */
export function weldOrder(input: PacketInput): readonly NumberedWeld[] {
  const numberOf = ({ part }: WeldLine): number => input.numbers.get(part.name)?.number ?? Infinity;
  const lines = [...input.welds()].sort((a, b) => numberOf(a) - numberOf(b));
  const key = (part: string, end: string): string => `${end} ${part}`;
  const byEnd = new Map(lines.map((line) => [key(line.part.name, line.end.which), line]));
  const out = outOfCarOf(input).flatMap(({ part, end }) => byEnd.get(key(part, end)) ?? []);
  const isOut = new Set(out);
  const depthOf = depthsOf(input.shape.parts);
  const levels = new Map<number, WeldLine[]>();
  for (const line of lines) {
    if (isOut.has(line)) continue;
    const depth = depthOf(line.part);
    levels.set(depth, [...(levels.get(depth) ?? []), line]);
  }
  const turns: Turn[] = [];
  for (const [, of] of [...levels].sort(([a], [b]) => a - b)) turns.push(...spread(pairsOf(of), turns.at(-1) ?? []));
  return [
    ...out.map((line) => ({ ...line, turn: null })),
    ...turns.flatMap((turn, i) => turn.map((line) => ({ ...line, turn: i + 1 }))),
  ].map((line, i) => ({ ...line, number: i + 1 }));
}
