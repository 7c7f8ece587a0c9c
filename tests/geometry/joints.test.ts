/** Language page, "What ends where": ends that share a tube, a foot or a node, their order, splits, and twins. */
import { describe, expect, it } from 'vitest';
import { mirrorY } from '../../server/centreline/vector';
import type { Vec3 } from '../../server/centreline/vector';
import { shapeOf } from '../../server/geometry/index';
import type { End, Part, Shape } from '../../server/geometry/shape';
import { CarMaker, die, OPEN, onto } from './car-maker';

const codes = (shape: Shape): readonly string[] =>
  shape.findings
    .map((f) => f.code)
    .filter((code) => !code.startsWith('space.') && !code.startsWith('foot.outside'))
    .sort();
const part = (shape: Shape, name: string): Part => {
  const found = shape.parts.get(name);
  if (found === undefined) throw new Error(`no part ${name}`);
  return found;
};
const end = (shape: Shape, name: string, which: 'first' | 'last'): End =>
  part(shape, name).ends[which === 'first' ? 0 : 1];

/** A rail of od 45 along y, and two tubes that leave from places on it. */
const onRail = (
  one: { readonly at: number; readonly to: Vec3; readonly od?: number },
  two: { readonly at: number; readonly to: Vec3; readonly od?: number },
): CarMaker =>
  new CarMaker()
    .node('r1', [0, -500, 0])
    .node('r2', [0, 500, 0])
    .tube('rail', ['r1', 'r2'], { od: 45, first: OPEN, last: OPEN })
    .node('p', [0, one.at, 0])
    .node('p2', one.to)
    .node('q', [0, two.at, 0])
    .node('q2', two.to)
    .tube('one', ['p', 'p2'], { od: one.od ?? 38, last: OPEN })
    .tube('two', ['q', 'q2'], { od: two.od ?? 38, last: OPEN });

