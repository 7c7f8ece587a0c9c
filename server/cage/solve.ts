/**
 * Lets, nodes, tube paths, planes and dies are one dependency graph, worked out in whatever order it asks for.
 *
 * There are two worlds. In the real one stands the car. In its image everything is reflected in y = 0 and left and right
 * have changed places: `foot.left` there is the reflection of `foot.right` here. The text of a mirror block is read
 * once in each; what it gives in the image, reflected back, is the twin.
 */
import { buildPath } from '../centreline/build';
import type { Vec3 } from '../centreline/vector';
import { add, mirrorY } from '../centreline/vector';
import type { Die, LetValue, Side } from './cage';
import { circleFindings } from './circles';
import type { Value } from './evaluate';
import { CENTRE, tell, worth } from './evaluate';
import { dieFrom } from './die';
import type { FactReader } from './facts';
import type { Definition } from './names';
import { nameOn, otherSide } from './names';
import type { Vertex } from './order';
import { settle } from './order';
import { Page } from './page';
import { planeFrom } from './planes';
import type { KnownShapes, Placed, PlaceReading } from './places';
import { placed } from './places';
import type { Reporter, World } from './reporter';
import type { Target } from './resolve';
import { twinSide } from './resolve';
import type { FlatPlane, PathNode } from './solved';
import { Path } from './solved';

/** A move of one node, written for one side (null: the node exists once). */
export interface Adjustment {
  readonly side: Side | null;
  /** Names on which the move hangs. */
  readonly needs: readonly Target[];
  /** The move itself, mm, from where the node stands without it; null where it cannot be told. */
  readonly move: (from: Vec3, reading: Omit<PlaceReading, 'scope' | 'subject'>) => Vec3 | null;
}

const NO_MOVES: readonly Adjustment[] = [];

type Kind = 'let' | 'node' | 'tube' | 'plane' | 'die';

interface Thing extends Vertex {
  readonly kind: Kind;
  readonly definition: Definition;
  readonly world: World;
  /** Lets, planes and dies: null. Nodes exist in the real world only, their images are read off. */
  readonly side: Side | null;
  value: Value | Placed | Path | FlatPlane | Die | null;
}

export class Solver implements KnownShapes {
  private readonly circles: Definition[][] = [];

  constructor(
    private readonly facts: FactReader,
    private readonly reporter: Reporter,
    private readonly adjustments: ReadonlyMap<Definition, readonly Adjustment[]>,
  ) {}

  private vertex(definition: Definition, side: Side | null, world: World): Thing {
    const kind = definition.kind as Kind;
    const slot = (world === 'image' ? 2 : 0) + (side !== null && side !== definition.side ? 1 : 0);
    if (definition.vertices.length === 0) definition.vertices = [undefined, undefined, undefined, undefined];
    const made = definition.vertices[slot];
    if (made !== undefined) return made as Thing;
    const thing: Thing = { kind, definition, world, side, value: null, mark: 0, low: 0 };
    definition.vertices[slot] = thing;
    return thing;
  }

  /** The vertex that holds what `target` means in a world. */
  private vertexOf(target: PathNode, world: World): Thing | null {
    const { definition } = target;
    switch (definition.kind) {
      case 'let':
        return this.vertex(definition, null, world);
      case 'tube':
        return this.vertex(definition, target.side, world);
      case 'node':
        return this.vertex(definition, world === 'real' ? target.side : twinSide(target.side), 'real');
      case 'plane':
      case 'die':
        return this.vertex(definition, null, 'real');
      default:
        return null;
    }
  }

  private readonly needs = (thing: Thing): readonly Thing[] => {
    const { definition } = thing;
    const out: Thing[] = [];
    const push = (target: PathNode, world: World): void => {
      const need = this.vertexOf(target, world);
      if (need !== null) out.push(need);
    };
    const world = this.textWorld(thing);
    const swap = this.isSwapped(thing);
    for (const target of this.facts.hangsOn(definition)) {
      push(swap ? { definition: target.definition, side: twinSide(target.side) } : target, world);
    }
    if (thing.kind === 'node') {
      for (const adjustment of this.adjustmentsOf(thing)) for (const target of adjustment.needs) push(target, 'real');
    }
    return out;
  };

