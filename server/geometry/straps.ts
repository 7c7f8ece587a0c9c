/**
 * Shoulder straps: the straight run from the seat's slot to where the webbing first touches its bar, and its figures.
 * All of them are defined here and nowhere else; which of them are good is for the rules to say.
 */
import type { Finding } from '../../grammar/finding';
import type { Angle, Length } from '../../grammar/units';
import { mm, rad } from '../../grammar/units';
import type { Cage, Seat, Strap } from '../cage/cage';
import type { OnCentreline } from '../centreline/centreline';
import { planeCrossings } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled, cross, distance, dot, norm, scale, sub, unit } from '../centreline/vector';
import { outerRadius } from './axis';
import { Kept } from './kept';
import type { Kinds } from './kinds';
import { kindsOf } from './kinds';
import type { Slots } from './shell';
import { slotsOf } from './shell';
import type { Part, StrapFigures, Stretch } from './shape';
import type { BarCaches } from './straps-on-bar';
import { newBarCaches, onBarFindings } from './straps-on-bar';
import { about, partsOf } from './stretch';

/** Why a strap has no run to its bar. */
export type Miss = 'no-crossing' | 'inside' | 'upright';

export interface StrapResult {
  readonly figures: StrapFigures;
  /** Null: it meets the bar, or what it hangs on is not known and has its own finding. */
  readonly miss: Miss | null;
}

/** Less than this below the slot's edge is rounding, mm. */
const ON_EDGE = 1e-9;
/** A bar whose tangent is nearer to vertical than this has no top. */
const UPRIGHT = 1e-9;

const AXIS: Readonly<Record<'x' | 'y' | 'z', Vec3>> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

interface OnBar extends OnCentreline {
  readonly part: Part;
}

/**
 * P: where the bar's centreline crosses the strap's own plane: the one written (`at y = 480`), or the vertical plane
 * through the slot along the seat's forward. Of several crossings the one nearest to the slot; null: there is none.
 */
function barPoint(strap: Strap, bars: readonly Part[], slot: Vec3, across: Vec3): OnBar | null {
  const normal = strap.at === null ? across : AXIS[strap.at.axis];
  const offset = strap.at === null ? dot(across, slot) : strap.at.value;
  let best: OnBar | null = null;
  for (const part of bars) {
    if (part.centreline === null) continue;
    for (const on of planeCrossings(part.centreline, normal, offset).crossings) {
      if (best !== null && distance(on.point, slot) >= distance(best.point, slot)) continue;
      best = { point: on.point, tangent: on.tangent, station: on.station, part };
    }
  }
  return best;
}

/**
 * T: in the plane through P across the bar, the point of the bar's circle where the line from `start`, projected into
 * that plane, is tangent to its top (its underside with `under`). Elementary geometry of a tangent from a point to a
 * circle: the foot's normal n has n · d = radius, where d leads from P to the projected start.
 */
function tangentPoint(start: Vec3, on: OnCentreline, radius: number, wrap: 'over' | 'under'): Vec3 | Miss {
  const upright = addScaled([0, 0, 1], on.tangent, -on.tangent[2]);
  if (norm(upright) < UPRIGHT) return 'upright';
  const up = scale(unit(upright), wrap === 'over' ? 1 : -1);
  const rel = sub(start, on.point);
  const d = addScaled(rel, on.tangent, -dot(rel, on.tangent));
  const far = norm(d);
  if (far <= radius) return 'inside';
  const toward = scale(d, 1 / far);
  const side = cross(on.tangent, toward);
  // Straight above the bar both tangents are equally high: the webbing goes down behind it.
  const rise = dot(side, up);
  const sign = Math.abs(rise) > UPRIGHT ? Math.sign(rise) : side[0] <= 0 ? 1 : -1;
  const share = radius / far;
  const n = add(scale(toward, share), scale(side, sign * Math.sqrt(1 - share * share)));
  return addScaled(on.point, n, radius);
}

/** The angle below horizontal in side view (x-z) of the line from `from` to `to`, positive down. */
const dropOf = (from: Vec3, to: Vec3): Angle => rad(Math.atan2(from[2] - to[2], Math.abs(from[0] - to[0])));

/**
 * Along the run, from where it leaves the shell's rear face to where it comes beside the bar (the vertical plane along
 * the bar that touches it on the seat's side) or touches it, whichever is first. 0 where the bar leaves nothing.
 */
