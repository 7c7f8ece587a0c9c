/** Which tube is meant by a name, or by none: only one that carries shoulder straps has a window. */
import { meant, nearestWord } from '../../../grammar/nearest';
import type { Cage, Tube } from '../../cage/cage';
import { strapsOn } from './stage';

/** The tubes that straps lie on, in the order of their names. */
export const bars = (cage: Cage): readonly Tube[] =>
  [...cage.things.values()]
    .filter((thing): thing is Tube => thing.kind === 'tube' && strapsOn(cage, thing).length > 0)
    .sort((a, b) => (a.name < b.name ? -1 : 1));

const listed = (tubes: readonly Tube[]): string => tubes.map(({ name }) => name).join(', ');

/**
 * The tube of that name; without a name the one that carries straps. A name without its side is enough where one side
 * alone carries straps.
 * @returns a string: why no one tube is meant
 */
export function barNamed(cage: Cage, name: string | null): Tube | string {
  const carrying = bars(cage);
  if (name === null) {
    const [only, ...more] = carrying;
    if (only === undefined) return 'no strap lies on any tube that is known';
    return more.length === 0 ? only : `straps lie on more than one tube: say --tube with one of ${listed(carrying)}`;
  }
  const thing = cage.things.get(name);
  if (thing?.kind === 'tube') {
    const others = carrying.length === 0 ? '' : `; straps lie on ${listed(carrying)}`;
    return carrying.includes(thing) ? thing : `no strap lies on ${name}${others}`;
  }
  if (thing !== undefined) return `${name} is a ${thing.kind}, not a tube`;
  const sides = carrying.filter(({ base }) => base === name);
  if (sides.length > 1) return `${name} is there on both sides: say ${sides.map((tube) => tube.name).join(' or ')}`;
  const tubes = [...cage.things.values()].filter((one): one is Tube => one.kind === 'tube');
  const piece = tubes.find((tube) => tube.splitBy !== null && [`${tube.name}.a`, `${tube.name}.b`].includes(name));
  if (piece !== undefined) return `${name} is a piece: its whole tube is ${piece.name}`;
  const near = nearestWord(
    name,
    tubes.map((tube) => tube.name),
  );
  return sides[0] ?? `there is no tube '${name}'${meant(near)}`;
}
