/** Edits of whole lines: whatever the two texts are, the edits make the second of the first. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineEdits } from '../../server/lsp/line-edits';

const apply = (before: readonly string[], after: readonly string[]): string[] => {
  const out: string[] = [];
  let at = 0;
  for (const { from, to, lines } of lineEdits(before, after)) {
    expect(from).toBeGreaterThanOrEqual(at);
    out.push(...before.slice(at, from), ...lines);
    at = to;
  }
  return [...out, ...before.slice(at)];
};

describe('line edits', () => {
  it('make the new text of the old', () => {
    const text = fc.array(fc.constantFrom('a', 'b', 'c', 'd'), { maxLength: 12 });
    fc.assert(
      fc.property(text, text, (before, after) => {
        expect(apply(before, after)).toEqual(after);
      }),
    );
  });

  it('leave alone what stays', () => {
    expect(lineEdits(['a', 'b', 'c'], ['a', 'B', 'c'])).toEqual([{ from: 1, to: 2, lines: ['B'] }]);
    expect(lineEdits(['a', 'c'], ['a', 'b', 'c'])).toEqual([{ from: 1, to: 1, lines: ['b'] }]);
    expect(lineEdits(['a'], ['a'])).toEqual([]);
  });
});