describe('ends on one tube that runs through', () => {
  it('far apart do not cut each other', () => {
    const shape = shapeOf(onRail({ at: 0, to: [300, 0, 0] }, { at: 60, to: [300, 60, 0] }).cage());
    expect(codes(shape)).toEqual([]);
    expect(end(shape, 'two', 'first').hosts).toEqual(['rail']);
  });

  it('that overlap are one joint, though their nodes differ: the larger diameter stays whole', () => {
    // They spread like a V, 5 apart at the rail.
    const shape = shapeOf(onRail({ at: 0, to: [300, -60, 0], od: 32 }, { at: 5, to: [300, 155, 0] }).cage());
    expect(codes(shape)).toEqual(['cope.order-guessed']);
    // The larger one meets the rail at the smaller angle: the diameter counts first.
    expect(end(shape, 'two', 'first').hosts).toEqual(['rail']);
    expect(end(shape, 'one', 'first').hosts).toEqual(['rail', 'two']);
  });

  it('that run along inside each other are no joint: they clash', () => {
    // Parallel, 30 apart, with 19 + 16 = 35 of radii: no cope comes out of it.
    const shape = shapeOf(onRail({ at: 0, to: [300, 0, 0], od: 32 }, { at: 30, to: [300, 30, 0] }).cage());
    expect(codes(shape)).toEqual(['tube.clash']);
    expect(shape.findings.find((f) => f.code === 'tube.clash')?.measured?.value).toBeCloseTo(5, 6);
  });

  it('of one size: the larger angle to the tube that runs through stays whole', () => {
    const shape = shapeOf(onRail({ at: 0, to: [200, 200, 0] }, { at: 10, to: [300, 10, 0] }).cage());
    expect(end(shape, 'two', 'first').hosts).toEqual(['rail']);
    expect(end(shape, 'one', 'first').hosts).toEqual(['rail', 'two']);
    const [guess] = shape.findings.filter((f) => f.code === 'cope.order-guessed');
    expect(guess?.params['first']).toBe('two');
    expect(guess?.params['others']).toEqual(['one']);
    expect(guess?.params['nodes']).toEqual(['p', 'q']);
    expect(guess?.at).toEqual({ kind: 'thing', thing: 'p' });
  });

  it('of one size and angle: the name decides', () => {
    const shape = shapeOf(onRail({ at: 0, to: [200, 200, 0] }, { at: 0, to: [200, -200, 0] }).cage());
    expect(end(shape, 'one', 'first').hosts).toEqual(['rail']);
    expect(end(shape, 'two', 'first').hosts).toEqual(['rail', 'one']);
  });

  it('joint … order decides, for all nodes that it names, and then nothing is guessed', () => {
    const car = onRail({ at: 0, to: [200, 200, 0] }, { at: 10, to: [300, 10, 0] });
    const shape = shapeOf(car.joint(['p', 'q'], ['rail', 'one', 'two']).cage());
    expect(codes(shape)).toEqual([]);
    expect(end(shape, 'one', 'first').hosts).toEqual(['rail']);
    expect(end(shape, 'two', 'first').hosts).toEqual(['rail', 'one']);
  });

  it('what is not listed comes after what is', () => {
    const car = onRail({ at: 0, to: [200, 200, 0], od: 32 }, { at: 10, to: [300, 10, 0] });
    const shape = shapeOf(car.joint(['p', 'q'], ['one']).cage());
    expect(end(shape, 'one', 'first').hosts).toEqual(['rail']);
    expect(end(shape, 'two', 'first').hosts).toEqual(['rail', 'one']);
    expect(codes(shape)).not.toContain('cope.order-guessed');
  });

  it('a tube that runs through is cut by none, whatever the order says', () => {
    const car = onRail({ at: 0, to: [300, 0, 0] }, { at: 200, to: [300, 200, 0] });
    const shape = shapeOf(car.joint(['p'], ['one', 'rail']).cage());
    expect(codes(shape)).toEqual([]);
    expect(end(shape, 'one', 'first').hosts).toEqual(['rail']);
    expect(part(shape, 'rail').cutLength).toBeCloseTo(1000, 9);
  });

  it('opposite ends do not cut each other', () => {
    const shape = shapeOf(onRail({ at: 0, to: [300, 0, 0] }, { at: 0, to: [-300, 0, 0] }).cage());
    expect(codes(shape)).toEqual([]);
    expect(end(shape, 'one', 'first').hosts).toEqual(['rail']);
    expect(end(shape, 'two', 'first').hosts).toEqual(['rail']);
  });

  it('a host is its half: the second of a square K is cut by the first on its own side only', () => {
    // Both square to the rail, one up, one forward: they meet under 90 degrees about the rail.
    const shape = shapeOf(onRail({ at: 0, to: [300, 0, 0] }, { at: 0, to: [0, 0, 300] }).cage());
    const two = end(shape, 'two', 'first');
    expect(two.hosts).toEqual(['rail', 'one']);
    // The leg stands upright: clock 0 is FRONT, toward one. There the wall leaves one's side at R = 19 of its top, but
    // the rail's at sqrt(22.5² - 19²): the larger counts; aft, where one is not, the rail alone.
    expect(two.clockZero?.name).toBe('FRONT');
    expect(two.ordinates[0]?.outer).toBeCloseTo(19, 8);
    expect(two.ordinates[18]?.outer).toBeCloseTo(Math.sqrt(22.5 ** 2 - 19 ** 2), 8);
  });
});

