/** Explanations: what the dealer sells and what lies in the rack. */
import { AS_WRITTEN, LANGUAGE, type Explanation } from './explanation';

export const STOCK = {
  'stock.twice': {
    what: 'What can be had of one section is told by two statements.',
    why: 'Two lists that differ would give two buying lists; the tool does not choose between them.',
    measured: AS_WRITTEN,
    source: LANGUAGE,
    mend: 'Put all lengths and offcuts of the section into one statement: length may be written several times in it.',
    stage: 'parts',
    bad: 'stock t38 { length 6000 }\nstock t38 { have 1450 }',
    good: 'stock t38 { length 6000; have 1450 }',
  },
  'stock.length-twice': {
    what: 'The same length of a section is sold twice.',
    why: 'With two prices for the same stick nobody knows which one is paid.',
    measured: AS_WRITTEN,
    source: LANGUAGE,
    mend: 'Leave out the one that is not bought.',
    stage: 'parts',
    bad: 'stock t38 { length 6000 price 84; length 6 m price 79 }',
    good: 'stock t38 { length 6000 price 79 }',
  },
  'stock.price': {
    what: 'A price stands alone, and there are several lengths, or the one length has a price of its own.',
    why: 'The cheapest sticks are looked for by their prices: each length needs the one that is meant for it.',
    measured: AS_WRITTEN,
    source: LANGUAGE,
    mend: 'Write each price beside its length.',
    stage: 'parts',
    bad: 'stock t38 { length 6000; length 3000; price 84 }',
    good: 'stock t38 { length 6000 price 84; length 3000 price 45 }',
  },
} as const satisfies Record<string, Explanation>;
