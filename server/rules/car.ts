/**
 * The car as the books see it: members by their role, where their ends land, hoops with their planes, and what is known
 * of the car as a whole. Worked out once for all rules, each part when it is first asked for; with a memory, what hangs on
 * nothing that has changed is kept from the run before.
 */
import type { Cage, Foot, Role, Seat, Side, Thing, Tube } from '../cage/cage';
import type { Centreline } from '../centreline/centreline';
import { nearestOn, pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import type { Fit, Part, Shape } from '../geometry/shape';
import type { HoopFigures } from './hoop';
import { hoopFigures } from './hoop';
import type { Same } from './memory';
import { Memory, sameObjects, sameValue } from './memory';
import { helmetGap } from './padding';
import type { Source } from './tracked';
import { trackedSource } from './tracked';
import type { Weld } from './welds';
import { weldsOfPart } from './welds';

export interface MemberEnd {
  readonly which: 'first' | 'last';
  /** On the centreline. */
  readonly at: Vec3;
  readonly fit: Fit;
  /** Tubes that cut it, by their whole name, and the foot that it stands on. */
  readonly hosts: readonly string[];
  readonly foot: Foot | null;
}

/** A tube whose centreline is known. */
export interface Member {
  readonly tube: Tube;
  readonly name: string;
  readonly line: Centreline;
  readonly ends: readonly [MemberEnd, MemberEnd];
  /** One, or two for a split tube. */
  readonly pieces: number;
  readonly bends: number;
  /** By the middle of its centreline; null: on the car's centreline. */
  readonly side: Side | null;
}

export interface Hoop extends Member {
  readonly figures: HoopFigures;
}

/** An end that lands on a tube, with the station of the landing on it, mm. */
export interface Landed {
  readonly member: Member;
  readonly end: MemberEnd;
  readonly station: number;
}

/** Roles that make a car's structure a full cage. */
const CAGE_ROLES: readonly Role[] = ['front-rollbar', 'lateral-rollbar', 'half-lateral', 'longitudinal'];
const HOOP_ROLES: readonly Role[] = ['main-rollbar', 'front-rollbar', 'lateral-rollbar', 'half-lateral'];

/** Nearer to the centreline than this belongs to no side, mm. */
const MIDDLE = 1;

const sideOf = (y: number): Side | null => (y > MIDDLE ? 'left' : y < -MIDDLE ? 'right' : null);

const byName = (a: { readonly name: string }, b: { readonly name: string }): number =>
  a.name < b.name ? -1 : a.name > b.name ? 1 : 0;

/** Adds to the list of a key. */
export function note<K, T>(lists: Map<K, T[]>, key: K, item: T): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [item]);
  else list.push(item);
}

/**
 * The list of one key, of lists that are made for the whole car: who asks for it hangs on that list, not on the others.
 * To be called once for each `make`, in a module.
 */
export function listOf<K, T>(
  make: (car: Car) => ReadonlyMap<K, readonly T[]>,
  same: Same = sameValue,
): (car: Car, key: K) => readonly T[] {
  const pick = (key: K, car: Car): readonly T[] => car.keep(make).get(key) ?? [];
  return (car, key) => car.look(pick, key, same);
}

const run = (make: (car: Car) => unknown, car: Car): unknown => make(car);

function thingsByKind({ cage }: Car): ReadonlyMap<Thing['kind'], readonly Thing[]> {
  const map = new Map<Thing['kind'], Thing[]>();
  for (const thing of cage.things.values()) note(map, thing.kind, thing);
  return map;
}

const thingsOf = listOf(thingsByKind, sameObjects);

const namesOf = (kind: Thing['kind'], car: Car): readonly string[] => thingsOf(car, kind).map(({ name }) => name);

/** Where the things of a kind stand among themselves, in the order of their names. */
function orderOf(kind: Thing['kind'], car: Car): readonly number[] {
  const names = car.ask(namesOf, kind);
  return names
    .map((name, i) => ({ name, i }))
    .sort(byName)
    .map(({ i }) => i);
}

function sortedOf(kind: Thing['kind'], car: Car): readonly Thing[] {
  const things = thingsOf(car, kind);
  return car.ask(orderOf, kind).flatMap((i) => things[i] ?? []);
}

