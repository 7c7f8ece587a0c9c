/** Overall dimensions, and the words below a drawing that stands alone: where they stand, and that none lies on another. */
import { describe, expect, it } from 'vitest';
import { overallBox } from '../../server/drawing/drawing';
import { extremesOf } from '../../server/drawing/overall';
import type { Box, Item, Scene } from '../../server/drawing/scene';
import { overlap, point, textWidth } from '../../server/drawing/scene';
import { VIEW_NAMES, VIEWS } from '../../server/drawing/view';
import { viewWithKey } from '../../server/papers/pictures';
import { Car } from '../../server/rules/car';
import { SAMPLES, sampleCar } from '../mesh/samples';
import { analyse } from '../support/analyse';

type Text = Extract<Item, { kind: 'text' }>;
type Line = Extract<Item, { kind: 'line' }>;
type Group = Extract<Item, { kind: 'group' }>;

const flattened = (items: readonly Item[]): readonly Item[] =>
  items.flatMap((item) => (item.kind === 'group' || item.kind === 'clip' ? [item, ...flattened(item.items)] : [item]));
const groups = (scene: Scene, name: string): readonly Group[] =>
  flattened(scene.items).flatMap((item) => (item.kind === 'group' && item.name === name ? [item] : []));
const texts = (items: readonly Item[]): readonly Text[] =>
  flattened(items).flatMap((item) => (item.kind === 'text' ? [item] : []));

const boxOf = ({ at, text, size, anchor }: Text): Box => {
  const width = textWidth(text, size);
  const left = anchor === 'start' ? at.x : anchor === 'middle' ? at.x - width / 2 : at.x - width;
  return { left, right: left + width, top: at.y - size * 0.75, bottom: at.y };
};

const LONG = 'a-name-as-somebody-writes-it-who-was-told-that-there-is-no-limit-to-how-long-it-may-be';
const LONG_CAR = `cage "${'A title that goes on '.repeat(12)}"
units mm
rules fia-253
section t { od 40; wall 2 }
die d { od 40; radius 120 }
mirror left {
  node foot = (0, 600, 0)
  node crown = (-40, 500, 1100)
  node top = on ${LONG}-hoop at 40 before crown
  node end = (-800, 500, 400)
  tube ${LONG}-stay as backstay { section t; path top, end; last open }
}
tube ${LONG}-hoop as main-rollbar { section t; die d; path foot.left, crown.left, crown.right, foot.right; first open; last open }
`;
const NARROW = `section t { od 60; wall 3 }
node a = (0, 0, 0)
node b = (0, 0, 800)
tube post { section t; path a, b; first open; last open }
`;

const carsOf = async (): Promise<readonly (readonly [string, Car])[]> => {
  const samples = await Promise.all(SAMPLES.map(async (name) => [name, await sampleCar(name)] as const));
  const odd = await Promise.all(
    Object.entries({ long: LONG_CAR, narrow: NARROW }).map(
      async ([name, text]) => [name, await analyse(text)] as const,
    ),
  );
  return [...samples, ...odd].map(([name, { cage, shape }]) => [name, new Car(cage, shape)] as const);
};

describe('the outermost points', () => {
  it('are, of several as far out, those nearest to their dimension lines, and as far out as the farthest', () => {
    const found = extremesOf([point(0, 5), point(0.004, 1), point(-0.003, 3), point(9, 2), point(9, 7), point(4, 0)]);
    // y grows upward: the lowest of those at the left, within a hundredth.
    expect(found?.left).toEqual({ x: -0.003, y: 1 });
    expect(found?.right).toEqual({ x: 9, y: 2 });
    expect(found?.low).toEqual({ x: 4, y: 0 });
    expect(found?.high).toEqual({ x: 9, y: 7 });
    expect(extremesOf([])).toBeNull();
  });
});

