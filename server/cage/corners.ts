/**
 * Ends of tubes that are set on the corner of another tube's bend. The bent tube cuts that corner, so nothing of it is
 * there. Told by name; an end that stands beside a tube for other reasons is the geometry's business.
 */
import { nearestOn } from '../centreline/query';
import type { Thing, Tube } from './cage';
import { placeOf } from './place';
import type { Reporter } from './reporter';

/** Without a section: an end this near to the centreline is on it, mm. */
const ON_CENTRELINE = 0.5;

/** Inner nodes of all paths: which tubes turn there, and which run straight through. */
interface Corner {
  readonly tube: Tube;
  readonly bends: boolean;
}

export function tellBendCorners(things: ReadonlyMap<string, Thing>, reporter: Reporter): void {
  const corners = new Map<string, Corner[]>();
  const footed = new Set<string>();
  const tubes: Tube[] = [];
  for (const thing of things.values()) {
    if (thing.kind === 'foot' && thing.node !== null) footed.add(thing.node);
    if (thing.kind !== 'tube') continue;
    tubes.push(thing);
    for (const { index, angle } of thing.corners) {
      const node = thing.path[index];
      if (node === null || node === undefined) continue;
      const list = corners.get(node);
      const corner = { tube: thing, bends: angle > 0 };
      if (list === undefined) corners.set(node, [corner]);
      else list.push(corner);
    }
  }
  for (const tube of tubes) {
    const last = tube.path.length - 1;
    for (const item of last > 0 ? [0, last] : []) {
      const node = tube.path[item];
      const told = item === 0 ? tube.first : tube.last;
      if (node === null || node === undefined || told.kind !== 'auto' || footed.has(node)) continue;
      const others = (corners.get(node) ?? []).filter((corner) => corner.tube !== tube);
      if (others.some(({ bends }) => !bends)) continue;
      const at = things.get(node);
      if (at?.kind !== 'node' || at.at === null) continue;
      for (const { tube: host } of others) {
        if (host.centreline === null) continue;
        const far = nearestOn(host.centreline, at.at).distance;
        if (far <= (host.section === null ? ON_CENTRELINE : host.section.od / 2)) continue;
        const place = placeOf({ things }, { kind: 'thing', thing: tube.name, fact: 'path', item });
        if (place === null) continue;
        const params = {
          node,
          tube: host.name,
          end: item === 0 ? 'first' : 'last',
          distance: { value: far, unit: 'mm' as const },
        };
        reporter.reportAt('place.bend-corner', place, params, {
          subject: tube.name,
          world: tube.twin ? 'image' : 'real',
        });
        break;
      }
    }
  }
}
