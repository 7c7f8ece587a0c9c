import { describe, expect, it } from 'vitest';
import { at, only, read, thing, told } from './cage-of';

describe('names', () => {
  it.each([
    ['node a = b + (up 5)', "name.unknown 'b'"],
    ['node a = (0, 1, 0)\nnode a = (0, 2, 0)', "name.twice 'a'"],
    ['node a = (0, 1, 0)\nmirror left { node a = (0, 2, 0) }', "name.twice 'a'"],
    ['node Crown = (0, 1, 0)\nnode b = crown', "name.case 'crown'"],
    ['plane p { at (0, 0, 0) }\nnode b = p', "name.kind 'p'"],
    ['let h = 5\nnode b = h.x', "name.kind 'h'"],
    ['node a = (0, 1, 0)\nnode b = in a (1, 2)', "name.kind 'a'"],
    ['mirror left { node a = (0, 1, 0) }\nnode b = a', "name.side 'a'"],
    ['mirror left { node a = (0, 1, 0) }\nlet v = a.y', "name.side 'a.y'"],
    ['node a = (0, 1, 0)\nnode b = a.left', "name.side 'a.left'"],
    ['node a = (0, 1, 0)\nnode b = a.middle', "name.unknown 'middle'"],
    ['node a = (0, 1, 0)\nlet v = a.z.x', "name.unknown 'x'"],
    ['let w = 5\nlet v = w-10', "name.unknown 'w-10'"],
    ['section s { od 30; wall 2; material steel }', "name.unknown 'steel'"],
    ['node a = (0, 1, 0)\nadjust b by (up 3)', "name.unknown 'b'"],
    ['mirror left { node a = (0, 1, 0) }\nadjust a by (up 3)', "name.side 'a'"],
    ['section s { od 30; wall 2 }\nnode a = (0, 1, 0)\ntube t { section s; path a }', "fact.value 'a'"],
    [
      'section s { od 30; wall 2 }\nnode a = (0, 1, 0)\nnode b = (0, 9, 0)\ntube t { section s; path a, b; last onto t }',
      "fact.value 't'",
    ],
    ['rules fia-235', "rule.unknown-book 'fia-235'"],
    ['rules shop\nrules shop', "fact.twice 'rules'"],
  ])('%s', (text, wanted) => {
    expect(told(read(text))).toEqual([wanted]);
  });

  it('a name that is not known is told where it stands, and not at what hangs on it', () => {
    expect(told(read('node a = nil\nnode b = a + (up 5)\nnode c = between a and b at 5'))).toEqual([
      "name.unknown 'nil'",
    ]);
  });

  it('a broken line, or an unknown statement, still names its thing', () => {
    const broken = read('node a = (0, 1\nnode b = a + (up 5)');
    expect(told(broken).filter((line) => line.startsWith('name'))).toEqual([]);
    expect(broken.cage.things.get('a')).toMatchObject({ at: null });
    const kind = read(
      'seet s { hip (0, 300, 300) }\nnode n = (0, 1, 0)\nstrap k { seat s; slot left; to t; width 75 }\ntoob t { path n }',
    );
    expect(told(kind).filter((line) => line.startsWith('name'))).toEqual([]);
  });

  it('no name or unit is told inside a line that did not parse', () => {
    const car = read('node n = (nil, 5 deg, ');
    expect(told(car)).toHaveLength(1);
    expect(told(car)[0]).toMatch(/^syntax/);
  });

  it('offers the nearest name, and the sum for a glued minus', () => {
    expect(only(read('node crown = (0, 1, 0)\nnode b = crwon'), 'name.unknown').params).toMatchObject({
      nearest: 'crown',
    });
    expect(only(read('let w = 5\nlet v = w-10'), 'name.unknown').params).toMatchObject({ nearest: 'w - 10' });
    expect(only(read('node Crown = (0, 1, 0)\nnode b = crown'), 'name.case').params).toMatchObject({ known: 'Crown' });
    expect(only(read('mirror left { node a = (0, 1, 0) }\nlet v = a.y'), 'name.side').params).toMatchObject({
      choices: ['a.left.y', 'a.right.y'],
    });
  });

  it('the first of two counts, with a note where it stands', () => {
    const car = read('node a = (0, 1, 0)\nnode a = (0, 2, 0)\nnode b = a');
    expect(at(car, 'b')).toEqual([0, 1, 0]);
    expect(only(car, 'name.twice').notes[0]?.at).toMatchObject({
      place: { file: 'car.cage', span: { start: 5, end: 6 } },
    });
  });

  it('lets, planes, sections, dies and things have spaces of their own; no word is reserved', () => {
    const car = read(
      'let die = 7\nnode die = (1, 2, 3)\nplane die { at die }\nsection die { od 30; wall die / 7 * 2 }\ndie die { od 30; radius 90 }\nnode b = die + (up die)\nnode on = in die (die, up die)\nnode x = (die.x, die, die)',
    );
    expect(told(car)).toEqual(["fact.value '(die, up die)'"]);
    expect(at(car, 'b')).toEqual([1, 2, 10]);
    expect(at(car, 'x')).toEqual([1, 7, 7]);
    expect(car.cage.sections.get('die')?.value?.wall).toBe(2);
  });

  it('names are compared after NFC', () => {
    expect(at(read('node caf\u00e9 = (1, 2, 3)\nnode b = cafe\u0301'), 'b')).toEqual([1, 2, 3]);
  });
});

