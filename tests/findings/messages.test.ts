/** What a message says, where it once said it oddly: the words of a person at a bench, the cause told once, what mends it. */
import { describe, expect, it } from 'vitest';
import { STAGES } from '../../grammar/explanations';
import { analyse } from '../support/analyse';

const messages = async (text: string, code: string, stage: keyof typeof STAGES = 'hoop'): Promise<readonly string[]> =>
  (await analyse(`${STAGES[stage]}${text}\n`)).findings.filter((f) => f.code === code).map((f) => f.message);

describe('values', () => {
  it('a tube that is told to be cut to itself hears of the fact that says so', async () => {
    const tube = (fact: string): string =>
      `node a = (0, 0, 0)\nnode b = (500, 0, 0)\ntube t { section t38; path a, b; ${fact}; first open }`;
    expect(await messages(tube('last onto t'), 'fact.value', 'parts')).toEqual([
      "'last' wants another tube than this one.",
    ]);
    expect(await messages(tube('last open; split by t'), 'fact.value', 'parts')).toEqual([
      "'split' wants another tube than this one.",
    ]);
  });

  it('brackets that are no place are told as brackets', async () => {
    const [said] = await messages('node n = (5, 0)', 'fact.value', 'parts');
    expect(said).toMatch(/^'\(…\)' wants three coordinates/);
  });
});
