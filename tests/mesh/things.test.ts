/** Meshes of everything that is no tube: closed, of the sizes that the file says, kept while nothing of them changes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../server/centreline/vector';
import { distance, dot, sub } from '../../server/centreline/vector';
import { gussetCorners, nodeAt } from '../../server/geometry/gusset-corners';
import { slotsOf } from '../../server/geometry/shell';
import { ears } from '../../server/centreline/outline';
import type { Mesh } from '../../server/mesh/mesh';
import { boxOf, keyOf, volumeOf } from '../../server/mesh/mesh';
import type { MadeMesh } from '../../server/mesh/meshes';
import { meshesOf, newMeshCache } from '../../server/mesh/meshes';
import { Project } from '../../server/project/pipeline';
import type { Analysis } from '../../server/project/project';
import { analyse, mapHost } from '../support/analyse';
import { leaks } from './closed';
import { randomCage } from './random-cage';
import { SAMPLES, sampleCar } from './samples';

/** All that has a surface, by id. */
const madeIn = ({ cage, shape }: Pick<Analysis, 'cage' | 'shape'>): ReadonlyMap<string, MadeMesh | null> =>
  new Map(meshesOf(cage, shape).map(({ id, made }) => [id, made()]));

const meshIn = async (text: string, id: string): Promise<Mesh> => {
  const made = madeIn(await analyse(`units mm\n${text}`)).get(id) ?? null;
  if (made === null) throw new Error(`there is no ${id}`);
  return made.mesh;
};

const points = (list: Float32Array): readonly Vec3[] =>
  Array.from({ length: list.length / 3 }, (_, i): Vec3 => [
    list[3 * i] ?? NaN,
    list[3 * i + 1] ?? NaN,
    list[3 * i + 2] ?? NaN,
  ]);

function sound(car: Pick<Analysis, 'cage' | 'shape'>): number {
  const things = meshesOf(car.cage, car.shape);
  expect(new Set(things.map(({ id }) => id)).size).toBe(things.length);
  let count = 0;
  for (const { id, made } of things) {
    const found = made();
    if (found === null) continue;
    const { mesh, box, key } = found;
    count += 1;
    for (const list of [mesh.positions, mesh.normals, mesh.lines]) expect(list.every(Number.isFinite), id).toBe(true);
    expect(mesh.positions.length, id).toBe(mesh.normals.length);
    expect(leaks(mesh), id).toEqual([]);
    if (mesh.indices.length > 0) expect(volumeOf(mesh), id).toBeGreaterThan(0);
    expect(box, id).toEqual(boxOf(mesh));
    expect(key, id).toBe(keyOf(mesh));
  }
  return count;
}

describe('every thing', () => {
  for (const name of SAMPLES)
    it(`of ${name} is closed, and finite`, async () => {
      expect(sound(await sampleCar(name))).toBeGreaterThan(15);
    });

  it('of 60 cages at random is closed, and finite', async () => {
    let count = 0;
    for (const text of fc.sample(randomCage, { numRuns: 60, seed: 9 })) count += sound(await analyse(text));
    expect(count).toBeGreaterThan(600);
  });

  it('has a key of its own mesh', async () => {
    const made = [...madeIn(await sampleCar('curlew-cage')).values()].flatMap((found) => found ?? []);
    expect(new Set(made.map(({ key }) => key)).size).toBe(made.length);
  });
});

const POST =
  'section t { od 40; wall 2 }\nnode a = (0, 0, 0)\nnode b = (0, 0, 600)\ntube post { section t; path a, b; first open; last open }\n';

