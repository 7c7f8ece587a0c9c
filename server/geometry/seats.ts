/** Seat gap and bar gap: how far the shell's rear face about the shoulder slots is from the tubes behind it. */
import { mm } from '../../grammar/units';
import type { Cage, Seat } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { norm } from '../centreline/vector';
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

/** Looks at the parts round the rectangle, from farther and farther away. */
function nearestOfAll(rectangle: Rectangle, neighbours: Neighbours): Found {
  const { centre } = rectangle;
  const half = norm(rectangle.halfAcross) + norm(rectangle.halfUp);
  for (let reach = half + FIRST_REACH; ; reach *= 2) {
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
  const { best, looked }: Found =
    rectangle === null ? { best: null, looked: null } : nearestOfAll(rectangle, neighbours);
  const bar = rectangle === null ? null : nearestPart(rectangle, bars);
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
