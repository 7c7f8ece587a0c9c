/**
 * Findings of twins that say the same are one finding. The twin is the written thing's image in the car's centre plane,
 * so figures agree, sideways coordinates change their sign, and the names in the sentence change sides.
 */
import type { Finding, Measure, Params, Place } from '../../grammar/finding';
import type { Cage } from '../cage/cage';

/** Figures of twins differ by rounding only. */
const SAME = 1e-6;

const other = (text: string): string =>
  text.replace(/\.(left|right)\b/g, (_, side: string) => (side === 'left' ? '.right' : '.left'));

const sameFigure = (a: Measure | undefined, b: Measure | undefined): boolean =>
  a === undefined || b === undefined ? a === b : a.unit === b.unit && Math.abs(a.value - b.value) <= SAME;

type Param = Params[string];

const isMeasure = (value: Param): value is Measure => typeof value === 'object' && value !== null && 'unit' in value;

/** Equal, or mirror images: a coordinate to the left is one to the right, and a name has its other side. */
function mirrored(a: Param, b: Param): boolean {
  if (isMeasure(a)) return isMeasure(b) && a.unit === b.unit && Math.abs(Math.abs(a.value) - Math.abs(b.value)) <= SAME;
  if (typeof a === 'number')
    return typeof b === 'number' && Math.abs(Math.abs(a) - Math.abs(b)) <= SAME * Math.max(1, Math.abs(a));
  if (typeof a === 'string') return typeof b === 'string' && (a === b || other(a) === b);
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    const swapped = a.map((item: string) => other(item)).sort();
    const own = [...(b as readonly string[])].sort();
    return swapped.every((item, i) => item === own[i]) || a.every((item, i) => item === (b as readonly string[])[i]);
  }
  return a === b;
}

function sameParams(a: Params, b: Params): boolean {
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length && keys.every((key) => key in b && mirrored(a[key] ?? null, b[key] ?? null))
  );
}

export interface Standing {
  readonly finding: Finding;
  readonly place: Place;
  readonly waived: boolean;
  /** True where the finding speaks for both twins. */
  readonly both: boolean;
}

const isTwin = (cage: Cage, subject: string): boolean => {
  const name = cage.things.has(subject) ? subject : subject.replace(/\.[ab]$/, '');
  return cage.things.get(name)?.twin === true;
};

const sidesOf = (subject: string): boolean => /\.(left|right)(\.[ab])?$/.test(subject);

/** True where `b` is the finding of the twin of `a`'s thing, and says the same. */
function sayTheSame(a: Standing, b: Standing): boolean {
  return (
    a.finding.subject !== b.finding.subject &&
    sidesOf(a.finding.subject) &&
    other(a.finding.subject) === b.finding.subject &&
    a.waived === b.waived &&
    a.finding.severity === b.finding.severity &&
    a.finding.rule?.book === b.finding.rule?.book &&
    sameFigure(a.finding.measured, b.finding.measured) &&
    sameParams(a.finding.params, b.finding.params)
  );
}

/** Merges the findings of twins, keeping the written side's, in the order given. */
export function mergeTwins(cage: Cage, standing: readonly Standing[]): readonly Standing[] {
  const byPlace = new Map<string, Standing[]>();
  for (const item of standing) {
    // What stands on no side has no twin.
    if (!sidesOf(item.finding.subject)) continue;
    const key = `${item.finding.code} ${item.place.file} ${item.place.span.start} ${item.place.span.end}`;
    const group = byPlace.get(key);
    if (group === undefined) byPlace.set(key, [item]);
    else group.push(item);
  }
  const dropped = new Set<Standing>();
  const both = new Set<Standing>();
  for (const group of byPlace.values()) {
    for (const [i, first] of group.entries()) {
      if (dropped.has(first) || both.has(first)) continue;
      const second = group
        .slice(i + 1)
        .find((item) => !dropped.has(item) && !both.has(item) && sayTheSame(first, item));
      if (second === undefined) continue;
      const [keep, drop] = isTwin(cage, first.finding.subject) ? [second, first] : [first, second];
      both.add(keep);
      dropped.add(drop);
    }
  }
  return standing.filter((item) => !dropped.has(item)).map((item) => (both.has(item) ? { ...item, both: true } : item));
}
