/** Tubes that stand near a bar while it is moved in, other than its hosts: which of them it would run into. Millimetres. */
import type { Vec3 } from '../../centreline/vector';
import { cross, dot, norm, scale, sub, unit } from '../../centreline/vector';
import { betweenStretches } from '../../centreline/stretches';
import type { Bar } from './bar';
import { CLOCKS, tipOf } from './bar';
import type { Path, Pose } from './frame';
import { IN_PLACE, moved, posed, posedBy, turnOf } from './frame';
import { evened, HANDS, lengthwise, playAt } from './play';
import type { Field } from './travel';
import type { Group, Tubes } from './tubes';
import { STRIDE } from './tubes';
import type { Way } from './ways';

/** Of each end's outer edge, every so many points are asked. */
const EDGE = 6;
/** Steps along a way, mm: as long as the clearance lets, and never shorter. */
const SHORTEST = 2;
/** The same past a neighbour that is known to be in the way. */
const IN_THE_WAY = 6;
/** What comes out is followed on for so long. */
const ON = 100;
/** In place, a neighbour may stand nearer than hands want; then it must come no nearer than that, to within this. */
const SLACK = 0.2;

/** A bar's outside, for its distance from others: its axis as a chain, and points of its ends' edges. */
interface Outside {
  readonly chain: readonly Vec3[];
  readonly edge: readonly Vec3[];
  readonly radius: number;
  /** No point of an edge is farther from the chain. */
  readonly beyond: number;
}

function outsideOf({ axis, ends, radius }: Bar): Outside {
  const edge = ends.flatMap((end) => Array.from({ length: CLOCKS / EDGE }, (_, i) => tipOf(end, i * EDGE)));
  const beyond = edge.reduce((most, p) => Math.max(most, toChain(p, axis)), 0);
  return { chain: axis, edge, radius, beyond };
}

function at({ chain, edge, radius, beyond }: Outside, pose: Pose): Outside {
  const turn = turnOf(pose.axis, pose.angle);
  const there = (p: Vec3): Vec3 => posedBy(turn, pose, p);
  return { chain: chain.map(there), edge: edge.map(there), radius, beyond };
}

/** From a point to the stretch from `a` to `b`. Plain arithmetic: it is asked very often. */
function toStretch(p: Vec3, a: Vec3, b: Vec3): number {
  const ux = b[0] - a[0];
  const uy = b[1] - a[1];
  const uz = b[2] - a[2];
  const x = p[0] - a[0];
  const y = p[1] - a[1];
  const z = p[2] - a[2];
  const square = ux * ux + uy * uy + uz * uz;
  const t = square > 0 ? Math.min(1, Math.max(0, (x * ux + y * uy + z * uz) / square)) : 0;
  const dx = x - t * ux;
  const dy = y - t * uy;
  const dz = z - t * uz;
  return Math.sqrt(dx * dx + dy * dy + dz * dz);
}

/** From a point to the nearest link of a chain. */
function toChain(p: Vec3, chain: readonly Vec3[]): number {
  let least = Infinity;
  for (let i = 1; i < chain.length; i++) least = Math.min(least, toStretch(p, chain[i - 1] as Vec3, chain[i] as Vec3));
  return least;
}

/** From the bar's outside to one group of chords; what is not nearer than `enough` may come back as `enough`. */
function toGroup({ chain, edge, radius, beyond }: Outside, { data }: Tubes, group: Group, enough: number): number {
  // Neither its tube nor its edges reach farther than that from its chain.
  const reach = Math.max(radius, beyond);
  if (toChain(group.middle, chain) > enough + group.around + reach) return enough;
  let least = enough;
  for (let n = group.from; n < group.to; n++) {
    const k = n * STRIDE;
    const a: Vec3 = [data[k] as number, data[k + 1] as number, data[k + 2] as number];
    const length = data[k + 6] as number;
    const thick = data[k + 7] as number;
    const b: Vec3 = [
      a[0] + length * (data[k + 3] as number),
      a[1] + length * (data[k + 4] as number),
      a[2] + length * (data[k + 5] as number),
    ];
    let apart = Infinity;
    for (let i = 1; i < chain.length; i++)
      apart = Math.min(apart, betweenStretches(chain[i - 1] as Vec3, chain[i] as Vec3, a, b) - thick);
    if (apart - radius < least) least = apart - radius;
    // No edge is nearer than that.
    if (apart - beyond > least) continue;
    for (const p of edge) {
      const far = toStretch(p, a, b) - thick;
      if (far < least) least = far;
    }
  }
  return least;
}

