/**
 * Language page, "What ends where": each rule its own test. Figures from closed forms: an end of radius ρ square on a
 * tube of radius R has set-back sqrt(R² - (ρ sin φ)²), φ from the side where their axes' plane is crossed; under an angle
 * α in the plane of both axes, s = (sqrt(R² - (ρ sin φ)²) + ρ cos φ cos α) / sin α (intersection of two cylinders, any
 * textbook of descriptive geometry).
 */
import { describe, expect, it } from 'vitest';
import { shapeOf } from '../../server/geometry/index';
import type { End, Part, Shape } from '../../server/geometry/shape';
import { CarMaker, onto, OPEN, past } from './car-maker';

const codes = (shape: Shape): readonly string[] =>
  shape.findings
    .map((finding) => finding.code)
    .filter((code) => !code.startsWith('space.'))
    .sort();
const part = (shape: Shape, name: string): Part => {
  const found = shape.parts.get(name);
  if (found === undefined) throw new Error(`no part ${name}`);
  return found;
};
const end = (shape: Shape, name: string, which: 'first' | 'last'): End =>
  part(shape, name).ends[which === 'first' ? 0 : 1];

/** A straight rail of od 45 along y at the origin, and a child of od 38 from `a` to `b`. */
const railAnd = (a: readonly [number, number, number], b: readonly [number, number, number], first = {}): CarMaker =>
  new CarMaker()
    .node('r1', [0, -500, 0])
    .node('r2', [0, 500, 0])
    .tube('rail', ['r1', 'r2'], { od: 45, first: OPEN, last: OPEN })
    .node('a', a)
    .node('b', b)
    .tube('child', ['a', 'b'], { last: OPEN, ...first });