describe('what a finding is about', () => {
  it('is the thing in whose text it stands, on the side for which it is written', () => {
    expect(only(read('node a = nil'), 'name.unknown').subject).toBe('a');
    expect(only(read('mirror right { node a = nil }'), 'name.unknown').subject).toBe('a.right');
    expect(only(read('section s { od 30; wal 2; wall 2 }'), 'fact.unknown').subject).toBe('s');
  });
});

describe('circles', () => {
  it('name their links, once, whatever stands first', () => {
    const one = only(read('let a = b\nlet b = c + 1\nlet c = 2 * a\nlet d = a'), 'name.cycle');
    const other = only(read('let c = 2 * a\nlet d = a\nlet b = c + 1\nlet a = b'), 'name.cycle');
    expect(one.params['links']).toBe('a -> b -> c -> a');
    expect(other.params).toEqual(one.params);
  });
  it.each([
    ['let a = a', 'a -> a'],
    [
      'section s { od 30; wall 2 }\nnode a = on t at 5 from a\nnode b = (0, 1, 0)\ntube t { section s; path a, b }',
      'a -> t -> a',
    ],
    ['mirror left { node a = b.right\nnode b = a }', 'a -> b -> a'],
    ['node a = (0, 1, 0)\nadjust a by (up a.z)', 'a -> a'],
    ['plane p { at n }\nnode n = in p (1, 2)', 'n -> p -> n'],
    [
      'section s { od 30; wall 2 }\ndie d { od 30; radius r }\nlet r = n.x\nnode n = on t at 5 from e\nnode e = (0, 1, 0)\nnode f = (9, 9, 0)\nnode g = (0, 99, 0)\ntube t { section s; die d; path e, f, g }',
      'd -> r -> n -> t -> d',
    ],
  ])('%s', (text, links) => {
    const car = read(text);
    expect(told(car)).toHaveLength(1);
    expect(only(car, 'name.cycle').params['links']).toBe(links);
  });
  it('what only looks like one is none', () => {
    // The tube hangs on its nodes, the corner named after `before` is only looked for on its path.
    const car = read(
      'section s { od 30; wall 2 }\nmirror left { node a = (0, 200, 0); node b = on t at 50 % \nnode c = (0, 200, 99); tube t { section s; path a, c; first open; last open } }',
    );
    expect(told(car)).toEqual([]);
  });
  it('chains of any length are no deeper than two', () => {
    const n = 30_000;
    const lets = Array.from({ length: n }, (_, i) => `let v${i} = ${i + 1 < n ? `v${i + 1} + 1` : '1'}`).join('\n');
    expect(read(lets).cage.lets.get('v0')?.value?.value).toBe(n);
    const nodes = Array.from(
      { length: n },
      (_, i) => `node n${i} = ${i + 1 < n ? `n${i + 1} + (up 1)` : '(0, 1, 0)'}`,
    ).join('\n');
    expect(at(read(nodes), 'n0')).toEqual([0, 1, n - 1]);
    const circle = Array.from({ length: n }, (_, i) => `let v${i} = v${(i + 1) % n}`).join('\n');
    expect(told(read(circle))).toHaveLength(1);
  });
});

