import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Read } from './cage-of';
import { read, told } from './cage-of';
import type { Thing } from '../../server/cage/cage';
import { mirrorY } from '../../server/centreline/vector';

const WORDS = [
  'node',
  'let',
  'tube',
  'plane',
  'section',
  'die',
  'material',
  'foot',
  'seat',
  'strap',
  'collar',
  'joint',
  'vent',
  'gusset',
  'hole',
  'padding',
  'fitting',
  'door',
  'panel',
  'seat-mount',
  'anchor',
  'welding',
  'stock',
  'saw',
  'torch',
  'for',
  'outline',
  'slide',
  'bolts-at',
  'mirror',
  'adjust',
  'waive',
  'rules',
  'units',
  'use',
  'cage',
  'vehicle',
  'left',
  'right',
  'a',
  'b',
  't',
  'p',
  's',
  'd',
  'on',
  'at',
  'in',
  'between',
  'and',
  'where',
  'meets',
  'near',
  'nearest',
  'mid',
  'before',
  'after',
  'from',
  'up',
  'out',
  'aft',
  'path',
  'by',
  'as',
  'brace',
  'od',
  'wall',
  'radius',
  'leans',
  'lies',
  'plate',
  'x',
  'y',
  'z',
  '=',
  '(',
  ')',
  '{',
  '}',
  ',',
  ';',
  '.',
  '+',
  '-',
  ' - ',
  '*',
  '/',
  '->',
  '1',
  '0',
  '45',
  '2.5',
  '9e9',
  '1/0',
  '30 deg',
  '40 %',
  '2 in',
  '5 kg',
  '"s"',
  '\n',
  'sqrt',
  'distance',
  'angle',
  'a.left',
  'b.right.y',
  't.a',
  'constructor',
  '__proto__',
];

const PLACES = [
  '(1, 20, 3)',
  'a',
  'a + (up 5)',
  'b.left + (out 3)',
  'between a and b at 40 %',
  'between a and b at 3',
  'in p (out 40, up 3)',
  'in p (1, 2)',
  'on t at 5 from a',
  'on t at 50 %',
  'on t mid b',
  'on t at 3 before b',
  'on t where z = 3',
  'on t where y = 2 near a',
  'on t nearest b',
  'where t meets u',
  '(h, 2, a.x)',
  '(0, 0, 5)',
];

