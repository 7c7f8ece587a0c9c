import { describe, expect, it } from 'vitest';
import { at, read, thing, told } from './cage-of';

const PARTS = 'section s { od 30; wall 2 }\ndie d { od 30; radius 60 }\n';

describe('mirror', () => {
  it('gives both sides; bare names mean the same side', () => {
    const car = read(
      'mirror left { node a = (1, 20, 3)\nnode b = a + (out 5, up 1)\nnode c = a.right + (up 2) }\nnode d = b.right + (out 1)',
    );
    expect(told(car)).toEqual([]);
    expect(at(car, 'a.left')).toEqual([1, 20, 3]);
    expect(at(car, 'a.right')).toEqual([1, -20, 3]);
    expect(at(car, 'b.left')).toEqual([1, 25, 4]);
    expect(at(car, 'b.right')).toEqual([1, -25, 4]);
    // The other side of the other side: `a.right` in the text of the twin is the left one.
    expect(at(car, 'c.left')).toEqual([1, -20, 5]);
    expect(at(car, 'c.right')).toEqual([1, 20, 5]);
    expect(at(car, 'd')).toEqual([1, -26, 4]);
    expect(thing(car, 'node', 'a.left').twin).toBe(false);
    expect(thing(car, 'node', 'a.right').twin).toBe(true);
  });

  it('may be written for the right', () => {
    const car = read('mirror right { node a = (1, -20, 3); node b = a + (out 5) }');
    expect(at(car, 'b.right')).toEqual([1, -25, 3]);
    expect(at(car, 'b.left')).toEqual([1, 25, 3]);
    expect(thing(car, 'node', 'a.left').twin).toBe(true);
  });

  it('the twin is what the text gives in the image of the car: points outside are reflected', () => {
    const car = read(
      'node top = (0, 10, 100)\nlet w = top.y\nmirror left { node a = top + (left 5)\nnode b = (0, 50 + w, 0) }',
    );
    expect(at(car, 'a.left')).toEqual([0, 15, 100]);
    // In the image top stands at y = -10; 5 to the left of it is -5; reflected back 5.
    expect(at(car, 'a.right')).toEqual([0, 5, 100]);
    expect(at(car, 'b.left')).toEqual([0, 60, 0]);
    // w is -10 there: 40, reflected -40.
    expect(at(car, 'b.right')).toEqual([0, -40, 0]);
  });

  it('before CORNER means the same bend on both sides, though the tube runs across', () => {
    const car = read(
      `${PARTS}mirror left { node f = (0, 300, 0)\nnode k = (0, 300, 400)\nnode p = on hoop at 40 before k\nnode q = on hoop at 30 from f\nnode m = on hoop mid k\nnode w = on hoop where z = 200 }\n` +
        'tube hoop { section s; die d; path f.left, k.left, k.right, f.right; first open; last open }',
    );
    expect(told(car)).toEqual([]);
    expect(at(car, 'p.left')).toEqual([0, 300, 300]);
    expect(at(car, 'p.right')).toEqual([0, -300, 300]);
    expect(at(car, 'q.right')).toEqual([0, -300, 30]);
    expect(at(car, 'w.right')).toEqual([0, -300, 200]);
    const [left, right] = [at(car, 'm.left'), at(car, 'm.right')];
    expect(right).toEqual([left?.[0], 0 - (left?.[1] ?? 0), left?.[2]]);
    // Stations of the tube itself: from the left foot.
    const total = thing(car, 'tube', 'hoop').centreline?.length ?? 0;
    expect(thing(car, 'node', 'q.left').on).toEqual({ tube: 'hoop', station: 30 });
    expect(thing(car, 'node', 'q.right').on?.station).toBeCloseTo(total - 30, 9);
  });

  it('a place on a tube that lies to one side is on that tube, for the twin too', () => {
    // The image of a car is the image of each of its tubes: what is on the diagonal there, is on the diagonal here.
    const car = read(
      `${PARTS}mirror left { node low = (0, 500, 0)\nnode high = (0, 450, 800)\nnode foot = (-600, 300, 0)\n` +
        'node share = on diagonal at 30 %\nnode level = on diagonal where z = 200\nnode next = on diagonal nearest foot }\n' +
        'tube diagonal { section s; path low.left, high.right; first open; last open }\nadjust low.right by (down 9, out 7)',
    );
    expect(told(car)).toEqual([]);
    expect(at(car, 'share.left')).toEqual([0, 215, 240]);
    expect(at(car, 'share.right')).toEqual([0, 215, 240]);
    expect(at(car, 'level.left')).toEqual([0, 262.5, 200]);
    expect(at(car, 'level.right')).toEqual([0, 262.5, 200]);
    // x = 0 on the whole tube, so the nearest point divides it as the foot's image on it does.
    for (const name of ['next.left', 'next.right']) {
      const [, y = 0, z = 0] = at(car, name) ?? [];
      expect((500 - y) / 950).toBeCloseTo(z / 800, 9);
    }
    expect(thing(car, 'node', 'share.right').on).toEqual(thing(car, 'node', 'share.left').on);
  });

  it('planes are reflected, and the pairs in them keep their left', () => {
    const car = read(
      'plane p { at (0, 0, 0); leans 30 deg aft }\nplane q { at (0, 200, 0); runs along; leans 30 deg in }\nmirror left { node a = in p (out 40, up 100)\nnode b = in p (40, 100)\nnode c = in q (10, 100) }',
    );
    expect(at(car, 'a.right')).toEqual([-50, -40, 86.60254]);
    expect(at(car, 'b.right')).toEqual([-50, -40, 86.60254]);
    expect(at(car, 'c.left')).toEqual([10, 150, 86.60254]);
    // A plane that stands once stays where it is: its image, reflected back, is itself.
    expect(at(car, 'c.right')).toEqual([10, 150, 86.60254]);
  });

  it('adjust moves the final value, and what hangs on the node follows on that side', () => {
    const car = read(
      `${PARTS}mirror left { node a = (0, 300, 0)\nnode b = a + (up 100)\nnode c = on t at 50 %\ntube t { section s; path a, b; first open; last open } }\nadjust a.right by (down 4, out 1)`,
    );
    expect(told(car)).toEqual([]);
    expect(at(car, 'a.right')).toEqual([0, -301, -4]);
    expect(at(car, 'b.right')).toEqual([0, -301, 96]);
    expect(at(car, 'c.right')).toEqual([0, -301, 46]);
    expect(at(car, 'a.left')).toEqual([0, 300, 0]);
    expect(at(car, 'b.left')).toEqual([0, 300, 100]);
  });

  it('adjust of the written side shows in the other only where the text asks for it', () => {
    const car = read('mirror left { node a = (0, 300, 0)\nnode b = a.right + (up 1) }\nadjust a.left by (up 7)');
    expect(at(car, 'a.left')).toEqual([0, 300, 7]);
    expect(at(car, 'a.right')).toEqual([0, -300, 0]);
    expect(at(car, 'b.left')).toEqual([0, -300, 1]);
    expect(at(car, 'b.right')).toEqual([0, 300, 8]);
  });

  it('everything in it exists on both sides, with its sides swapped', () => {
    const car = read(
      `${PARTS}mirror left {
  node a = (0, 300, 0)
  node b = (0, 300, 400)
  node c = (-300, 250, 0)
  tube t { section s; path a, b; last onto u; split by u }
  tube u { section s; path c, b; first past 20; last onto t.right }
  foot f { at a; plate 140 x 100 x 3 turned 20 deg; lies 6 deg up aft, 3 deg up out }
  vent u -> t { at b; dia 5 }
  vent t -> air { at a; from 30; clock 120; dia 5 }
  seat q { slots (300, 350, 700); recline 10; yaw 3 deg in; slot-spacing 220; back 45; shoulder (forward 110, out 5, up 35) }
  strap o { seat q; slot outer; to bar; at y = 385; width 75 }
  strap l { seat q; slot left; to bar; width 75 }
  collar k { on bar; at y = 480; width 20 }
  joint b, a { order t, u }
}
node e = (-100, 400, 700)
node g = (-100, -400, 700)
tube bar { section s; path e, g; first open; last open }`,
    );
    expect(told(car)).toEqual([]);
    expect(thing(car, 'tube', 't.right')).toMatchObject({
      path: ['a.right', 'b.right'],
      last: { kind: 'onto', hosts: ['u.right'] },
      splitBy: 'u.right',
    });
    expect(thing(car, 'tube', 'u.right')).toMatchObject({
      first: { kind: 'past', length: 20 },
      last: { kind: 'onto', hosts: ['t.left'] },
    });
    const [fl, fr] = [thing(car, 'foot', 'f.left'), thing(car, 'foot', 'f.right')];
    expect(fl.plate?.turned).toBeCloseTo((20 * Math.PI) / 180, 12);
    expect(fr.plate?.turned).toBe(0 - (fl.plate?.turned ?? 0));
    expect(fl.lies).toEqual({
      kind: 'slopes',
      aft: expect.closeTo((6 * Math.PI) / 180, 12) as number,
      left: expect.closeTo((3 * Math.PI) / 180, 12) as number,
    });
    expect(fr.lies).toMatchObject({ left: expect.closeTo((-3 * Math.PI) / 180, 12) as number });
    const vents = [...car.cage.things.values()].flatMap((one) => (one.kind === 'vent' ? [one] : []));
    expect(vents.map((v) => [v.tube, v.to, v.node])).toEqual([
      ['u.left', 't.left', 'b.left'],
      ['u.right', 't.right', 'b.right'],
      ['t.left', { air: true }, 'a.left'],
      ['t.right', { air: true }, 'a.right'],
    ]);
    expect(vents[3]?.clock).toBe(0 - (vents[2]?.clock ?? 0));
    const [ql, qr] = [thing(car, 'seat', 'q.left'), thing(car, 'seat', 'q.right')];
    // In: the left seat turns to the right, which is negative about up (right-handed).
    expect(ql.yaw).toBeCloseTo((-3 * Math.PI) / 180, 12);
    expect(qr.yaw).toBeCloseTo((3 * Math.PI) / 180, 12);
    expect(ql.shoulder).toEqual([110, 5, 35]);
    expect(qr.shoulder).toEqual([110, -5, 35]);
    expect(qr.slots).toEqual([300, -350, 700]);
    expect(thing(car, 'strap', 'o.left')).toMatchObject({
      seat: 'q.left',
      slot: 'left',
      tube: 'bar',
      at: { axis: 'y', value: 385 },
    });
    expect(thing(car, 'strap', 'o.right')).toMatchObject({
      seat: 'q.right',
      slot: 'right',
      at: { axis: 'y', value: -385 },
    });
    expect(thing(car, 'strap', 'l.right').slot).toBe('right');
    expect(thing(car, 'collar', 'k.right').at).toEqual({ axis: 'y', value: -480 });
    expect(thing(car, 'joint', 'joint:0.right')).toMatchObject({
      nodes: ['b.right', 'a.right'],
      order: ['t.right', 'u.right'],
    });
  });

  it.each([
    ['let a = 1', "mirror.not-here 'let'"],
    ['material m { yield 350 MPa }', "mirror.not-here 'material'"],
    ['section q { od 30; wall 2 }', "mirror.not-here 'section'"],
    ['die q { od 30; radius 90 }', "mirror.not-here 'die'"],
    ['plane p { at (0, 0, 0) }', "mirror.not-here 'plane'"],
    ['units mm', "mirror.not-here 'units'"],
    ['rules shop', "mirror.not-here 'rules'"],
    ['node k = (0, 4, 0)\nadjust k by (up 4)', "mirror.not-here 'adjust'"],
    ['node c = (0, 0, 9)', "name.side 'c'"],
  ])('%s cannot stand in it', (text, wanted) => {
    expect(told(read(`mirror left { ${text} }`))).toEqual([wanted]);
  });

  it('a slip in its word spoils that word and nothing that stands in it', () => {
    const whole = `${PARTS}mirror right {\n  node a = (0, -500, 0)\n  node b = a + (out 5, up 700)\n  tube t { section s; path a, b; first open; last open }\n}\nnode c = a.left + (up 10)`;
    for (const word of ['mirro', 'mirrorr', 'Mirror']) {
      const car = read(whole.replace('mirror', word));
      expect(told(car)).toEqual([`kind.unknown '${word}'`]);
      expect(at(car, 'c')).toEqual([0, 500, 10]);
      expect(at(car, 'b.right')).toEqual([0, -505, 700]);
      expect(thing(car, 'tube', 't.left').path).toEqual(['a.left', 'b.left']);
    }
  });

  it('what cannot stand in it is known all the same', () => {
    expect(told(read('mirror left { let h = 5 }\nnode a = (h, 0, 0)'))).toEqual(["mirror.not-here 'let'"]);
  });

  it('a fault in both worlds is told once, at what is written', () => {
    const car = read(
      `${PARTS}mirror left { node a = (0, 300, 0); node b = (0, 300, 90); tube t { section s; path a, b; first open; last open }; node c = on t where z = 100 }`,
    );
    expect(told(car)).toEqual(["place.none 'on t where z = 100'"]);
    expect(car.findings[0]?.subject).toBe('c.left');
  });

  it('a fault of the twin alone is told at the text, with the name of the twin', () => {
    const car = read(
      `${PARTS}mirror left { node a = (0, 300, 0); node b = (0, 300, 90); tube t { section s; path a, b; first open; last open }; node c = on t where z = 80 }\nadjust b.right by (down 20)`,
    );
    expect(told(car)).toEqual(["place.none 'on t where z = 80'"]);
    expect(car.findings[0]?.subject).toBe('c.right');
    expect(car.findings[0]?.params['tube']).toBe('t.right');
  });
});
