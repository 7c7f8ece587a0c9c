/** `bend.difficulty`: what a bend asks of the bender, by the figure that toolmakers use. */
import { degrees } from '../../../grammar/units';
import { figure } from '../../geometry/tell';
import type { Member } from '../car';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';

/** For a plain die and a steady hand; toolmakers give about 2. */
const SET_UP = 2;

/**
 * (2 K + 0.2 od / wall + angle / 180) / (radius / od), angle in degrees: a maker of rotary-draw tooling. Bends of up
 * to 7 are easy without a mandrel or a wiper.
 */
export const difficulty = (
  { od, wall }: { readonly od: number; readonly wall: number },
  radius: number,
  angle: number,
): number => (2 * SET_UP + (0.2 * od) / wall + angle / 180) / (radius / od);

/** The widest bend of a tube, with the die and the size. */
function hardestOf({ tube, name, line }: Member): { readonly key: string; readonly item: Reading } | null {
  if (tube.die === null || tube.section === null) return null;
  const { die, section } = tube;
  const angles = line.pieces.flatMap((piece) => (piece.kind === 'arc' ? [piece.angle] : []));
  if (angles.length === 0) return null;
  const most = Math.max(...angles);
  const value = difficulty(section, die.radius, degrees(most));
  const params = { tube: name, die: die.name, angle: figure(most, 'deg') };
  return { key: `${die.name} ${section.name}`, item: reading(name, value, '1', params, { fact: 'die' }) };
}

const bent = (wall: string): string =>
  `die small { od 38; radius 60 }\nsection probe { od 38; wall ${wall} }\nnode a = (0, 0, 0)\nnode b = (0, 0, 600)\nnode c = (600, 0, 600)\ntube t { section probe; die small; path a, b, c; first open; last open }`;

export const bendDifficulty: Rule = {
  code: 'bend.difficulty',
  unit: '1',
  slack: 0.005,
  read: (car) => {
    // One for each die and size: the widest bend of it.
    const worst = new Map<string, Reading>();
    for (const member of car.members()) {
      const hardest = car.ask(hardestOf, member);
      if (hardest === null) continue;
      const { key, item } = hardest;
      if (item.measured.value > (worst.get(key)?.measured.value ?? -Infinity)) worst.set(key, item);
    }
    return [...worst.values()];
  },
  mend: () => ({ says: 'a larger die or a thicker wall makes it easy; else ask for a mandrel', params: {} }),
  explanation: {
    what: 'A bend needs a mandrel or another special set-up.',
    why: 'Bent over a plain die the tube flattens and ripples inside.',
    measured:
      "The toolmakers' figure: (2 K + 0.2 x od / wall + angle / 180) / (radius / od), with K = 2 for a plain set-up and the tube's widest bend. Up to 7 is easy.",
    mend: 'Use a larger die, a thicker wall, or a bender with a mandrel.',
    stage: 'parts',
    bad: bent('1'),
    good: bent('2.5'),
  },
};
