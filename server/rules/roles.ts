/** Roles that contradict the geometry of their tube. Told whatever the book: a rule would judge the wrong member. */
import { CODES } from '../../grammar/codes';
import type { Finding } from '../../grammar/finding';
import type { Role } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { sub } from '../centreline/vector';
import type { Car, Member } from './car';
import { legsOfRole, upDownOf } from './legs';
import type { Book } from './rule';

const chord = ({ ends }: Member): Vec3 => sub(ends[1].at, ends[0].at);

const acrossTheCar = (member: Member): string | null => {
  const [x, y] = chord(member);
  return Math.abs(y) > Math.abs(x) ? 'runs across the car' : null;
};

const alongTheCar = (member: Member): string | null => {
  const [x, y] = chord(member);
  return Math.abs(x) > Math.abs(y) ? 'runs along the car' : null;
};

/** A hoop's plane faces the way the car goes, or to the side. */
const facesSideways = (car: Car, member: Member): boolean => {
  const plane = car.hoop(member)?.figures.plane ?? null;
  return plane !== null && Math.abs(plane.normal[1]) > Math.SQRT1_2;
};

const backstay = (car: Car, member: Member): string | null => {
  const [up, down] = car.upDown(member);
  return down.at[0] > up.at[0] ? 'runs forward from its top' : null;
};

const diagonal = (car: Car, member: Member): string | null => {
  // A leg of two tubes runs from the far end of the one to that of the other.
  const leg = legsOfRole(car, 'diagonal').find(({ members }) => members.includes(member));
  const [up, down] = leg === undefined ? car.upDown(member) : upDownOf(leg);
  if (up.at[2] - down.at[2] < 1) return 'runs level';
  return up.at[1] * down.at[1] > 0 ? 'stays on one side of the car' : null;
};

/** Of a V each leg runs from the middle to one side. */
const backstayDiagonal = (car: Car, member: Member): string | null => {
  const leg = legsOfRole(car, 'backstay-diagonal').find(({ members }) => members.includes(member));
  const [a, b] = leg?.ends ?? member.ends;
  return a.at[1] * b.at[1] > 0 && Math.abs(a.at[1] - b.at[1]) < Math.abs(a.at[0] - b.at[0]) / 4
    ? 'stays on one side of the car'
    : null;
};

const frontHoop = (car: Car, member: Member): string | null => {
  if (facesSideways(car, member)) return 'stands along the car';
  const behind = car.mainHoops().find((main) => Math.max(...xs(main)) > Math.max(...xs(member)));
  return behind === undefined ? null : `stands behind ${behind.name}`;
};

const xs = (member: Member): readonly number[] => member.line.points.map((point) => point[0]);

const CHECKS: Readonly<Partial<Record<Role, (car: Car, member: Member) => string | null>>> = {
  'main-rollbar': (car, member) => (facesSideways(car, member) ? 'stands along the car' : null),
  'front-rollbar': frontHoop,
  'lateral-rollbar': (_car, member) => acrossTheCar(member),
  'half-lateral': (_car, member) => acrossTheCar(member),
  longitudinal: (_car, member) => acrossTheCar(member),
  'door-bar': (_car, member) => acrossTheCar(member),
  'sill-bar': (_car, member) => acrossTheCar(member),
  transverse: (_car, member) => alongTheCar(member),
  'harness-bar': (_car, member) => alongTheCar(member),
  'dash-bar': (_car, member) => alongTheCar(member),
  backstay,
  diagonal,
  'backstay-diagonal': backstayDiagonal,
};

/** A book that judges where a backstay runs says it itself, or allows it to run forward. */
const speaksOfForward = (books: readonly Book[]): boolean =>
  books.some(({ limits }) => limits.some(({ code }) => code === 'backstay.rearward'));

/** Null: the role goes with where the tube runs. */
function contradiction(member: Member, car: Car): Finding | null {
  const { role } = member.tube;
  const why = CHECKS[role]?.(car, member) ?? null;
  if (why === null) return null;
  return {
    code: 'role.contradicts',
    severity: CODES['role.contradicts'].severity,
    subject: member.name,
    at: { kind: 'thing', thing: member.name },
    params: { tube: member.name, role, why },
    notes: [],
    fixes: [],
  };
}

const allContradictions = (car: Car): readonly Finding[] =>
  car.forEach(car.members(), contradiction).filter((finding) => finding !== null);

export function contradictions(car: Car, books: readonly Book[]): readonly Finding[] {
  const found = car.keep(allContradictions);
  return speaksOfForward(books) ? found.filter(({ params }) => params['role'] !== 'backstay') : found;
}
