/**
 * Where each end lands: on tubes that run through, at other ends, on a foot, or nowhere. Nothing is cut here.
 * Millimetres.
 */
import type { Foot } from '../cage/cage';
import { STRAIGHT_ON } from '../centreline/build';
import type { Vec3 } from '../centreline/vector';
import { distance } from '../centreline/vector';
import { isBendCorner } from './bend-corner';
import type { Bodies, Body, EndSite } from './bodies';
import type { Changes } from './changes';
import type { Contact, Surroundings } from './surroundings';
import { closer, contactOf, ON, SLACK } from './surroundings';
import { byText } from './tell';

/** Where more others than this meet an end, no joint is meant: nothing is cut there. */
export const MOST_AT_AN_END = 16;

export interface Landing {
  readonly site: EndSite;
  /** E; null without a centreline. */
  readonly origin: Vec3 | null;
  /** Tubes that run through here: each cuts this end. Nearest first. */
  readonly through: readonly Contact[];
  /** Ends that it meets: at the same node, or told. `told` ends cut it whatever the order says. */
  readonly meets: readonly { readonly end: EndSite; readonly told: boolean }[];
  readonly feet: readonly Foot[];
  /** What it was told to land on, where that has no body: the name stays in the list of hosts. */
  readonly bodiless: readonly string[];
  /** The tube that it passes, nearer than its radius but not on it. */
  readonly nearMiss: Contact | null;
  /** The tube of whose bend its node is the corner. */
  readonly cornerOf: string | null;
  /** True where it touches nothing and nothing excuses that. */
  readonly loose: boolean;
  /** True where more than {@link MOST_AT_AN_END} others are: on whom it lands is not looked for. */
  readonly crowded: boolean;
}

/** Feet by place: the same node, or within {@link ON} of it. */
function feetAt(bodies: Bodies): (site: EndSite) => readonly Foot[] {
  const cell = (v: number): number => Math.floor(v);
  const cells = new Map<string, Foot[]>();
  const byNode = new Map<string, Foot[]>();
  const push = (map: Map<string, Foot[]>, key: string, foot: Foot): void => {
    const list = map.get(key);
    if (list === undefined) map.set(key, [foot]);
    else list.push(foot);
  };
  for (const foot of bodies.feet) {
    const at = bodies.nodeAt(foot.node);
    if (foot.node !== null) push(byNode, foot.node, foot);
    if (at !== null) push(cells, `${cell(at[0])} ${cell(at[1])} ${cell(at[2])}`, foot);
  }
  const found = (site: EndSite): readonly Foot[] => {
    const here = new Set<Foot>(site.node === null ? [] : (byNode.get(site.node) ?? []));
    const p = site.at;
    if (p === null) return [...here];
    for (let x = cell(p[0] - ON); x <= cell(p[0] + ON); x++) {
      for (let y = cell(p[1] - ON); y <= cell(p[1] + ON); y++) {
        for (let z = cell(p[2] - ON); z <= cell(p[2] + ON); z++) {
          for (const foot of cells.get(`${x} ${y} ${z}`) ?? []) {
            const at = bodies.nodeAt(foot.node);
            if (at !== null && distance(at, p) <= ON + SLACK) here.add(foot);
          }
        }
      }
    }
    return [...here].sort((a, b) => byText(a.name, b.name));
  };
  return cells.size === 0 && byNode.size === 0 ? () => [] : found;
}

/** Nodes that are corners of bends, with their tubes; and tubes whose path cannot be built, by all their nodes. */
function cornersOf(bodies: Bodies): { readonly bent: Map<string, Body[]>; readonly unbuilt: Set<string> } {
  const bent = new Map<string, Body[]>();
  const unbuilt = new Set<string>();
  for (const [body] of bodies.ofTube.values()) {
    if (body === undefined) continue;
    const { tube } = body;
    if (tube.centreline === null) {
      for (const node of tube.path) if (node !== null) unbuilt.add(node);
      continue;
    }
    for (const corner of tube.corners) {
      const node = tube.path[corner.index];
      if (!(corner.angle > STRAIGHT_ON) || node === null || node === undefined) continue;
      const list = bent.get(node);
      if (list === undefined) bent.set(node, [body]);
      else list.push(body);
    }
  }
  return { bent, unbuilt };
}

