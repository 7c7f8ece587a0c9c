/** `bend.thinning`: the wall that is left outside in a bend, against the least wall that the chosen books ask for. */
import { figure } from '../../geometry/tell';
import type { Tube } from '../../cage/cage';
import type { Car, Member } from '../car';
import { booksOf } from '../library';
import { reading } from '../readings';
import type { Book, Reading, Rule } from '../rule';
import { accepts } from '../sizes';
import { rowsOf } from './tube-size';

/**
 * Share of the wall that the outside of a bend loses: (Ro - R) / Ro with Ro = R + od / 2, for a centreline radius R. A
 * rule of thumb of a maker of rotary-draw tooling.
 */
export const thinning = (od: number, radius: number): number => od / 2 / (radius + od / 2);

/** The least wall that a chosen book asks of this tube, among the sizes that accept it; null: none does. */
function asked(car: Car, books: readonly Book[], tube: Tube): { readonly wall: number; readonly book: string } | null {
  const { section } = tube;
  if (section === null) return null;
  let most: { readonly wall: number; readonly book: string } | null = null;
  for (const { name, limits } of books) {
    for (const { sizes, of, notOf } of limits) {
      if (sizes === undefined || (of !== undefined && !of.includes(tube.role)) || notOf?.includes(tube.role) === true)
        continue;
      const walls = rowsOf(sizes, section, car)
        .flatMap(({ pairs }) => pairs)
        .filter((pair) => accepts(pair, section, sizes.wallLess))
        .map((pair) => pair.wall - sizes.wallLess);
      if (walls.length === 0) continue;
      const wall = Math.min(...walls);
      if (most === null || wall > most.wall) most = { wall, book: name };
    }
  }
  return most;
}

const bentOf = (car: Car): readonly Member[] => car.members().filter(({ bends }) => bends > 0);

/** Of all bent tubes the one whose bend is the farthest under what is asked: one is told for the whole car. */
function worst(car: Car): readonly Reading[] {
  let found: { readonly member: Member; readonly left: number; readonly wall: number; readonly book: string } | null =
    null;
  const seen = new Set<string>();
  const books = booksOf(car.cage);
  for (const member of car.keep(bentOf)) {
    const { section, die, role } = member.tube;
    // A die under three diameters has a finding of its own.
    if (section === null || die === null || die.radius < 3 * section.od - 0.5) continue;
    // Tubes of one size, die and role are all alike.
    const kind = `${section.name} ${die.name} ${role}`;
    if (seen.has(kind)) continue;
    seen.add(kind);
    const least = asked(car, books, member.tube);
    if (least === null) continue;
    const left = section.wall * (1 - thinning(section.od, die.radius));
    if (found === null || left / least.wall < found.left / found.wall) found = { member, left, ...least };
  }
  if (found === null) return [];
  const { member, left, wall, book } = found;
  const params = { tube: member.name, wall: figure(member.tube.section?.wall ?? 0, 'mm'), other: book };
  return [reading(member.name, left, 'mm', params, { fact: 'die', limit: { from: wall, to: null } })];
}

const hoop = (wall: string): string =>
  `rules nhra, shop
vehicle { mass 900 kg with driver }
material seamless { yield 360 MPa; tensile 490 MPa; kind cold-drawn-seamless }
section probe { od 45; wall ${wall}; material seamless }
mirror left {
  node low = (300, 400, 0)
  node top = (300, 350, 900)
}
tube arch as main-rollbar { section probe; die d45; path low.left, top.left, top.right, low.right; first open; last open }`;

export const bendThinning: Rule = {
  code: 'bend.thinning',
  unit: 'mm',
  slack: 0.01,
  read: worst,
  mend: () => ({
    says: 'let the wall be measured on the straight, or go one gauge heavier',
    ask: ', less than the {limit} that {other} asks for',
    params: {},
  }),
  explanation: {
    what: 'The wall of a bent tube gets thinner outside in the bend than the least wall that a chosen book asks for.',
    why: 'A gauge that is set on the bend reads less than the book asks, though the tube is in order: a scrutineer may refuse it.',
    measured:
      'Wall x (1 - t) with t = (od / 2) / (radius + od / 2): a rule of thumb of toolmakers. Three diameters give 14.3 % for any size: .120 in leaves .103, .095 leaves .081. Of all tubes the farthest one under is told. Dies of less than three diameters have a finding of their own.',
    mend: 'Measure the wall on the straight; or choose the next thicker wall.',
    stage: 'parts',
    bad: hoop('3'),
    good: hoop('3.6'),
  },
};
