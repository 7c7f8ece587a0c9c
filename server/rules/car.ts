/**
 * The car as the books see it: members by their role, where their ends land, hoops with their planes, and what is known
 * of the car as a whole. Worked out once for all rules, each part when it is first asked for.
 */
import type { Cage, Foot, Role, Seat, Side, Thing, Tube } from '../cage/cage';
import type { Centreline } from '../centreline/centreline';
import { nearestOn, pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import type { Fit, Part, Shape } from '../geometry/shape';
import type { HoopFigures } from './hoop';
import { hoopFigures } from './hoop';
import { helmetGap } from './padding';
import type { Weld } from './welds';
import { weldsOf } from './welds';

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

/** Called once; what it gave is kept. */
function lazily<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null;
  return () => (made ??= { value: make() }).value;
}

const byName = (a: { readonly name: string }, b: { readonly name: string }): number =>
  a.name < b.name ? -1 : a.name > b.name ? 1 : 0;

export class Car {
  constructor(
    readonly cage: Cage,
    readonly shape: Shape,
  ) {}

  /** All tubes of the cage in the order of their names: the order of statements has no meaning. */
  readonly tubes = (): readonly Tube[] => this.ofKind('tube');

  private readonly kept = new Map<(car: Car) => unknown, unknown>();

  /** What `make` gives for this car, worked out once: for what several rules ask. */
  keep<T>(make: (car: Car) => T): T {
    if (!this.kept.has(make)) this.kept.set(make, make(this));
    return this.kept.get(make) as T;
  }

  private readonly byKind = lazily(() => {
    const map = new Map<Thing['kind'], Thing[]>();
    for (const thing of this.cage.things.values()) {
      const list = map.get(thing.kind);
      if (list === undefined) map.set(thing.kind, [thing]);
      else list.push(thing);
    }
    return map;
  });

  /** Kinds whose things stand in the order of their names already. */
  private readonly sorted = new Set<Thing['kind']>();

  /** All things of a kind, in the order of their names. */
  ofKind<K extends Thing['kind']>(kind: K): readonly Extract<Thing, { kind: K }>[] {
    const things = this.byKind().get(kind) ?? [];
    if (!this.sorted.has(kind)) {
      this.sorted.add(kind);
      things.sort(byName);
    }
    // They are kept by their kind: a look at the first, for the types, is a look at all.
    const all = (list: Thing[]): list is Extract<Thing, { kind: K }>[] => list.length === 0 || list[0]?.kind === kind;
    return all(things) ? things : [];
  }

  /** Where a node is; null: there is none of that name, or its place is not known. */
  nodeAt(name: string | null): Vec3 | null {
    const thing = name === null ? undefined : this.cage.things.get(name);
    return thing?.kind === 'node' ? thing.at : null;
  }

  /** The day that limits and texts go by: of the homologation, else of the first passport; null: neither is written. */
  readonly day = lazily((): string | null => this.cage.vehicle?.homologated ?? this.cage.vehicle?.passport ?? null);

  /** True where the cage came with a certificate: what it is like is in that, not in the text of a book. */
  readonly certified = lazily((): boolean => {
    const route = this.cage.vehicle?.cage ?? null;
    return route === 'asn' || route === 'fia';
  });

  readonly members = lazily((): readonly Member[] => this.tubes().flatMap((tube) => this.memberOf(tube) ?? []));

  readonly feet = (): readonly Foot[] => this.ofKind('foot');

  private readonly byRole = lazily(() => {
    const map = new Map<Role, Member[]>();
    for (const member of this.members()) {
      const list = map.get(member.tube.role);
      if (list === undefined) map.set(member.tube.role, [member]);
      else list.push(member);
    }
    return map;
  });

  private readonly tubesByRole = lazily(() => {
    const map = new Map<Role, Tube[]>();
    for (const tube of this.tubes()) {
      const list = map.get(tube.role);
      if (list === undefined) map.set(tube.role, [tube]);
      else list.push(tube);
    }
    return map;
  });

  private readonly byNames = lazily(() => new Map(this.members().map((member) => [member.name, member])));

  /** Members of these roles. */
  of(...roles: readonly Role[]): readonly Member[] {
    const [one] = roles;
    if (one !== undefined && roles.length === 1) return this.byRole().get(one) ?? [];
    return roles.flatMap((role) => this.byRole().get(role) ?? []);
  }

  /** Tubes of a role, also those whose centreline is not known. */
  tubesOf(...roles: readonly Role[]): readonly Tube[] {
    const [one] = roles;
    if (one !== undefined && roles.length === 1) return this.tubesByRole().get(one) ?? [];
    return this.tubes().filter((tube) => roles.includes(tube.role));
  }

  member(name: string): Member | null {
    return this.byNames().get(name) ?? null;
  }

