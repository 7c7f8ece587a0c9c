/** Distances and angles beside those of the drawings, each where its rule takes it: for marks in space. */
import type { Measure } from '../../grammar/finding';
import { sayMeasure } from '../../grammar/print';
import { degrees } from '../../grammar/units';
import { nearestBetween, nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled, dot, scale, sub, unit } from '../centreline/vector';
import type { Mark } from '../drawing/marks';
import { fromSide } from '../drawing/marks';
import type { Seat } from '../cage/cage';
import type { StrapFigures } from '../geometry/shape';
import { rearRectangle, slotsOf } from '../geometry/shell';
import type { Car } from '../rules/car';
import { helmetsOf, hoopTop } from '../rules/helmets';
import { shouldered, strapPairs } from '../rules/shoulders';
import { partSolids } from './bodies';
import { shortest } from './solid';

/** How long the arms of an angle are drawn, mm. */
const ARM = 200;

const span = (
  car: Car,
  what: string,
  of: readonly string[],
  words: string,
  [from, to]: readonly [Vec3, Vec3],
  value: number,
): Mark => ({
  kind: 'distance',
  what,
  of,
  says: `${words} ${sayMeasure({ value, unit: 'mm' }, car.cage.units)}`.trim(),
  value,
  from,
  to,
  offset: 0,
});

const inDegrees = (radians: number): Measure => ({ value: degrees(radians), unit: 'deg' });

const angle = (
  what: string,
  of: string,
  words: string,
  value: number,
  at: Vec3,
  arms: readonly [Vec3, Vec3],
): Mark => ({
  kind: 'angle',
  what,
  of: [of],
  says: `${words} ${sayMeasure(inDegrees(Math.abs(value)), 'mm')}`,
  value: degrees(value),
  at,
  from: arms[0],
  to: arms[1],
});

/** The free run: of the strap's line from where it leaves the shell's rear face, as long as it is free. */
function freeRun(car: Car, seats: ReadonlyMap<string, Seat>, strap: StrapFigures): readonly Mark[] {
  const { start, contact, slot, freeRun: length } = strap;
  const seat = strap.seat === null ? undefined : seats.get(strap.seat);
  const slots = seat === undefined ? null : slotsOf(seat);
  if (start === null || contact === null || slot === null || length === null || slots === null) return [];
  const way = unit(sub(contact, start));
  const behind = (seat?.back ?? 0) - dot(sub(start, slot), slots.aft);
  const outward = dot(way, slots.aft);
  const from = addScaled(start, way, outward > 0 ? Math.max(0, behind / outward) : 0);
  return [span(car, 'strap.free-run', [strap.name], 'free run', [from, addScaled(from, way, length)], length)];
}

/** From the rear face of each seat to the tube that is nearest to it. */
function seatGaps(car: Car, seats: ReadonlyMap<string, Seat>): readonly Mark[] {
  return car.shape.seats.flatMap(({ name, gap, to }): readonly Mark[] => {
    const seat = seats.get(name);
    const face = seat === undefined ? null : rearRectangle(seat);
    const part = to === null ? undefined : car.shape.parts.get(to);
    if (face === null || part === undefined || gap === null) return [];
    const halves = [face.halfAcross, face.halfUp];
    const line = shortest([{ kind: 'box', centre: face.centre, halves }], partSolids(part));
    return line === null ? [] : [span(car, 'seat.gap', [name], 'gap', [line.from, line.to], gap)];
  });
}

/** What is drawn whether a finding is about it or not. */
export function spansOf(car: Car): readonly Mark[] {
  const seats = new Map(car.seats().map((seat) => [seat.name, seat]));
  return [...car.shape.straps.flatMap((strap) => freeRun(car, seats, strap)), ...seatGaps(car, seats)];
}

const LEVEL: Vec3 = [0, 0, 1];

