/** Tubes that run into each other without a joint. A broad phase finds boxes that meet; only those pairs are measured. */
import type { Finding } from '../../grammar/finding';
import type { Centreline, OnCentreline, Piece } from '../centreline/centreline';
import { nearestBetween, nearestOn, pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { distance, dot } from '../centreline/vector';
import type { Bodies, Body, EndSite } from './bodies';
import type { Box } from './boxes';
import { boxOf } from './boxes';
import { RAISES } from './cope-hosts';
import type { EndCut } from './cutting';
import type { Memo, NumberKey } from './memo';
import { depthOfSurface, solidOf } from './solids';
import type { Solid, SolidEnd } from './solids';
import type { Surroundings } from './surroundings';
import { ON } from './surroundings';
import { boxesMeet } from './near';
import { byText, figure, tell } from './tell';

/** Tubes that touch do not clash: less than this is what sampled cuts leave, mm. */
const TOUCH = 0.01;
/** A tube that runs on past its node stands at most this far outside the box of its path, mm, but for what is told. */
const RUN_ON = 100;

/** So many pairs are told; who has more of them has one fault, written many times. */
const MOST_PAIRS = 500;

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
  /** Round each piece of its line, and its radius. */
  readonly boxes: readonly Box[];
}

/** How two bodies are related where their ends are. */
interface Relation {
  /** Places where one lands on the other, which runs through: what overlaps there is their joint. */
  readonly joints: readonly Vec3[];
  /** True where their ends share a joint, cut to each other or not: what the cuts leave may touch, but no more. */
  readonly neighbours: boolean;
  /** True where something else is told of the two, so that their overlap says nothing new. */
  readonly told: boolean;
}

function relationOf(a: Standing, b: Standing): Relation {
  const joints: Vec3[] = [];
  let neighbours = false;
  let told = false;
  for (const [one, other] of [
    [a, b],
    [b, a],
  ] as const) {
    const { tube } = other.body;
    for (const cut of one.cuts) {
      const origin = cut?.landing.origin ?? null;
      if (cut === undefined || origin === null) continue;
      if (cut.landing.through.some((contact) => contact.body.tube === tube)) joints.push(origin);
      neighbours ||= cut.peers.some((peer) => peer.end.body === other.body);
      // Nor is anything known of how an end meets others whose `first` or `last` cannot be read.
      told ||= cut.landing.cornerOf === tube.name || cut.site.told.kind === 'unknown';
      // Nor is anything cut where too many meet.
      told ||= cut.crowded && isAt(other.body, origin);
    }
  }
  return { joints, neighbours, told };
}

const isAt = ({ centreline, outer }: Body, p: Vec3): boolean =>
  centreline !== null && nearestOn(centreline, p).distance <= Math.max(ON, outer ?? 0);

interface Found {
  readonly a: Standing;
  readonly b: Standing;
  readonly overlap: Overlap;
}

/** What a run found, for the next one: pairs of which neither has changed are not looked at again. */
export interface Clashes {
  readonly standing: ReadonlyMap<Body, Standing>;
  readonly found: readonly Found[];
  /** True where there are more than are told: those that come first by name are. */
  readonly more: boolean;
}

/** Every pair of bodies that overlap elsewhere than at a joint of theirs; not more than {@link MOST_PAIRS}. */
export function clashesOf(
  bodies: Bodies,
  around: Surroundings,
  cuts: ReadonlyMap<EndSite, EndCut>,
  caches: ClashCaches,
  before: Clashes | null = null,
): Clashes {
  const kept = before?.more === true ? null : before;
  const clashes = search(bodies, around, cuts, caches, kept);
  // Which of too many are told must not hang on what was seen before.
  return clashes.more && kept !== null ? search(bodies, around, cuts, caches, null) : clashes;
}

