/**
 * `strap.spacing-formula`: Y = Z - X / 2, with Z the straps' spacing at the shoulders, X the reach from there to the bar,
 * Y the spacing on the bar (a harness maker's checklist; the converging lines are 14.0 degrees a side: atan 1/4).
 */
import { figure } from '../../geometry/tell';
import { belts } from '../examples';
import { eachOne } from '../each';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';
import { NO_SHOULDER, strapPairs } from '../shoulders';
import { reachOf } from './strap-shoulder-reach';

/** Spacing on the bar for straps `z` apart at the shoulders that reach `x` back; below 0 the straps cross. */
export const spacingAsked = (z: number, x: number): number => z - x / 2;

export const strapSpacingFormula: Rule = {
  code: 'strap.spacing-formula',
  unit: 'mm',
  slack: 1e-6,
  read: eachOne(strapPairs, ({ seat, left, right, spacing }) => {
    const [a, b] = [reachOf(left), reachOf(right)];
    if (a === null || b === null || left.shoulder === null || right.shoulder === null)
      return missing(seat.name, NO_SHOULDER);
    const reach = (a + b) / 2;
    const formula = spacingAsked(Math.abs(left.shoulder[1] - right.shoulder[1]), reach);
    // Below nothing the formula is for straps that cross.
    const asked = Math.max(0, left.figures.crossed ? -formula : formula);
    const off = spacing - asked;
    const params = {
      seat: seat.name,
      tube: left.figures.tube ?? '',
      spacing: figure(spacing, 'mm'),
      off: off < 0 ? 'closer' : 'wider',
      asked: figure(asked, 'mm'),
      reach: figure(reach, 'mm'),
    };
    return reading(seat.name, Math.abs(off), 'mm', params);
  }),
  mend: (item, target) => ({
    says: `move each {by~} ${item.params['off'] === 'closer' ? 'away from' : 'toward'} the other`,
    ask: ', by the formula of {book}',
    params: { by: figure((item.measured.value - target) / 2, 'mm') },
  }),
  explanation: {
    what: "The straps' spacing on the bar is not the one that goes with their reach.",
    why: 'Straps that converge evenly lie flat on the shoulders and stay there.',
    measured:
      "The spacing on the bar against the spacing of the shoulders less half the reach from the shoulder to the bar. The checklist names no tolerance; 25 mm either way is not told. Shoulders are as far apart as the seat's slots. Where the formula comes below nothing, straps that cross lie as far apart, each on the other's side.",
    mend: 'Move the straps along the bar with `at y = …`.',
    stage: 'hoop',
    bad: `rules harness-makers\n${belts('(90, 300, 735)', 'at y = 410; ', 'at y = 190; ')}`,
    good: `rules harness-makers\n${belts('(90, 300, 735)', 'at y = 358; ', 'at y = 242; ')}`,
  },
};