describe('an end on a tube that runs through', () => {
  it('lands on it, is coped to it, and is shorter by the smallest cut', () => {
    const shape = shapeOf(railAnd([0, 0, 0], [400, 0, 0]).cage());
    expect(codes(shape)).toEqual([]);
    const e = end(shape, 'child', 'first');
    expect(e.fit).toBe('cope');
    expect(e.hosts).toEqual(['rail']);
    expect(e.includedAngle).toBeCloseTo(Math.PI / 2, 9);
    expect(e.offset).toBeCloseTo(0, 9);
    // The wall's outer edge at the side of the rail: sqrt(22.5² - 19²); the cut there clears the inner edge: 16.5.
    const side = e.ordinates.find((o) => Math.abs(o.clock - Math.PI / 2) < 1e-9);
    const crown = e.ordinates[0];
    // Clock 0 is TOP, z, which is across the rail (the rail runs along y).
    expect(crown?.outer).toBeCloseTo(Math.sqrt(22.5 ** 2 - 19 ** 2), 9);
    expect(crown?.cut).toBeCloseTo(Math.sqrt(22.5 ** 2 - 16.5 ** 2), 9);
    expect(side?.outer).toBeCloseTo(22.5, 9);
    const least = Math.sqrt(22.5 ** 2 - 16.5 ** 2);
    expect(e.minCut).toBeCloseTo(least, 8);
    expect(e.depth).toBeCloseTo(22.5 - least, 8);
    expect(part(shape, 'child').centrelineLength).toBeCloseTo(400, 9);
    expect(part(shape, 'child').cutLength).toBeCloseTo(400 - least, 8);
    expect(part(shape, 'child').holeSawLength).toBeCloseTo(400 - Math.sqrt(22.5 ** 2 - 19 ** 2), 8);
    expect(part(shape, 'child').stickLength).toBeCloseTo(400 - least, 8);
  });

  it('within 0.5 mm moves E onto the centreline, keeps its direction, and is cut where it then stands', () => {
    const shape = shapeOf(railAnd([0.4, 0, 0.2], [400, 0, 0.2]).cage());
    expect(codes(shape)).toEqual([]);
    const e = end(shape, 'child', 'first');
    expect(e.origin).toEqual([0, 0, 0]);
    expect(e.away).toEqual([1, 0, 0]);
    expect(e.offset).toBeCloseTo(0, 9);
    // From E to the far node, along the leg: 400.
    expect(part(shape, 'child').cutLength).toBeCloseTo(400 - Math.sqrt(22.5 ** 2 - 16.5 ** 2), 8);
  });

  it('at 0.6 mm stays where it stands, with a warning, the distance and two ways to mend it', () => {
    const shape = shapeOf(railAnd([0, 0, 0.6], [400, 0, 0.6]).cage());
    const [finding] = shape.findings.filter((f) => f.code === 'place.near-miss');
    expect(codes(shape)).toEqual(['place.near-miss']);
    expect(finding?.measured?.value).toBeCloseTo(0.6, 9);
    expect(finding?.fixes.map((fix) => fix.id)).toEqual(['place.move-onto', 'place.write-onto']);
    const e = end(shape, 'child', 'first');
    expect(e.origin).toEqual([0, 0, 0.6]);
    expect(e.offset).toBeCloseTo(0.6, 9);
    // Clock 0 at the top: sqrt(R² - (0.6 + r)²).
    expect(e.ordinates[0]?.outer).toBeCloseTo(Math.sqrt(22.5 ** 2 - 19.6 ** 2), 8);
  });

  it('told onto stands beside it without a warning', () => {
    const shape = shapeOf(railAnd([0, 0, 3], [400, 0, 3], { first: onto('rail') }).cage());
    expect(codes(shape)).toEqual([]);
    expect(end(shape, 'child', 'first').offset).toBeCloseTo(3, 9);
    expect(end(shape, 'child', 'first').ordinates[0]?.outer).toBeCloseTo(Math.sqrt(22.5 ** 2 - 22 ** 2), 8);
  });

  it('at its radius or farther touches nothing: loose, with the nearest tube and how far it is', () => {
    const near = shapeOf(railAnd([22.4, 0, 0], [400, 0, 0]).cage());
    expect(codes(near)).toEqual(['place.near-miss']);
    const shape = shapeOf(railAnd([30, 0, 0], [400, 0, 0]).cage());
    expect(codes(shape)).toEqual(['end.loose']);
    expect(shape.findings[0]?.params['nearest']).toBe('rail');
    expect(shape.findings[0]?.measured?.value).toBeCloseTo(30, 9);
  });

  it('off its side is an overhang with the amount, and has no depth, saddle or length', () => {
    // The child's top generator passes 5 + 19 = 24 above the rail's axis: 1.5 beyond its surface.
    const shape = shapeOf(railAnd([0, 0, 5], [400, 0, 5], { first: onto('rail') }).cage());
    expect(codes(shape)).toEqual(['cope.overhang']);
    expect(shape.findings[0]?.measured?.value).toBeCloseTo(1.5, 6);
    const e = end(shape, 'child', 'first');
    expect([e.depth, e.saddleLength, e.minCut]).toEqual([null, null, null]);
    expect(part(shape, 'child').cutLength).toBeNull();
    expect(e.ordinates[0]?.outer).toBeNull();
    expect(e.ordinates[9]?.outer).toBeCloseTo(Math.sqrt(22.5 ** 2 - 5 ** 2), 8);
  });

  it('told onto what it does not reach has no contact and no figures', () => {
    const shape = shapeOf(railAnd([0, 0, 100], [400, 0, 100], { first: onto('rail') }).cage());
    expect(codes(shape)).toEqual(['cope.no-contact']);
    const short = shapeOf(railAnd([60, 0, 0], [400, 0, 0], { first: onto('rail') }).cage());
    expect(codes(short)).toEqual(['cope.no-contact']);
    expect(end(short, 'child', 'first').minCut).toBeNull();
    expect(end(short, 'child', 'first').hosts).toEqual(['rail']);
  });
});

