/** Seat gap and bar gap: how far the shell's rear face about the shoulder slots is from the tubes behind it. */
import { mm } from '../../grammar/units';
import type { Cage, Seat } from '../cage/cage';
import { norm } from '../centreline/vector';
import { Neighbours } from './neighbours';
import type { Part, SeatFigures, StrapFigures } from './shape';
import type { Rectangle } from './shell';
import { rearRectangle } from './shell';
import { rectangleToTube } from './solid-distance';
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
  let best: Nearest | null = null;
  for (const part of parts) {
    const stretch = bodyStretch(part);
    const od = part.tube.section?.od;
    if (part.centreline === null || stretch === null || od === undefined) continue;
    const enough = best === null ? Infinity : best.gap + 2 * SAME;
    const gap = rectangleToTube(rectangle, part.centreline, stretch, od / 2, enough);
    if (gap >= enough) continue;
    if (best === null || gap < best.gap - SAME || (gap <= best.gap + SAME && byText(part.name, best.part) < 0)) {
      best = { part: part.name, gap };
    }
  }
  return best;
}

/** The nearest of all parts: those round the rectangle, from farther and farther away. */
function nearestOfAll(rectangle: Rectangle, neighbours: Neighbours): Nearest | null {
  const half = norm(rectangle.halfAcross) + norm(rectangle.halfUp);
  for (let reach = half + FIRST_REACH; ; reach *= 2) {
    const best = nearestPart(rectangle, neighbours.around(rectangle.centre, reach));
    // What was not found is at least `reach` from the middle of the rectangle.
    if ((best !== null && best.gap < reach - half) || !(reach < half + neighbours.span + norm(rectangle.centre)))
      return best;
  }
}

/** The figures of one seat. `bars` are the parts that its straps lie on. */
export function seatFigures(seat: Seat, neighbours: Neighbours, bars: readonly Part[]): SeatFigures {
  const rectangle = rearRectangle(seat);
  const nearest = rectangle === null ? null : nearestOfAll(rectangle, neighbours);
  const bar = rectangle === null ? null : nearestPart(rectangle, bars);
  return {
    name: seat.name,
    gap: nearest === null ? null : mm(nearest.gap),
    to: nearest?.part ?? null,
    barGap: bar === null ? null : mm(bar.gap),
    bar: bar?.part ?? null,
  };
}

/** All seats of a cage, in its order. `straps` say which bars are whose. Never throws. */
export function seatsOf(
  cage: Cage,
  parts: ReadonlyMap<string, Part>,
  straps: readonly StrapFigures[],
  neighbours: Neighbours = new Neighbours(parts.values()),
): { readonly seats: readonly SeatFigures[] } {
  const bars = new Map<string, Set<string>>();
  for (const { seat, part } of straps) {
    if (seat === null || part === null) continue;
    const own = bars.get(seat);
    if (own === undefined) bars.set(seat, new Set([part]));
    else own.add(part);
  }
  const seats: SeatFigures[] = [];
  for (const thing of cage.things.values()) {
    if (thing.kind !== 'seat') continue;
    const own = [...(bars.get(thing.name) ?? [])].flatMap((name) => parts.get(name) ?? []);
    seats.push(seatFigures(thing, neighbours, own));
  }
  return { seats };
}
