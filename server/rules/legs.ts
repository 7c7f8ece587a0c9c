/**
 * Legs of crosses and Vs, whole: a leg that another one splits is one leg, written as one split tube or as two tubes that
 * go on into each other on both sides of the tube between them. And where two such legs cross or meet.
 */
import { nearestBetween } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { distance, dot, sub, unit } from '../centreline/vector';
import type { Role } from '../cage/cage';
import type { Car, Member, MemberEnd } from './car';

export interface Leg {
  /** Of its tube, or of the first of its two. */
  readonly name: string;
  /** One, or two. */
  readonly members: readonly [Member, ...Member[]];
  /** The far ends. */
  readonly ends: readonly [MemberEnd, MemberEnd];
}

/** Two halves begin no farther apart than this, mm: on both sides of the tube between them, */
const TOGETHER = 40;
/** and go on into each other within 15 degrees. */
const ON = -Math.cos((15 * Math.PI) / 180);

const away = (member: Member, end: MemberEnd): Vec3 => {
  const other = member.ends[0] === end ? member.ends[1] : member.ends[0];
  return unit(sub(other.at, end.at));
};

/** The ends by which two tubes go on into each other; null: they do not. */
function continued(a: Member, b: Member): readonly [MemberEnd, MemberEnd] | null {
  for (const one of a.ends) {
    for (const other of b.ends) {
      if (distance(one.at, other.at) > TOGETHER) continue;
      if (dot(away(a, one), away(b, other)) < ON) return [one, other];
    }
  }
  return null;
}

const farEnd = (member: Member, near: MemberEnd): MemberEnd =>
  member.ends[0] === near ? member.ends[1] : member.ends[0];

/** The legs of a role, in the order of their names. */
export const legsOfRole = (car: Car, role: Role): readonly Leg[] => car.ask(joinedOf, role);

const joinedOf = (role: Role, car: Car): readonly Leg[] => joined(car.of(role));

/** These members as legs. */
export function joined(members: readonly Member[]): readonly Leg[] {
  const used = new Set<Member>();
  const legs: Leg[] = [];
  members.forEach((member, i) => {
    if (used.has(member)) return;
    for (const other of members.slice(i + 1)) {
      if (used.has(other)) continue;
      const near = continued(member, other);
      if (near === null) continue;
      used.add(other);
      legs.push({
        name: member.name,
        members: [member, other],
        ends: [farEnd(member, near[0]), farEnd(other, near[1])],
      });
      return;
    }
    legs.push({ name: member.name, members: [member], ends: member.ends });
  });
  return legs;
}

export interface Crossing {
  /** The leg that runs through, and the one that it splits. */
  readonly through: Leg;
  readonly split: Leg;
  /** On the axis of the one that runs through. */
  readonly at: Vec3;
}

const isSplitBy = (leg: Leg, by: Leg): boolean =>
  leg.members.some(
    ({ tube, ends }) =>
      by.members.some(({ name }) => name === tube.splitBy) ||
      (leg.members.length > 1 &&
        ends.some((end) => !leg.ends.includes(end) && by.members.some(({ name }) => end.hosts.includes(name)))),
  );

/** Where one of two legs splits the other; null: neither does. */
export function crossingOf(a: Leg, b: Leg): Crossing | null {
  const pair = isSplitBy(b, a) ? { through: a, split: b } : isSplitBy(a, b) ? { through: b, split: a } : null;
  if (pair === null) return null;
  const near = pair.through.members.flatMap((one) =>
    pair.split.members.map((other) => nearestBetween(one.line, other.line)),
  );
  const [first, ...rest] = near;
  if (first === undefined) return null;
  const best = rest.reduce((least, one) => (one.distance < least.distance ? one : least), first);
  return { ...pair, at: best.onA.point };
}

/** Every pair of these legs. */
export const pairsOf = (legs: readonly Leg[]): readonly (readonly [Leg, Leg])[] =>
  legs.flatMap((a, i) => legs.slice(i + 1).map((b) => [a, b] as const));

export const crossings = (legs: readonly Leg[]): readonly Crossing[] =>
  pairsOf(legs).flatMap(([a, b]) => crossingOf(a, b) ?? []);

/** The higher end, and the lower. */
export const upDownOf = ({ ends: [a, b] }: Leg): readonly [MemberEnd, MemberEnd] =>
  a.at[2] >= b.at[2] ? [a, b] : [b, a];

/** The end farther forward, and the one farther aft. */
export const frontRear = ({ ends: [a, b] }: Leg): readonly [MemberEnd, MemberEnd] =>
  a.at[0] >= b.at[0] ? [a, b] : [b, a];
