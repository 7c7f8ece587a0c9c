/**
 * Outlines against bodies: the shadow of a tube's mesh, thrown by a general-purpose solid-modelling library (manifold-3d),
 * against the area between both drawn edges; cut curves against what descriptive geometry says of them.
 */
import type { CrossSection, ManifoldToplevel } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Vec3 } from '../../server/centreline/vector';
import { cross, distance, dot } from '../../server/centreline/vector';
import type { Body } from '../../server/drawing/body';
import { bodyOf } from '../../server/drawing/body';
import { cutOf, edgesOf } from '../../server/drawing/outline';
import type { View } from '../../server/drawing/view';
import { project, viewFrom, VIEWS } from '../../server/drawing/view';
import { solids, tubeSolid } from '../geometry/solid-bodies';
import { analyse } from '../support/analyse';

let wasm: ManifoldToplevel;
beforeAll(async () => {
  wasm = await solids();
});

const bodyIn = async (text: string, name: string): Promise<Body> => {
  const part = (await analyse(text)).shape.parts.get(name);
  const body = part === undefined ? null : bodyOf(part);
  if (body === null) throw new Error(`no body of ${name}`);
  return body;
};

/** Bent in three planes, with ends that are cut square. */
const PRETZEL = `section t { od 45; wall 2.5 }
die d { od 45; radius 135 }
node a = (0, 0, 0)
node b = (0, 80, 700)
node c = (500, 300, 900)
node d = (700, -350, 400)
node e = (200, -500, 300)
tube pretzel { section t; die d; path a, b, c, d, e; first open; last open }
`;
/** In one plane, upright. */
const HOOP = `section t { od 45; wall 2.5 }
die d { od 45; radius 135 }
node a = (0, 600, 0)
node b = (0, 600, 1000)
node c = (0, -600, 1000)
node d = (0, -600, 0)
tube hoop { section t; die d; path a, b, c, d; first open; last open }
`;

const flat = (view: View, at: Vec3): [number, number] => {
  const [u, v] = project(view, at);
  return [u, v];
};

/** The area that the drawn edges and ends enclose: both edges have their points at the same stations. */
function drawn(body: Body, view: View): CrossSection {
  const all = edgesOf(body, view);
  // A leg that is seen end on is a circle of its own.
  const closed = all.filter(({ points }) => points.length > 2 && points[0]?.at === points[points.length - 1]?.at);
  const edges = all.filter((curve) => !closed.includes(curve));
  const half = edges.length / 2;
  const pieces = closed.map(({ points }) => wasm.CrossSection.hull([points.map(({ at }) => flat(view, at))]));
  for (let i = 0; i < half; i++) {
    const [one, other] = [edges[i]?.points ?? [], edges[i + half]?.points ?? []];
    expect(one.length).toBe(other.length);
    for (let k = 0; k + 1 < one.length; k++) {
      const corners = [one[k], one[k + 1], other[k + 1], other[k]].flatMap((p) =>
        p === undefined ? [] : [flat(view, p.at)],
      );
      pieces.push(wasm.CrossSection.hull([corners]));
    }
  }
  for (const which of [0, 1] as const)
    pieces.push(wasm.CrossSection.hull([cutOf(body, which).points.map(({ at }) => flat(view, at))]));
  return wasm.CrossSection.union(pieces);
}

/** The shadow of the tube's mesh along the look. */
function shadow(body: Body, view: View): CrossSection {
  const line = body.part.centreline;
  if (line === null) throw new Error('no centreline');
  // The library throws shadows along z: the mesh is turned so that the viewer is there.
  const child = {
    origin: [0, 0, 0] as const,
    away: view.toward,
    zero: view.right,
    quarter: view.up,
    outerRadius: body.radius,
    innerRadius: 0,
    limit: 0,
  };
  return tubeSolid(wasm, child, line, body.radius, 0, line.length).project();
}