describe('ends on a foot', () => {
  const hoop = (): CarMaker =>
    new CarMaker()
      .nodes('foot', [0, 600, 0])
      .nodes('crown', [0, 500, 1000])
      .tube('hoop', ['foot.left', 'crown.left', 'crown.right', 'foot.right'], { od: 45, die: die(45, 135) });

  it('are cut by the plate: its plane, and what the saw wants', () => {
    const shape = shapeOf(hoop().foot('shoe.left', 'foot.left').foot('shoe.right', 'foot.right').cage());
    expect(codes(shape)).toEqual([]);
    const e = end(shape, 'hoop', 'first');
    expect(e.fit).toBe('foot');
    expect(e.hosts).toEqual(['shoe.left']);
    // The leg leans inward by 100 in 1000: so much is the saw off square.
    expect(e.sawAngle).toBeCloseTo(Math.atan2(100, 1000), 9);
    expect(e.includedAngle).toBeNull();
    expect(e.depth).toBeCloseTo((45 * 100) / 1000, 9);
    expect(e.minCut).toBeCloseTo(-2.25, 9);
    expect(e.clockZero?.name).toBe('FRONT');
    // FRONT at 0; looking up the leg (first to last), clockwise from forward: right at 90 degrees, left at 270. The leg leans
    // to the right, so on a level plate its left side reaches farther down... the long point is at the outside.
    for (const o of e.ordinates) expect(o.gap).toBe(0);
    const left = e.ordinates.find((o) => Math.abs(o.clock - (3 * Math.PI) / 2) < 1e-9);
    const right = e.ordinates.find((o) => Math.abs(o.clock - Math.PI / 2) < 1e-9);
    const long = (left?.cut ?? 0) < (right?.cut ?? 0) ? (3 * Math.PI) / 2 : Math.PI / 2;
    expect(e.sawClock).toBeCloseTo(long, 9);
    expect(Math.min(left?.cut ?? 0, right?.cut ?? 0)).toBeCloseTo(-2.25, 9);
  });

  it('square plates cut square; a plate with slopes is cut by its own plane', () => {
    const shape = shapeOf(
      hoop().foot('shoe.left', 'foot.left', 'square').foot('shoe.right', 'foot.right', { aft: 10, left: 0 }).cage(),
    );
    expect(end(shape, 'hoop', 'first').sawAngle).toBe(0);
    expect(end(shape, 'hoop', 'first').depth).toBeCloseTo(0, 9);
    // Angle between the leg (0, 100, 1000 of the right side leans to +y) and the normal (tan 10°, 0, 1).
    const leg: Vec3 = [0, 100 / Math.hypot(100, 1000), 1000 / Math.hypot(100, 1000)];
    const n = Math.cos((10 * Math.PI) / 180);
    expect(end(shape, 'hoop', 'last').sawAngle).toBeCloseTo(Math.acos(leg[2] * n), 9);
  });

  it('a diagonal to the same foot is cut by the plate and by the hoop', () => {
    const shape = shapeOf(
      hoop()
        .foot('shoe.left', 'foot.left')
        .foot('shoe.right', 'foot.right')
        .node('top', [0, 0, 1000])
        .tube('diagonal', ['top', 'foot.right'])
        .cage(),
    );
    expect(codes(shape)).toEqual(['cope.order-guessed', 'cope.shallow'].filter((c) => codes(shape).includes(c)));
    const e = end(shape, 'diagonal', 'last');
    expect(e.fit).toBe('cope');
    expect(e.hosts).toEqual(['hoop', 'shoe.right']);
    expect(end(shape, 'hoop', 'last').hosts).toEqual(['shoe.right']);
  });

  it('told open are square at the node', () => {
    const shape = shapeOf(
      new CarMaker()
        .node('a', [0, 0, 0])
        .node('b', [0, 300, 300])
        .tube('leg', ['a', 'b'], { first: OPEN, last: OPEN })
        .foot('shoe', 'a')
        .cage(),
    );
    const e = end(shape, 'leg', 'first');
    expect([e.fit, e.hosts, e.minCut]).toEqual(['open', [], 0]);
    expect(codes(shape)).toEqual([]);
  });

  it('a foot within 0.5 mm is the foot of the end; one on which nothing stands is told', () => {
    const shape = shapeOf(
      new CarMaker()
        .node('a', [0, 0, 0])
        .node('a2', [0, 0.4, 0])
        .node('b', [0, 0, 300])
        .node('c', [200, 0, 0])
        .tube('leg', ['a', 'b'], { last: OPEN })
        .foot('shoe', 'a2')
        .foot('spare', 'c')
        .cage(),
    );
    expect(end(shape, 'leg', 'first').hosts).toEqual(['shoe']);
    expect(codes(shape)).toEqual(['foot.no-tube']);
    expect(shape.findings.find((f) => f.code === 'foot.no-tube')?.subject).toBe('spare');
  });
});

describe('joint statements', () => {
  it('name nodes where tubes end, and tubes that are there', () => {
    const car = onRail({ at: 0, to: [300, 0, 0] }, { at: 200, to: [300, 200, 0] })
      .node('far', [900, 900, 900])
      .joint(['far'], ['one', 'two'])
      .joint(['p'], ['one', 'two']);
    const found = shapeOf(car.cage()).findings.filter((f) => f.code.startsWith('joint.'));
    expect(found.map((f) => [f.code, f.subject])).toEqual([
      ['joint.no-ends', 'joint:0'],
      ['joint.not-there', 'joint:1'],
    ]);
    expect(found[1]?.params['tube']).toBe('two');
    expect(found[1]?.at).toEqual({ kind: 'thing', thing: 'joint:1', fact: 'order', item: 1 });
  });
});

