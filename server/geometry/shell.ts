/** The seat's shell where the shoulder straps leave it: slots, directions, the rear face behind them. */
import { mm } from '../../grammar/units';
import type { Seat } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { addScaled } from '../centreline/vector';

export interface Slots {
  /** Lower front edge of the slot on the seat's own left, and of the other. */
  readonly left: Vec3;
  readonly right: Vec3;
  /** Level, the way that the seat faces. */
  readonly forward: Vec3;
  /** Level, to the seat's own left. */
  readonly across: Vec3;
  /** Through the shell's thickness, rearward: level when upright, falling aft by the recline angle. */
  readonly aft: Vec3;
  /** Up along the back. */
  readonly up: Vec3;
}

/** Slots and directions of a seat; null where its slots are not known. */
export function slotsOf(seat: Seat): Slots | null {
  if (seat.slots === null || seat.slotSpacing === null) return null;
  const [cy, sy] = [Math.cos(seat.yaw), Math.sin(seat.yaw)];
  const [cr, sr] = [Math.cos(seat.recline), Math.sin(seat.recline)];
  const across: Vec3 = [-sy, cy, 0];
  return {
    left: addScaled(seat.slots, across, seat.slotSpacing / 2),
    right: addScaled(seat.slots, across, -seat.slotSpacing / 2),
    forward: [cy, sy, 0],
    across,
    aft: [-cy * cr, -sy * cr, -sr],
    up: [-cy * sr, -sy * sr, cr],
  };
}

/** How far the shell's rear rectangle reaches beyond the lower rear edges: to each side, and up and down the back. */
const RECTANGLE_MARGIN = mm(60);

export interface Rectangle {
  readonly centre: Vec3;
  /** Half a side each: across, and up along the back. */
  readonly halfAcross: Vec3;
  readonly halfUp: Vec3;
}

/** The rear face about both lower rear edges of the slots; null where the shell is not known. */
export function rearRectangle(seat: Seat): Rectangle | null {
  const slots = slotsOf(seat);
  if (slots === null || seat.slots === null || seat.slotSpacing === null || seat.back === null) return null;
  const zero: Vec3 = [0, 0, 0];
  return {
    centre: addScaled(seat.slots, slots.aft, seat.back),
    halfAcross: addScaled(zero, slots.across, seat.slotSpacing / 2 + RECTANGLE_MARGIN),
    halfUp: addScaled(zero, slots.up, RECTANGLE_MARGIN),
  };
}
