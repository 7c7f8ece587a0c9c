/** What a drawing must say that it lacks. */
import type { Shape } from '../geometry/shape';
import { partsOf } from '../geometry/stretch';
import { bodyOf } from './body';

/** Tubes without a centreline or a section that is known, by their full names: nothing of them can be drawn. */
export const undrawnTubes = (shape: Shape): readonly string[] =>
  [...shape.cage.things.values()].flatMap((thing) => {
    if (thing.kind !== 'tube') return [];
    const parts = partsOf(shape.parts, thing.name);
    return parts.length > 0 && parts.every((part) => bodyOf(part) !== null) ? [] : [thing.name];
  });

/** The same as a sentence; null: all are drawn. */
export function undrawnWords(shape: Shape): string | null {
  const names = undrawnTubes(shape);
  return names.length === 0
    ? null
    : `Not drawn, since ${names.length === 1 ? 'its' : 'their'} centreline or section is not known: ${names.join(', ')}.`;
}
