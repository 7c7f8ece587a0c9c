/** What holds for every text: nothing throws, nothing is lost, a mistake stays where it is. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../grammar/finding';
import { formatFile } from '../../grammar/format';
import { parseFile, StatementCache } from '../../grammar/parser';
import { readEntry } from '../../grammar/read';
import { Semicolon, tokenize } from '../../grammar/tokens';
import type { Entry, FileTree } from '../../grammar/tree';
import { anyText, damaged, HARDWARE, STRUCTURE } from './samples';

const RUNS = { numRuns: 300 };

const spanOf = (finding: Finding): { start: number; end: number } =>
  finding.at.kind === 'place' ? finding.at.place.span : { start: NaN, end: NaN };

describe('any text', () => {
  it('is given back by its tokens and trivia', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const { tokens, trivia } = tokenize(text);
        const pieces = [...tokens, ...trivia].sort((a, b) => a.startOffset - b.startOffset);
        expect(pieces.map((piece) => piece.image).join('')).toBe(text);
        let at = 0;
        for (const piece of pieces) {
          expect(piece.startOffset).toBe(at);
          at += piece.image.length;
        }
      }),
      RUNS,
    );
  });

  it('is parsed and held against the vocabulary without throwing, every finding inside the text', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const tree = parseFile('a.cage', text);
        for (const { tree: statement, offset } of tree.statements) {
          expect(text.slice(offset, offset + statement.text.length)).toBe(statement.text);
          for (const finding of readEntry(statement.entry, false).findings) {
            const { start, end } = spanOf(finding);
            expect(start).toBeGreaterThanOrEqual(0);
            expect(end).toBeGreaterThanOrEqual(start);
            expect(end).toBeLessThanOrEqual(statement.text.length);
          }
        }
        for (const finding of tree.findings) {
          const { start, end } = spanOf(finding);
          expect(start).toBeGreaterThanOrEqual(0);
          expect(end).toBeGreaterThanOrEqual(start);
          expect(end).toBeLessThanOrEqual(text.length);
        }
      }),
      RUNS,
    );
  });

  it('has at most one finding of the parser a line', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const lines = parseFile('a.cage', text).findings.map(
          (one) => text.slice(0, spanOf(one).start).split('\n').length,
        );
        expect(new Set(lines).size).toBe(lines.length);
      }),
      RUNS,
    );
  });

  it('has a finding for each line that did not parse', () => {
    const broken = (entry: Entry): number =>
      (entry.line.ok ? 0 : 1) + (entry.block?.entries ?? []).reduce((sum, inner) => sum + broken(inner), 0);
    fc.assert(
      fc.property(anyText, (text) => {
        for (const { tree } of parseFile('a.cage', text).statements)
          expect(tree.findings.length).toBe(broken(tree.entry));
      }),
      RUNS,
    );
  });

  it('keeps every token and comment when it is laid out, and stays as it is the second time', () => {
    const kept = (text: string): readonly string[] => {
      const { tokens, trivia } = tokenize(text);
      const comments = trivia
        .filter((piece) => piece.tokenType.name === 'Comment')
        .map((piece) => piece.image.trimEnd());
      return [...tokens.filter((token) => token.tokenType !== Semicolon).map((token) => token.image), ...comments];
    };
    fc.assert(
      fc.property(anyText, (text) => {
        const laid = formatFile(text);
        expect(kept(laid)).toEqual(kept(text));
        expect(formatFile(laid)).toBe(laid);
      }),
      RUNS,
    );
  });

  it('says the same before and after it is laid out', () => {
    fc.assert(
      fc.property(damaged, (text) => {
        const codes = (source: string): readonly string[] =>
          parseFile('a.cage', source).findings.map((one) => one.code);
        // Two statements that shared a line each have their own finding once they stand apart.
        expect(codes(formatFile(text))).toEqual(expect.arrayContaining([...new Set(codes(text))]));
      }),
      RUNS,
    );
  });

  it('parses the same with a cache that has seen other texts', () => {
    fc.assert(
      fc.property(fc.array(damaged, { minLength: 2, maxLength: 4 }), (texts) => {
        const cache = new StatementCache();
        for (const text of texts) expect(parseFile('a.cage', text, cache)).toEqual(parseFile('a.cage', text));
      }),
      { numRuns: 60 },
    );
  });
});

/** The lines of a tree as they were read, without places. */
function linesOf(tree: FileTree): Map<number, string> {
  const lines = new Map<number, string>();
  const walk = (entry: Entry, offset: number): void => {
    const bare = JSON.stringify(
      [entry.line.word.text, entry.line.target?.text, entry.line.ok, entry.line.groups],
      (key, value: unknown) => (key.toLowerCase().endsWith('span') ? undefined : value),
    );
    lines.set(offset + entry.line.span.start, bare);
    for (const inner of entry.block?.entries ?? []) walk(inner, offset);
  };
  for (const { offset, tree: statement } of tree.statements) walk(statement.entry, offset);
  return lines;
}

describe.each([
  ['structure', STRUCTURE],
  ['hardware', HARDWARE],
])('cutting a line of %s short', (_, text) => {
  const sound = linesOf(parseFile('a.cage', text));

  it('starts from a text without a fault', () => {
    const tree = parseFile('a.cage', text);
    expect(tree.findings).toEqual([]);
    expect(tree.statements.flatMap(({ tree: one }) => readEntry(one.entry, false).findings)).toEqual([]);
  });

  it('damages no other line', () => {
    // Every logical line of the text, cut at every place.
    const starts = [...sound.keys()].sort((a, b) => a - b);
    const damage: string[] = [];
    for (const start of starts) {
      const newline = text.indexOf('\n', start);
      for (let at = start + 1; at < newline; at++) {
        const gone = newline - at;
        const now = linesOf(parseFile('a.cage', text.slice(0, at) + text.slice(newline)));
        for (const [where, line] of sound) {
          // What stands behind it on the same line of the text is cut off with it.
          if (where >= start && where <= newline) continue;
          if (now.get(where > newline ? where - gone : where) !== line) damage.push(`cut at ${at}: ${line}`);
        }
      }
    }
    expect(damage).toEqual([]);
  });
});