function memberOf(tube: Tube, car: Car): Member | null {
  const line = tube.centreline;
  if (line === null || line.pieces.length === 0) return null;
  const { parts } = car.shape;
  const whole = parts.get(tube.name);
  const first: Part | undefined = whole ?? parts.get(`${tube.name}.a`);
  const last: Part | undefined = whole ?? parts.get(`${tube.name}.b`);
  if (first === undefined || last === undefined) return null;
  return {
    tube,
    name: tube.name,
    line,
    ends: [
      endOf(car.cage, 'first', first, pointAt(line, 0).point),
      endOf(car.cage, 'last', last, pointAt(line, line.length).point),
    ],
    pieces: whole === undefined ? 2 : 1,
    bends: line.pieces.filter((piece) => piece.kind === 'arc').length,
    side: sideOf(pointAt(line, line.length / 2).point[1]),
  };
}

function endOf(cage: Cage, which: 'first' | 'last', part: Part, at: Vec3): MemberEnd {
  const end = part.ends[which === 'first' ? 0 : 1];
  const hosts = end.hosts.map((host) => (cage.things.has(host) ? host : host.replace(/\.[ab]$/, '')));
  const feet = hosts.flatMap((host) => {
    const thing = cage.things.get(host);
    return thing?.kind === 'foot' ? [thing] : [];
  });
  return { which, at, fit: end.fit, hosts, foot: feet[0] ?? null };
}

const allMembers = (car: Car): readonly Member[] => car.tubes().flatMap((tube) => car.ask(memberOf, tube) ?? []);

function memberNamed(name: string, car: Car): Member | null {
  const thing = car.cage.things.get(name);
  return thing?.kind === 'tube' ? car.ask(memberOf, thing) : null;
}

function membersByRole(car: Car): ReadonlyMap<Role, readonly Member[]> {
  const map = new Map<Role, Member[]>();
  for (const member of car.members()) note(map, member.tube.role, member);
  return map;
}

const ofRole = listOf(membersByRole);

function tubesByRole(car: Car): ReadonlyMap<Role, readonly Tube[]> {
  const map = new Map<Role, Tube[]>();
  for (const tube of car.tubes()) note(map, tube.role, tube);
  return map;
}

const tubesOfRole = listOf(tubesByRole);

/** Where the ends of a member land, by the names of the tubes. */
const landingsOf = (member: Member, car: Car): readonly { readonly host: string; readonly landed: Landed }[] =>
  member.ends.flatMap((end) =>
    end.hosts.flatMap((host) => {
      const on = car.member(host);
      return on === null ? [] : [{ host, landed: { member, end, station: nearestOn(on.line, end.at).station } }];
    }),
  );

/** Everything that lands on a tube, by its name. */
function landings(car: Car): ReadonlyMap<string, readonly Landed[]> {
  const map = new Map<string, Landed[]>();
  for (const member of car.members())
    for (const { host, landed } of car.ask(landingsOf, member)) note(map, host, landed);
  return map;
}

const landingsOn = listOf(landings);

const allParts = (car: Car): readonly Part[] => [...car.shape.parts.values()];

const allWelds = (car: Car): readonly Weld[] => car.parts().flatMap((part) => car.ask(weldsOfPart, part));

function weldsByHost(car: Car): ReadonlyMap<string, readonly Weld[]> {
  const map = new Map<string, Weld[]>();
  for (const weld of car.welds()) note(map, weld.host.name, weld);
  return map;
}

const weldsOfHost = listOf(weldsByHost);

const hostsOfWelds = (car: Car): readonly string[] => [...car.keep(weldsByHost).keys()];

function hoopOf(member: Member): Hoop | null {
  const figures = hoopFigures(member.line);
  return figures === null ? null : { ...member, figures };
}

const allHoops = (car: Car): readonly Hoop[] => car.of(...HOOP_ROLES).flatMap((member) => car.hoop(member) ?? []);

const allMainHoops = (car: Car): readonly Hoop[] => car.hoops().filter(({ tube }) => tube.role === 'main-rollbar');

