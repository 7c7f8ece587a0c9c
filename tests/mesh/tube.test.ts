/**
 * Meshes of tubes: closed, as much steel as the closed form says, ends on what they are cut to. The outside check is a
 * general-purpose solid-modelling library (manifold-3d), which takes only what is a body.
 */
import fc from 'fast-check';
import type { ManifoldToplevel } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { nearestOn } from '../../server/centreline/query';
import type { Vec3 } from '../../server/centreline/vector';
import { dot, sub } from '../../server/centreline/vector';
import { nodeAt } from '../../server/geometry/gusset-corners';
import { plateFrame } from '../../server/geometry/feet';
import type { End, Part, Shape } from '../../server/geometry/shape';
import type { Mesh } from '../../server/mesh/mesh';
import { volumeOf } from '../../server/mesh/mesh';
import { meshesOf } from '../../server/mesh/meshes';
import type { Fineness } from '../../server/mesh/pipe';
import { sidesFor, TO_MEASURE, TO_VIEW } from '../../server/mesh/pipe';
import { tubeMesh } from '../../server/mesh/tube';
import { solids } from '../geometry/solid-bodies';
import { analyse } from '../support/analyse';
import { leaks, welded } from './closed';
import { randomCage } from './random-cage';
import { SAMPLES, sampleCar } from './samples';
import { chordError, radiiOf, steelOf } from './volume';

let wasm: ManifoldToplevel;
beforeAll(async () => {
  wasm = await solids();
});

const BOTH: readonly Fineness[] = [TO_VIEW, TO_MEASURE];
/** 32-bit coordinates of a car's size, mm. */
const ROUNDING = 3e-4;

const only = async (text: string): Promise<Part> => {
  const [part] = (await analyse(`units mm\n${text}`)).shape.parts.values();
  if (part === undefined) throw new Error('there is no part');
  return part;
};
const meshOf = (part: Part, fineness: Fineness): Mesh => {
  const mesh = tubeMesh(part, fineness);
  if (mesh === null) throw new Error(`there is no mesh of ${part.name}`);
  return mesh;
};

/** Of a regular polygon in a circle: n / 2π · sin(2π / n). */
const share = (sides: number): number => (sides / (2 * Math.PI)) * Math.sin((2 * Math.PI) / sides);

/** What the library makes of the mesh. */
function bodyOf(mesh: Mesh): { readonly volume: number; readonly genus: number; readonly status: string } {
  const { places, triangles } = welded(mesh);
  const body = new wasm.Manifold(new wasm.Mesh({ numProp: 3, vertProperties: places, triVerts: triangles }));
  const found = { volume: body.volume(), genus: body.genus(), status: String(body.status()) };
  body.delete();
  return found;
}

/** How far the length of any normal is from one. */
const worstLength = (mesh: Mesh): number =>
  Array.from({ length: mesh.normals.length / 3 }, (_, i) =>
    Math.abs(
      Math.hypot(mesh.normals[3 * i] ?? NaN, mesh.normals[3 * i + 1] ?? NaN, mesh.normals[3 * i + 2] ?? NaN) - 1,
    ),
  ).reduce((a, b) => Math.max(a, b), 0);

/** Triangles whose normals look into them. */
function badNormals({ positions, normals, indices }: Mesh): number {
  const at = (list: Float32Array, i: number): Vec3 => [
    list[3 * i] ?? NaN,
    list[3 * i + 1] ?? NaN,
    list[3 * i + 2] ?? NaN,
  ];
  let bad = 0;
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [indices[t] ?? 0, indices[t + 1] ?? 0, indices[t + 2] ?? 0];
    const [u, v] = [sub(at(positions, b), at(positions, a)), sub(at(positions, c), at(positions, a))];
    const out: Vec3 = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    const mean = [a, b, c].reduce((sum, i) => sum + dot(out, at(normals, i)), 0);
    if (!(mean > 0)) bad += 1;
  }
  return bad;
}