describe('any text', () => {
  it('makes a cage, or findings, and never an exception', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...WORDS), { maxLength: 80 }), (words) => {
        expect(Array.isArray(read(words.join(' ')).findings)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  it('also where every line is right for itself', () => {
    const place = fc.constantFrom(...PLACES);
    fc.assert(
      fc.property(
        fc.record({ a: place, b: place, c: place, p: place, e: place, inMirror: fc.boolean(), adjust: fc.boolean() }),
        (car) => {
          const nodes = `node a = ${car.a}\nnode b = ${car.b}\nnode c = ${car.c}`;
          const text = `let h = 3\nsection s { od 3; wall 1 }\ndie d { od 3; radius 4 }\nplane p { at ${car.p}; leans 3 deg aft }\n${
            car.inMirror ? `mirror left {\n${nodes}\n}` : nodes
          }\nnode e = ${car.e}\n${car.adjust ? 'adjust a.right by (up 3)\n' : ''}tube t { section s; die d; path a${car.inMirror ? '.left' : ''}, b, c }\ntube u { section s; path e, c }`;
          const { cage } = read(text);
          for (const thing of cage.things.values()) {
            if (thing.kind === 'node' && thing.at !== null) expect(thing.at.every(Number.isFinite)).toBe(true);
          }
        },
      ),
      { numRuns: 300 },
    );
  });
});

const STATEMENTS = [
  'let h = 775',
  'section s { od 45; wall 2.5 }',
  'die d { od 45; radius 135 }',
  'plane hoop { at (0, 0, 118); leans 3 deg aft }',
  'mirror left {\n  node foot = in hoop (out 596, up 0)\n  node crown = in hoop (out 455, up 1010)\n}',
  'mirror right {\n  node stay = on main at 60 before crown\n  node low = (-760, -520, 430)\n  node bar = on main where z = h\n  node far = bar.left + (up 1)\n  tube back { section s; path stay, low }\n  vent back -> main { at stay; dia 5 }\n  vent bar-tube -> main { at bar; dia 6 }\n  seat q { hip (230, -345, 300); recline 15; yaw 2 deg in; slot-height 545; slot-spacing 220; back 45; shoulder (forward 110, in 3, up 35) }\n}',
  'tube main { section s; die d; path foot.left, crown.left, crown.right, foot.right }',
  'tube bar-tube { section s; path bar.left, bar.right }',
  'node mid = on bar-tube at 50 %',
  'node nil = on main where z = 5000',
  'node loop = loop2\n',
  'node loop2 = loop',
  'node two = nobody + (up 5)',
];

describe('the order of statements', () => {
  it('changes no figure, and no finding but its place', () => {
    const said = (text: string): unknown => {
      const result = read(text);
      const findings = result.findings
        .map(({ code, subject, params }) => JSON.stringify({ code, subject, params }))
        .sort();
      const things = [...result.cage.things.values()].map((thing) => JSON.stringify({ ...thing, origin: null })).sort();
      return { findings, things };
    };
    const usual = said(STATEMENTS.join('\n'));
    fc.assert(
      fc.property(fc.shuffledSubarray(STATEMENTS, { minLength: STATEMENTS.length }), (shuffled) => {
        expect(said(shuffled.join('\n'))).toEqual(usual);
      }),
      { numRuns: 60 },
    );
  });
});

describe('a symmetric car', () => {
  it('has twins that are exact reflections, to the last bit', () => {
    const number = fc.double({ min: 10, max: 900, noNaN: true }).map((n) => n.toFixed(3));
    fc.assert(
      fc.property(
        fc.array(number, { minLength: 6, maxLength: 6 }),
        fc.integer({ min: 0, max: 20 }),
        ([a, b, c, e, f, g], lean) => {
          const car = read(
            `let h = ${e ?? ''} * 0.3 + 40
section s { od 45; wall 2.5 }
die d { od 45; radius 20 }
plane hoop { at (${f ?? ''}, 0, 18); leans ${String(lean)} deg aft }
mirror left {
  node foot = in hoop (out ${a ?? ''}, up 0)
  node crown = in hoop (out ${b ?? ''}, up 1010)
  node stay = on main at ${String(Number(c ?? '') / 3)} before crown
  node low = stay + (aft ${e ?? ''}, out ${f ?? ''}, down 200)
  node bar = on main where z = h
  node top = between crown and crown.right at 30 %
  node near = on back nearest top
  node meet = where back meets main
  tube back { section s; path stay, low; last open }
}
tube main { section s; die d; path foot.left, crown.left, crown.right, foot.right }
node g = (0, 0, ${g ?? ''})`,
          );
          const nodes = new Map(
            [...car.cage.things].flatMap(([name, thing]: [string, Thing]) =>
              thing.kind === 'node' ? [[name, thing.at] as const] : [],
            ),
          );
          for (const [name, at] of nodes) {
            if (!name.endsWith('.left')) continue;
            const other = nodes.get(name.replace(/left$/, 'right')) ?? null;
            expect(other).toEqual(at === null ? null : mirrorY(at));
          }
          expect(told(car).filter((line) => line.startsWith('name'))).toEqual([]);
        },
      ),
      { numRuns: 150 },
    );
  });
});

const codes = (result: Read): readonly string[] => result.findings.map(({ code, subject }) => `${code} ${subject}`);

describe('the same car in millimetres and in inches', () => {
  it('is the same car', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 5, maxLength: 5 }),
        ([a = 1, b = 1, c = 1, d = 1, e = 1]) => {
          const text = (unit: string, k: number): string =>
            `units ${unit}\nsection s { od ${String(2 * k)}; wall ${String(k / 10)} }\ndie d { od ${String(2 * k)}; radius ${String(k)} }\nmirror left {\nnode a = (${String(a * k)}, ${String(b * k)}, 0)\nnode b = a + (up ${String((50 + c) * k)}, out ${String(d * k)})\nnode n = on t at ${String(e * k)} from a.left\n}\ntube t { section s; die d; path a.left, b.left, b.right, a.right }`;
          const [metric, imperial] = [read(text('mm', 25.4)), read(text('in', 1))];
          expect(codes(imperial)).toEqual(codes(metric));
          for (const [name, thing] of metric.cage.things) {
            const same = imperial.cage.things.get(name);
            if (thing.kind !== 'node' || same?.kind !== 'node') continue;
            if (thing.at === null || same.at === null) expect(same.at).toBe(thing.at);
            else for (const i of [0, 1, 2] as const) expect(same.at[i]).toBeCloseTo(thing.at[i], 6);
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});
