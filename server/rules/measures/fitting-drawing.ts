/** `fitting.drawing`: the drawing that a removable joint follows. */
import { fittingExample, fittingUses } from '../fittings';
import { missing, reading } from '../readings';
import type { Rule } from '../rule';

const BASIC = [
  'main-rollbar',
  'front-rollbar',
  'lateral-rollbar',
  'half-lateral',
  'longitudinal',
  'transverse',
  'backstay',
] as const;

export const fittingDrawing: Rule = {
  code: 'fitting.drawing',
  unit: '1',
  slack: 0,
  read: (car) =>
    fittingUses(car).map(({ fitting, member }) => {
      const group = BASIC.some((role) => role === member.tube.role) ? 'basic structure' : 'other member';
      if (fitting.drawing === null)
        return missing(fitting.name, 'the drawing that it follows is not written: drawing "253-38"', { group });
      const params = { fitting: fitting.name, tube: member.name, word: fitting.drawing };
      return reading(fitting.name, 1, '1', params, { fact: 'drawing', group, word: fitting.drawing });
    }),
  mend: () => ({ says: 'use a joint that is drawn for it', params: {} }),
  explanation: {
    what: 'A removable joint follows a drawing that the book does not have, or does not allow for this member.',
    why: 'A joint that has play, or opens, makes of two tubes two levers.',
    measured:
      'The text of `drawing`. Members of the basic structure are hoops, half-laterals, longitudinal and transverse tubes and backstays.',
    mend: 'Use another joint, or weld the tube in.',
    stage: 'hoop',
    bad: `rules fia-253\n${fittingExample('drawing "253-36"')}`,
    good: `rules fia-253\n${fittingExample('drawing "253-38"')}`,
  },
};
