/** Names of things that exist on both sides, said once; and the numbers of tubes on the drawings. */
import type { Shape } from '../geometry/shape';
import type { Numbered } from '../drawing/marks';

const SIDE = /\.(left|right)(?=$|\.[ab]$)/;

const bare = (name: string): string => name.replace(SIDE, '');

/** `stay.left, stay.right` is `stay (both sides)`; the order stays. */
export function bothSides(names: readonly string[]): readonly string[] {
  const all = new Set(names);
  const seen = new Set<string>();
  return names.flatMap((name) => {
    const side = SIDE.exec(name)?.[1];
    if (side === undefined) return seen.has(name) ? [] : (seen.add(name), [name]);
    const twin = name.replace(SIDE, side === 'left' ? '.right' : '.left');
    const said = all.has(twin) ? `${bare(name)} (both sides)` : name;
    if (seen.has(said)) return [];
    seen.add(said);
    return [said];
  });
}

export interface TubeNumber extends Numbered {
  /** Without its side. */
  readonly name: string;
}

/** Twins and the pieces of a split tube share a number; in the order of the names that stand in the car. */
export function tubeNumbers(shape: Shape): readonly TubeNumber[] {
  const byBase = new Map<string, string[]>();
  for (const part of shape.parts.values()) {
    const list = byBase.get(part.tube.base);
    if (list === undefined) byBase.set(part.tube.base, [part.name]);
    else list.push(part.name);
  }
  return [...byBase].map(([name, parts], i) => ({ number: i + 1, name, parts }));
}
