/** What is wrong with ends: loose, beside their host, off its side or its end, too shallow, into a bend. */
import type { Finding, FixId, Params } from '../../grammar/finding';
import type { Code } from '../../grammar/codes';
import { degrees } from '../../grammar/units';
import type { Tube } from '../cage/cage';
import { pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { angleBetween, distance, dot, sub } from '../centreline/vector';
import { isBendCorner } from './bend-corner';
import type { Bodies, EndSite } from './bodies';
import { clockOf } from './clock';
import type { EndCut, TubeCut } from './cutting';
import { Kept } from './kept';
import { MOST_AT_AN_END } from './landing';
import type { Surroundings } from './surroundings';
import { hostField, onGenerator, reachOf } from './setback-field';
import { NEAR_MISS } from './setback';
import { byText, figure, tell } from './tell';

/** Under this the heel of a joint cannot be welded through (from memory: the usual bound for welded tubes). */
const SHALLOW = (30 * Math.PI) / 180;
/** What rounding may take off an angle (radians) or a length (mm) before a limit counts as broken. */
const ANGLE_ROUNDING = 1e-9;
const ROUNDING = 1e-6;
const CLOCKS = 144;

/** Kept between runs: footprints past the ends of their hosts, by the cuts of those. */
export type HostEndCache = Kept<readonly Finding[], EndCut>;

/** What is to be told of where ends land, and of where they reach on their hosts. */
export function landingFindings(
  bodies: Bodies,
  cuts: ReadonlyMap<EndSite, EndCut>,
  around: Surroundings,
  kept: HostEndCache = new Kept(),
): readonly Finding[] {
  const findings: Finding[] = [];
  // A foot whose node cannot be read may stand under any end that seems loose.
  const unread = bodies.feet.some((foot) => foot.node === null);
  for (const cut of cuts.values()) {
    for (const finding of ofLanding(cut, around)) if (!(unread && finding.code === 'end.loose')) findings.push(finding);
    if (cut.tubes.length === 0) continue;
    const from = cut.tubes.flatMap(({ body }) => body.ends.map((end) => cuts.get(end)));
    for (const finding of kept.get(cut, from, () => pastHostEnd(cut, cuts))) findings.push(finding);
  }
  for (const split of bodies.splits) {
    const { tube, by } = split;
    const apart = split.distance !== null && split.distance > (split.radius ?? Infinity);
    if (split.distance === null || (split.station !== null && !apart)) continue;
    findings.push(
      tell(
        'cope.no-contact',
        tube.name,
        { kind: 'thing', thing: tube.name, fact: 'split' },
        {
          end: 'split',
          tube: tube.name,
          host: by,
          distance: figure(split.distance, 'mm'),
          mend: 'their axes pass {distance} apart; bring them together',
        },
      ),
    );
  }
  return findings;
}

type More = Partial<Pick<Finding, 'measured' | 'allowed' | 'fixes'>>;

/** A finding of an end, at its node in the tube's path. */
function tellEnd(site: EndSite, code: Code, params: Params, more: More = {}): Finding {
  const { body, which, item, splitter } = site;
  const { tube } = body;
  const at =
    splitter === null
      ? ({ kind: 'thing', thing: tube.name, fact: 'path', item } as const)
      : ({ kind: 'thing', thing: tube.name, fact: 'split' } as const);
  return tell(code, tube.name, at, { end: which, tube: body.name, ...params }, more);
}

function ofLanding(cut: EndCut, around: Surroundings): readonly Finding[] {
  const { site, landing } = cut;
  const { nearMiss, cornerOf } = landing;
  if (cornerOf !== null)
    return [tellEnd(site, 'place.bend-corner', { node: site.node, host: cornerOf, tube: cornerOf })];
  // What does not touch is told as that.
  if (nearMiss !== null && cut.untouched.length === 0) {
    const host = nearMiss.body.name;
    const data = { tube: site.body.tube.name, end: site.which, node: site.node, host };
    const fixes: FixId[] = [
      { id: 'place.move-onto', data },
      { id: 'place.write-onto', data },
    ];
    const measured = figure(nearMiss.distance, 'mm');
    return [
      tellEnd(site, 'place.near-miss', { host }, { measured, allowed: { from: null, to: 0.5, unit: 'mm' }, fixes }),
    ];
  }
  if (landing.loose && site.at !== null) {
    const nearest = around.nearest(site.at, site.body);
    const far = nearest === null ? null : figure(nearest.distance, 'mm');
    const near = nearest === null ? '' : ', the nearest centreline is that of {nearest}, {distance} away';
    const params = { near, nearest: nearest?.body.name ?? null, distance: far };
    return [tellEnd(site, 'end.loose', params, far === null ? {} : { measured: far })];
  }
  return [];
}

/** What is to be told of a cope by itself. */
export function copeFindings(cut: EndCut): readonly Finding[] {
  const { site, tubes, coped, child } = cut;
  if (cut.crowded) return [tellEnd(site, 'joint.crowded', { most: MOST_AT_AN_END })];
  // On the corner of a bend there is nothing to be cut to: that is told.
  if (cut.landing.cornerOf !== null) return [];
  const findings: Finding[] = [];
  // A split whose tubes never meet is told once, not for both its pieces.
  if (site.splitter === null) {
    for (const host of cut.untouched) findings.push(tellEnd(site, 'cope.no-contact', { host, ...bringTo(cut, host) }));
  }
  for (const foot of cut.along) {
    const mend = 'its plate runs along the tube; let it lie square, or turn it';
    findings.push(tellEnd(site, 'cope.no-contact', { host: foot.name, mend }));
  }
  if (coped === null || child === null || cut.untouched.length + cut.along.length > 0) return findings;
  const { cope } = coped;
  const first = tubes[0];
  const host = first?.body.name ?? null;
  if (cope.overhang !== null && !cope.buried) {
    const measured = figure(cope.overhang, 'mm');
    findings.push(
      tellEnd(
        site,
        'cope.overhang',
        { host, ...backOnto(cut, cope.overhang) },
        { measured, allowed: { from: null, to: NEAR_MISS, unit: 'mm' } },
      ),
    );
  }
  if (cope.buried) findings.push(tellEnd(site, 'cope.buried', { host, limit: figure(child.limit, 'mm') }));

  const shallow = shallowest(cut);
  if (shallow !== null && shallow.angle < SHALLOW - ANGLE_ROUNDING) {
    const found = tellEnd(
      site,
      'cope.shallow',
      { host: shallow.tube.body.name, limit: figure(SHALLOW, 'deg') },
      { measured: figure(shallow.angle, 'deg'), allowed: { from: degrees(SHALLOW), to: 90, unit: 'deg' } },
    );
    // Pillar bars run along what they stiffen.
    findings.push(site.body.tube.role === 'pillar-bar' ? { ...found, severity: 'information' } : found);
  }
  const straight = straightFromOrigin(cut);
  const bent = site.body.centreline?.pieces.some((piece) => piece.kind === 'arc') ?? false;
  if (bent && straight !== null && cope.maxCut !== null && cope.maxCut > straight + ROUNDING) {
    const measured = figure(cope.maxCut - straight, 'mm');
    findings.push(tellEnd(site, 'cope.into-own-bend', {}, { measured, allowed: { from: null, to: 0, unit: 'mm' } }));
  }
  for (const tube of tubes) {
    const off = tube.end === null ? intoBend(tube) : null;
    if (off !== null)
      findings.push(tellEnd(site, 'cope.on-bend', { host: tube.body.name }, { measured: figure(off, 'mm') }));
  }
  return findings;
}

/** What brings an end to a host that it does not touch. */
function bringTo({ landing }: EndCut, host: string): Params {
  const contact = [landing.nearMiss, ...landing.through].find((one) => one?.body.name === host) ?? null;
  if (contact === null) return { mend: 'bring its node to it, or let it land on what it meets' };
  if (contact.distance < ROUNDING)
    return {
      mend: 'the axis of {host} runs on along its own, so nothing can be cut to it; turn one of them, or end it short of {host}',
    };
  return {
    mend: 'its node stands {miss} beside the axis of {host}; move it there',
    miss: figure(contact.distance, 'mm'),
  };
}

/** What sets an end that hangs over wholly on its host: the other way round, or nearer to its axis. */
function backOnto({ site, tubes, coped }: EndCut, overhang: number): Params {
  const [own, host] = [site.body.outer ?? 0, tubes[0]?.body.outer ?? 0];
  if (tubes.length === 1 && own > host + ROUNDING) {
    return {
      mend: 'it is of od {od}, {host} of {hostOd} only; cut {host} to it, or use a larger tube there',
      od: figure(2 * own, 'mm'),
      hostOd: figure(2 * host, 'mm'),
    };
  }
  const offset = coped?.cope.offset ?? 0;
  return offset > ROUNDING
    ? { mend: 'move its axis {by} toward that of {host}', by: figure(Math.min(overhang, offset), 'mm') }
    : { mend: 'move it until {host} is under all of it, or choose another order' };
}

/** The straight from E to the nearest bend. */
function straightFromOrigin(cut: EndCut): number | null {
  const { site, child } = cut;
  if (site.leg === null || site.at === null || child === null) return null;
  return site.leg.straight + dot(sub(site.at, child.origin), child.away);
}

/** The host that the leg meets at the smallest angle. */
function shallowest(cut: EndCut): { readonly tube: TubeCut; readonly angle: number } | null {
  let least: { readonly tube: TubeCut; readonly angle: number } | null = null;
  for (const tube of cut.tubes) {
    if (cut.child === null) continue;
    const turn = angleBetween(cut.child.away, pointAt(tube.host.centreline, tube.host.station).tangent);
    const angle = Math.min(turn, Math.PI - turn);
    if (least === null || angle < least.angle - ANGLE_ROUNDING) least = { tube, angle };
  }
  return least;
}

/** How far the end's place lies inside a bend of its host, from the nearer tangent along the bend; null: on a leg. */
function intoBend(tube: TubeCut): number | null {
  const { station, centreline } = tube.host;
  for (const piece of centreline.pieces) {
    if (piece.kind !== 'arc') continue;
    const off = Math.min(station - piece.start, piece.start + piece.length - station);
    if (off > ROUNDING) return off;
  }
  return null;
}

/** Footprints that run past where a host is cut off. */
function pastHostEnd(cut: EndCut, cuts: ReadonlyMap<EndSite, EndCut>): readonly Finding[] {
  const { child, coped, site } = cut;
  if (child === null || coped === null || cut.untouched.length > 0) return [];
  const findings: Finding[] = [];
  for (const [i, tube] of cut.tubes.entries()) {
    if (!tube.goesOn) continue;
    const { station, centreline } = tube.host;
    for (const end of tube.body.ends) {
      const made = cuts.get(end);
      // Lengthened for this very end, or its figures are not known.
      if (made === undefined || made.carries.includes(site)) continue;
      const first = end.which === 'first';
      const deepest = deepestCut(made);
      // Mostly the end of the host is far beyond all that could be covered.
      const left = first ? station : centreline.length - station;
      if (deepest === null || left - reachOf(child, tube.host) >= deepest - NEAR_MISS) continue;
      const print = coped.footprint(i);
      if (print === null) continue;
      const reach = first ? -print.from : print.to - centreline.length;
      if (-reach >= deepest - NEAR_MISS) continue;
      const by = beyondCut(cut, i, made);
      if (by <= NEAR_MISS) continue;
      const measured = figure(by, 'mm');
      const host = tube.body.name;
      findings.push(
        tellEnd(site, 'cope.past-host-end', { host }, { measured, allowed: { from: null, to: 0, unit: 'mm' } }),
      );
    }
  }
  return findings;
}

const deepestCut = (made: EndCut): number | null => made.sawn?.maxCut ?? made.coped?.cope.maxCut ?? null;

/** By how much points of a footprint lie beyond the cut end of their host, mm, measured along the host's end leg. */
function beyondCut(cut: EndCut, index: number, made: EndCut): number {
  const { child } = cut;
  const { leg } = made.site;
  const origin = made.landing.origin;
  const curve = made.sawn?.curve ?? made.coped?.cope.curve;
  if (child === null || leg === null || origin === null || curve === undefined) return 0;
  const fields = [...cut.tubes.map((tube) => tube.host)].map((host) => hostField(child, host));
  const reach = 8 * ((made.site.body.outer ?? 0) + child.outerRadius);
  let worst = 0;
  for (let i = 0; i < CLOCKS; i++) {
    const clock = (2 * Math.PI * i) / CLOCKS;
    const [cos, sin] = [Math.cos(clock), Math.sin(clock)];
    const s = fields[index]?.at(child.outerRadius, cos, sin) ?? NaN;
    if (Number.isNaN(s)) continue;
    if (fields.some((field, k) => k !== index && field.at(child.outerRadius, cos, sin) > s + ROUNDING)) continue;
    const p: Vec3 = onGenerator(child, child.outerRadius, cos, sin, s);
    const along = dot(sub(p, origin), leg.away);
    if (distance(p, origin) > reach || along > leg.straight) continue;
    const end = curve.cut(clockOf(leg.frame, sub(p, origin)));
    if (end !== null) worst = Math.max(worst, end - along);
  }
  return worst;
}

/**
 * `cope.order-guessed`, once for a joint: ends that are cut to others though nothing written says who comes first.
 * Joints are told by their nodes; ends hang together through whoever they are cut to.
 */
export function orderFindings(cuts: ReadonlyMap<EndSite, EndCut>): readonly Finding[] {
  const groups = new Map<EndSite, Set<EndSite>>();
  const guessed = [...cuts.values()].filter((cut) => cut.guessed.length > 0);
  for (const cut of guessed) {
    const all = new Set<EndSite>([cut.site, ...cut.guessed]);
    for (const site of [cut.site, ...cut.guessed]) for (const other of groups.get(site) ?? []) all.add(other);
    for (const site of all) groups.set(site, all);
  }
  const findings: Finding[] = [];
  for (const group of new Set(groups.values())) {
    // Where ends stand on the corner of a bend, they are not where they are meant to be.
    if ([...group].some((site) => (cuts.get(site)?.landing.cornerOf ?? null) !== null)) continue;
    const cutHere = guessed.filter((cut) => group.has(cut.site));
    const whole = [...group].filter((site) => !cutHere.some((cut) => cut.site === site));
    const firsts = [...new Set(whole.map((site) => site.body.name))].sort(byText);
    const others = [...new Set(cutHere.map((cut) => cut.site.body.name))].sort(byText);
    const nodes = [...new Set([...group].flatMap((site) => site.node ?? []))].sort(byText);
    const node = nodes[0] ?? null;
    const subject = node ?? firsts[0] ?? '';
    const thing = node ?? cutHere[0]?.site.body.tube.name ?? subject;
    const where = node === null ? 'Where {others} meet {first},' : 'At {node}';
    const mend =
      node === null ? 'a node there, and joint NODE { order … } with it, decides' : 'joint {nodes} { order … } decides';
    const params = { where, node, first: firsts.join(', '), others, nodes, mend };
    findings.push(tell('cope.order-guessed', subject, { kind: 'thing', thing }, params));
  }
  return findings;
}

/** `tube.past-length`: a tube that is longer than its path, because others land on its end. */
export function runOnFindings(cuts: ReadonlyMap<EndSite, EndCut>): readonly Finding[] {
  const findings: Finding[] = [];
  for (const cut of cuts.values()) {
    if (cut.carries.length === 0 || !(cut.past > ROUNDING) || cut.landing.cornerOf !== null) continue;
    const others = [...new Set(cut.carries.map((site) => site.body.name))].sort(byText);
    const measured = figure(cut.past, 'mm');
    findings.push(tellEnd(cut.site, 'tube.past-length', { node: cut.site.node, others }, { measured }));
  }
  return findings;
}

const isHalfRead = ({ path, origin }: Tube): boolean =>
  path.includes(null) ||
  (path.length < 2 && (origin.entry.block?.entries ?? []).some(({ line }) => line.word.text === 'path'));

/** `foot.no-tube`: a plate on which nothing stands. */
export function emptyFeet(bodies: Bodies, cuts: ReadonlyMap<EndSite, EndCut>): readonly Finding[] {
  // While a path cannot be read, its tube may be the one that is missed.
  if (bodies.all.some(({ tube }) => isHalfRead(tube))) return [];
  const stood = new Set([...cuts.values()].flatMap((cut) => cut.landing.feet));
  const unbuilt = new Set(
    bodies.all.flatMap((body) => (body.tube.centreline === null ? body.ends.map((site) => site.node) : [])),
  );
  return bodies.feet
    .filter((foot) => !stood.has(foot) && bodies.nodeAt(foot.node) !== null && !unbuilt.has(foot.node))
    .map((foot) => {
      const at = { kind: 'thing', thing: foot.name, fact: 'at' } as const;
      const bent = bodies.all.find(({ tube }) => isBendCorner(tube, foot.node))?.tube.name;
      return bent === undefined
        ? tell('foot.no-tube', foot.name, at, { foot: foot.name })
        : tell('place.bend-corner', foot.name, at, { node: foot.node, tube: bent });
    });
}