describe('files', () => {
  it('a file sees itself and what it uses, and what those use', () => {
    const car = read('use "a.cage"\nnode n = b', {
      'a.cage': 'use "b.cage"\nnode a = (0, 1, 0)',
      'b.cage': 'node b = (0, 2, 0)',
    });
    expect(told(car)).toEqual([]);
    expect(at(car, 'n')).toEqual([0, 2, 0]);
  });
  it('a used file does not see the one that uses it', () => {
    const car = read('use "a.cage"\nnode n = (0, 1, 0)', { 'a.cage': 'node a = n' });
    expect(told(car)).toEqual(["name.unknown 'n'"]);
    expect(only(car, 'name.unknown').params['hint']).toContain('car.cage');
  });
  it('reached twice counts once', () => {
    const car = read('use "a.cage"\nuse "b.cage"\nuse "c.cage"\nuse "a.cage"', {
      'a.cage': 'use "c.cage"',
      'b.cage': 'use "c.cage"',
      'c.cage': 'node c = (0, 1, 0)',
    });
    expect(told(car)).toEqual([]);
  });
  it.each([
    ['use "nil.cage"', 'use.missing \'"nil.cage"\''],
    ['use "../x.cage"', 'use.outside \'"../x.cage"\''],
    ['use "car.cage"', 'use.cycle \'"car.cage"\''],
    ['use "a.cage"', 'use.cycle \'"a.cage"\''],
  ])('%s', (text, wanted) => {
    expect(told(read(text, { 'a.cage': 'use "b.cage"\nnode a = (0, 1, 0)', 'b.cage': 'use "car.cage"' }))).toEqual([
      wanted,
    ]);
  });
  it('a circle names its files, and everything in it is still known', () => {
    const car = read('use "a.cage"\nnode n = a', {
      'a.cage': 'use "b.cage"\nnode a = (0, 1, 0)',
      'b.cage': 'use "a.cage"',
    });
    expect(only(car, 'use.cycle').params['links']).toBe('a.cage -> b.cage -> a.cage');
    expect(at(car, 'n')).toEqual([0, 1, 0]);
  });
  it('names are unique across the files of a car; the judged file counts first', () => {
    const car = read('use "a.cage"\nnode n = (0, 1, 0)\nnode m = n', { 'a.cage': 'node n = (0, 2, 0)' });
    expect(told(car)).toEqual(["name.twice 'n'"]);
    expect(at(car, 'm')).toEqual([0, 1, 0]);
  });
  it('cage, rules, vehicle and waive of a used file do not count; units do, each in its own', () => {
    const car = read('use "a.cage"\nnode m = a', {
      'a.cage':
        'cage "Part"\nunits in\nrules nil\nvehicle { mass 5 }\nwaive nil.nil on nil because "x"\nnode a = (1, 1, 1)',
    });
    expect(told(car)).toEqual([]);
    expect(car.cage).toMatchObject({
      isCar: false,
      title: null,
      units: 'mm',
      rules: ['shop'],
      vehicle: null,
      waivers: [],
    });
    expect(at(car, 'm')).toEqual([25.4, 25.4, 25.4]);
  });
});

