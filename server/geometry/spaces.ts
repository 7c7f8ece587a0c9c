/**
 * Hollow spaces. Each bore is a space of its own until a vent, a butted end, a foot's hole or an open end joins it to
 * another or to the air. What has no way to the air blows out at the weld that closes it: the gas in it is heated.
 */
import type { Finding } from '../../grammar/finding';
import type { Cage, Hole, Vent } from '../cage/cage';
import { boreRadius } from './axis';
import type { OnFeet } from './feet';
import { Kept } from './kept';
import { drilledBy, staysOpen } from './holes';
import type { Kinds } from './kinds';
import { kindsOf } from './kinds';
import type { Neighbours } from './neighbours';
import type { OpeningCache } from './openings';
import { openingOf } from './openings';
import type { End, Part, Space } from './shape';
import { partsOf } from './stretch';
import { byText, figure, tell } from './tell';
import type { VentResult } from './vents';
import { AIR, keptVent } from './vents';

/** The hole that is offered, mm: 3 to 5 is usual (common practice, no source). */
const OFFERED_DIA = 5;
/** The same as an inch drill of 3/16, which on a metric tape is 5 mm again. */
const DRILL = 4.7625;
/** The hole that is offered in the plate of a foot, mm (common practice, no source). */
const OFFERED_HOLE = 8;
/** Where a hole to the air is offered: behind the joint by this, mm, and at the far side of the tube. */
const OFFERED_BEHIND = 30;

/** Which bores hang together: a forest of names (union by name order, so that the result has one shape). */
class Joined {
  private readonly parent = new Map<string, string>();

  root(name: string): string {
    let at = name;
    for (let up = this.parent.get(at); up !== undefined; up = this.parent.get(at)) at = up;
    for (let on = name; on !== at;) {
      const next = this.parent.get(on) ?? at;
      this.parent.set(on, at);
      on = next;
    }
    return at;
  }

  join(a: string, b: string): void {
    const [p, q] = [this.root(a), this.root(b)];
    if (p !== q) this.parent.set(p, q);
  }

  same(a: string, b: string): boolean {
    return this.root(a) === this.root(b);
  }
}

/** Which bores are one room, and which have a way to the air. */
class Bores {
  private readonly rooms = new Joined();
  private readonly air = new Joined();

  join(a: string, b: string): void {
    this.air.join(a, b);
    if (a !== AIR && b !== AIR) this.rooms.join(a, b);
  }

  /** True where a hole between them would change nothing: one room, or both breathe. */
  joined(a: string, b: string): boolean {
    return this.air.same(a, b);
  }

  breathes(name: string): boolean {
    return this.air.same(name, AIR);
  }

  room(name: string): string {
    return this.rooms.root(name);
  }
}

/** Joins what the ends leave open, and what a foot's hole opens: the first tube on it. */
function joinEnds(
  parts: ReadonlyMap<string, Part>,
  onFeet: OnFeet,
  neighbours: Neighbours,
  bores: Bores,
  openings: OpeningCache,
): void {
  for (const part of parts.values()) {
    if (part.centreline === null) continue;
    for (const end of part.ends) {
      const opening = openingOf(part, end, neighbours, openings);
      if (opening.kind === 'air') bores.join(part.name, AIR);
      else if (opening.kind === 'bore') bores.join(part.name, opening.part);
    }
  }
  for (const [foot, [first]] of onFeet) {
    if (foot.hole !== null && foot.hole > 0 && first !== undefined) bores.join(first.part.name, AIR);
  }
}

/** Opens what holes leave open; gives the parts of which it is not known, since their holes are not wholly written. */
function joinHoles(holes: readonly Hole[], parts: ReadonlyMap<string, Part>, bores: Bores): readonly string[] {
  const unknown: string[] = [];
  for (const hole of holes) {
    if (hole.tube === null || !staysOpen(hole)) continue;
    const at = drilledBy(hole, parts);
    if (at === null || hole.dia === null || hole.unread)
      unknown.push(...partsOf(parts, hole.tube).map((part) => part.name));
    else bores.join(at.part.name, AIR);
  }
  return unknown;
}