  /** Everything that lands on a tube, by its name. */
  private readonly landings = lazily(() => {
    const map = new Map<string, Landed[]>();
    for (const member of this.members()) {
      for (const end of member.ends) {
        for (const host of end.hosts) {
          const on = this.member(host);
          if (on === null) continue;
          const landed = { member, end, station: nearestOn(on.line, end.at).station };
          const list = map.get(host);
          if (list === undefined) map.set(host, [landed]);
          else list.push(landed);
        }
      }
    }
    return map;
  });

  /** Every end that is coped, on every tube that cuts it; and the same by the part that it is on. */
  readonly welds = lazily((): readonly Weld[] => weldsOf(this));
  readonly weldsOn = lazily((): ReadonlyMap<Part, readonly Weld[]> => {
    const map = new Map<Part, Weld[]>();
    for (const weld of this.welds()) {
      const list = map.get(weld.host);
      if (list === undefined) map.set(weld.host, [weld]);
      else list.push(weld);
    }
    return map;
  });

  landedOn(host: Member, ...roles: readonly Role[]): readonly Landed[] {
    const all = this.landings().get(host.name) ?? [];
    return roles.length === 0 ? all : all.filter(({ member }) => roles.includes(member.tube.role));
  }

  /** Hoops and half-hoops. */
  readonly hoops = lazily((): readonly Hoop[] =>
    this.of(...HOOP_ROLES).flatMap((member) => {
      const figures = hoopFigures(member.line);
      return figures === null ? [] : [{ ...member, figures }];
    }),
  );

  readonly mainHoops = lazily((): readonly Hoop[] => this.hoops().filter(({ tube }) => tube.role === 'main-rollbar'));

  /** A full cage, a bare roll bar, or neither: no tube has the role of a hoop. */
  readonly kind = lazily((): 'cage' | 'bar' | 'none' => {
    if (this.tubesOf(...CAGE_ROLES).length > 0) return 'cage';
    return this.tubesOf('main-rollbar').length > 0 ? 'bar' : 'none';
  });

  readonly seats = (): readonly Seat[] => this.ofKind('seat');

  /** The driver's side: that of the seat named `driver`, or of the only one. Null: not known. */
  readonly driverSide = lazily((): Side | null => {
    const seats = this.seats();
    const seat = seats.find(({ base }) => base === 'driver') ?? (seats.length === 1 ? seats[0] : undefined);
    const slots = seat?.slots ?? null;
    return slots === null ? null : sideOf(slots[1]);
  });

  /** True where nobody sits beside the driver; where it is not told, where only one seat stands in the car. */
  readonly alone = lazily((): boolean => {
    const codriver = this.cage.vehicle?.codriver ?? null;
    return codriver === null ? this.seats().length === 1 : !codriver;
  });

  /** True where somebody is known to sit beside the driver. */
  readonly pair = lazily((): boolean => (this.cage.vehicle?.codriver ?? this.seats().length > 1) === true);

  /** From the nearest helmet to each tube's surface, mm, by its name. */
  readonly helmetGaps = lazily((): ReadonlyMap<string, number | null> => {
    const worn = this.seats().filter(({ helmet }) => helmet !== null);
    return new Map(worn.length === 0 ? [] : this.members().map((member) => [member.name, helmetGap(worn, member)]));
  });

  /** What is told of the structure as a whole is told at its main hoop, else at the first tube that can stand for it. */
  readonly chief = lazily((): Tube | null => {
    return this.tubesOf('main-rollbar')[0] ?? this.tubesOf(...CAGE_ROLES)[0] ?? this.tubes()[0] ?? null;
  });

  /** The end that is the higher one, and the lower. */
  upDown(member: Member): readonly [MemberEnd, MemberEnd] {
    const [a, b] = member.ends;
    return a.at[2] >= b.at[2] ? [a, b] : [b, a];
  }

  private memberOf(tube: Tube): Member | null {
    const line = tube.centreline;
    if (line === null || line.pieces.length === 0) return null;
    const whole = this.shape.parts.get(tube.name);
    const first: Part | undefined = whole ?? this.shape.parts.get(`${tube.name}.a`);
    const last: Part | undefined = whole ?? this.shape.parts.get(`${tube.name}.b`);
    if (first === undefined || last === undefined) return null;
    return {
      tube,
      name: tube.name,
      line,
      ends: [
        this.endOf('first', first, pointAt(line, 0).point),
        this.endOf('last', last, pointAt(line, line.length).point),
      ],
      pieces: whole === undefined ? 2 : 1,
      bends: line.pieces.filter((piece) => piece.kind === 'arc').length,
      side: sideOf(pointAt(line, line.length / 2).point[1]),
    };
  }

  private endOf(which: 'first' | 'last', part: Part, at: Vec3): MemberEnd {
    const end = part.ends[which === 'first' ? 0 : 1];
    const hosts = end.hosts.map((host) => (this.cage.things.has(host) ? host : host.replace(/\.[ab]$/, '')));
    const feet = hosts.flatMap((host) => {
      const thing = this.cage.things.get(host);
      return thing?.kind === 'foot' ? [thing] : [];
    });
    return { which, at, fit: end.fit, hosts, foot: feet[0] ?? null };
  }
}
