/** Numbers, units and sums as the language page has them; arithmetic by hand. */
import { describe, expect, it } from 'vitest';
import { mended, read, told } from './reading';

describe('numbers', () => {
  it.each([
    ['38', '38'],
    ['.095', '0.095'],
    ['1 3/4', '1.75'],
    ['3/4', '0.75'],
    ['1   3/4', '1.75'],
    ['-16 1/2', '[-16.5]'],
    ['3/4 in', '0.75in'],
    ['45mm', '45mm'],
    ['40%', '40%'],
    ['7850 kg/m3', '7850kg/m3'],
  ])('%s is %s', (text, value) => expect(read(`let a = ${text}`)).toBe(value));

  it('does not cut a fraction out of a division by a decimal', () => expect(read('let a = 3/4.5')).toBe('[3 / 4.5]'));

  it('knows a unit only behind a number', () => {
    expect(read('let a = in + m')).toBe('[in + m]');
    expect(read('node in = (in 3 in, aft 2)')).toBe('(in 3in, aft 2)');
  });
});

describe('measures separated by x', () => {
  it.each([
    ['size 45 x 2.5', '45 x 2.5'],
    ['size 45x2.5', '45 x 2.5'],
    ['size 45mmx2.5', '45mm x 2.5'],
    ['size 1 3/4 x .095', '1.75 x 0.095'],
    ['plate 140x100x3 turned 20 deg', '140 x 100 x 3 turned 20deg'],
    ['bolts 3xM8', '3 x M8'],
    ['bolts 3 x M8', '3 x M8'],
    ['size od x wall', 'od x wall'],
    ['at x = 5', 'x = 5'],
    ['path x, x', 'x, x'],
    ['waive strap.drop on x because "so"', 'strap.drop on x because "so"'],
  ])('%s', (text, values) => expect(read(text)).toBe(values));
});

describe('sums', () => {
  it.each([
    ['1 + 2 * 3', '[1 + [2 * 3]]'],
    ['1 - 2 - 3', '[[1 - 2] - 3]'],
    ['8 / 4 / 2', '[[8 / 4] / 2]'],
    ['-a * b', '[[-a] * b]'],
    ['2 * -3', '[2 * [-3]]'],
    ['2 * (1 + 2)', '[2 * ([1 + 2])]'],
    ['w-10', 'w-10'],
    ['w - 10', '[w - 10]'],
    ['sqrt(2) + min(1,2)', '[sqrt(2) + min(1, 2)]'],
    ['distance(a.left, a.right) / 2', '[distance(a.left, a.right) / 2]'],
    ['P.x + P.y', '[P.x + P.y]'],
  ])('%s', (text, tree) => expect(read(`let v = ${text}`)).toBe(tree));

  it('takes a function for a name where no bracket follows', () => expect(read('let v = min + 1')).toBe('[min + 1]'));
});

describe('slips in numbers, each with its mend', () => {
  it.each([
    ['od 1-1/2 in', 'number.mixed-fraction 1-1/2', 'od 1 1/2 in'],
    ['let a = 5 / 3/4', 'number.fraction-after-division 3/4', 'let a = 5 / (3/4)'],
    ['od 45,5', 'syntax.decimal-comma 45,5', 'od 45.5'],
    ['size 1,234.5 x 2', 'syntax.decimal-comma 1,234.5', 'size 1234.5 x 2'],
    ['hip (12,5, 30, 40)', 'syntax.decimal-comma 12,5', 'hip (12.5, 30, 40)'],
    ['hip (out 12,5, up 3)', 'syntax.decimal-comma 12,5', 'hip (out 12.5, up 3)'],
    ['leans 45°', 'syntax.degree-sign 45°', 'leans 45 deg'],
    ['leans 45º aft', 'syntax.degree-sign 45º', 'leans 45 deg aft'],
    ['od 1.5"', 'syntax.inch-sign 1.5"', 'od 1.5 in'],
    ['size 1 3/4" x .095"', 'syntax.inch-sign 1 3/4"', 'size 1 3/4 in x .095"'],
    ["od 6''", "syntax.inch-sign 6''", 'od 6 in'],
    ["od 6'", "syntax.inch-sign 6'", 'od 6 ft'],
    ['let a = b + 3 -2', 'syntax.unexpected -', 'let a = b + 3 - 2'],
    ['let a = w -10', 'syntax.unexpected -', 'let a = w - 10'],
    ['homologated 2006-04-01', 'syntax.unexpected 2006-04-01', 'homologated "2006-04-01"'],
    [
      'vehicle { mass 980 kg; homologated 2006-04-01; body open }',
      'syntax.unexpected 2006-04-01',
      'vehicle { mass 980 kg; homologated "2006-04-01"; body open }',
    ],
    ['size 45×2.5', 'syntax.character ×', 'size 45 x 2.5'],
    ['size 45 x2.5', 'syntax.unexpected x2', 'size 45 x 2.5'],
    ['bolts 3 xM8', 'syntax.unexpected xM8', 'bolts 3 x M8'],
    ['od 1½', 'syntax.character ½', 'od 1 1/2'],
    ['let a = 10 millimetres', 'unit.unknown millimetres', 'let a = 10 mm'],
    ['let a = 10 degg', 'unit.unknown degg', 'let a = 10 deg'],
  ])('%s: %s', (text, finding, mend) => {
    expect(told(text)[0]).toBe(finding);
    expect(mended(text)).toBe(mend);
  });

  it.each([
    ['let a = 1e5', 'unit.unknown e5'],
    ['let a = 3/0', 'number.arithmetic 3/0'],
    [`let a = ${'9'.repeat(400)}`, `number.range ${'9'.repeat(400)}`],
  ])('%s: %s', (text, finding) => expect(told(text)).toEqual([finding]));

  it('leaves a triple without blanks alone', () => {
    expect(told('node a = (0,0,118)')).toEqual([]);
    expect(told('let a = max(1,2)')).toEqual([]);
  });

  it('never takes an empty text for nought', () => expect(read('let a = ')).toBe('!?'));
});