describe('sizes', () => {
  it('of a foot and its counter-plate are those of their plates', async () => {
    const mesh = await meshIn(
      `${POST.replace('; first open', '')}foot f { at a; plate 150 x 110 x 3; counter-plate 170 x 120 x 4 welded }`,
      'foot:f',
    );
    // Two plates, mm³.
    expect(volumeOf(mesh)).toBeCloseTo(150 * 110 * 3 + 170 * 120 * 4, 0);
    const [low, high] = boxOf(mesh) ?? [];
    expect(high?.[0]).toBeCloseTo(85, 3);
    expect(high?.[1]).toBeCloseTo(60, 3);
    // The tube stands on the foot's plate at z = 0.
    expect(high?.[2]).toBeCloseTo(0, 3);
    expect(low?.[2]).toBeLessThan(-7);
  });

  it('of a gusset are its legs and its sheet', async () => {
    const text =
      `section t { od 40; wall 2 }\nnode a = (0, 0, 0)\nnode b = (0, 0, 600)\nnode c = (500, 0, 0)\n` +
      `tube up { section t; path a, b }\ntube along { section t; path a, c }\n`;
    const flat = await meshIn(
      `${text}gusset g { at a; between up, along; legs 100 x 80; thickness 3; kind flat }`,
      'gusset:g',
    );
    expect(volumeOf(flat)).toBeCloseTo((100 * 80 * 3) / 2, 1);
    const sheet = await meshIn(
      `${text}gusset g { at a; between up, along; legs 100 x 80; thickness 1.5; kind sheet }`,
      'gusset:g',
    );
    const [low, high] = boxOf(sheet) ?? [];
    expect([low?.[1], high?.[1]]).toEqual([-20, 20]);
    expect(high?.[0]).toBeCloseTo(80, 3);
    expect(high?.[2]).toBeCloseTo(100, 3);
    // The full wedge less the wedge inside of the sheet, which is open toward both tubes.
    const away = 1.5 / ((100 * 80) / Math.hypot(100, 80));
    const inside = ((100 * 80) / 2) * (1 - away) ** 2 * (40 - 2 * 1.5);
    expect(volumeOf(sheet)).toBeCloseTo(((100 * 80) / 2) * 40 - inside, 0);
    for (const kind of ['flat', 'sheet']) {
      const made = await meshIn(
        `${text}gusset g { at a; between up, along; legs 100 x 80; thickness 1.5; kind ${kind}; cut-out 30; hole 20 }`,
        'gusset:g',
      );
      const whole = kind === 'flat' ? ((100 * 80) / 2) * 1.5 : ((100 * 80) / 2) * 40 - inside;
      // A quarter of a disc less, in each side that there is; eight chords of it.
      const chords = (8 / (Math.PI / 2)) * Math.sin(Math.PI / 16);
      const gone = ((Math.PI * 30 ** 2) / 4) * chords * (kind === 'flat' ? 1.5 : 3);
      expect(volumeOf(made) / (whole - gone)).toBeCloseTo(1, 4);
      expect(leaks(made)).toEqual([]);
    }
  });

  it('of gussets between the same two tubes lie in corners of their own', async () => {
    const { shape } = await sampleCar('curlew-cage');
    const corners = gussetCorners(shape);
    const at = nodeAt(shape.cage, 'hoop-x') ?? [NaN, NaN, NaN];
    const [one, two] = ['hoop-x-above', 'hoop-x-below'].map((name) => corners.get(name) ?? [at, at, at]);
    for (const k of [0, 1, 2] as const) {
      // Both legs are as long: they lie opposite to each other.
      const middle = [one, two].map((own) => ((own?.[1][k] ?? NaN) + (own?.[2][k] ?? NaN)) / 2 - at[k]);
      expect((middle[0] ?? NaN) + (middle[1] ?? NaN)).toBeCloseTo(0, 6);
    }
    expect(distance(one?.[1] ?? at, two?.[1] ?? at)).toBeCloseTo(200, 6);
  });

  it('of collars, padding and marks are on their tube, at their clock', async () => {
    const car = await analyse(
      `units mm\n${POST}padding post { thickness 25; from 100 to 400; standard foam }\ncollar ring { on post; at z = 500; width 20 }\n` +
        `hole post for drain { at a; from 50; clock 90; dia 6 }\nvent post -> air { at b; from 40; clock 180 deg; dia 5 }\n`,
    );
    expect(car.findings.filter(({ code }) => code.startsWith('syntax')).map(({ message }) => message)).toEqual([]);
    const made = madeIn(car);
    const boxes = new Map([...made].map(([id, found]) => [id.split(':')[0], found?.box]));
    const [low, high] = boxes.get('padding') ?? [];
    expect([low?.[2], high?.[2]]).toEqual([100, 400]);
    expect(high?.[0]).toBeCloseTo(45, 3);
    const [under, over] = boxes.get('collar') ?? [];
    expect([under?.[2], over?.[2]]).toEqual([490, 510]);
    // Seen up the post, clock 0 is forward (x) and 90 degrees to the left (y): right-handed about the travel.
    const [from, to] = boxes.get('hole') ?? [];
    expect([from?.[2], to?.[2]].map((z) => Math.round(z ?? NaN))).toEqual([47, 53]);
    expect(to?.[1]).toBeCloseTo(20.3, 3);
    const vent = boxes.get('vent');
    expect(vent?.[0][0]).toBeCloseTo(-20.3, 3);
    expect(((vent?.[0][2] ?? NaN) + (vent?.[1][2] ?? NaN)) / 2).toBeCloseTo(560, 3);
  });

  it('of a vent into a host lie where the axis enters the host', async () => {
    const { cage, shape } = await sampleCar('plover-rollbar');
    const made = madeIn({ cage, shape });
    for (const thing of cage.things.values()) {
      if (thing.kind !== 'vent' || typeof thing.to !== 'string') continue;
      const found = made.get(`vent:${thing.name}`);
      const child = shape.parts.get(thing.tube ?? '');
      const end = child?.ends.find(({ node }) => node === thing.node);
      if (!found || !end?.origin || end.away === null) throw new Error(thing.name);
      const middle: Vec3 = [0, 1, 2].map((k) => ((found.box[0][k] ?? NaN) + (found.box[1][k] ?? NaN)) / 2) as [
        number,
        number,
        number,
      ];
      const rel = sub(middle, end.origin);
      const aside = Math.sqrt(Math.max(0, dot(rel, rel) - dot(rel, end.away) ** 2));
      expect(aside).toBeLessThan(3);
    }
  });

  it('of a seat have their slots open, at the spacing of the file', async () => {
    const text =
      'seat s { slots (-150, 0, 700); recline 20 deg; yaw 8 deg; slot-spacing 220; back 40; helmet (forward 150, up 200) radius 150 }';
    const car = await analyse(`units mm\n${text}`);
    const seat = car.cage.things.get('s');
    const slots = seat?.kind === 'seat' ? slotsOf(seat) : null;
    if (slots === null) throw new Error('no slots');
    const shell = madeIn(car).get('seat:s')?.mesh;
    if (shell === undefined) throw new Error('no shell');
    for (const slot of [slots.left, slots.right]) {
      // Through the middle of the slot nothing stands; above it and between the slots the shell does.
      const middle = (up: number, across: number, aft: number): Vec3 =>
        [0, 1, 2].map(
          (k) =>
            (slot[k] ?? NaN) +
            (slots.up[k] ?? NaN) * up +
            (slots.across[k] ?? NaN) * across +
            (slots.aft[k] ?? NaN) * aft,
        ) as [number, number, number];
      expect(isInside(shell, middle(10, 0, 20))).toBe(false);
      expect(isInside(shell, middle(40, 0, 20))).toBe(true);
      expect(isInside(shell, middle(10, slot === slots.left ? -60 : 60, 20))).toBe(true);
      expect(isInside(shell, middle(40, 0, 41))).toBe(false);
    }
    const helmet = madeIn(car).get('helmet:s')?.mesh;
    if (helmet === undefined) throw new Error('no helmet');
    for (const at of points(helmet.positions)) expect(distance(at, [0, 0, 900])).toBeCloseTo(150, 3);
  });

  it('of a strap run from the slot to where it touches its bar, as wide as it is', async () => {
    const car = await sampleCar('plover-rollbar');
    for (const figures of car.shape.straps) {
      const mesh = madeIn(car).get(`strap:${figures.name}`)?.mesh;
      const { start, contact, barPoint } = figures;
      if (mesh === undefined || start === null || contact === null || barPoint === null) throw new Error(figures.name);
      const all = points(mesh.positions);
      const near = (at: Vec3): number => Math.min(...all.map((p) => distance(p, at)));
      const strap = car.cage.things.get(figures.name);
      const half = (strap?.kind === 'strap' ? (strap.width ?? NaN) : NaN) / 2;
      for (const at of [start, contact]) expect(Math.abs(near(at) - half)).toBeLessThan(0.5);
      // Nothing of it lies in the bar.
      const radius = distance(contact, barPoint);
      const line = car.shape.parts.get(figures.part ?? '')?.centreline;
      const direction = line?.pieces.find(
        (piece) => piece.kind === 'leg' && distance(piece.from, barPoint) < piece.length,
      );
      if (direction?.kind !== 'leg') throw new Error('no leg');
      for (const p of all) {
        const rel = sub(p, barPoint);
        const aside = Math.sqrt(Math.max(0, dot(rel, rel) - dot(rel, direction.direction) ** 2));
        expect(aside).toBeGreaterThan(radius);
      }
    }
  });
});

