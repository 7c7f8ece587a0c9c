/** Every row of the fact sheets is a rule or says why not; the page is fresh; the README prints the counts. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { CODES } from '../../grammar/codes';
import { BOOKS } from '../../server/rules/books';
import { BUILT, REASONS } from '../../server/rules/coverage/reasons';
import { booksTable, coverage, coveragePage } from '../../server/rules/coverage/table';

const ROOT = path.resolve(__dirname, '../..');

describe('coverage', () => {
  const rows = coverage();

  it('says of every row which rule it is, or why it is none, and never both', () => {
    expect(rows.filter(({ rules, reason }) => rules.length === 0 && reason === null).map(({ id }) => id)).toEqual([]);
    expect(rows.filter(({ rules, reason }) => rules.length > 0 && reason !== null).map(({ id }) => id)).toEqual([]);
  });

  it('names only rows and codes that there are, each once', () => {
    const ids = rows.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    const cited = BOOKS.flatMap((book) => book.limits.flatMap((limit) => limit.rows));
    expect(cited.filter((row) => !ids.includes(row))).toEqual([]);
    expect([...REASONS.keys()].filter((row) => !ids.includes(row))).toEqual([]);
    expect(BUILT.filter((code) => !Object.hasOwn(CODES, code))).toEqual([]);
  });

  it('stands fresh on its page', () => {
    expect(readFileSync(path.join(ROOT, 'server/rules/coverage/coverage.md'), 'utf8')).toBe(coveragePage());
  });

  it('is counted in the README', () => {
    expect(readFileSync(path.join(ROOT, 'README.md'), 'utf8')).toContain(booksTable().join('\n'));
  });
});

describe('books', () => {
  const limits = BOOKS.flatMap((book) => book.limits.map((limit) => ({ book, limit })));

  it.each(BOOKS.map((book) => [book.name, book] as const))('%s says where each limit is written', (_, book) => {
    for (const { citation, source, edition, rows } of book.limits) {
      expect(citation.length).toBeGreaterThan(5);
      expect(source === 'from memory' ? edition : '').toBe('');
      expect(source !== 'common practice' && rows.length === 0).toBe(false);
    }
  });

  it('make no error of what is known from memory or is common practice', () => {
    const wrong = limits.filter(({ limit }) => limit.source !== 'published' && limit.severity === 'error');
    expect(wrong.map(({ book, limit }) => `${book.name} ${limit.code}`)).toEqual([]);
  });
});
