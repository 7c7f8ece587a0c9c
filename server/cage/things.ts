/** The things of the car from their statements: tubes, feet, joints, vents, seats, straps, collars; each on its side. */
import type { Angle, Length } from '../../grammar/units';
import { mm } from '../../grammar/units';
import type { Role } from '../../grammar/vocabulary';
import { nearestWord, meant } from '../../grammar/nearest';
import { ROLES } from '../../grammar/vocabulary';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled } from '../centreline/vector';
import type {
  Collar,
  EndTold,
  Finish,
  Foot,
  Joint,
  Named,
  Plate,
  PlatePoint,
  Seat,
  Side,
  Strap,
  Tube,
  Vent,
} from './cage';
import { boltsOf, counterPlateOf, plateOf } from './bolts';
import type { Book } from './book';
import { CENTRE } from './evaluate';
import type { FactReader } from './facts';
import type { Definition } from './names';
import type { Page } from './page';
import type { Solver } from './solve';

/** What every thing has, made where its name and side are known. */
export type Head = Named;

const known = <T>(list: readonly (T | null)[]): readonly T[] => list.filter((item): item is T => item !== null);

/** Angles beyond these make no sense in a car, degrees. */
const RIGHT_ANGLE = 90;
const TURN = 360.000001;

/** A tube of its statement. What of it cannot be had is null, and told. */
export function tubeOf(
  head: Head,
  definition: Definition,
  page: Page,
  facts: FactReader,
  solver: Solver,
  book: Book,
): Tube {
  const side = head.side;
  const path = solver.tubePath(definition, side, 'real');
  const section = facts.target(definition, 'section', 'section');
  const nodes = page.all('path', 'path');
  if (nodes.length === 1) page.tellAt(nodes[0] ?? null, 'fact.value', { fact: 'path', wanted: 'two nodes or more' });
  tellSelf(definition, page);
  const die = facts.dieOf(definition);
  return {
    ...head,
    kind: 'tube',
    role: roleOf(page),
    section: section === null ? null : book.section(section.definition),
    die: die === null || die === 'unknown' ? null : solver.dieOf(die),
    path: page.names('path', 'path'),
    first: endOf(page, 'first'),
    last: endOf(page, 'last'),
    splitBy: page.name('split', 'tube'),
    existing: page.flag('existing') ?? false,
    carries: page.text('carries'),
    finish: page.word('finish', 'finish') as Finish | null,
    centreline: path?.centreline ?? null,
    corners: path?.result.corners ?? [],
    problems: path?.result.problems ?? [],
  };
}

/** A tube that is to be cut to itself. */
function tellSelf(definition: Definition, page: Page): void {
  const onto = (['first', 'last'] as const).flatMap((fact) =>
    page.all(fact, 'hosts').map((bound) => ({ fact, bound })),
  );
  for (const { fact, bound } of [{ fact: 'split', bound: page.bound('split', 'tube') }, ...onto]) {
    const target = bound === null ? null : page.target(bound);
    if (target?.definition !== definition || target.side !== definition.side) continue;
    page.tellAt(bound, 'fact.value', { fact, wanted: 'another tube than this one' });
  }
}

const isRole = (word: string): word is Role => Object.hasOwn(ROLES, word);

function roleOf(page: Page): Role {
  const bound = page.bound('', 'role');
  if (bound === null || bound.word === null) return 'brace';
  if (isRole(bound.word)) return bound.word;
  const nearest = nearestWord(bound.word, Object.keys(ROLES));
  page.tell(bound.arg.span, 'role.unknown', {
    name: bound.word,
    hint: meant(nearest),
    nearest,
    roles: Object.keys(ROLES),
  });
  return 'brace';
}

function endOf(page: Page, which: 'first' | 'last'): EndTold {
  if (page.broken(which)) return { kind: 'unknown' };
  if (page.has(which, 'open')) return { kind: 'open' };
  if (page.has(which, 'past')) {
    const length = page.length(which, 'length');
    return length === null ? { kind: 'unknown' } : { kind: 'past', length };
  }
  const named = page.names(which, 'hosts');
  const hosts = known(named);
  if (hosts.length < named.length) return { kind: 'unknown' };
  return hosts.length === 0 ? { kind: 'auto' } : { kind: 'onto', hosts };
}

/** A foot of its statement. `at`: where its node is, mm; null: nobody knows. */
export function footOf(head: Head, page: Page, at: Vec3 | null): Foot {
  const node = page.name('at', 'node');
  const plate = plateOf(page, 'plate');
  const bolts = boltsOf(page, 'bolts');
  const turnedHere = page.angle('plate', 'turned', TURN) ?? (0 as Angle);
  const turned = (page.twin ? 0 - turnedHere : turnedHere) as Angle;
  const hole = page.length('hole');
  return {
    ...head,
    kind: 'foot',
    node,
    plate: plate === null ? null : { ...plate, turned },
    lies: liesOf(page, at),
    bolts,
    boltsAt: boltsAtOf(head, page, at, bolts, plate),
    counterPlate: counterPlateOf(page, 'counter-plate'),
    welded: page.flag('welded'),
    on: page.word('on', 'on') === 'frame' ? 'frame' : 'shell',
    hole,
    ...(hole === null && page.isWritten('hole') ? { holeUnread: true } : {}),
  };
}

