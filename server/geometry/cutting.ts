/**
 * What cuts each end, and how: the rules of who is cut to whom, applied. The set-backs themselves come from the cope.
 * Millimetres, radians.
 */
import type { Foot } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { addScaled, angleBetween } from '../centreline/vector';
import type { Bodies, Body, EndSite } from './bodies';
import type { CutCope } from './cut-to';
import { cutTo } from './cut-to';
import { plateFrame } from './feet';
import type { Joints, Peer } from './joints';
import { isUncut } from './joints';
import type { Landing } from './landing';
import type { Memo, NumberKey } from './memo';

import type { Probe } from './probe';
import { probe } from './probe';
import type { SawnEnd } from './sawn';
import { sawEnd } from './sawn';
import type { ChildEnd, Host, PlaneHost, TubeHost } from './setback';
import type { Fit } from './shape';

/** Ends that continue each other: this near to one line, radians. Farther off, one raises the other's set-backs. */
const ONE_LINE = (3 * Math.PI) / 180;
/** A run-on shorter than this is none, mm. */
const NO_RUN_ON = 1e-6;

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

/** How one end is made. */
export interface EndCut {
  readonly site: EndSite;
  readonly landing: Landing;
  readonly fit: Fit;
  /** Names of tubes (pieces by theirs) and feet that cut it, tubes first. */
  readonly hosts: readonly string[];
  readonly tubes: readonly TubeCut[];
  readonly child: ChildEnd | null;
  /** The figures of a cope; null where it is sawn or cannot be computed. */
  readonly coped: CutCope | null;
  readonly sawn: SawnEnd | null;
  /** How far it runs past its node (square), as told or as others need. */
  readonly past: number;
  /** Told hosts that it does not touch. */
  readonly untouched: readonly string[];
  /** Ends that cut it though nothing written says so. */
  readonly guessed: readonly EndSite[];
  /** The ends for which it runs on. */
  readonly carries: readonly EndSite[];
}

/** Kept between runs: probes and copes by their numbers. */
export interface CutCaches {
  readonly key: NumberKey;
  readonly probes: Memo<Probe>;
  readonly copes: Memo<CutCope>;
  readonly nextId: () => number;
}

/** An end on its way to being cut. */
interface Plan {
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

/** Cuts all ends. */
export function cutEnds(
  bodies: Bodies,
  landings: ReadonlyMap<EndSite, Landing>,
  joints: Joints,
  caches: CutCaches,
): ReadonlyMap<EndSite, EndCut> {
  const plates = platesOf(bodies, landings, joints);
  const plans = new Map<EndSite, Plan>();
  for (const landing of landings.values()) plans.set(landing.site, planOf(landing, plates));
  for (const plan of plans.values()) choose(plan, joints, caches);

  // Who must run on past its node, and for whom.
  const carried = new Map<EndSite, EndSite[]>();
  for (const plan of plans.values()) {
    const { first } = plan;
    const own = first === null ? undefined : plans.get(first);
    if (first === null || own === undefined || !mayRunOn(own)) continue;
    carried.set(first, [...(carried.get(first) ?? []), plan.site]);
  }

  const cuts = new Map<EndSite, EndCut>();
  const later: Plan[] = [];
  for (const plan of plans.values()) {
    const inLine = inLineWith(plan, joints, carried);
    if (carried.has(plan.site) || inLine !== null) later.push(plan);
    else cuts.set(plan.site, cut(plan, [], 0, carried, joints, caches));
  }
  // Those that run on know how far only now; what butts against them comes last.
  const runOn = (site: EndSite): number => {
    let past = 0;
    for (const other of carried.get(site) ?? []) {
      const made = cuts.get(other);
      made?.tubes.forEach((tube, i) => {
        const print = made.coped?.footprints[i] ?? null;
        if (tube.end !== site || print === null) return;
        past = Math.max(past, site.which === 'first' ? -print.from : print.to - tube.host.centreline.length);
      });
    }
    return past;
  };
  for (const plan of later.filter((p) => carried.has(p.site))) {
    cuts.set(plan.site, cut(plan, [], runOn(plan.site), carried, joints, caches));
  }
  for (const plan of later.filter((p) => !carried.has(p.site))) {
    const first = inLineWith(plan, joints, carried);
    const past = first === null ? 0 : (cuts.get(first)?.past ?? 0);
    const flat = first === null || past < NO_RUN_ON ? [] : [flatOf(first, past)];
    cuts.set(plan.site, cut(plan, flat, 0, carried, joints, caches));
  }
  // In the order of the cage, whatever the order of the cutting.
  return new Map(
    [...landings.keys()].flatMap((site) => {
      const found = cuts.get(site);
      return found === undefined ? [] : [[site, found] as const];
    }),
  );
}

/** The plane of each foot; `square` lies across the tube that is first in the order there. */
function platesOf(
  bodies: Bodies,
  landings: ReadonlyMap<EndSite, Landing>,
  joints: Joints,
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
    plates.set(foot, { kind: 'plane', foot, host: { kind: 'plane', point, normal: frame.normal } });
  }
  return plates;
}

