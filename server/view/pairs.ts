/**
 * The line of a distance that a finding measures between two things that it names: of the shortest lines between them, the
 * one that is as long as the figure. Where none is, the figure is taken some other way, and no line is drawn.
 */
import type { PlacedFinding } from '../../grammar/finding';
import type { Vec3 } from '../centreline/vector';
import { distance } from '../centreline/vector';
import type { Part } from '../geometry/shape';
import type { Names } from './names';
import type { Between, Solid } from './solid';
import { shortest } from './solid';
import type { Target } from './target';

/** A line is the one that was measured where it is as long, to this, mm: some figures are searched in steps. */
const AS_LONG = 0.1;
/** Shorter than this no line is seen, mm. */
const SEEN = 1;
/** So many things are looked at of those that a finding names. */
const MOST = 5;
/** Params that name what a finding is about. */
const NAMED = [
  'tube',
  'other',
  'a',
  'b',
  'host',
  'panel',
  'seat',
  'hoop',
  'diagonal',
  'first',
  'second',
  'foot',
] as const;

/** Between the cut edges of two parts: where the toes of their welds begin. */
function edges(a: readonly Part[], b: readonly Part[]): Between | null {
  const ofEnds = (parts: readonly Part[]): readonly (readonly Vec3[])[] =>
    parts.flatMap(({ ends }) => ends.map(({ edge }) => edge)).filter((edge) => edge.length > 0);
  let best: Between | null = null;
  for (const one of ofEnds(a))
    for (const other of ofEnds(b))
      for (const from of one)
        for (const to of other) {
          const far = distance(from, to);
          if (best === null || far < best.distance) best = { from, to, distance: far };
        }
  return best;
}

/** @param targetsOf what a name means, as bodies */
export function lineOf(
  { code, params, subject, measured }: PlacedFinding,
  names: Names,
  targetsOf: (name: string) => readonly Target[],
): Between | null {
  if (measured?.unit !== 'mm' || !(measured.value > SEEN)) return null;
  const said = NAMED.flatMap((param) => {
    const value = params[param];
    return typeof value === 'string' ? [value] : [];
  });
  const [one, ...others] = [...new Set([subject, ...said])].flatMap((name) => names.full(name)).slice(0, MOST);
  if (one === undefined) return null;
  const a = targetsOf(one);
  for (const other of others) {
    const b = targetsOf(other);
    const lines = [
      (): Between | null => shortest(bodies(a), bodies(b)),
      (): Between | null => shortest(axes(a), axes(b)),
      ...(code === 'joint.toe-spacing' ? [(): Between | null => edges(names.parts(one), names.parts(other))] : []),
    ];
    for (const line of lines) {
      const found = line();
      if (found !== null && Math.abs(found.distance - measured.value) <= AS_LONG) return found;
    }
  }
  return null;
}

const bodies = (targets: readonly Target[]): readonly Solid[] => targets.flatMap(({ solids }) => solids);
const axes = (targets: readonly Target[]): readonly Solid[] => targets.flatMap(({ axis }) => axis);
