/** The figures that are drawn on a report's pictures, each as its rule reads it. */
import type { Measure } from '../../grammar/finding';
import { sayMeasure } from '../../grammar/print';
import type { LengthUnit } from '../../grammar/units';
import { degrees } from '../../grammar/units';
import { pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled, dot, scale, sub, unit } from '../centreline/vector';
import type { Mark } from '../drawing/marks';
import { fromAbove, fromSide } from '../drawing/marks';
import type { StrapFigures } from '../geometry/shape';
import { slotsOf } from '../geometry/shell';
import type { Car, Member } from '../rules/car';
import { backstayAngle } from '../rules/measures/backstay-angle';
import { diagonalBottom } from '../rules/measures/diagonal-bottom';
import { diagonalTop } from '../rules/measures/diagonal-top';
import { hoopTilt } from '../rules/measures/hoop-tilt';
import type { Reading, Rule } from '../rules/rule';
import { isMissing } from '../rules/rule';
import { bothSides } from './names';

const angle = (value: number): Measure => ({ value, unit: 'deg' });

/** Drawn this far along a direction, mm of the car, where nothing ends it. */
const ARM = 250;

const readings = (rule: Rule, car: Car): readonly Reading[] =>
  rule.read(car).flatMap((item) => (isMissing(item) ? [] : [item]));

/** Marks that say the same of things that are twins, or lie over each other, are one mark with all their names. */
function merged(marks: readonly Mark[], near: (a: Mark, b: Mark) => boolean): readonly Mark[] {
  const kept: Mark[] = [];
  for (const mark of marks) {
    const i = kept.findIndex(
      (one) => one.kind === mark.kind && one.what === mark.what && one.says === mark.says && near(one, mark),
    );
    const first = kept[i];
    if (first === undefined) kept.push(mark);
    else kept[i] = { ...first, of: [...first.of, ...mark.of] };
  }
  return kept.map((mark) => ({ ...mark, of: bothSides(mark.of) }));
}

const vertex = (mark: Mark): Vec3 => (mark.kind === 'distance' ? mark.from : mark.at);

/** Over each other in side view: nearer than this fore and aft and in height, mm. */
const OVER = 12;
const inSideView = (a: Mark, b: Mark): boolean =>
  Math.abs(vertex(a)[0] - vertex(b)[0]) < OVER && Math.abs(vertex(a)[2] - vertex(b)[2]) < OVER;

/** How far each strap drops, against the horizontal; each at its own strap. */
function dropsOf(straps: readonly StrapFigures[]): readonly Mark[] {
  return straps.flatMap((strap): Mark[] => {
    const { start, contact, drop } = strap;
    if (start === null || contact === null || drop === null) return [];
    const run = fromSide(sub(contact, start));
    const value = degrees(drop);
    const says = value < 0 ? `rises ${sayMeasure(angle(-value), 'mm')}` : `drop ${sayMeasure(angle(value), 'mm')}`;
    const level: Vec3 = [run[0] < 0 ? -ARM : ARM, 0, 0];
    return [{ kind: 'angle', what: 'strap.drop', of: [strap.name], says, value, at: start, from: level, to: run }];
  });
}

/** The same for a drawing, where straps lie over each other. */
export const strapDrops = (straps: readonly StrapFigures[]): readonly Mark[] => merged(dropsOf(straps), inSideView);

/** How far each strap runs off its seat's own straight back. */
export function strapSpreads(car: Car): readonly Mark[] {
  return car.shape.straps.flatMap((strap): Mark[] => {
    const { start, contact, spread } = strap;
    const seat = car.seats().find(({ name }) => name === strap.seat);
    const slots = seat === undefined ? null : slotsOf(seat);
    if (start === null || contact === null || spread === null || slots === null) return [];
    const value = degrees(spread);
    const way = Math.abs(value) < 0.05 ? '' : value < 0 ? ' inward' : ' outward';
    return [
      {
        kind: 'angle',
        what: 'strap.spread',
        of: [strap.name],
        says: `spread ${sayMeasure(angle(Math.abs(value)), 'mm')}${way}`,
        value,
        at: start,
        from: fromAbove(scale(slots.forward, -ARM)),
        to: fromAbove(sub(contact, start)),
      },
    ];
  });
}

