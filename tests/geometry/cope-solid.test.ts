/**
 * Copes against real bodies: the child's bored tube minus the host's solid, by the mesh booleans of manifold-3d, a
 * general-purpose solid-modelling library; the edge that its cut leaves is held against the set-backs, gaps and saddles.
 *
 * A mesh is not round. Its facets lie inside the host by R (1 - cos(π / n)), its chords along a bend by at most
 * (M + R)(1 - cos(δ / 2)) inside or outside. So each point of the cut has to lie between the set-backs of a host that is
 * thinner and of one that is thicker by just that: a bracket that holds at grazing angles too.
 */
import type { Manifold, ManifoldToplevel } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Centreline } from '../../server/centreline/centreline';
import { nearestOn, pointAt } from '../../server/centreline/query';
import type { Vec3 } from '../../server/centreline/vector';
import { addScaled, cross, dot, unit } from '../../server/centreline/vector';
import type { Cope } from '../../server/geometry/cope';
import { cope, copeCurve } from '../../server/geometry/cope';
import type { ChildEnd, TubeHost } from '../../server/geometry/setback';
import { anyDirection, between, bentOnce, endOf, leaning, line, random, through } from './joint-maker';
import type { CutEdge } from './solid-bodies';
import { CHILD_FACETS, childSolid, cutEdge, facetError, gapTo, ringError, solids, tubeSolid } from './solid-bodies';

/** Coordinates go to the library and come back as 32-bit floats: about 3e-5 mm at 500 mm, twice. */
const FLOATS = 1e-4;
const AHEAD = 170;
const BACK = 90;

/** A machine that is busy with other tests may take this long over one of these, ms. */
const PATIENCE = 240_000;

let wasm: ManifoldToplevel;
beforeAll(async () => {
  wasm = await solids();
});

interface Joint {
  readonly child: ChildEnd;
  readonly hosts: readonly TubeHost[];
  /** The bend's radius, 0 on a straight host. */
  readonly bend: number;
}

interface Deviation {
  /** Of set-backs where the surface is not grazed (the bracket is narrower than 0.05 mm); mm. */
  setback: number;
  gap: number;
  saddle: number;
  points: number;
}

const none = (): Deviation => ({ setback: 0, gap: 0, saddle: 0, points: 0 });

/** Holds one joint against its bodies, and keeps the largest deviations; false where the two are not alike. */
function compare(joint: Joint, figures: Cope, deviation: Deviation): boolean {
  const { child, hosts } = joint;
  const bodies = hosts.map((host) => {
    // Six radii to each side hold every footprint from 32 degrees up; runsFree sees to the rest.
    const low = Math.max(host.from ?? -Infinity, -300, host.station - 6 * host.radius);
    const high = Math.min(host.to ?? Infinity, host.centreline.length + 300, host.station + 6 * host.radius);
    return tubeSolid(wasm, child, extended(host.centreline), host.radius, low + 300, high + 300);
  });
  const host = bodies.reduce((all, body) => all.add(body));
  const tube = childSolid(wasm, child, BACK, AHEAD);
  const edge = cutEdge(child, tube, host, AHEAD);
  const discard = (): void => {
    for (const body of new Set<Manifold>([...bodies, host, tube])) body.delete();
  };
  expect(edge).not.toBeNull();
  if (edge === null) return false;
  if (isUndercut(joint, edge)) {
    discard();
    return false;
  }

  const inside = facetError(hosts[0]?.radius ?? 0) + ringError(hosts[0]?.radius ?? 0, joint.bend) + FLOATS;
  const outside = (joint.bend > 0 ? ringError(hosts[0]?.radius ?? 0, joint.bend) : 0) + FLOATS;
  const thin = copeCurve(
    child,
    hosts.map((h) => resized(h, -inside)),
  );
  const thick = copeCurve(
    child,
    hosts.map((h) => resized(h, outside)),
  );
  // The facets of the bore stand inside its round wall: so thick the meshed wall is.
  const bore = child.innerRadius * Math.cos(Math.PI / CHILD_FACETS);
  const clear = copeCurve(
    { ...child, innerRadius: bore },
    hosts.map((h) => resized(h, outside)),
  );
  // Each is how far the worst point lies outside of its bracket, or above the cut; one expectation for thousands of points.
  let below = -Infinity;
  let above = -Infinity;
  let uncut = -Infinity;
  for (const point of edge.points) {
    const high = thick.setback(point.rho, point.clock) ?? -Infinity;
    above = Math.max(above, point.setback - high);
    uncut = Math.max(uncut, point.setback - (clear.cut(point.clock) ?? -Infinity));
    const low = thin.setback(point.rho, point.clock);
    if (low === null) continue;
    below = Math.max(below, low - point.setback);
    if (high - low < 0.05) {
      const own = figures.curve.setback(point.rho, point.clock) ?? Infinity;
      deviation.setback = Math.max(deviation.setback, Math.abs(own - point.setback));
      deviation.points++;
    }
  }
  expect(below).toBeLessThan(FLOATS);
  expect(above).toBeLessThan(FLOATS);
  expect(uncut).toBeLessThan(FLOATS);
  for (let i = 0; i < 36; i += 12) {
    const ordinate = figures.ordinates[i];
    const cut = ordinate?.cut ?? NaN;
    const clock = ordinate?.clock ?? NaN;
    const gap = gapTo(wasm, child, { rho: child.outerRadius, clock, setback: cut }, host, 30);
    deviation.gap = Math.max(deviation.gap, Math.abs(gap - (ordinate?.gap ?? NaN)));
  }
  deviation.saddle = Math.max(deviation.saddle, Math.abs(edge.saddle - (figures.saddleLength ?? NaN)) / edge.saddle);
  discard();
  return true;
}

