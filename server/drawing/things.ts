/** What stands beside the tubes: plates, seats with their helmets, straps, doors and panels, as lines in space. */
import type { Foot, Seat, Strap } from '../cage/cage';
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled, cross, dot, norm, scale, sub, unit } from '../centreline/vector';
import { plateFrame } from '../geometry/feet';
import type { Shape, StrapFigures } from '../geometry/shape';
import { rearRectangle, slotsOf } from '../geometry/shell';
import { nodeAt } from '../geometry/gusset-corners';
import type { Curve, OnSurface } from './outline';
import type { Style } from './scene';

/** A line in space that nothing hides, or that what lies before it hides. */
export interface SpaceLine {
  readonly style: Style;
  readonly curve: Curve;
  /** False: seen through everything, as what is not part of the structure. */
  readonly hides: boolean;
}

/** A flat box, by its middle and its half edges. */
export interface Plate {
  readonly foot: Foot;
  readonly centre: Vec3;
  readonly halves: readonly [Vec3, Vec3, Vec3];
  /** Unit normal, away from the tube that stands on it. */
  readonly under: Vec3;
}

const still: Vec3 = [0, 0, 0];

const through = (points: readonly Vec3[]): Curve => ({
  kind: 'edge',
  points: points.map((at): OnSurface => ({ at, facing: still })),
});

const open = (style: Style, points: readonly Vec3[]): SpaceLine => ({ style, curve: through(points), hides: false });

const closed = (style: Style, points: readonly Vec3[]): SpaceLine => {
  const first = points[0];
  return open(style, first === undefined ? [] : [...points, first]);
};

/** The plates of all feet that are known. The node is on the tube's side of the plate. */
export function platesOf(shape: Shape): readonly Plate[] {
  const standing = new Map<string, Vec3>();
  for (const part of shape.parts.values())
    for (const end of part.ends)
      for (const host of end.hosts) if (end.away !== null && !standing.has(host)) standing.set(host, end.away);
  const plates: Plate[] = [];
  for (const foot of shape.cage.things.values()) {
    if (foot.kind !== 'foot' || foot.plate === null) continue;
    const away = standing.get(foot.name) ?? null;
    const frame = plateFrame(foot, away);
    const at = nodeAt(shape.cage, foot.node);
    if (frame === null || at === null) continue;
    const { long, wide, thick } = foot.plate;
    const side = away !== null && dot(away, frame.normal) < 0 ? 1 : -1;
    plates.push({
      foot,
      centre: addScaled(at, frame.normal, (side * thick) / 2),
      halves: [scale(frame.long, long / 2), scale(frame.wide, wide / 2), scale(frame.normal, thick / 2)],
      under: scale(frame.normal, side),
    });
  }
  return plates;
}

/** The twelve edges of a plate; each faces away from the plate's middle. */
export function plateEdges({ centre, halves }: Plate): readonly Curve[] {
  const curves: Curve[] = [];
  for (let i = 0; i < 3; i++) {
    const along = halves[i] ?? still;
    const [p, q] = [halves[(i + 1) % 3] ?? still, halves[(i + 2) % 3] ?? still];
    for (const [a, b] of [
      [1, 1],
      [1, -1],
      [-1, 1],
      [-1, -1],
    ] as const) {
      const out = add(scale(p, a), scale(q, b));
      const facing = add(scale(unit(p), a), scale(unit(q), b));
      const middle = add(centre, out);
      curves.push({
        kind: 'edge',
        points: [-1, 1].map((end): OnSurface => ({ at: addScaled(middle, along, end), facing })),
      });
    }
  }
  return curves;
}

/** Half a cross at a point that somebody measures to, mm. */
const CROSS = 18;
/** A ball, and the ring round a shoulder, as so many chords. */
const CHORDS = 48;

const cross3 = (style: Style, at: Vec3): readonly SpaceLine[] =>
  (
    [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ] as const
  ).map((way: Vec3) => open(style, [addScaled(at, way, -CROSS), addScaled(at, way, CROSS)]));