describe('overall dimensions', () => {
  it('have witness lines from the tubes to the line, and no words but their own on them', async () => {
    for (const [name, car] of await carsOf()) {
      for (const view of VIEW_NAMES) {
        const scene = viewWithKey(car, view);
        const both = groups(scene, 'overall');
        expect(both.length).toBe(2);
        const box = overallBox(car.shape.parts.values(), VIEWS[view]);
        if (box === null) throw new Error('no box');
        const others = flattened(scene.items).flatMap((item) =>
          item.kind === 'group' && ['angle', 'spot', 'distance', 'number'].includes(item.name) ? texts(item.items) : [],
        );
        for (const { items, data } of both) {
          const across = data['what'] === 'overall-across';
          const lines = items.filter((item): item is Line => item.kind === 'line');
          const witness = lines.filter(({ style }) => style === 'leader');
          expect(witness.length).toBe(2);
          // A millimetre off the tube, and past the line, at both ends of what is said.
          const at = witness.map(({ points }) => (across ? points[0]?.x : points[0]?.y) ?? NaN);
          const main = lines.filter(
            ({ style, points: [a, b] }) => style === 'dimension' && (across ? a?.y === b?.y : a?.x === b?.x),
          );
          const reach = main.flatMap(({ points }) => points.map(({ x, y }) => (across ? x : y)));
          expect(Math.min(...at)).toBeCloseTo(Math.min(...reach), 9);
          expect(Math.max(...at)).toBeCloseTo(Math.max(...reach), 9);
          for (const { points } of main) {
            const [a, b] = points;
            const line: Box = {
              left: Math.min(a?.x ?? NaN, b?.x ?? NaN),
              right: Math.max(a?.x ?? NaN, b?.x ?? NaN) + 0.01,
              top: Math.min(a?.y ?? NaN, b?.y ?? NaN),
              bottom: Math.max(a?.y ?? NaN, b?.y ?? NaN) + 0.01,
            };
            for (const other of [...others, ...texts(items)])
              expect(overlap(boxOf(other), line), `${name} ${view}: ${other.text}`).toBe(false);
          }
        }
      }
    }
  });

  it('begin their witness lines at the outermost points of the tubes', async () => {
    const text = `section t { od 40; wall 2 }
node a = (0, 0, 0)
node b = (0, 0, 600)
node c = (500, 0, 300)
tube post { section t; path a, b; first open; last open }
tube arm { section t; path (CORNER), c; last open }
`.replace('(CORNER)', 'm');
    const { cage, shape } = await analyse(`${text}node m = (0, 0, 300)\n`);
    const scene = viewWithKey(new Car(cage, shape), 'side');
    const [across] = groups(scene, 'overall');
    const starts = (across?.items ?? []).flatMap((item) =>
      item.kind === 'line' && item.style === 'leader' ? [item.points[0] ?? point(NaN, NaN)] : [],
    );
    // Forward is to the left: the arm ends there at z = 280 below its axis, the post stands at the right down to z = 0. The
    // two are as far apart in height on the paper as on the car.
    const scale = Number(across?.data['value']) / Math.abs((starts[1]?.x ?? NaN) - (starts[0]?.x ?? NaN));
    expect(Number(across?.data['value'])).toBeCloseTo(520, 6);
    expect(((starts[1]?.y ?? NaN) - (starts[0]?.y ?? NaN)) * scale).toBeCloseTo(280, 6);
  });
});

describe('a drawing that stands alone', () => {
  it('says the name of the car, and no words of it lie on others or beyond its paper, however long names are', async () => {
    for (const [name, car] of await carsOf()) {
      for (const view of [...VIEW_NAMES, 'free'] as const) {
        const scene = viewWithKey(car, view);
        const heading = texts(groups(scene, 'heading'))
          .map(({ text }) => text)
          .join(' ');
        expect(heading, name).toBe((car.cage.title ?? car.cage.file).trim());
        const all = texts(scene.items).map((one) => [one.text, boxOf(one)] as const);
        for (const [i, [says, box]] of all.entries()) {
          expect(box.right, says).toBeLessThanOrEqual(scene.width + 0.01);
          expect(box.bottom, says).toBeLessThanOrEqual(scene.height);
          for (const [other, beside] of all.slice(i + 1))
            expect(overlap(box, beside), `${name} ${view}: ${says} on ${other}`).toBe(false);
        }
      }
    }
  });

  it('says a measured figure also where a name is too long to stand beside it', async () => {
    const { cage, shape } = await analyse(LONG_CAR);
    const says = texts(viewWithKey(new Car(cage, shape), 'side').items).map(({ text }) => text);
    const stays = groups(viewWithKey(new Car(cage, shape), 'side'), 'angle').filter(
      ({ data }) => data['what'] === 'backstay.angle',
    );
    expect(stays.length).toBe(1);
    expect(says).toContain(`${Number(stays[0]?.data['value']).toFixed(1)}° to the vertical`);
  });

  it('says what its overall sizes are over, and in a free view, which has none, that nothing can be measured', async () => {
    const { cage, shape } = await sampleCar('plover-rollbar');
    const car = new Car(cage, shape);
    const said = (view: 'side' | 'free'): string =>
      texts(viewWithKey(car, view).items)
        .map(({ text }) => text)
        .join('\n');
    expect(said('side')).toContain('Overall sizes are over the tubes');
    expect(said('free')).not.toContain('Overall');
    expect(said('free')).toContain('nothing can be measured in it');
    for (const view of ['side', 'free'] as const)
      expect(said(view)).toContain('the current printed rulebook and the scrutineer decide');
  });
});