const line = (member: Member, car: Car): { readonly at: Vec3; readonly down: Vec3 } => {
  const [up, down] = car.upDown(member);
  return { at: up.at, down: sub(down.at, up.at) };
};

function backstays(car: Car): readonly Mark[] {
  return readings(backstayAngle, car).flatMap((reading): Mark[] => {
    const member = car.member(reading.subject);
    if (member === null) return [];
    const { at, down } = line(member, car);
    return [
      {
        kind: 'angle',
        what: 'backstay.angle',
        of: [reading.subject],
        says: `${sayMeasure(reading.measured, 'mm')} to the vertical`,
        value: reading.measured.value,
        at,
        from: [0, 0, -ARM],
        to: fromSide(down),
      },
    ];
  });
}

/** The hoop's lean, at its foot. */
function tilts(car: Car): readonly Mark[] {
  return readings(hoopTilt, car).flatMap((reading): Mark[] => {
    const hoop = car.mainHoops().find(({ name }) => name === reading.subject);
    const plane = hoop?.figures.plane ?? null;
    if (hoop === undefined || plane === null) return [];
    const { normal } = plane;
    const steepest = unit(addScaled([0, 0, 1], normal, -dot([0, 0, 1], normal)));
    return [
      {
        kind: 'angle',
        what: 'hoop.tilt',
        of: [reading.subject],
        says: `leans ${sayMeasure(reading.measured, 'mm')}`,
        value: reading.measured.value,
        at: hoop.ends[0].at,
        from: [0, 0, 2 * ARM],
        to: scale(steepest, 2 * ARM),
      },
    ];
  });
}

/** The height of harness bars above z = 0, where their middle is. */
function barHeights(car: Car, units: LengthUnit): readonly Mark[] {
  return car.of('harness-bar').map((member): Mark => {
    const at = pointAt(member.line, member.line.length / 2).point;
    return {
      kind: 'spot',
      what: 'bar-height',
      of: [member.name],
      says: `axis at z = ${sayMeasure({ value: at[2], unit: 'mm' }, units)}`,
      value: at[2],
      at,
    };
  });
}

/** How far a diagonal's ends are from where they should be, along the tube that they land on. */
function diagonals(car: Car, units: LengthUnit): readonly Mark[] {
  const of = (rule: Rule, upper: boolean, where: string): readonly Mark[] =>
    readings(rule, car).flatMap((reading): Mark[] => {
      const member = car.member(reading.subject);
      if (member === null) return [];
      const [up, down] = car.upDown(member);
      return [
        {
          kind: 'spot',
          what: rule.code,
          of: [reading.subject],
          says: `${sayMeasure(reading.measured, units)} ${where}`,
          value: reading.measured.value,
          at: (upper ? up : down).at,
        },
      ];
    });
  return [
    ...of(diagonalTop, true, 'from the backstay, along the hoop,'),
    ...of(diagonalBottom, false, 'from the foot,'),
  ];
}

export interface ViewMarks {
  readonly side: readonly Mark[];
  readonly plan: readonly Mark[];
  readonly front: readonly Mark[];
}

/** Every figure in the view in which it is measured. */
export const marksOf = (car: Car): ViewMarks => ({
  side: [
    ...strapDrops(car.shape.straps),
    ...merged(backstays(car), inSideView),
    ...tilts(car),
    ...barHeights(car, car.cage.units),
  ],
  plan: strapSpreads(car),
  front: diagonals(car, car.cage.units),
});

/** Every figure at its own thing, for who can turn the car: nothing is merged. */
export const marksInSpace = (car: Car): readonly Mark[] => [
  ...dropsOf(car.shape.straps),
  ...strapSpreads(car),
  ...backstays(car),
  ...tilts(car),
  ...barHeights(car, car.cage.units),
  ...diagonals(car, car.cage.units),
];
