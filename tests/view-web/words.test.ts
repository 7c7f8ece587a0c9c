/** Words on the picture: where they find room, how they are cut, where arcs run, what was kept. */
import fc from 'fast-check';
import { Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { floats, surfaceOf } from '../../client/view-web/decode';
import { shortened } from '../../client/view-web/figures';
import { formOf } from '../../client/view-web/form';
import { groundOf } from '../../client/view-web/ground';
import { KEY_LIST } from '../../client/view-web/keys';
import { arcOf, squareOn, wordsAt } from '../../client/view-web/marks';
import { placeLabels, type Wanted } from '../../client/view-web/place-labels';
import { placeTip } from '../../client/view-web/place-tip';
import { nextIndex } from '../../client/view-web/rove';
import { findingIds } from '../../client/view-web/side';
import { FIRST_LAYERS, readKept } from '../../client/view-web/state';
import { packed as base64 } from '../../server/lsp/view-places';
import type { WireMesh } from '../../server/view/model';

describe('labels', () => {
  const wish = fc.record<Wanted>({
    key: fc.uuid(),
    x: fc.integer({ min: -50, max: 900 }),
    y: fc.integer({ min: -50, max: 700 }),
    width: fc.integer({ min: 10, max: 200 }),
    height: fc.constant(18),
    small: fc.constantFrom(0, 18),
    near: fc.boolean(),
    centred: fc.boolean(),
    rank: fc.integer({ min: 0, max: 100 }),
  });

  it('never cover each other and never leave the picture', () => {
    fc.assert(
      fc.property(fc.array(wish, { maxLength: 60 }), (wanted) => {
        const placed = placeLabels(wanted, 800, 600).map(({ key, x, y, short }) => {
          const of = wanted.find((one) => one.key === key);
          const [w, h] = short ? [of?.small ?? 0, of?.small ?? 0] : [of?.width ?? 0, of?.height ?? 0];
          return { x, y, right: x + w, bottom: y + h };
        });
        placed.forEach((a, i) => {
          expect(a.x >= 0 && a.y >= 0 && a.right <= 800 && a.bottom <= 600).toBe(true);
          for (const b of placed.slice(i + 1))
            expect(a.x < b.right && b.x < a.right && a.y < b.bottom && b.y < a.bottom).toBe(false);
        });
      }),
      { numRuns: 100 },
    );
  });

  it('give room to what matters most, and keep the sign where the words have none', () => {
    const at = (key: string, rank: number): Wanted => ({
      key,
      x: 50,
      y: 20,
      width: 88,
      height: 18,
      small: 18,
      near: true,
      centred: false,
      rank,
    });
    const placed = placeLabels([at('low', 1), at('high', 9)], 500, 40);
    expect(placed[0]).toMatchObject({ key: 'high', short: false });
    expect(placed.find(({ key }) => key === 'low')?.short).not.toBe(false);
  });

  it('never lie on what a hand wants to take hold of', () => {
    const wish = { key: 'a', x: 50, y: 50, width: 60, height: 18, small: 18, near: true, centred: true, rank: 1 };
    expect(placeLabels([wish], 500, 100)[0]).toMatchObject({ x: 20, y: 41 });
    const [placed] = placeLabels([wish], 500, 100, [{ x: 43, y: 43, width: 14, height: 14 }]);
    expect(placed).toMatchObject({ short: false });
    expect(Math.abs((placed?.x ?? 50) + 30 - 50) >= 37 || Math.abs((placed?.y ?? 50) + 9 - 50) >= 16).toBe(true);
  });

  it('give way to what a hand may take hold of while there is other room, and let it through where there is none', () => {
    const sign = { key: 'a', x: 50, y: 50, width: 18, height: 18, small: 18, near: true, centred: true, rank: 1 };
    const node = { x: 43, y: 43, width: 14, height: 14 };
    expect(placeLabels([sign], 500, 100)[0]).toMatchObject({ x: 41, y: 41, over: false });
    expect(placeLabels([sign], 500, 100, [], [node])[0]).toMatchObject({ x: 60, y: 41, over: false });
    expect(placeLabels([{ ...sign, x: 10, y: 10 }], 20, 20, [], [{ ...node, x: 3, y: 3 }])).toEqual([
      { key: 'a', x: 1, y: 1, short: false, led: false, over: true },
    ]);
    // Words of a part, with a handle of another node to its right: they stand to the left.
    const words = { key: 'b', x: 250, y: 50, width: 90, height: 18, small: 18, near: false, centred: false, rank: 1 };
    expect(placeLabels([words], 500, 100)[0]).toMatchObject({ x: 260 });
    const beside = { x: 300, y: 43, width: 14, height: 14 };
    expect(placeLabels([words], 500, 100, [], [beside])[0]).toMatchObject({ x: 150, over: false });
  });

  it('lie on no handle that they could have left free, in any crowd', () => {
    const hold = fc.record({
      x: fc.integer({ min: 0, max: 786 }),
      y: fc.integer({ min: 0, max: 586 }),
      width: fc.constant(14),
      height: fc.constant(14),
    });
    fc.assert(
      fc.property(fc.array(wish, { maxLength: 30 }), fc.array(hold, { maxLength: 40 }), (wanted, holds) => {
        for (const { key, x, y, short, over } of placeLabels(wanted, 800, 600, [], holds)) {
          const of = wanted.find((one) => one.key === key);
          const [w, h] = short ? [of?.small ?? 0, of?.small ?? 0] : [of?.width ?? 0, of?.height ?? 0];
          const covers = holds.some(
            (one) => x < one.x + one.width && one.x < x + w && y < one.y + one.height && one.y < y + h,
          );
          expect(covers && !over).toBe(false);
        }
      }),
      { numRuns: 100 },
    );
  });

  it('leave a line that is drawn beside their point to be seen', () => {
    const words = { key: 'b', x: 250, y: 50, width: 90, height: 18, small: 18, near: false, centred: false, rank: 1 };
    const line = Array.from({ length: 10 }, (_, n) => ({ x: 250 + 10 * n, y: 47, width: 6, height: 6 }));
    const [placed] = placeLabels([words], 500, 100, [], [], line);
    const covered = line.filter(
      (one) =>
        one.x + 6 > (placed?.x ?? 0) &&
        one.x < (placed?.x ?? 0) + 90 &&
        one.y + 6 > (placed?.y ?? 0) &&
        one.y < (placed?.y ?? 0) + 18,
    );
    expect(covered).toHaveLength(0);
    expect(placed?.led).toBe(false);
  });

  it('are cut between words', () => {
    expect(shortened('The strap drops too steeply, by a lot', 30)).toBe('The strap drops too steeply …');
    expect(shortened('short', 30)).toBe('short');
  });
});

describe('the hover', () => {
  it('stays on the picture and is not under the pointer where there is room for it', () => {
    const figure = (min: number, max: number) => fc.integer({ min, max });
    const point = fc.record({ x: figure(0, 500), y: figure(0, 430) });
    fc.assert(
      fc.property(point, figure(40, 225), figure(20, 190), fc.array(point, { maxLength: 30 }), (at, w, h, part) => {
        const { x, y } = placeTip(at, { width: w, height: h }, { width: 500, height: 430 }, part);
        expect(x >= 0 && y >= 0 && x + w <= 500 && y + h <= 430).toBe(true);
        expect(at.x > x && at.x < x + w && at.y > y && at.y < y + h).toBe(false);
      }),
    );
  });

  it('goes to the side where its part is not', () => {
    const bar = Array.from({ length: 40 }, (_, n) => ({ x: 250 + 6 * n, y: 200 }));
    const rising = Array.from({ length: 40 }, (_, n) => ({ x: 250 + 4 * n, y: 200 + 4 * n }));
    const size = { width: 200, height: 150 };
    for (const part of [bar, rising]) {
      const { x, y } = placeTip({ x: 255, y: 205 }, size, { width: 500, height: 430 }, part);
      expect(part.some((at) => at.x > x && at.x < x + 200 && at.y > y && at.y < y + 150)).toBe(false);
    }
  });
});

describe('an arc', () => {
  it('runs from one leg to the other at one radius, in their plane', () => {
    const at = new Vector3(10, 20, 30);
    const arc = arcOf([10, 20, 30], [110, 20, 30], [10, 20, 90]);
    const radii = arc?.map((point) => point.distanceTo(at)) ?? [];
    expect(Math.max(...radii) - Math.min(...radii)).toBeLessThan(1e-9);
    expect(radii[0]).toBeCloseTo(45, 9);
    expect(arc?.every(({ y }) => Math.abs(y - 20) < 1e-9)).toBe(true);
    // A quarter of a circle: its chord is the radius times the root of two.
    expect(arc?.[0]?.distanceTo(arc.at(-1) ?? at)).toBeCloseTo(45 * Math.SQRT2, 9);
  });

  it('is none where a leg has no length, and stands somewhere where they run against each other', () => {
    expect(arcOf([0, 0, 0], [0, 0, 0], [1, 0, 0])).toBeNull();
    expect(arcOf([0, 0, 0], [1, 0, 0], [-1, 0, 0])?.every((one) => Number.isFinite(one.lengthSq()))).toBe(true);
  });

  it('is looked at square on when it is seen edge on', () => {
    const mark = {
      kind: 'angle',
      what: 'strap.drop',
      of: [],
      says: 'drop 9°',
      finding: null,
      at: [0, 0, 0],
      from: [-100, 0, 0],
      to: [-99, 0, -16],
    } as const;
    expect(Math.abs(squareOn(mark, new Vector3(1, 0, 0))?.y ?? 0)).toBeCloseTo(1, 9);
    expect(squareOn(mark, new Vector3(0, 1, 0))).toBeNull();
    expect(wordsAt(mark)).toHaveLength(3);
  });
});

describe('what comes over the wire', () => {
  it('is read as the numbers that were sent', () => {
    const numbers = new Float32Array([1.5, -2.25, 1e-7, 4000]);
    expect(floats(base64(numbers))).toEqual(numbers);
    expect(floats('no base64 at all!')).toHaveLength(0);
  });

  /** Counted in steps of 2 mm. */
  const mesh = (positions: readonly number[], indices: readonly number[], lines: readonly number[] = []): WireMesh => ({
    from: [0, 0, 0],
    step: [2, 2, 2],
    positions: base64(new Uint16Array(positions)),
    normals: base64(new Int8Array(positions.map(() => 127))),
    indices: base64(new Uint16Array(indices)),
    lines: base64(new Uint16Array(lines)),
    strokes: base64(new Uint16Array(lines.length === 0 ? [] : [lines.length / 3])),
  });
  const triangle = [0, 0, 0, 15, 0, 0, 0, 15, 0];

  it('is places, each so many steps away, and strokes as lines from point to point', () => {
    const drawn = surfaceOf({
      ...mesh(triangle, [0, 1, 2], [0, 0, 0, 1, 0, 0, 1, 1, 0, 5, 5, 5, 6, 5, 5]),
      from: [-100, 7, 0.5],
      strokes: base64(new Uint16Array([3, 2, 9])),
    });
    expect([...drawn.positions]).toEqual([-100, 7, 0.5, -70, 7, 0.5, -100, 37, 0.5]);
    expect([...drawn.normals]).toEqual(triangle.map(() => 1));
    expect([...drawn.indices]).toEqual([0, 1, 2]);
    const ends = [-100, 7, 0.5, -98, 7, 0.5, -98, 7, 0.5, -98, 9, 0.5, -90, 17, 10.5, -88, 17, 10.5];
    expect([...drawn.lines]).toEqual(ends);
  });

  it('has indices of 32 bits where corners are too many for 16', () => {
    const many = 3 * 65536;
    const wide = { ...mesh([], []), positions: base64(new Uint16Array(many)), normals: base64(new Int8Array(many)) };
    expect([...surfaceOf({ ...wide, indices: base64(new Uint32Array([65535, 0, 1])) }).indices]).toEqual([65535, 0, 1]);
  });

  it('is a form with its box, and words stand on it', () => {
    const form = formOf('k', mesh(triangle, [0, 1, 2], [0, 0, 0, 15, 0, 0]));
    expect(form?.surface.boundingBox?.max.toArray()).toEqual([30, 30, 0]);
    expect(form?.lines).not.toBeNull();
    expect(triangle.map((steps) => 2 * steps).join(' ')).toContain(form?.middle.join(' '));
  });

  it('is nothing where it would be drawn as noise', () => {
    expect(formOf('k', mesh(triangle, [0, 1, 3]))).toBeNull();
    expect(formOf('k', { ...mesh(triangle, [0, 1, 2]), from: [0, NaN, 0] })).toBeNull();
    expect(formOf('k', mesh([], []))).toBeNull();
    expect(formOf('k', { ...mesh(triangle, [0, 1, 2]), normals: '' })).toBeNull();
  });
});

describe('lists', () => {
  it('are walked by keys and end at their ends', () => {
    expect(nextIndex('ArrowDown', 0, 3)).toBe(1);
    expect(nextIndex('ArrowDown', 2, 3)).toBe(2);
    expect(nextIndex('End', 0, 30)).toBe(29);
    expect(nextIndex('PageDown', 5, 12)).toBe(11);
    expect(nextIndex('x', 0, 3)).toBeNull();
    expect(nextIndex('Home', 0, 0)).toBeNull();
  });

  it('name every key once', () => {
    const keys = KEY_LIST.map(([key]) => key);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it('know a finding again when others come and go', () => {
    const place = { uri: 'file:///a', start: { line: 0, character: 0 }, end: { line: 0, character: 1 } };
    const finding = (code: string, ...of: readonly string[]) =>
      ({ code, severity: 'warning', text: '', of, marks: [], place }) as const;
    const before = findingIds([finding('a', 'tube:x'), finding('b', 'tube:y'), finding('b', 'tube:y')]);
    const after = findingIds([finding('b', 'tube:y'), finding('b', 'tube:y')]);
    expect(after).toEqual(before.slice(1));
    expect(new Set(before).size).toBe(3);
  });
});

describe('the ground', () => {
  it('reaches beyond the car on whole steps, alike to both sides', () => {
    const { x, y } = groundOf(
      [
        [-900, -650, 60],
        [1300, 600, 1180],
      ],
      'mm',
    );
    expect(x[0]).toBeLessThan(-900);
    expect(x[1]).toBeGreaterThan(1300);
    expect(y[0]).toBe(-y[1]);
    for (const end of [...x, ...y]) expect(Math.abs(end % 500)).toBe(0);
  });
});

describe('what the panel kept', () => {
  it('comes back, and what is not as it should be is as at the first time', () => {
    const first = readKept(undefined);
    expect(first).toMatchObject({
      uri: '',
      pose: null,
      layers: FIRST_LAYERS,
      section: null,
      tab: 'findings',
      lists: true,
    });
    expect(readKept(JSON.parse(JSON.stringify(first)))).toEqual(first);
    const kept = readKept({
      uri: 'file:///a.cage',
      layers: { seats: false, nodes: 'no', other: true },
      section: { axis: 'z', at: 400, flip: true },
      tab: 'tools',
      lists: false,
    });
    expect(kept.layers).toEqual({ ...FIRST_LAYERS, seats: false });
    expect(kept).toMatchObject({ section: { axis: 'z', at: 400, flip: true }, tab: 'tools', lists: false });
    for (const section of [{ axis: 'w', at: 1 }, { axis: 'x', at: NaN }, { axis: 'x', at: 1e12 }, [], 'x'])
      expect(readKept({ section }).section).toBeNull();
    expect(readKept({ tab: 'constructor' }).tab).toBe('findings');
  });
});
