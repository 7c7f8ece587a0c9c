/** Lines of an end's metal, along its leg, and how far off the tubes are before them. Millimetres. */
import type { Vec3 } from '../../centreline/vector';
import type { Group, Tubes } from './tubes';
import { STRIDE } from './tubes';

/** Less than this off parallel: lines along the leg do not leave the tube's side. */
const PARALLEL = 1e-9;

/** An end as it lies: its axes, z outward along the leg, and its origin. */
export interface Lying {
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
  readonly origin: Vec3;
}

/** Lines that are asked: their tips in the end's axes, and where their metal begins. */
export interface Lines {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  /** The place of each among all of its end. */
  readonly of: Int32Array;
  readonly back: number;
  /** All of them lie so near to the end's axis. */
  readonly around: number;
}

/** How far the nearest tube is before a tip, below 0 where the line has entered it already; and which tip that is. */
export interface Before {
  play: number;
  at: number;
}

/**
 * From every tip outward to the tubes. The metal reaches back to `back`, so a tube that a line enters anywhere on the way
 * counts from where it enters it.
 */
export function beforeTips(lines: Lines, end: Lying, tubes: Tubes): Before {
  const least: Before = { play: Infinity, at: -1 };
  for (const group of tubes.groups) {
    if (!isNear(group, lines, end)) continue;
    for (let n = group.from; n < group.to; n++) beforeStretch(lines, end, tubes.data, n * STRIDE, least);
  }
  return least;
}

function isNear({ middle, around }: Group, lines: Lines, { z, origin }: Lying): boolean {
  const mx = middle[0] - origin[0];
  const my = middle[1] - origin[1];
  const mz = middle[2] - origin[2];
  const high = mx * z[0] + my * z[1] + mz * z[2];
  const far = around + lines.around;
  return high + around >= lines.back && mx * mx + my * my + mz * mz - high * high <= far * far;
}

/** One stretch, whose numbers begin at `k`. Plain arithmetic: this is what all the time goes into. */
function beforeStretch(lines: Lines, end: Lying, data: Float64Array, k: number, least: Before): void {
  const { x, y, z, back } = lines;
  const { x: xAxis, y: yAxis, z: zAxis, origin } = end;
  // By index, here and wherever it is asked as often: a bundle that has only just begun to run takes arrays apart slowly.
  const px = (data[k] as number) - origin[0];
  const py = (data[k + 1] as number) - origin[1];
  const pz = (data[k + 2] as number) - origin[2];
  const vx = data[k + 3] as number;
  const vy = data[k + 4] as number;
  const vz = data[k + 5] as number;
  const length = data[k + 6] as number;
  const radius = data[k + 7] as number;
  const more = data[k + 8] as number;
  const uz = vx * zAxis[0] + vy * zAxis[1] + vz * zAxis[2];
  const az = px * zAxis[0] + py * zAxis[1] + pz * zAxis[2];
  const reach = radius + more;
  if (Math.max(az, az + uz * length) + reach < back) return;
  // Seen along the leg: does the stretch come near the ring of the tips?
  const pp = px * px + py * py + pz * pz - az * az;
  const pv = px * vx + py * vy + pz * vz - az * uz;
  const a = 1 - uz * uz;
  const s = a > PARALLEL ? Math.min(length, Math.max(0, -pv / a)) : 0;
  const wide = reach + lines.around;
  if (pp + s * (2 * pv + s * a) > wide * wide) return;
  const ax = px * xAxis[0] + py * xAxis[1] + pz * xAxis[2];
  const ay = px * yAxis[0] + py * yAxis[1] + pz * yAxis[2];
  const ux = vx * xAxis[0] + vy * xAxis[1] + vz * xAxis[2];
  const uy = vx * yAxis[0] + vy * yAxis[1] + vz * yAxis[2];
  const square = radius * radius;
  const round = a > PARALLEL ? 1 / a : 0;
  const slanted = uz > PARALLEL || uz < -PARALLEL ? 1 / uz : 0;
  for (let i = 0; i < x.length; i++) {
    const wx = (x[i] as number) - ax;
    const wy = (y[i] as number) - ay;
    const side = wx * ux + wy * uy;
    // The tube's surface: m² a - 2 m b + c = 0, with m from the stretch's begin, along the leg.
    const b = side * uz;
    const c = wx * wx + wy * wy - side * side - square;
    let low = -Infinity;
    let high = Infinity;
    if (round > 0) {
      const root = b * b - a * c;
      if (root <= 0) continue;
      const half = Math.sqrt(root);
      low = (b - half) * round;
      // Its flat ends can only set it farther off.
      if (low + az - (z[i] as number) >= least.play) continue;
      high = (b + half) * round;
    } else if (c >= 0) continue;
    // Its flat ends.
    if (slanted !== 0) {
      const one = (-more - side) * slanted;
      const two = (length + more - side) * slanted;
      if (one < two) {
        if (one > low) low = one;
        if (two < high) high = two;
      } else {
        if (two > low) low = two;
        if (one < high) high = one;
      }
    } else if (side < -more || side > length + more) continue;
    if (!(low < high) || high + az <= back) continue;
    const play = Math.max(low + az, back) - (z[i] as number);
    if (play < least.play) {
      least.play = play;
      least.at = lines.of[i] as number;
    }
  }
}
