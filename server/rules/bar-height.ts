/** How high a harness bar has to lie for a figure of one of its straps: solved on the strap model, by moving the bar straight up or down. */
import type { Cage } from '../cage/cage';
import { pointAt } from '../centreline/query';
import type { Shape, StrapFigures } from '../geometry/shape';
import type { Mend } from './rule';
import { laid, solveBetween, tidy } from './what-if';

/** A bar that is moved farther than this is another car, mm. */
const FARTHEST = 600;
/** A bar whose ends differ less than this in height is level, mm: a height can be told for all of it. */
const LEVEL = 0.05;

/** The height of the bar's centreline, if it has one height; null for a sloping or bent-down bar. */
function levelOf(shape: Shape, figures: StrapFigures): number | null {
  const part = figures.part === null ? undefined : shape.parts.get(figures.part);
  const line = part?.centreline ?? null;
  if (line === null || figures.barPoint === null) return null;
  const heights = line.points.map((point) => point[2]);
  const ends = [pointAt(line, 0).point[2], pointAt(line, line.length).point[2]];
  const all = [...heights, ...ends];
  return Math.max(...all) - Math.min(...all) < LEVEL ? figures.barPoint[2] : null;
}

/**
 * The height of the bar that brings a figure of the strap `name` to `target`. `figure`: null where it cannot be computed;
 * it falls as the bar is raised. Without a solution the words say the direction only.
 */
export function barHeight(
  { cage, shape }: { readonly cage: Cage; readonly shape: Shape },
  name: string,
  figure: (figures: StrapFigures) => number | null,
  target: number,
): Mend {
  const strap = laid(cage, shape, name);
  const now = strap === null ? null : figure(strap.figures);
  const raise = now === null || now > target;
  const says = raise ? 'raise the bar' : 'lower the bar';
  if (strap === null) return { says, params: {} };
  const by = solveBetween((z) => figure(strap.withBar([0, 0, z])), 0, raise ? FARTHEST : -FARTHEST, target);
  if (by === null) return { says, params: {} };
  const level = levelOf(shape, strap.figures);
  return level === null
    ? { says: `${says} by {by} there`, params: { by: { value: Math.abs(tidy(by, 0, cage.units)), unit: 'mm' } } }
    : { says: `${says} to z = {to#}`, params: { to: { value: tidy(level + by, level, cage.units), unit: 'mm' } } };
}