/**
 * True where the body keeps a tongue of wall under a host, held from beside: a set-back is where a generator last leaves
 * its hosts, so a cope takes such a tongue away, and the two edges differ by it.
 */
function isUndercut(joint: Joint, edge: CutEdge): boolean {
  if (joint.hosts.length === 1) return false;
  const { child, hosts } = joint;
  return edge.points.some((point) => {
    const across = addScaled(
      addScaled(child.origin, child.zero, point.rho * Math.cos(point.clock)),
      child.quarter,
      point.rho * Math.sin(point.clock),
    );
    for (let s = point.setback + 0.25; s < point.setback + 60; s += 0.5) {
      const p = addScaled(across, child.away, s);
      const inside = hosts.some((host) => {
        const on = nearestOn(host.centreline, p);
        return on.distance < host.radius && on.station > 0 && on.station < host.centreline.length;
      });
      if (inside) return true;
    }
    return false;
  });
}

const resized = (host: TubeHost, by: number): TubeHost => ({
  ...host,
  radius: host.radius + by,
  from: host.from === null ? null : host.from - by,
  to: host.to === null ? null : host.to + by,
});

/** The same tube with its end legs 300 mm longer, so that its own ends stay out of the way. */
function extended(c: Centreline): Centreline {
  const begin = pointAt(c, 0);
  const end = pointAt(c, c.length);
  const points = [...c.points];
  points[0] = addScaled(begin.point, begin.tangent, -300);
  points[points.length - 1] = addScaled(end.point, end.tangent, 300);
  const radius = c.pieces.find((piece) => piece.kind === 'arc')?.radius ?? null;
  return line(points, radius);
}

/** True where the child's leg stays away from its hosts once it has left them. */
function runsFree(child: ChildEnd, hosts: readonly TubeHost[], after: number): boolean {
  for (let s = after; s <= AHEAD; s += 10) {
    const p = addScaled(child.origin, child.away, s);
    for (const host of hosts) {
      if (nearestOn(extended(host.centreline), p).distance < host.radius + child.outerRadius + 2) return false;
    }
  }
  return true;
}

/** A joint on `c` at `station`: any angle from 32 degrees up, half of them with axes that miss each other. */
function jointOn(roll: () => number, c: Centreline, radius: number, station: number, bend: number): Joint | null {
  const on = pointAt(c, station);
  const away = leaning(roll, on.tangent, between(roll, 0.56, Math.PI - 0.56));
  const outer = radius * between(roll, 0.35, 0.97);
  const beside = roll() < 0.5 ? 0 : between(roll, -1, 1) * (radius * 0.97 - outer);
  const origin = addScaled(on.point, unit(cross(on.tangent, away)), beside);
  const child = endOf(origin, away, outer, Math.min(between(roll, 1.2, 4), outer * 0.4), AHEAD);
  const hosts = [through(c, radius, station)];
  return runsFree(child, hosts, 110) ? { child, hosts, bend } : null;
}

/** Makes joints until `count` of them have no overhang, and compares those. */
function compareMany(count: number, make: () => Joint | null): Deviation {
  const deviation = none();
  let done = 0;
  for (let tries = 0; done < count && tries < 20 * count; tries++) {
    const joint = make();
    if (joint === null) continue;
    const figures = cope(joint.child, joint.hosts);
    if (figures.overhang !== null || figures.buried || (figures.maxCut ?? AHEAD) > 110) continue;
    if (compare(joint, figures, deviation)) done++;
  }
  expect(done).toBe(count);
  expect(deviation.points).toBeGreaterThan(count * 20);
  return deviation;
}

/** What facets may make of a figure: mm, mm, share of the length. */
function expectWithin(deviation: Deviation): void {
  expect(deviation.setback).toBeLessThan(0.05);
  expect(deviation.gap).toBeLessThan(0.02);
  expect(deviation.saddle).toBeLessThan(5e-4);
}