function freeRunOf(run: Run, lip: Vec3, aft: Vec3, on: OnCentreline, radius: number): Length {
  const length = distance(run.start, run.contact);
  const direction = unit(sub(run.contact, run.start));
  const outward = dot(direction, aft);
  const behind = dot(sub(lip, run.start), aft);
  if (behind > 0 && outward <= 0) return mm(0);
  const leaves = outward > 0 ? Math.max(0, behind / outward) : 0;
  const level = unit([-on.tangent[1], on.tangent[0], 0]);
  const front = dot(sub(run.start, on.point), level) < 0 ? scale(level, -1) : level;
  const closing = -dot(direction, front);
  const beside = closing > 0 ? (dot(sub(run.start, on.point), front) - radius) / closing : length;
  return mm(Math.max(0, Math.min(beside, length) - leaves));
}

interface Run {
  readonly start: Vec3;
  readonly contact: Vec3;
  readonly onLip: boolean;
}

/** From the slot's front edge; where that run would pass below the rear edge, the webbing lies on it and starts there. */
function runOf(slot: Vec3, lip: Vec3, aft: Vec3, up: Vec3, contactFrom: (start: Vec3) => Vec3 | Miss): Run | Miss {
  const contact = contactFrom(slot);
  if (typeof contact === 'string') return contact;
  const direct = sub(contact, slot);
  const reaches = dot(direct, aft) > dot(sub(lip, slot), aft);
  if (!reaches || dot(direct, up) >= -ON_EDGE) return { start: slot, contact, onLip: false };
  const fromLip = contactFrom(lip);
  return typeof fromLip === 'string' ? fromLip : { start: lip, contact: fromLip, onLip: true };
}

/** What the strap's own collars cover: one on each side of the webbing, clear of it by their gap. */
function collarsOf(strap: Strap, webbing: Stretch | null): readonly Stretch[] {
  if (strap.collars === null || webbing === null) return [];
  const { width, gap } = strap.collars;
  return [
    { from: mm(webbing.from - gap - width), to: mm(webbing.from - gap) },
    { from: mm(webbing.to + gap), to: mm(webbing.to + gap + width) },
  ];
}

/**
 * The figures of one strap but `crossed`, which takes the seat's other straps ({@link markCrossed}). What hangs on
 * something that is not known is null.
 */
export function strapFigures(strap: Strap, seat: Seat | null, parts: ReadonlyMap<string, Part>): StrapResult {
  const slots = seat === null ? null : slotsOf(seat);
  const slot = slots === null || strap.slot === null ? null : slots[strap.slot];
  if (seat === null || slots === null || slot === null || strap.tube === null || strap.unread)
    return without(strap, slot, null, null);

  const bars = partsOf(parts, strap.tube);
  if (bars.length === 0 || bars.every((part) => part.centreline === null)) return without(strap, slot, null, null);
  const on = barPoint(strap, bars, slot, slots.across);
  if (on === null) return without(strap, slot, null, 'no-crossing');

  const section = on.part.tube.section;
  const lip = seat.back === null ? null : addScaled(slot, slots.aft, seat.back);
  if (section === null || lip === null) return without(strap, slot, on, null);
  const radius = section.od / 2;
  const run = runOf(slot, lip, slots.aft, slots.up, (start) => tangentPoint(start, on, radius, strap.wrap));
  if (typeof run === 'string') return without(strap, slot, on, run);
  return { figures: figuresOf(strap, seat, slots, slot, lip, on, run), miss: null };
}

/** A strap of which only where it lies is known, or not even that. */
function without(strap: Strap, slot: Vec3 | null, on: OnBar | null, miss: Miss | null): StrapResult {
  const webbing = on === null || strap.width === null ? null : about(on.station, strap.width);
  const figures: StrapFigures = {
    name: strap.name,
    seat: strap.seat,
    tube: strap.tube,
    slotSide: strap.slot,
    slot,
    start: null,
    contact: null,
    barPoint: on?.point ?? null,
    onLip: false,
    drop: null,
    dropFromShoulder: null,
    spread: null,
    skew: null,
    crossed: false,
    length: null,
    freeRun: null,
    part: on?.part.name ?? null,
    station: on === null ? null : mm(on.station),
    webbing,
    collars: collarsOf(strap, webbing),
  };
  return { figures, miss };
}

/** All figures of a strap whose run is known. */
function figuresOf(strap: Strap, seat: Seat, slots: Slots, slot: Vec3, lip: Vec3, on: OnBar, run: Run): StrapFigures {
  const { start, contact, onLip } = run;
  const along = sub(contact, start);
  const shoulder = seat.shoulder === null ? null : add(slot, add(seat.shoulder, [0, 0, seat.yoke ?? 0]));
  const outward = dot(along, slots.across) * (strap.slot === 'left' ? 1 : -1);
  const webbing = strap.width === null ? null : about(on.station, strap.width);
  return {
    name: strap.name,
    seat: strap.seat,
    tube: strap.tube,
    slotSide: strap.slot,
    slot,
    start,
    contact,
    barPoint: on.point,
    onLip,
    drop: dropOf(start, contact),
    dropFromShoulder: shoulder === null ? null : dropOf(shoulder, contact),
    spread: rad(Math.atan2(outward, Math.abs(dot(along, slots.forward)))),
    skew: rad(Math.atan2(Math.abs(dot(along, on.tangent)), norm(cross(along, on.tangent)))),
    crossed: false,
    length: mm(norm(along)),
    freeRun: freeRunOf(run, lip, slots.aft, on, outerRadius(on.part)),
    part: on.part.name,
    station: mm(on.station),
    webbing,
    collars: collarsOf(strap, webbing),
  };
}

