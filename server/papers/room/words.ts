/** What is said of a way in: from where, how, and by how much it does not go. */
import type { LengthUnit } from '../../../grammar/units';
import type { Vec3 } from '../../centreline/vector';
import { dot, mirrorY } from '../../centreline/vector';
import { clockAt, CLOCKS } from '../../geometry/room/bar';
import { directionOf } from '../../geometry/room/frame';
import { HANDS } from '../../geometry/room/play';
import type { Room } from '../../geometry/room/room';
import type { Sought } from '../../geometry/room/seek';
import { TOUCH } from '../../geometry/room/seek';
import { HOME } from '../../geometry/room/travel';
import type { Way } from '../../geometry/room/ways';
import { tooLongOf } from '../../geometry/room/ways';
import { onTape } from '../on-tape';
import { sayLength } from '../quantity';
import { endLabel, endName } from '../packet/numbers';

/** A direction of which less than this belongs to another is not called by it: 20 degrees. */
const SOME = Math.sin(Math.PI / 9);

const NAMES: readonly (readonly [Vec3, string])[] = [
  [[1, 0, 0], 'ahead'],
  [[-1, 0, 0], 'behind'],
  [[0, 1, 0], 'the left'],
  [[0, -1, 0], 'the right'],
  [[0, 0, 1], 'above'],
  [[0, 0, -1], 'below'],
];

/** `behind and below`: the car's own directions, the nearest first. */
export const fromWords = (direction: Vec3): string =>
  NAMES.map(([axis, name]) => ({ name, share: dot(direction, axis) }))
    .filter(({ share }) => share > SOME)
    .sort((a, b) => b.share - a.share)
    .map(({ name }) => name)
    .join(' and ');

/** A length; one that no tape shows, in decimals of both systems. */
export const small = (length: number, units: LengthUnit): string =>
  length < 1 ? sayLength(length, units) : onTape(length, units);

const degrees = (angle: number): string => `${((angle * 180) / Math.PI).toFixed(0)}°`;

/** How it is put in: `from behind`. */
export function howWords(room: Room, way: Way, units: LengthUnit): string {
  const { bar, part, mirrored } = room;
  const global = (v: Vec3): string => {
    const direction = directionOf(bar.frame, v);
    return fromWords(mirrored ? mirrorY(direction) : direction);
  };
  const brought = way.brought === null ? null : `from ${global(way.brought)}`;
  if (way.kind === 'straight' || way.kind === 'above') return `from ${global(way.from)}`;
  if (way.kind === 'slid')
    return brought === null
      ? `past the ends of its hosts from ${global(way.from)}, ${onTape(way.by, units)} along them`
      : `brought in ${brought}, ${onTape(way.by, units)} off its place toward ${global(way.from)}, and along its hosts home`;
  const [inFirst, swung] = way.first === 0 ? part.ends : [part.ends[1], part.ends[0]];
  return `${endLabel(inFirst)} in first, tilted ${degrees(way.by)}, ${brought === null ? 'lengthwise' : brought}; then ${endName(swung)} home from ${global(way.from)}`;
}

/** Where it is tightest: `at END 2, clock 90°, 12 mm out of its place`. */
export function tightWords({ bar, mirrored }: Room, { tight }: Way, units: LengthUnit): string {
  if (tight === null) return '';
  const places = bar.ends.flatMap(({ end }, i) => {
    const at = tight.at[i] ?? -1;
    // A clock grows the other way in a mirror.
    const clock = clockAt(mirrored ? CLOCKS - (at % CLOCKS) : at % CLOCKS);
    return at < 0 ? [] : [`${endName(end)} at clock ${degrees(clock)}`];
  });
  const where = places.length === 0 ? 'its middle' : places.join(' and ');
  return `tightest: ${where}, ${onTape(tight.out, units)} out of its place`;
}

/** Neighbours in the way, with how far the bar would have to go through them. */
const blockerWords = ({ blockers }: Sought, labelOf: (name: string) => string, units: LengthUnit): string =>
  blockers
    .map(({ name, least }) =>
      least < 0
        ? `${labelOf(name)} stands ${small(-least, units)} in the way`
        : `${labelOf(name)} is passed by only ${small(least, units)}`,
    )
    .join('; ');

/** Least play before the last bit of the way. */
function spareWords({ spare }: Way, units: LengthUnit): string {
  if (spare === Infinity) return '';
  const until = `until the last ${onTape(HOME, units)}`;
  if (spare < TOUCH) return ` It touches on the way, not only in its place: ease it.`;
  const tight = spare < HANDS ? ', less than hands want' : '';
  return ` Least play ${until}: ${small(spare, units)}${tight}.`;
}

/** One cell of the table: goes in or not, by how much, how. */
export function wayWords(
  room: Room,
  sought: Sought | null,
  labelOf: (name: string) => string,
  units: LengthUnit,
): readonly string[] {
  if (sought === null) return ['No: nothing comes out that way.'];
  const { way } = sought;
  const tooLong = tooLongOf(way);
  const how = howWords(room, way, units);
  // Of straight ways from above there is one.
  const least = way.kind === 'above' ? 'It comes' : 'The least of all:';
  // By more than it is thick: it is no tight place, something of them closes the way.
  const across = way.kind === 'above' && tooLong > 2 * room.bar.radius ? 'its hosts lie across that way: ' : '';
  if (tooLong > HANDS)
    return [`No: ${across}${onTape(tooLong, units)} too long.`, `${least} ${how}; ${tightWords(room, way, units)}.`];
  const spring = tooLong > TOUCH ? `Only with ${small(tooLong, units)} left open in all: ` : '';
  if (sought.blockers.length > 0)
    return [`No: ${blockerWords(sought, labelOf, units)}.`, `${spring === '' ? 'Without it: ' : spring}${how}.`];
  if (spring !== '') return [`${spring}${how}; ${tightWords(room, way, units)}.`];
  return [`Goes in: ${how}.${spareWords(way, units)}`];
}

/** The same in a few words, for a list. */
export function shortWords(sought: Sought | null, labelOf: (name: string) => string, units: LengthUnit): string {
  if (sought === null) return 'no';
  const { way, blockers } = sought;
  const tooLong = tooLongOf(way);
  if (tooLong > HANDS) return `no: ${onTape(tooLong, units)} too long`;
  if (blockers.length > 0) return `no: ${blockers.map(({ name }) => labelOf(name)).join(', ')} in the way`;
  if (tooLong > TOUCH) return `with ${small(tooLong, units)} open`;
  return way.spare < HANDS ? 'yes, tight' : 'yes';
}
