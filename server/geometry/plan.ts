/**
 * What cuts each end: tubes that run through, plates, and those of the ends before it that raise its set-backs. The
 * rules of the language page, "What ends where", applied. Millimetres, radians.
 */
import type { Foot } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { addScaled, angleBetween } from '../centreline/vector';
import type { Bodies, Body, EndSite } from './bodies';
import { plateFrame } from './feet';
import type { Joints, Peer } from './joints';
import { isUncut } from './joints';
import type { Landing } from './landing';
import type { Memo, NumberKey } from './memo';
import type { Probe } from './probe';
import { probe } from './probe';
import type { ChildEnd, Host, PlaneHost, TubeHost } from './setback';

/** Ends that continue each other: this near to one line, radians. Farther off, one raises the other's set-backs. */
const ONE_LINE = (3 * Math.PI) / 180;

/** A tube that cuts an end. */
export interface TubeCut {
  readonly kind: 'tube';
  readonly body: Body;
  /** The host's own end, where it is one; null: it runs through. */
  readonly end: EndSite | null;
  readonly host: TubeHost;
  /** True where the host's own end may stop short of the footprint: it runs on, or runs through. */
  readonly goesOn: boolean;
}
/** A plane that cuts an end: a foot's plate, or the square end of a tube that runs on past the node. */
export interface PlaneCut {
  readonly kind: 'plane';
  /** Null: the end of a tube in the same line. */
  readonly foot: Foot | null;
  readonly host: PlaneHost;
}

/** Kept between runs: whose ends raise whose set-backs, by their numbers. */
export interface ProbeCaches {
  readonly key: NumberKey;
  readonly probes: Memo<Probe>;
}

/** An end on its way to being cut. */
export interface Plan {
  readonly site: EndSite;
  readonly landing: Landing;
  readonly child: ChildEnd | null;
  readonly through: readonly TubeCut[];
  readonly plates: readonly PlaneCut[];
  /** No tube runs through and no plate stands here. */
  readonly bare: boolean;
  accepted: readonly Peer[];
  /** The first in the order at a bare joint, where this end lands on the whole of it and not just on its half. */
  first: EndSite | null;
}

/** The plane of each foot; `square` lies across the tube that is first in the order there. */
export function platesOf(
  bodies: Bodies,
  landings: ReadonlyMap<EndSite, Landing>,
  joints: Joints,
  before: ReadonlyMap<Foot, PlaneCut> | null,
): ReadonlyMap<Foot, PlaneCut> {
  const standing = new Map<Foot, EndSite>();
  for (const landing of landings.values()) {
    for (const foot of landing.feet) {
      const first = standing.get(foot);
      if (first === undefined || joints.order.compare(landing.site, first) < 0) standing.set(foot, landing.site);
    }
  }
  const plates = new Map<Foot, PlaneCut>();
  for (const [foot, site] of standing) {
    const point = bodies.nodeAt(foot.node);
    const frame = plateFrame(foot, site.leg?.away ?? null);
    if (point === null || frame === null) continue;
    const old = before?.get(foot);
    const same = old !== undefined && samePoint(old.host.point, point) && samePoint(old.host.normal, frame.normal);
    plates.set(foot, same ? old : { kind: 'plane', foot, host: { kind: 'plane', point, normal: frame.normal } });
  }
  return plates;
}

const samePoint = (a: Vec3, b: Vec3): boolean => a[0] === b[0] && a[1] === b[1] && a[2] === b[2];

export function planOf(landing: Landing, plates: ReadonlyMap<Foot, PlaneCut>): Plan {
  const { site } = landing;
  const { body, leg } = site;
  const child: ChildEnd | null =
    leg === null || landing.origin === null || body.outer === null || body.inner === null
      ? null
      : {
          origin: landing.origin,
          away: leg.away,
          zero: leg.frame.zero.vector,
          quarter: leg.frame.quarter,
          outerRadius: body.outer,
          innerRadius: body.inner,
          limit: leg.toNext / 2,
        };
  const uncut = isUncut(site);
  const through = uncut
    ? []
    : landing.through.flatMap((contact): TubeCut[] => {
        const { centreline, outer } = contact.body;
        if (centreline === null) return [];
        // A host without a section still cuts: by how much cannot be said.
        const host: TubeHost = {
          kind: 'tube',
          centreline,
          radius: outer ?? NaN,
          station: contact.station,
          from: null,
          to: null,
        };
        return [{ kind: 'tube', body: contact.body, end: null, host, goesOn: true }];
      });
  return {
    site,
    landing,
    child,
    through,
    plates: uncut ? [] : landing.feet.flatMap((foot) => plates.get(foot) ?? []),
    bare: landing.through.length + landing.feet.length + landing.bodiless.length === 0,
    accepted: [],
    first: null,
  };
}

export const pastOf = (site: EndSite): number => (site.told.kind === 'past' ? site.told.length : 0);

