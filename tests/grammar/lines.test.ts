/** Where lines and blocks begin and end. */
import { describe, expect, it } from 'vitest';
import { parseFile } from '../../grammar/parser';
import { mended, outline, read, told } from './reading';

describe('lines', () => {
  it('end at a newline or ;', () => expect(outline('units mm; use "a"\r\nrules b')).toBe('units use rules'));

  it.each([
    ['a value', 'path a,\n b', 'a, b'],
    ['a dotted name', 'path a,\n b.left', 'a, b.left'],
    ['a comment between', 'path a, # one\n # two\n b', 'a, b'],
    ['a function', 'hip (1,\n min(2, 3), 4)', '(1, min(2, 3), 4)'],
    ['a direction in a bracket', 'hip (aft 350,\n down 20)', '(aft 350, down 20)'],
    ['a negative number', 'hip (1,\n -2, 3)', '(1, [-2], 3)'],
    ['a difference', 'hip (1,\n a - 2, 3)', '(1, [a - 2], 3)'],
  ])('go on behind a comma with %s', (_, text, values) => expect(read(text)).toBe(values));

  it.each([
    ['a word and a word', 'path a,\ndie d45'],
    ['a word and a number', 'path a,\nwall 2.5'],
    ['a word and a negative number', 'path a,\nyaw -3 deg'],
    ['a word and a string', 'path a,\nuse "b"'],
    ['a word and =', 'path a,\nlet = 5'],
    ['a word and {', 'path a,\nvehicle { }'],
    ['a word and a bracket', 'path a,\nhip (1, 2, 3)'],
    ['a direction outside a bracket', 'path a,\nout 15'],
  ])('end behind a comma before %s', (_, text) => {
    expect(outline(text).split(' ').length).toBe(2);
    expect(told(text)[0]).toBe('syntax.missing behind a,');
  });

  it.each(['vent a ,', 'joint a,', 'tube t { path a, }'])('%s: every span is one', (text) => {
    const { entry } = parseFile('a', text).statements[0]?.tree ?? { entry: null };
    const lines = entry === null ? [] : [entry.line, ...(entry.block?.entries ?? []).map(({ line }) => line)];
    const spans = lines.flatMap(({ groups }) => groups.map(({ span }) => span));
    for (const { start, end } of spans)
      expect([start >= 0, end >= start, end <= text.length]).toEqual([true, true, true]);
    expect(spans.length).toBeGreaterThan(0);
  });

  it('end behind a comma before }', () => expect(outline('tube a { path b,\n}\nnode c = d')).toBe('tube{path} node'));
});

describe('blocks', () => {
  it('are closed by a statement that begins inside them', () => {
    const text = 'tube a {\n  section b\nnode c = (1, 2, 3)\ndie d { od 45; radius 90 }';
    expect(outline(text)).toBe('tube{section} node die{od radius}');
    expect(told(text)).toEqual(['syntax.brace {']);
  });

  it('are not closed by a fact with the name of a statement', () =>
    expect(outline('tube a {\n section b\n die c\n path d, e\n}')).toBe('tube{section die path}'));

  it('are closed by a statement with the name of a fact', () =>
    expect(outline('tube a {\n section b\nsection c { od 45; wall 2 }')).toBe('tube{section} section{od wall}'));

  it('keep the statements of a mirror and end where a mirror without end is no longer indented', () => {
    const text =
      'mirror left {\n  node a = (1, 2, 3)\n  tube b { section c; path a, d }\n\ntube e { section c; path f, g }\nuse "h"';
    expect(outline(text)).toBe('mirror{node tube{section path}} tube{section path} use');
    expect(told(text)).toEqual(['syntax.brace {']);
  });

  it('end a mirror without indents at the first statement that cannot stand in one', () =>
    expect(outline('mirror left {\nnode a = (1, 2, 3)\nuse "b"\nnode c = d')).toBe('mirror{node} use node'));

  it('are read where their { is missing', () => {
    const text = 'tube a as brace\n  section b\n  path c, d\n}\nunits mm';
    expect(outline(text)).toBe('tube{section path} units');
    expect(told(text)).toEqual(['syntax.missing behind brace']);
    expect(mended(text)).toBe(text.replace('brace', 'brace {'));
  });

  it('are read where their { stands a line below', () => {
    const text = 'tube a\n{\n  section b\n  path c, d\n}';
    expect(outline(text)).toBe('tube{section path}');
    expect(told(text)).toEqual(['syntax.unexpected {']);
    expect(mended(text)).toBe('tube a {\n  section b\n  path c, d\n}');
  });

  it('tell a brace that closes nothing', () => expect(told('units mm\n}\n')).toEqual(['syntax.brace-close }']));

  it('tell that a fact has no braces', () =>
    expect(told('tube a { section b; path c, d; first { onto e } }')[0]).toBe('syntax.unexpected {'));
});