describe('angles', () => {
  const leaning = (degrees: number, role: 'brace' | 'pillar-bar' = 'brace'): CarMaker => {
    const a = (degrees * Math.PI) / 180;
    return railAnd([0, 0, 0], [400 * Math.sin(a), 400 * Math.cos(a), 0], { role });
  };

  it('gives the set-backs of two cylinders under an angle', () => {
    const shape = shapeOf(leaning(50).cage());
    const e = end(shape, 'child', 'first');
    const alpha = (50 * Math.PI) / 180;
    expect(e.includedAngle).toBeCloseTo(alpha, 9);
    // In the plane of both axes, φ measured from the acute side: (R ± r cos α) / sin α.
    expect(e.maxCut).toBeCloseTo((22.5 + 19 * Math.cos(alpha)) / Math.sin(alpha), 6);
    expect(e.ordinates[0]?.outer).toBeCloseTo(Math.sqrt(22.5 ** 2 - 19 ** 2) / Math.sin(alpha), 8);
  });

  it('under 30 degrees is shallow: a warning, for pillar bars an information', () => {
    expect(codes(shapeOf(leaning(30).cage()))).toEqual([]);
    const shape = shapeOf(leaning(29.9).cage());
    expect(codes(shape)).toEqual(['cope.shallow']);
    expect(shape.findings[0]?.severity).toBe('warning');
    expect(shape.findings[0]?.measured?.value).toBeCloseTo(29.9, 9);
    const pillar = shapeOf(leaning(29.9, 'pillar-bar').cage());
    expect(pillar.findings[0]?.severity).toBe('information');
  });
});

describe('the end of a host', () => {
  it('a footprint past its square end is told, with how far', () => {
    const car = railAnd([0, 495, 0], [400, 495, 0]);
    const shape = shapeOf(car.cage());
    expect(codes(shape)).toEqual(['cope.past-host-end']);
    // 495 + 19 - 500
    expect(shape.findings[0]?.measured?.value).toBeCloseTo(14, 6);
    expect(codes(shapeOf(railAnd([0, 481, 0], [400, 481, 0]).cage()))).toEqual([]);
  });
});

