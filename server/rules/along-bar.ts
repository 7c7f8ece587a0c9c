/**
 * Where a strap would have to lie on its bar: the bar is straight there, so moving the strap along it moves the contact
 * point by the same amount and leaves the bar's height and slope as they are. Exact on a leg, not on a bend.
 */
import type { Measure } from '../../grammar/finding';
import type { Cage } from '../cage/cage';
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled, dot, sub } from '../centreline/vector';
import type { StrapFigures } from '../geometry/shape';
import type { Mend } from './rule';

/** The bar's point under the strap and its direction there; null where the bar has no centreline. */
export function barAt(cage: Cage, figures: StrapFigures): { readonly point: Vec3; readonly along: Vec3 } | null {
  const tube = figures.tube === null ? undefined : cage.things.get(figures.tube);
  if (tube?.kind !== 'tube' || tube.centreline === null || figures.barPoint === null) return null;
  const on = nearestOn(tube.centreline, figures.barPoint);
  return { point: figures.barPoint, along: on.tangent };
}

/**
 * How far along the bar the strap must move, mm, for its run to make `wanted` (the tangent of an angle) between the
 * component along `axis` and the rest: the smaller of the two moves, one toward each side. Null where none does it.
 */
function moveFor(run: Vec3, along: Vec3, sideways: Vec3, onward: Vec3, tangent: number): number | null {
  const moves: number[] = [];
  for (const sign of [1, -1]) {
    // (run + s along)·sideways = sign · tangent · (run + s along)·onward
    const rest = dot(run, sideways) - sign * tangent * dot(run, onward);
    const rate = sign * tangent * dot(along, onward) - dot(along, sideways);
    if (Math.abs(rate) > 1e-9) moves.push(rest / rate);
  }
  return moves.reduce<number | null>(
    (best, move) => (best === null || Math.abs(move) < Math.abs(best) ? move : best),
    null,
  );
}

const AXES = ['x', 'y', 'z'] as const;

/** The move as a person would write it: `at y = …`, on the axis along which the bar mostly runs there. */
const moved = (figures: StrapFigures, along: Vec3, point: Vec3, move: number): Mend => {
  const axis = [0, 1, 2].reduce((best, i) => (Math.abs(along[i] ?? 0) > Math.abs(along[best] ?? 0) ? i : best), 0);
  const target = addScaled(point, along, move)[axis] ?? 0;
  const to: Measure = { value: target, unit: 'mm' };
  return {
    says: 'move it along {tube} to at {axis} = {target}',
    params: { axis: AXES[axis] ?? 'y', target: to, tube: figures.tube ?? '' },
  };
};

/** Moves the strap along its bar until its plan-view angle from the seat's centreline is `target` degrees. */
export function moveForSpread(cage: Cage, figures: StrapFigures, target: number): Mend {
  const bar = barAt(cage, figures);
  const seat = figures.seat === null ? undefined : cage.things.get(figures.seat);
  if (bar === null || seat?.kind !== 'seat' || figures.start === null || figures.contact === null) return NO_MOVE;
  const run = sub(figures.contact, figures.start);
  const aft: Vec3 = [-Math.cos(seat.yaw), -Math.sin(seat.yaw), 0];
  const across: Vec3 = [-aft[1], aft[0], 0];
  const move = moveFor(run, bar.along, across, aft, Math.tan((target * Math.PI) / 180));
  return move === null ? NO_MOVE : moved(figures, bar.along, bar.point, move);
}

/** Moves the strap along its bar until it meets the bar `target` degrees off square. */
export function moveForSkew(cage: Cage, figures: StrapFigures, target: number): Mend {
  const bar = barAt(cage, figures);
  if (bar === null || figures.start === null || figures.contact === null) return NO_MOVE;
  const run = sub(figures.contact, figures.start);
  const share = dot(run, bar.along);
  const square = Math.hypot(...addScaled(run, bar.along, -share));
  const wanted = Math.sign(share) * square * Math.tan((target * Math.PI) / 180);
  return moved(figures, bar.along, bar.point, wanted - share);
}

const NO_MOVE: Mend = { says: 'lead it straighter back from its slot', params: {} };