describe('the head of a car', () => {
  it('is read', () => {
    const { cage } = read(
      'cage "Bar"\nunits in\nrules fia-253, shop\nvehicle { mass 980 kg without driver; body closed }',
    );
    expect(cage).toMatchObject({ isCar: true, title: 'Bar', units: 'in', rules: ['fia-253', 'shop'] });
    expect(cage.vehicle).toMatchObject({ mass: 980, withDriver: false, body: 'closed' });
  });
  it('waivers name what they cover, both twins where a bare name is mirrored', () => {
    const car = read(
      'mirror left { node a = (0, 1, 0) }\nnode b = (0, 1, 0)\nwaive fia-253 strap.drop on a up to 14 deg because "measured"\nwaive strap.skew on a.right up to 5 because "z"\nwaive seat.gap on b first up to 2 in because "y"\nwaive strap.dropp on b because "x"',
    );
    expect(told(car)).toEqual(["waive.unknown 'strap.dropp'"]);
    const by = new Map(car.cage.waivers.map((waiver) => [waiver.code, waiver]));
    expect(by.get('strap.drop')).toMatchObject({
      book: 'fia-253',
      on: ['a.left', 'a.right'],
      upTo: { value: expect.closeTo(14, 9) as number, kind: 'angle' },
      because: 'measured',
    });
    expect(by.get('strap.skew')).toMatchObject({ book: null, on: ['a.right'], upTo: { value: 5, kind: 'plain' } });
    expect(by.get('seat.gap')).toMatchObject({ on: ['b'], end: 'first', upTo: { value: 50.8, kind: 'length' } });
  });
});

describe('seats and straps', () => {
  it('slots from the hip: up the back line, turned with the seat', () => {
    // sin 30 = 1/2, cos 30 = 0.866025: 500 up the back is 250 aft and 433.0127 up; yaw 90 would turn aft to -y.
    const car = read(
      'seat a { hip (100, 300, 200); recline 30; slot-height 500; slot-spacing 220; back 45 }\nseat b { hip (100, 300, 200); recline 30; yaw 30 deg left; slot-height 500; slot-spacing 220; back 45 }',
    );
    expect(thing(car, 'seat', 'a').slots).toEqual([expect.closeTo(-150, 9), 300, expect.closeTo(633.0127, 4)]);
    expect(thing(car, 'seat', 'b').slots).toEqual([
      expect.closeTo(100 - 250 * Math.cos(Math.PI / 6), 9),
      expect.closeTo(300 - 125, 9),
      expect.closeTo(633.0127, 4),
    ]);
  });
  it('outer is away from the centreline, and has no meaning on it', () => {
    const strap = (y: number): ReturnType<typeof read> =>
      read(
        `section s { od 30; wall 2 }\nnode a = (0, 500, 0)\nnode b = (0, -500, 0)\ntube t { section s; path a, b; first open; last open }\nseat q { slots (300, ${y}, 700); recline 10; slot-spacing 220; back 45 }\nstrap o { seat q; slot outer; to t; width 75 }\nstrap i { seat q; slot inner; to t; width 75 }`,
      );
    expect(thing(strap(300), 'strap', 'o').slot).toBe('left');
    expect(thing(strap(300), 'strap', 'i').slot).toBe('right');
    expect(thing(strap(-300), 'strap', 'o').slot).toBe('right');
    expect(told(strap(0))).toEqual(["place.on-centre 'outer'", "place.on-centre 'inner'"]);
  });
});

describe('where names stand', () => {
  it('each occurrence with what it means', () => {
    const text = 'mirror left { node foot = (0, 1, 0) }\nnode b = foot.left + (up foot.right.z)';
    const { cage } = read(text);
    const uses = cage.uses
      .filter((use) => use.target === 'thing:foot')
      .map(({ place, definition, side }) => [place.span.start, definition, side]);
    expect(uses).toEqual([
      [text.indexOf('foot ='), true, 'left'],
      [text.indexOf('foot.left'), false, 'left'],
      [text.indexOf('foot.right'), false, 'right'],
    ]);
  });
  it('the same text at two places is two definitions', () => {
    const car = read('node a = (0, 1, 0)\nuse "p.cage"', { 'p.cage': 'node b = (0, 1, 0)\nlet w = 5' });
    expect(told(car)).toEqual([]);
    const same = read('use "p.cage"\nlet w = v', { 'p.cage': 'let w = v\nlet v = 2' });
    expect(told(same)).toEqual(["name.twice 'w'"]);
  });
});