const ring = (style: Style, centre: Vec3, radius: number, right: Vec3, up: Vec3): SpaceLine =>
  closed(
    style,
    Array.from({ length: CHORDS }, (_, i) => {
      const a = (2 * Math.PI * i) / CHORDS;
      return addScaled(addScaled(centre, right, radius * Math.cos(a)), up, radius * Math.sin(a));
    }),
  );

/** Half the height that a slot is drawn with, and how far the shell is drawn above its slots, mm. */
export const SLOT_HALF = 30;
export const ABOVE_SLOTS = 60;

/** The shell where it is known: its back line from the hip to above the slots, its rear face, the slots, the driver. */
function seatLines(seat: Seat, right: Vec3, up: Vec3): readonly SpaceLine[] {
  const slots = slotsOf(seat);
  if (slots === null || seat.slots === null) return [];
  const lines: SpaceLine[] = [];
  const top = addScaled(seat.slots, slots.up, ABOVE_SLOTS);
  const bottom = seat.hip ?? addScaled(seat.slots, slots.up, -ABOVE_SLOTS);
  lines.push(open('seat', [bottom, top]));
  if (seat.back !== null)
    lines.push(
      open(
        'seat',
        [bottom, top].map((at) => addScaled(at, slots.aft, seat.back ?? 0)),
      ),
    );
  const rear = rearRectangle(seat);
  if (rear !== null) {
    const corner = (a: number, b: number): Vec3 =>
      addScaled(addScaled(rear.centre, rear.halfAcross, a), rear.halfUp, b);
    lines.push(closed('seat', [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)]));
  }
  for (const slot of [slots.left, slots.right]) {
    lines.push(open('seat', [addScaled(slot, slots.across, -SLOT_HALF), addScaled(slot, slots.across, SLOT_HALF)]));
    if (seat.shoulder !== null) {
      const shoulder = add(slot, seat.shoulder);
      lines.push(ring('seat', shoulder, CROSS / 2, right, up), open('helmet', [shoulder, slot]));
    }
  }
  if (seat.hip !== null) lines.push(...cross3('seat', seat.hip));
  if (seat.helmet !== null)
    lines.push(ring('helmet', add(seat.slots, seat.helmet.offset), seat.helmet.radius, right, up));
  return lines;
}

/** The webbing: both its edges from where it leaves the seat to the bar, or one line where its width is not known. */
function strapLines(shape: Shape, figures: StrapFigures): readonly SpaceLine[] {
  const { start, contact, barPoint } = figures;
  if (start === null || contact === null) return [];
  const strap = shape.cage.things.get(figures.name) as Strap | undefined;
  const half = strap?.kind === 'strap' && strap.width !== null ? strap.width / 2 : 0;
  const line = figures.part === null ? null : (shape.parts.get(figures.part)?.centreline ?? null);
  const bar = line === null || barPoint === null ? null : nearestOn(line, barPoint).tangent;
  if (half === 0 || bar === null) return [open('strap', [start, contact])];
  const run = unit(sub(contact, start));
  // Flat on the bar; at the seat it lies as level as the run lets it.
  const level = cross([0, 0, 1], run);
  const atSeat = norm(level) > 1e-6 ? unit(level) : bar;
  const sign = dot(bar, atSeat) < 0 ? -1 : 1;
  return [-half, half].map((side) =>
    open('strap', [addScaled(start, atSeat, side), addScaled(contact, bar, side * sign)]),
  );
}

/** Everything but tubes, plates and gussets. `right` and `up`: of the picture, for what is drawn as a ring. */
export function thingLines(shape: Shape, right: Vec3, up: Vec3): readonly SpaceLine[] {
  const lines: SpaceLine[] = [];
  for (const thing of shape.cage.things.values()) {
    if (thing.kind === 'seat') lines.push(...seatLines(thing, right, up));
    else if (thing.kind === 'door' || thing.kind === 'panel') {
      const outline = thing.outline ?? [];
      lines.push(outline.length > 2 ? closed('panel', outline) : open('panel', outline));
    } else if (thing.kind === 'anchor' && thing.at !== null) lines.push(...cross3('plate', thing.at));
  }
  for (const figures of shape.straps) lines.push(...strapLines(shape, figures));
  return lines.filter(
    ({ curve }) => curve.points.length > 1 && curve.points.every(({ at }) => at.every(Number.isFinite)),
  );
}
