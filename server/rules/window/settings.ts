/**
 * How a seat can stand: its recline and its slide, and the seat at each of them. A back turns about the hip point, a
 * slide goes level along the seat's own forward; the driver's shoulder keeps its place beside the slot, in the car's frame,
 * as it is written.
 */
import type { Angle, Length } from '../../../grammar/units';
import { deg, mm, rad } from '../../../grammar/units';
import type { Seat } from '../../cage/cage';
import type { Vec3 } from '../../centreline/vector';
import { add, addScaled, dot, sub } from '../../centreline/vector';

export interface Setting {
  readonly recline: Angle;
  /** Forward of what is written. */
  readonly slide: Length;
}

/** Between two settings that are looked at: the effect of what lies between them is under 0.02° of drop. */
const RECLINE_STEP = deg(1);
const SLIDE_STEP = mm(20);
/** A range is looked at in this many steps at most: beyond 30 degrees or 600 mm the steps grow, not the wait. */
const MOST_STEPS = 30;

interface Range {
  readonly from: number;
  readonly to: number;
}

const spans = (range: Range | null): boolean => range !== null && range.to > range.from;

/** True where the seat reclines, but nobody knows about which point. */
export const pivotMissing = ({ reclineRange, hip }: Seat): boolean => spans(reclineRange) && hip === null;

/** True where a range is written that cannot be read. */
export const rangeUnread = ({ reclineRange, slideRange }: Seat): boolean =>
  reclineRange === null || slideRange === null;

/** True where the seat can stand in more than one way. */
export const isAdjustable = ({ reclineRange, slideRange }: Seat): boolean => spans(reclineRange) || spans(slideRange);

/** About the hip, aft by `turn`: level and upright shares of the way from the hip change as on a circle. */
function turned(slots: Vec3, hip: Vec3, turn: number, yaw: number): Vec3 {
  const forward: Vec3 = [Math.cos(yaw), Math.sin(yaw), 0];
  const way = sub(slots, hip);
  const [ahead, up] = [dot(way, forward), way[2]];
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const moved = addScaled(slots, forward, ahead * c - up * s - ahead);
  return add(moved, [0, 0, up * c + ahead * s - up]);
}

/** The seat at one setting; a recline about an unknown point is left as it is written. */
export function seatAt(seat: Seat, { recline, slide }: Setting): Seat {
  const push: Vec3 = [slide * Math.cos(seat.yaw), slide * Math.sin(seat.yaw), 0];
  const { hip, slots } = seat;
  const back =
    hip === null || slots === null || recline === seat.recline
      ? slots
      : turned(slots, hip, recline - seat.recline, seat.yaw);
  return {
    ...seat,
    hip: hip === null ? null : add(hip, push),
    slots: back === null ? null : add(back, push),
    recline: hip === null ? seat.recline : recline,
  };
}

function steps({ from, to }: Range, step: number): readonly number[] {
  const count = to > from ? Math.min(MOST_STEPS, Math.max(1, Math.ceil((to - from) / step - 1e-9))) : 0;
  return Array.from({ length: count + 1 }, (_, i) => (count === 0 ? from : from + ((to - from) * i) / count));
}

function grid(seat: Seat, reclineStep: number, slideStep: number): readonly Setting[] {
  const { recline: written, reclineRange, slideRange } = seat;
  const turning = reclineRange === null || pivotMissing(seat) ? { from: written, to: written } : reclineRange;
  const reclines = steps(turning, reclineStep);
  const slides = steps(slideRange ?? { from: 0, to: 0 }, slideStep);
  return reclines.flatMap((recline) => slides.map((slide) => ({ recline: rad(recline), slide: mm(slide) })));
}

/** The ends of both ranges: one setting, two or four. */
export const endSettings = (seat: Seat): readonly Setting[] => grid(seat, Infinity, Infinity);

/** Both ranges from end to end, for a usual seat so finely that nothing hides between. */
export const allSettings = (seat: Seat): readonly Setting[] => grid(seat, RECLINE_STEP, SLIDE_STEP);
