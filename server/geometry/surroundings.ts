/** Which tubes are near a point or a box, and how a tube lies to a point. Millimetres. */
import type { EndTold } from '../cage/cage';
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { distance } from '../centreline/vector';
import type { Body, EndSite } from './bodies';
import type { Box } from './boxes';
import { boxOf } from './boxes';
import { Near } from './near';
import { byText } from './tell';

/** An end this near to a centreline, a node or a foot is on it, mm. */
export const ON = 0.5;
/** What rounding may add to that, mm. */
export const SLACK = 1e-9;

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

/** Finds bodies near points and boxes; bodies may be exchanged. */
export class Surroundings {
  private readonly bodies: Near<Body>;

  constructor(bodies: readonly Body[]) {
    this.bodies = new Near(bodies, boxesOf);
  }

  /** From now on `all` stand here: those of `gone` no more, those of `fresh` for the first time. */
  exchange(all: readonly Body[], gone: readonly Body[], fresh: readonly Body[]): void {
    this.bodies.exchange(all, gone, fresh);
  }

  /** Bodies that may be within their radius, or {@link ON}, and `more` of a point; in no order, each once. */
  near(p: Vec3, more: number): Iterable<Body> {
    return this.inside([p[0] - more, p[1] - more, p[2] - more, p[0] + more, p[1] + more, p[2] + more]);
  }

  /** Bodies whose boxes meet a box; in no order, each once. */
  inside(box: Box): Iterable<Body> {
    return this.bodies.inside(box);
  }

  /** The nearest centreline to a point but that of `self`'s tube, and how far it is; null where there is none. */
  nearest(p: Vec3, self: Body): Contact | null {
    const span = Math.max(1, 4 * this.bodies.farthest);
    for (let reach = 50; ; reach *= 4) {
      let best: Contact | null = null;
      for (const body of this.near(p, reach)) {
        if (body.tube === self.tube) continue;
        const contact = contactOf(body, p);
        if (contact !== null && (best === null || closer(contact, best) < 0)) best = contact;
      }
      if (best !== null && best.distance <= reach) return best;
      if (reach > span) return best;
    }
  }
}
