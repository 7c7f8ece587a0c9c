/** Which stretch of its centreline a part's metal covers, and arithmetic on such stretches. Stations in mm. */
import type { Length } from '../../grammar/units';
import { mm } from '../../grammar/units';
import type { Vec3 } from '../centreline/vector';
import { dot, sub } from '../centreline/vector';
import type { End, Part, Stretch } from './shape';

/**
 * Where a cut at one end stands, as a distance along the centreline from that end of it: set-backs count from E, which
 * may lie beside or beyond the end node. Without a known cut: at the node.
 */
function cutFromNode(part: Part, end: End, cut: Length | null): number {
  const points = part.centreline?.points ?? [];
  const node = end.which === 'first' ? points[0] : points[points.length - 1];
  if (cut === null) return 0;
  if (node === undefined || end.origin === null || end.away === null) return cut;
  return dot(sub(end.origin, node), end.away) + cut;
}

function between(part: Part, cutOf: (end: End) => Length | null): Stretch | null {
  if (part.centreline === null) return null;
  const [first, last] = part.ends;
  const from = cutFromNode(part, first, cutOf(first));
  const to = part.centreline.length - cutFromNode(part, last, cutOf(last));
  return to > from ? { from: mm(from), to: mm(to) } : null;
}

/** From long point to long point: all that there is of the tube. Null where nothing is left, or nothing is known. */
export const bodyStretch = (part: Part): Stretch | null => between(part, (end) => end.minCut);

/** Where the tube is whole all round: from behind the deepest point of one cut to that of the other. */
export const ringStretch = (part: Part): Stretch | null => between(part, (end) => end.maxCut ?? end.minCut);

/** By how much two stretches overlap, mm; 0 or less: they do not, and lie that far apart. */
export const overlap = (a: Stretch, b: Stretch): number => Math.min(a.to, b.to) - Math.max(a.from, b.from);

/** A stretch about a station, `width` wide. */
export const about = (station: number, width: number): Stretch => ({
  from: mm(station - width / 2),
  to: mm(station + width / 2),
});

/** The parts of a tube that is named: itself or its two pieces, or the piece of that name. */
export function partsOf(parts: ReadonlyMap<string, Part>, name: string): readonly Part[] {
  const whole = parts.get(name);
  if (whole !== undefined) return [whole];
  return [parts.get(`${name}.a`), parts.get(`${name}.b`)].filter((part): part is Part => part?.tube.name === name);
}

/** Station of a place that is `from` mm along the tube from the node of one end (`at`: where that is). */
export function stationFrom(part: Part, which: 'first' | 'last', at: Vec3 | null, from: number): number | null {
  const line = part.centreline;
  const end = part.ends[which === 'first' ? 0 : 1];
  if (line === null) return null;
  // The centreline begins at E; the node may stand a little before or behind it.
  const lead = at === null || end.origin === null || end.away === null ? 0 : dot(sub(at, end.origin), end.away);
  return which === 'first' ? lead + from : line.length - lead - from;
}
