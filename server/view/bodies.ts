/** Parts of the car as exact bodies that can be measured to. */
import type { Centreline } from '../centreline/centreline';
import { lengthened } from '../geometry/parts';
import type { Part } from '../geometry/shape';
import { bodyStretch } from '../geometry/stretch';
import type { Solid } from './solid';

/** The axis from long point to long point, as far as there is metal; the path's own where that is not known. */
export function axisOf(part: Part): Centreline | null {
  const line = part.centreline;
  const stretch = bodyStretch(part);
  if (line === null || stretch === null) return line;
  return lengthened(line, -stretch.from, stretch.to - line.length);
}

/**
 * The axis that a fabricator sets out: the path from node to node, also where the end is cut back from its host's axis, and
 * on to the end of the metal where that runs past its node.
 */
export function centrelineOf(part: Part): Centreline | null {
  const line = part.centreline;
  const stretch = bodyStretch(part);
  if (line === null || stretch === null) return line;
  return lengthened(line, Math.max(0, -stretch.from), Math.max(0, stretch.to - line.length));
}

/** Empty where its centreline or its section is not known. */
export function partSolids(part: Part): readonly Solid[] {
  const od = part.tube.section?.od ?? null;
  if (od === null) return [];
  return (axisOf(part)?.pieces ?? []).map((piece): Solid => ({ kind: 'tube', piece, radius: od / 2 }));
}