/** Landings of the run before, and which of them may be different now. */
export interface LandingsBefore {
  readonly landings: ReadonlyMap<EndSite, Landing>;
  readonly changes: Changes;
}

/** Where every end of every body lands. */
export function landingsOf(
  bodies: Bodies,
  around: Surroundings,
  before: LandingsBefore | null = null,
): ReadonlyMap<EndSite, Landing> {
  const footAt = once(() => feetAt(bodies));
  const corners = once(() => cornersOf(bodies));
  const landings = new Map<EndSite, Landing>();

  const toldOf = (
    site: EndSite,
  ): { readonly contacts: Contact[]; readonly feet: Foot[]; readonly bodiless: string[] } => {
    const contacts: Contact[] = [];
    const feet: Foot[] = [];
    const bodiless: string[] = [];
    const names = site.splitter !== null ? [site.splitter] : site.told.kind === 'onto' ? site.told.hosts : [];
    for (const name of names) {
      const foot = bodies.feet.find((f) => f.name === name);
      if (foot !== undefined) {
        feet.push(foot);
        continue;
      }
      const piece = /^(.*)\.[ab]$/.exec(name);
      const bodiesOfIt =
        bodies.ofTube.get(name) ?? bodies.ofTube.get(piece?.[1] ?? '')?.filter((b) => b.name === name) ?? [];
      let best: Contact | null = null;
      for (const body of bodiesOfIt) {
        if (site.at === null || body === site.body) continue;
        const contact = contactOf(body, site.at);
        if (contact !== null && (best === null || closer(contact, best) < 0)) best = contact;
      }
      if (best === null) bodiless.push(name);
      else contacts.push(best);
    }
    return { contacts, feet, bodiless };
  };

  const land = (site: EndSite): Landing => {
    const nowhere = { nearMiss: null, cornerOf: null, loose: false, crowded: false };
    const p = site.at;
    const told = toldOf(site);
    const isTold = site.splitter !== null || site.told.kind === 'onto';
    if (p === null || site.told.kind === 'open' || site.told.kind === 'past' || site.told.kind === 'unknown') {
      const feet = footAt()(site);
      return { site, origin: p, through: [], meets: [], feet, bodiless: told.bodiless, ...nowhere };
    }
    const on: Contact[] = [];
    const near: Contact[] = [];
    for (const body of around.near(p, 0)) {
      if (on.length > MOST_AT_AN_END) break;
      if (body === site.body) {
        // Its own other end may be at the same node; its own middle is never a host.
        const other = body.ends.find((end) => end !== site);
        if (other !== undefined && other.at !== null && distance(other.at, p) <= ON + SLACK) {
          on.push({ body, station: 0, distance: 0, point: p, tangent: [1, 0, 0], end: other });
        }
        continue;
      }
      if (body.tube === site.body.tube) continue;
      const contact = contactOf(body, p);
      if (contact === null) continue;
      if (contact.distance <= ON + SLACK) on.push(contact);
      else if (body.outer !== null && contact.distance < body.outer) near.push(contact);
    }
    if (on.length > MOST_AT_AN_END) {
      const feet = footAt()(site);
      return { site, origin: p, through: [], meets: [], feet, bodiless: [], ...nowhere, crowded: true };
    }
    on.sort(closer);
    near.sort(closer);
    const meets = new Map<EndSite, boolean>();
    for (const contact of on) if (contact.end !== null) meets.set(contact.end, false);
    for (const contact of told.contacts) if (contact.end !== null) meets.set(contact.end, true);

    if (isTold) {
      // Told to land on a tube of whose bend its node is the corner: nothing of that tube is there.
      const corner = told.contacts.find(({ body }) => isBendCorner(body.tube, site.node))?.body.tube ?? null;
      const through = told.contacts
        .filter((contact) => contact.end === null && contact.body.tube !== corner)
        .sort(closer);
      return {
        site,
        origin: corner === null ? moved(p, told.contacts) : p,
        through,
        meets: listed(meets),
        feet: told.feet,
        bodiless: told.bodiless,
        ...nowhere,
        cornerOf: corner?.name ?? null,
      };
    }
    const feet = footAt()(site);
    let through = on.filter((contact) => contact.end === null);
    let nearMiss: Contact | null = null;
    let cornerOf: string | null = null;
    if (through.length === 0 && feet.length === 0) {
      const passed = near.filter((contact) => contact.end === null || meets.size === 0);
      through = passed.filter((contact) => contact.end === null);
      for (const contact of passed) if (contact.end !== null) meets.set(contact.end, false);
      nearMiss = passed[0] ?? null;
      const corner = (corners().bent.get(site.node ?? '') ?? [])
        .filter((body) => body.tube !== site.body.tube && !on.some((contact) => contact.body.tube === body.tube))
        .sort((a, b) => byText(a.tube.name, b.tube.name))[0];
      if (corner !== undefined) {
        cornerOf = corner.tube.name;
        nearMiss = null;
      }
    }
    const touches = through.length + meets.size + feet.length > 0;
    return {
      site,
      origin: nearMiss === null && cornerOf === null ? moved(p, through) : p,
      through,
      meets: listed(meets),
      feet,
      bodiless: [],
      nearMiss,
      cornerOf,
      loose:
        !touches &&
        cornerOf === null &&
        !site.body.tube.existing &&
        !(site.node !== null && corners().unbuilt.has(site.node)),
      crowded: false,
    };
  };

  for (const body of bodies.all) {
    for (const site of body.ends) {
      const old = before?.landings.get(site);
      const same = old !== undefined && before !== null && !before.changes.touch(site, old.through.length);
      landings.set(site, same ? old : land(site));
    }
  }
  for (const [site, landing] of landings) {
    if (landing.through.length > 1 && site.told.kind === 'auto')
      landings.set(site, withoutNeighbours(landing, landings));
  }
  return landings;
}