/** How far a point lies from the surface of what an end is cut to: the nearest of the hosts. 0 at a host's own end. */
function fromHosts(shape: Shape, end: End, at: Vec3): number {
  return Math.min(
    ...end.hosts.map((name) => {
      const host = shape.parts.get(name);
      if (host !== undefined) {
        const line = host.centreline;
        if (line === null) return NaN;
        const { station, distance } = nearestOn(line, at);
        const isEnd = station < ROUNDING || station > line.length - ROUNDING;
        return isEnd ? 0 : Math.abs(distance - (host.tube.section?.od ?? NaN) / 2);
      }
      const foot = shape.cage.things.get(name);
      if (foot?.kind !== 'foot') return NaN;
      const normal = plateFrame(foot, end.away)?.normal ?? [NaN, NaN, NaN];
      const on = nodeAt(shape.cage, foot.node) ?? [NaN, NaN, NaN];
      return Math.abs(dot(sub(at, on), normal));
    }),
  );
}

/** Points of a mesh's lines on the outer edge of one end. */
function outerEdge(part: Part, end: End, mesh: Mesh): readonly Vec3[] {
  const { origin, away, minOuter, maxCut } = end;
  if (origin === null || away === null || minOuter === null || maxCut === null) return [];
  const outer = radiiOf(part)[1];
  const points: Vec3[] = [];
  for (let i = 0; i < mesh.lines.length; i += 3) {
    const at: Vec3 = [mesh.lines[i] ?? NaN, mesh.lines[i + 1] ?? NaN, mesh.lines[i + 2] ?? NaN];
    const rel = sub(at, origin);
    const along = dot(rel, away);
    const aside = Math.sqrt(Math.max(0, dot(rel, rel) - along * along));
    if (Math.abs(aside - outer) < ROUNDING && along > minOuter - 0.01 && along < maxCut + 0.01) points.push(at);
  }
  return points;
}

/** Neither end reaches into a bend, nor over the other. */
const hasRoom = (part: Part): boolean => {
  const pieces = part.centreline?.pieces ?? [];
  const cuts = part.ends.map(({ maxCut, minOuter }) => (minOuter === null ? NaN : (maxCut ?? NaN)));
  const [first, last] = [pieces[0], pieces[pieces.length - 1]];
  if (first?.kind !== 'leg' || last?.kind !== 'leg') return false;
  const [a, b] = [cuts[0] ?? NaN, cuts[1] ?? NaN];
  return pieces.length === 1 ? a + b < first.length - 1 : a < first.length - 1 && b < last.length - 1;
};

describe('a straight tube, cut square', () => {
  it('has the volume of its polygon to the last digit that 32 bits hold', async () => {
    for (const [od, wall, to] of [
      [45, 2.5, [0, 0, 1000]],
      [38.1, 2.41, [300, -420, 777]],
      [12, 2, [40, 3, 9]],
    ] as const) {
      const part = await only(
        `section t { od ${String(od)}; wall ${String(wall)} }\nnode a = (0, 0, 0)\nnode b = (${to.join(', ')})\n` +
          `tube t { section t; path a, b; first open; last open }`,
      );
      for (const fineness of BOTH) {
        const mesh = meshOf(part, fineness);
        const closed = (Math.PI / 4) * (od ** 2 - (od - 2 * wall) ** 2) * Math.hypot(...to);
        const sides = sidesFor(od / 2, fineness.across);
        expect(volumeOf(mesh) / (closed * share(sides))).toBeCloseTo(1, 5);
        expect((od / 2) * (1 - Math.cos(Math.PI / sides))).toBeLessThanOrEqual(fineness.across);
        // Four faces a side: outside, bore, both ends; two triangles each.
        expect(mesh.indices.length / 3).toBe(8 * sides);
      }
    }
  });
});

