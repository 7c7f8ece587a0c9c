/** Tubes that run into each other without a joint. A broad phase finds boxes that meet; only those pairs are measured. */
import type { Finding } from '../../grammar/finding';
import type { Centreline, Piece } from '../centreline/centreline';
import { nearestBetween, nearestOn, pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { distance } from '../centreline/vector';
import type { Bodies, Body, EndSite } from './bodies';
import type { Box } from './boxes';
import { boxOf, BoxTree } from './boxes';
import { RAISES } from './cope-hosts';
import type { EndCut } from './cutting';
import type { Joints } from './joints';
import type { Memo, NumberKey } from './memo';
import { depthOfSurface, solidOf } from './solids';
import type { Solid, SolidEnd } from './solids';
import { byText, figure, tell } from './tell';

/** Tubes that touch do not clash: less than this is what sampled cuts leave, mm. */
const TOUCH = 0.01;

export interface Overlap {
  readonly depth: number;
  readonly at: Vec3;
}
export interface ClashCaches {
  readonly key: NumberKey;
  readonly clashes: Memo<Overlap | null>;
}

/** A body ready to be measured. */
interface Standing {
  readonly body: Body;
  readonly solid: Solid;
  readonly cuts: readonly [EndCut | undefined, EndCut | undefined];
}

/** How two bodies are related where one of their ends is. */
interface Relation {
  /** Places where one lands on the other, which runs through: what overlaps there is their joint. */
  readonly joints: Vec3[];
  /** True where their ends share a joint, cut to each other or not: what the cuts leave may touch, but no more. */
  neighbours: boolean;
  /** True where something else is told of the two, so that their overlap says nothing new. */
  told: boolean;
}

/** Relations by the pair. */
class Relations {
  private readonly list = new Map<number, Relation>();
  constructor(private readonly count: number) {}

  /** The relation of a pair, made on demand. */
  between(a: Body, b: Body): Relation {
    const key = this.key(a, b);
    const found = this.list.get(key);
    if (found !== undefined) return found;
    const made: Relation = { joints: [], neighbours: false, told: false };
    this.list.set(key, made);
    return made;
  }

  of(a: Body, b: Body): Relation | undefined {
    return this.list.get(this.key(a, b));
  }

  private readonly key = (a: Body, b: Body): number =>
    Math.min(a.index, b.index) * this.count + Math.max(a.index, b.index);
}

function relationsOf(bodies: Bodies, cuts: ReadonlyMap<EndSite, EndCut>, joints: Joints): Relations {
  const relations = new Relations(bodies.all.length);
  for (const cut of cuts.values()) {
    const { site, landing } = cut;
    const origin = landing.origin;
    if (origin === null) continue;
    for (const contact of landing.through) {
      for (const piece of bodies.ofTube.get(contact.body.tube.name) ?? []) {
        relations.between(site.body, piece).joints.push(origin);
      }
    }
    for (const { end } of joints.peers.get(site) ?? []) relations.between(site.body, end.body).neighbours = true;
    if (landing.cornerOf === null) continue;
    for (const piece of bodies.ofTube.get(landing.cornerOf) ?? []) relations.between(site.body, piece).told = true;
  }
  return relations;
}

/** `tube.clash` for every pair of bodies that overlap elsewhere than at a joint of theirs. */
export function clashFindings(
  bodies: Bodies,
  cuts: ReadonlyMap<EndSite, EndCut>,
  joints: Joints,
  caches: ClashCaches,
): readonly Finding[] {
  const standing = bodies.all.map((body) => standingOf(body, cuts));
  const boxes: Box[] = [];
  const owners: Standing[] = [];
  const pieces: Piece[] = [];
  for (const each of standing) {
    for (const piece of each?.solid.line.pieces ?? []) {
      if (each === null) continue;
      boxes.push(boxOf(piece, each.solid.radius));
      owners.push(each);
      pieces.push(piece);
    }
  }
  const pairs = new Map<number, { a: Standing; b: Standing; met: [Piece, Piece][] }>();
  const count = bodies.all.length;
  new BoxTree(boxes).pairs((i, j) => {
    const [one, two, p, q] = [owners[i], owners[j], pieces[i], pieces[j]];
    if (!one || !two || !p || !q || one.body.tube === two.body.tube) return;
    // By name: what is measured must not depend on the order of statements.
    const swap = one.body.name > two.body.name;
    const [a, b] = swap ? [two, one] : [one, two];
    const key = a.body.index * count + b.body.index;
    const met: [Piece, Piece] = swap ? [q, p] : [p, q];
    const pair = pairs.get(key);
    if (pair === undefined) pairs.set(key, { a, b, met: [met] });
    else pair.met.push(met);
  });

  const relations = relationsOf(bodies, cuts, joints);
  const findings: Finding[] = [];
  for (const key of [...pairs.keys()].sort((x, y) => x - y)) {
    const pair = pairs.get(key);
    if (pair === undefined) continue;
    const { a, b, met } = pair;
    const relation = relations.of(a.body, b.body);
    if (relation?.told === true) continue;
    // Where one of them cannot be cut, that has its own finding, and what is left of it is not known.
    if (relation?.neighbours === true && ![a, b].every(isKnown)) continue;
    const at = relation?.joints ?? [];
    const slack = relation?.neighbours === true ? RAISES : TOUCH;
    // Two straight tubes overlap in one place only: if that is their joint, there is nothing to measure.
    const straight = a.solid.line.pieces.length === 1 && b.solid.line.pieces.length === 1;
    if (straight && at.length > 0 && met.every(([p, q]) => p.kind === 'leg' && q.kind === 'leg')) continue;
    addStanding(caches.key.clear(), a);
    addStanding(caches.key, b);
    caches.key.add(slack);
    for (const p of at) caches.key.addAll(p);
    const overlap = caches.clashes.get(caches.key, () => overlapOf(a.solid, b.solid, met, at, slack));
    if (overlap !== null) findings.push(clash(a.body, b.body, overlap));
  }
  return findings;
}

function standingOf(body: Body, cuts: ReadonlyMap<EndSite, EndCut>): Standing | null {
  const { centreline, outer, inner } = body;
  if (centreline === null || outer === null) return null;
  const made = [cuts.get(body.ends[0]), cuts.get(body.ends[1])] as const;
  const first = solidEnd(body.ends[0], made[0]);
  const last = solidEnd(body.ends[1], made[1]);
  if (first === null || last === null) return null;
  return { body, solid: solidOf(centreline, outer, inner ?? 0, [first, last]), cuts: made };
}

function solidEnd(site: EndSite, cut: EndCut | undefined): SolidEnd | null {
  if (site.leg === null || site.at === null) return null;
  const cope = cut?.coped?.cope;
  const figures = cut?.sawn ?? (cope?.minCut === null ? undefined : cope);
  return {
    origin: cut?.landing.origin ?? site.at,
    away: site.leg.away,
    frame: site.leg.frame,
    straight: site.leg.straight,
    curve: figures?.curve ?? null,
    minCut: figures?.minCut ?? 0,
    maxCut: figures?.maxCut ?? 0,
  };
}

const isKnown = ({ solid }: Standing): boolean => solid.ends.every((end) => end.curve !== null);

function addStanding(key: NumberKey, { body, cuts }: Standing): void {
  key.add(body.geometry);
  for (const cut of cuts) {
    const sawn = cut?.sawn ?? null;
    key
      .add(cut?.coped?.id ?? -1)
      .add(sawn?.minCut ?? null)
      .add(sawn?.maxCut ?? null)
      .add(sawn?.sawClock ?? null);
  }
}

const alone = (piece: Piece): Centreline => ({ pieces: [piece], length: piece.length, points: [] });

/** The deepest overlap of two solids that does not hang together with a joint of theirs; null: none. */
function overlapOf(
  a: Solid,
  b: Solid,
  met: readonly (readonly [Piece, Piece])[],
  joints: readonly Vec3[],
  slack: number,
): Overlap | null {
  const sum = a.radius + b.radius;
  let worst: Overlap | null = null;
  const offer = (depth: number, at: Vec3): void => {
    if (depth > slack && (worst === null || depth > worst.depth)) worst = { depth, at };
  };
  for (const [p, q] of met) {
    const near = nearestBetween(alone(p), alone(q));
    if (sum - near.distance <= TOUCH) continue;
    if (worst !== null && sum - near.distance <= (worst as Overlap).depth) continue;
    if (joints.some((joint) => hangsTogether(a.line, b.line, joint, near.onA.station, near.onB.station, sum))) continue;
    if (isClear(a, near.onA.station) && isClear(b, near.onB.station)) {
      offer(sum - near.distance, middle(near.onA.point, near.onB.point));
      continue;
    }
    // Near an end what counts is what the cut leaves.
    const one = depthOfSurface(a, ...stretch(a.line, b.line, near.onA.station, sum), b);
    const two = depthOfSurface(b, ...stretch(b.line, a.line, near.onB.station, sum), a);
    const deeper = one.depth >= two.depth ? one : two;
    if (deeper.at !== null) offer(deeper.depth, deeper.at);
  }
  return worst;
}

/** From where to where about a station a line stays nearer to another than `sum`. */
function stretch(line: Centreline, other: Centreline, station: number, sum: number): readonly [number, number] {
  const step = sum / 8;
  const edge = (sign: 1 | -1): number => {
    let at = station;
    for (let i = 0; i < 400 && at >= 0 && at <= line.length; i++) {
      at += sign * step;
      if (nearestOn(other, pointAt(line, at).point).distance >= sum) break;
    }
    return Math.max(0, Math.min(line.length, at));
  };
  return [edge(-1), edge(1)];
}

const middle = (p: Vec3, q: Vec3): Vec3 => [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2, (p[2] + q[2]) / 2];

/** True where a solid is whole all round. At an end itself nothing is square to the other tube any more. */
const isClear = (solid: Solid, station: number): boolean => {
  const [first, last] = solid.ends.map((end) => Math.max(end.maxCut, 0) + Math.max(-end.minCut, 0) + TOUCH);
  return station > (first ?? 0) && station < solid.line.length - (last ?? 0);
};

/** Whether the tubes overlap without a break from a joint to another place, along one of them or the other. */
function hangsTogether(a: Centreline, b: Centreline, joint: Vec3, onA: number, onB: number, sum: number): boolean {
  const along = (line: Centreline, other: Centreline, to: number): boolean => {
    const from = nearestOn(line, joint).station;
    const steps = Math.min(400, Math.ceil(Math.abs(to - from) / (sum / 8)));
    for (let i = 0; i <= steps; i++) {
      const station = steps === 0 ? from : from + ((to - from) * i) / steps;
      if (nearestOn(other, pointAt(line, station).point).distance >= sum) return false;
    }
    return true;
  };
  if (distance(nearestOn(a, joint).point, joint) > sum || distance(nearestOn(b, joint).point, joint) > sum)
    return false;
  return along(a, b, onA) || along(b, a, onB);
}

/** Placed at the later statement, with a note at the other; the subject does not depend on their order. */
function clash(a: Body, b: Body, overlap: Overlap): Finding {
  const sided = (body: Body): number => (body.tube.side === null ? 1 : 0);
  const [one, two] = [a, b].sort((x, y) => sided(x) - sided(y) || byText(x.name, y.name)) as [Body, Body];
  const [earlier, later] = a.index < b.index ? [a, b] : [b, a];
  const [x, y, z] = overlap.at;
  return tell(
    'tube.clash',
    one.tube.name,
    { kind: 'thing', thing: later.tube.name, fact: 'path' },
    {
      a: one.name,
      b: two.name,
      where: ', at ({x#}, {y#}, {z#})',
      x: figure(x, 'mm'),
      y: figure(y, 'mm'),
      z: figure(z, 'mm'),
    },
    {
      measured: figure(overlap.depth, 'mm'),
      allowed: { from: null, to: 0, unit: 'mm' },
      notes: [{ at: { kind: 'thing', thing: earlier.tube.name, fact: 'path' }, message: `${earlier.name} runs here.` }],
    },
  );
}