/** A host that is itself an end: its half, on its own side of the flat across its axis `past` beyond its node. */
export function halfOf(end: EndSite, past: number, goesOn: boolean): TubeCut | null {
  const { body } = end;
  if (body.centreline === null) return null;
  const first = end.which === 'first';
  const flat = first ? -past : body.centreline.length + past;
  const host: TubeHost = {
    kind: 'tube',
    centreline: body.centreline,
    radius: body.outer ?? NaN,
    station: first ? 0 : body.centreline.length,
    from: first && !goesOn ? flat : null,
    to: first || goesOn ? null : flat,
  };
  return { kind: 'tube', body, end, host, goesOn };
}

/** Finds out which of the ends before it cut an end. */
export function choose(plan: Plan, joints: Joints, caches: ProbeCaches): void {
  const { site, child } = plan;
  const peers = joints.peers.get(site);
  if (peers === undefined || isUncut(site)) return;
  const before = peers.filter(({ end, told }) => {
    if (told) return true;
    const back = joints.peers.get(end)?.find((peer) => peer.end === site);
    return back?.told !== true && joints.order.compare(end, site) < 0;
  });
  if (before.length === 0) return;
  const first = before[0];
  // Without radii nobody can be tested: only what was told is a host.
  const sound = child !== null && plan.through.every((tube) => tube.body.outer !== null);
  if (!sound) {
    plan.accepted = before.filter((peer) => peer.told);
    return;
  }
  const base = [...plan.through, ...plan.plates].map((cutter) => cutter.host);
  const testable = before.filter((peer) => peer.end.body.outer !== null);
  const found = probed(child, plan, base, testable, null, caches);
  plan.accepted = testable.filter((_, i) => found.accepted[i] === true);
  if (!plan.bare || first === undefined || !plan.accepted.includes(first)) return;
  // Two ends in one line are landed on as they are, where they offer enough; else the first runs on.
  const spliced = plan.accepted.some(({ end }) => areInLine(end, first.end));
  if (spliced && !found.misses) return;
  plan.first = first.end;
  const others = testable.filter((peer) => peer !== first);
  const again = probed(child, plan, [], others, first.end, caches);
  plan.accepted = [first, ...others.filter((_, i) => again.accepted[i] === true)];
}

/** Tests peers as halves; `whole`: the first in the order, which is landed on as if it ran on for ever. */
function probed(
  child: ChildEnd,
  plan: Plan,
  base: readonly Host[],
  peers: readonly Peer[],
  whole: EndSite | null,
  caches: ProbeCaches,
): Probe {
  const { key } = caches;
  addChild(key.clear(), child).add(base.length);
  plan.through.forEach((tube) => addTube(key, tube));
  plan.plates.forEach((plate) => addPlane(key, plate.host));
  const all = [...base];
  const add = (end: EndSite, past: number, goesOn: boolean, forced: boolean): Host[] => {
    const tube = halfOf(end, past, goesOn);
    if (tube === null) return [];
    key.add(forced ? 1 : 0);
    addTube(key, tube);
    return [tube.host];
  };
  if (whole !== null) all.push(...add(whole, 0, true, true));
  const candidates = peers.flatMap(({ end, told }) =>
    add(end, pastOf(end), false, told).map((host) => ({ host, forced: told })),
  );
  return caches.probes.get(key, () => probe(child, all, candidates));
}

const areInLine = (a: EndSite, b: EndSite): boolean =>
  a !== b && a.leg !== null && b.leg !== null && angleBetween(a.leg.away, b.leg.away) > Math.PI - ONE_LINE;

/** An end may run on past its node unless it is told where to stop, stands in the car already, or is cut itself. */
export const mayRunOn = (plan: Plan): boolean =>
  plan.bare && plan.accepted.length === 0 && !isUncut(plan.site) && !plan.site.body.tube.existing;

/** The end that runs on past the node which this end continues in one line without being cut to it. */
export function inLineWith(plan: Plan, joints: Joints, carried: ReadonlyMap<EndSite, unknown>): EndSite | null {
  if (!plan.bare || carried.has(plan.site) || isUncut(plan.site)) return null;
  for (const { end } of joints.peers.get(plan.site) ?? []) {
    if (!carried.has(end) || plan.accepted.some((peer) => peer.end === end)) continue;
    if (areInLine(plan.site, end)) return end;
  }
  return null;
}

/** Where a tube that runs on `past` its node is cut square. */
export function flatOf(end: EndSite, past: number): PlaneCut {
  const away = end.leg?.away ?? [1, 0, 0];
  const point: Vec3 = addScaled(end.at ?? [0, 0, 0], away, -past);
  return { kind: 'plane', foot: null, host: { kind: 'plane', point, normal: away } };
}

export function addChild(key: NumberKey, child: ChildEnd): NumberKey {
  return key
    .addAll(child.origin)
    .addAll(child.away)
    .addAll(child.zero)
    .addAll(child.quarter)
    .add(child.outerRadius)
    .add(child.innerRadius)
    .add(child.limit);
}

export function addTube(key: NumberKey, tube: TubeCut): void {
  key.add(tube.body.geometry).add(tube.host.station).add(tube.host.from).add(tube.host.to);
}

export const addPlane = (key: NumberKey, plane: PlaneHost): void => {
  key.addAll(plane.point).addAll(plane.normal);
};
