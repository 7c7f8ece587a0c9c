/** What the editor reads from text and tree alone: the word at a cursor, the line being typed, the folds. */
import { describe, expect, it } from 'vitest';
import { parseFile, StatementCache } from '../../grammar/parser';
import { cursorAt, quietAt, wordAt } from '../../server/editor/cursor';
import { folds } from '../../server/editor/folding';
import { segmentAt } from '../../server/editor/segment';
import { readCursor } from '../support/markers';

const parse = (text: string) => parseFile('a.cage', text, new StatementCache());

const segment = (marked: string) => {
  const { text, cursor } = readCursor(marked);
  return segmentAt(parse(text), cursor);
};

describe('the word at a cursor', () => {
  const at = (marked: string): string | undefined => {
    const { text, cursor } = readCursor(marked);
    return wordAt(text, cursor)?.text;
  };
  it('is found from its first letter to behind its last, hyphens and accents included', () => {
    expect(at('path <|>bar-end.left')).toBe('bar-end');
    expect(at('path bar-end<|>.left')).toBe('bar-end');
    expect(at('path bar-end.l<|>eft')).toBe('left');
    expect(at('node b\u0301u<|>gel = 1')).toBe('b\u0301ugel'.normalize('NFC'));
    expect(at('node a = (1, <|>2)')).toBeUndefined();
  });
  it('is not sought in comments and strings', () => {
    const quiet = (marked: string) => {
      const { text, cursor } = readCursor(marked);
      return quietAt(text, cursor);
    };
    expect(quiet('tube t # a<|>')).toBe('comment');
    expect(quiet('cage "a # b<|>"')).toBe('string');
    expect(quiet('cage "a" <|>')).toBeNull();
    expect(quiet('od 1.5" # x<|>')).toBe('comment');
    expect(quiet('od 1.5"<|>')).toBeNull();
  });
});

describe('the cursor in the tree', () => {
  it('names the entries around it, the outermost first', () => {
    const { text, cursor } = readCursor('mirror left {\n  tube t {\n    section <|>s\n  }\n}\n');
    const found = cursorAt(parse(text), cursor);
    expect(found.entries.map((entry) => entry.line.word.text)).toEqual(['mirror', 'tube', 'section']);
    expect(found.onLine?.line.word.text).toBe('section');
  });
  it('is on no line between them', () => {
    const { text, cursor } = readCursor('node a = (0, 0, 0)\n\n<|>\n\nnode b = (0, 0, 0)\n');
    expect(cursorAt(parse(text), cursor)).toMatchObject({ statement: null, entries: [], onLine: null });
  });
});

describe('the line being typed', () => {
  it('knows its blocks, what is written in them, and what is typed', () => {
    expect(segment('mirror left {\n  tube t as brace {\n    section s; path a,\n      b, c<|>')).toMatchObject({
      blocks: ['mirror', 'tube'],
      heads: ['left', 't as brace'],
      written: new Set(['section']),
      before: 'path a,\n      b, ',
      partial: 'c',
      quiet: false,
    });
  });
  it('begins anew behind a brace, a semicolon and a line end', () => {
    expect(segment('tube t { sec<|>')).toMatchObject({ blocks: ['tube'], before: '', partial: 'sec' });
    expect(segment('tube t { section s; di<|>')).toMatchObject({ before: '', partial: 'di' });
    expect(segment('tube t { section s }\nno<|>')).toMatchObject({ blocks: [], before: '', partial: 'no' });
  });
  it('is not broken by what is broken around it', () => {
    expect(segment('node a = (((\nmateri <|>')).toMatchObject({ blocks: [], before: 'materi ', partial: '' });
    expect(segment('seat s { hip "\n  back <|>')).toMatchObject({ blocks: ['seat'], before: 'back ' });
  });
  it('is quiet in comments and strings', () => {
    expect(segment('node a # on<|>').quiet).toBe(true);
    expect(segment('cage "on<|>').quiet).toBe(true);
    expect(segment('cage "on" <|>').quiet).toBe(false);
  });
});

describe('folds', () => {
  it('are blocks, runs of comments and runs of use lines', () => {
    const text = '# one\n# two\nuse "a.cage"\nuse "b.cage"\nmirror left {\n  tube t {\n  }\n}\n# alone\n';
    const shown = folds(parse(text)).map(({ span, kind }) => `${kind}: ${text.slice(span.start, span.end)}`);
    expect(shown).toEqual([
      'block: {\n  tube t {\n  }\n}',
      'block: {\n  }',
      'comment: # one\n# two',
      'imports: use "a.cage"\nuse "b.cage"',
    ]);
  });
});