/** Whether a point is in a closed surface: a ray meets it an odd number of times. */
function isInside({ positions, indices }: Mesh, at: Vec3): boolean {
  const way: Vec3 = [0.3123, 0.7561, 0.5751];
  let met = 0;
  const corner = (i: number): Vec3 => [
    positions[3 * i] ?? NaN,
    positions[3 * i + 1] ?? NaN,
    positions[3 * i + 2] ?? NaN,
  ];
  const crossOf = (a: Vec3, b: Vec3): Vec3 => [
    a[1] * b[2] - a[2] * b[1],
    a[2] * b[0] - a[0] * b[2],
    a[0] * b[1] - a[1] * b[0],
  ];
  for (let t = 0; t < indices.length; t += 3) {
    // T. Möller, B. Trumbore: Fast, minimum storage ray/triangle intersection, 1997.
    const [a, b, c] = [corner(indices[t] ?? 0), corner(indices[t + 1] ?? 0), corner(indices[t + 2] ?? 0)];
    const [u, v] = [sub(b, a), sub(c, a)];
    const p = crossOf(way, v);
    const det = dot(u, p);
    if (Math.abs(det) < 1e-12) continue;
    const s = sub(at, a);
    const x = dot(s, p) / det;
    const q = crossOf(s, u);
    const y = dot(way, q) / det;
    if (x >= 0 && y >= 0 && x + y <= 1 && dot(v, q) / det > 0) met += 1;
  }
  return met % 2 === 1;
}

