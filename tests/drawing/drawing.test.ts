/** Whole drawings of the samples: figures as the model has them, words that lie on no others, a scale that holds. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { drawCage } from '../../server/drawing/drawing';
import type { Box, Item, Scene } from '../../server/drawing/scene';
import { overlap, textWidth } from '../../server/drawing/scene';
import { svgElement, svgFile } from '../../server/drawing/svg';
import { VIEW_NAMES, VIEW_WORDS, VIEWS } from '../../server/drawing/view';
import { marksOf } from '../../server/papers/figures';
import { tubeNumbers } from '../../server/papers/names';
import { strapDetails, viewOf } from '../../server/papers/pictures';
import { Car } from '../../server/rules/car';
import type { Analysis } from '../../server/project/project';
import { analyse } from '../support/analyse';

const SAMPLES = ['plover-rollbar', 'siskin-club-bar', 'curlew-cage', 'every-finding'] as const;
const sample = (name: string): string => readFileSync(new URL(`../../samples/${name}`, import.meta.url), 'utf8');
const USED = ['curlew-seats.cage', 'every-finding-part.cage', 'heron-club.cage'];

const cars = new Map<string, Analysis>();
beforeAll(async () => {
  const files = Object.fromEntries(USED.map((name) => [name, sample(name)]));
  for (const name of SAMPLES) cars.set(name, await analyse(sample(`${name}.cage`), files, `${name}.cage`));
});
const carOf = (name: string): Car => {
  const analysis = cars.get(name);
  if (analysis === undefined) throw new Error(name);
  return new Car(analysis.cage, analysis.shape);
};

const flattened = (items: readonly Item[]): readonly Item[] =>
  items.flatMap((item) => (item.kind === 'group' || item.kind === 'clip' ? [item, ...flattened(item.items)] : [item]));

const groups = (scene: Scene, ...names: readonly string[]): readonly Extract<Item, { kind: 'group' }>[] =>
  flattened(scene.items).flatMap((item) => (item.kind === 'group' && names.includes(item.name) ? [item] : []));

/** Room of the words as they were laid out. */
function boxes(scene: Scene): readonly { readonly box: Box; readonly says: string }[] {
  return groups(scene, 'angle', 'spot', 'distance', 'number').flatMap((group) => {
    const texts = group.items.flatMap((item) => (item.kind === 'text' ? [item] : []));
    const all = texts.map(({ at, text, size, anchor }) => {
      const width = textWidth(text, size);
      const left = anchor === 'start' ? at.x : anchor === 'middle' ? at.x - width / 2 : at.x - width;
      return { left, right: left + width, top: at.y - size * 0.75, bottom: at.y };
    });
    const first = all[0];
    if (first === undefined) return [];
    const box = all.reduce(
      (a, b) => ({
        left: Math.min(a.left, b.left),
        right: Math.max(a.right, b.right),
        top: Math.min(a.top, b.top),
        bottom: Math.max(a.bottom, b.bottom),
      }),
      first,
    );
    return [{ box, says: texts.map(({ text }) => text).join(' ') }];
  });
}

describe('words on the drawings', () => {
  for (const name of SAMPLES) {
    it(`lie on no other words and within the picture: ${name}`, () => {
      const car = carOf(name);
      const scenes = [
        ...VIEW_NAMES.map((view) => viewOf(car, view, tubeNumbers(car.shape)).scene),
        ...strapDetails(car).map(({ scene }) => scene),
      ];
      for (const scene of scenes) {
        const placed = boxes(scene);
        for (const [i, one] of placed.entries()) {
          expect(one.box.left, one.says).toBeGreaterThanOrEqual(0);
          expect(one.box.right, one.says).toBeLessThanOrEqual(scene.width);
          for (const other of placed.slice(i + 1))
            expect(overlap(one.box, other.box), `${one.says} on ${other.says}`).toBe(false);
        }
      }
    });
  }
  it('number every tube in some view', () => {
    for (const name of ['plover-rollbar', 'siskin-club-bar', 'curlew-cage'] as const) {
      const car = carOf(name);
      const numbers = tubeNumbers(car.shape);
      const found = new Set(VIEW_NAMES.flatMap((view) => viewOf(car, view, numbers).numbered));
      expect(numbers.filter(({ number }) => !found.has(number)).map((one) => one.name)).toEqual([]);
    }
  });
});

