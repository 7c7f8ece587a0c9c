/**
 * Removable joints: each belongs to one end that is joined to something. How the end is cut stays as without it: a clevis
 * or a muff sits between the tube and what it lands on, and its maker says how far the tube is cut back for it.
 */
import type { Finding } from '../../grammar/finding';
import type { Fitting } from '../cage/cage';
import { distance } from '../centreline/vector';
import { outerRadius } from './axis';
import type { Kinds } from './kinds';
import type { Neighbours } from './neighbours';
import { openingOf } from './openings';
import type { End, Part } from './shape';
import { partsOf } from './stretch';
import { tell } from './tell';

/** The end that a fitting is written for; null where the tube is not known. */
function endOfFitting(
  fitting: Fitting,
  parts: ReadonlyMap<string, Part>,
): { readonly part: Part; readonly end: End } | null {
  if (fitting.tube === null || fitting.end === null) return null;
  const pieces = partsOf(parts, fitting.tube);
  const part = fitting.end === 'first' ? pieces[0] : pieces.at(-1);
  return part === undefined ? null : { part, end: part.ends[fitting.end === 'first' ? 0 : 1] };
}

/** Does another end land on this one, so that it is joined though nothing cuts it? */
function carries(part: Part, end: End, parts: ReadonlyMap<string, Part>, neighbours: Neighbours): boolean {
  const { origin } = end;
  if (origin === null) return false;
  return neighbours
    .around(origin, 2 * outerRadius(part))
    .some(
      (other) =>
        other !== part &&
        other.ends.some(
          (its) =>
            its.hosts.some((host) => parts.get(host) === part) &&
            its.origin !== null &&
            distance(its.origin, origin) <= outerRadius(part) + outerRadius(other),
        ),
    );
}

/** Why an end has nothing to be bolted to; null: it has, or it is not known. */
function loose(part: Part, end: End, parts: ReadonlyMap<string, Part>, neighbours: Neighbours): string | null {
  if (part.centreline === null || end.origin === null || end.hosts.length > 0) return null;
  if (carries(part, end, parts, neighbours)) return null;
  const told = end.which === 'first' ? part.tube.first : part.tube.last;
  if (told.kind === 'open') return 'it is told to be open';
  if (told.kind !== 'auto' && told.kind !== 'past') return null;
  return openingOf(part, end, neighbours).kind === 'air' ? 'nothing is there' : null;
}

/** `fitting.no-joint` and `fitting.twice`. */
export function fittingFindings(
  kinds: Kinds,
  parts: ReadonlyMap<string, Part>,
  neighbours: Neighbours,
): readonly Finding[] {
  const findings: Finding[] = [];
  const taken = new Map<string, Fitting>();
  // By their names: the order of statements has no meaning.
  for (const fitting of [...kinds.fittings].sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const at = endOfFitting(fitting, parts);
    if (at === null) continue;
    const { part, end } = at;
    const anchor = { kind: 'thing', thing: fitting.name, fact: 'tube' } as const;
    const params = { end: end.which, tube: part.tube.name, fitting: fitting.name };
    const key = `${part.tube.name} ${end.which}`;
    const first = taken.get(key);
    if (first === undefined) taken.set(key, fitting);
    else {
      findings.push(tell('fitting.twice', fitting.name, anchor, { ...params, first: first.name }));
      continue;
    }
    const why = loose(part, end, parts, neighbours);
    if (why !== null) findings.push(tell('fitting.no-joint', fitting.name, anchor, { ...params, why }));
  }
  return findings;
}
