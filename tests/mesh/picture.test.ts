/** Pictures of points: what is drawn lies where parallel projection (descriptive geometry) puts it, the nearer before the farther. */
import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../server/centreline/vector';
import { VIEWS } from '../../server/drawing/view';
import { ball, box } from '../../server/mesh/flat';
import type { Mesh } from '../../server/mesh/mesh';
import type { Drawable, Picture } from '../../server/mesh/picture';
import { pictureOf } from '../../server/mesh/picture';
import { pngFile } from '../../server/mesh/png';
import { sampleCar } from './samples';

const RED = [1, 0.1, 0.1] as const;
const BLUE = [0.1, 0.1, 1] as const;

const must = <T>(value: T | null): T => {
  if (value === null) throw new Error('there is nothing');
  return value;
};
const cube = (centre: Vec3, half: number): Mesh =>
  must(
    box(centre, [
      [half, 0, 0],
      [0, half, 0],
      [0, 0, half],
    ]),
  );
const drawn = (mesh: Mesh, colour: Drawable['colour'], outlineOnly = false): Drawable => ({
  mesh,
  colour,
  outlineOnly,
});
const MOST = { width: 400, height: 400 };

/** The colour at a share of the width and of the height, as the name of its strongest part. */
function at({ width, height, data }: Picture, x: number, y: number): 'red' | 'blue' | 'paper' | 'dark' {
  const first = 3 * (Math.floor(y * height) * width + Math.floor(x * width));
  const [r, g, b] = [data[first] ?? 0, data[first + 1] ?? 0, data[first + 2] ?? 0];
  if (Math.min(r, g, b) > 250) return 'paper';
  if (r > 1.5 * b) return 'red';
  return b > 1.5 * r ? 'blue' : 'dark';
}

describe('what stands before', () => {
  it('is seen, from every side', () => {
    // The red one is nearer to the front, the blue one nearer to the left and higher.
    const things = [drawn(cube([100, 0, 0], 50), RED), drawn(cube([-100, 60, 60], 50), BLUE)];
    const front = must(pictureOf(things, VIEWS.front, MOST));
    expect(at(front, 0.35, 0.6)).toBe('red');
    // Where both are, the red one is before the blue one.
    expect(at(front, 0.56, 0.5)).toBe('red');
    expect(at(front, 0.85, 0.2)).toBe('blue');
    expect(at(front, 0.1, 0.1)).toBe('paper');
    const plan = must(pictureOf(things, VIEWS.plan, MOST));
    // Forward is to the left.
    expect(at(plan, 0.2, 0.3)).toBe('red');
    expect(at(plan, 0.8, 0.7)).toBe('blue');
  });

  it('hides lines too, and a surface that would hide all is drawn by its edges', () => {
    const sheet = cube([300, 0, 0], 120);
    const behind = cube([0, 0, 0], 100);
    const open = must(pictureOf([drawn(sheet, RED, true), drawn(behind, BLUE)], VIEWS.front, MOST));
    expect(at(open, 0.5, 0.5)).toBe('blue');
    const shut = must(pictureOf([drawn(sheet, RED), drawn(behind, BLUE)], VIEWS.front, MOST));
    expect(at(shut, 0.5, 0.5)).toBe('red');
    const blue = (picture: Picture): number =>
      Array.from({ length: picture.width * picture.height }, (_, i) => i).filter(
        (i) => (picture.data[3 * i + 2] ?? 0) > 1.5 * (picture.data[3 * i] ?? 0),
      ).length;
    expect(blue(shut)).toBe(0);
    expect(blue(open)).toBeGreaterThan(1000);
  });
});

describe('a ball', () => {
  it('covers the area of its circle, and is lighter where the light comes from', () => {
    const picture = must(pictureOf([drawn(must(ball([0, 0, 0], 100, 96)), RED)], VIEWS.side, MOST));
    const inked = Array.from({ length: picture.width * picture.height }, (_, i) => i).filter(
      (i) => (picture.data[3 * i + 1] ?? 255) < 200,
    ).length;
    // 94 of 100 parts of the width are the ball's: the rest is its margin.
    const radius = (400 * 0.94) / 2;
    expect(Math.abs(inked / (Math.PI * radius * radius) - 1)).toBeLessThan(0.02);
    const red = (x: number, y: number): number =>
      picture.data[3 * (Math.floor(y * picture.height) * picture.width + Math.floor(x * picture.width))] ?? 0;
    expect(red(0.62, 0.3)).toBeGreaterThan(red(0.3, 0.8) + 30);
  });
});

describe('the samples as PNG', () => {
  for (const name of ['siskin-club-bar', 'curlew-cage'] as const)
    it(`${name} is read by another's reader, and fills its picture`, async () => {
      const { cage, shape } = await sampleCar(name);
      const { width, height, data, channels, depth } = decode(must(pngFile(cage, shape, VIEWS.side, 'Cagewright 9')));
      expect([channels, depth]).toEqual([3, 8]);
      expect(Math.max(width, height)).toBe(1600);
      const inked = (x: number, y: number): boolean => (data[3 * (y * width + x)] ?? 255) < 250;
      const rows = Array.from({ length: height }, (_, y) =>
        Array.from({ length: width }, (_x, x) => x).some((x) => inked(x, y)),
      );
      const margin = 0.03 * 1600;
      expect(rows.indexOf(true)).toBeLessThan(margin + 4);
      expect(height - 1 - rows.lastIndexOf(true)).toBeLessThan(margin + 4);
    });
  it('nothing is no picture', () => {
    expect(pictureOf([], VIEWS.side, MOST)).toBeNull();
  });
});
