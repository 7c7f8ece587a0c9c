/** `helmet.line`: how far the top of a helmet lies below the line over two tops: of the hoops, or of the hoop and the windscreen's frame. */
import type { Vec3 } from '../../centreline/vector';
import { figure } from '../../geometry/tell';
import type { Car } from '../car';
import { front } from '../examples';
import { bareHeads, helmetExample, helmetsOf, hoopTop } from '../helmets';
import { missingOfCar, reading } from '../readings';
import type { Item, Rule } from '../rule';

/** In side view: fore and aft, and height. */
interface Top {
  readonly name: string;
  readonly x: number;
  readonly z: number;
}

const highest = (points: readonly Vec3[]): Vec3 | null =>
  points.reduce<Vec3 | null>((best, p) => (best === null || p[2] > best[2] ? p : best), null);

/** The top of the front hoop: of the tube itself, or of the tube across between two half-hoops. */
function frontTop(car: Car): Top | null {
  const tops = [...car.of('front-rollbar'), ...car.of('transverse')].flatMap(({ name, line, tube, ends }) => {
    const { section } = tube;
    const top = highest([...line.points, ...ends.map(({ at }) => at)]);
    return section === null || top === null ? [] : [{ name, x: top[0], z: top[2] + section.od / 2 }];
  });
  return tops.reduce<Top | null>((best, one) => (best === null || one.z > best.z ? one : best), null);
}

function headerTop(car: Car): Top | null {
  const headers = car.ofKind('panel').filter(({ as }) => as === 'header');
  const tops = headers.flatMap(({ name, outline }) => {
    const top = outline === null ? null : highest(outline);
    return top === null ? [] : [{ name, x: top[0], z: top[2] }];
  });
  return tops.reduce<Top | null>((best, one) => (best === null || one.z > best.z ? one : best), null);
}

/** Signed distance below the line, mm. */
function below(rear: Top, fore: Top, x: number, z: number): number {
  const [dx, dz] = [fore.x - rear.x, fore.z - rear.z];
  return (dz * (x - rear.x) - dx * (z - rear.z)) / Math.hypot(dx, dz);
}

const HEADER = 'the windscreen header is not written: panel NAME as header { outline P, P }';

export const helmetLine: Rule = {
  code: 'helmet.line',
  unit: 'mm',
  slack: 0.05,
  groups: ['front hoop', 'windscreen header', 'front hoop of an open car'],
  read: (car): readonly Item[] => {
    const rear = hoopTop(car);
    if (rear === null) return [];
    const open = car.cage.vehicle?.body === 'open';
    const { helmets, bare } = helmetsOf(car);
    if (helmets.length + bare.length === 0) return [];
    const fore = frontTop(car);
    const header = open ? headerTop(car) : null;
    const tops = [
      ...(fore === null ? [] : [{ to: fore, group: 'front hoop' }]),
      ...(fore === null || !open ? [] : [{ to: fore, group: 'front hoop of an open car' }]),
      ...(header === null ? [] : [{ to: header, group: 'windscreen header' }]),
    ];
    return [
      ...tops.flatMap(({ to, group }) => [
        ...bareHeads(bare, group),
        ...helmets.flatMap(({ seat, centre, radius }) => {
          if (to.x <= rear.x) return [];
          const value = below(rear, to, centre[0], centre[2] + radius);
          const params = {
            seat: seat.name,
            way: value < 0 ? '{over} over' : '{measured} under',
            over: figure(-value, 'mm'),
            hoop: rear.name,
            fore: to.name,
          };
          return [reading(seat.name, value, 'mm', params, { fact: 'helmet', group })];
        }),
      ]),
      ...(open && header === null && fore === null ? missingOfCar(car, HEADER, { group: 'windscreen header' }) : []),
    ];
  },
  mend: (item, target) => ({
    says: 'lower the seat, or raise one of the two, by {by~}',
    ask: ', {book} wants it below',
    params: { by: figure(target - item.measured.value, 'mm') },
  }),
  explanation: {
    what: 'The helmet reaches over the line from the top of the main hoop to the top in front.',
    why: 'Upside down the car stands on these two: what is over the line is on the ground.',
    measured:
      "In side view, from the helmet's top square to the straight line over the tops of the outer surfaces: of the main hoop and of the front hoop (or of the tube across between two half-hoops), and in an open car of the main hoop and the `panel … as header`.",
    mend: 'Lower the seat, or raise one of the two.',
    stage: 'hoop',
    bad: `rules scca-gcr\nvehicle { kind sports-racer; body open }\n${front()}\n${helmetExample(310)}`,
    good: `rules scca-gcr\nvehicle { kind sports-racer; body open }\n${front()}\n${helmetExample(220)}`,
  },
};
