/**
 * Will it go in? A bar whose both ends are coped to tubes that stand, and every way into its place: its length over the
 * points, the clear width, and by how much it is too long on each way. Millimetres.
 */
import type { Part } from '../shape';
import { partsOf } from '../stretch';
import type { Bar } from './bar';
import { barOf } from './bar';
import type { Blocker } from './neighbours';
import { blockersOf } from './neighbours';
import { clearWidth, HANDS, playInPlace } from './play';
import type { Sought } from './seek';
import { seek } from './seek';
import type { Field } from './travel';
import type { Stretch3 } from './tubes';
import { stretchesOf, tubesIn } from './tubes';
import type { Way, WayKind } from './ways';
import { lieOf, sidesOf, slidWays, straightWays, tiltedWays } from './ways';

/** A cut that is off its host by more, in place, is not the cut that was computed: nothing is told of it then, mm. */
const OFF = 0.5;

export interface Room {
  readonly part: Part;
  readonly bar: Bar;
  /** Its hosts: every tube that cuts one of its ends. */
  readonly hosts: readonly Part[];
  readonly overPoints: number;
  /** The shortest line along the bar between its hosts; null where they do not stand opposite each other. */
  readonly clear: number | null;
  /** Null: none of that kind comes out at all, or (slid) the hosts do not run alongside each other. */
  readonly ways: Readonly<Record<WayKind, Sought | null>>;
  /** The same hosts before they stand on their plates: slid in past the ends of their legs. Null: not asked, or no way. */
  readonly offFeet: Sought | null;
}

/** Stretches of tubes, worked out once for a car. */
export class Stretches {
  private readonly known = new Map<Part, readonly Stretch3[]>();

  of(part: Part): readonly Stretch3[] {
    const old = this.known.get(part);
    if (old !== undefined) return old;
    const made = stretchesOf(part, true);
    this.known.set(part, made);
    return made;
  }
}

export const hostsOf = (part: Part, parts: ReadonlyMap<string, Part>): readonly Part[] => [
  ...new Set(part.ends.flatMap(({ hosts }) => hosts).flatMap((name) => partsOf(parts, name))),
];

/** A bar that may have to be brought in between its hosts: both ends coped to tubes. */
export const isInside = ({ ends: [first, last] }: Part): boolean => first.fit === 'cope' && last.fit === 'cope';

/** True where one way of all is free: too long nowhere, and nothing in it. */
export const goes = (sought: Sought | null, enough: number): boolean =>
  sought !== null && sought.blockers.length === 0 && (sought.way.tight?.tooLong ?? 0) <= enough;

/**
 * `standing`: what stands already, its hosts or not. Null where the part is no such bar, or where something of it is not
 * known: a cut, a host's section, or a cut that does not lie on its host.
 */
export function roomOf(
  part: Part,
  parts: ReadonlyMap<string, Part>,
  standing: readonly Part[],
  stretches: Stretches = new Stretches(),
): Room | null {
  const bar = barOf(part, parts);
  if (bar === null) return null;
  const hosts = hostsOf(part, parts);
  const around = hosts.map((host) => stretches.of(host));
  if (around.some((of) => of.length === 0)) return null;
  const field: Field = { bar, hosts: tubesIn(bar.frame, around.flat()) };
  if (playInPlace(bar, field.hosts).ends.some((play) => !(Math.abs(play) <= OFF))) return null;
  const others = standing.filter((one) => one !== part && !hosts.includes(one));
  const neighbours = tubesIn(
    bar.frame,
    others.flatMap((one) => stretches.of(one)),
  );
  const blockers = (way: Way): readonly Blocker[] => blockersOf(field, way, neighbours);
  const lie = lieOf(field);
  const sides = sidesOf(field, lie);
  const ways = {
    straight: seek(field, straightWays(field, lie), HANDS, blockers),
    tilted: seek(field, tiltedWays(field, lie, sides), HANDS, blockers),
    slid: seek(field, slidWays(field, lie, sides), HANDS, blockers),
  };
  const some = Object.values(ways).some((way) => goes(way, HANDS));
  const onFeet = hosts.some(({ ends }) => ends.some(({ fit }) => fit === 'foot'));
  return {
    part,
    bar,
    hosts,
    overPoints: bar.overPoints,
    clear: clearWidth(bar, field.hosts),
    ways,
    offFeet: some || !onFeet ? null : beforeItStands(bar, hosts),
  };
}

function beforeItStands(bar: Bar, hosts: readonly Part[]): Sought | null {
  const field: Field = {
    bar,
    hosts: tubesIn(
      bar.frame,
      hosts.flatMap((host) => stretchesOf(host, false)),
    ),
  };
  const lie = lieOf(field);
  return seek(field, slidWays(field, lie, sidesOf(field, lie)), HANDS, () => []);
}