describe('split by', () => {
  const cross = (lift = 0): CarMaker =>
    new CarMaker()
      .node('a', [-300, 0, -300])
      .node('b', [300, 0, 300])
      .node('c', [-300, lift, 300])
      .node('d', [300, lift, -300])
      .tube('whole', ['a', 'b'], { first: OPEN, last: OPEN })
      .tube('cut', ['c', 'd'], { first: OPEN, last: OPEN, split: 'whole' });

  it('makes two aligned pieces, each coped to the tube between them', () => {
    const shape = shapeOf(cross().cage());
    expect(codes(shape)).toEqual([]);
    expect([...shape.parts.keys()]).toEqual(['whole', 'cut.a', 'cut.b']);
    const half = 300 * Math.SQRT2;
    const least = Math.sqrt(19 ** 2 - 16.5 ** 2);
    for (const [name, which] of [
      ['cut.a', 'last'],
      ['cut.b', 'first'],
    ] as const) {
      const e = end(shape, name, which);
      expect([e.fit, e.hosts, e.node]).toEqual(['cope', ['whole'], null]);
      expect(e.includedAngle).toBeCloseTo(Math.PI / 2, 9);
      expect(part(shape, name).centrelineLength).toBeCloseTo(half, 9);
      expect(part(shape, name).cutLength).toBeCloseTo(half - least, 6);
    }
    expect(part(shape, 'cut.a').nodes).toEqual(['c', null]);
    expect(part(shape, 'cut.b').nodes).toEqual([null, 'd']);
    expect(part(shape, 'whole').cutLength).toBeCloseTo(2 * half, 9);
  });

  it('beside the crossing is coped where it stands; farther than the radius is no contact, told once', () => {
    const beside = shapeOf(cross(5).cage());
    expect(codes(beside)).toEqual(['cope.overhang', 'cope.overhang']);
    const shape = shapeOf(cross(20).cage());
    expect(codes(shape)).toEqual(['cope.no-contact']);
    expect(part(shape, 'cut.a').cutLength).toBeNull();
    expect(end(shape, 'cut.a', 'last').hosts).toEqual(['whole']);
  });

  it('what lands on a split tube has the piece as its host', () => {
    const car = cross().node('s', [-150, 0, 150]).node('t', [-150, 300, 150]).tube('strut', ['s', 't'], { last: OPEN });
    const shape = shapeOf(car.cage());
    expect(codes(shape)).toEqual([]);
    expect(end(shape, 'strut', 'first').hosts).toEqual(['cut.a']);
    const other = cross()
      .node('s', [150, 0, -150])
      .node('t', [150, 300, -150])
      .tube('strut', ['s', 't'], { last: OPEN });
    expect(end(shapeOf(other.cage()), 'strut', 'first').hosts).toEqual(['cut.b']);
  });
});

describe('bends', () => {
  const hoop = (): CarMaker =>
    new CarMaker()
      .nodes('foot', [0, 600, 0])
      .nodes('crown', [0, 500, 1000])
      .tube('hoop', ['foot.left', 'crown.left', 'crown.right', 'foot.right'], {
        od: 45,
        die: die(45, 135),
        first: OPEN,
        last: OPEN,
      });

  it('the corner of a bend is not on the tube: told instead of a loose end', () => {
    const shape = shapeOf(
      hoop().node('far', [-700, 500, 200]).tube('stay', ['crown.left', 'far'], { last: OPEN }).cage(),
    );
    expect(codes(shape)).toEqual(['place.bend-corner']);
    expect(shape.findings[0]?.params['node']).toBe('crown.left');
    expect(shape.findings[0]?.params['tube']).toBe('hoop');
  });

  it('an end on a bend of its host is told with its distance from the tangent', () => {
    const shape = shapeOf(hoop().cage());
    const arc = part(shape, 'hoop').centreline?.pieces.find((piece) => piece.kind === 'arc');
    if (arc?.kind !== 'arc') throw new Error('no bend');
    const at = (angle: number): Vec3 => [
      arc.centre[0],
      arc.centre[1] + arc.radius * (arc.fromCentre[1] * Math.cos(angle) + arc.tangent[1] * Math.sin(angle)),
      arc.centre[2] + arc.radius * (arc.fromCentre[2] * Math.cos(angle) + arc.tangent[2] * Math.sin(angle)),
    ];
    const p = at(0.3);
    const car = hoop().node('p', p).node('far', [-700, p[1], p[2]]).tube('stay', ['p', 'far'], { last: OPEN });
    const landed = shapeOf(car.cage());
    expect(codes(landed)).toEqual(['cope.on-bend']);
    // Along the bend: radius times angle.
    expect(landed.findings.find((f) => f.code === 'cope.on-bend')?.measured?.value).toBeCloseTo(135 * 0.3, 6);
    // Square to the bend's plane: the included angle is a right one.
    expect(end(landed, 'stay', 'first').includedAngle).toBeCloseTo(Math.PI / 2, 9);
  });

  it('a cope that reaches past the tangent of its own bend is told with how far', () => {
    const car = (straight: number): CarMaker =>
      new CarMaker()
        .node('r1', [0, -300, 0])
        .node('r2', [0, 300, 0])
        .tube('rail', ['r1', 'r2'], { od: 45, first: OPEN, last: OPEN })
        .node('a', [0, 0, 0])
        .node('b', [114 + straight, 0, 0])
        .node('c', [114 + straight, 0, 400])
        .tube('bar', ['a', 'b', 'c'], { die: die(38, 114), last: OPEN });
    expect(codes(shapeOf(car(22.6).cage()))).toEqual([]);
    const shape = shapeOf(car(20).cage());
    expect(codes(shape)).toEqual(['cope.into-own-bend']);
    expect(shape.findings[0]?.measured?.value).toBeCloseTo(2.5, 6);
  });
});