  private isTwin(thing: Thing): boolean {
    return thing.side !== null && thing.side !== thing.definition.side;
  }

  /**
   * True for a tube that is read with the sides of its text swapped: one of the other side, in the same world; and the
   * image of one that exists once and lies to one side, such as a diagonal. Its text would give the diagonal that the car
   * does not have.
   */
  private isSwapped(thing: Thing): boolean {
    if (thing.kind !== 'tube') return false;
    return thing.side === null ? thing.world === 'image' && !this.isEven(thing.definition) : this.isTwin(thing);
  }

  /** True for a tube that exists once and whose path, with left and right swapped, is the same path from its other end. */
  isEven(tube: Definition): boolean {
    const path = this.facts.pathOf(tube);
    return path.every((node, i) => {
      const other = path[path.length - 1 - i] ?? null;
      return node !== null && other?.definition === node.definition && other.side === twinSide(node.side);
    });
  }

  /** The world in which the text is read to get this: a twin node is what the text gives in the image. */
  private textWorld(thing: Thing): World {
    return thing.kind === 'node' && this.isTwin(thing) ? 'image' : thing.world;
  }

  private adjustmentsOf(thing: Thing): readonly Adjustment[] {
    const all = this.adjustments.get(thing.definition);
    return all === undefined ? NO_MOVES : all.filter(({ side }) => side === thing.side);
  }

  private settled(thing: Thing): Thing {
    if (thing.mark === 0) {
      settle(thing, this.needs, (component, circle) => {
        if (circle) this.circles.push(component.map((member) => member.definition));
        else for (const member of component) member.value = this.compute(member);
      });
    }
    return thing;
  }

  /** Works out a definition: both twins of it, in the car itself. */
  solve(definition: Definition): void {
    this.settled(this.vertex(definition, definition.side, 'real'));
    if (definition.side !== null) this.settled(this.vertex(definition, otherSide(definition.side), 'real'));
  }

  /** Works out what a text hangs on, in the world in which it is going to be read. */
  prepare(targets: readonly Target[], world: World): void {
    for (const target of targets) {
      const vertex = this.vertexOf(target, world);
      if (vertex !== null) this.settled(vertex);
    }
  }

  /** Reports the circles that were met; true where there were any. To be called once, at the end. */
  tellCircles(): boolean {
    const hangsOn = (d: Definition): readonly PathNode[] => [
      ...this.facts.hangsOn(d),
      ...(this.adjustments.get(d) ?? []).flatMap(({ needs }) => needs),
    ];
    for (const { links, first, notes } of circleFindings(this.circles, hangsOn)) {
      const subject = nameOn(first, first.side);
      const told = notes.map(({ at, message }) => ({ scope: at.scope, span: at.nameSpan, message }));
      this.reporter.ofNames(first, 'name.cycle', first.scope, first.nameSpan, { links }, { subject, notes: told });
    }
    return this.circles.length > 0;
  }

  letValue(definition: Definition, world: World): Value | null {
    return this.settled(this.vertex(definition, null, world)).value as Value | null;
  }

  /** What a let is worth in the car itself. */
  letFigure(definition: Definition): LetValue | null {
    const value = this.letValue(definition, 'real');
    return value?.kind === 'quantity' ? { value: value.value, dimension: value.dimension, bare: value.bare } : null;
  }

  /** A node in the car itself, with what is known of how it was placed. */
  node(definition: Definition, side: Side | null): Placed | null {
    return this.settled(this.vertex(definition, side, 'real')).value as Placed | null;
  }

  nodeAt(definition: Definition, side: Side | null, world: World): Vec3 | null {
    const there = this.node(definition, world === 'real' ? side : twinSide(side));
    if (there === null) return null;
    return world === 'real' ? there.at : mirrorY(there.at);
  }

