/** Looks up which parts are near a place, without looking at all of them. */
import type { Vec3 } from '../centreline/vector';
import { outerRadius } from './axis';
import type { Box } from './boxes';
import { boxOf } from './boxes';
import { Near } from './near';
import type { Part } from './shape';
import { bodyStretch } from './stretch';

/** By how much a part reaches beyond its end nodes, mm: it runs past them. */
function beyond(part: Part): number {
  const stretch = bodyStretch(part);
  if (stretch === null || part.centreline === null) return 0;
  return Math.max(0, -stretch.from, stretch.to - part.centreline.length);
}

function boxesOf(part: Part): readonly Box[] {
  const by = outerRadius(part) + beyond(part);
  return (part.centreline?.pieces ?? []).map((piece) => boxOf(piece, by));
}

export class Neighbours {
  /** Each part with its place in the cage's order. */
  private places: ReadonlyMap<Part, number>;
  private readonly near: Near<Part>;

  constructor(parts: Iterable<Part>) {
    this.places = inOrder(parts);
    this.near = new Near(this.places.keys(), boxesOf);
  }

  /** From now on these parts are here, and no others. */
  exchange(parts: Iterable<Part>): void {
    const before = this.places;
    const now = inOrder(parts);
    const gone: Part[] = [];
    const fresh: Part[] = [];
    for (const part of before.keys()) if (!now.has(part)) gone.push(part);
    for (const part of now.keys()) if (!before.has(part)) fresh.push(part);
    this.places = now;
    this.near.exchange(now.keys(), gone, fresh);
  }

  /** No two places of the car are farther apart than this, mm. */
  get span(): number {
    return 4 * this.near.farthest;
  }

  /** Parts of which something may be within `reach` of a point, each once, in the order of the cage. */
  around(p: Vec3, reach: number): readonly Part[] {
    const found = this.near.inside([
      p[0] - reach,
      p[1] - reach,
      p[2] - reach,
      p[0] + reach,
      p[1] + reach,
      p[2] + reach,
    ]);
    const place = (part: Part): number => this.places.get(part) ?? 0;
    return [...found].sort((a, b) => place(a) - place(b));
  }
}

const inOrder = (parts: Iterable<Part>): ReadonlyMap<Part, number> => {
  const places = new Map<Part, number>();
  for (const part of parts) places.set(part, places.size);
  return places;
};
