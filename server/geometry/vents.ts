/**
 * Vents: which bores a drilled hole joins, and whether it can do so where it is written. A vent into a host goes through
 * the host's wall where the child's axis enters it, inside the joint; a vent to the air through the tube's own wall.
 */
import type { Code } from '../../grammar/codes';
import type { Finding, Measure } from '../../grammar/finding';
import type { Length } from '../../grammar/units';
import { mm } from '../../grammar/units';
import type { Cage, Vent } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { distance, dot, sub } from '../centreline/vector';
import { axisExit, axisOffset, boreRadius, outerRadius } from './axis';
import { isBendCorner } from './bend-corner';
import type { Kept } from './kept';
import type { End, Part } from './shape';
import { partsOf } from './stretch';
import { figure, tell } from './tell';

/** The open air, beside the names of parts. */
export const AIR = '(air)';

/** A node this near to an end's point is at that end: joints whose ends share a through tube have nodes of their own. */
const AT_END = 0.5;
/**
 * The largest vent: a quarter of the smaller bore, but 10 mm is never too much. More than the gas needs takes wall away
 * where the weld heats it (common practice, no source); the hot-dip galvanizers' rule of ASTM A385, a quarter of the
 * bore and at least 9.5 mm, stays allowed.
 */
const LARGEST_SHARE = 1 / 4;
const ALWAYS_ALLOWED = mm(10);
/** Less than this is rounding, mm. */
const ROUNDING = 1e-6;

export interface VentResult {
  readonly vent: Vent;
  /** What the hole joins: part names, or {@link AIR}. Null: nothing. */
  readonly joins: readonly [string, string] | null;
  /** Parts whose venting cannot be told because this vent is not wholly written. */
  readonly unknown: readonly string[];
  readonly findings: readonly Finding[];
}

interface ChildEnd {
  readonly part: Part;
  readonly end: End;
}

/** The child's end at a node: by the node's name, else by where it is. */
function endAt(children: readonly Part[], node: string, at: Vec3 | null): ChildEnd | null {
  const ends = children.flatMap((part) => part.ends.map((end) => ({ part, end })));
  const named = ends.find(({ end }) => end.node === node);
  if (named !== undefined || at === null) return named ?? null;
  const near = ends
    .filter(({ end }) => end.origin !== null)
    .map((each) => ({ each, far: distance(each.end.origin ?? at, at) }))
    .sort((a, b) => a.far - b.far)[0];
  return near !== undefined && near.far <= Math.max(AT_END, outerRadius(near.each.part)) ? near.each : null;
}

type Names = Readonly<Record<string, string | Measure>>;

const fault = (vent: Vent, code: Code, why: string, fact: string | null, params: Names): VentResult => ({
  vent,
  joins: null,
  unknown: [],
  findings: [
    tell(
      code,
      vent.name,
      fact === null ? { kind: 'thing', thing: vent.name } : { kind: 'thing', thing: vent.name, fact },
      { why, ...params },
    ),
  ],
});

/** `vent.too-large`, or nothing. `tubes`: the one that is drilled, then the other whose bore must hold the hole. */
function tooLarge(vent: Vent, dia: Length, drilled: Part, child: Part): readonly Finding[] {
  const least = 2 * Math.min(boreRadius(drilled), boreRadius(child));
  const limit = Math.min(Math.max(LARGEST_SHARE * least, ALWAYS_ALLOWED), least);
  if (limit <= 0 || dia <= limit + ROUNDING) return [];
  const why =
    limit > LARGEST_SHARE * least
      ? 'the weld must be clear of it all round; common practice'
      : 'a quarter of the smaller bore; common practice';
  return [
    tell(
      'vent.too-large',
      vent.name,
      { kind: 'thing', thing: vent.name, fact: 'dia' },
      { tube: drilled.name, limit: figure(limit, 'mm'), why },
      { measured: figure(dia, 'mm'), allowed: { from: null, to: limit, unit: 'mm' } },
    ),
  ];
}

const isHost = (end: End, part: Part): boolean => end.hosts.includes(part.name) || end.hosts.includes(part.tube.name);

/** Of several hosts, the one that the child's axis enters before it could reach this one; null: there is none. */
function coveredBy(child: ChildEnd, host: Part, parts: ReadonlyMap<string, Part>): Part | null {
  const others = child.end.hosts.flatMap((name) => parts.get(name) ?? []).filter((part) => part !== host);
  if (others.length === 0) return null;
  const reach = 4 * (outerRadius(host) + outerRadius(child.part));
  const own = axisExit(child.end, host, reach) ?? -Infinity;
  return others.find((part) => (axisExit(child.end, part, reach) ?? -Infinity) > own + AT_END) ?? null;
}

/** A vent through the host's wall. */
function intoHost(
  vent: Vent,
  child: ChildEnd,
  hosts: readonly Part[],
  parts: ReadonlyMap<string, Part>,
  node: string,
): VentResult {
  const names = { child: child.part.tube.name, host: hosts[0]?.tube.name ?? '', node };
  const host = hosts.find((part) => isHost(child.end, part));
  if (host === undefined) {
    // An end on the corner of the host's bend is told where it is written.
    if (hosts.some(({ tube }) => isBendCorner(tube, node))) return { vent, joins: null, unknown: [], findings: [] };
    const turned = hosts.some((part) => part.ends.some((end) => isHost(end, child.part)));
    const why = turned
      ? '{host} is cut to {child} here, so write {host} -> {child}'
      : '{child} is not cut to {host} at {node}';
    return fault(vent, 'vent.outside-joint', why, null, names);
  }
  const offset = axisOffset(child.end, host);
  if (offset !== null && offset >= boreRadius(host)) {
    const why = 'the axis of {child} passes {offset} beside that of {host} and misses its bore';
    return fault(vent, 'vent.outside-joint', why, 'at', { ...names, offset: figure(offset, 'mm') });
  }
  const cover = coveredBy(child, host, parts);
  if (cover !== null) {
    const why = 'there the axis of {child} enters {other}, so {host} cannot be drilled inside the joint';
    return fault(vent, 'vent.outside-joint', why, 'at', { ...names, other: cover.tube.name });
  }
  const findings = vent.dia === null ? [] : tooLarge(vent, vent.dia, host, child.part);
  return { vent, joins: [child.part.name, host.name], unknown: [], findings };
}