describe('a car of any size', () => {
  it('has finite meshes or none, and throws at nothing', async () => {
    for (const far of ['0.001', '1', '1000000', '900000000000']) {
      const text =
        `units mm\nsection t { od 45; wall 2.5 }\ndie d { od 45; radius 100 }\nnode a = (0, 0, 0)\nnode b = (0, ${far}, ${far})\n` +
        `node c = (${far}, 0, ${far})\ntube t { section t; path a, b; first open; last open }\ntube u { section t; die d; path a, b, c }\n` +
        `seat s { slots (${far}, 0, ${far}); recline 89 deg; slot-spacing ${far}; back ${far}; helmet (forward ${far}, up 1) radius ${far} }\n` +
        `strap k { seat s; slot left; to t; width 75 }\npanel p as floor { outline a, b, c }\npadding t { thickness ${far}; standard foam }\n` +
        `foot f { at a; plate ${far} x 110 x 3; lies square; hole ${far} }\nhole t for drain { at a; from 1; clock 90; dia ${far} }\n`;
      const { cage, shape } = await analyse(text);
      for (const { id, made } of meshesOf(cage, shape)) {
        const mesh = made()?.mesh;
        for (const list of mesh === undefined ? [] : [mesh.positions, mesh.normals, mesh.lines])
          expect(list.every(Number.isFinite), `${id} ${far}`).toBe(true);
      }
    }
  });

  it('of 400 tubes has all their meshes', async () => {
    const rails = Array.from(
      { length: 399 },
      (_, i) =>
        `node p${String(i)} = on post at ${String(50 + 10 * i)} from a\nnode q${String(i)} = (600, ${String((i % 7) * 10)}, ${String(50 + 10 * i)})\n` +
        `tube r${String(i)} { section thin; path p${String(i)}, q${String(i)}; last open }`,
    );
    const { cage, shape } = await analyse(
      `units mm\nsection t { od 45; wall 2.5 }\nsection thin { od 8; wall 1 }\nnode a = (0, 0, 0)\nnode b = (0, 0, 4100)\n` +
        `tube post { section t; path a, b; first open; last open }\n${rails.join('\n')}\n`,
    );
    const made = meshesOf(cage, shape).filter(({ kind }) => kind === 'tube');
    expect(made.length).toBe(400);
    expect(made.filter(({ made: make }) => make() === null).map(({ id }) => id)).toEqual([]);
  });
});