const LOOKS: readonly (readonly [string, View])[] = [
  ['side', VIEWS.side],
  ['plan', VIEWS.plan],
  ['front', VIEWS.front],
  ['from before and above', viewFrom(0.6, 0.5)],
  ['nearly along a leg', viewFrom(0.02, 1.52)],
];

describe('the area between the edges', () => {
  for (const [name, view] of LOOKS) {
    it(`is the tube's shadow, ${name}`, async () => {
      for (const [text, tube] of [
        [PRETZEL, 'pretzel'],
        [HOOP, 'hoop'],
      ] as const) {
        const body = await bodyIn(text, tube);
        const [own, real] = [drawn(body, view), shadow(body, view)];
        const off = own.subtract(real).area() + real.subtract(own).area();
        // Facets, rings and chords stand inside the round by hundredths of a millimetre along the whole edge.
        const edge = 2 * (body.part.centreline?.length ?? 0);
        expect(off / edge, tube).toBeLessThan(0.06);
        expect(real.area()).toBeGreaterThan(1000);
      }
    });
  }
});

describe('views', () => {
  it('are right-handed: what is to the right, up and toward the viewer', () => {
    for (const [, { right, up, toward }] of LOOKS) {
      expect(distance(cross(right, up), toward)).toBeLessThan(1e-12);
      expect(dot(right, right)).toBeCloseTo(1, 12);
    }
  });
  it('have forward to the left from the side and from above, the car’s left on the right from ahead', () => {
    // ISO 8855: x forward, y left, z up.
    expect(project(VIEWS.side, [1, 0, 0])).toEqual([-1, 0, 0]);
    expect(project(VIEWS.side, [0, 0, 1])[1]).toBe(1);
    expect(project(VIEWS.side, [0, 1, 0])[2]).toBe(1);
    expect(project(VIEWS.plan, [1, 0, 0])[0]).toBe(-1);
    expect(project(VIEWS.plan, [0, 1, 0])[1]).toBe(-1);
    expect(project(VIEWS.front, [0, 1, 0])[0]).toBe(1);
    expect(project(VIEWS.front, [1, 0, 0])[2]).toBe(1);
  });
});

const tee = (childOd: number): string => `section big { od 45; wall 2.5 }
section small { od ${String(childOd)}; wall 2 }
node a = (0, 0, -400)
node b = (0, 0, 400)
node c = (0, 0, 0)
node d = (0, 300, 0)
tube host { section big; path a, b; first open; last open }
tube child { section small; path c, d; last open }
`;

describe('cut curves', () => {
  it('of equal tubes at a right angle are two straight lines at 45 degrees, seen square to both axes', async () => {
    // Descriptive geometry: equal cylinders whose axes cross meet in two plane ellipses, seen from the side as lines.
    const body = await bodyIn(tee(45), 'child');
    for (const { at } of cutOf(body, 0).points) {
      const [u, v] = flat(VIEWS.front, at);
      expect(u).toBeCloseTo(Math.abs(v), 3);
    }
  });
  it('of a smaller tube follow the host: the distance from its axis is the host’s radius', async () => {
    const body = await bodyIn(tee(30), 'child');
    for (const { at } of cutOf(body, 0).points) {
      expect(Math.hypot(at[0], at[1])).toBeCloseTo(22.5, 3);
      expect(Math.hypot(at[0], at[2])).toBeCloseTo(15, 6);
    }
    // Its edges, seen from the front, begin where the host's side is: at √(R² - r²) on neither side.
    const starts = edgesOf(body, VIEWS.front).map(({ points }) => points[0]?.at ?? [0, 0, 0]);
    for (const at of starts) expect(at[1]).toBeCloseTo(22.5, 3);
    const fromAbove = edgesOf(body, VIEWS.plan).map(({ points }) => points[0]?.at ?? [0, 0, 0]);
    for (const at of fromAbove) expect(at[1]).toBeCloseTo(Math.sqrt(22.5 ** 2 - 15 ** 2), 3);
  });
});
