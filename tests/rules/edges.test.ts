/**
 * Every rule on both sides of its limit, and with its fact missing. The limits themselves are compared with the fact
 * sheets in the tests of the books; where the text gives a figure in closed form it stands beside it.
 */
import { describe, expect, it } from 'vitest';
import type { PlacedFinding } from '../../grammar/finding';
import { RULE_CODES } from '../../grammar/codes';
import { STAGES } from '../../grammar/explanations';
import { RULES } from '../../server/rules/rules';
import { analyse, told } from '../support/analyse';
import { EDGES as COMMON, type Edge } from './edge-cars';
import { FIA_EDGES } from './edge-cars-fia';
import { FIA_OUTFIT_EDGES } from './edge-cars-fia-outfit';
import { NA_EDGES } from './edge-cars-na';
import { SHOP_EDGES } from './edge-cars-shop';

const EDGES: readonly Edge[] = [...COMMON, ...FIA_EDGES, ...FIA_OUTFIT_EDGES, ...NA_EDGES, ...SHOP_EDGES];

/** Rules about straps and seats that have tests of their own, against closed forms: straps.test.ts. */
const ELSEWHERE = ['strap.drop', 'strap.spread', 'strap.skew', 'strap.free-run', 'strap.length', 'seat.gap'];

const findingsOf = async (edge: Edge, text: string, book = edge.book): Promise<readonly PlacedFinding[]> =>
  (
    await analyse(
      `${STAGES[edge.stage ?? 'hoop']}rules ${[book, ...(edge.also === undefined ? [] : [edge.also])].join(', ')}\n${text}\n`,
    )
  ).findings;

describe('there is an edge for every rule', () => {
  it('and a rule for every code', () => {
    expect(RULES.map(({ code }) => code).sort()).toEqual(Object.keys(RULE_CODES).sort());
    expect([...EDGES.map(({ code }) => code as string), ...ELSEWHERE].sort()).toEqual(Object.keys(RULE_CODES).sort());
  });
});

describe.each(EDGES.map((edge) => [edge.code, edge] as const))('%s', (code, edge) => {
  it('is silent just inside the limit', async () => {
    const findings = await findingsOf(edge, edge.inside);
    expect(told(findings.filter((f) => f.code === code))).toEqual([]);
    expect(told(findings.filter((f) => /^(syntax|name|fact|unit|place|statement)\b/.test(f.code)))).toEqual([]);
  });

  it('is told just outside', async () => {
    const all = await findingsOf(edge, edge.outside);
    const findings = all.filter((f) => f.code === code);
    expect(told(findings), told(all).join('\n')).not.toEqual([]);
    for (const { measured, allowed, message, rule, severity } of findings) {
      expect(rule?.book).toBe(edge.book);
      expect(message).not.toMatch(/undefined|null|NaN|\{\w+\}/);
      if (rule?.source === 'from memory') {
        expect(severity).not.toBe('error');
        expect(message).toContain('from memory');
      }
      const bound = [allowed?.from, allowed?.to].filter((one): one is number => typeof one === 'number');
      if (bound.length === 0 || measured === undefined) continue;
      expect(Math.min(...bound.map((one) => Math.abs(one - measured.value))), message).toBeLessThanOrEqual(edge.within);
    }
  });

  const { missing } = edge;
  if (missing === null) return;
  it('is told to be out of judgement where a fact is missing', async () => {
    const [text, words] = missing;
    const books = words.source === 'homologation' ? 'fia-253' : code === 'tube.size' ? 'scca-gcr' : edge.book;
    const all = await findingsOf(edge, text, books);
    const unknown = all.filter(
      (f) => f.code === 'rule.cannot-judge' && new RegExp(`[ ,]${code.replaceAll('.', '\\.')}[ ,]`).test(f.message),
    );
    expect(told(unknown).join('\n'), told(all).join('\n')).toMatch(words);
    expect(unknown.every((f) => f.severity === 'information')).toBe(true);
  });
});
