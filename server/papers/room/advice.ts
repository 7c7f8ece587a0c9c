/** What to do with a bar: which way, or what mends it where there is none. */
import { HANDS } from '../../geometry/room/play';
import type { Room } from '../../geometry/room/room';
import { goes } from '../../geometry/room/room';
import type { Sought } from '../../geometry/room/seek';
import { TOUCH } from '../../geometry/room/seek';
import type { WayKind } from '../../geometry/room/ways';
import { tooLongOf } from '../../geometry/room/ways';
import { onTape } from '../on-tape';
import { endLabel } from '../packet/numbers';
import type { PacketInput } from '../packet/paper';
import type { Inside } from './rooms';
import { howWords, small } from './words';

/** An end is not left open wider than this, mm, for the weld to fill: common practice, no source. */
export const OPEN = 1;

/** Nor is more than this taken off one end's points after fitting, mm: common practice, no source. */
const MOST_OFF = 5;

export interface Advice {
  /** False: somebody has to do something that the order of the file does not say. */
  readonly goes: boolean;
  readonly says: readonly string[];
}

export const NAMES: Readonly<Record<WayKind, string>> = {
  straight: 'Straight',
  above: 'From above',
  tilted: 'Tilted',
  slid: 'Along its hosts',
};

const ways = (of: Pick<Room, 'ways'>): readonly Sought[] =>
  Object.values(of.ways).filter((one): one is Sought => one !== null);

/** The way that goes: as cut before one that wants a gap, straight before tilted, with room before without. */
function best(among: readonly Sought[]): Sought | null {
  const rank = ({ way }: Sought): number => (tooLongOf(way) > TOUCH ? 2 : way.spare < HANDS ? 1 : 0);
  return among.reduce<Sought | null>((a, b) => (a === null || rank(b) < rank(a) ? b : a), null);
}

const gap = (tooLong: number, units: PacketInput['units']): string =>
  tooLong <= TOUCH ? '' : `, ${small(tooLong / 2, units)} left open at each end`;

export function adviceOf({ room, before, part }: Inside, input: PacketInput): Advice {
  const { units, numbers } = input;
  if (room === null)
    return {
      goes: false,
      says: ['Not computed: offer it up before it is cut to length, and before anything near it is tacked.'],
    };
  const label = (name: string): string => numbers.get(name)?.label ?? name;
  const free = best(ways(room).filter((one) => goes(one, HANDS)));
  const first = before.length === 0 ? '' : `Tack it before ${before.map(label).join(', ')}. `;
  if (free !== null) {
    const { way } = free;
    const how = `${NAMES[way.kind]}: ${howWords(room, way, units)}${gap(tooLongOf(way), units)}.`;
    return { goes: first === '', says: [`${first}${how}`] };
  }
  const says: string[] = [];
  if (before.length > 0) {
    const blocked = best(
      ways(room).filter(({ blockers }) => blockers.length > 0 && blockers.every(({ name }) => before.includes(name))),
    );
    const how =
      blocked === null
        ? ''
        : `${NAMES[blocked.way.kind]}: ${howWords(room, blocked.way, units)}${gap(tooLongOf(blocked.way), units)}.`;
    says.push(`${first}${how}`.trim());
    return { goes: false, says };
  }
  const { offFeet, square } = room;
  const sawn = square === null ? null : best(ways(square).filter((one) => goes(one, HANDS)));
  if (square !== null && sawn !== null)
    says.push(
      `Cut its ends square through the wall, to that line of the template, not with a hole saw: ${onTape(square.overPoints, units)} over the points. Then ${NAMES[sawn.way.kind].toLowerCase()}: ${howWords(room, sawn.way, units)}${gap(tooLongOf(sawn.way), units)}.`,
    );
  const onFeet = room.hosts.filter(({ ends }) => ends.some(({ fit }) => fit === 'foot'));
  if (offFeet?.way.brought === null && tooLongOf(offFeet.way) <= HANDS)
    says.push(
      `Put it in before ${onFeet.map(({ name }) => label(name)).join(' and ')} is stood on its plates: ${howWords(room, offFeet.way, units)}${gap(tooLongOf(offFeet.way), units)}.`,
    );
  const least = ways(room)
    .filter(({ blockers }) => blockers.length === 0)
    .sort((a, b) => tooLongOf(a.way) - tooLongOf(b.way))[0];
  if (least !== undefined && tooLongOf(least.way) <= 2 * OPEN)
    says.push(
      `Leave ${small(tooLongOf(least.way) / 2, units)} open at each end: then ${NAMES[least.way.kind].toLowerCase()}, ${howWords(room, least.way, units)}.`,
    );
  const [one, two] = part.ends;
  const loose = room.hosts.filter(
    (host) => !host.tube.existing && one.hosts.includes(host.name) !== two.hosts.includes(host.name),
  );
  if (loose.length > 0)
    says.push(
      `Leave ${loose.map(({ name }) => label(name)).join(' or ')} loose at its other end, tacked once only, until this bar is in.`,
    );
  if (least !== undefined && tooLongOf(least.way) <= MOST_OFF) {
    const end = (least.way.tight?.at[1] ?? -1) >= 0 ? two : one;
    says.push(
      `Cut ${endLabel(end)} after fitting: ${small(tooLongOf(least.way), units)} off its points on the side from which it comes; that gap has to be filled, and the welder decides whether it may be.`,
    );
  }
  if (says.length === 0)
    says.push(
      'No way in was found. Make it of two pieces with a sleeve, if the rulebook lets you, or move what it is cut to.',
    );
  return { goes: false, says };
}
