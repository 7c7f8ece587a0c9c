/** `tube.measured-wall`: what a wall may measure, where a book's wall is a measured floor and not a nominal size. */
import type { Section } from '../../cage/cage';
import { figure } from '../../geometry/tell';
import { missing, reading } from '../readings';
import type { Decision, Item, Limit, Reading, Rule } from '../rule';
import { processOf } from '../steel';

/**
 * How far mills may be under the nominal wall, mm: resistance-welded tube by a tenth (a supplier's table for square
 * tube, taken over); seamless by an eighth, or by a tenth where the wall is 15 % of the diameter or more (a supplier's
 * table; ASTM A519); drawn over a mandrel by 0.15 mm near 1 1/2 to 1 3/4 in (from memory). Null: not known.
 */
function under({ od, wall, material }: Section): number | null {
  const process = processOf(material);
  if (process === null) return null;
  if (process === 'drawn over mandrel') return 0.15;
  if (process === 'resistance welded') return 0.1 * wall;
  return wall < 0.15 * od ? 0.125 * wall : 0.1 * wall;
}

const GROUPS = ['mild', '4130'] as const;
const shown = (wall: string): string =>
  `material m { yield 480 MPa; kind dom }\nsection s { size 1.75 x ${wall} in; material m }\nmirror left { node low = (-300, 500, 0); node top = (-300, 450, 900) }\ndie d { od 1.75 in; radius 6 in }\ntube arch as main-rollbar { section s; die d; path low.left, top.left, top.right, low.right; first open; last open }`;

/** A wall that is nominally under the floor already is told by tube.size. */
function decide({ allowed: { from } }: Limit, { measured, params }: Reading): Decision {
  const { nominal } = params;
  const written = typeof nominal === 'object' && nominal !== null && 'value' in nominal ? nominal.value : Infinity;
  if (from === null || measured.value >= from - SLACK || written < from - SLACK) return { kind: 'met' };
  return { kind: 'broken', measured, from, to: null, low: true };
}

const SLACK = 0.006;

export const tubeMeasuredWall: Rule = {
  code: 'tube.measured-wall',
  unit: 'mm',
  slack: SLACK,
  decide,
  groups: GROUPS,
  read: (car) =>
    car.of('main-rollbar').flatMap(({ name, tube }): readonly Item[] => {
      const { section } = tube;
      if (section === null) return [];
      const process = processOf(section.material);
      const less = under(section);
      const group = process === '4130 alloy' ? '4130' : 'mild';
      if (less === null)
        return [
          missing(
            name,
            `how the tube of section ${section.name} is made is not written, and its tolerance hangs on it: kind dom`,
            {
              fact: 'section',
              group,
            },
          ),
        ];
      const params = {
        tube: name,
        nominal: figure(section.wall, 'mm'),
        process: process === 'drawn over mandrel' ? 'drawn over mandrel (tolerance from memory)' : (process ?? ''),
      };
      return [reading(name, section.wall - less, 'mm', params, { fact: 'section', group })];
    }),
  mend: () => ({
    says: 'measure it before it is bent, or take the next heavier wall (.134 in for .120, .095 in for .083)',
    ask: ', {book} measures at least {limit}',
    params: {},
  }),
  explanation: {
    what: 'A tube of this nominal wall may measure less than the book wants.',
    why: 'The inspector puts a gauge on the tube: a nominal .120 in has been seen to read under .118, and the car went home.',
    measured:
      'The nominal wall less what the mill may be under it: a tenth for resistance-welded tube, an eighth for seamless (a tenth where the wall is 15 % of the diameter or more), 0.15 mm for tube drawn over a mandrel, which is from memory. It is a chance, not a fault; a wall that is nominally too thin is told by tube.size.',
    mend: 'Measure the tube before it is bent, or take the next heavier wall.',
    stage: 'parts',
    bad: `rules nhra\n${shown('.120')}`,
    good: `rules nhra\n${shown('.134')}`,
  },
};
