/** Which tubes go through which firewall, and which foot of theirs lies behind it. */
import type { Foot, Named } from '../../cage/cage';
import type { Panel } from '../../cage/hardware';
import { facesOf } from '../../centreline/outline';
import { pointAt } from '../../centreline/query';
import type { Vec3 } from '../../centreline/vector';
import { cross, distance, dot, scale, sub, add } from '../../centreline/vector';
import type { Part } from '../../geometry/shape';
import type { PacketInput } from '../packet/paper';

export interface Through {
  readonly part: Part;
  readonly panel: Panel;
  /** The feet at its far end, if it has one there. */
  readonly far: readonly string[];
}

/** A bent tube is looked at this closely, mm. */
const STEP = 20;

/** True where a stretch goes through a triangle (Möller and Trumbore, Journal of Graphics Tools 2, 1997). */
export function crossesTriangle(p: Vec3, q: Vec3, a: Vec3, b: Vec3, c: Vec3): boolean {
  const way = sub(q, p);
  const [u, v] = [sub(b, a), sub(c, a)];
  const h = cross(way, v);
  const det = dot(u, h);
  if (Math.abs(det) < 1e-9) return false;
  const s = sub(p, a);
  const x = dot(s, h) / det;
  const k = cross(s, u);
  const y = dot(way, k) / det;
  const t = dot(v, k) / det;
  return x >= 0 && y >= 0 && x + y <= 1 && t >= 0 && t <= 1;
}

type Face = ReturnType<typeof facesOf>[number];

const crossesFaces = (p: Vec3, q: Vec3, faces: readonly Face[]): boolean =>
  faces.some((face) => crossesTriangle(p, q, ...face));

/** A face by its edge, which may turn inward; a line has no face. */
export const crossesPanel = (p: Vec3, q: Vec3, outline: readonly Vec3[]): boolean =>
  crossesFaces(p, q, facesOf(outline));

const isFirewall = (thing: Named & { readonly kind: string }): thing is Panel =>
  thing.kind === 'panel' && 'as' in thing && thing.as === 'firewall' && 'outline' in thing && thing.outline !== null;

/** Where the cabin is: the middle of the seats, else of all tubes' middles. */
function cabin({ cage, shape }: Pick<PacketInput, 'cage' | 'shape'>): Vec3 | null {
  const seats = [...cage.things.values()].flatMap((thing) =>
    thing.kind === 'seat' && thing.slots !== null ? [thing.slots] : [],
  );
  const middles = [...shape.parts.values()].flatMap(({ centreline }) =>
    centreline === null ? [] : [pointAt(centreline, centreline.length / 2).point],
  );
  const points = seats.length > 0 ? seats : middles;
  return points.length === 0
    ? null
    : scale(
        points.reduce((sum, p) => add(sum, p)),
        1 / points.length,
      );
}

/** Every tube that goes through a firewall, in the order of the parts. */
export function throughPanels(input: Pick<PacketInput, 'cage' | 'shape'>): readonly Through[] {
  const panels = [...input.cage.things.values()]
    .filter(isFirewall)
    .map((panel) => ({ panel, faces: facesOf(panel.outline ?? []) }));
  if (panels.length === 0) return [];
  const middle = cabin(input);
  const feet = new Map<string, Foot>(
    [...input.cage.things.values()].flatMap((thing) => (thing.kind === 'foot' ? [[thing.name, thing]] : [])),
  );
  return [...input.shape.parts.values()].flatMap((part) => {
    const line = part.centreline;
    if (line === null || part.tube.existing || !(line.length > 0)) return [];
    const count = Math.min(2000, Math.max(1, Math.ceil(line.length / STEP)));
    const points = Array.from({ length: count + 1 }, (_, i) => pointAt(line, (line.length * i) / count).point);
    return panels.flatMap(({ panel, faces }): readonly Through[] => {
      const met = points.some((p, i) => {
        const q = points[i + 1];
        return q !== undefined && crossesFaces(p, q, faces);
      });
      if (!met) return [];
      const away = (at: number): number => {
        const p = points.at(at);
        return p === undefined || middle === null ? 0 : distance(p, middle);
      };
      // The end that lies farther from the people is the one behind the firewall.
      const end = part.ends[away(-1) >= away(0) ? 1 : 0];
      const far = end.fit === 'foot' ? end.hosts.filter((name) => feet.has(name)) : [];
      return [{ part, panel, far }];
    });
  });
}
