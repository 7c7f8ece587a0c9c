/** The ends of a tube, each as it would be backed off from its host: cut edge, clock marks, what it is in a line. */
import { sayMeasure } from '../../grammar/print';
import type { LengthUnit } from '../../grammar/units';
import { degrees } from '../../grammar/units';
import type { Vec3 } from '../centreline/vector';
import { addScaled, scale } from '../centreline/vector';
import type { ClockFrame } from '../geometry/clock';
import { clockFrame, vectorAt } from '../geometry/clock';
import { Kept } from '../geometry/kept';
import type { End, Part } from '../geometry/shape';
import { keyOfText } from '../mesh/mesh';
import type { Point3, ViewEnd } from './model';
import { roundedPoint } from './rounded';
import type { Pack } from './wire-mesh';

/** A mark of the clock every 30 degrees, as on a wrap. */
const MARKS = 12;
/** Points of an edge that is not coped: every 5 degrees, as a cope's own. */
const EDGE_POINTS = 72;
/** A clock this near to a mark is told at that mark, radians: half a degree. */
const AT_MARK = Math.PI / 360;

const say = (value: number, units: LengthUnit): string => sayMeasure({ value, unit: 'mm' }, units);
const angle = (value: number): string => sayMeasure({ value: degrees(value), unit: 'deg' }, 'mm');

/** `cope on main-hoop, 63.4°, offset 12 mm, depth 9.8 mm`; what is not known is left out. */
export function endWords(end: End, units: LengthUnit): string {
  const on = end.hosts.length === 0 ? '' : ` on ${end.hosts.join(' and ')}`;
  const figures = [
    ...(end.includedAngle === null ? [] : [angle(end.includedAngle)]),
    ...(end.offset === null ? [] : [`offset ${say(end.offset, units)}`]),
    ...(end.depth === null ? [] : [`depth ${say(end.depth, units)}`]),
  ];
  const sawn = end.sawAngle === null ? [] : [`sawn ${angle(end.sawAngle)} off square`];
  switch (end.fit) {
    case 'cope':
      return [`cope${on}`, ...figures].join(', ');
    case 'foot':
      return [`stands${on}`, ...sawn].join(', ');
    case 'square':
      return 'cut square';
    case 'open':
      return 'cut square, left open';
  }
}

/** The direction of travel at an end: from the tube's first end toward its last. */
const frameOf = (end: End): ClockFrame | null =>
  end.away === null ? null : clockFrame(end.which === 'first' ? end.away : scale(end.away, -1));

/** A point of the outer edge; null where the set-back is not known there. An end without a curve is square at its origin. */
function onEdge(end: End, frame: ClockFrame, radius: number, clock: number): Vec3 | null {
  if (end.origin === null || end.away === null) return null;
  const back = end.curve === null ? (end.fit === 'cope' ? null : 0) : end.curve.outer(clock);
  if (back === null) return null;
  return addScaled(addScaled(end.origin, end.away, back), vectorAt(frame, clock), radius);
}

/** The mark that a clock is at; null: between two. */
function markAt(clock: number): number | null {
  const marks = (clock * MARKS) / (2 * Math.PI);
  const off = (Math.abs(marks - Math.round(marks)) * 2 * Math.PI) / MARKS;
  return off < AT_MARK ? Math.round(marks) % MARKS : null;
}

function clockMarks(end: End, frame: ClockFrame, radius: number): ViewEnd['clock'] {
  const { bendInsideClock } = end;
  const marks: { label: string; at: Point3; outward: Point3 }[] = [];
  const add = (label: string, clock: number): void => {
    const at = onEdge(end, frame, radius, clock);
    if (at !== null) marks.push({ label, at: roundedPoint(at), outward: roundedPoint(vectorAt(frame, clock)) });
  };
  const inside = bendInsideClock === null ? null : markAt(bendInsideClock);
  for (let i = 0; i < MARKS; i++) {
    const clock = (2 * Math.PI * i) / MARKS;
    const name = i === 0 ? frame.zero.name : `${String((360 * i) / MARKS)}°`;
    add(i === inside ? `${name}, inside of bend` : name, clock);
  }
  if (bendInsideClock !== null && inside === null) add(`inside of bend, ${angle(bendInsideClock)}`, bendInsideClock);
  return marks;
}

/** The outer edge of the cut; empty where a point of it is not known. */
function edgeOf(end: End, frame: ClockFrame, radius: number): readonly Vec3[] {
  const points: Vec3[] = [];
  for (let i = 0; i < EDGE_POINTS; i++) {
    const at = onEdge(end, frame, radius, (2 * Math.PI * i) / EDGE_POINTS);
    if (at === null) return [];
    points.push(at);
  }
  return points;
}

/** x, y, z of points, closed by the first. */
function closed(points: readonly Vec3[]): Float32Array {
  const all = new Float32Array(3 * (points.length + 1));
  points.forEach((at, i) => {
    all.set(at, 3 * i);
  });
  all.copyWithin(3 * points.length, 0, 3);
  return all;
}

/** Ends, and a key of all that they say: the same key, the same ends. */
export interface MadeEnds {
  readonly ends: readonly ViewEnd[];
  readonly key: string;
}

/** Ends by their part, made again when it is another. One for each car that is looked at. */
export type EndCache = Kept<MadeEnds>;
export const newEndCache = (): EndCache => new Kept();

/** Hosts are told by their names: their ids hang on other parts. */
function made(part: Part, units: LengthUnit, pack: Pack): MadeEnds {
  const od = part.tube.section?.od ?? null;
  const ends = part.ends.flatMap((end): readonly ViewEnd[] => {
    const frame = frameOf(end);
    if (frame === null || end.away === null || od === null) return [];
    const edge = end.edge.length > 0 ? end.edge : edgeOf(end, frame, od / 2);
    return [
      {
        which: end.which,
        node: end.node,
        fit: end.fit,
        hosts: end.hosts,
        away: roundedPoint(end.away),
        clock: clockMarks(end, frame, od / 2),
        edge: edge.length === 0 ? '' : pack(closed(edge)),
        says: endWords(end, units),
      },
    ];
  });
  return { ends, key: keyOfText(JSON.stringify(ends)) };
}

/** Both ends of a part, those that are known. A host that is not drawn has no id. Never throws. */
export function endsOf(
  part: Part,
  units: LengthUnit,
  pack: Pack,
  idsOf: (host: string) => readonly string[],
  cache: EndCache,
): MadeEnds {
  const named = cache.get(part.name, [part, units, pack], () => made(part, units, pack));
  const ends = named.ends.map((end) => ({ ...end, hosts: end.hosts.flatMap((host) => idsOf(host)[0] ?? []) }));
  return { ends, key: keyOfText(named.key + ends.map(({ hosts }) => hosts.join(' ')).join('|')) };
}
