/** Texts made to break a parser: one clear finding, no throw, and work that grows no faster than the text. */
import { describe, expect, it } from 'vitest';
import { cut } from '../../grammar/lines';
import { parseFile } from '../../grammar/parser';
import { tokenize } from '../../grammar/tokens';
import { told } from './reading';

const MANY = 100_000;

describe('nesting', () => {
  it.each([
    ['brackets', `let a = ${'('.repeat(MANY)}1${')'.repeat(MANY)}`],
    ['brackets that stay open', `let a = ${'('.repeat(MANY)}`],
    ['minus signs', `let a = ${'-'.repeat(MANY)}1`],
    ['minus signs with blanks', `let a = ${'- '.repeat(MANY)}1`],
    ['brackets and signs', `let a = ${'(-'.repeat(MANY)}1`],
    ['betweens', `node a = ${'between '.repeat(MANY)}b`],
    ['nears', `node a = ${'on a where z = 1 near '.repeat(MANY)}b`],
  ])('%s without end are one finding', (_, text) => {
    const findings = parseFile('a', text).findings;
    expect(findings.map(({ code }) => code)).toEqual(['syntax.nesting']);
    expect(findings[0]?.params['depth']).toBeGreaterThan(200);
  });

  it('of 200 is read, of 201 is not', () => {
    const nested = (depth: number): string => `let a = ${'('.repeat(depth)}1${')'.repeat(depth)}`;
    expect(told(nested(200))).toEqual([]);
    expect(parseFile('a', nested(201)).findings[0]?.params).toEqual({ depth: 201 });
    const signs = (depth: number): string => `let a = ${'-'.repeat(depth)}1`;
    expect(told(signs(200))).toEqual([]);
    expect(parseFile('a', signs(201)).findings[0]?.params).toEqual({ depth: 201 });
  });

  it('of braces is flattened', () => {
    const depth = (entries: ReturnType<typeof cut>['entries']): number =>
      1 + Math.max(0, ...entries.map((entry) => (entry.entries === null ? 0 : depth(entry.entries))));
    expect(depth(cut('a{'.repeat(MANY)).entries)).toBeLessThan(203);
    expect(parseFile('a', 'a{'.repeat(MANY)).findings.length).toBe(1);
  });

  it('of a long sum is told, since a tree that deep could not be walked', () => {
    expect(told(`let a = 1${' + 1'.repeat(1000)}`)).toEqual([]);
    expect(parseFile('a', `let a = 1${' + 1'.repeat(MANY)}`).findings.map(({ code }) => code)).toEqual([
      'number.range',
    ]);
  });
});

describe('a megabyte on one line', () => {
  const MEGABYTE = 1_000_000;
  it.each([
    'a',
    '1',
    '1 ',
    '1+',
    '-',
    '(',
    '"',
    '\\',
    '#',
    ',',
    ';',
    '.',
    'a.',
    'a-',
    '->',
    '{',
    '}',
    '\u0000',
    '\r',
    '😀',
    'e\u0301',
    '1x',
    'a{',
    '(;',
  ])('of %j throws nothing', (piece) => {
    const text = `cage ${piece.repeat(MEGABYTE / 4 / piece.length)}`;
    const tree = parseFile('a', text);
    expect(tree.findings.length).toBeLessThanOrEqual(1);
  });
});

/** Counts how often a text's characters are looked at: a proxy for time that no other program on the machine can disturb. */
class Counted extends String {
  reads = 0;
  override charCodeAt(index: number): number {
    this.reads++;
    return super.charCodeAt(index);
  }
}

describe('work grows with the text and no faster', () => {
  const reads = (text: string): number => {
    const counted = new Counted(text);
    cut(counted as unknown as string);
    return counted.reads;
  };
  it.each([
    ['statements', 'node a = (1, 2, 3)\n'],
    ['blocks', 'tube a { section b; path c, d }\n'],
    ['blocks that stay open', 'tube a {\n section b\n'],
    ['lists', 'path a,\n'],
    ['empty lines behind commas', 'a,\n\n\n'],
    ['statements on one line', 'a;'],
    ['mirrors that stay open', 'mirror left {\n a\n'],
    ['braces', '{}'],
    ['missing braces', 'tube a\n section b\n'],
  ])('cutting %s', (_, piece) => {
    const once = reads(piece.repeat(200));
    const tenfold = reads(piece.repeat(2000));
    expect(tenfold / once).toBeLessThan(11);
  });

  it('cutting the statements of an open mirror on one line', () => {
    const text = (count: number): string => `mirror left {${'a;'.repeat(count)}`;
    expect(reads(text(20_000)) / reads(text(2_000))).toBeLessThan(11);
  });

  it('lexing: tokens and trivia', () => {
    const count = (text: string): number => {
      const { tokens, trivia } = tokenize(text);
      return tokens.length + trivia.length;
    };
    const piece = 'node a = on b where z = 1 3/4 in # c\n';
    expect(count(piece.repeat(1000))).toBe(10 * count(piece.repeat(100)));
  });
});
