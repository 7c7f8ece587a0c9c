/**
 * Joints: which ends belong to one, who of two is before the other, and what is wrong with what `joint` statements say.
 * "Before" means: stays whole where the other is cut to it. Millimetres, radians.
 */
import type { Finding } from '../../grammar/finding';
import type { Cage, Foot, Joint, Tube } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { angleBetween, distance } from '../centreline/vector';
import { isBendCorner } from './bend-corner';
import type { Bodies, EndSite } from './bodies';
import type { Kinds } from './kinds';
import { kindsOf } from './kinds';
import type { Landing } from './landing';
import type { Surroundings } from './surroundings';
import { contactOf, ON } from './surroundings';
import { byText, tell } from './tell';

/** Diameters and angles that differ by less than this are the same, mm and radians: so twins choose alike. */
const GRAIN = 1e-6;
/** A joint this near to the car's centreline is on no side, mm. */
const CENTRE = 1e-6;
/** Ends on one tube or foot are one joint only while this many radii of both bring them together. */
const NEIGHBOURS = 4;

/** Two ends that may be cut to each other. */
export interface Peer {
  readonly end: EndSite;
  /** True where this end was told to land on it, whatever the order. */
  readonly told: boolean;
}

export interface Order {
  /** Negative: `a` stays whole and `b` is cut to it. Never 0 for two different ends. */
  compare(a: EndSite, b: EndSite): number;
  /** True where neither a `joint` statement nor anything else that is written decides between the two. */
  guessed(a: EndSite, b: EndSite): boolean;
}

export interface Joints {
  readonly order: Order;
  /** Ends that may be cut to an end or cut it, in the order of {@link Order}. */
  readonly peers: ReadonlyMap<EndSite, readonly Peer[]>;
  readonly findings: readonly Finding[];
  /** What all `joint` statements say, nodes with their places. */
  readonly said: string;
}

/** An end that nothing cuts, whatever the order: told open or past; or of which that is not known. */
export const isUncut = ({ told }: EndSite): boolean =>
  told.kind === 'open' || told.kind === 'past' || told.kind === 'unknown';

/** Joins what meets: at a node, on a tube that runs through, on a foot. */
export function jointsOf(
  cage: Cage,
  bodies: Bodies,
  landings: ReadonlyMap<EndSite, Landing>,
  around: Surroundings,
  kinds: Kinds = kindsOf(cage),
): Joints {
  const statements = statementsOf(kinds, bodies, around);
  const order = orderOf(statements.of, landings);
  const peers = peersOf(landings, order);
  return { order, peers, findings: statements.findings, said: statements.said };
}

interface Statements {
  /** The statements that speak for an end, always in the same order. */
  readonly of: ReadonlyMap<EndSite, readonly Joint[]>;
  readonly findings: readonly Finding[];
  readonly said: string;
}

const names = (tube: string, site: EndSite): boolean => site.body.tube.name === tube || site.body.name === tube;

function statementsOf(kinds: Kinds, bodies: Bodies, around: Surroundings): Statements {
  const of = new Map<EndSite, Joint[]>();
  const findings: Finding[] = [];
  const joints = [...kinds.joints];
  if (joints.length === 0) return { of, findings, said: '' };
  // By what they say, not by where they stand: the order of statements has no meaning.
  const said = (joint: Joint): string => `${[...joint.nodes].sort(byText).join(' ')} { ${joint.order.join(' ')}`;
  joints.sort((a, b) => byText(said(a), said(b)));
  const all = joints.map(
    (joint) => `${said(joint)} ${joint.nodes.map((node) => String(bodies.nodeAt(node))).join(' ')}`,
  );

  const byNode = new Map<string, EndSite[]>();
  for (const body of bodies.all) {
    for (const site of body.ends) {
      if (site.node === null) continue;
      const list = byNode.get(site.node);
      if (list === undefined) byNode.set(site.node, [site]);
      else list.push(site);
    }
  }
  for (const joint of joints) {
    const sites = new Set<EndSite>();
    const through = new Set<Tube>();
    let known = joint.nodes.length > 0;
    for (const node of joint.nodes) {
      for (const site of byNode.get(node) ?? []) sites.add(site);
      const at = bodies.nodeAt(node);
      if (at === null) {
        known = false;
        continue;
      }
      for (const body of around.near(at, 0)) {
        for (const site of body.ends) if (site.at !== null && distance(site.at, at) <= ON) sites.add(site);
        const contact = contactOf(body, at);
        if (contact !== null && contact.distance <= Math.max(ON, body.outer ?? 0)) through.add(body.tube);
      }
    }
    for (const site of sites) {
      const list = of.get(site);
      if (list === undefined) of.set(site, [joint]);
      else list.push(joint);
    }
    if (!known) continue;
    if (sites.size === 0) {
      const at = { kind: 'thing', thing: joint.name } as const;
      const corner = cornerOf(bodies, joint.nodes);
      findings.push(
        corner === null
          ? tell('joint.no-ends', joint.name, at, { nodes: joint.nodes })
          : tell('place.bend-corner', joint.name, at, corner),
      );
      continue;
    }
    for (const [item, tube] of joint.order.entries()) {
      const ends = [...sites].some((site) => names(tube, site));
      const whole = bodies.ofTube.get(tube)?.[0] ?? bodies.all.find((body) => body.name === tube);
      // A tube without a centreline may well be there: what is wrong with it is told elsewhere.
      if (ends || whole === undefined || whole.centreline === null || through.has(whole.tube)) continue;
      // Of ends on the corner of a bend that is told where they are written.
      if (joint.nodes.some((node) => isBendCorner(whole.tube, node))) continue;
      const at = { kind: 'thing', thing: joint.name, fact: 'order', item } as const;
      findings.push(tell('joint.not-there', joint.name, at, { tube, nodes: joint.nodes }));
    }
  }
  return { of, findings, said: all.join('\n') };
}

