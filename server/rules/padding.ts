/** Where books want padding: at the roof, and where a helmet can reach. */
import type { Padding, PaddingStandard, Seat } from '../cage/cage';
import { nearestOn } from '../centreline/query';
import { add } from '../centreline/vector';
import type { Car, Member } from './car';
import { front } from './examples';
import { missingOfCar } from './readings';
import type { Item } from './rule';
import { roofBand } from './hoop';

/** A helmet moves on its straps: a tube nearer to it than this is within its reach (a national rule of 2026 says 150 mm). */
const REACH = 150;

/** From the nearest helmet to a tube's surface, mm; null: no helmet is written, or the tube's size is not known. */
export function helmetGap(seats: readonly Seat[], { line, tube }: Member): number | null {
  const { section } = tube;
  if (section === null) return null;
  const all = seats.flatMap(({ slots, helmet }) => {
    if (slots === null || helmet === null) return [];
    return [nearestOn(line, add(slots, helmet.offset)).distance - helmet.radius - section.od / 2];
  });
  return all.length === 0 ? null : Math.min(...all);
}

/** The same, kept with the car. */
export const fromHelmet = (car: Car, member: Member): number | null => car.helmetGap(member);

/** Tubes within reach of a helmet, by whichever role; none where no helmet is written. */
export const withinReach = (car: Car): readonly Member[] =>
  car.members().filter((member) => {
    const far = fromHelmet(car, member);
    return far !== null && far <= REACH;
  });

const STANDARDS: Readonly<Record<PaddingStandard, string>> = {
  'fia-8857': 'to FIA 8857',
  'sfi-45.1': 'to SFI 45.1',
  'sfi-45.2': 'to SFI 45.2',
  foam: 'foam without a certificate',
};
export const paddingWords = (standard: PaddingStandard): string => STANDARDS[standard];

/** Quicker than this over the quarter mile, s. */
const QUICK = 9.99;
/** What hangs on how quick the car is stands beside what does not. */
export const PACE_GROUPS = ['any car', '9.99 s or quicker'] as const;
const TIME = "the car's time over the quarter mile is not written: vehicle { elapsed-time 11.49 }";

/** A reading of any car, and of a quick one where it is quick; where its time is not told, that it is not. */
export function byPace(car: Car, make: (group: string) => readonly Item[]): readonly Item[] {
  const time = car.cage.vehicle?.elapsedTime ?? null;
  const [any, quick] = PACE_GROUPS;
  return [
    ...make(any),
    ...(time === null ? missingOfCar(car, TIME, { group: quick }) : time <= QUICK ? make(quick) : []),
  ];
}

/** What a tube is to a book that asks for padding. */
export const PADDING_GROUPS = [
  'roof reinforcement',
  'tube at the roof',
  'where a helmet reaches',
  'elsewhere',
] as const;
export type PaddingGroup = (typeof PADDING_GROUPS)[number];

const AT_ROOF = [
  'main-rollbar',
  'front-rollbar',
  'lateral-rollbar',
  'half-lateral',
  'longitudinal',
  'transverse',
] as const;

export const paddingGroup = (car: Car, member: Member): PaddingGroup => car.ask(groupOf, member);

function groupOf(member: Member, car: Car): PaddingGroup {
  const { role } = member.tube;
  if (role === 'roof-bar') return 'roof reinforcement';
  const hoop = car.mainHoops()[0];
  const highest = Math.max(...member.ends.map(({ at }) => at[2]), ...member.line.points.map(([, , z]) => z));
  if (hoop !== undefined && AT_ROOF.some((one) => one === role) && highest >= roofBand(hoop.line, hoop.figures.top))
    return 'tube at the roof';
  const far = fromHelmet(car, member);
  return far !== null && far <= REACH ? 'where a helmet reaches' : 'elsewhere';
}

/** Without somebody beside the driver only his side asks for padding. */
export const asksForPadding = (car: Car, { side }: Member): boolean => {
  const driver = car.driverSide();
  return !car.alone() || side === null || driver === null || side === driver;
};

export const paddedTube = (car: Car, { tube }: Padding): Member | null =>
  tube === null ? null : car.member(tube.replace(/\.[ab]$/, ''));

/** A cage with a V in its roof of which the bars are padded so. */
export const paddedRoof = (padding: string): string =>
  `${front()}\nmirror left {\n  node v-rear = on hoop at 80 after crown\n  node v-front = on header at 46 %\n  tube v as roof-bar { section t38; path v-rear, v-front }\n  vent v -> hoop { at v-rear; dia 5 }\n${padding}}`;