function kindOf(car: Car): 'cage' | 'bar' | 'none' {
  if (CAGE_ROLES.some((role) => car.tubesOf(role).length > 0)) return 'cage';
  return car.tubesOf('main-rollbar').length > 0 ? 'bar' : 'none';
}

const wornHelmets = (car: Car): readonly Seat[] => car.seats().filter(({ helmet }) => helmet !== null);

const helmetGapOf = (member: Member, car: Car): number | null => helmetGap(car.keep(wornHelmets), member);

const chiefOf = (car: Car): Tube | null =>
  car.tubesOf('main-rollbar')[0] ?? car.tubesOf(...CAGE_ROLES)[0] ?? car.tubes()[0] ?? null;

function driverSideOf(car: Car): Side | null {
  const seats = car.seats();
  const seat = seats.find(({ base }) => base === 'driver') ?? (seats.length === 1 ? seats[0] : undefined);
  const slots = seat?.slots ?? null;
  return slots === null ? null : sideOf(slots[1]);
}

const onlyOneSeat = (car: Car): boolean => car.seats().length === 1;
const manySeats = (car: Car): boolean => car.seats().length > 1;

/** What is worked out is kept for as long as the car is. */
class Once {
  private readonly kept = new Map<unknown, Map<unknown, unknown>>();

  constructor(private readonly car: Car) {}

  ask<K, V>(make: (key: K, car: Car) => V, key: K): V {
    let values = this.kept.get(make);
    if (values === undefined) {
      values = new Map();
      this.kept.set(make, values);
    }
    if (!values.has(key)) values.set(key, make(key, this.car));
    return values.get(key) as V;
  }

  fact<K, V>(look: (key: K, car: Car) => V, key: K): V {
    return this.ask(look, key);
  }
}

export class Car {
  /** With a memory: whatever is looked at here is noted, so that what was made of it is made anew when it changes. */
  readonly cage: Cage;
  readonly shape: Shape;
  /** What it was made from, as it is: nothing that is to be kept may look at it. */
  readonly source: Source;
  private readonly keeper: Once | Memory<Car>;

  /** @param memory what was worked out of the same car before; it works for one car at a time, from `begin` to `end` */
  constructor(cage: Cage, shape: Shape, memory: Memory<Car> | null = null) {
    this.source = { cage, shape };
    ({ cage: this.cage, shape: this.shape } = memory === null ? this.source : trackedSource(memory));
    this.keeper = memory ?? new Once(this);
    memory?.begin(this);
  }

  /** What `make` gives for this key, worked out once: for what several rules ask. It must stand in a module. */
  ask<K, V>(make: (key: K, car: Car) => V, key: K, same: Same = sameValue): V {
    return this.keeper.ask(make, key, same);
  }

  /** A list of the car's, by its key: looked up, not worked out. Who looks hangs on its items. */
  look<K, T>(pick: (key: K, car: Car) => readonly T[], key: K, same: Same): readonly T[] {
    return this.keeper.fact(pick, key, same);
  }

  /** What `make` gives for this car, worked out once. It must stand in a module. */
  keep<T>(make: (car: Car) => T): T {
    return this.ask(run, make) as T;
  }

  /** What `make` gives for each of these things. With a memory, of things that stay as they are it is kept. */
  forEach<K, V>(things: readonly K[], make: (thing: K, car: Car) => V): readonly V[] {
    return this.keeper instanceof Memory
      ? things.map((thing) => this.ask(make, thing))
      : things.map((thing) => make(thing, this));
  }

  /** All tubes of the cage in the order of their names: the order of statements has no meaning. */
  readonly tubes = (): readonly Tube[] => this.ofKind('tube');

  /** All things of a kind, in the order of their names. */
  ofKind<K extends Thing['kind']>(kind: K): readonly Extract<Thing, { kind: K }>[] {
    const things = this.ask(sortedOf, kind, sameObjects);
    // They are kept by their kind: a look at the first, for the types, is a look at all.
    const all = (list: readonly Thing[]): list is readonly Extract<Thing, { kind: K }>[] =>
      list.length === 0 || list[0]?.kind === kind;
    return all(things) ? things : [];
  }

