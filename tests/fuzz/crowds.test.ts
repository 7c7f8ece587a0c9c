/** Tubes that no person bends, and joints that no person welds: nothing throws or hangs, and what cannot be computed is null. */
import { describe, expect, it } from 'vitest';
import { askFile, soundFormat, soundly } from './everything';
import { codes, figuresOf, onSphere, PARTS, times } from './monster';

describe('crowds of tubes', () => {
  /** Tubes from one node. */
  const star = (count: number): string =>
    `${PARTS}node c = (0, 0, 0)\n${times(count, (i) => `node p${i} = (${onSphere(i, count)})\ntube t${i} { section s; path c, p${i}; last open }`)}`;

  it('six tubes at one node are a joint', async () => {
    const analysis = await soundly(star(6));
    expect(codes(analysis)).not.toContain('joint.crowded');
    expect(figuresOf(analysis, 't5')[0]).not.toBeNull();
  });

  it('four hundred are none: each is told, none is measured against another', async () => {
    const analysis = await soundly(star(400));
    expect(codes(analysis)).toEqual(['joint.crowded']);
    expect(analysis.findings).toHaveLength(400);
    expect(figuresOf(analysis, 't7')[0]).toBeNull();
    expect(analysis.shape.parts.get('t7')?.ends[0].ordinates.every(({ cut }) => cut === null)).toBe(true);
  });

  it('nor are four hundred on one tube', async () => {
    const text = star(400).replace(
      'node c',
      'node a = (0, -900, 0)\nnode b = (0, 900, 0)\ntube m { section m; path a, b; first open; last open }\nnode c',
    );
    const analysis = await soundly(text);
    expect(codes(analysis)).toEqual(['joint.crowded']);
    expect(figuresOf(analysis, 'm')[0]).toBeCloseTo(1800, 6);
  });

  it('nor four hundred whose nodes nearly coincide', async () => {
    const text = `${PARTS}${times(400, (i) => `node n${i} = (${(i * 1e-5).toFixed(6)}, 0, 0)\nnode p${i} = (${onSphere(i, 400)})\ntube t${i} { section s; path n${i}, p${i}; last open }`)}`;
    expect(codes(await soundly(text))).toEqual(['joint.crowded']);
  });

  it('three hundred tubes that are the same tube', async () => {
    const text = `${PARTS}node a = (0, 0, 0)\nnode b = (1000, 0, 0)\n${times(300, (i) => `tube t${i} { section s; path a, b }`)}`;
    expect(codes(await soundly(text))).toContain('joint.crowded');
  });

  it('each told to end on forty others', async () => {
    const hosts = (i: number): string => times(40, (j) => `t${(i + j + 1) % 80}`, ', ');
    const text = `${PARTS}node o = (0, 0, 0)\n${times(80, (i) => `node p${i} = (${onSphere(i, 80)})\ntube t${i} { section s; path o, p${i}; first onto ${hosts(i)}; last open }`)}`;
    expect(codes(await soundly(text))).toContain('joint.crowded');
  });

  it('of a thousand tubes through one point the first pairs are told, and that there are more', async () => {
    const text = `${PARTS}${times(1000, (i) => {
      const p = onSphere(i, 2000);
      const q = p
        .split(', ')
        .map((v) => String(-Number(v)))
        .join(', ');
      return `node p${i} = (${p})\nnode q${i} = (${q})\ntube t${i} { section s; path p${i}, q${i}; first open; last open }`;
    })}`;
    const { findings } = await soundly(text);
    expect(findings).toHaveLength(500);
    expect(findings.filter(({ notes }) => notes.some(({ message }) => message.includes('not listed')))).toHaveLength(1);
  });

  it('a grid of tubes that all run into each other', async () => {
    const text = `${PARTS}${times(20, (i) => `node a${i} = (${i * 100}, -99, 0)\nnode b${i} = (${i * 100}, 2000, 0)\nnode c${i} = (-99, ${i * 100}, 0)\nnode e${i} = (2000, ${i * 100}, 0)\ntube ta${i} { section s; path a${i}, b${i}; first open; last open }\ntube tc${i} { section s; path c${i}, e${i}; first open; last open }`)}`;
    const { findings } = await soundly(text);
    expect(findings.filter(({ code }) => code === 'tube.clash')).toHaveLength(400);
  });
});

