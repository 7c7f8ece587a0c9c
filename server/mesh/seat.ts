/**
 * A seat's shell with the slots that its shoulder straps leave it by, and the ball round the helmet. The slots, the back
 * and the thickness there are the file's; base, sides and the height of a slot are drawn at sizes that are told here.
 */
import type { Seat } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled, cross, dot, scale, unit } from '../centreline/vector';
import { ABOVE_SLOTS, SLOT_HALF } from '../drawing/things';
import type { Slots } from '../geometry/shell';
import { slotsOf } from '../geometry/shell';
import { Builder } from './builder';
import { ball } from './flat';
import type { Mesh } from './mesh';

/** How far the base reaches forward of the hip, how it rises, how far the sides stand out and beside the slots, mm. */
const BASE = 380;
const RISE = 0.2;
const SIDES = { base: 50, hip: 110, slots: 70, top: 35 };
const BESIDE = 50;
const SLOT_HEIGHT = 22;
/** Thickness where the file does not say it: away from the slots. */
const THIN = 14;

/** A line along the shell, from the front of the base up the back: on its inner face, with the face's normal there. */
interface Row {
  readonly at: Vec3;
  readonly normal: Vec3;
  /** How far its sides stand out toward the driver, and how thick the shell is there. */
  readonly side: number;
  readonly thick: number;
  /** Its cells up to the next row have the slots. */
  readonly slotted: boolean;
}

/** A line up the shell: how far to the seat's left, and which way its outer face lies from the inner one. */
interface Column {
  readonly left: number;
  /** Its share of how far the row's sides stand out. */
  readonly out: 0 | 1;
  readonly toSide: -1 | 0 | 1;
  readonly behind: 0 | 1;
}

function rowsOf(seat: Seat, { up, across }: Slots, slots: Vec3): readonly Row[] {
  const back = cross(across, up);
  const thick = seat.back !== null && seat.back > 0 ? seat.back : THIN;
  const row = (at: Vec3, side: number): Row => ({ at, normal: back, side, thick, slotted: false });
  const upper: readonly Row[] = [
    { ...row(slots, SIDES.slots), slotted: true },
    row(addScaled(slots, up, SLOT_HEIGHT), SIDES.slots),
    row(addScaled(slots, up, ABOVE_SLOTS), SIDES.top),
  ];
  const { hip } = seat;
  if (hip === null) return [row(addScaled(slots, up, -ABOVE_SLOTS), SIDES.slots), ...upper];
  const base = unit(add(unit(cross(across, [0, 0, 1])), [0, 0, RISE]));
  // Backward along the base, so that rows go on up the back; the corner's face lies midway, as thick as both.
  const under = cross(across, scale(base, -1));
  const half = unit(add(under, back));
  return [
    { at: addScaled(hip, base, BASE), normal: under, side: SIDES.base, thick: THIN, slotted: false },
    { at: hip, normal: scale(half, 1 / Math.max(0.3, dot(half, back))), side: SIDES.hip, thick: THIN, slotted: false },
    ...upper,
  ];
}

function columnsOf(seat: Seat, spacing: number): readonly Column[] {
  const half = Math.min(SLOT_HALF, spacing * 0.4);
  const [inner, outer] = [spacing / 2 - half, spacing / 2 + half];
  const side = Math.max(outer + BESIDE, (seat.width ?? 0) / 2);
  const flat = (left: number): Column => ({ left, out: 0, toSide: 0, behind: 1 });
  return [
    { left: -side, out: 1, toSide: -1, behind: 0 },
    { left: -side, out: 0, toSide: -1, behind: 1 },
    ...[-outer, -inner, inner, outer].map(flat),
    { left: side, out: 0, toSide: 1, behind: 1 },
    { left: side, out: 1, toSide: 1, behind: 0 },
  ];
}

/** Cells between columns that a slotted row leaves open. */
const OPEN = [2, 4];

/** The shell; null where its slots are not known. */
export function seatMesh(seat: Seat): Mesh | null {
  const slots = slotsOf(seat);
  if (slots === null || seat.slots === null || seat.slotSpacing === null || !(seat.slotSpacing > 0)) return null;
  const { across } = slots;
  const rows = rowsOf(seat, slots, seat.slots);
  const columns = columnsOf(seat, seat.slotSpacing);
  const inside = rows.map(({ at, normal, side }) =>
    columns.map(({ left, out }) => addScaled(addScaled(at, across, left), normal, out * side)),
  );
  const outside = rows.map(({ normal, thick }, v) =>
    columns.map(({ toSide, behind }, j) =>
      addScaled(addScaled(inside[v]?.[j] ?? [0, 0, 0], across, toSide * THIN), normal, -behind * thick),
    ),
  );
  const isThere = (v: number, j: number): boolean =>
    v >= 0 &&
    j >= 0 &&
    v < rows.length - 1 &&
    j < columns.length - 1 &&
    !(rows[v]?.slotted === true && OPEN.includes(j));
  const build = new Builder();
  const at = (grid: readonly (readonly Vec3[])[], [v, j]: readonly [number, number]): Vec3 => grid[v]?.[j] ?? [0, 0, 0];
  for (let v = 0; v < rows.length - 1; v++) {
    for (let j = 0; j < columns.length - 1; j++) {
      if (!isThere(v, j)) continue;
      const loop = [
        [v, j],
        [v, j + 1],
        [v + 1, j + 1],
        [v + 1, j],
      ] as const;
      build.face(loop.map((corner) => at(inside, corner)));
      build.face([...loop].reverse().map((corner) => at(outside, corner)));
      const beside = [
        [v - 1, j],
        [v, j + 1],
        [v + 1, j],
        [v, j - 1],
      ] as const;
      for (const [i, [nv, nj]] of beside.entries()) {
        const [p, q] = [loop[i], loop[(i + 1) % 4]];
        if (isThere(nv, nj) || p === undefined || q === undefined) continue;
        build.face([at(outside, p), at(outside, q), at(inside, q), at(inside, p)]);
        build.line(at(inside, p), at(inside, q));
        build.line(at(outside, p), at(outside, q));
      }
    }
  }
  return build.mesh();
}

/** The ball that the helmet keeps to; null where it is not told. */
export function helmetMesh(seat: Seat): Mesh | null {
  if (seat.slots === null || seat.helmet === null) return null;
  return ball(add(seat.slots, seat.helmet.offset), seat.helmet.radius);
}