/** Where the bolts of a foot stand; null where one of them is not known, is not on the plate, or their number differs. */
function boltsAtOf(
  head: Head,
  page: Page,
  node: Vec3 | null,
  bolts: Foot['bolts'],
  plate: Plate | null,
): readonly PlatePoint[] | null {
  const written = page.all('bolts-at', 'at');
  const [first] = written;
  if (first === undefined) return null;
  if (bolts !== null && bolts.count !== written.length) {
    const wanted = `as many places as there are bolts, ${String(bolts.count)}`;
    return page.tellAt(first, 'fact.value', { fact: 'bolts-at', wanted });
  }
  const at = written.map((bound) => {
    const point = page.pair('bolts-at', bound, node);
    if (point === null || plate === null) return point;
    const by = Math.max(Math.abs(point.forward) - plate.long / 2, Math.abs(point.left) - plate.wide / 2);
    if (by <= 0) return point;
    const [past, long, wide] = [by, plate.long, plate.wide].map((value) => ({ value, unit: 'mm' }) as const);
    if (past === undefined || long === undefined || wide === undefined) return null;
    return page.tellAt(bound, 'foot.bolt-off-plate', { foot: head.name, by: past, long, wide });
  });
  const sound = at.filter((point) => point !== null);
  return sound.length < at.length ? null : sound;
}

/** Slopes add; a plate of which one slope cannot be read is not known to be level: rise = tan(aft) · aft + tan(left) · left. */
function liesOf(page: Page, at: Vec3 | null): Foot['lies'] {
  if (page.broken('lies')) return { kind: 'unknown' };
  if (page.has('lies', 'square')) return { kind: 'square' };
  const words = page.all('lies', 'toward');
  let [aft, left] = [0, 0];
  for (const [i, slope] of page.all('lies', 'slope').entries()) {
    const angle = page.angleOf(slope, RIGHT_ANGLE);
    const toward = words[i];
    if (angle === null || toward === undefined || toward.word === null) return { kind: 'unknown' };
    const rise = Math.tan(angle);
    if (toward.word === 'aft') aft += rise;
    else if (toward.word === 'forward') aft -= rise;
    else {
      const sign = page.leftward(toward.word, at, toward.arg.span);
      if (sign === null) return { kind: 'unknown' };
      left += sign * rise;
    }
  }
  return { kind: 'slopes', aft: Math.atan(aft) as Angle, left: Math.atan(left) as Angle };
}

/** A joint of its statement: its nodes, and who is cut to whom there. */
export function jointOf(head: Head, page: Page): Joint {
  return {
    ...head,
    kind: 'joint',
    nodes: known(page.names('', 'nodes')),
    order: known(page.names('order', 'tubes')),
    weld: page.word('weld', 'weld') as Joint['weld'],
  };
}

/** A vent of its statement. Clocks of a twin are negated: it is read in the image of the car. */
export function ventOf(head: Head, page: Page): Vent {
  const clock = page.angle('clock', 'clock', TURN);
  return {
    ...head,
    kind: 'vent',
    tube: page.name('', 'tube'),
    to: page.has('', 'air') ? { air: true } : page.name('', 'host'),
    node: page.name('at', 'node'),
    from: page.length('from'),
    clock: clock === null ? null : ((page.twin ? 0 - clock : clock) as Angle),
    dia: page.length('dia'),
    plug: page.word('plug', 'plug'),
  };
}

/** A seat of its statement. Without slots they are worked out from hip, height and angles; null where one of these is. */
export function seatOf(head: Head, page: Page): Seat {
  const recline = page.angle('recline', 'recline', RIGHT_ANGLE);
  const last = page.angle('recline', 'last', RIGHT_ANGLE);
  const hip = page.place('hip');
  const given = page.place('slots');
  const yaw = yawOf(page, hip ?? given);
  const height = page.length('slot-height', 'height');
  // Where an angle cannot be read, nothing of the seat is known: it never counts as 0.
  const soundAngles = recline !== null && (!page.isWritten('yaw') || yaw !== null);
  const fromHip =
    hip === null || height === null || recline === null ? null : upTheBack(hip, height, recline, yaw ?? 0);
  const slots = soundAngles ? (given ?? fromHip) : null;
  const shoulder = page.offset('shoulder', slots);
  const offset = page.offset('helmet', slots, 'offset');
  const radius = page.length('helmet', 'radius');
  return {
    ...head,
    kind: 'seat',
    hip,
    slots,
    recline: (recline ?? 0) as Angle,
    reclineRange: rangeOf<Angle>(recline, page.bound('recline', 'last') === null ? recline : last),
    slideRange: page.isWritten('slide')
      ? rangeOf<Length>(slideTo(page, 'from'), slideTo(page, 'to'))
      : { from: mm(0), to: mm(0) },
    yaw: (yaw ?? 0) as Angle,
    slotSpacing: page.length('slot-spacing', 'spacing'),
    back: page.length('back'),
    shoulder,
    yoke: page.length('yoke'),
    helmet: offset === null || radius === null ? null : { offset, radius },
    elbow: page.offset('elbow', slots),
    shoulderWidth: page.length('shoulder-width', 'width'),
    width: page.length('width'),
    cushion: page.length('cushion'),
  };
}

