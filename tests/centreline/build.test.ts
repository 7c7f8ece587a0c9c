import { describe, expect, it } from 'vitest';
import { buildPath } from '../../server/centreline/build';
import { onPiece } from '../../server/centreline/piece';
import { pointAt } from '../../server/centreline/query';
import type { Vec3 } from '../../server/centreline/vector';
import { angleBetween, distance } from '../../server/centreline/vector';
import { line } from '../geometry/joint-maker';

/** An L in the plane z = 0 whose corner turns by `degrees`. */
const corner = (degrees: number, leg = 500): Vec3[] => {
  const turn = (degrees * Math.PI) / 180;
  return [
    [-leg, 0, 0],
    [0, 0, 0],
    [leg * Math.cos(turn), leg * Math.sin(turn), 0],
  ];
};

describe('legs and arcs', () => {
  // Bend allowance as handbooks give it: 0.017453 × centreline radius × degrees of bend (Machinery's Handbook; from memory).
  it.each([
    [135, 90],
    [114, 45],
    [152.4, 22.5],
    [100, 135],
  ])('a bend of radius %d by %d degrees is as long as the handbook says', (radius, degrees) => {
    const c = line(corner(degrees), radius);
    const arc = c.pieces.find((piece) => piece.kind === 'arc');
    expect(arc?.length).toBeCloseTo(0.0174532925199 * radius * degrees, 6);
    const setBack = radius * Math.tan(((degrees / 2) * Math.PI) / 180);
    expect(c.length).toBeCloseTo(1000 - 2 * setBack + 0.0174532925199 * radius * degrees, 6);
  });

  it('pieces meet, and meet without a kink', () => {
    const c = line(
      [
        [0, 600, 0],
        [-20, 620, 470],
        [-50, 455, 1010],
        [-50, -455, 1010],
        [-20, -620, 470],
        [0, -600, 0],
      ],
      135,
    );
    expect(c.pieces).toHaveLength(9);
    for (let i = 1; i < c.pieces.length; i++) {
      const before = c.pieces[i - 1];
      const after = c.pieces[i];
      if (before === undefined || after === undefined) throw new Error('a hole among the pieces');
      const end = onPiece(before, before.length);
      const begin = onPiece(after, 0);
      expect(distance(end.point, begin.point)).toBeLessThan(1e-9);
      expect(angleBetween(end.tangent, begin.tangent)).toBeLessThan(1e-12);
      expect(after.start).toBeCloseTo(before.start + before.length, 12);
    }
    expect(distance(pointAt(c, c.length).point, [0, -600, 0])).toBeLessThan(1e-9);
  });

  it('its length agrees with that of many small chords', () => {
    const c = line(corner(75), 120);
    let sum = 0;
    const steps = 20000;
    for (let i = 1; i <= steps; i++) {
      sum += distance(pointAt(c, (c.length * (i - 1)) / steps).point, pointAt(c, (c.length * i) / steps).point);
    }
    expect(sum).toBeCloseTo(c.length, 5);
  });

  it('a corner that turns less than a millionth of a degree is straight on, without a die', () => {
    const { centreline, corners, problems } = buildPath(corner(9e-7), null);
    expect(problems).toEqual([]);
    expect(corners).toEqual([{ index: 1, angle: 0, tangentLength: 0 }]);
    expect(centreline?.pieces.map((piece) => piece.kind)).toEqual(['leg', 'leg']);
  });

  it('one that turns a little more wants a die', () => {
    const { centreline, problems } = buildPath(corner(1.1e-6), null);
    expect(centreline).toBeNull();
    expect(problems.map((p) => p.kind)).toEqual(['no-radius']);
  });

  it('two bends that touch leave no leg between them', () => {
    const t = 100;
    const c = line(
      [
        [0, 0, 0],
        [300, 0, 0],
        [300, 2 * t, 0],
        [600, 2 * t, 0],
      ],
      t,
    );
    expect(c.pieces.map((piece) => piece.kind)).toEqual(['leg', 'arc', 'arc', 'leg']);
  });
});

describe('what stands in the way', () => {
  it('names a leg without length', () => {
    const { centreline, problems } = buildPath(
      [
        [0, 0, 0],
        [100, 0, 0],
        [100, 0, 0],
        [100, 100, 0],
      ],
      50,
    );
    expect(centreline).toBeNull();
    expect(problems).toEqual([{ kind: 'zero-leg', leg: 1 }]);
  });

  it('says by how much two bends overlap, and which leg is too short', () => {
    const { centreline, corners, problems } = buildPath(
      [
        [0, 0, 0],
        [300, 0, 0],
        [300, 190, 0],
        [600, 190, 0],
      ],
      100,
    );
    expect(centreline).toBeNull();
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ kind: 'overlap', leg: 1 });
    expect(problems[0]?.kind === 'overlap' ? problems[0].by : NaN).toBeCloseTo(10, 9);
    expect(corners.map((c) => c.tangentLength?.toFixed(6))).toEqual(['100.000000', '100.000000']);
  });

  it('a first and a last leg too short for the one bend overlap too', () => {
    const short = buildPath(corner(90, 99.5), 100);
    expect(short.problems.map((p) => (p.kind === 'overlap' ? [p.leg, p.by.toFixed(6)] : p))).toEqual([
      [0, '0.500000'],
      [1, '0.500000'],
    ]);
    expect(buildPath(corner(90, 100), 100).problems).toEqual([]);
  });

  it('a path of one point has no centreline and no fault to name; numbers that are none never throw', () => {
    expect(buildPath([[0, 0, 0]], 50)).toEqual({ centreline: null, corners: [], problems: [] });
    expect(buildPath([], null).centreline).toBeNull();
    for (const bad of [NaN, Infinity, -Infinity]) {
      const { centreline, problems } = buildPath(
        [
          [0, 0, 0],
          [bad, 0, 0],
          [5, 5, 5],
        ],
        bad,
      );
      expect(centreline).toBeNull();
      expect(problems.every((p) => p.kind === 'zero-leg')).toBe(true);
    }
  });

  it('a path that doubles back on itself has a bend longer than any leg', () => {
    const { centreline, problems } = buildPath(corner(180), 100);
    expect(centreline).toBeNull();
    expect(problems.every((p) => p.kind === 'overlap')).toBe(true);
  });
});