describe('measured figures', () => {
  const degrees = (angle: number | null): number => ((angle ?? NaN) * 180) / Math.PI;

  it('are those of the model, and the arcs are as wide as they say', () => {
    const car = carOf('plover-rollbar');
    const { shape } = car;
    const side = viewOf(car, 'side', []).scene;
    const plan = viewOf(car, 'plan', []).scene;
    const value = (scene: Scene, what: string, of: string): number =>
      Number(
        groups(scene, 'angle', 'spot').find((g) => g.data['what'] === what && g.data['of']?.includes(of) === true)
          ?.data['value'],
      );
    for (const strap of shape.straps) {
      expect(value(side, 'strap.drop', strap.name)).toBeCloseTo(degrees(strap.drop), 5);
      expect(value(plan, 'strap.spread', strap.name)).toBeCloseTo(degrees(strap.spread), 5);
    }
    // The sample leans its hoop by 4 degrees.
    expect(value(side, 'hoop.tilt', 'main-hoop')).toBeCloseTo(4, 6);
    const stay = shape.parts.get('backstay.left')?.centreline?.points ?? [];
    const [top, foot] = [stay[0] ?? [0, 0, 0], stay[1] ?? [0, 0, 0]];
    const toVertical = degrees(Math.atan2(Math.abs(top[0] - foot[0]), top[2] - foot[2]));
    expect(value(side, 'backstay.angle', 'backstay')).toBeCloseTo(toVertical, 6);

    for (const scene of [side, plan]) {
      const arcs = flattened(scene.items).flatMap((item) =>
        item.kind === 'arc' ? [degrees(item.to - item.from)] : [],
      );
      const said = groups(scene, 'angle').map((g) => Math.abs(Number(g.data['value'])));
      expect(arcs.length).toBe(said.length);
      for (const [i, arc] of arcs.entries()) expect(arc).toBeCloseTo(said[i] ?? NaN, 6);
    }
  });

  it('are written in the picture with the figure of the model, in the units of the file', () => {
    const car = carOf('siskin-club-bar');
    const svg = svgElement(viewOf(car, 'side', []).scene);
    expect(svg).toContain('axis at z = 26 3/8 in');
    const svgPlover = svgElement(viewOf(carOf('plover-rollbar'), 'front', []).scene);
    // 120 before the crown's bend for the diagonal, 45 for the stay: 75 apart along the hoop, as the sample writes them.
    expect(svgPlover).toContain('75 mm from the backstay');
    expect(svgPlover).toContain('70 mm from the foot');
  });

  it('have a scale that holds: overall dimensions, scale bar', () => {
    for (const name of SAMPLES) {
      for (const view of VIEW_NAMES) {
        const { scene, scale } = viewOf(carOf(name), view, []);
        if (scale === null) throw new Error('no scale');
        for (const { items, data } of groups(scene, 'overall')) {
          // Words may break the line: it goes from the end of its first piece to that of its last.
          const across = data['what'] === 'overall-across';
          const ends = items.flatMap((item) =>
            item.kind === 'line' &&
            item.style === 'dimension' &&
            (across ? item.points[0]?.y === item.points[1]?.y : item.points[0]?.x === item.points[1]?.x)
              ? item.points.map(({ x, y }) => (across ? x : y))
              : [],
          );
          expect((Math.max(...ends) - Math.min(...ends)) / scale).toBeCloseTo(Number(data['value']), 6);
        }
        const bar = groups(scene, 'scale-bar')[0]?.items ?? [];
        const ends = bar.flatMap((item, i) => (item.kind === 'text' ? [{ item, i }] : []));
        const firstOf = (from: number, to: number): number =>
          Math.max(...bar.slice(from, to).flatMap((one) => (one.kind === 'line' ? one.points.map(({ x }) => x) : []))) -
          Math.min(...bar.slice(from, to).flatMap((one) => (one.kind === 'line' ? one.points.map(({ x }) => x) : [])));
        const [mm, inch] = [firstOf(0, ends[0]?.i ?? 0), firstOf((ends[0]?.i ?? 0) + 1, ends[1]?.i ?? 0)];
        expect(mm / scale).toBeCloseTo(Number.parseFloat(ends[0]?.item.text ?? ''), 6);
        // An inch is 25.4 mm, exactly (international yard and pound agreement of 1959).
        expect(inch / scale / 25.4).toBeCloseTo(Number.parseFloat(ends[1]?.item.text ?? ''), 6);
      }
    }
  });

  it('mark what exists twice once, with both sides in their name', () => {
    const { side } = marksOf(carOf('curlew-cage'));
    const stays = side.filter(({ what }) => what === 'backstay.angle');
    expect(stays.map(({ of }) => of)).toEqual([['backstay (both sides)']]);
  });
});

describe('any car', () => {
  it('is drawn the same twice, and needs nothing beside it', () => {
    const car = carOf('curlew-cage');
    const draw = (): string =>
      VIEW_NAMES.map((name) =>
        svgFile(
          drawCage(car.shape, { view: VIEWS[name], title: VIEW_WORDS[name], width: 180, height: 150 }).scene,
          'a -- note',
        ),
      ).join('');
    const svg = draw();
    expect(draw()).toBe(svg);
    expect(svg).not.toMatch(/href|url\(|<script|<image|NaN|Infinity|undefined/);
    expect(svg.match(/https?:[^"]*/g)?.every((one) => one === 'http://www.w3.org/2000/svg')).toBe(true);
  });
  it('without tubes has a picture that says so', async () => {
    for (const text of [
      '',
      'cage "x"',
      'tube t { path a, b }',
      'node a = (0, 0, 0)\nnode b = (1, 0, 0)\ntube t { path a, b }',
    ]) {
      const { shape } = await analyse(text);
      const { scene, scale } = drawCage(shape, { view: VIEWS.side, title: 'x', width: 100, height: 80 });
      expect(scale).toBeNull();
      expect(svgElement(scene)).toContain('Nothing to draw');
    }
  });
  it('of any size is drawn', async () => {
    for (const far of ['0.001', '1', '1000000', '900000000000']) {
      const text = `section t { od 45; wall 2.5 }\nnode a = (0, 0, 0)\nnode b = (0, ${far}, ${far})\ntube t { section t; path a, b; first open; last open }`;
      const { shape } = await analyse(text);
      for (const name of VIEW_NAMES) {
        const { scene } = drawCage(shape, { view: VIEWS[name], title: 'x', width: 100, height: 80, say: String });
        expect(svgElement(scene)).not.toMatch(/NaN|Infinity/);
        expect(scene.height).toBeLessThanOrEqual(80 + 1e-6);
      }
    }
  });
});
