/**
 * Drawings as files, read back as a browser reads them (parse5): every figure that stands in one, as data and in words, is
 * that of the model; overall sizes against the corners of the tubes' own meshes, which are made without the drawing.
 */
import type { DefaultTreeAdapterMap } from 'parse5';
import { parseFragment } from 'parse5';
import { describe, expect, it } from 'vitest';
import { pointAt } from '../../server/centreline/query';
import { VIEW_NAMES, VIEWS, type ViewName } from '../../server/drawing/view';
import type { Shape } from '../../server/geometry/shape';
import { TO_MEASURE } from '../../server/mesh/pipe';
import { tubeMesh } from '../../server/mesh/tube';
import { viewSvg } from '../../server/project/report';
import { SAMPLES, sampleCar } from '../mesh/samples';

type Node = DefaultTreeAdapterMap['node'];
type Element = DefaultTreeAdapterMap['element'];

const isElement = (node: Node): node is Element => 'tagName' in node;
const attribute = (element: Element, name: string): string | null =>
  element.attrs.find((each) => each.name === name)?.value ?? null;

/** All elements, depth first. */
const elements = (node: Node): readonly Element[] =>
  'childNodes' in node
    ? node.childNodes.flatMap((child) => (isElement(child) ? [child, ...elements(child)] : elements(child)))
    : [];

const textOf = (node: Node): string =>
  'value' in node ? String(node.value) : 'childNodes' in node ? node.childNodes.map(textOf).join('') : '';

interface Figure {
  readonly what: string;
  readonly of: string;
  /** As data, in degrees or millimetres. */
  readonly value: number;
  /** As it is printed. */
  readonly says: string;
}

const figuresIn = (svg: string): readonly Figure[] =>
  elements(parseFragment(svg)).flatMap((group) => {
    const value = attribute(group, 'data-value');
    if (value === null) return [];
    const says = elements(group).flatMap((each) => (each.tagName === 'text' ? [textOf(each)] : []));
    return [
      {
        what: attribute(group, 'data-what') ?? '',
        of: attribute(group, 'data-of') ?? '',
        value: Number(value),
        says: says.join(' '),
      },
    ];
  });

/** The one number with a unit that a label says, in degrees or millimetres, and half of its last digit. */
function printed(says: string): { readonly value: number; readonly half: number } {
  // Inches on a mark of a tape are said as a fraction, and are exact.
  const [, whole = '0', over = '', under = ''] = /(?:(-?\d+) )?(\d+)\/(\d+) in/.exec(says) ?? [];
  if (over !== '') return { value: (Number(whole) + Number(over) / Number(under)) * 25.4, half: 1e-6 };
  const match = /(-?[\d,]*\.?\d+)\s?(°|mm|in)/.exec(says);
  const digits = (match?.[1] ?? '').replaceAll(',', '');
  const unit = match?.[2] === 'in' ? 25.4 : 1;
  return { value: Number(digits) * unit, half: 0.5 * 10 ** -(digits.split('.')[1]?.length ?? 0) * unit };
}

/** How far the tubes reach on the view, by the corners of their meshes: to the right, and up. */
function reach(shape: Shape, name: ViewName): readonly [number, number] {
  const { right, up } = VIEWS[name];
  const ends = [Infinity, -Infinity, Infinity, -Infinity] as [number, number, number, number];
  for (const part of shape.parts.values()) {
    const list = tubeMesh(part, TO_MEASURE)?.positions ?? new Float32Array();
    for (let i = 0; i < list.length; i += 3) {
      const at = [list[i] ?? NaN, list[i + 1] ?? NaN, list[i + 2] ?? NaN];
      const along = (way: readonly number[]): number => at.reduce((sum, c, k) => sum + c * (way[k] ?? NaN), 0);
      const [u, v] = [along(right), along(up)];
      ends[0] = Math.min(ends[0], u);
      ends[1] = Math.max(ends[1], u);
      ends[2] = Math.min(ends[2], v);
      ends[3] = Math.max(ends[3], v);
    }
  }
  return [ends[1] - ends[0], ends[3] - ends[2]];
}

const degrees = (angle: number | null): number => ((angle ?? NaN) * 180) / Math.PI;

describe('a drawing read back from its file', () => {
  for (const sample of SAMPLES) {
    for (const view of VIEW_NAMES) {
      it(`${sample}, ${view}: says what the model says`, async () => {
        const car = await sampleCar(sample);
        const { shape } = car;
        const figures = figuresIn(viewSvg(car, view));
        expect(figures.length).toBeGreaterThanOrEqual(2);
        const [across, up] = reach(shape, view);
        const value = (what: string): number => figures.find((figure) => figure.what === what)?.value ?? NaN;
        // Chords stay inside of the round by their fineness.
        expect(Math.abs(value('overall-across') - across)).toBeLessThan(4 * TO_MEASURE.across);
        expect(Math.abs(value('overall-up') - up)).toBeLessThan(4 * TO_MEASURE.across);
        for (const { what, says, value: data, of } of figures) {
          // A page that is full leaves a label away; its figure stays in the data.
          if (says === '') continue;
          const { value: written, half } = printed(says);
          expect(Math.abs(written - Math.abs(data)), `${what} ${of}: ${says}`).toBeLessThanOrEqual(half + 1e-6);
        }
        for (const strap of shape.straps) {
          const found = figures.filter(({ of }) => of.split(' ').includes(strap.name));
          for (const figure of found) {
            if (figure.what === 'strap.drop') expect(figure.value).toBeCloseTo(degrees(strap.drop), 5);
            if (figure.what === 'strap.spread') expect(figure.value).toBeCloseTo(degrees(strap.spread), 5);
          }
        }
        for (const figure of figures.filter(({ what }) => what === 'bar-height')) {
          const line = shape.parts.get(figure.of)?.centreline;
          if (line === null || line === undefined) throw new Error(figure.of);
          expect(figure.value).toBeCloseTo(pointAt(line, line.length / 2).point[2], 5);
        }
      });
    }

    it(`${sample}, free: has nothing to measure, and no scale`, async () => {
      const svg = viewSvg(await sampleCar(sample), 'free');
      expect(figuresIn(svg)).toEqual([]);
      expect(svg).not.toMatch(/scale-bar|1 : \d/);
      expect(svg).toContain('nothing can be measured in it');
    });
  }

  it('draws hidden lines lighter and thinner than those that are seen', async () => {
    const svg = viewSvg(await sampleCar('curlew-cage'), 'side');
    const paths = elements(parseFragment(svg)).filter(({ tagName }) => tagName === 'path');
    const broken = paths.filter((path) => attribute(path, 'stroke-dasharray') === '0.9 0.7');
    const seen = paths.filter(
      (path) => attribute(path, 'stroke') === '#000' && attribute(path, 'stroke-width') === '0.3',
    );
    expect(broken.length).toBeGreaterThan(0);
    expect(seen.length).toBeGreaterThan(0);
    for (const path of broken) {
      expect(Number.parseInt((attribute(path, 'stroke') ?? '').slice(1, 3), 16)).toBeGreaterThan(0x60);
      expect(Number(attribute(path, 'stroke-width'))).toBeLessThan(0.3);
    }
  });
});