/** A hole that joins nothing new, told with what joins it already. */
function noEffect(vent: Vent, joins: readonly [string, string], bores: Bores): Finding {
  const [a, b] = joins;
  const why =
    b === AIR
      ? '{a} breathes already'
      : bores.room(a) === bores.room(b)
        ? '{a} and {b} are joined already'
        : '{a} and {b} both breathe already';
  return tell('vent.no-effect', vent.name, { kind: 'thing', thing: vent.name }, { why, a, b: b === AIR ? 'air' : b });
}

/**
 * Joins what the vents join, in the order of the text. A statement and its twin are one: a bar that is vented at both
 * ends by one line in `mirror` is told nothing.
 */
function joinVents(results: readonly VentResult[], bores: Bores): readonly Finding[] {
  const statements = new Map<string, VentResult[]>();
  for (const result of results) {
    const list = statements.get(result.vent.base);
    if (list === undefined) statements.set(result.vent.base, [result]);
    else list.push(result);
  }
  const findings: Finding[] = [];
  for (const twins of statements.values()) {
    for (const { vent, joins } of twins) {
      if (joins !== null && bores.joined(joins[0], joins[1])) findings.push(noEffect(vent, joins, bores));
    }
    for (const { joins } of twins) if (joins !== null) bores.join(joins[0], joins[1]);
  }
  return findings;
}

/** An end of a closed space, and the host into whose bore it could be vented; null: into none. */
interface Closure {
  readonly part: Part;
  readonly end: End;
  readonly host: Part | null;
}

/** How good an end is for the missing vent: into a bore that breathes, into another bore, to the air. */
const rank = (closure: Closure, bores: Bores): number =>
  closure.host === null ? 0 : bores.breathes(closure.host.name) ? 2 : 1;

/**
 * The joint that closes the space: which weld is the last is the welder's choice, so the one that is best vented is
 * named; among equals the last end of the last tube by name, the written one of twins.
 */
function closureOf(members: readonly Part[], parts: ReadonlyMap<string, Part>, bores: Bores): Closure | null {
  const inside = new Set(members.map((part) => part.name));
  const closures = members.flatMap((part) =>
    part.ends.flatMap((end): readonly Closure[] => {
      const hosts = end.hosts.flatMap((name) => parts.get(name) ?? []).filter((host) => !inside.has(host.name));
      const ways: readonly (Part | null)[] = end.node === null ? [] : hosts.length > 0 ? hosts : [null];
      return ways.map((host) => ({ part, end, host }));
    }),
  );
  return closures.reduce<Closure | null>((best, next) => {
    if (best === null) return next;
    const order =
      rank(next, bores) - rank(best, bores) ||
      Number(best.part.tube.twin) - Number(next.part.tube.twin) ||
      byText(next.part.name, best.part.name) ||
      Number(next.end.which === 'last') - Number(best.end.which === 'last') ||
      // Of several hosts the first: the child's axis enters that one.
      -1;
    return order > 0 ? next : best;
  }, null);
}

/** How the missing vent is written, by where it goes. */
const VENTS = {
  bore: ': vent {child} -> {host} { at {joint}; dia {dia~} }',
  air: ': vent {child} -> air { at {joint}; from {from~}; dia {dia~}; plug weld }',
  foot: ' through the plate of {foot}: hole {hole~}',
} as const;

/** The foot without a hole on which the end stands as its first: the hole of a plate opens that bore. */
function plateUnder({ part, end, host }: Closure, onFeet: OnFeet): string | null {
  if (host !== null) return null;
  for (const [foot, [first]] of onFeet)
    if (first?.part === part && first.end === end && foot.hole === null && foot.holeUnread !== true) return foot.name;
  return null;
}