function ofStraps(car: Car): readonly Mark[] {
  return shouldered(car).flatMap(({ figures, shoulder }): readonly Mark[] => {
    const { name, start, contact, skew, barPoint, part, length, dropFromShoulder } = figures;
    if (start === null || contact === null) return [];
    const marks: Mark[] = [];
    if (length !== null) marks.push(span(car, 'strap.length', [name], 'length', [start, contact], length));
    const line = part === null ? null : (car.shape.parts.get(part)?.centreline ?? null);
    if (skew !== null && line !== null && barPoint !== null) {
      const piece = nearestOn(line, barPoint).tangent;
      const back = sub(start, contact);
      const square = addScaled(back, piece, -dot(back, piece));
      marks.push(angle('strap.skew', name, 'off square', skew, contact, [unitTo(square), unitTo(back)]));
    }
    if (shoulder !== null) {
      const run = sub(contact, shoulder);
      const level: Vec3 = [run[0] < 0 ? -ARM : ARM, 0, 0];
      if (dropFromShoulder !== null)
        marks.push(
          angle('strap.shoulder-angle', name, dropFromShoulder < 0 ? 'rises' : 'drop', dropFromShoulder, shoulder, [
            level,
            fromSide(run),
          ]),
        );
      const under: Vec3 = [contact[0], contact[1], shoulder[2]];
      const behind: Vec3 = [contact[0], shoulder[1], shoulder[2]];
      const fall = shoulder[2] - contact[2];
      marks.push(
        span(car, 'strap.shoulder-drop', [name], fall < 0 ? 'above' : 'below', [under, contact], Math.abs(fall)),
        span(car, 'strap.shoulder-reach', [name], 'reach', [shoulder, behind], Math.abs(run[0])),
      );
    }
    return marks;
  });
}

const unitTo = (way: Vec3): Vec3 => scale(unit(way), ARM);

function ofPairs(car: Car): readonly Mark[] {
  return strapPairs(car).flatMap(({ seat, left, right, spacing, width }): readonly Mark[] => {
    const [a, b] = [left.figures.contact, right.figures.contact];
    if (a === null || b === null) return [];
    const marks = ['strap.spacing', 'strap.spacing-formula'].map((what) =>
      span(car, what, [seat.name], 'spacing', [a, b], spacing),
    );
    if (width === null) return marks;
    const way = scale(unit(sub(b, a)), width / 2);
    return [...marks, span(car, 'strap.gap', [seat.name], 'gap', [add(a, way), sub(b, way)], spacing - width)];
  });
}

function ofHelmets(car: Car): readonly Mark[] {
  const top = hoopTop(car);
  return helmetsOf(car).helmets.flatMap(({ seat, centre, radius }): readonly Mark[] => {
    const crown = addScaled(centre, LEVEL, radius);
    if (top === null) return [];
    const above: Vec3 = [crown[0], crown[1], top.z];
    return [span(car, 'helmet.clearance', [seat.name], 'clearance', [crown, above], top.z - crown[2])];
  });
}

function ofMembers(car: Car): readonly Mark[] {
  const marks: Mark[] = [];
  for (const bar of car.of('harness-bar')) {
    const near = car
      .of('diagonal')
      .map((cross) => nearestBetween(bar.line, cross.line))
      .sort((a, b) => a.distance - b.distance)[0];
    if (near !== undefined)
      marks.push(span(car, 'harness.diagonal', [bar.name], 'axes', [near.onA.point, near.onB.point], near.distance));
  }
  for (const stay of car.of('backstay')) {
    const [up, down] = car.upDown(stay);
    const below: Vec3 = [down.at[0], up.at[1], up.at[2]];
    marks.push(span(car, 'backstay.rearward', [stay.name], '', [up.at, below], Math.abs(up.at[0] - down.at[0])));
    const hoop = car.mainHoops()[0];
    if (hoop === undefined) continue;
    const height = hoop.figures.top + (hoop.tube.section?.od ?? 0) / 2;
    const top: Vec3 = [up.at[0], up.at[1], height];
    marks.push(span(car, 'backstay.drop', [stay.name], 'below the top', [top, up.at], height - up.at[2]));
  }
  return marks;
}

/** What is drawn only where a finding is about it. */
export const spansOnDemand = (car: Car): readonly Mark[] => [
  ...ofStraps(car),
  ...ofPairs(car),
  ...ofHelmets(car),
  ...ofMembers(car),
];