function search(
  bodies: Bodies,
  around: Surroundings,
  cuts: ReadonlyMap<EndSite, EndCut>,
  caches: ClashCaches,
  before: Clashes | null,
): Clashes {
  const standing = new Map<Body, Standing>();
  const fresh = new Set<Standing>();
  for (const body of bodies.all) {
    const old = before?.standing.get(body);
    const [first, last] = body.ends;
    if (old !== undefined && old.cuts[0] === cuts.get(first) && old.cuts[1] === cuts.get(last)) {
      standing.set(body, old);
      continue;
    }
    const made = standingOf(body, cuts);
    if (made === null) continue;
    standing.set(body, made);
    fresh.add(made);
  }
  const found = (before?.found ?? []).filter(({ a, b }) => standing.get(a.body) === a && standing.get(b.body) === b);
  const byName = (a: Body, b: Body): number => byText(a.name, b.name);
  for (const one of [...fresh].sort((a, b) => byName(a.body, b.body))) {
    const own = withItself(one.solid, one.boxes);
    if (own !== null) {
      if (found.length >= MOST_PAIRS) return { standing, found, more: true };
      found.push({ a: one, b: one, overlap: own });
    }
    const near = new Set<Body>();
    for (const box of one.boxes) for (const body of around.inside(grown(box, RUN_ON))) near.add(body);
    for (const body of [...near].sort(byName)) {
      const other = standing.get(body);
      if (other === undefined || body.tube === one.body.tube) continue;
      // Of two fresh ones the pair is looked at once. By name: what is measured must not depend on the order of statements.
      if (fresh.has(other) && one.body.name > body.name) continue;
      const [a, b] = one.body.name < body.name ? [one, other] : [other, one];
      const overlap = between(a, b, caches);
      if (overlap === null) continue;
      if (found.length >= MOST_PAIRS) return { standing, found, more: true };
      found.push({ a, b, overlap });
    }
  }
  return { standing, found, more: false };
}

/** `tube.clash` for each of them; the last one says that there are more. */
export const clashFindings = ({ found, more }: Clashes): readonly Finding[] =>
  found.map(({ a, b, overlap }, i) => {
    const told = clash(a.body, b.body, overlap);
    if (!more || i < found.length - 1) return told;
    const message = `More than ${String(MOST_PAIRS)} pairs of tubes run into each other: the others are not listed.`;
    return { ...told, notes: [...told.notes, { at: null, message }] };
  });

const grown = (box: Box, by: number): Box => [
  box[0] - by,
  box[1] - by,
  box[2] - by,
  box[3] + by,
  box[4] + by,
  box[5] + by,
];

/** True where both end in the same crowd: nothing is cut there, and that is told. */
const inOneCrowd = (a: Standing, b: Standing): boolean =>
  a.cuts.some((cut) => {
    const here = cut?.crowded === true ? cut.site.at : null;
    return (
      here !== null &&
      b.cuts.some((other) => other?.crowded === true && other.site.at !== null && distance(other.site.at, here) <= ON)
    );
  });

function between(a: Standing, b: Standing, caches: ClashCaches): Overlap | null {
  if (inOneCrowd(a, b)) return null;
  const met: [Piece, Piece][] = [];
  for (const [i, p] of a.boxes.entries()) {
    for (const [j, q] of b.boxes.entries()) {
      if (!boxesMeet(p, q)) continue;
      const [pieceA, pieceB] = [a.solid.line.pieces[i], b.solid.line.pieces[j]];
      if (pieceA !== undefined && pieceB !== undefined) met.push([pieceA, pieceB]);
    }
  }
  if (met.length === 0) return null;
  const relation = relationOf(a, b);
  if (relation.told) return null;
  // Where one of them cannot be cut, that has its own finding, and what is left of it is not known.
  if (relation.neighbours && ![a, b].every(isKnown)) return null;
  // Two straight tubes overlap in one place only: if that is their joint, there is nothing to measure.
  const straight = a.solid.line.pieces.length === 1 && b.solid.line.pieces.length === 1;
  if (straight && relation.joints.length > 0 && met.every(([p, q]) => p.kind === 'leg' && q.kind === 'leg'))
    return null;
  const slack = relation.neighbours ? RAISES : TOUCH;
  const { key } = caches;
  addStanding(key.clear(), a);
  addStanding(key, b);
  key.add(slack);
  for (const p of relation.joints) key.addAll(p);
  return caches.clashes.get(key, () => overlapOf(a.solid, b.solid, met, relation.joints, slack));
}