describe('a bent tube', () => {
  it('comes to the volume that Pappus gives it as the surface is made finer', async () => {
    const part = await only(
      `section t { od 45; wall 2.5 }\ndie d { od 45; radius 135 }\nnode a = (0, 600, 0)\nnode b = (0, 600, 1000)\n` +
        `node c = (200, -600, 1100)\nnode d = (0, -600, 0)\ntube t { section t; die d; path a, b, c, d; first open; last open }`,
    );
    const closed = (Math.PI / 4) * (45 ** 2 - 40 ** 2) * (part.centrelineLength ?? NaN);
    const error = [0.2, 0.05, 0.0125].map((within) => {
      const mesh = meshOf(part, { across: within, along: within, edge: within });
      expect(leaks(mesh)).toEqual([]);
      return 1 - volumeOf(mesh) / closed;
    });
    // Chords of half the length are a quarter as far from their arc.
    expect(error[0]).toBeGreaterThan(0);
    expect(error[1] ?? NaN).toBeLessThan((error[0] ?? NaN) / 3);
    expect(error[2] ?? NaN).toBeLessThan((error[1] ?? NaN) / 3);
    expect(error[2] ?? NaN).toBeLessThan(1e-3);
  });

  it('keeps its points on the true surface', async () => {
    const part = await only(
      `section t { od 38; wall 2.5 }\ndie d { od 38; radius 114 }\nnode a = (0, 0, 0)\nnode b = (0, 80, 700)\n` +
        `node c = (500, 300, 900)\nnode d = (700, -350, 400)\ntube t { section t; die d; path a, b, c, d; first open; last open }`,
    );
    const { positions } = meshOf(part, TO_VIEW);
    const line = part.centreline;
    if (line === null) throw new Error('no line');
    for (let i = 0; i < positions.length; i += 3) {
      const { distance } = nearestOn(line, [positions[i] ?? NaN, positions[i + 1] ?? NaN, positions[i + 2] ?? NaN]);
      expect(Math.min(Math.abs(distance - 19), Math.abs(distance - 16.5))).toBeLessThan(ROUNDING);
    }
  });
});

/** Everything that holds for every tube. */
function holds(
  shape: Shape,
  fineness: Fineness,
  library: boolean,
): { readonly measured: number; readonly landed: number } {
  let [measured, landed] = [0, 0];
  for (const part of shape.parts.values()) {
    const mesh = tubeMesh(part, fineness);
    if (mesh === null) {
      expect(part.centreline === null || part.tube.section === null, part.name).toBe(true);
      continue;
    }
    expect(leaks(mesh), part.name).toEqual([]);
    expect(worstLength(mesh), part.name).toBeLessThan(1e-5);
    const volume = volumeOf(mesh);
    expect(volume, part.name).toBeGreaterThan(0);
    if (library) {
      const body = bodyOf(mesh);
      expect(body.status, part.name).toBe('NoError');
      // A pipe has one way through.
      expect(body.genus, part.name).toBe(1);
      expect(body.volume / volume, part.name).toBeCloseTo(1, 4);
    }
    if (!hasRoom(part)) continue;
    expect(badNormals(mesh), part.name).toBe(0);
    const steel = steelOf(part);
    if (Number.isFinite(steel)) {
      measured += 1;
      expect(Math.abs(volume - steel), part.name).toBeLessThan(chordError(part, fineness));
    }
    for (const end of part.ends) {
      if (end.curve === null || end.hosts.length === 0) continue;
      const edge = outerEdge(part, end, mesh);
      landed += edge.length;
      const farthest = edge.reduce((most, at) => Math.max(most, fromHosts(shape, end, at)), 0);
      expect(farthest, `${part.name} ${end.which}`).toBeLessThan(0.51);
    }
  }
  return { measured, landed };
}

describe('every tube of the samples', () => {
  for (const name of SAMPLES) {
    it(`${name}: closed, of its volume, on its hosts, a body to the library`, async () => {
      const { shape } = await sampleCar(name);
      for (const fineness of BOTH) {
        const { measured, landed } = holds(shape, fineness, true);
        expect(measured).toBeGreaterThan(2);
        expect(landed).toBeGreaterThan(100);
      }
    });
  }

  it('stand on their hosts to a thousandth, where the end meets the axis that it is cut to', async () => {
    const { shape } = await sampleCar('curlew-cage');
    let [worst, count] = [0, 0];
    for (const part of shape.parts.values()) {
      const mesh = meshOf(part, TO_VIEW);
      for (const end of part.ends) {
        if (end.curve === null || end.hosts.length === 0 || !hasRoom(part)) continue;
        for (const at of outerEdge(part, end, mesh)) {
          worst = Math.max(worst, fromHosts(shape, end, at));
          count += 1;
        }
      }
    }
    expect(count).toBeGreaterThan(3000);
    expect(worst).toBeLessThan(1e-3);
  });
});

