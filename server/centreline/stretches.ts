/** Distances between straight stretches, as plain numbers. Millimetres. */
import type { Vec3 } from './vector';
import { addScaled, distance, dot, sub } from './vector';

const clamp = (value: number): number => Math.min(1, Math.max(0, value));

/** Shortest distance of two stretches (Ericson, Real-Time Collision Detection, 2005, 5.1.9; from memory). */
export function betweenStretches(p: Vec3, q: Vec3, a: Vec3, b: Vec3): number {
  const [u, v, w] = [sub(q, p), sub(b, a), sub(p, a)];
  const [uu, vv, uv] = [dot(u, u), dot(v, v), dot(u, v)];
  const [uw, vw] = [dot(u, w), dot(v, w)];
  if (uu < 1e-12) return distance(p, addScaled(a, v, vv < 1e-12 ? 0 : clamp(vw / vv)));
  if (vv < 1e-12) return distance(a, addScaled(p, u, clamp(-uw / uu)));
  const det = uu * vv - uv * uv;
  let s = det > 1e-12 ? clamp((uv * vw - uw * vv) / det) : 0;
  let t = (uv * s + vw) / vv;
  if (t < 0 || t > 1) {
    t = clamp(t);
    s = clamp((uv * t - uw) / uu);
  }
  return distance(addScaled(p, u, s), addScaled(a, v, t));
}
