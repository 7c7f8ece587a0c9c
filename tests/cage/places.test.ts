import { describe, expect, it } from 'vitest';
import { at, only, read, thing, told } from './cage-of';

// Frame by ISO 8855: x forward, y left, z up, right-handed.
describe('places without a tube', () => {
  it('offsets by words, in any order, the rest 0', () => {
    const car = read(
      'node a = (100, 200, 300)\nnode b = a + (down 20, aft 350, out 15)\nnode c = a + (in 15)\nnode d = a - (up 20)\n' +
        'node e = (forward 200, right 300, up 10)\nnode f = a + (1, 2, 3)\nnode g = a\nnode h = b + (left a.y)',
    );
    expect(told(car)).toEqual([]);
    expect(at(car, 'b')).toEqual([-250, 215, 280]);
    expect(at(car, 'c')).toEqual([100, 185, 300]);
    expect(at(car, 'd')).toEqual([100, 200, 280]);
    expect(at(car, 'e')).toEqual([200, -300, 10]);
    expect(at(car, 'f')).toEqual([101, 202, 303]);
    expect(at(car, 'g')).toEqual([100, 200, 300]);
    expect(at(car, 'h')).toEqual([-250, 415, 280]);
  });

  it('out goes by the sign of y where it starts, and has no meaning on the centreline', () => {
    const car = read(
      'node a = (0, -200, 0)\nnode b = a + (out 15)\nnode c = (0, 0, 9)\nnode d = c + (out 5)\nnode e = (in 5)',
    );
    expect(at(car, 'b')).toEqual([0, -215, 0]);
    expect(told(car)).toEqual(["place.on-centre 'out'", "place.on-centre 'in'"]);
  });

  it('between: a share, or a length from the first', () => {
    const car = read(
      'node a = (0, 100, 0)\nnode b = (300, 500, 0)\nnode c = between a and b at 40 %\nnode d = between a and b at 125\n' +
        'node e = between (0, 0, 0) and a at 50 %\nnode f = between a and a at 5\nnode g = between a and b at 501',
    );
    expect(at(car, 'c')).toEqual([120, 260, 0]);
    expect(at(car, 'd')).toEqual([75, 200, 0]); // 3-4-5: 500 apart
    expect(at(car, 'e')).toEqual([0, 50, 0]);
    expect(told(car)).toEqual(["place.none 'between a and a at 5'", "place.none '501'"]);
  });

  it('in a plane that leans: measured along it', () => {
    // sin 30 = 1/2: 100 up a plane that leans 30 degrees aft is 50 aft and 100 cos 30 = 86.602540 up.
    const car = read(
      'plane p { at (10, 0, 20); leans 30 deg aft }\nplane q { at (0, 300, 0); runs along; leans 30 deg out }\nplane r { at (0, 300, 5); runs along }\n' +
        'node a = in p (40, 100)\nnode b = in p (right 40, up 100)\nnode c = in q (40, 100)\nnode d = in q (aft 40)\nnode e = in r (up 7)\nnode f = in r (left 7)\nnode g = in p (out 7)',
    );
    expect(at(car, 'a')).toEqual([-40, 40, 106.60254]);
    expect(at(car, 'b')).toEqual([-40, -40, 106.60254]);
    expect(at(car, 'c')).toEqual([40, 350, 86.60254]);
    expect(at(car, 'd')).toEqual([-40, 300, 0]);
    expect(at(car, 'e')).toEqual([0, 300, 12]);
    expect(told(car)).toEqual(["fact.value 'left'", "place.on-centre 'out'"]);
  });
});

/** Two legs of 400 and 300 at a right angle, CLR 100: the arc begins 300 from the first node and is 157.079633 long. */
const ELBOW =
  'section s { od 30; wall 2 }\ndie d { od 30; radius 100 }\n' +
  'node a = (0, 100, 0)\nnode b = (400, 100, 0)\nnode c = (400, 100, 300)\ntube t { section s; die d; path a, b, c; first open; last open }\n';
const elbow = (text: string): ReturnType<typeof read> => read(ELBOW + text);

