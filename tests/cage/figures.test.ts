import { describe, expect, it } from 'vitest';
import { read, told, only, at } from './cage-of';
import { degrees } from '../../grammar/units';

const worth = (expr: string, before = ''): number | null =>
  read(`${before}\nlet v = ${expr}`).cage.lets.get('v')?.value?.value ?? null;

describe('figures', () => {
  it.each([
    ['38', 38],
    ['1 3/4 in', 44.45], // 1 in = 25.4 mm exactly (international agreement of 1959)
    ['.095 in', 2.413],
    ['-16 1/2', -16.5],
    ['2 ft', 609.6],
    ['3 cm + 2', 32],
    ['2 + 3 cm', 32],
    ['10 - 3 - 2', 5],
    ['2 + 3 * 4', 14],
    ['(2 + 3) * 4', 20],
    ['12 / 3 / 2', 2],
    ['- -5', 5],
    ['40 %', 0.4],
    ['500 * 40 %', 200],
    ['sqrt(9)', 3],
    ['sqrt(9 mm * 4 mm)', 6],
    ['abs(-3 mm)', 3],
    ['min(3, 2 cm, 25)', 3],
    ['max(3, 2 cm, 25)', 25],
    ['distance((0, 0, 0), (3, 4, 12))', 13], // 3-4-5 and 5-12-13
    ['1 lb', 0.45359237],
    ['1 kN', 1000],
  ])('%s is worth %f', (expr, value) => {
    expect(worth(expr)).toBeCloseTo(value, 9);
  });

  it.each([
    ['sin(30)', 0.5],
    ['sin(30 deg)', 0.5],
    ['cos(60)', 0.5],
    ['tan(45)', 1],
    ['sin(3.141592653589793 rad / 6)', 0.5],
  ])('%s: bare angles are degrees', (expr, value) => {
    expect(worth(expr)).toBeCloseTo(value, 12);
  });

  it.each([
    ['asin(.5)', 30],
    ['acos(.5)', 60],
    ['atan2(1, 1)', 45],
    ['atan2(3 cm, -30)', 135],
    ['angle((1, 0, 0), (0, 0, 0), (0, 1, 0))', 90],
    ['90 + 1 deg', 91],
  ])('%s is %f degrees', (expr, value) => {
    expect(degrees(worth(expr) ?? Number.NaN)).toBeCloseTo(value, 9);
  });

  it.each([
    ['let v = 3 mm + 2 deg', "unit.dimension '+'"],
    ['let v = 3 mm * 2 mm - 4 mm', "unit.dimension '-'"],
    ['let v = 30 / (2 - 2)', "number.arithmetic '/'"],
    ['let v = sqrt(-1)', "number.arithmetic 'sqrt'"],
    ['let v = asin(1.01)', "number.arithmetic 'asin'"],
    ['let v = tan(90)', "number.arithmetic 'tan'"],
    ['let v = atan2(0, 0)', "number.arithmetic 'atan2'"],
    ['let v = angle((0, 0, 0), (0, 0, 0), (1, 0, 0))', "number.arithmetic 'angle'"],
    [`let v = ${'9'.repeat(200)} * ${'9'.repeat(200)}`, "number.arithmetic '*'"],
    ['let v = sin(3 mm)', "unit.dimension 'sin'"],
    ['let v = sqrt(1, 2)', "fact.value 'sqrt(1, 2)'"],
    ['let v = (1, 2, 3)', "fact.value '(1, 2, 3)'"],
    ['node n = 5', "fact.value '5'"],
    ['let l = 5\nnode n = l', "unit.dimension 'l'"],
    ['node n = (5 deg, 0, 0)', "unit.dimension '5 deg'"],
    ['node n = (5, 0)', "fact.value '(5, 0)'"],
    ['node n = (5, up 3, 0)', "fact.value '(5, up 3, 0)'"],
    ['node n = (up 5, down 3)', "fact.value 'down'"],
    ['node n = (upp 5)', "name.unknown 'upp'"],
    ['node a = (0, 1, 0)\nnode n = a * 2', "unit.dimension '*'"],
    ['node a = (0, 1, 0)\nlet v = a + 2', "unit.dimension '+'"],
    ['node n = (99999999, 0, 0)', "number.range '(99999999, 0, 0)'"],
    ['let r = (0, 0, 1).z', 'syntax'],
  ])('%s is told once, where it is', (text, wanted) => {
    const lines = told(read(text));
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain(wanted);
  });

  it('takes the unit of the file in which the digits stand', () => {
    const car = read('units mm\nuse "p.cage"\nnode a = (w, 0, 0)\nnode b = (w + 0 mm, 0, 0)\nnode c = (2 * w2, 0, 0)', {
      'p.cage': 'units in\nlet w = 2\nlet w2 = 2 in',
    });
    expect(told(car)).toEqual([]);
    expect(at(car, 'a')).toEqual([50.8, 0, 0]);
    expect(at(car, 'b')).toEqual([50.8, 0, 0]);
    expect(at(car, 'c')).toEqual([101.6, 0, 0]);
  });

  it('never mixes plain numbers of files in different units', () => {
    const other = { 'p.cage': 'units in\nlet w = 2' };
    expect(told(read('use "p.cage"\nlet v = w + 1', other))).toEqual(["unit.mixed '+'"]);
    expect(told(read('use "p.cage"\nlet v = 3 * w', other))).toEqual(["unit.mixed '*'"]);
    expect(told(read('use "p.cage"\nlet v = min(3, w)', other))).toEqual(["unit.mixed 'min'"]);
    expect(told(read('use "p.cage"\nlet v = 3 mm + w', other))).toEqual([]);
    expect(told(read('units in\nuse "p.cage"\nlet v = 3 * w', other))).toEqual([]);
  });

  it('a ratio of lengths is no length', () => {
    expect(told(read('node a = (4, 2, 0)\nnode b = (a.x / a.y, 0, 0)'))).toEqual(["unit.dimension 'a.x / a.y'"]);
    expect(at(read('node a = (4, 2, 0)\nnode b = (a.x / a.y * 10, 0, 0)'), 'b')).toEqual([20, 0, 0]);
  });

  it('tells nothing of what hangs on a fault', () => {
    const car = read('let a = 1 / 0\nlet b = a + 1\nnode n = (b, 0, 0)\nnode m = n + (up 5)');
    expect(told(car)).toHaveLength(1);
    expect(car.cage.things.get('m')).toMatchObject({ at: null });
  });
});

