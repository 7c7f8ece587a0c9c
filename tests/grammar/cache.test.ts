/** Statements are kept by their text: an edit parses what it touches and nothing else. */
import { describe, expect, it } from 'vitest';
import { parseFile, StatementCache } from '../../grammar/parser';
import { StatementReader } from '../../grammar/read';
import { EVERYTHING } from './samples';

const after = (edit: (text: string) => string) => {
  const cache = new StatementCache();
  const before = parseFile('a', EVERYTHING, cache);
  cache.takeRuns();
  const text = edit(EVERYTHING);
  const tree = parseFile('a', text, cache);
  return { before, tree, parsed: cache.takeRuns(), fresh: parseFile('a', text) };
};

describe('the cache of statements', () => {
  it('parses one statement after one edit, and keeps the others as the same objects', () => {
    const { before, tree, parsed, fresh } = after((text) => text.replace('radius 135', 'radius 140'));
    expect(parsed).toBe(1);
    expect(tree).toEqual(fresh);
    const same = tree.statements.filter((placed, i) => placed === before.statements[i]);
    expect(same.length).toBe(tree.statements.length - 1);
  });

  it.each([
    ['a comment is put in', (text: string) => `# first\n${text}`],
    ['an empty line is put in', (text: string) => text.replace('plane hoop', '\n\nplane hoop')],
    ['a comment is written', (text: string) => text.replace('# a comment', '# another comment')],
    ['statements change places', (text: string) => text.replace(/(section hoop.*\n)(section club.*\n)/, '$2$1')],
  ])('parses nothing where %s', (_, edit) => {
    const { tree, parsed, fresh, before } = after(edit);
    expect(parsed).toBe(0);
    expect(tree).toEqual(fresh);
    expect(new Set(tree.statements.map((placed) => placed.tree))).toEqual(
      new Set(before.statements.map((placed) => placed.tree)),
    );
  });

  it.each([
    ['a list goes on', 'rules a\nunits mm', 'rules a,\nunits'],
    ['a brace follows a line', 'tube a\nunits mm', 'tube a\n{\nunits mm'],
    ['a brace turns out to be missing', 'tube a\nsection b', 'tube a\n  section b'],
    ['a name grows', 'units m\nuse "a"', 'units mm\nuse "a"'],
    ['a block is opened above', 'units mm\nuse "a"', 'tube b {\nunits mm\nuse "a"'],
    ['a block is closed', 'mirror left {\nnode a = b\nuse "c"', 'mirror left {\nnode a = b\n}\nuse "c"'],
  ])('is not taken in where %s', (_, first, second) => {
    const cache = new StatementCache();
    for (const text of [first, second, first, second])
      expect(parseFile('a', text, cache)).toEqual(parseFile('a', text));
  });

  it('reads a kept statement once', () => {
    const { tree } = after((text) => `\n${text}`);
    const reader = new StatementReader();
    for (const placed of tree.statements) expect(reader.read(placed.tree)).toBe(reader.read(placed.tree));
  });

  it('forgets what has not been in the file for long', () => {
    const cache = new StatementCache();
    const text = (value: number): string => `let a = ${String(value)}`;
    parseFile('a', text(-1), cache);
    for (let i = 0; i < 1000; i++) parseFile('a', text(i), cache);
    expect(cache.take('a').byText.size).toBeLessThan(100);
    for (let i = 0; i < 1000; i++) parseFile(`file-${String(i)}`, text(i), cache);
    expect(cache.take('a').byText.size).toBe(0);
  });
});
