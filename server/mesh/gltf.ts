/**
 * The car as glTF 2.0 (ISO/IEC 12113), one binary file: metres, y up, z forward, x to the car's left, as the standard has
 * it; a node for each thing, with its name. The same car gives the same bytes.
 */
import type { Accessor, GLTF, Material, Primitive } from '@gltf-transform/core';
import { Document, WebIO } from '@gltf-transform/core';
import type { Cage } from '../cage/cage';
import type { Part, Shape } from '../geometry/shape';
import { MESH_LOOKS } from './looks';
import type { Mesh } from './mesh';
import type { MeshedThing, MeshKind } from './meshes';
import { meshesOf } from './meshes';
import type { Fineness } from './pipe';
import { TO_VIEW } from './pipe';

const PER_METRE = 1000;
/** The standard's number for a primitive of lines. */
const LINES = 1;

/** The car's axes to those of the standard: left, up, forward. `by`: what lengths are divided by. */
function turned(list: Float32Array, by: number): Float32Array<ArrayBuffer> {
  const out = new Float32Array(list.length);
  for (let i = 0; i < list.length; i += 3) {
    out[i] = (list[i + 1] as number) / by;
    out[i + 1] = (list[i + 2] as number) / by;
    out[i + 2] = (list[i] as number) / by;
  }
  return out;
}

/** From a screen's share of a colour to light's (IEC 61966-2-1). */
const linear = (value: number): number => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);

const rounded = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

/** Facts of a part, for whoever reads the file as data: mm, kg. What is not known is left out. */
function factsOf(part: Part): Record<string, unknown> {
  const { section } = part.tube;
  const facts = {
    role: part.role,
    outsideDiameter: section?.od ?? null,
    wall: section?.wall ?? null,
    section: section?.name ?? null,
    material: section?.material.name ?? null,
    cutLength: part.cutLength,
    centrelineLength: part.centrelineLength,
    mass: part.mass,
    bends: part.bends.length,
  };
  return Object.fromEntries(
    Object.entries(facts).flatMap(([key, value]) =>
      value === null ? [] : [[key, typeof value === 'number' ? rounded(value) : value]],
    ),
  );
}

/** Made by a statement of another name or kind: its name says what it is. */
const OF_ANOTHER: readonly MeshKind[] = ['helmet', 'space'];

const nameOf = ({ id, kind, name }: MeshedThing): string =>
  OF_ANOTHER.includes(kind) || id.includes('#') ? `${name} ${kind}${/#.*$/.exec(id)?.[0].slice(1) ?? ''}` : name;

class Writer {
  readonly document = new Document();
  private readonly buffer = this.document.createBuffer();
  private readonly materials = new Map<MeshKind, Material>();

  private accessor(type: GLTF.AccessorType, list: NonNullable<ReturnType<Accessor['getArray']>>): Accessor {
    return this.document.createAccessor().setType(type).setArray(list).setBuffer(this.buffer);
  }

  private material(kind: MeshKind): Material {
    const known = this.materials.get(kind);
    if (known !== undefined) return known;
    const { colour, metal } = MESH_LOOKS[kind];
    const [red, green, blue] = colour.map(linear) as [number, number, number];
    const made = this.document
      .createMaterial(kind)
      .setBaseColorFactor([red, green, blue, 1])
      .setMetallicFactor(metal ? 0.7 : 0)
      .setRoughnessFactor(metal ? 0.45 : 0.8);
    this.materials.set(kind, made);
    return made;
  }

  private primitive(mesh: Mesh, kind: MeshKind): Primitive {
    const made = this.document.createPrimitive().setMaterial(this.material(kind));
    const { positions, normals, indices, lines } = mesh;
    if (indices.length === 0)
      return made.setMode(LINES).setAttribute('POSITION', this.accessor('VEC3', turned(lines, PER_METRE)));
    const short = positions.length / 3 < 0xffff;
    return made
      .setIndices(this.accessor('SCALAR', short ? new Uint16Array(indices) : indices.slice()))
      .setAttribute('POSITION', this.accessor('VEC3', turned(positions, PER_METRE)))
      .setAttribute('NORMAL', this.accessor('VEC3', turned(normals, 1)));
  }

  add(thing: MeshedThing, mesh: Mesh, extras: Record<string, unknown>): void {
    const name = nameOf(thing);
    const body = this.document.createMesh(name).addPrimitive(this.primitive(mesh, thing.kind));
    const node = this.document.createNode(name).setMesh(body).setExtras(extras);
    this.scene.addChild(node);
  }

  readonly scene = this.document.createScene('car');
}

/** The bytes of the file; null: there is nothing to draw. `maker`: `Cagewright 1.2.0`. */
export async function glbFile(
  cage: Cage,
  shape: Shape,
  maker: string,
  fineness: Fineness = TO_VIEW,
): Promise<Uint8Array | null> {
  const writer = new Writer();
  let count = 0;
  for (const thing of meshesOf(cage, shape, undefined, fineness)) {
    // A space is no body: it is told in the findings.
    const found = thing.kind === 'space' ? null : thing.made();
    if (found === null) continue;
    const part = shape.parts.get(thing.name);
    const isTube = thing.kind === 'tube' || thing.kind === 'existing-tube';
    writer.add(thing, found.mesh, { kind: thing.kind, ...(isTube && part !== undefined ? factsOf(part) : {}) });
    count += 1;
  }
  if (count === 0) return null;
  const root = writer.document.getRoot();
  root.setDefaultScene(writer.scene.setName(cage.title ?? cage.file));
  root.getAsset().generator = maker;
  return new WebIO().writeBinary(writer.document);
}
