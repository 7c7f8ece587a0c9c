/** Will it go in: every bar of the samples as a cloud of points of its surface, moved among its hosts by brute force. */
import { describe, expect, it } from 'vitest';
import { nearestOn, pointAt } from '../../server/centreline/query';
import type { Vec3 } from '../../server/centreline/vector';
import { addScaled, mirrorY } from '../../server/centreline/vector';
import { clockFrame, vectorAt } from '../../server/geometry/clock';
import { directionOf, pointIn, posed, type Pose } from '../../server/geometry/room/frame';
import { evened, HANDS } from '../../server/geometry/room/play';
import { hostsOf, Rooms, type Room } from '../../server/geometry/room/room';
import { TOUCH } from '../../server/geometry/room/seek';
import { stretchesOf, tubesIn } from '../../server/geometry/room/tubes';
import { tooLongOf, type Way } from '../../server/geometry/room/ways';
import { bodyStretch } from '../../server/geometry/stretch';
import type { End, Part } from '../../server/geometry/shape';
import { sampleInput } from '../papers/bend/support';

const CLOCKS = 48;
/** Points stand so far apart along the bar, near its ends and elsewhere. */
const [NEAR, FAR] = [4, 40];

const around = (i: number): number => (2 * Math.PI * i) / CLOCKS;

/** On the cut's own edge, outside and in the bore, and behind it; ordered by nothing. */
function endPoints(part: Part, end: End, reach: number): readonly Vec3[] {
  const { origin, away, clockZero, curve } = end;
  const section = part.tube.section;
  if (origin === null || away === null || clockZero === null || curve === null || section === null) return [];
  const travel: Vec3 = end.which === 'first' ? away : [-away[0], -away[1], -away[2]];
  const frame = clockFrame(travel);
  const points: Vec3[] = [];
  for (let i = 0; i < CLOCKS; i++) {
    const across = vectorAt(frame, around(i));
    for (const rho of [section.od / 2, section.od / 2 - section.wall]) {
      const cut = (rho === section.od / 2 ? curve.outer(around(i)) : curve.inner(around(i))) ?? NaN;
      for (let s = cut; s < Math.max(cut, reach); s += NEAR)
        points.push(addScaled(addScaled(origin, across, rho), away, s));
    }
  }
  return points;
}

function middlePoints(part: Part, from: number, to: number): readonly Vec3[] {
  const points: Vec3[] = [];
  const line = part.centreline;
  const radius = (part.tube.section?.od ?? NaN) / 2;
  const bends = line?.pieces.filter(({ kind }) => kind === 'arc') ?? [];
  for (let s = from; line !== null && s < to;) {
    const { point, tangent } = pointAt(line, s);
    const frame = clockFrame(tangent);
    for (let i = 0; i < CLOCKS; i++) points.push(addScaled(point, vectorAt(frame, around(i)), radius));
    s += bends.some(({ start, length }) => s > start - 40 && s < start + length + 40) ? NEAR : FAR;
  }
  return points;
}

/** In the axes of the bar that the room tells of: its image's, for one that is mirrored. */
function cloudOf({ part, bar, mirrored }: Room): readonly Vec3[] {
  const length = part.centreline?.length ?? 0;
  // Behind the deepest point of a cut the tube is whole.
  const [from, to] = part.ends.map((end) => (end.maxCut ?? 0) + 8);
  const points = [
    ...endPoints(part, part.ends[0], from ?? 0),
    ...endPoints(part, part.ends[1], to ?? 0),
    ...middlePoints(part, (from ?? 0) + 8, length - (to ?? 0) - 8),
  ];
  return points.map((p) => pointIn(bar.frame, mirrored ? mirrorY(p) : p));
}

/** How deep a point of the cloud stands in a host, mm; below 0: none does. Bends as they are, not as chords. */
function deepest({ part, bar, mirrored }: Room, cloud: readonly Vec3[], hosts: readonly Part[], pose: Pose): number {
  expect(hosts).not.toContain(part);
  const { frame } = bar;
  let most = -Infinity;
  for (const p of cloud) {
    const local = posed(pose, p);
    const there = addScaled(frame.origin, directionOf(frame, local), 1);
    const q = mirrored ? mirrorY(there) : there;
    for (const host of hosts) {
      const { centreline, tube } = host;
      const body = bodyStretch(host);
      if (centreline === null) continue;
      const on = nearestOn(centreline, q);
      // Beyond a host's own cuts there is nothing of it.
      if (body === null || on.station <= body.from || on.station >= body.to) continue;
      most = Math.max(most, (tube.section?.od ?? NaN) / 2 - on.distance);
    }
  }
  return most;
}

const STEPS = 9;
const posesOf = (way: Way, steps = STEPS): readonly Pose[] =>
  way.paths.flatMap((path) => Array.from({ length: steps + 1 }, (_, i) => path.pose(path.length * (i / steps) ** 2)));

describe('clouds of points, moved', () => {
  it.each(['plover-rollbar', 'siskin-club-bar', 'curlew-cage'])(
    '%s: nothing runs into its hosts on a way that is said to be free, and something does where it is too long',
    { timeout: 120_000 },
    async (name) => {
      const { shape } = await sampleInput(name);
      const rooms = new Rooms(shape.parts);
      let [free, blocked] = [0, 0];
      for (const part of shape.parts.values()) {
        const room = rooms.of(part, []);
        if (room === null) continue;
        const hosts = hostsOf(part, shape.parts);
        const own = hostsOf(room.bar.part, shape.parts);
        const tubes = tubesIn(
          room.bar.frame,
          own.flatMap((host) => stretchesOf(host, true)),
        );
        const cloud = cloudOf(room);
        const held = (pose: Pose): Pose => evened(room.bar, pose, tubes);
        for (const sought of Object.values(room.ways)) {
          if (sought === null) continue;
          const tooLong = tooLongOf(sought.way);
          if (tooLong <= TOUCH) {
            free++;
            for (const pose of posesOf(sought.way))
              expect(deepest(room, cloud, hosts, held(pose)), `${part.name} ${sought.way.kind}`).toBeLessThan(0.2);
            // Along its hosts it may be the floor under their plates that is in the way.
          } else if (tooLong > HANDS && sought.way.kind === 'above') {
            // A host that lies across the way is met all at once, and it is tightest where it is only grazed.
            blocked++;
            const hits = posesOf(sought.way, 120).map((pose) => deepest(room, cloud, hosts, held(pose)));
            expect(Math.max(...hits), `${part.name} above`).toBeGreaterThan(0.01);
          } else if (tooLong > HANDS && sought.way.tight !== null && sought.way.kind !== 'slid') {
            blocked++;
            expect(deepest(room, cloud, hosts, held(sought.way.tight.pose)), part.name).toBeGreaterThan(0.01);
          }
        }
      }
      expect(free).toBeGreaterThan(0);
      expect(blocked).toBeGreaterThan(0);
    },
  );
});