/** So often a bar is shifted to lie evenly, mm of its way. */
const ASKED = 5;
/** Farther than this nothing has to be known of. */
const FAR = 60;

/** Out of the last pose of a way: on in its last direction, or lengthwise where its hosts stand before one end only. */
function onward(field: Field, path: Path): Path {
  const last = path.pose(path.length);
  const { ends } = playAt(field.bar, last, field.hosts);
  const along = lengthwise(last);
  const rid = ends[0] === Infinity && ends[1] === Infinity;
  if (!rid) {
    const way = scale(along, ends[1] === Infinity ? 1 : -1);
    return { length: field.bar.overPoints, pose: (s) => moved(last, scale(way, s)) };
  }
  const before = path.pose(Math.max(0, path.length - 1));
  const way = sub(posed(last, field.bar.ends[1].middle), posed(before, field.bar.ends[1].middle));
  const direction = norm(way) > 1e-9 ? unit(way) : unit(cross(along, [1, 0, 0]));
  return { length: ON, pose: (s) => moved(last, scale(direction, s)) };
}

/** A neighbour that a bar would run into, or come too near to. */
export interface Blocker {
  readonly name: string;
  /** How near the bar comes, mm; below 0: it runs into it. */
  readonly least: number;
}

/** A group of a neighbour's chords that the bar may come near to. */
interface Near {
  readonly group: Group;
  readonly name: string;
  /** The bar must come no nearer. */
  readonly want: number;
  /** Until then, mm of the way, it cannot. */
  safe: number;
}

/**
 * Who stands in a way: neighbours that the bar comes nearer to than hands want, or nearer than it will lie to them in its
 * place. Each is asked again before the bar can have come so near, or after {@link SHORTEST}: between two such places no
 * point of the bar is farther than half of that from where it was asked, so that it runs into nothing unseen.
 */
export function blockersOf(field: Field, way: Way, neighbours: Tubes): readonly Blocker[] {
  const last = way.paths.at(-1);
  if (last === undefined) return [];
  const paths = [...way.paths, onward(field, last)];
  const outside = outsideOf(field.bar);
  const home = at(outside, IN_PLACE);
  // No point of the bar comes farther than its paths are long.
  const far = paths.reduce((sum, { length }) => sum + length, FAR);
  const near = neighbours.groups.flatMap((group): readonly Near[] => {
    const apart = toGroup(home, neighbours, group, far);
    const name = neighbours.names[group.from] ?? '';
    return apart < far ? [{ group, name, want: Math.min(HANDS, apart - SLACK), safe: apart - HANDS / 2 }] : [];
  });
  const least = new Map<string, number>();
  const shift = new Shift(field);
  let before = 0;
  for (const path of paths) {
    for (let s = 0; ;) {
      const here = before + s;
      let lying: Outside | null = null;
      let next = Infinity;
      for (const one of near) {
        if (one.safe <= here) {
          lying ??= at(outside, shift.at(path.pose(s), here));
          const apart = toGroup(lying, neighbours, one.group, FAR);
          if (apart < one.want) least.set(one.name, Math.min(apart, least.get(one.name) ?? Infinity));
          one.safe = here + (apart < one.want ? IN_THE_WAY : Math.max(SHORTEST, apart - HANDS / 2));
        }
        if (one.safe < next) next = one.safe;
      }
      if (!(s < path.length)) break;
      s = Math.min(path.length, next - before);
    }
    before += path.length;
  }
  return [...least].map(([name, apart]) => ({ name, least: apart }));
}

/** How far the bar is shifted along itself to lie evenly: asked anew every so often only. */
class Shift {
  private by = 0;
  private asked = NaN;

  constructor(private readonly field: Field) {}

  at(pose: Pose, s: number): Pose {
    const along = lengthwise(pose);
    if (!(Math.abs(s - this.asked) < ASKED)) {
      const { bar, hosts } = this.field;
      this.by = dot(sub(evened(bar, pose, hosts, 'few').move, pose.move), along);
      this.asked = s;
    }
    return moved(pose, scale(along, this.by));
  }
}