describe('tubes', () => {
  it.each([
    ['a straight one of two thousand nodes', (i: number) => `(${(i * 1.9).toFixed(1)}, 0, 0)`],
    ['a zigzag of two thousand nodes', (i: number) => `(${i}, ${(i % 2) * 500}, 0)`],
    [
      'a spiral that crosses itself',
      (i: number) => `(${(300 * Math.cos(i)).toFixed(3)}, ${(300 * Math.sin(i)).toFixed(3)}, ${(i * 0.5).toFixed(3)})`,
    ],
  ])('%s', async (name, at) => {
    const nodes = times(2000, (i) => `node n${i} = ${at(i)}`);
    const text = `${PARTS}${nodes}\ntube t { section s; die d; path ${times(2000, (i) => `n${i}`, ', ')}; first open; last open }`;
    const analysis = await soundly(text);
    // The spiral runs into itself, and that is told once.
    const others = codes(analysis).filter((code) => !code.startsWith('bend.'));
    expect(others).toEqual(name.startsWith('a spiral') ? ['tube.clash'] : []);
  });

  it.each([
    ['its only node', 'path a'],
    ['the same node twice', 'path a, a'],
    ['there and back', 'path a, b, a'],
    ['two nodes at one place', 'path a, c'],
    ['itself as its host', 'path a, b; first onto t'],
    ['split by itself', 'path a, b; split by t'],
    ['split by what is not there', 'path a, b; split by nobody'],
    ['past by more than a country', 'path a, b; first past 99999999'],
    ['past by less than nothing', 'path a, b; first past -5'],
  ])('%s', async (_, facts) => {
    const analysis = await soundly(
      `${PARTS}node a = (0, 0, 0)\nnode b = (1000, 0, 0)\nnode c = (0, 0, 0)\ntube t { section s; die d; ${facts}; last open }`,
    );
    expect(analysis.findings.some(({ severity }) => severity === 'error')).toBe(true);
    askFile(analysis);
  });

  it('ends in a circle, each on the next', async () => {
    const text = `${PARTS}node o = (0, 0, 0)\n${times(5, (i) => `node p${i} = (${onSphere(i, 5)})\ntube t${i} { section s; path o, p${i}; first onto t${(i + 1) % 5}; last open }`)}\ntube u { section s; path p0, p1; first onto v; last open }\ntube v { section s; path p0, p2; first onto u; last open }`;
    const analysis = await soundly(text);
    expect(analysis.shape.parts.size).toBe(7);
    askFile(analysis);
  });

  it('split by each other, by one that is split, by the twin', async () => {
    const text = `${PARTS}mirror left {\nnode a = (0, 600, 0)\nnode b = (0, 10, 1000)\nnode c = (500, 600, 0)\nnode e = (500, 10, 1000)\ntube x { section s; path a, e; split by y }\ntube y { section s; path c, b; split by x }\ntube z { section s; path a, b.right; split by z.right }\ntube w { section s; path c, e; split by x.a }\n}\nadjust a.left by (down 3)\njoint a.left { order x.left.a, x.left, x.left.b }`;
    const analysis = await soundly(text);
    expect(analysis.findings.some(({ severity }) => severity === 'error')).toBe(true);
    askFile(analysis);
    soundFormat(text);
  });

  it('a thousand feet, vents and straps at one place', async () => {
    const car = `${PARTS}node a = (0, -500, 700)\nnode b = (0, 500, 700)\nnode c = (0, 0, 700)\nnode e = (-500, 0, 700)\ntube t { section s; path a, b; first open; last open }\ntube k { section s; path c, e; last open }\nseat z { slots (240, 0, 750); recline 10 deg; slot-spacing 220; back 45 }\n`;
    for (const line of [
      (i: number) => `foot f${i} { at a; plate 100 x 100 x 3 }`,
      () => 'vent k -> t { at c; dia 5 }',
      () => 'joint c { order t, k }',
    ]) {
      await soundly(car + times(1000, line));
    }
    const straps = await soundly(car + times(200, (i) => `strap q${i} { seat z; slot left; to t; width 75 }`));
    expect(codes(straps)).toContain('strap.overlap');
  });
});