/** The first of some nodes that is the corner of a bend, and whose. */
function cornerOf(bodies: Bodies, nodes: readonly string[]): { readonly node: string; readonly tube: string } | null {
  for (const node of nodes) {
    const bent = bodies.all.find(({ tube }) => isBendCorner(tube, node));
    if (bent !== undefined) return { node, tube: bent.tube.name };
  }
  return null;
}

/** Where a joint's order puts an end: its place in the list, or behind all of the list. */
function placeIn(joint: Joint, site: EndSite): number {
  const place = joint.order.findIndex((tube) => names(tube, site));
  return place < 0 ? joint.order.length : place;
}

const grain = (value: number): number => Math.round(value / GRAIN);

function orderOf(of: ReadonlyMap<EndSite, readonly Joint[]>, landings: ReadonlyMap<EndSite, Landing>): Order {
  /** What is written: an end that nothing cuts, a `joint`, a tube that is in the car already. */
  const written = (a: EndSite, b: EndSite): number => {
    const uncut = Number(isUncut(b)) - Number(isUncut(a));
    if (uncut !== 0) return uncut;
    const joints = of.get(a);
    if (joints !== undefined) {
      const others = of.get(b) ?? [];
      for (const joint of joints) {
        if (!others.includes(joint)) continue;
        const by = placeIn(joint, a) - placeIn(joint, b);
        if (by !== 0) return by;
      }
    }
    return Number(b.body.tube.existing) - Number(a.body.tube.existing);
  };
  /** The angle to the tube that runs through, 0..π/2; 0 where none does. */
  const angle = (site: EndSite): number => {
    const through = landings.get(site)?.through[0];
    if (through === undefined || site.leg === null) return 0;
    const between = angleBetween(site.leg.away, through.tangent);
    return Math.min(between, Math.PI - between);
  };
  const chosen = (a: EndSite, b: EndSite): number =>
    grain(b.body.tube.section?.od ?? 0) - grain(a.body.tube.section?.od ?? 0) ||
    grain(angle(b)) - grain(angle(a)) ||
    byName(a, b);
  return {
    compare: (a, b) => written(a, b) || chosen(a, b),
    guessed: (a, b) => written(a, b) === 0,
  };
}

/**
 * By name without the side; then the tube of the joint's own side comes first, so that mirrored joints choose mirrored
 * ends; then by piece, and a tube's first end before its last.
 */
function byName(a: EndSite, b: EndSite): number {
  const bases = byText(a.body.tube.base, b.body.tube.base);
  if (bases !== 0) return bases;
  const y = (a.at?.[1] ?? 0) + (b.at?.[1] ?? 0);
  const own = y < -CENTRE ? 'right' : 'left';
  const far = (site: EndSite): number => (site.body.tube.side === null || site.body.tube.side === own ? 0 : 1);
  return far(a) - far(b) || byText(a.body.name, b.body.name) || Number(a.which === 'last') - Number(b.which === 'last');
}

function peersOf(landings: ReadonlyMap<EndSite, Landing>, order: Order): ReadonlyMap<EndSite, readonly Peer[]> {
  const peers = new Map<EndSite, Map<EndSite, boolean>>();
  const add = (site: EndSite, end: EndSite, told: boolean): void => {
    const list = peers.get(site);
    if (list === undefined) peers.set(site, new Map([[end, told]]));
    else list.set(end, told || (list.get(end) ?? false));
  };
  const pair = (a: EndSite, b: EndSite): void => {
    // The two pieces of a split lie in one line: neither can cut the other.
    if (a === b || (a.body.tube === b.body.tube && a.splitter !== null && b.splitter !== null)) return;
    add(a, b, false);
    add(b, a, false);
  };

  const onTube = new Map<Tube, Landing[]>();
  const onFoot = new Map<Foot, Landing[]>();
  const push = <K>(map: Map<K, Landing[]>, key: K, landing: Landing): void => {
    const list = map.get(key);
    if (list === undefined) map.set(key, [landing]);
    else list.push(landing);
  };
  for (const landing of landings.values()) {
    if (landing.crowded) continue;
    for (const { end, told } of landing.meets) {
      pair(landing.site, end);
      if (told) add(landing.site, end, true);
    }
    for (const tube of new Set(landing.through.map((contact) => contact.body.tube))) push(onTube, tube, landing);
    for (const foot of landing.feet) push(onFoot, foot, landing);
  }
  for (const groups of [onTube, onFoot]) {
    for (const group of groups.values()) {
      for (const [i, a] of group.entries()) {
        for (let j = i + 1; j < group.length; j++) {
          const b = group[j];
          if (b !== undefined && areNeighbours(a, b)) pair(a.site, b.site);
        }
      }
    }
  }
  const sorted = new Map<EndSite, readonly Peer[]>();
  for (const [site, list] of peers) {
    sorted.set(
      site,
      [...list].map(([end, told]) => ({ end, told })).sort((a, b) => order.compare(a.end, b.end)),
    );
  }
  return sorted;
}

function areNeighbours(a: Landing, b: Landing): boolean {
  const [p, q]: readonly (Vec3 | null)[] = [a.origin, b.origin];
  if (!p || !q) return false;
  const reach = NEIGHBOURS * ((a.site.body.outer ?? 0) + (b.site.body.outer ?? 0));
  return distance(p, q) <= reach;
}
