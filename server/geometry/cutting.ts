/** How each end is cut, once it is known what cuts it. The set-backs themselves come from the cope. Millimetres. */
import type { Foot } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { addScaled, dot } from '../centreline/vector';
import type { Bodies, EndSite } from './bodies';
import type { CutCope } from './cut-to';
import { cutTo } from './cut-to';
import type { Joints, Peer } from './joints';
import { isUncut } from './joints';
import type { Landing } from './landing';
import { MOST_AT_AN_END } from './landing';
import type { Memo } from './memo';
import type { Plan, PlaneCut, ProbeCaches, TubeCut } from './plan';
import {
  addChild,
  addPlane,
  addTube,
  choose,
  flatOf,
  halfOf,
  inLineWith,
  mayRunOn,
  pastOf,
  planOf,
  platesOf,
} from './plan';
import type { SawnEnd } from './sawn';
import { sawEnd } from './sawn';
import type { ChildEnd } from './setback';
import type { Fit } from './shape';

export type { PlaneCut, TubeCut } from './plan';

/** A run-on shorter than this is none, mm. */
const NO_RUN_ON = 1e-6;
/** A plate this nearly along a leg (sine of the angle) cuts it nowhere. */
const ALONG = 1e-6;

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
  /** Feet whose plate runs along the leg, so that it never cuts the tube off. */
  readonly along: readonly Foot[];
  /** Ends that cut it though nothing written says so. */
  readonly guessed: readonly EndSite[];
  /** The ends for which it runs on. */
  readonly carries: readonly EndSite[];
  /** All ends of its joint. */
  readonly peers: readonly Peer[];
  /** True where so many others are that nothing is worked out. */
  readonly crowded: boolean;
}

/** Kept between runs: probes and copes by their numbers. */
export interface CutCaches extends ProbeCaches {
  readonly copes: Memo<CutCope>;
  readonly nextId: () => number;
}

/** Cuts all ends. */
export function cutEnds(
  bodies: Bodies,
  landings: ReadonlyMap<EndSite, Landing>,
  joints: Joints,
  caches: CutCaches,
  before: CutsBefore | null = null,
): Cuts {
  const plates = platesOf(bodies, landings, joints, before?.plates ?? null);
  const cuts = new Map<EndSite, EndCut>();
  const plans = new Map<EndSite, Plan>();
  for (const landing of landings.values()) {
    const old = before === null ? null : unchanged(before, landing, landings, joints, plates);
    if (old === null) plans.set(landing.site, planOf(landing, plates));
    else cuts.set(landing.site, old);
  }
  for (const plan of plans.values()) if (!isCrowded(plan, joints)) choose(plan, joints, caches);

  // Who must run on past its node, and for whom.
  const carried = new Map<EndSite, EndSite[]>();
  for (const plan of plans.values()) {
    const { first } = plan;
    const own = first === null ? undefined : plans.get(first);
    if (first === null || own === undefined || !mayRunOn(own)) continue;
    carried.set(first, [...(carried.get(first) ?? []), plan.site]);
  }

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
        const print = tube.end === site ? (made.coped?.footprint(i) ?? null) : null;
        if (print === null) return;
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
  const ordered = new Map<EndSite, EndCut>();
  for (const site of landings.keys()) {
    const found = cuts.get(site);
    if (found !== undefined) ordered.set(site, found);
  }
  return { cuts: ordered, landings, plates };
}

/** All ends as they are cut, and what they were cut by. */
export interface Cuts {
  readonly cuts: ReadonlyMap<EndSite, EndCut>;
  readonly landings: ReadonlyMap<EndSite, Landing>;
  readonly plates: ReadonlyMap<Foot, PlaneCut>;
}
/** The cuts of the run before, where the `joint` statements say the same as then. */
export type CutsBefore = Cuts;

/** The cut of the run before, where nothing that it hangs on is different: its landing, its peers and theirs, its plate. */
function unchanged(
  before: CutsBefore,
  landing: Landing,
  landings: ReadonlyMap<EndSite, Landing>,
  joints: Joints,
  plates: ReadonlyMap<Foot, PlaneCut>,
): EndCut | null {
  const { site } = landing;
  const old = before.cuts.get(site);
  if (old === undefined || old.landing !== landing) return null;
  const peers = joints.peers.get(site) ?? NOBODY;
  if (peers.length !== old.peers.length) return null;
  // At a bare joint who runs on, and how far, is for all of its ends together to say.
  const bare = landing.through.length + landing.feet.length + landing.bodiless.length === 0;
  if (bare && peers.length > 0) return null;
  for (const [i, peer] of peers.entries()) {
    const other = old.peers[i];
    if (other === undefined || other.end !== peer.end || other.told !== peer.told) return null;
    if (landings.get(peer.end) !== before.landings.get(peer.end)) return null;
  }
  for (const foot of landing.feet) if (plates.get(foot) !== before.plates.get(foot)) return null;
  return old;
}

const NOBODY: readonly Peer[] = [];

/** Whether so many others are at an end that no joint is meant. Each is measured against each: they would take for ever. */
const isCrowded = ({ site, landing }: Plan, joints: Joints): boolean =>
  landing.crowded ||
  (!isUncut(site) && Math.max(landing.through.length, joints.peers.get(site)?.length ?? 0) > MOST_AT_AN_END);

/** An end that meets too many others: a cope, of which nothing is known. */
const uncutInCrowd = ({ site, landing, child }: Plan, joints: Joints): EndCut => ({
  site,
  landing,
  fit: 'cope',
  hosts: [],
  tubes: [],
  child,
  coped: null,
  sawn: null,
  past: 0,
  untouched: [],
  along: [],
  guessed: [],
  carries: [],
  peers: joints.peers.get(site) ?? NOBODY,
  crowded: true,
});

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
  if (isCrowded(plan, joints)) return uncutInCrowd(plan, joints);
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
  const made = {
    site,
    landing,
    fit,
    hosts,
    tubes,
    child,
    past,
    guessed,
    carries: carried.get(site) ?? [],
    peers: joints.peers.get(site) ?? NOBODY,
    crowded: false,
  };
  const along = plan.plates.flatMap(({ foot, host }) =>
    foot !== null && child !== null && Math.abs(dot(host.normal, child.away)) < ALONG ? [foot] : [],
  );
  const nothing: EndCut = { ...made, coped: null, sawn: null, untouched: [], along };
  if (child === null || along.length > 0 || site.told.kind === 'unknown') return nothing;

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