describe('one line, one finding', () => {
  it.each([
    ['node', 'syntax.missing behind node'],
    ['node a', 'syntax.missing behind a'],
    ['node a =', 'syntax.missing behind ='],
    ['node a = (1, 2', 'syntax.missing behind 2'],
    ['node a = on hoop', 'syntax.missing behind hoop'],
    ['node a = on hoop at', 'syntax.missing behind at'],
    ['node a = on hoop where z = 690 near', 'syntax.missing behind near'],
    ['node a = between b', 'syntax.missing behind b'],
    ['node a = in hoop', 'syntax.missing behind hoop'],
    ['node a = where b', 'syntax.missing behind b'],
    ['let a = 4 *', 'syntax.missing behind *'],
    ['let a = 1 2', 'syntax.unexpected 2'],
    ['let a (1)', 'syntax.unexpected ('],
    ['(1, 2)', 'syntax.unexpected ('],
    ['use "abc', 'syntax.string "abc'],
    ['use "a" $', 'syntax.character $'],
    ['\u0000', 'syntax.character \u0000'],
    ['use \ud800', 'syntax.character \ud800'],
    ['use 😀 ', 'syntax.character 😀'],
    ['units mm\nwall = 2.5', 'syntax.unexpected ='],
  ])('%s', (text, finding) => expect(told(text)[0]).toBe(finding));

  it('says no more of a line that did not parse', () => {
    expect(told('section s { od 45 mmm °; wall 2 }').length).toBe(1);
    expect(told('node a = (1 $ 2 $ 3')).toEqual(['syntax.character $']);
  });

  it('still knows the name of a node that is half typed', async () => {
    const { parseFile } = await import('../../grammar/parser');
    const line = parseFile('a', 'node foot = on').statements[0]?.tree.entry.line;
    expect([line?.target?.text, line?.ok]).toEqual(['foot', true]);
    expect(parseFile('a', 'node foot = (1,').statements[0]?.tree.entry.line.target?.text).toBe('foot');
  });
});

describe('places', () => {
  it.each([
    ['(-190, 560, 775)', '([-190], 560, 775)'],
    ['P + (aft 350, down 20, out 15)', '[P + (aft 350, down 20, out 15)]'],
    ['P + (aft -5, out (3 + 4))', '[P + (aft [-5], out ([3 + 4]))]'],
    ['between A and B at 40 %', 'between{A | B | 40%}'],
    ['between A.left and (1, 2, 3) at 120', 'between{A.left | (1, 2, 3) | 120}'],
    ['between on hoop mid crown and B at 50 %', 'between{on{hoop | mid crown} | B | 50%}'],
    ['in hoop (out 596, up 507)', 'in{hoop | (out 596, up 507)}'],
    ['in hoop (596, 507)', 'in{hoop | (596, 507)}'],
    ['on hoop at 420 from foot.left', 'on{hoop | 420 | from foot.left}'],
    ['on hoop at 35 %', 'on{hoop | 35%}'],
    ['on hoop at 40 before crown', 'on{hoop | 40 before crown}'],
    ['on hoop at a - 40 after crown', 'on{hoop | [a - 40] after crown}'],
    ['on hoop mid crown', 'on{hoop | mid crown}'],
    ['on hoop where z = 690', 'on{hoop | z = 690}'],
    ['on hoop where z = 690 near P', 'on{hoop | z = 690 | near P}'],
    ['on hoop nearest P + (aft 1)', 'on{hoop | nearest [P + (aft 1)]}'],
    ['where A meets B', 'meets{A | B}'],
    ['on', 'on'],
    ['in + (aft 5)', '[in + (aft 5)]'],
    ['between', 'between'],
  ])('%s', (text, tree) => expect(read(`node a = ${text}`)).toBe(tree));

  it('leaves phrases their words where no place form follows', () => {
    expect(read('waive strap.drop on bar because "so"')).toBe('strap.drop on bar because "so"');
    expect(read('leans 6 deg in')).toBe('6deg in');
    expect(read('path between, on, in')).toBe('between, on, in');
  });
});

describe('names', () => {
  it('are the same however an accent is typed', async () => {
    const { parseFile } = await import('../../grammar/parser');
    const name = (text: string): string | undefined => parseFile('a', text).statements[0]?.tree.entry.line.target?.text;
    expect(name('node caf\u0065\u0301 = a')).toBe(name('node caf\u00e9 = a'));
  });

  it('reads past a byte order mark at the top, and only there', () => {
    expect(told('\ufeffunits mm')).toEqual([]);
    expect(told('units mm\n\ufeffunits mm')).toEqual(['syntax.character \ufeff']);
  });
});
