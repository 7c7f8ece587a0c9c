/** Invented cars with one joint each, and what their templates must show, worked out here and nowhere else. */

const car = ({ host, branch, wall, from, to, last = false }) => `cage "Dunlin printed car"
units mm
section h { od ${host}; wall 2 }
section t { od ${branch}; wall ${wall} }
node a = (0, -900, 500)
node b = (0, 900, 500)
node c = (${from.join(', ')})
node d = (${to.join(', ')})
tube host as main-rollbar { section h; path a, b; first open; last open }
tube branch { section t; ${last ? 'path d, c; first open' : 'path c, d; last open'} }
`;

/** Joints to a host along y through (0, 0, 500), at the tube's first end, or its last. */
export const JOINTS = {
  'equal tubes, square': { host: 40, branch: 40, wall: 2, from: [0, 0, 500], to: [700, 0, 500] },
  'skew and off the middle': { host: 60, branch: 38, wall: 2.5, from: [0, 40, 508], to: [700, 330, 760] },
  'the same at its last end': { host: 60, branch: 38, wall: 2.5, from: [0, 40, 508], to: [700, 330, 760], last: true },
  'a thin tube': { host: 45, branch: 25.4, wall: 2.1, from: [0, 100, 500], to: [500, 240, 560] },
  'upright, FRONT on top': { host: 45, branch: 30, wall: 2, from: [0, -100, 500], to: [0, -60, 900] },
};

/** 358 mm round and some 270 mm deep: two rows and two columns on either sheet. */
export const LARGE = { host: 120, branch: 114, wall: 4, from: [0, -300, 500], to: [400, 600, 560] };

export const textOf = (joint) => car(joint);

const sub = (a, b) => a.map((x, i) => x - b[i]);
const dot = (a, b) => a.reduce((sum, x, i) => sum + x * b[i], 0);
const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const unit = (a) => a.map((x) => x / Math.hypot(...a));

/**
 * How far from the joint the cut lies at a clock, with the saw held square to the tube all through its wall: where a line
 * along the tube leaves the host, the farthest over the wall. The host is the cylinder x² + (z - 500)² = R²: a quadratic.
 * Clock 0 is on top of the tube (in front of an upright one); looked along the tube from its first end, it grows clockwise.
 */
export const cutAt = ({ host, branch, wall, from, to, last = false }, clock) => {
  const away = unit(sub(to, from));
  const up = Math.abs(away[2]) > 0.95 ? [1, 0, 0] : [0, 0, 1];
  const zero = unit(
    sub(
      up,
      away.map((x) => x * dot(up, away)),
    ),
  );
  const travel = last ? away.map((x) => -x) : away;
  const quarter = cross(travel, zero);
  let most = -Infinity;
  const steps = 200;
  for (let i = 0; i <= steps; i += 1) {
    const r = branch / 2 - wall + (wall * i) / steps;
    const p = from.map((x, k) => x + r * (zero[k] * Math.cos(clock) + quarter[k] * Math.sin(clock)));
    const [px, pz, vx, vz] = [p[0], p[2] - 500, away[0], away[2]];
    const [a, b, c] = [vx * vx + vz * vz, px * vx + pz * vz, px * px + pz * pz - (host / 2) ** 2];
    const root = b * b - a * c;
    if (root >= 0) most = Math.max(most, (-b + Math.sqrt(root)) / a);
  }
  return most;
};

/** The long point: the least of it round the tube. */
export const leastCut = (joint) =>
  Math.min(...Array.from({ length: 1440 }, (_, i) => cutAt(joint, (i * Math.PI) / 720)));