describe('places on a bent tube', () => {
  it('along the bent centreline, from either end, or by a share', () => {
    const car = elbow(
      'node k = on t at 120 from a\nnode l = on t at 50 from c\nnode m = on t at 0 %\nnode n = on t at 100 %\nnode o = on t at 50 %\nnode p = on t at 30 % from c',
    );
    expect(told(car)).toEqual([]);
    expect(at(car, 'k')).toEqual([120, 100, 0]);
    expect(at(car, 'l')).toEqual([400, 100, 250]);
    expect(at(car, 'm')).toEqual([0, 100, 0]);
    expect(at(car, 'n')).toEqual([400, 100, 300]);
    // Handbook bend allowance: 0.017453 · 100 · 90 = 157.08, so 657.08 in all, half of it 28.54 before the arc's start.
    expect(thing(car, 'node', 'o').on?.station).toBeCloseTo((300 + (Math.PI / 2) * 100 + 200) / 2, 9);
    expect(thing(car, 'node', 'p').on?.station).toBeCloseTo(0.7 * (500 + 50 * Math.PI), 9);
  });

  it('before, after and mid a corner: from where the bend begins or ends', () => {
    const car = elbow('node k = on t at 40 before b\nnode l = on t at 40 after b\nnode m = on t mid b');
    expect(at(car, 'k')).toEqual([260, 100, 0]);
    expect(at(car, 'l')).toEqual([400, 100, 140]);
    // 45 degrees round the centre (300, 100): 100 · sqrt(1/2) = 70.710678.
    expect(at(car, 'm')).toEqual([370.710678, 100, 29.289322]);
  });

  it('where it crosses a plane, and nearest to a place', () => {
    const car = elbow(
      'node k = on t where x = 210\nnode l = on t where z = 200\nnode m = on t nearest (50, 130, 40)\nnode n = on t where x = 350',
    );
    expect(told(car)).toEqual([]);
    expect(at(car, 'k')).toEqual([210, 100, 0]);
    expect(at(car, 'l')).toEqual([400, 100, 200]);
    expect(at(car, 'm')).toEqual([50, 100, 0]);
    // On the arc: cos = 1/2, so z = 100 - 100 sin 60 = 13.397460.
    expect(at(car, 'n')).toEqual([350, 100, 13.39746]);
  });

  it('where two tubes meet: on the first, with what they miss by', () => {
    const car = elbow(
      'node e = (100, 107, -50)\nnode f = (100, 107, 50)\ntube u { section s; path e, f; first open; last open }\nnode k = where t meets u\nnode l = where u meets t',
    );
    expect(at(car, 'k')).toEqual([100, 100, 0]);
    expect(at(car, 'l')).toEqual([100, 107, 0]);
    expect(thing(car, 'node', 'k').miss).toBeCloseTo(7, 9);
  });

  it.each([
    ['node k = on t at 700 from a', "place.none '700'"],
    ['node k = on t at 20 from b', "place.none 'b'"],
    ['node k = on t at 20', "fact.value '20'"],
    ['node k = on t at 120 %', "number.range '120 %'"],
    ['node k = on t at 20 before a', "place.none 'a'"],
    ['node k = on t at 301 before b', "place.none '301'"],
    ['node k = on t at -3 before b', "number.range '-3'"],
    ['node k = on t where x = 500', "place.none 'on t where x = 500'"],
    ['node k = on t where z = 0', "place.several 'on t where z = 0'"],
    ['node k = on t where z = 0 near a', "place.several 'on t where z = 0 near a'"],
    ['node k = on a where z = 1', "name.kind 'a'"],
    ['node k = on tt where z = 1', "name.unknown 'tt'"],
    ['node k = where t meets t', "place.none 'where t meets t'"],
  ])('%s', (text, wanted) => {
    expect(told(elbow(text))).toEqual([wanted]);
  });

  it('at the very end of the tube there is a place', () => {
    expect(told(elbow('node k = on t at 300 before b\nnode l = on t at 0 from a'))).toEqual([]);
  });
});

const BOW =
  'node l = (0, 500, 0)\nnode t = (0, 0, 100)\nnode r = (0, -500, 0)\nsection s { od 30; wall 2 }\ndie d { od 30; radius 100 }\ntube bow { section s; die d; path l, t, r; first open; last open }\n';

describe('several crossings', () => {
  it('are listed, in the unit of the file', () => {
    const finding = only(read(`${BOW}node k = on bow where z = 50`), 'place.several');
    expect(finding.params['places']).toEqual(['(0, 250, 50)', '(0, -250, 50)']);
    expect(finding.params['tube']).toBe('bow');
  });

  it('near tells which, unless they are equally near', () => {
    const car = read(`${BOW}node k = on bow where z = 50 near (0, 1, 0)\nnode m = on bow where z = 50 near t`);
    expect(at(car, 'k')).toEqual([0, 250, 50]);
    expect(told(car)).toEqual(["place.several 'on bow where z = 50 near t'"]);
  });

  it('inside mirror the side of the block decides', () => {
    const car = read(`${BOW}mirror right { node k = on bow where z = 50 }`);
    expect(told(car)).toEqual([]);
    expect(at(car, 'k.right')).toEqual([0, -250, 50]);
    expect(at(car, 'k.left')).toEqual([0, 250, 50]);
  });
});

describe('the corner of a bend is not on the tube', () => {
  const stay = (ends: string): ReturnType<typeof read> =>
    elbow(`node z = (500, 400, 0)\ntube u { section s; path b, z; last open${ends} }`);
  it('told at the node of the path', () => {
    const finding = only(stay(''), 'place.bend-corner');
    expect(finding.params).toMatchObject({ node: 'b', tube: 't', end: 'first' });
    // 100 · (sqrt 2 - 1)
    expect(finding.params['distance']).toMatchObject({ unit: 'mm', value: expect.closeTo(41.421356, 5) as number });
  });
  it('not where the end is told open, or goes past, or stands on a foot', () => {
    expect(told(stay('; first open'))).toEqual([]);
    expect(told(stay('; first past 20'))).toEqual([]);
    expect(
      told(
        elbow('node z = (500, 400, 0)\ntube u { section s; path b, z; last open }\nfoot f { at b; plate 50 x 50 x 3 }'),
      ),
    ).toEqual([]);
  });
  it('not where the corner turns so little that the tube passes it', () => {
    const flat = ELBOW.replace('node c = (400, 100, 300)', 'node c = (700, 100, 20)');
    expect(told(read(`${flat}node z = (500, 400, 0)\ntube u { section s; path b, z; last open }`))).toEqual([]);
  });
});
