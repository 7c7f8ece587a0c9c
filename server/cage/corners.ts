/**
 * Ends of tubes that are set on the corner of another tube's bend. The bent tube cuts that corner, so nothing of it is
 * there. Told by name; an end that stands beside a tube for other reasons is the geometry's business.
 */
import type { Measure } from '../../grammar/finding';
import { nearestOn } from '../centreline/query';
import type { Thing, Tube } from './cage';
import type { Written } from './names';
import { factSpan } from './place';
import type { Reporter } from './reporter';

/** Without a section: an end this near to the centreline is on it, mm. */
const ON_CENTRELINE = 0.5;

/** Inner nodes of all paths: which tubes turn there, and which run straight through. */
interface Corner {
  readonly tube: Tube;
  readonly bends: boolean;
}

/** Looks at all tubes; `written` are the statements of the car, with the things that they describe. */
export function tellBendCorners(
  written: readonly Written[],
  things: ReadonlyMap<string, Thing>,
  reporter: Reporter,
): void {
  const corners = new Map<string, Corner[]>();
  const footed = new Set<string>();
  const tubes: { readonly tube: Tube; readonly written: Written }[] = [];
  for (const one of written) {
    if (one.kind !== 'tube' && one.kind !== 'foot') continue;
    for (const thing of one.things) {
      if (thing.kind === 'foot' && thing.node !== null) footed.add(thing.node);
      if (thing.kind !== 'tube') continue;
      tubes.push({ tube: thing, written: one });
      for (const { index, angle } of thing.corners) {
        const node = thing.path[index];
        if (node === null || node === undefined) continue;
        const list = corners.get(node);
        const corner = { tube: thing, bends: angle > 0 };
        if (list === undefined) corners.set(node, [corner]);
        else list.push(corner);
      }
    }
  }
  for (const { tube, written: one } of tubes) {
    const last = tube.path.length - 1;
    for (const item of last > 0 ? [0, last] : []) {
      const found = cornerAt(tube, item, corners, footed, things);
      if (found === null) continue;
      const span = factSpan(one.entry, 'path', item);
      const params = { ...found, end: item === 0 ? 'first' : 'last' };
      const world = tube.twin ? 'image' : 'real';
      reporter.now('place.bend-corner', one.scope, span, params, { subject: tube.name, world });
    }
  }
}

/** The corner of a bend on which an end is set, and how far from the tube it is; null: none. */
function cornerAt(
  tube: Tube,
  item: number,
  corners: ReadonlyMap<string, readonly Corner[]>,
  footed: ReadonlySet<string>,
  things: ReadonlyMap<string, Thing>,
): { readonly node: string; readonly tube: string; readonly distance: Measure } | null {
  const node = tube.path[item];
  const told = item === 0 ? tube.first : tube.last;
  if (node === null || node === undefined || footed.has(node)) return null;
  if (told.kind !== 'auto' && told.kind !== 'onto') return null;
  const others = (corners.get(node) ?? []).filter(
    (corner) => corner.tube !== tube && (told.kind === 'auto' || told.hosts.includes(corner.tube.name)),
  );
  if (others.some(({ bends }) => !bends)) return null;
  const at = things.get(node);
  if (at?.kind !== 'node' || at.at === null) return null;
  for (const { tube: host } of others) {
    if (host.centreline === null) continue;
    const far = nearestOn(host.centreline, at.at).distance;
    if (far > (host.section === null ? ON_CENTRELINE : host.section.od / 2)) {
      return { node, tube: host.name, distance: { value: far, unit: 'mm' } };
    }
  }
  return null;
}