/** No seat's rails are longer, mm: what is more is a slip of the pen, and would be looked at step by step. */
const LONGEST_SLIDE = 1000;

/** One end of what a seat slides; null where it cannot be read or lies beyond any rails. */
function slideTo(page: Page, end: 'from' | 'to'): Length | null {
  const value = page.length('slide', end);
  if (value === null || Math.abs(value) <= LONGEST_SLIDE) return value;
  const wanted = `${end} is at most 1 m either way`;
  return page.tellAt(page.bound('slide', end), 'number.range', { value: { value, unit: 'mm' }, wanted });
}

/** From the smaller to the larger, whichever is written first; null where one of them cannot be read. */
const rangeOf = <T extends number>(a: T | null, b: T | null): { readonly from: T; readonly to: T } | null =>
  a === null || b === null ? null : a <= b ? { from: a, to: b } : { from: b, to: a };

/**
 * The slots' lower edges, `height` up the back line from the hip: the back leans aft by the recline, about an axis
 * that has turned with the seat. forward = (cos yaw, sin yaw, 0) (ISO 8855: yaw right-handed about up).
 */
function upTheBack(hip: Vec3, height: number, recline: number, yaw: number): Vec3 {
  const aft: Vec3 = [-Math.cos(yaw), -Math.sin(yaw), 0];
  return add(addScaled(hip, aft, height * Math.sin(recline)), [0, 0, height * Math.cos(recline)]);
}

/** Positive to the left. */
function yawOf(page: Page, at: Vec3 | null): number | null {
  const angle = page.angle('yaw', 'yaw', RIGHT_ANGLE);
  if (angle === null) return null;
  const toward = page.bound('yaw', 'toward');
  if (toward === null || toward.word === null) return page.twin ? 0 - angle : angle;
  const sign = page.leftward(toward.word, at, toward.arg.span);
  return sign === null ? null : sign * angle;
}

/** A strap of its statement. `seatAt`: where its seat is, mm, for `out` and `in`; null: nobody knows. */
export function strapOf(head: Head, page: Page, seatAt: Vec3 | null): Strap {
  const seat = page.name('seat', 'seat');
  const collar = page.length('collars', 'width');
  const plane = page.plane('at');
  const gap = page.length('collars', 'gap');
  const unreadGap = page.bound('collars', 'gap') !== null && gap === null;
  return {
    ...head,
    kind: 'strap',
    seat,
    slot: slotOf(page, seatAt),
    tube: page.name('to', 'tube'),
    at: plane,
    width: page.length('width'),
    wrap: page.word('wrap', 'wrap') === 'under' ? 'under' : 'over',
    unread: page.broken('wrap') || (plane === null && page.isWritten('at')),
    hardware: page.length('hardware'),
    collars: collar === null ? null : { width: collar, gap: gap ?? (0 as Length) },
    ...((collar === null || unreadGap) && page.isWritten('collars') ? { collarsUnread: true } : {}),
    fixing: page.word('fixing', 'fixing') === 'bolt' ? 'bolt' : 'wrap',
    bolt: boltsOf(page, 'bolt'),
    insert: page.flag('insert'),
    slider: page.length('slider'),
    locked: page.flag('locked'),
    tail: page.length('tail'),
    adjuster: page.length('adjuster'),
  };
}

/** `outer` is the slot farther from the centreline. */
function slotOf(page: Page, seat: Vec3 | null): Side | null {
  const slot = page.bound('slot');
  if (slot === null || slot.word === null) return null;
  if (slot.word === 'left' || slot.word === 'right') return page.here(slot.word);
  if (seat === null) return null;
  if (Math.abs(seat[1]) <= CENTRE) return page.tell(slot.arg.span, 'place.on-centre', { word: slot.word });
  return seat[1] > 0 === (slot.word === 'outer') ? 'left' : 'right';
}

/** A collar of its statement. */
export function collarOf(head: Head, page: Page): Collar {
  return {
    ...head,
    kind: 'collar',
    tube: page.name('on', 'tube'),
    at: page.plane('at'),
    width: page.length('width'),
  };
}
