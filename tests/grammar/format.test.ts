/** The layout of a file. That nothing is lost and that it is stable is in `properties.test.ts`. */
import { describe, expect, it } from 'vitest';
import { formatFile } from '../../grammar/format';
import { EVERYTHING } from './samples';

const lines = (...text: readonly string[]): string => `${text.join('\n')}\n`;

describe('format', () => {
  it('writes one fact a line, two blanks deep', () =>
    expect(formatFile('tube a as brace\t{section b\n\n\n   path c,d;  first past 30\n}')).toBe(
      lines('tube a as brace {', '  section b', '', '  path c, d', '  first past 30', '}'),
    ));

  it('keeps a short block on its line', () =>
    expect(formatFile('section bar{od 38;wall   2.5}')).toBe(lines('section bar { od 38; wall 2.5 }')));

  it('opens a block that does not fit on its line', () => {
    const facts = Array.from({ length: 12 }, (_, i) => `fact-${String(i)} ${'9'.repeat(6)}`);
    expect(formatFile(`thing a { ${facts.join('; ')} }`)).toBe(
      lines('thing a {', ...facts.map((fact) => `  ${fact}`), '}'),
    );
  });

  it('puts statements that share a line below each other', () =>
    expect(formatFile('units mm; rules a; die d { od 45; radius 9 } use "b"')).toBe(
      lines('units mm', 'rules a', 'die d { od 45; radius 9 }', 'use "b"'),
    ));

  it('sets blanks round operators, none inside brackets, one before a unit', () =>
    expect(formatFile('let a=( 1+2 )*w/3-4 -sqrt ( 5 )+6mm\nnode b=( - 1,2,- 3)\nsize 45x2.5mm')).toBe(
      // `3-4` could be read two ways and stays as it is, and so does its line.
      lines('let a=( 1+2 )*w/3-4 -sqrt ( 5 )+6mm', 'node b = (-1, 2, -3)', 'size 45 x 2.5 mm'),
    ));

  it('leaves at most one line empty, and none at the edges', () =>
    expect(formatFile('\n\n\nunits mm\n\n\n\nvehicle {\n\n\nbody open\n\n}\n\n\n')).toBe(
      lines('units mm', '', 'vehicle {', '  body open', '}'),
    ));

  it('keeps comments where they stand', () =>
    expect(formatFile('# top\nunits mm # unit\ntube a { # which\n# own\nsection b# size\n} # end\n  # last')).toBe(
      lines('# top', 'units mm  # unit', 'tube a {  # which', '  # own', '  section b  # size', '}  # end', '# last'),
    ));

  it('breaks a list where it was broken', () =>
    expect(formatFile('tube a {\npath b,c, # left\nd,\n\n# own\n e\n}')).toBe(
      lines('tube a {', '  path b, c,  # left', '    d,', '    # own', '    e', '}'),
    ));

  it('keeps below each other what was below each other', () => {
    const text = lines('node a     = b  # one', 'node long  = c  # two', 'section s  { od 1 }', 'section tt { od 2 }');
    expect(formatFile(text)).toBe(
      lines('node a    = b  # one', 'node long = c  # two', 'section s  { od 1 }', 'section tt { od 2 }'),
    );
    expect(formatFile('node a  = b\nnode long = c')).toBe(lines('node a = b', 'node long = c'));
  });

  it('leaves a broken statement exactly as it is', () => {
    const broken = '   tube   a {\n section  b;;\n   path c,  (\n }';
    expect(formatFile(`units   mm\n${broken}\nrules   b`)).toBe(`units mm\n${broken}\nrules b\n`);
  });

  it('leaves a brace that closes nothing', () =>
    expect(formatFile('units   mm\n}\nrules b')).toBe(lines('units mm', '}', 'rules b')));

  it('keeps line ends and a byte order mark', () =>
    expect(formatFile('\ufeffunits  mm\r\nvehicle {\r\n body open\r\n}')).toBe(
      '\ufeffunits mm\r\nvehicle {\r\n  body open\r\n}\r\n',
    ));

  it('leaves nothing of nothing', () => {
    expect(formatFile('')).toBe('');
    expect(formatFile('\n \n')).toBe('');
  });

  it('changes little in a text that is laid out already', () => {
    const laid = formatFile(EVERYTHING);
    expect(formatFile(laid)).toBe(laid);
    expect(laid).toContain(
      '  node foot  = in hoop (out 596, up 0)\n  node crown = in hoop (out 455, up 1010)  # where the bend is\n',
    );
  });
});