function planOf(landing: Landing, plates: ReadonlyMap<Foot, PlaneCut>): Plan {
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

const pastOf = (site: EndSite): number => (site.told.kind === 'past' ? site.told.length : 0);

/** A host that is itself an end: its half, on its own side of the flat across its axis `past` beyond its node. */
function halfOf(end: EndSite, past: number, goesOn: boolean): TubeCut | null {
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
function choose(plan: Plan, joints: Joints, caches: CutCaches): void {
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
  caches: CutCaches,
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
const mayRunOn = (plan: Plan): boolean =>
  plan.bare && plan.accepted.length === 0 && !isUncut(plan.site) && !plan.site.body.tube.existing;

/** The end that runs on past the node which this end continues in one line without being cut to it. */
function inLineWith(plan: Plan, joints: Joints, carried: ReadonlyMap<EndSite, unknown>): EndSite | null {
  if (!plan.bare || carried.has(plan.site) || isUncut(plan.site)) return null;
  for (const { end } of joints.peers.get(plan.site) ?? []) {
    if (!carried.has(end) || plan.accepted.some((peer) => peer.end === end)) continue;
    if (areInLine(plan.site, end)) return end;
  }
  return null;
}

/** Where a tube that runs on `past` its node is cut square. */
function flatOf(end: EndSite, past: number): PlaneCut {
  const away = end.leg?.away ?? [1, 0, 0];
  const point: Vec3 = addScaled(end.at ?? [0, 0, 0], away, -past);
  return { kind: 'plane', foot: null, host: { kind: 'plane', point, normal: away } };
}

/** Cuts one end, once everything that cuts it is known. */
function cut(
  plan: Plan,
  flats: readonly PlaneCut[],
  runOn: number,
  carried: ReadonlyMap<EndSite, readonly EndSite[]>,
  joints: Joints,
  caches: CutCaches,
): EndCut {
  const { site, landing, child } = plan;
  const halves = plan.accepted.flatMap((peer): TubeCut[] => {
    // With nothing else to land on, a host that stops where it is told is measured as if it went on, and then told.
    const goesOn = carried.has(peer.end) || peer.end === plan.first;
    const half = halfOf(peer.end, pastOf(peer.end), goesOn);
    return half === null ? [] : [half];
  });
  const tubes = [...plan.through, ...halves];
  const planes = [...plan.plates, ...flats];
  const names = [...tubes.map((tube) => tube.body.name), ...landing.bodiless];
  const uncut = isUncut(site);
  const fit: Fit =
    site.told.kind === 'open'
      ? 'open'
      : uncut
        ? 'square'
        : names.length > 0
          ? 'cope'
          : plan.plates.length + landing.feet.length > 0
            ? 'foot'
            : 'square';
  const hosts = uncut ? [] : [...new Set([...names, ...landing.feet.map((foot) => foot.name)])];
  const past = site.told.kind === 'past' ? site.told.length : fit === 'square' ? runOn : 0;
  const guessed = plan.accepted
    .filter((peer) => !peer.told && joints.order.guessed(peer.end, site))
    .map((peer) => peer.end);
  const made = { site, landing, fit, hosts, tubes, child, past, guessed, carries: carried.get(site) ?? [] };
  const nothing: EndCut = { ...made, coped: null, sawn: null, untouched: [] };
  if (child === null) return nothing;

  if (fit === 'cope') {
    const known = landing.bodiless.length === 0 && plan.plates.length === landing.feet.length;
    if (!known || tubes.some((tube) => tube.body.outer === null)) return nothing;
    const { key } = caches;
    addChild(key.clear(), child).add(tubes.length);
    tubes.forEach((tube) => addTube(key, tube));
    planes.forEach((plane) => addPlane(key, plane.host));
    const coped = caches.copes.get(key, () =>
      cutTo(
        caches.nextId(),
        child,
        tubes.map((tube) => tube.host),
        planes.map((plane) => plane.host),
      ),
    );
    const untouched = tubes
      .filter((tube, i) => coped.touches[i] === false || (site.splitter !== null && isBeside(landing, tube)))
      .map((tube) => tube.body.name);
    return { ...nothing, coped, untouched };
  }
  const frame = site.leg?.frame;
  if (frame === undefined) return nothing;
  const { origin, away, outerRadius, innerRadius } = child;
  const saw = (point: Vec3, normal: Vec3): SawnEnd | null =>
    sawEnd(frame, origin, away, outerRadius, innerRadius, point, normal);
  if (fit === 'foot') {
    const plate = plan.plates[0];
    return plate === undefined ? nothing : { ...nothing, sawn: saw(plate.host.point, plate.host.normal) };
  }
  const flat = flats[0];
  if (fit === 'square' && flat !== undefined) return { ...nothing, sawn: saw(flat.host.point, flat.host.normal) };
  return { ...nothing, sawn: saw(addScaled(origin, away, -past), away) };
}

/** A tube that passes the one which splits it farther off than that one's radius is not split by it. */
const isBeside = (landing: Landing, tube: TubeCut): boolean =>
  landing.through.some((contact) => contact.body === tube.body && contact.distance > (tube.body.outer ?? Infinity));

function addChild(key: NumberKey, child: ChildEnd): NumberKey {
  return key
    .addAll(child.origin)
    .addAll(child.away)
    .addAll(child.zero)
    .addAll(child.quarter)
    .add(child.outerRadius)
    .add(child.innerRadius)
    .add(child.limit);
}

function addTube(key: NumberKey, tube: TubeCut): void {
  key.add(tube.body.geometry).add(tube.host.station).add(tube.host.from).add(tube.host.to);
}

const addPlane = (key: NumberKey, plane: PlaneHost): void => {
  key.addAll(plane.point).addAll(plane.normal);
};