  tubePath(definition: Definition, side: Side | null, world: World): Path | null {
    return this.settled(this.vertex(definition, side, world)).value as Path | null;
  }

  planeOf(definition: Definition, world: World): FlatPlane | null {
    const plane = this.settled(this.vertex(definition, null, 'real')).value as FlatPlane | null;
    if (plane === null || world === 'real') return plane;
    return { ...plane, at: mirrorY(plane.at), up: mirrorY(plane.up) };
  }

  dieOf(definition: Definition): Die | null {
    return this.settled(this.vertex(definition, null, 'real')).value as Die | null;
  }

  private reading(thing: Thing): PlaceReading {
    return {
      owner: thing.definition,
      scope: thing.definition.scope,
      world: this.textWorld(thing),
      subject: nameOn(thing.definition, thing.side),
      known: this,
      reporter: this.reporter,
    };
  }

  private compute(thing: Thing): Thing['value'] {
    switch (thing.kind) {
      case 'let':
        return this.computeLet(thing);
      case 'node':
        return this.computeNode(thing);
      case 'tube':
        return this.computeTube(thing);
      case 'plane':
        return planeFrom(this.page(thing.definition));
      case 'die':
        return dieFrom(thing.definition, this.page(thing.definition));
    }
  }

  private page(definition: Definition): Page {
    return new Page(this.facts, this, this.reporter, definition, definition.name, false);
  }

  private computeLet(thing: Thing): Value | null {
    const expr = this.facts.letValue(thing.definition);
    if (expr === null) return null;
    const reading = this.reading(thing);
    const value = worth(expr, reading);
    if (value?.kind !== 'spot') return value;
    const params = { fact: thing.definition.name, wanted: 'a figure; a place is named by node' };
    return tell(reading, expr.span, { kind: 'fault', code: 'fact.value', params });
  }

  private computeNode(thing: Thing): Placed | null {
    const { definition } = thing;
    const place = this.facts.nodePlace(definition);
    if (place === null) return null;
    const reading = this.reading(thing);
    const there = placed(place, reading);
    if (there === null) return null;
    if (definition.side !== null && Math.abs(there.at[1]) <= CENTRE) {
      const why = 'lies on the centreline, where left and right are one: write it outside mirror';
      tell(reading, definition.nameSpan, { kind: 'fault', code: 'name.side', params: { name: definition.name, why } });
    }
    const twin = this.isTwin(thing);
    let at = twin ? mirrorY(there.at) : there.at;
    const from = at;
    let moved = false;
    for (const adjustment of this.adjustmentsOf(thing)) {
      const move = adjustment.move(from, { owner: definition, world: 'real', known: this, reporter: this.reporter });
      if (move === null) continue;
      at = add(at, move);
      moved = moved || move.some((c) => c !== 0);
    }
    const on =
      there.on === null || moved ? null : { ...there.on, side: twin ? twinSide(there.on.side) : there.on.side };
    return { at, miss: there.miss, on };
  }

  private computeTube(thing: Thing): Path | null {
    const swap = this.isSwapped(thing);
    const nodes = this.facts
      .pathOf(thing.definition)
      .map((node): PathNode | null =>
        node === null ? null : { definition: node.definition, side: swap ? twinSide(node.side) : node.side },
      );
    const points = nodes.map((n) => (n === null ? null : this.nodeAt(n.definition, n.side, thing.world)));
    const known = points.filter((p): p is Vec3 => p !== null);
    if (known.length < points.length || known.length < 2) {
      return new Path(nodes, { centreline: null, corners: [], problems: [] });
    }
    const die = this.facts.dieOf(thing.definition);
    const radius = die === null || die === 'unknown' ? null : (this.dieOf(die)?.radius ?? null);
    const result = buildPath(known, radius);
    // A die that is named, but wrong, has its own finding; the tube does not lack one.
    const excused = die !== null && radius === null;
    const problems = excused ? result.problems.filter((p) => p.kind !== 'no-radius') : result.problems;
    return new Path(nodes, { ...result, problems });
  }
}
