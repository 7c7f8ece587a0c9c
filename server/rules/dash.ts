/** The dashboard and the steering column that a dash bar is measured against, and the example of both rules. */
import type { Panel } from '../cage/cage';
import type { PanelKind } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import type { Car } from './car';
import { front } from './examples';

/** The outlines of the panels of a kind that are known. */
export const outlinesOf = (car: Car, kind: PanelKind): readonly (readonly Vec3[])[] =>
  car
    .ofKind('panel')
    .filter((panel: Panel) => panel.as === kind)
    .flatMap(({ outline }) => (outline === null ? [] : [outline]));

/** The height of a line of points at `x`, going on beyond its ends; null: it has none there. */
export function heightAt(outline: readonly Vec3[], x: number): number | null {
  const [a, b] = [outline[0], outline[outline.length - 1]];
  if (a === undefined || b === undefined || Math.abs(b[0] - a[0]) < 1e-9) return null;
  return a[2] + ((x - a[0]) / (b[0] - a[0])) * (b[2] - a[2]);
}

export const dashExample = (z: string, panel: string): string =>
  `${front()}\n${panel}\nmirror left { node dash-end = on side where z = ${z} }\ntube dash as dash-bar { section t38; path dash-end.left, dash-end.right }\nvent dash -> side.left { at dash-end.left; dia 5 }`;
