/** Which tubes are near a point or a box, and how a tube lies to a point. Millimetres. */
import type { EndTold } from '../cage/cage';
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { distance } from '../centreline/vector';
import type { Body, EndSite } from './bodies';
import type { Box } from './boxes';
import { boxOf, BoxTree } from './boxes';
import { byText } from './tell';

/** An end this near to a centreline, a node or a foot is on it, mm. */
export const ON = 0.5;
/** What rounding may add to that, mm. */
export const SLACK = 1e-9;
/** So many boxes beside the tree are looked at one by one before the tree is built anew. */
const ASIDE = 300;

/** A tube at an end, seen from there. */
export interface Contact {
  readonly body: Body;
  /** Of its point nearest to the end's node, on the body's own centreline. */
  readonly station: number;
  readonly distance: number;
  readonly point: Vec3;
  readonly tangent: Vec3;
  /** Its own end, where the joint lies at one; null: it runs through. */
  readonly end: EndSite | null;
}

export const closer = (a: Contact, b: Contact): number =>
  Math.abs(a.distance - b.distance) > SLACK ? a.distance - b.distance : byText(a.body.name, b.body.name);

/** How a body lies to a point: its nearest point, and whether its own end is there. */
export function contactOf(body: Body, p: Vec3): Contact | null {
  if (body.centreline === null) return null;
  const on = nearestOn(body.centreline, p);
  const reach = Math.max(ON, on.distance) + SLACK;
  const end = body.ends.find((site) => site.at !== null && distance(site.at, p) <= reach) ?? null;
  return { body, station: on.station, distance: on.distance, point: on.point, tangent: on.tangent, end };
}

/** The boxes of a body, each grown by its radius, or by {@link ON}, and by how far it is told to run past its nodes. */
export function boxesOf(body: Body): readonly Box[] {
  const past = (told: EndTold): number => (told.kind === 'past' ? Math.max(0, told.length) : 0);
  const by = Math.max(body.outer ?? 0, ON) + SLACK + Math.max(past(body.ends[0].told), past(body.ends[1].told));
  return (body.centreline?.pieces ?? []).map((piece) => boxOf(piece, by));
}

/** Finds bodies near points and boxes. Bodies may be exchanged: the few that have changed are kept beside the tree. */
export class Surroundings {
  private tree = new BoxTree([]);
  private owners: Body[] = [];
  private span = 1;
  private gone = new Set<Body>();
  private aside: { readonly box: Box; readonly body: Body }[] = [];

  constructor(bodies: readonly Body[]) {
    this.build(bodies);
  }

  private build(bodies: readonly Body[]): void {
    const boxes: Box[] = [];
    this.owners = [];
    this.gone = new Set();
    this.aside = [];
    this.span = 1;
    for (const body of bodies) {
      for (const box of boxesOf(body)) {
        boxes.push(box);
        this.owners.push(body);
        this.widen(box);
      }
    }
    this.tree = new BoxTree(boxes);
  }

  private widen(box: Box): void {
    for (const c of box) this.span = Math.max(this.span, 4 * Math.abs(c));
  }

  /** From now on `all` stand here: those of `gone` no more, those of `fresh` for the first time. */
  exchange(all: readonly Body[], gone: readonly Body[], fresh: readonly Body[]): void {
    const left = new Set(gone);
    this.aside = this.aside.filter(({ body }) => !left.has(body));
    for (const body of gone) this.gone.add(body);
    for (const body of fresh) {
      for (const box of boxesOf(body)) {
        this.aside.push({ box, body });
        this.widen(box);
      }
    }
    if (this.aside.length > ASIDE || this.gone.size > ASIDE) this.build(all);
  }

  /** Bodies that may be within their radius, or {@link ON}, and `more` of a point; in no order, each once. */
  near(p: Vec3, more: number): Iterable<Body> {
    return this.inside([p[0] - more, p[1] - more, p[2] - more, p[0] + more, p[1] + more, p[2] + more]);
  }

  /** Bodies whose boxes meet a box; in no order, each once. */
  inside(box: Box): Iterable<Body> {
    const found = new Set<Body>();
    this.tree.near(box, (index) => {
      const body = this.owners[index];
      if (body !== undefined && !this.gone.has(body)) found.add(body);
    });
    for (const other of this.aside) if (boxesMeet(other.box, box)) found.add(other.body);
    return found;
  }

  /** The nearest centreline to a point but that of `self`'s tube, and how far it is; null where there is none. */
  nearest(p: Vec3, self: Body): Contact | null {
    for (let reach = 50; ; reach *= 4) {
      let best: Contact | null = null;
      for (const body of this.near(p, reach)) {
        if (body.tube === self.tube) continue;
        const contact = contactOf(body, p);
        if (contact !== null && (best === null || closer(contact, best) < 0)) best = contact;
      }
      if (best !== null && best.distance <= reach) return best;
      if (reach > this.span) return best;
    }
  }
}

export const boxesMeet = (a: Box, b: Box): boolean =>
  a[0] <= b[3] && a[3] >= b[0] && a[1] <= b[4] && a[4] >= b[1] && a[2] <= b[5] && a[5] >= b[2];