function unvented(
  tubes: readonly string[],
  members: readonly Part[],
  closure: Closure | null,
  foot: string | null,
): Finding {
  const subject = (closure?.part ?? members[0])?.tube.name ?? '';
  const node = closure?.end.node ?? null;
  const data =
    closure === null || node === null
      ? null
      : {
          tube: closure.part.tube.name,
          host: closure.host === null ? 'air' : closure.host.tube.name,
          node,
          ...(foot === null ? {} : { foot, hole: figure(Math.min(OFFERED_HOLE, boreRadius(closure.part)), 'mm') }),
          dia: figure(Math.min(OFFERED_DIA, boreRadius(closure.part)), 'mm'),
          from: closure.host === null ? figure(behind(closure.end), 'mm') : null,
          clock: closure.host === null ? figure(Math.PI, 'deg') : null,
        };
  const mend = data === null ? '' : VENTS[foot !== null ? 'foot' : closure?.host === null ? 'air' : 'bore'];
  const params = {
    tubes,
    joint: node ?? subject,
    mend,
    child: subject,
    host: closure?.host?.tube.name ?? '',
    foot: foot ?? '',
    dia: figure(Math.min(DRILL, data?.dia.value ?? DRILL), 'mm'),
    hole: data?.hole ?? null,
    from: data?.from ?? null,
  };
  return tell('space.unvented', subject, { kind: 'thing', thing: subject }, params, {
    fixes: data === null ? [] : [{ id: 'vent.add', data }],
  });
}

/** Clear of the joint, in tens of millimetres. */
const behind = (end: End): number =>
  Math.max(OFFERED_BEHIND, Math.ceil(((end.maxCut ?? 0) + OFFERED_BEHIND) / 10) * 10);

/** Kept between runs: what ends open to, and what vents do. */
export interface SpaceCaches {
  readonly openings: OpeningCache;
  readonly vents: Kept<VentResult>;
}

export const newSpaceCaches = (): SpaceCaches => ({ openings: new Kept(), vents: new Kept() });

/** All hollow spaces of a cage, sorted by their tubes' names, and the findings of spaces and vents. Never throws. */
export function spacesOf(
  cage: Cage,
  parts: ReadonlyMap<string, Part>,
  onFeet: OnFeet,
  neighbours: Neighbours,
  caches: SpaceCaches = newSpaceCaches(),
  kinds: Kinds = kindsOf(cage),
): { readonly spaces: readonly Space[]; readonly findings: readonly Finding[] } {
  const bores = new Bores();
  joinEnds(parts, onFeet, neighbours, bores, caches.openings);
  const results = kinds.vents.map((vent) => keptVent(vent, cage, parts, caches.vents));
  const drilled = joinHoles(kinds.holes, parts, bores);
  const findings: Finding[] = [...results.flatMap((result) => result.findings), ...joinVents(results, bores)];

  const unknown = new Set([...results.flatMap((result) => result.unknown), ...drilled]);
  for (const [foot, [first]] of onFeet)
    if (foot.holeUnread === true && first !== undefined) unknown.add(first.part.name);
  const rooms = new Map<string, Part[]>();
  for (const part of [...parts.values()].sort((a, b) => byText(a.name, b.name))) {
    if (part.centreline === null || part.section === null) unknown.add(part.name);
    const room = rooms.get(bores.room(part.name));
    if (room === undefined) rooms.set(bores.room(part.name), [part]);
    else room.push(part);
  }
  const spaces: Space[] = [];
  for (const members of rooms.values()) {
    const tubes = members.map((part) => part.name);
    const breathes = members.some((part) => bores.breathes(part.name));
    const vented = breathes ? true : members.some((part) => unknown.has(part.name)) ? null : false;
    spaces.push({ tubes, vented });
    if (vented === false && members.some((part) => !part.tube.existing)) {
      const closure = closureOf(members, parts, bores);
      findings.push(unvented(tubes, members, closure, closure === null ? null : plateUnder(closure, onFeet)));
    }
  }
  return { spaces, findings };
}
