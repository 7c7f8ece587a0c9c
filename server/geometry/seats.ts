/** Seat gap and bar gap: how far the shell's rear face about the shoulder slots is from the tubes behind it. */
import { mm } from '../../grammar/units';
import type { Cage, Seat } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { addScaled, cross, dot, norm, sub, unit } from '../centreline/vector';
import { onPiece } from '../centreline/piece';
import { sameItems } from './kept';
import type { Kinds } from './kinds';
import { kindsOf } from './kinds';
import { Neighbours } from './neighbours';
import type { Part, SeatFigures, StrapFigures } from './shape';
import type { Rectangle } from './shell';
import { rearRectangle } from './shell';
import { rectangleToTube, tubeAtLeast } from './solid-distance';
import { bodyStretch } from './stretch';
import { byText } from './tell';

interface Nearest {
  readonly part: string;
  readonly gap: number;
}

/** Gaps that differ by less than rounding are the same: then the name decides, not the order of the text. */
const SAME = 1e-9;
/** A tube so far in front of the rear face stands in the seat; farther off it is before the driver, mm. */
const IN_SEAT = 300;
/** Arcs are looked at in steps of this, radians. */
const ARC_STEP = (2 * Math.PI) / 180;
/** Where the search begins, mm beyond the rectangle: a harness bar is about 200 behind a seat. */
const FIRST_REACH = 300;

/** The nearest of some parts; null where none of them is known. */
function nearestPart(rectangle: Rectangle, parts: Iterable<Part>): Nearest | null {
  const known = [...parts].flatMap((part) => {
    const stretch = bodyStretch(part);
    const od = part.tube.section?.od;
    const line = part.centreline;
    if (line === null || stretch === null || od === undefined) return [];
    return [{ part, line, stretch, radius: od / 2, bound: tubeAtLeast(rectangle, line, stretch, od / 2) }];
  });
  known.sort((a, b) => a.bound - b.bound || byText(a.part.name, b.part.name));
  let best: Nearest | null = null;
  for (const { part, line, stretch, radius, bound } of known) {
    const enough = best === null ? Infinity : best.gap + 2 * SAME;
    if (bound >= enough) break;
    const gap = rectangleToTube(rectangle, line, stretch, radius, enough);
    if (gap >= enough) continue;
    if (best === null || gap < best.gap - SAME || (gap <= best.gap + SAME && byText(part.name, best.part) < 0)) {
      best = { part: part.name, gap };
    }
  }
  return best;
}

/**
 * By how much a tube's surface stands in front of the rear face, behind which it should be, mm: of the points of its axis
 * that lie straight before or behind the rectangle, the foremost. Null: none of it is there.
 */
function inFront(rectangle: Rectangle, { centreline, tube }: Part): number | null {
  const radius = (tube.section?.od ?? 0) / 2;
  const [u, v] = [unit(rectangle.halfAcross), unit(rectangle.halfUp)];
  const [wide, high] = [norm(rectangle.halfAcross), norm(rectangle.halfUp)];
  // Across, then up: their cross product points forward out of the shell.
  const forward = cross(u, v);
  let most: number | null = null;
  const offer = (p: Vec3): void => {
    const rel = sub(p, rectangle.centre);
    if (Math.abs(dot(rel, u)) > wide + SAME || Math.abs(dot(rel, v)) > high + SAME) return;
    const by = dot(rel, forward) + radius;
    if (by > 0 && by - 2 * radius <= IN_SEAT && (most === null || by > most)) most = by;
  };
  for (const piece of centreline?.pieces ?? []) {
    if (piece.kind === 'arc') {
      const steps = Math.max(1, Math.ceil(piece.angle / ARC_STEP));
      for (let i = 0; i <= steps; i++) offer(onPiece(piece, (piece.length * i) / steps).point);
      continue;
    }
    // Along a leg the distance grows steadily: its ends, and where it comes before the rectangle or leaves it.
    const rel = sub(piece.from, rectangle.centre);
    const marks = [0, piece.length];
    for (const [axis, half] of [
      [u, wide],
      [v, high],
    ] as const) {
      for (const edge of [-half, half]) {
        const along = (edge - dot(rel, axis)) / dot(piece.direction, axis);
        if (along > 0 && along < piece.length) marks.push(along);
      }
    }
    for (const along of marks) offer(addScaled(piece.from, piece.direction, along));
  }
  return most;
}

/** Of parts that stand inside the seat the one that stands deepest; null: none does. */
function deepest(rectangle: Rectangle, parts: Iterable<Part>): Nearest | null {
  let best: Nearest | null = null;
  for (const part of parts) {
    const by = inFront(rectangle, part);
    if (by === null) continue;
    if (best === null || -by < best.gap - SAME || (-by <= best.gap + SAME && byText(part.name, best.part) < 0))
      best = { part: part.name, gap: -by };
  }
  return best;
}