describe('no tube runs through', () => {
  /** Two tubes that meet at a right angle at the origin. */
  const corner = (more: object = {}, lastOfBig: object = OPEN): CarMaker =>
    new CarMaker()
      .node('o', [0, 0, 0])
      .node('p', [0, 400, 0])
      .node('q', [400, 0, 0])
      .tube('big', ['o', 'p'], { od: 45, last: OPEN, ...more })
      .tube('small', ['o', 'q'], { last: lastOfBig as typeof OPEN });

  it('the first runs on as far as the other needs, is cut square there, and its length says so', () => {
    const shape = shapeOf(corner().cage());
    expect(codes(shape)).toEqual(['cope.order-guessed', 'tube.past-length']);
    const big = end(shape, 'big', 'first');
    expect(big.fit).toBe('square');
    expect(big.hosts).toEqual([]);
    // The small tube's footprint reaches its radius past the node.
    expect(big.minCut).toBeCloseTo(-19, 6);
    expect(part(shape, 'big').centrelineLength).toBeCloseTo(400, 9);
    expect(part(shape, 'big').cutLength).toBeCloseTo(419, 6);
    const small = end(shape, 'small', 'first');
    expect(small.fit).toBe('cope');
    expect(small.hosts).toEqual(['big']);
    expect(small.maxCut).toBeCloseTo(22.5, 6);
    expect(small.ordinates[0]?.outer).toBeCloseTo(Math.sqrt(22.5 ** 2 - 19 ** 2), 8);
    expect(shape.findings.find((f) => f.code === 'tube.past-length')?.measured?.value).toBeCloseTo(19, 6);
  });

  it('past overrides: shorter than needed, the footprint is past the end of the host', () => {
    const shape = shapeOf(corner({ first: past(10) }).cage());
    expect(codes(shape)).toEqual(['cope.past-host-end']);
    expect(shape.findings[0]?.measured?.value).toBeCloseTo(9, 6);
    expect(end(shape, 'big', 'first').minCut).toBeCloseTo(-10, 9);
    const enough = shapeOf(corner({ first: past(30) }).cage());
    expect(codes(enough)).toEqual([]);
    expect(part(enough, 'big').cutLength).toBeCloseTo(430, 9);
  });

  it('joint … order decides who is first, and then nothing is guessed', () => {
    const shape = shapeOf(corner().joint(['o'], ['small', 'big']).cage());
    // The larger tube on the smaller one: it overhangs, but that is what was written.
    expect(codes(shape)).toEqual(['cope.overhang', 'tube.past-length']);
    expect(end(shape, 'big', 'first').hosts).toEqual(['small']);
    expect(end(shape, 'small', 'first').fit).toBe('square');
    const same = shapeOf(corner().joint(['o'], ['big']).cage());
    expect(codes(same)).toEqual(['tube.past-length']);
  });

  it('two ends that continue each other do not cut each other', () => {
    const shape = shapeOf(
      new CarMaker()
        .node('a', [0, -300, 0])
        .node('o', [0, 0, 0])
        .node('b', [0, 300, 0])
        .tube('one', ['a', 'o'], { first: OPEN })
        .tube('two', ['o', 'b'], { last: OPEN })
        .cage(),
    );
    expect(codes(shape)).toEqual([]);
    for (const e of [end(shape, 'one', 'last'), end(shape, 'two', 'first')]) {
      expect(e.fit).toBe('square');
      expect(e.hosts).toEqual([]);
      expect(e.minCut).toBeCloseTo(0, 9);
    }
  });

  it('a stub on two that continue each other lands on both halves: nobody runs on', () => {
    const shape = shapeOf(
      new CarMaker()
        .node('a', [0, -300, 0])
        .node('o', [0, 0, 0])
        .node('b', [0, 300, 0])
        .node('c', [300, 0, 0])
        .tube('one', ['a', 'o'], { od: 45, first: OPEN })
        .tube('two', ['o', 'b'], { od: 45, last: OPEN })
        .tube('stub', ['o', 'c'], { last: OPEN })
        .cage(),
    );
    expect(codes(shape)).toEqual(['cope.order-guessed']);
    const stub = end(shape, 'stub', 'first');
    expect(stub.hosts).toEqual(['one', 'two']);
    expect(stub.maxCut).toBeCloseTo(22.5, 6);
    expect(stub.ordinates[0]?.outer).toBeCloseTo(Math.sqrt(22.5 ** 2 - 19 ** 2), 8);
    expect(part(shape, 'one').cutLength).toBeCloseTo(300, 9);
    expect(part(shape, 'two').cutLength).toBeCloseTo(300, 9);
  });

  it('three at right angles: the first runs on, the second is cut to it, the third to both', () => {
    const shape = shapeOf(
      new CarMaker()
        .node('o', [0, 0, 0])
        .node('x', [400, 0, 0])
        .node('y', [0, 400, 0])
        .node('z', [0, 0, 400])
        .tube('c', ['o', 'z'], { od: 45, last: OPEN })
        .tube('b', ['o', 'y'], { od: 40, last: OPEN })
        .tube('a', ['o', 'x'], { od: 38, last: OPEN })
        .cage(),
    );
    expect(codes(shape)).toEqual(['cope.order-guessed', 'tube.past-length']);
    expect(end(shape, 'c', 'first').fit).toBe('square');
    expect(end(shape, 'c', 'first').minCut).toBeCloseTo(-20, 6);
    expect(end(shape, 'b', 'first').hosts).toEqual(['c']);
    expect(end(shape, 'a', 'first').hosts).toEqual(['c', 'b']);
    const a = end(shape, 'a', 'first');
    // Toward +y (clock of b's side) the half of b, R = 20, stands higher at the top and bottom than c (R = 22.5 along z):
    // at the generator toward +y: c gives sqrt(22.5² - 19²) = 12.05, b gives its full 20.
    const toward = a.ordinates.map((o) => o.outer ?? 0);
    expect(Math.max(...toward)).toBeCloseTo(22.5, 6);
    expect(a.clockZero?.name).toBe('TOP');
    // Looking from first to last (along +x), clockwise from the top: y is at 270 degrees (left is +y).
    const left = a.ordinates.find((o) => Math.abs(o.clock - (3 * Math.PI) / 2) < 1e-9);
    const right = a.ordinates.find((o) => Math.abs(o.clock - Math.PI / 2) < 1e-9);
    expect(left?.outer).toBeCloseTo(20, 8);
    expect(right?.outer).toBeCloseTo(Math.sqrt(22.5 ** 2 - 19 ** 2), 8);
  });
});
