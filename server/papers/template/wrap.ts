/**
 * A cope's template as a figure on paper: a sheet wrapped round the outside of the tube, printed side out, with the way to
 * the other end up. Millimetres of paper: x from the line TOP (or FRONT), to the right; s is the set-back along the tube.
 */
import type { Length } from '../../../grammar/units';
import { nearestOn } from '../../centreline/query';
import type { Vec3 } from '../../centreline/vector';
import { addScaled, cross, dot, norm, sub, unit } from '../../centreline/vector';
import type { End, Part, Shape } from '../../geometry/shape';
import { straightTo } from '../saw/figures';

/** Of common office paper of 80 g/m², mm: common practice, no source. */
export const PAPER = 0.1;
/** Half degrees: a kink where two hosts meet is off by less than a tenth of a millimetre. */
const STEPS = 720;

/** One place of the curve. */
export interface WrapPoint {
  readonly x: number;
  readonly s: number;
}

/** The hole saw for one tube that cuts this end. */
export interface HoleSaw {
  readonly host: string;
  /** Diameter of the hole saw: the host's outside. */
  readonly diameter: Length | null;
  /** Between the saw's axis and the leg, 0..π/2. */
  readonly angle: number;
  /** Clock toward which the saw's axis leans away from the joint; for a square one, where it comes out. */
  readonly clock: number;
  /** Shortest distance between both axes, and the clock at which the saw's axis lies; null where it goes through the middle. */
  readonly offset: number;
  readonly offsetClock: number | null;
  /** Where its axis goes through the paper: two places, or none where it passes the tube. */
  readonly through: readonly WrapPoint[];
  /** True where the host is bent at the joint: one straight hole saw is near only. */
  readonly bent: boolean;
}

export interface Wrap {
  readonly end: End;
  readonly od: Length;
  /** Round the tube at the middle of the paper: π (od + t). */
  readonly width: number;
  readonly minCut: Length;
  readonly maxCut: Length;
  /** Cut square through the wall, from seam to seam. */
  readonly cut: readonly WrapPoint[];
  /** The outer edge alone, for those who bevel. */
  readonly outer: readonly WrapPoint[];
  /** x of a clock, within half a width. */
  readonly xOf: (clock: number) => number;
  /** 1: the clock grows to the right; -1: to the left. */
  readonly grows: 1 | -1;
  readonly saws: readonly HoleSaw[];
  /** Set-back of the nearest bend's beginning; null without a bend. */
  readonly bend: number | null;
}

/**
 * Which way the clock runs over the paper. Seen from outside, with the way from the joint up, the right hand is away × n
 * for the surface's normal n. The clock grows along travel × n; travel is away at the first end and its opposite at the last.
 */
export const clockGrows = ({ which }: Pick<End, 'which'>): 1 | -1 => (which === 'first' ? 1 : -1);

/** The clock of a place on the paper, 0..2π. The inverse of `xOf`. */
export const clockAt = ({ width, grows }: Pick<Wrap, 'width' | 'grows'>, x: number): number => {
  const turn = (grows * x) / width;
  return (turn - Math.floor(turn)) * 2 * Math.PI;
};

