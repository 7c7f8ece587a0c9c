/**
 * The meshes of everything in a car, made when somebody asks for them, and kept while what they are made of stays the
 * same. A thing with a figure missing has no mesh. Millimetres.
 */
import type { Cage, Gusset, Thing, Vent } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import type { Corners } from '../geometry/gusset-corners';
import { gussetTubes, gussetWidth } from '../drawing/gusset-bodies';
import { gussetCorners } from '../geometry/gusset-corners';
import { platesOf } from '../drawing/things';
import { Kept } from '../geometry/kept';
import type { Shape, StrapFigures } from '../geometry/shape';
import { seatIn } from '../geometry/straps';
import { collarOnBar } from '../geometry/straps-on-bar';
import { partsOf } from '../geometry/stretch';
import { anchorMesh, panelMesh } from './beside';
import { fittedPart, fittingMesh } from './fitting';
import type { Mesh } from './mesh';
import { boxOf, keyOf, merged } from './mesh';
import { collarMesh, holeMesh, paddingMesh, ventMesh } from './on-tube';
import type { Fineness } from './pipe';
import { TO_VIEW } from './pipe';
import { footMesh, gussetMesh } from './plates';
import { helmetMesh, seatMesh } from './seat';
import { strapMesh } from './strap';
import { spaceMesh, tubeMesh } from './tube';

/** What a thing is; how it looks hangs on it. */
export type MeshKind =
  | 'tube'
  | 'existing-tube'
  | 'foot'
  | 'gusset'
  | 'collar'
  | 'fitting'
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
  /** What its surface is made from: while these are the same objects and numbers, so is the surface. */
  readonly from: readonly unknown[];
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
  const add: Add = (kind, name, from, make, number) => {
    const id = `${kind === 'existing-tube' ? 'tube' : kind}:${name}${number === undefined ? '' : `#${String(number)}`}`;
    things.push({ id, kind, name, from, made: () => cache.get(id, [fineness, ...from], () => madeOf(make())) });
  };
  for (const part of shape.parts.values())
    add(part.tube.existing ? 'existing-tube' : 'tube', part.name, [part], () => tubeMesh(part, fineness));
  for (const plate of platesOf(shape)) {
    const { foot, centre, halves, under } = plate;
    add('foot', foot.name, [foot, ...centre, ...halves.flat(), ...under], () => footMesh(plate));
  }
  const gussets = gussetCorners(shape);
  for (const thing of cage.things.values()) {
    if (thing.kind === 'gusset') addGusset(thing, gussets.get(thing.name) ?? null, shape, add);
    else addThing(thing, cage, shape, fineness, add);
  }
  for (const figures of shape.straps) addStrap(figures, cage, shape, fineness, add);
  for (const { vented, tubes } of shape.spaces) {
    const parts = tubes.flatMap((name) => shape.parts.get(name) ?? []);
    if (vented !== false || parts.every(({ tube }) => tube.existing)) continue;
    add('space', tubes[0] ?? '', parts, () => merged(parts.map((part) => spaceMesh(part, fineness))));
  }
  return things;
}

/** `from`: everything that the mesh is made of; `number`: of several things of one name. */
type Add = (kind: MeshKind, name: string, from: readonly unknown[], make: Make, number?: number) => void;

function addGusset(gusset: Gusset, corners: Corners | null, shape: Shape, add: Add): void {
  const width = gussetWidth(gussetTubes(gusset, shape));
  add('gusset', gusset.name, [gusset, width, ...(corners ?? []).flat()], () =>
    corners === null ? null : gussetMesh({ gusset, corners, width }),
  );
}

/** What lies on a tube hangs on the tube's parts, and a vent also on its node and on what cuts its tube. */
function addVent(vent: Vent, cage: Cage, shape: Shape, add: Add): void {
  const children = vent.tube === null ? [] : partsOf(shape.parts, vent.tube);
  const hosts = typeof vent.to === 'string' ? partsOf(shape.parts, vent.to) : [];
  const cutters = children.flatMap(({ ends }) => ends.flatMap((end) => end.hosts.map((host) => shape.parts.get(host))));
  const node = vent.node === null ? null : cage.things.get(vent.node);
  add('vent', vent.name, [vent, node, ...children, ...hosts, ...cutters], () => ventMesh(vent, cage, shape));
}

function addThing(thing: Thing, cage: Cage, shape: Shape, fineness: Fineness, add: Add): void {
  const { parts } = shape;
  switch (thing.kind) {
    case 'collar': {
      const bars = thing.tube === null ? [] : partsOf(parts, thing.tube);
      add('collar', thing.name, [thing, ...bars], () => {
        const on = collarOnBar(thing, parts);
        return on === null ? null : collarMesh(on.part, on.collars, fineness);
      });
      return;
    }
    case 'fitting': {
      const part = fittedPart(thing, parts);
      add('fitting', thing.name, [thing, part], () => fittingMesh(thing, part, fineness));
      return;
    }
    case 'vent':
      addVent(thing, cage, shape, add);
      return;
    case 'hole':
      add('hole', thing.name, [thing, ...(thing.tube === null ? [] : partsOf(parts, thing.tube))], () =>
        holeMesh(thing, shape),
      );
      return;
    case 'padding': {
      const padded = thing.tube === null ? [] : partsOf(parts, thing.tube);
      add('padding', thing.name, [thing, ...padded], () => paddingMesh(thing, padded, fineness));
      return;
    }
    case 'seat':
      add('seat', thing.name, [thing], () => seatMesh(thing));
      if (thing.helmet !== null) add('helmet', thing.name, [thing], () => helmetMesh(thing));
      return;
    case 'door':
    case 'panel':
      add('panel', thing.name, [thing], () => panelMesh(thing));
      return;
    case 'anchor':
      add('anchor', thing.name, [thing], () => anchorMesh(thing));
      return;
    default:
  }
}

/** A strap, and its own collars. */
function addStrap(figures: StrapFigures, cage: Cage, shape: Shape, fineness: Fineness, add: Add): void {
  const strap = cage.things.get(figures.name);
  if (strap?.kind !== 'strap') return;
  const seat = figures.seat === null ? null : seatIn(cage)(figures.seat);
  const part = figures.part === null ? null : (shape.parts.get(figures.part) ?? null);
  add('strap', strap.name, [strap, figures, seat, part], () => strapMesh(strap, figures, seat, part));
  if (part === null) return;
  figures.collars.forEach((collar, i) => {
    add('collar', strap.name, [part, collar.from, collar.to], () => collarMesh(part, [collar], fineness), i + 1);
  });
}
