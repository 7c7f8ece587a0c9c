/**
 * Will it go in? A bar whose both ends are coped to tubes that stand, and every way into its place: its length over the
 * points, the clear width, and by how much it is too long on each way. Millimetres.
 */
import type { Part } from '../shape';
import { partsOf } from '../stretch';
import type { Bar, Cut } from './bar';
import { barOf } from './bar';
import type { Blocker } from './neighbours';
import { blockersOf } from './neighbours';
import { clearWidth, HANDS, playInPlace } from './play';
import type { Sought } from './seek';
import { seek, Shortlist } from './seek';
import type { Field } from './travel';
import { mirrorImages, mirrorTwins } from './twins';
import type { Stretch3, Tubes } from './tubes';
import { stretchesOf, tubesIn } from './tubes';
import type { Way, WayKind } from './ways';
import { lieOf, sidesOf, slidWays, straightWays, tiltedWays, waysFromAbove } from './ways';

/** A cut that is off its host by more, in place, is not the cut that was computed: nothing is told of it then, mm. */
const OFF = 0.5;

export interface Room {
  readonly part: Part;
  /** The bar; or, where `mirrored`, its image on the car's other side, and all directions with it. */
  readonly bar: Bar;
  readonly mirrored: boolean;
  /** Its hosts: every tube that cuts one of its ends. */
  readonly hosts: readonly Part[];
  readonly overPoints: number;
  /** The shortest line along the bar between its hosts; null where they do not stand opposite each other. */
  readonly clear: number | null;
  /** Null: none of that kind comes out at all, or (above) the bar stands upright, or (slid) the hosts do not run alongside each other. */
  readonly ways: Readonly<Record<WayKind, Sought | null>>;
  /** The same bar with its ends cut square through the wall, whose points are shorter. Null: not asked, as it goes in anyway. */
  readonly square: Square | null;
  /** The same hosts before they stand on their plates: slid in past the ends of their legs. Null: not asked, or no way. */
  readonly offFeet: Sought | null;
}

export interface Square {
  readonly overPoints: number;
  readonly ways: Room['ways'];
}

export const hostsOf = (part: Part, parts: ReadonlyMap<string, Part>): readonly Part[] => [
  ...new Set(part.ends.flatMap(({ hosts }) => hosts).flatMap((name) => partsOf(parts, name))),
];

/** A bar that may have to be brought in between its hosts: both ends coped to tubes. */
export const isInside = ({ ends: [first, last] }: Part): boolean => first.fit === 'cope' && last.fit === 'cope';

/** True where one way of all is free: too long nowhere, and nothing in it. */
export const goes = (sought: Sought | null, enough: number): boolean =>
  sought !== null && sought.blockers.length === 0 && (sought.way.tight?.tooLong ?? 0) <= enough;

/** What a bar and its hosts alone say, whatever stands beside them. */
interface Between {
  readonly part: Part;
  readonly field: Field;
  readonly clear: number | null;
  readonly lists: Readonly<Record<WayKind, Shortlist>>;
}

/** Answers for the bars of one car; what twins have in common is worked out once. */
export class Rooms {
  private readonly stretches = new Map<Part, readonly Stretch3[]>();
  private readonly between = new Map<string, Between[]>();

  constructor(private readonly parts: ReadonlyMap<string, Part>) {}

  /**
   * `standing`: what stands already, its hosts or not. Null where the part is no such bar, or where something of it is
   * not known: a cut, a host's section, or a cut that does not lie on its host.
   */
  of(part: Part, standing: readonly Part[]): Room | null {
    const hosts = hostsOf(part, this.parts);
    const twin = this.twinOf(part, hosts);
    const own = twin ?? this.ownOf(part);
    if (own === null) return null;
    const { bar } = own.field;
    const mirrored = own.part !== part && twin !== null;
    const others = standing.filter((one) => one !== part && !hosts.includes(one));
    const beside = others.flatMap((one) => this.stretchesOf(one));
    const neighbours = tubesIn(bar.frame, mirrored ? mirrorImages(beside) : beside);
    const ways = waysOf(own, neighbours);
    const told = { part, bar, mirrored, hosts, overPoints: bar.overPoints, clear: own.clear, ways };
    if (anyGoes(ways)) return { ...told, square: null, offFeet: null };
    const square = this.betweenOf(own.part, 'square');
    const onFeet = hosts.some(({ ends }) => ends.some(({ fit }) => fit === 'foot'));
    return {
      ...told,
      square: square === null ? null : { overPoints: square.field.bar.overPoints, ways: waysOf(square, neighbours) },
      offFeet: onFeet ? beforeTheyStand(bar, hostsOf(own.part, this.parts)) : null,
    };
  }

  private stretchesOf(part: Part): readonly Stretch3[] {
    const old = this.stretches.get(part);
    if (old !== undefined) return old;
    const made = stretchesOf(part, true);
    this.stretches.set(part, made);
    return made;
  }

  private twinOf(part: Part, hosts: readonly Part[]): Between | null {
    const own = hosts.flatMap((host) => this.stretchesOf(host));
    const known = this.between.get(part.tube.base) ?? [];
    const isTwin = (one: Part): boolean =>
      mirrorTwins(
        one,
        hostsOf(one, this.parts).flatMap((host) => this.stretchesOf(host)),
        part,
        own,
      );
    return known.find((one) => isTwin(one.part)) ?? null;
  }

  private ownOf(part: Part): Between | null {
    const between = this.betweenOf(part, 'saddle');
    if (between === null) return null;
    const { base } = part.tube;
    this.between.set(base, [...(this.between.get(base) ?? []), between]);
    return between;
  }

  private betweenOf(part: Part, cut: Cut): Between | null {
    const bar = barOf(part, this.parts, cut);
    const around = hostsOf(part, this.parts).map((host) => this.stretchesOf(host));
    if (bar === null || around.some((of) => of.length === 0)) return null;
    const field: Field = { bar, hosts: tubesIn(bar.frame, around.flat()) };
    const inPlace = playInPlace(bar, field.hosts).ends;
    if (inPlace.some((play) => !(play >= -OFF && (cut === 'square' || play <= OFF)))) return null;
    const lie = lieOf(field);
    const sides = sidesOf(field, lie);
    return {
      part,
      field,
      clear: clearWidth(bar, field.hosts),
      lists: {
        straight: new Shortlist(field, straightWays(field, lie), HANDS),
        above: new Shortlist(field, waysFromAbove(field), HANDS),
        tilted: new Shortlist(field, tiltedWays(field, lie, sides), HANDS),
        slid: new Shortlist(field, slidWays(field, lie, sides), HANDS),
      },
    };
  }
}

function waysOf({ field, lists }: Between, neighbours: Tubes): Room['ways'] {
  const blockers = (way: Way): readonly Blocker[] => blockersOf(field, way, neighbours);
  return {
    straight: seek(lists.straight, blockers),
    above: seek(lists.above, blockers),
    tilted: seek(lists.tilted, blockers),
    slid: seek(lists.slid, blockers),
  };
}

/** True where the bar goes in somehow: too long by no more than hands want, with nothing in the way. */
export const anyGoes = (ways: Room['ways']): boolean => Object.values(ways).some((way) => goes(way, HANDS));

function beforeTheyStand(bar: Bar, hosts: readonly Part[]): Sought | null {
  const around = hosts.flatMap((host) => stretchesOf(host, false));
  const field: Field = { bar, hosts: tubesIn(bar.frame, around) };
  const lie = lieOf(field);
  return seek(new Shortlist(field, slidWays(field, lie, sidesOf(field, lie)), HANDS), () => []);
}
