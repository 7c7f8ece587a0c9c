/**
 * Texts that no person writes, each with a name: nothing throws, nothing hangs (the runner's own limit is the only clock),
 * the finding is clear and at its place, and what cannot be computed is null. Sizes are what fits a test run.
 */
import { describe, expect, it } from 'vitest';
import { askAll, askFile, soundly } from './everything';
import { codes, figuresOf, PARTS, starts, times } from './monster';

describe('one line that does not end', () => {
  it.each([
    '(',
    ')',
    '-',
    '- ',
    '+ ',
    '{',
    '}',
    '[',
    ',',
    '"',
    ';',
    '#',
    '->',
    '=',
    '.',
    '/',
    '\\',
    '%',
    '\0',
    '😀',
    '°',
  ])('%j, twenty thousand times', async (sign) => {
    const text = sign.repeat(20_000);
    const analysis = await soundly(text);
    askAll(analysis, text.length >> 1);
    // At most one finding a line.
    expect(analysis.findings.length).toBeLessThanOrEqual(1);
  });

  it.each([
    '1',
    '1 ',
    'a',
    'a ',
    'a, ',
    'x',
    '1x',
    'a.',
    'a-',
    '1/',
    '1 1/2 ',
    '1 mm ',
    'between a and ',
    'on a at ',
    '"a" ',
  ])('let, node, path and joint of %j', async (piece) => {
    const many = piece.repeat(6000);
    for (const line of [`let q = ${many}`, `node q = (${many}, 0, 0)`, `tube q { path ${many} }`, `joint ${many}`]) {
      const { findings } = await soundly(line);
      expect(findings.length).toBeGreaterThanOrEqual(1);
      expect(findings.length).toBeLessThanOrEqual(6001);
    }
  });

  it.each([
    ['brackets', `let a = ${'('.repeat(100_000)}1${')'.repeat(100_000)}`],
    ['signs', `let a = ${'-'.repeat(100_000)}1`],
    ['signs with blanks', `let a = ${'- '.repeat(100_000)}1`],
    ['functions', `let a = ${'abs('.repeat(50_000)}1${')'.repeat(50_000)}`],
    ['triples', `node a = ${'(0, 0, '.repeat(30_000)}1${')'.repeat(30_000)}`],
  ])('%s nested a hundred thousand deep are one finding', async (_, text) => {
    const analysis = await soundly(text);
    expect(codes(analysis)).toEqual(['syntax.nesting']);
    expect(analysis.findings).toHaveLength(1);
  });

  it('a sum of fifty thousand terms is computed or told', async () => {
    const { cage, findings } = await soundly(`node a = (1${' + 1'.repeat(50_000)}, 0, 0)`);
    const node = cage.things.get('a');
    const x = node?.kind === 'node' ? (node.at?.[0] ?? null) : null;
    // Told or true: 50,001 mm is beyond no limit of the language.
    expect(x === 50_001 || (x === null && findings.length === 1)).toBe(true);
  });

  it('names of fifty thousand letters are told, not compared', async () => {
    const name = 'a'.repeat(50_000);
    const analysis = await soundly(`node ${name} = (1, 2, 3)\nnode b = ${name}b + (1, 0, 0)`);
    expect(codes(analysis)).toEqual(['name.unknown']);
    expect(starts(analysis)).toEqual([name.length + 27]);
  });
});

const STRANGE = new Set(['\0', '\ud800', '\u2028', '\u0301', '\u202e', '\r', '\ufffd']);

describe('characters', () => {
  it('columns count UTF-16 units: two for a sign beyond the first plane', async () => {
    const text = 'cage "😀😀"\nlet q = 1 # 😀\nnode a = (bogus, 0, 0)';
    const analysis = await soundly(text);
    expect(codes(analysis)).toEqual(['name.unknown']);
    expect(starts(analysis)).toEqual([text.indexOf('bogus')]);
  });

  it.each([
    ['NUL', 'no\0de a = (1, 2, 3)'],
    ['a lone surrogate', 'node \ud800a = (1, 2, 3)'],
    ['a second byte order mark', '\ufeff\ufeffnode a = (1, 2, 3)'],
    ['a line separator', 'node a = (1, 2, 3)\u2028node b = (1, 2, 4)'],
    ['a mark without its letter', 'node \u0301a = (1, 2, 3)'],
    ['a change of direction', 'node \u202ea = (1, 2, 3)'],
    ['a carriage return alone', 'node a = (1, 2, 3)\rnode b = (1, 2, 4)'],
    ['bytes of UTF-16', 'n\0o\0d\0e\0 \0a\0\n\0'],
    ['replaced bytes', 'node a\ufffd = (1, 2, 3)'],
  ])('%s is told where it stands', async (_, text) => {
    const analysis = await soundly(text);
    // A mark at the very beginning is the byte order mark itself.
    const strange = [...text].findIndex((c, i) => STRANGE.has(c) || (i > 0 && c === '\ufeff'));
    expect(analysis.findings.find(({ code }) => code === 'syntax.character')?.place.span.start).toBe(strange);
  });

  it('letters with their marks are the same name in both spellings', async () => {
    expect(codes(await soundly('node \u00e9 = (1, 2, 3)\nnode e\u0301 = (1, 2, 4)'))).toEqual(['name.twice']);
  });

  it('names of the machine are names like others', async () => {
    const names = ['constructor', 'toString', 'hasOwnProperty', 'valueOf', 'prototype'];
    const nodes = names.map((name, i) => `node ${name} = (${i * 100}, 0, 0)`).join('\n');
    const analysis = await soundly(
      `${PARTS}${nodes}\ntube t as constructor { section s; path constructor, toString; toString 3; constructor 4; first open; last open }\nunits valueOf\nrules constructor\nlet a = 3 constructor`,
    );
    expect(codes(analysis)).toEqual([
      'fact.twice',
      'fact.unknown',
      'fact.value',
      'role.unknown',
      'rule.unknown-book',
      'unit.unknown',
    ]);
  });
});