describe('facts that measure', () => {
  it('a unit after the last of a list holds for the bare ones before it', () => {
    const size = read('section s { size 1 3/4 x .095 in }').cage.sections.get('s')?.value;
    expect(size?.od).toBeCloseTo(44.45, 9);
    expect(size?.wall).toBeCloseTo(2.413, 9);
  });

  it.each([
    ['section s { od -30; wall 2 }', "number.range '-30'"],
    ['section s { od 0; wall 2 }', "section.od '0'"],
    ['section s { od 45; wall 22.5 }', "section.wall '22.5'"],
    ['section s { size 45 x 25 }', "section.wall '25'"],
    ['section s { od 45 deg; wall 2 }', "unit.dimension '45 deg'"],
    ['material m { yield 350 }', "unit.dimension '350'"],
    ['vehicle { mass 980 }', "unit.dimension '980'"],
    ['plane p { at (0, 0, 0); leans 90 deg aft }', "number.range '90 deg'"],
    ['plane p { at (0, 0, 0); leans 3 deg out }', "fact.value 'out'"],
    ['seat s { slots (0, 300, 700); recline 400; slot-spacing 220; back 45 }', "number.range '400'"],
    ['seat s { slots (0, 300, 700); recline 10; yaw 3 in; slot-spacing 220; back 45 }', "unit.inch-after-angle '3 in'"],
    ['node n = (0, 1, 0)\nfoot f { at n; plate 140 x 100 x 3; bolts 2.5 x M8 }', "number.range '2.5'"],
    ['node n = (0, 1, 0)\nfoot f { at n; plate 140 x 0 x 3 }', "number.range '0'"],
    ['node n = (0, 1, 0)\nfoot f { at n; plate 140 x 100 x 3; bolts 3 x 0 }', "number.range '0'"],
    ['node n = (0, 1, 0)\nfoot f { at n; plate 140 x 100 x 3; bolts 3 x -8 }', "number.range '-8'"],
    ['node n = (0, 1, 0)\nfoot f { at n; plate 140 x 100 x 3; bolts 3 x M0 }', "fact.value '3 x M0'"],
    // Figures are told to 1e-6: a hole of less would stand as 0 in the model.
    ['node n = (0, 1, 0)\nfoot f { at n; plate 140 x 100 x 3; hole .0000004 }', "number.range '.0000004'"],
    ['node n = (0, 1, 0)\nnode m = (0, 9, 0)\nnode k = between n and m at 140 %', "number.range '140 %'"],
  ])('%s', (text, wanted) => {
    expect(told(read(text))).toEqual([wanted]);
  });

  it('just inside the limits nothing is told', () => {
    expect(told(read('section s { od 45; wall 22.4 }\nplane p { at (0, 0, 0); leans 89.9 deg aft }'))).toEqual([]);
    const foot = 'node n = (0, 1, 0)\nfoot f { at n; plate 140 x 100 x 3; bolts 1 x M1; hole .000001 }';
    expect(told(read(foot))).toEqual([]);
    expect(told(read('material m { density .000001 kg/m3 }'))).toEqual([]);
  });

  it('gives the figure that is out of range', () => {
    expect(only(read('section s { od -30; wall 2 }'), 'number.range').params['value']).toEqual({
      value: -30,
      unit: 'mm',
    });
  });
});
