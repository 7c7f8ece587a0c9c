/**
 * The meshes of everything in a car, made when somebody asks for them, and kept while what they are made of stays the
 * same. A thing with a figure missing has no mesh. Millimetres.
 */
import type { Cage } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { gussetCorners, platesOf } from '../drawing/things';
import { outerRadius } from '../geometry/axis';
import { Kept } from '../geometry/kept';
import type { Shape } from '../geometry/shape';
import { partsOf } from '../geometry/stretch';
import type { Mesh } from './mesh';
import { boxOf, keyOf } from './mesh';
import type { Fineness } from './pipe';
import { TO_VIEW } from './pipe';
import { footMesh, gussetMesh } from './plates';
import { tubeMesh } from './tube';

/** What a thing is; how it looks hangs on it. */
export type MeshKind =
  | 'tube'
  | 'existing-tube'
  | 'foot'
  | 'gusset'
  | 'collar'
  | 'vent'
  | 'hole'
  | 'padding'
  | 'seat'
  | 'helmet'
  | 'strap'
  | 'panel'
  | 'anchor'
  | 'space';

/** A mesh with what is read off it once. */
export interface MadeMesh {
  readonly mesh: Mesh;
  readonly box: readonly [Vec3, Vec3];
  /** The same key, the same mesh, in any run. */
  readonly key: string;
}

export interface MeshedThing {
  /** Unique in the car and the same after an edit: `tube:harness-bar`, `helmet:driver`. */
  readonly id: string;
  readonly kind: MeshKind;
  /** Of the statement's thing; of a tube that of its part; of a space that of its first part. */
  readonly name: string;
  /** Null: something that it hangs on is not known. */
  readonly made: () => MadeMesh | null;
}

/** Meshes by id, each with what it was made of. One for each car that is looked at. */
export type MeshCache = Kept<MadeMesh | null>;
export const newMeshCache = (): MeshCache => new Kept();

type Make = () => Mesh | null;

const madeOf = (mesh: Mesh | null): MadeMesh | null => {
  const box = mesh === null ? null : boxOf(mesh);
  return mesh === null || box === null ? null : { mesh, box, key: keyOf(mesh) };
};

/** All things that have a surface, in the cage's order: tubes first. Begins a new round of the cache. */
export function meshesOf(
  cage: Cage,
  shape: Shape,
  cache: MeshCache = newMeshCache(),
  fineness: Fineness = TO_VIEW,
): readonly MeshedThing[] {
  cache.sweep();
  const things: MeshedThing[] = [];
  const add = (kind: MeshKind, name: string, from: readonly unknown[], make: Make): void => {
    const id = `${kind === 'existing-tube' ? 'tube' : kind}:${name}`;
    things.push({ id, kind, name, made: () => cache.get(id, [fineness, ...from], () => madeOf(make())) });
  };
  for (const part of shape.parts.values())
    add(part.tube.existing ? 'existing-tube' : 'tube', part.name, [part], () => tubeMesh(part, fineness));
  for (const plate of platesOf(shape)) {
    const { foot, centre, halves, under } = plate;
    add('foot', foot.name, [foot, ...centre, ...halves.flat(), ...under], () => footMesh(plate));
  }
  for (const thing of cage.things.values()) {
    if (thing.kind === 'gusset') {
      const corners = gussetCorners(shape, thing);
      const tubes = (thing.between ?? []).flatMap((name) => (name === null ? [] : partsOf(shape.parts, name)));
      const width = 2 * Math.min(...tubes.map(outerRadius));
      add('gusset', thing.name, [thing, width, ...(corners ?? []).flat()], () =>
        corners === null ? null : gussetMesh({ gusset: thing, corners, width }),
      );
    }
  }
  return things;
}