describe('the same again and again', () => {
  it.each([
    ['node a = (1, 2, 3)', 'name.twice'],
    ['let a = 1', 'name.twice'],
    ['section a { od 38; wall 2 }', 'name.twice'],
    ['units mm', 'fact.twice'],
    ['cage "x"', 'fact.twice'],
    ['tueb a { }', 'kind.unknown'],
    ['"a', 'syntax.string'],
    ['tube a {', 'syntax.brace'],
    ['mirror left {', 'syntax.brace'],
    ['}', 'syntax.brace-close'],
    ['use "none.cage"', 'use.missing'],
  ])('%s, two thousand times', async (line, code) => {
    const analysis = await soundly(times(2000, () => line));
    const found = analysis.findings.filter((finding) => finding.code === code);
    expect(found.length).toBeGreaterThanOrEqual(1999);
    expect(new Set(found.map(({ place }) => place.span.start)).size).toBe(found.length);
  });

  it('one fact eight thousand times in one statement: the first two thousand are listed, and how many more there are', async () => {
    const { findings } = await soundly(`tube a { ${'section s; '.repeat(8000)}}`);
    expect(findings.filter(({ code }) => code === 'fact.twice')).toHaveLength(2000);
    expect(findings.flatMap(({ notes }) => notes).map(({ message }) => message)).toContain(
      '5999 more fact.twice in this file are not listed.',
    );
  });

  it('eight thousand names that are not known, in one list', async () => {
    const { findings } = await soundly(`tube a { path ${times(8000, (i) => `n${i}`, ', ')} }`);
    expect(findings.filter(({ code }) => code === 'name.unknown')).toHaveLength(2000);
  });
});

describe('chains and circles', () => {
  it('lets in a chain of twenty thousand, written forwards and backwards', async () => {
    const forwards = `let a0 = 1\n${times(20_000, (i) => `let a${i + 1} = a${i} + 1`)}\nnode n = (a20000 * 1 mm, 0, 0)`;
    const backwards = forwards.split('\n').reverse().join('\n');
    for (const text of [forwards, backwards]) {
      const { cage, findings } = await soundly(text);
      expect(findings).toEqual([]);
      const node = cage.things.get('n');
      expect(node?.kind === 'node' ? node.at : null).toEqual([20_001, 0, 0]);
    }
  });

  it.each([
    ['lets', (i: number, n: number) => `let a${i} = a${(i + 1) % n} + 1`],
    ['nodes', (i: number, n: number) => `node a${i} = a${(i + 1) % n} + (1, 0, 0)`],
  ])('%s in a circle of five thousand are one finding that names them', async (_, line) => {
    const analysis = await soundly(times(5000, (i) => line(i, 5000)));
    expect(codes(analysis)).toEqual(['name.cycle']);
    expect(analysis.findings).toHaveLength(1);
    expect(analysis.findings[0]?.message).toMatch(/a0 -> a1 .*5000 in all/);
  });

  it('every let hangs on every let', async () => {
    const all = times(100, (i) => `a${i}`, ' + ');
    expect(codes(await soundly(times(100, (i) => `let a${i} = ${all}`)))).toEqual(['name.cycle']);
  });

  it('nodes on tubes on nodes on tubes', async () => {
    const text = `${PARTS}node b = (0, 0, 0)\n${times(300, (i) => `node a${i} = on t${(i + 1) % 300} at 50 %\ntube t${i} { section s; path a${i}, b }`)}`;
    const analysis = await soundly(text);
    expect(codes(analysis)).toEqual(['name.cycle']);
    expect(figuresOf(analysis, 't7').every((figure) => figure === null)).toBe(true);
  });

  it('adjustments that hang on each other', async () => {
    const text = `mirror left {\n${times(50, (i) => `node k${i} = (0, ${i + 1}, 0)`)}\n}\n${times(50, (i) => `adjust k${i}.left by (down k${(i + 1) % 50}.left.z)`)}`;
    expect(codes(await soundly(text))).toEqual(['name.cycle']);
  });

  it('files that use each other in a circle of three hundred, and themselves', async () => {
    const files = Object.fromEntries(
      Array.from({ length: 300 }, (_, i) => [`f${i}.cage`, `use "f${(i + 1) % 300}.cage"\nnode n${i} = (0, 0, ${i})`]),
    );
    const around = await soundly('use "f0.cage"\nnode q = n299 + (1, 0, 0)', files);
    expect(codes(around)).toEqual(['use.cycle']);
    expect(around.cage.things.size).toBe(301);
    expect(codes(await soundly('use "example.cage"'))).toEqual(['use.cycle']);
  });

  it('more files than a car can have are told and not read', async () => {
    const files = Object.fromEntries(
      Array.from({ length: 1100 }, (_, i) => [`f${i}.cage`, `use "f${i + 1}.cage"`] as const),
    );
    const { findings, trees } = await soundly('use "f0.cage"', files);
    expect(trees.size).toBe(1000);
    expect(findings.map(({ code, place }) => [code, place.file])).toEqual([['use.unreadable', 'f998.cage']]);
  });
});