function sawOf(host: Part, end: End, radius: number, xOf: (clock: number) => number): HoleSaw | null {
  const { origin, away, clockZero } = end;
  if (host.centreline === null || origin === null || away === null || clockZero === null) return null;
  const on = nearestOn(host.centreline, origin);
  const travel: Vec3 = end.which === 'first' ? away : [-away[0], -away[1], -away[2]];
  const quarter = cross(travel, clockZero.vector);
  const across = (v: Vec3): readonly [number, number] => [dot(v, clockZero.vector), dot(v, quarter)];
  // The half of the saw's axis that leans away from the joint.
  const lean = dot(on.tangent, away);
  const axis: Vec3 = lean < -1e-9 ? [-on.tangent[0], -on.tangent[1], -on.tangent[2]] : on.tangent;
  const from = sub(on.point, origin);
  const [px, py] = across(from);
  const [hx, hy] = across(axis);
  const a = hx * hx + hy * hy;
  if (a < 1e-9) return null;
  const turn = (y: number, x: number): number => (Math.atan2(y, x) + 2 * Math.PI) % (2 * Math.PI);
  const near = -(px * hx + py * hy) / a;
  const [ox, oy] = [px + near * hx, py + near * hy];
  const offset = Math.hypot(ox, oy);
  const root = radius * radius - offset * offset;
  const through =
    root <= 0
      ? []
      : [1, -1].map((sign): WrapPoint => {
          const k = near + (sign * Math.sqrt(root)) / Math.sqrt(a);
          const at = addScaled(from, axis, k);
          return { x: xOf(turn(py + k * hy, px + k * hx)), s: dot(at, away) };
        });
  const od = host.tube.section?.od ?? null;
  const reach = od === null ? 0 : od / 2 + radius;
  const bent = [-reach, reach].some((by) => {
    const there = host.centreline === null ? null : nearestOn(host.centreline, addScaled(on.point, on.tangent, by));
    return there !== null && norm(cross(unit(there.tangent), unit(on.tangent))) > 1e-6;
  });
  return {
    host: host.name,
    diameter: od,
    angle: Math.acos(Math.min(1, Math.abs(lean))),
    clock: turn(hy, hx),
    offset,
    offsetClock: offset < 1e-6 ? null : turn(oy, ox),
    through,
    bent,
  };
}

/** The template of one end; null where it has no fish-mouth, or where it is not known all round. */
export function wrapOf(part: Part, end: End, shape: Shape, paper = PAPER): Wrap | null {
  const { curve, minCut, maxCut } = end;
  const section = part.tube.section;
  if (end.fit !== 'cope' || end.sawAngle !== null || curve === null || section === null) return null;
  if (minCut === null || maxCut === null || end.clockZero === null) return null;
  const width = Math.PI * (section.od + paper);
  const grows = clockGrows(end);
  const xOf = (clock: number): number => {
    const turn = clock / (2 * Math.PI);
    return grows * (turn - Math.floor(turn + 0.5)) * width;
  };
  const cut: WrapPoint[] = [];
  const outer: WrapPoint[] = [];
  for (let i = 0; i <= STEPS; i++) {
    const x = (i / STEPS - 0.5) * width;
    const clock = clockAt({ width, grows }, x);
    const [c, o] = [curve.cut(clock), curve.outer(clock)];
    if (c === null || o === null) return null;
    cut.push({ x, s: c });
    outer.push({ x, s: o });
  }
  return {
    end,
    od: section.od,
    width,
    minCut,
    maxCut,
    cut,
    outer,
    xOf,
    grows,
    saws: end.hosts.flatMap((name) => {
      const host = shape.parts.get(name);
      return host === undefined ? [] : (sawOf(host, end, section.od / 2, xOf) ?? []);
    }),
    bend: straightTo(part, end),
  };
}

/** One station for those who lay out with a tape. */
export interface Station {
  readonly clock: number;
  /** Round the tube's outside from TOP or FRONT, the way the clock grows. */
  readonly round: number;
  /** From the long point along the tube. */
  readonly cut: number;
  readonly outer: number;
}

/** Sixteen round a thin tube, twenty-four from 32 mm. */
export function stationsOf({ end, od, minCut }: Wrap): readonly Station[] {
  const count = od < 32 ? 16 : 24;
  return Array.from({ length: count }, (_, i) => (i * 2 * Math.PI) / count).flatMap((clock): readonly Station[] => {
    const [cut, outer] = [end.curve?.cut(clock) ?? null, end.curve?.outer(clock) ?? null];
    return cut === null || outer === null
      ? []
      : [{ clock, round: (clock * od) / 2, cut: cut - minCut, outer: outer - minCut }];
  });
}