describe('a cut edge', () => {
  /** Of a point to the chords of a mesh's lines. */
  const fromLines = ({ lines }: Mesh, at: Vec3): number => {
    let least = Infinity;
    for (let i = 0; i < lines.length; i += 6) {
      const [a, b] = [0, 3].map((k): Vec3 => [lines[i + k] ?? NaN, lines[i + k + 1] ?? NaN, lines[i + k + 2] ?? NaN]);
      if (a === undefined || b === undefined) continue;
      const [chord, rel] = [sub(b, a), sub(at, a)];
      const along = Math.max(0, Math.min(1, dot(rel, chord) / dot(chord, chord)));
      least = Math.min(least, Math.hypot(...rel.map((c, k) => c - along * (chord[k] ?? NaN))));
    }
    return least;
  };

  it('is drawn within a tenth of a millimetre of the cope that it is cut to, on the outside and in the bore', async () => {
    let count = 0;
    for (const name of ['plover-rollbar', 'curlew-cage'] as const) {
      for (const part of [...(await sampleCar(name)).shape.parts.values()].slice(0, 16)) {
        const mesh = meshOf(part, TO_VIEW);
        for (const { curve, origin, away, clockZero, which } of part.ends) {
          if (curve === null || origin === null || away === null || clockZero === null || !hasRoom(part)) continue;
          const travel: Vec3 = which === 'first' ? away : [-away[0], -away[1], -away[2]];
          const zero = clockZero.vector;
          const quarter: Vec3 = [
            travel[1] * zero[2] - travel[2] * zero[1],
            travel[2] * zero[0] - travel[0] * zero[2],
            travel[0] * zero[1] - travel[1] * zero[0],
          ];
          for (let i = 0; i < 97; i++) {
            const clock = (2 * Math.PI * i) / 97;
            const [c, s] = [Math.cos(clock), Math.sin(clock)];
            for (const rho of radiiOf(part)) {
              const back = curve.setback(rho, clock);
              if (back === null) continue;
              const at = [0, 1, 2].map(
                (k) =>
                  (origin[k] ?? NaN) + (away[k] ?? NaN) * back + rho * ((zero[k] ?? NaN) * c + (quarter[k] ?? NaN) * s),
              ) as [number, number, number];
              expect(fromLines(mesh, at), `${part.name} ${which} ${String(i)} ${String(rho)}`).toBeLessThan(0.101);
              count += 1;
            }
          }
        }
      }
    }
    expect(count).toBeGreaterThan(2000);
  });
});

describe('200 cages at random', () => {
  for (const seed of [1, 2, 3, 4]) {
    it(`have closed tubes of their volume on their hosts (${String(seed)} of 4)`, async () => {
      let [measured, landed] = [0, 0];
      for (const [i, text] of fc.sample(randomCage, { numRuns: 50, seed }).entries()) {
        const { shape } = await analyse(text);
        const found = holds(shape, TO_VIEW, i % 10 === 0);
        measured += found.measured;
        landed += found.landed;
      }
      expect(measured).toBeGreaterThan(60);
      expect(landed).toBeGreaterThan(2000);
    });
  }
});

describe('what is not known', () => {
  it('has no mesh, and nothing else loses its own', async () => {
    const { cage, shape } = await analyse(
      `units mm\nsection t { od 45; wall 2.5 }\nnode a = (0, 0, 0)\nnode b = (0, 0, 500)\nnode c = (nowhere, 0, 0)\n` +
        `tube whole { section t; path a, b; first open; last open }\ntube lost { section t; path a, c }\ntube bare { path a, b }\n`,
    );
    const made = Object.fromEntries(meshesOf(cage, shape).map(({ id, made: make }) => [id, make() !== null]));
    expect(made).toEqual({ 'tube:whole': true, 'tube:lost': false, 'tube:bare': false });
  });
});