describe('one host, against its real body', () => {
  it(
    '80 joints on straight tubes, at any angle, in line and beside',
    () => {
      const roll = random(1871);
      const found = compareMany(80, () => {
        const start: Vec3 = [between(roll, -200, 200), between(roll, -200, 200), between(roll, -200, 200)];
        const c = line([start, addScaled(start, anyDirection(roll), 600)]);
        return jointOn(roll, c, between(roll, 15, 30), 300, 0);
      });
      expectWithin(found);
    },
    PATIENCE,
  );

  it(
    '70 joints on bends',
    () => {
      const roll = random(1882);
      const found = compareMany(70, () => {
        const radius = between(roll, 15, 30);
        const bend = radius * between(roll, 4, 7);
        const c = bentOnce(roll, bend);
        const arc = c.pieces.find((piece) => piece.kind === 'arc');
        const station = (arc?.start ?? 0) + (arc?.length ?? 0) * between(roll, 0.1, 0.9);
        return jointOn(roll, c, radius, station, bend);
      });
      expectWithin(found);
    },
    PATIENCE,
  );

  it(
    '70 joints across tangents, where a leg turns into a bend',
    () => {
      const roll = random(1893);
      const found = compareMany(70, () => {
        const radius = between(roll, 15, 30);
        const bend = radius * between(roll, 4, 7);
        const c = bentOnce(roll, bend);
        const arc = c.pieces.find((piece) => piece.kind === 'arc');
        const border = (arc?.start ?? 0) + (roll() < 0.5 ? 0 : (arc?.length ?? 0));
        return jointOn(roll, c, radius, border + between(roll, -0.9, 0.9) * radius, bend);
      });
      expectWithin(found);
    },
    PATIENCE,
  );
});

describe('clusters of three ends, against the union of the real bodies', () => {
  it(
    '20 ends that land on a tube which runs through and on an end that lies there already',
    () => {
      const roll = random(1904);
      const found = compareMany(20, () => {
        const radius = between(roll, 18, 30);
        const axis = anyDirection(roll);
        const c = line([addScaled([0, 0, 0], axis, -300), addScaled([0, 0, 0], axis, 300)]);
        const first = leaning(roll, axis, between(roll, 0.8, 1.2));
        const other = line([[0, 0, 0], addScaled([0, 0, 0], first, 400)]);
        const away = leaning(roll, axis, between(roll, 1, Math.PI - 1));
        const apart = Math.acos(dot(first, away));
        if (apart < 0.6) return null;
        const child = endOf([0, 0, 0], away, radius * between(roll, 0.5, 0.95), 2, AHEAD);
        const half: TubeHost = { ...through(other, radius * between(roll, 0.6, 1), 0), from: 0 };
        return { child, hosts: [through(c, radius, 300), half], bend: 0 };
      });
      expectWithin(found);
    },
    PATIENCE,
  );

  it(
    '20 ends without a tube that runs through: the first runs on past the node, the second is its half',
    () => {
      const roll = random(1915);
      const found = compareMany(20, () => {
        const radius = between(roll, 18, 30);
        const first = anyDirection(roll);
        const second = leaning(roll, first, between(roll, 0.9, 2.2));
        const away = leaning(roll, first, between(roll, 0.9, 2.2));
        if (Math.acos(dot(second, away)) < 0.7) return null;
        const child = endOf([0, 0, 0], away, radius * between(roll, 0.5, 0.95), 2, AHEAD);
        const past: TubeHost = {
          ...through(line([addScaled([0, 0, 0], first, -70), addScaled([0, 0, 0], first, 400)]), radius, 70),
          from: 0,
        };
        const half: TubeHost = {
          ...through(line([addScaled([0, 0, 0], second, 400), [0, 0, 0]]), radius * between(roll, 0.6, 0.95), 400),
          to: 400,
        };
        return { child, hosts: [past, half], bend: 0 };
      });
      expectWithin(found);
    },
    PATIENCE,
  );
});

describe('the comparison itself', () => {
  it('would notice a host that is a tenth of a millimetre too thick', () => {
    const c = line([
      [0, -300, 0],
      [0, 300, 0],
    ]);
    const child = endOf([0, 0, 0], unit([1, 0.3, 0.2]), 16, 2, AHEAD);
    const deviation = none();
    const wrong = cope(child, [through(c, 22.1, 300)]);
    compare({ child, hosts: [through(c, 22, 300)], bend: 0 }, wrong, deviation);
    expect(deviation.setback).toBeGreaterThan(0.09);
  });

  it('reads the edge of a cut that is known: the square end of a tube against a flat', () => {
    const child = endOf([0, 0, 0], [1, 0, 0], 20, 2, AHEAD);
    const tube = childSolid(wasm, child, BACK, AHEAD);
    const block = wasm.Manifold.cube([200, 200, 200], true).translate(0, 0, -90);
    const edge = cutEdge(child, tube, block, AHEAD);
    expect(edge?.saddle).toBeCloseTo(2 * CHILD_FACETS * 20 * Math.sin(Math.PI / CHILD_FACETS), 3);
    for (const point of edge?.points ?? []) expect(point.setback).toBeCloseTo(10, 4);
  });
});