/** A vent through the tube's own wall, `from` along it from the node of one end. */
function intoAir(vent: Vent, child: ChildEnd, from: Length, clock: number): VentResult {
  const { part, end } = child;
  const names = { tube: part.tube.name };
  const radius = (vent.dia ?? 0) / 2;
  const [first, last] = part.ends;
  const other = end === first ? last : first;
  // `from` counts from the end's node, the set-backs from E.
  const cut = end.curve?.cut(clock) ?? end.maxCut ?? 0;
  const node = end.which === 'first' ? part.centreline?.points[0] : part.centreline?.points.at(-1);
  const shift =
    node === undefined || end.origin === null || end.away === null ? 0 : dot(sub(end.origin, node), end.away);
  const clear = cut + shift + radius;
  if (from < clear - ROUNDING) {
    const host = end.hosts[0];
    const params = { ...names, host: host ?? '', clear: figure(clear, 'mm') };
    const why = 'it lies in the joint with {host}, not in the open air; drill it at least {clear} from the node';
    return host === undefined
      ? fault(vent, 'vent.no-effect', 'it lies beyond the end of {tube}', 'from', names)
      : fault(vent, 'vent.no-effect', why, 'from', params);
  }
  const room = (part.centreline?.length ?? Infinity) - (other.maxCut ?? 0);
  if (from > room - radius + ROUNDING)
    return fault(vent, 'vent.no-effect', 'it lies beyond the end of {tube}', 'from', names);
  return {
    vent,
    joins: [part.name, AIR],
    unknown: [],
    findings: vent.dia === null ? [] : tooLarge(vent, vent.dia, part, part),
  };
}

/** A tube of which not enough is known to drill it: where it runs, or how wide its bore is. */
const isUnclear = (part: Part): boolean => part.centreline === null || part.tube.section === null;

/** What one vent does. A vent that is not wholly written does nothing, and leaves its tubes unknown. */
function ventResult(vent: Vent, cage: Cage, parts: ReadonlyMap<string, Part>): VentResult {
  const children = vent.tube === null ? [] : partsOf(parts, vent.tube);
  const hosts = typeof vent.to === 'string' ? partsOf(parts, vent.to) : [];
  const node = vent.node === null ? undefined : cage.things.get(vent.node);
  const air = vent.to !== null && typeof vent.to !== 'string';
  const unclear =
    children.length === 0 ||
    children.some(isUnclear) ||
    (!air && (hosts.length === 0 || hosts.some(isUnclear))) ||
    (air && vent.from === null) ||
    node?.kind !== 'node' ||
    node.at === null;
  if (unclear) return { vent, joins: null, unknown: [...children, ...hosts].map((part) => part.name), findings: [] };
  const child = endAt(children, node.name, node.at);
  if (child === null) {
    const bent = children.find(({ tube }) => isBendCorner(tube, node.name))?.tube.name;
    if (bent !== undefined) {
      const at = { kind: 'thing', thing: vent.name, fact: 'at' } as const;
      const findings = [tell('place.bend-corner', vent.name, at, { node: node.name, tube: bent })];
      return { vent, joins: null, unknown: [], findings };
    }
    const why = '{tube} has no end at {node}';
    return fault(vent, 'vent.outside-joint', why, 'at', { tube: children[0]?.tube.name ?? '', node: node.name });
  }
  return air
    ? intoAir(vent, child, vent.from ?? mm(0), vent.clock ?? 0)
    : intoHost(vent, child, hosts, parts, node.name);
}

/** Where a vent is drilled: at a child's end, through its host's wall; without a host through the child's own wall. */
export interface VentSite {
  readonly child: Part;
  readonly end: End;
  readonly host: Part | null;
}

/** The joint of a vent; null where it joins nothing as it is written. */
export function ventSite(vent: Vent, cage: Cage, parts: ReadonlyMap<string, Part>): VentSite | null {
  if (ventResult(vent, cage, parts).joins === null || vent.tube === null || vent.node === null) return null;
  const node = cage.things.get(vent.node);
  const at = endAt(partsOf(parts, vent.tube), vent.node, node?.kind === 'node' ? node.at : null);
  if (at === null) return null;
  const { part: child, end } = at;
  if (typeof vent.to !== 'string') return { child, end, host: null };
  const host = partsOf(parts, vent.to).find((part) => isHost(end, part)) ?? null;
  return host === null ? null : { child, end, host };
}

/** {@link ventResult}; that of the run before, while the vent, its node and all tubes that have a say are the same. */
export function keptVent(vent: Vent, cage: Cage, parts: ReadonlyMap<string, Part>, kept: Kept<VentResult>): VentResult {
  const from: unknown[] = [vent, vent.node === null ? null : cage.things.get(vent.node)];
  if (typeof vent.to === 'string') from.push(...partsOf(parts, vent.to));
  const children = vent.tube === null ? [] : partsOf(parts, vent.tube);
  for (const child of children) {
    from.push(child);
    for (const end of child.ends) for (const host of end.hosts) from.push(parts.get(host));
  }
  return kept.get(vent.name, from, () => ventResult(vent, cage, parts));
}