/** The nearest of all parts, and which parts decided that; `looked` is null where it was all parts of the car. */
interface Found {
  readonly best: Nearest | null;
  readonly looked: Ball | null;
}

/** About a point; parts of which nothing is inside do not matter. */
interface Ball {
  readonly centre: Vec3;
  readonly reach: number;
}

const sizeOf = (rectangle: Rectangle): number => norm(rectangle.halfAcross) + norm(rectangle.halfUp);
const firstReach = (rectangle: Rectangle): number => sizeOf(rectangle) + FIRST_REACH;

/** Looks at the parts round the rectangle, from farther and farther away. */
function nearestOfAll(rectangle: Rectangle, neighbours: Neighbours): Found {
  const { centre } = rectangle;
  const half = sizeOf(rectangle);
  for (let reach = firstReach(rectangle); ; reach *= 2) {
    const best = nearestPart(rectangle, neighbours.around(centre, reach));
    // What was not found is at least `reach` from the middle of the rectangle.
    if (best !== null && best.gap < reach - half) return { best, looked: { centre, reach } };
    if (!(reach < half + neighbours.span + norm(centre))) return { best, looked: null };
  }
}

interface Gaps {
  readonly figures: SeatFigures;
  readonly looked: Ball | null;
}

function gapsOf(seat: Seat, neighbours: Neighbours, bars: readonly Part[]): Gaps {
  const rectangle = rearRectangle(seat);
  const { best: nearest, looked }: Found =
    rectangle === null ? { best: null, looked: null } : nearestOfAll(rectangle, neighbours);
  // What is within the first reach is always among those that were looked at.
  const about = rectangle === null ? [] : neighbours.around(rectangle.centre, firstReach(rectangle));
  const best = (rectangle === null ? null : deepest(rectangle, about)) ?? nearest;
  const bar = rectangle === null ? null : (deepest(rectangle, bars) ?? nearestPart(rectangle, bars));
  const figures = {
    name: seat.name,
    gap: best === null ? null : mm(best.gap),
    to: best?.part ?? null,
    barGap: bar === null ? null : mm(bar.gap),
    bar: bar?.part ?? null,
  };
  return { figures, looked };
}

/** The figures of one seat. `bars` are the parts that its straps lie on. */
export const seatFigures = (seat: Seat, neighbours: Neighbours, bars: readonly Part[]): SeatFigures =>
  gapsOf(seat, neighbours, bars).figures;

/** Seats of the run before, with what each was made of. */
export class SeatCache {
  private before: ReadonlyMap<string, Gaps & { readonly from: readonly unknown[] }> = new Map();
  private now = new Map<string, Gaps & { readonly from: readonly unknown[] }>();
  private misses = 0;

  figures(seat: Seat, neighbours: Neighbours, bars: readonly Part[]): SeatFigures {
    const old = this.before.get(seat.name);
    if (
      old?.looked &&
      sameItems(old.from, [seat, bars.length, ...bars, ...neighbours.around(old.looked.centre, old.looked.reach)])
    ) {
      this.now.set(seat.name, old);
      return old.figures;
    }
    this.misses += 1;
    const gaps = gapsOf(seat, neighbours, bars);
    const { looked } = gaps;
    const near = looked === null ? [] : neighbours.around(looked.centre, looked.reach);
    this.now.set(seat.name, { ...gaps, from: [seat, bars.length, ...bars, ...near] });
    return gaps.figures;
  }

  /** How many seats were measured since this was last asked. */
  takeMisses(): number {
    const { misses } = this;
    this.misses = 0;
    return misses;
  }

  /** Ends a round: what it did not ask for is dropped. */
  sweep(): void {
    this.before = this.now;
    this.now = new Map();
  }
}

/** All seats of a cage, in its order. `straps` say which bars are whose. Never throws. */
export function seatsOf(
  cage: Cage,
  parts: ReadonlyMap<string, Part>,
  straps: readonly StrapFigures[],
  neighbours: Neighbours = new Neighbours(parts.values()),
  cache: SeatCache = new SeatCache(),
  kinds: Kinds = kindsOf(cage),
): { readonly seats: readonly SeatFigures[] } {
  const bars = new Map<string, Set<string>>();
  for (const { seat, part } of straps) {
    if (seat === null || part === null) continue;
    const own = bars.get(seat);
    if (own === undefined) bars.set(seat, new Set([part]));
    else own.add(part);
  }
  const seats: SeatFigures[] = [];
  for (const seat of kinds.seats) {
    const own = [...(bars.get(seat.name) ?? [])].flatMap((name) => parts.get(name) ?? []);
    seats.push(cache.figures(seat, neighbours, own));
  }
  return { seats };
}