function standingOf(body: Body, cuts: ReadonlyMap<EndSite, EndCut>): Standing | null {
  const { centreline, outer, inner } = body;
  if (centreline === null || outer === null) return null;
  const made = [cuts.get(body.ends[0]), cuts.get(body.ends[1])] as const;
  const first = solidEnd(body.ends[0], made[0]);
  const last = solidEnd(body.ends[1], made[1]);
  if (first === null || last === null) return null;
  const solid = solidOf(centreline, outer, inner ?? 0, [first, last]);
  return { body, solid, cuts: made, boxes: solid.line.pieces.map((piece) => boxOf(piece, outer)) };
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
    if (p.kind === 'leg' && q.kind === 'leg' && isCutAway(a, b, near.onA, near.onB)) continue;
    // Near an end what counts is what the cut leaves.
    const one = depthOfSurface(a, ...stretch(a.line, b.line, near.onA.station, sum), b);
    const two = depthOfSurface(b, ...stretch(b.line, a.line, near.onB.station, sum), a);
    const deeper = one.depth >= two.depth ? one : two;
    if (deeper.at !== null) offer(deeper.depth, deeper.at);
  }
  return worst;
}

/**
 * Where a tube runs into itself: two of its pieces nearer than its diameter, though the way along it from one to the
 * other is longer than half a turn round a bend of its own diameter. The deepest one; null: none.
 */
function withItself(solid: Solid, boxes: readonly Box[]): Overlap | null {
  const { pieces } = solid.line;
  const od = 2 * solid.radius;
  let worst: Overlap | null = null;
  for (let i = 0; i + 2 < pieces.length; i++) {
    for (let j = i + 2; j < pieces.length; j++) {
      const [p, q, a, b] = [pieces[i], pieces[j], boxes[i], boxes[j]];
      if (p === undefined || q === undefined || a === undefined || b === undefined || !boxesMeet(a, b)) continue;
      const near = nearestBetween(alone(p), alone(q));
      const depth = od - near.distance;
      if (depth <= TOUCH || near.onB.station - near.onA.station < Math.PI * od) continue;
      if (!isClear(solid, near.onA.station) || !isClear(solid, near.onB.station)) continue;
      if (worst === null || depth > worst.depth) worst = { depth, at: middle(near.onA.point, near.onB.point) };
    }
  }
  return worst;
}

/**
 * Whether the cut has taken all of one tube that two straight legs could share: from where their lines are nearest,
 * cylinders at the angle θ share nothing farther along than (R + r cos θ) / sin θ. A millimetre is left for ends moved onto their hosts.
 */
function isCutAway(a: Solid, b: Solid, onA: OnCentreline, onB: OnCentreline): boolean {
  const cos = Math.abs(dot(onA.tangent, onB.tangent));
  const sin = Math.sqrt(Math.max(0, 1 - cos * cos));
  const gone = (one: Solid, other: Solid, station: number): boolean => {
    const reach = (other.radius + one.radius * cos) / sin + 1;
    const [first, last] = one.ends;
    return station + reach <= first.minCut || station - reach >= one.line.length - last.minCut;
  };
  return gone(a, b, onA.station) || gone(b, a, onB.station);
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
      what: a === b ? '{a} runs {measured} into itself' : '{a} and {b} run {measured} into each other without a joint',
      mend:
        a === b
          ? 'move its nodes until it clears itself'
          : 'move them {apart} apart, or join them: split one by the other, or end it there',
      apart: figure(overlap.depth, 'mm'),
      where: ', at ({x#}, {y#}, {z#})',
      x: figure(x, 'mm'),
      y: figure(y, 'mm'),
      z: figure(z, 'mm'),
    },
    {
      measured: figure(overlap.depth, 'mm'),
      allowed: { from: null, to: 0, unit: 'mm' },
      notes:
        a === b
          ? []
          : [{ at: { kind: 'thing', thing: earlier.tube.name, fact: 'path' }, message: `${earlier.name} runs here.` }],
    },
  );
}