/**
 * A tube that lands beside this end on the same through tube is an end of this joint, also where this end happens to
 * lie on its centreline: it cuts as its half, if it cuts at all.
 */
function withoutNeighbours(landing: Landing, landings: ReadonlyMap<EndSite, Landing>): Landing {
  const { origin } = landing;
  const isNeighbour = (contact: Contact): boolean =>
    contact.body.ends.some((end) => {
      const other = landings.get(end);
      if (origin === null || !other?.origin || contact.body.outer === null) return false;
      if (distance(origin, other.origin) > 2 * contact.body.outer) return false;
      return other.through.some((its) => its.body !== contact.body && landing.through.some((t) => t.body === its.body));
    });
  const through = landing.through.filter((contact) => !isNeighbour(contact));
  return through.length > 0 ? { ...landing, through } : landing;
}

/** Computes a value when it is first asked for. */
function once<T>(make: () => T): () => T {
  let value: { readonly made: T } | null = null;
  return () => (value ??= { made: make() }).made;
}

const listed = (meets: ReadonlyMap<EndSite, boolean>): Landing['meets'] =>
  [...meets].map(([end, told]) => ({ end, told }));

/** E: the nearest host's nearest point, where the end is on it; else where it stands. */
function moved(p: Vec3, hosts: readonly Contact[]): Vec3 {
  const first = [...hosts].filter((contact) => contact.end === null).sort(closer)[0];
  return first !== undefined && first.distance <= ON + SLACK ? first.point : p;
}