  /** Where a node is; null: there is none of that name, or its place is not known. */
  nodeAt(name: string | null): Vec3 | null {
    const thing = name === null ? undefined : this.cage.things.get(name);
    return thing?.kind === 'node' ? thing.at : null;
  }

  /** The day that limits and texts go by: of the homologation, else of the first passport; null: neither is written. */
  readonly day = (): string | null => this.cage.vehicle?.homologated ?? this.cage.vehicle?.passport ?? null;

  /** True where the cage came with a certificate: what it is like is in that, not in the text of a book. */
  readonly certified = (): boolean => {
    const route = this.cage.vehicle?.cage ?? null;
    return route === 'asn' || route === 'fia';
  };

  readonly members = (): readonly Member[] => this.keep(allMembers);

  readonly feet = (): readonly Foot[] => this.ofKind('foot');

  /** Members of these roles. */
  of(...roles: readonly Role[]): readonly Member[] {
    const [one] = roles;
    if (one !== undefined && roles.length === 1) return ofRole(this, one);
    return roles.flatMap((role) => ofRole(this, role));
  }

  /** Tubes of a role, also those whose centreline is not known. */
  tubesOf(...roles: readonly Role[]): readonly Tube[] {
    const [one] = roles;
    if (one !== undefined && roles.length === 1) return tubesOfRole(this, one);
    return roles.flatMap((role) => tubesOfRole(this, role)).sort(byName);
  }

  member(name: string): Member | null {
    return this.ask(memberNamed, name);
  }

  /** All parts, in the order of the shape. */
  readonly parts = (): readonly Part[] => this.keep(allParts);

  /** Every end that is coped, on every tube that cuts it, in the order of the parts. */
  readonly welds = (): readonly Weld[] => this.keep(allWelds);

  /** The parts on which something is welded, by name, in the order of their welds. */
  readonly weldHosts = (): readonly string[] => this.keep(hostsOfWelds);

  /** What is welded on a part. */
  weldsOn(part: string): readonly Weld[] {
    return weldsOfHost(this, part);
  }

  landedOn(host: Member, ...roles: readonly Role[]): readonly Landed[] {
    const all = landingsOn(this, host.name);
    return roles.length === 0 ? all : all.filter(({ member }) => roles.includes(member.tube.role));
  }

  /** Hoops and half-hoops. */
  readonly hoops = (): readonly Hoop[] => this.keep(allHoops);

  /** A member with its plane, its top and its crowns; null: its centreline has no pieces. */
  hoop(member: Member): Hoop | null {
    return this.ask(hoopOf, member);
  }

  readonly mainHoops = (): readonly Hoop[] => this.keep(allMainHoops);

  /** A full cage, a bare roll bar, or neither: no tube has the role of a hoop. */
  readonly kind = (): 'cage' | 'bar' | 'none' => this.keep(kindOf);

  readonly seats = (): readonly Seat[] => this.ofKind('seat');

  /** The driver's side: that of the seat named `driver`, or of the only one. Null: not known. */
  readonly driverSide = (): Side | null => this.keep(driverSideOf);

  /** True where nobody sits beside the driver; where it is not told, where only one seat stands in the car. */
  readonly alone = (): boolean => {
    const codriver = this.cage.vehicle?.codriver ?? null;
    return codriver === null ? this.keep(onlyOneSeat) : !codriver;
  };

  /** True where somebody is known to sit beside the driver. */
  readonly pair = (): boolean => this.cage.vehicle?.codriver ?? this.keep(manySeats);

  /** From the nearest helmet to a tube's surface, mm; null: no helmet is written, or the tube's size is not known. */
  helmetGap(member: Member): number | null {
    return this.ask(helmetGapOf, member);
  }

  /** What is told of the structure as a whole is told at its main hoop, else at the first tube that can stand for it. */
  readonly chief = (): Tube | null => this.keep(chiefOf);

  /** The end that is the higher one, and the lower. */
  upDown(member: Member): readonly [MemberEnd, MemberEnd] {
    const [a, b] = member.ends;
    return a.at[2] >= b.at[2] ? [a, b] : [b, a];
  }
}