describe('numbers', () => {
  it.each([
    ['1e400', 'unit.unknown'],
    ['9'.repeat(400), 'number.range'],
    ['0/0', 'number.arithmetic'],
    ['0 / 0', 'number.arithmetic'],
    ['1/0', 'number.arithmetic'],
    [`1 / .${'0'.repeat(320)}1`, 'number.arithmetic'],
    ['sqrt(-1)', 'number.arithmetic'],
    ['asin(2)', 'number.arithmetic'],
    ['acos(-2)', 'number.arithmetic'],
    ['tan(90 deg)', 'number.arithmetic'],
    ['atan2(0, 0)', 'number.arithmetic'],
    ['angle(p, p, p)', 'number.arithmetic'],
    ['1000000000000000', 'number.range'],
    ['-1000000000000 m', 'number.range'],
    ['sqrt(1 mm)', 'unit.dimension'],
    ['1 mm * 1 mm', 'unit.dimension'],
  ])('%s is no coordinate', async (figure, code) => {
    const text = `node p = (1, 2, 3)\nnode q = (${figure}, 0, 0)`;
    const { cage, findings } = await soundly(text);
    expect(findings.map((finding) => finding.code)).toContain(code);
    const node = cage.things.get('q');
    expect(node?.kind === 'node' ? node.at : 'none').toBeNull();
  });

  it('a unit to a power beyond all sense is told, never compared', async () => {
    const chain = times(1200, (i) => `let a${i + 1} = a${i} * a${i}`);
    const roots = times(1200, (i) => `let r${i + 1} = sqrt(r${i})`);
    const analysis = await soundly(
      `let a0 = 1 mm\n${chain}\nlet r0 = 1 mm\n${roots}\nnode n = (a1200 / a1200, r1200, 0)`,
    );
    expect(codes(analysis)).toEqual(['number.arithmetic']);
    expect(analysis.findings.every(({ message }) => message.includes('power'))).toBe(true);
  });

  it.each([
    'section q { od 0; wall 2 }',
    'section q { od -38; wall 2 }',
    'section q { od 38; wall 19 }',
    'section q { od 38; wall 0 }',
    'section q { od 1000000; wall 2 }',
    'die q { od 38; radius 0 }',
    'die q { od 38; radius 114; springback -5 deg }',
    'foot q { at a; plate 0 x 0 x 0 }',
    'foot q { at a; plate 100 x 100 x 3; bolts 0 x M8 }',
    'foot q { at a; plate 100 x 100 x 3; lies 90 deg up aft }',
    'seat q { slots (240, 0, 750); recline 90 deg; slot-spacing 220; back 45 }',
    'seat q { slots (240, 0, 750); recline 180 deg; slot-spacing 220; back 45 }',
    'seat q { slots (240, 0, 750); recline 10 deg; slot-spacing 0; back 45 }',
    'seat q { hip (240, 0, 300); recline 10 deg; slot-height 0; slot-spacing 200; back 45 }',
    'seat q { slots (240, 0, 750); recline 10 deg; yaw 90 deg; slot-spacing 220; back 45 }',
    'strap q { seat z; slot left; to t; width 0 }',
    'strap q { seat z; slot left; to t; width 100000 }',
    'strap q { seat z; slot left; to a; width 75 }',
    'strap q { seat z; slot left; to z; width 75 }',
    'vent t -> air { at a; dia 0 }',
    'vent t -> air { at a; from -30; dia 5 }',
    'vent t -> t { at a; dia 5 }',
    'joint a, a { order t, t, q }',
    'adjust a by (down 0 / 0)',
  ])('%s is told in its line', async (line) => {
    const car = `${PARTS}node a = (0, -500, 700)\nnode b = (0, 500, 700)\ntube t { section s; path a, b; first open; last open }\nseat z { slots (240, 0, 750); recline 10 deg; slot-spacing 220; back 45 }\n`;
    const uses = 'tube u { section q; die q; path a, b; last open }\n';
    const analysis = await soundly(`${car}${/^(section|die)/.test(line) ? uses : ''}${line}`);
    const at = analysis.trees.get('example.cage')?.text.indexOf(line) ?? 0;
    expect(starts(analysis).some((start) => start >= at)).toBe(true);
    askFile(analysis);
  });
});