describe('the order of statements', () => {
  it('changes no figure and no finding', () => {
    const car = onRail({ at: 0, to: [200, 200, 0] }, { at: 10, to: [300, 10, 0] })
      .node('z', [0, 5, 300])
      .node('m', [0, 5, 0])
      .tube('three', ['z', 'm'], { first: OPEN })
      .node('x1', [150, -200, 0])
      .node('x2', [150, 200, 5])
      .tube('stray', ['x1', 'x2'], { first: OPEN, last: OPEN });
    const plain = shapeOf(car.cage());
    const turned = shapeOf(car.cage(true));
    const told = (shape: Shape): readonly string[] =>
      shape.findings.map((f) => JSON.stringify([f.code, f.subject, f.params, f.measured])).sort();
    expect(told(turned)).toEqual(told(plain));
    for (const [name, p] of plain.parts) {
      const q = part(turned, name);
      expect(q.cutLength).toBe(p.cutLength);
      expect(q.ends.map((e) => [e.fit, e.hosts, e.ordinates])).toEqual(
        p.ends.map((e) => [e.fit, e.hosts, e.ordinates]),
      );
    }
  });
});

describe('twins', () => {
  it('mirror exactly, also where only the name is left to decide', () => {
    const car = new CarMaker()
      .nodes('foot', [0, 600, 0])
      .nodes('crown', [-52, 500, 1000])
      .tube('hoop', ['foot.left', 'crown.left', 'crown.right', 'foot.right'], { od: 45, die: die(45, 135) })
      .foot('shoe.left', 'foot.left')
      .foot('shoe.right', 'foot.right')
      // On the leg, at 60 % of its way up, and a little above.
      .nodes('top', [-31.2, 540, 600])
      .nodes('above', [-31.72, 539, 610])
      .nodes('low', [-700, 520, 100])
      .node('mid.left', [400, 520, 300])
      .node('mid.right', [400, -520, 300]);
    for (const side of ['left', 'right']) {
      car.tube(`stay.${side}`, [`top.${side}`, `low.${side}`], { last: OPEN });
      car.tube(`brace.${side}`, [`above.${side}`, `mid.${side}`], { last: OPEN });
    }
    car.tube('over.left', ['top.left', 'low.right'], { last: OPEN });
    car.tube('over.right', ['top.right', 'low.left'], { last: OPEN });
    const shape = shapeOf(car.cage());
    const swap = (name: string): string => name.replace(/left|right/, (side) => (side === 'left' ? 'right' : 'left'));
    for (const base of ['stay', 'brace', 'over']) {
      for (const which of ['first', 'last'] as const) {
        const l = end(shape, `${base}.left`, which);
        const r = end(shape, `${base}.right`, which);
        expect(r.hosts).toEqual(l.hosts.map(swap));
        expect(r.minCut).toBeCloseTo(l.minCut ?? NaN, 9);
        expect(r.origin).toEqual(mirrorY(l.origin ?? [0, 0, 0]).map((v) => expect.closeTo(v, 9)));
        for (const [i, o] of l.ordinates.entries()) {
          // A mirrored clock runs the other way round.
          expect(r.ordinates[36 - i]?.cut).toBeCloseTo(o.cut ?? NaN, 7);
        }
      }
    }
  });

  it('told onto one another side by side keep their host', () => {
    const car = onRail({ at: 0, to: [300, 0, 0] }, { at: 100, to: [300, 100, 0] })
      .node('e', [150, 10, 0])
      .node('f', [150, 10, 300])
      .tube('up', ['e', 'f'], { first: onto('one'), last: OPEN });
    const shape = shapeOf(car.cage());
    expect(end(shape, 'up', 'first').hosts).toEqual(['one']);
    expect(end(shape, 'up', 'first').offset).toBeCloseTo(10, 9);
  });
});
