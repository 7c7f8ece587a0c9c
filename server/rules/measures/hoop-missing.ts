/** `hoop.missing`: a book about cages needs a main hoop, or two full hoops along the sides. */
import { reading } from '../readings';
import type { Rule } from '../rule';

export const hoopMissing: Rule = {
  code: 'hoop.missing',
  unit: '1',
  slack: 0,
  read: (car) => {
    const chief = car.chief();
    if (chief === null) return [];
    const hoops = car.tubesOf('main-rollbar').length + (car.tubesOf('lateral-rollbar').length >= 2 ? 1 : 0);
    return [reading(chief.name, hoops, '1', {})];
  },
  mend: () => ({
    says: 'give the hoop behind the seats its role: tube NAME as main-rollbar',
    ask: ', {book} wants one',
    params: {},
  }),
  explanation: {
    what: 'No tube has the role of a main hoop, so that nothing that hangs on one can be judged.',
    why: 'Everything else is fixed to the main hoop: it carries the car on its roof.',
    measured: 'The number of tubes `as main-rollbar`; two of `as lateral-rollbar` stand for one.',
    mend: 'Write the role of the hoop behind the front seats.',
    stage: 'parts',
    bad: 'rules fia-253\nnode a = (0, 600, 0)\nnode b = (0, 550, 1000)\nnode c = (0, -550, 1000)\nnode d = (0, -600, 0)\ntube hoop { section t45; die d45; path a, b, c, d; first open; last open }',
    good: 'rules fia-253\nnode a = (0, 600, 0)\nnode b = (0, 550, 1000)\nnode c = (0, -550, 1000)\nnode d = (0, -600, 0)\ntube hoop as main-rollbar { section t45; die d45; path a, b, c, d; first open; last open }',
  },
};