/** How far to the seat's own left a strap's contact lies; null where it is not known. */
function aside(figures: StrapFigures, seatNamed: (name: string) => Seat | null): number | null {
  const seat = figures.seat === null ? null : seatNamed(figures.seat);
  const slots = seat === null ? null : slotsOf(seat);
  return slots === null || figures.contact === null ? null : dot(figures.contact, slots.across);
}

/** Says of all straps whether two of one seat have changed sides on their way to the bar. */
export function markCrossed(
  straps: readonly StrapFigures[],
  seatNamed: (name: string) => Seat | null,
): readonly StrapFigures[] {
  // Of each seat: the outermost contact of a right strap to the left, and of a left strap to the right.
  const reaches = new Map<string, { right: number; left: number }>();
  const asides = straps.map((figures) => aside(figures, seatNamed));
  straps.forEach((figures, i) => {
    const at = asides[i] ?? null;
    if (figures.seat === null || figures.slotSide === null || at === null) return;
    const reach = reaches.get(figures.seat) ?? { right: -Infinity, left: Infinity };
    if (figures.slotSide === 'right') reach.right = Math.max(reach.right, at);
    else reach.left = Math.min(reach.left, at);
    reaches.set(figures.seat, reach);
  });
  return straps.map((figures, i) => {
    const at = asides[i] ?? null;
    const reach = figures.seat === null ? undefined : reaches.get(figures.seat);
    if (reach === undefined || at === null) return figures;
    const crossed = figures.slotSide === 'left' ? at < reach.right : at > reach.left;
    return crossed === figures.crossed ? figures : { ...figures, crossed };
  });
}

/** The seat of that name; null where there is none. */
export const seatIn =
  (cage: Cage) =>
  (name: string): Seat | null => {
    const thing = cage.things.get(name);
    return thing?.kind === 'seat' ? thing : null;
  };

/** Kept between runs: straps by what they hang on, those of one seat by each other. */
export interface StrapCaches extends BarCaches {
  readonly laid: Kept<StrapResult>;
  readonly ofSeats: Kept<readonly StrapFigures[]>;
}

export const newStrapCaches = (): StrapCaches => ({ laid: new Kept(), ofSeats: new Kept(), ...newBarCaches() });

/** A strap as it lies. */
interface Laid {
  readonly strap: Strap;
  readonly seat: Seat | null;
  readonly result: StrapResult;
}

/** All straps of a cage: figures in the cage's order, and what is wrong with where they lie. Never throws. */
export function strapsOf(
  cage: Cage,
  parts: ReadonlyMap<string, Part>,
  caches: StrapCaches = newStrapCaches(),
  kinds: Kinds = kindsOf(cage),
): { readonly straps: readonly StrapFigures[]; readonly findings: readonly Finding[] } {
  const seatNamed = seatIn(cage);
  const laid: Laid[] = [];
  for (const strap of kinds.straps) {
    const seat = strap.seat === null ? null : seatNamed(strap.seat);
    const bars = strap.tube === null ? [] : partsOf(parts, strap.tube);
    const result = caches.laid.get(strap.name, [strap, seat, ...bars], () => strapFigures(strap, seat, parts));
    laid.push({ strap, seat, result });
  }
  return {
    straps: crossedOnes(laid, seatNamed, caches),
    findings: onBarFindings(cage, laid, parts, kinds.collars, caches),
  };
}

/** {@link markCrossed}, seat by seat. */
function crossedOnes(
  laid: readonly Laid[],
  seatNamed: (name: string) => Seat | null,
  caches: StrapCaches,
): readonly StrapFigures[] {
  const straps = laid.map(({ result }) => result.figures);
  const ofSeat = new Map<Seat, number[]>();
  for (const [i, { seat }] of laid.entries()) {
    if (seat === null) continue;
    const list = ofSeat.get(seat);
    if (list === undefined) ofSeat.set(seat, [i]);
    else list.push(i);
  }
  for (const [seat, list] of ofSeat) {
    const own = list.map((i) => laid[i]?.result.figures).filter((figures) => figures !== undefined);
    const marked = caches.ofSeats.get(seat.name, [seat, ...own], () => markCrossed(own, seatNamed));
    list.forEach((i, k) => (straps[i] = marked[k] ?? (straps[i] as StrapFigures)));
  }
  return straps;
}
