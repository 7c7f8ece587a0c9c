/** Looks up which parts are near a place, without looking at all of them. */
import type { Vec3 } from '../centreline/vector';
import { outerRadius } from './axis';
import type { Box } from './boxes';
import { BoxTree, boxOf } from './boxes';
import type { Part } from './shape';
import { bodyStretch } from './stretch';

/** By how much a part reaches beyond its end nodes, mm: it runs past them. */
function beyond(part: Part): number {
  const stretch = bodyStretch(part);
  if (stretch === null || part.centreline === null) return 0;
  return Math.max(0, -stretch.from, stretch.to - part.centreline.length);
}

export class Neighbours {
  private readonly parts: readonly Part[];
  private readonly owners: readonly number[];
  private readonly tree: BoxTree;
  /** No two places of the car are farther apart than this, mm. */
  readonly span: number;

  constructor(parts: Iterable<Part>) {
    this.parts = [...parts];
    const boxes: Box[] = [];
    const owners: number[] = [];
    let span = 0;
    this.parts.forEach((part, i) => {
      const by = outerRadius(part) + beyond(part);
      for (const piece of part.centreline?.pieces ?? []) {
        const box = boxOf(piece, by);
        for (const c of box) span = Math.max(span, Math.abs(c));
        boxes.push(box);
        owners.push(i);
      }
    });
    this.owners = owners;
    this.tree = new BoxTree(boxes);
    this.span = 4 * span;
  }

  /** Parts of which something may be within `reach` of a point, each once, in the order of the cage. */
  around(p: Vec3, reach: number): readonly Part[] {
    const found = new Set<number>();
    this.tree.around(p, reach, (index) => found.add(this.owners[index] ?? 0));
    return [...found].sort((a, b) => a - b).flatMap((i) => this.parts[i] ?? []);
  }
}