describe('outlines', () => {
  it('are cut into triangles of their whole area; one that crosses itself is not', () => {
    const shape = (...flat: readonly (readonly [number, number])[]): readonly Vec3[] => flat.map(([x, y]) => [x, y, 5]);
    const notched = shape([0, 0], [4, 0], [4, 3], [3, 3], [3, 1], [1, 1], [1, 3], [0, 3]);
    const area = (outline: readonly Vec3[]): number =>
      (ears(outline) ?? []).reduce((sum, [a, b, c]) => {
        const [p, q, r] = [outline[a], outline[b], outline[c]];
        if (p === undefined || q === undefined || r === undefined) return NaN;
        return sum + ((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])) / 2;
      }, 0);
    expect(area(notched)).toBeCloseTo(8, 9);
    expect(ears(shape([0, 0], [2, 2], [2, 0], [0, 2]))).toBeNull();
    expect(ears(shape([0, 0], [1, 0], [2, 0]))).toBeNull();
  });
});

describe('the cache', () => {
  it('gives the same mesh while a thing stays the same, and makes only what has changed', async () => {
    const text = (z: number): string =>
      `units mm\nsection t { od 40; wall 2 }\nnode a = (0, 0, 0)\nnode b = (0, 0, 600)\nnode c = (500, 0, ${String(z)})\nnode d = (500, 0, 900)\n` +
      `tube post { section t; path a, b; first open; last open }\ntube other { section t; path c, d; first open; last open }\n`;
    const project = new Project();
    const cache = newMeshCache();
    const car = async (content: string): Promise<Analysis> =>
      project.analyse(await project.load(mapHost(new Map([['x.cage', content]])), 'x.cage', content));
    const meshes = async (content: string): Promise<ReadonlyMap<string, Mesh | undefined>> => {
      const { cage, shape } = await car(content);
      return new Map(meshesOf(cage, shape, cache).map(({ id, made }) => [id, made()?.mesh]));
    };
    const before = await meshes(text(100));
    const after = await meshes(text(150));
    expect(after.get('tube:post')).toBe(before.get('tube:post'));
    expect(after.get('tube:other')).not.toBe(before.get('tube:other'));
    expect(cache.takeMisses()).toBe(3);
    await meshes(`# a line above\n${text(150)}`);
    expect(cache.takeMisses()).toBe(0);
  });
});
