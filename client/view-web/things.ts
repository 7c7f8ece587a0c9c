/** The bodies in the scene: one for each thing that has a mesh, kept by its key, so that an edit touches what it changed. */
import { BufferGeometry, Group, LineSegments, Mesh, type Object3D, Vector3 } from 'three';
import type { WireModel, WireThing } from '../../server/lsp/view-wire';
import type { Point3 } from '../../server/view/model';
import { formOf, free, spreadOver, type Form } from './form';
import { isRound, isSolid, type Looks, type Rim, type Severity, type State } from './looks';

interface Held {
  thing: WireThing;
  /** Of the last model; `tried`: of what a hand tries just now. */
  base: Form | null;
  tried: Form | null;
  readonly body: Mesh;
  readonly edges: LineSegments;
  rim: Mesh | null;
  mask: Mesh | null;
  through: Mesh | null;
}

/** What shows on each thing besides its kind. */
export interface Showing {
  readonly lit: ReadonlySet<string>;
  /** The worst open finding of each. */
  readonly worst: ReadonlyMap<string, Severity>;
  /** When something is looked at closely, what stays clear; null: all. */
  readonly clear: ReadonlySet<string> | null;
  readonly hidden: (thing: WireThing) => boolean;
}

const EMPTY = new BufferGeometry();

export class Things {
  readonly group = new Group();
  private readonly held = new Map<string, Held>();
  private showing: Showing = { lit: new Set(), worst: new Map(), clear: null, hidden: () => false };

  constructor(private looks: Looks) {}

  /** Bodies that a ray may meet. */
  bodies(): Mesh[] {
    return [...this.held.values()].filter(({ body }) => body.visible).map(({ body }) => body);
  }

  thing(id: string): WireThing | null {
    return this.held.get(id)?.thing ?? null;
  }

  /** Where words about a thing stand; null: it is not on the picture. */
  middle(id: string): Point3 | null {
    const held = this.held.get(id);
    return held?.body.visible ? ((held.tried ?? held.base)?.middle ?? null) : null;
  }

  /** Places spread over a thing as it stands; none: it is not on the picture. */
  spread(id: string): readonly Point3[] {
    const held = this.held.get(id);
    return held?.body.visible ? spreadOver(held.body.geometry) : [];
  }

  /** The newest model: what changed is built, what is gone is freed. Returns how many were built. */
  update(model: WireModel): number {
    let built = 0;
    const stays = new Set<string>();
    for (const thing of model.things) {
      stays.add(thing.id);
      const held = this.held.get(thing.id) ?? this.hold(thing);
      const restyled = held.thing.kind !== thing.kind;
      held.thing = thing;
      const before = held.base;
      if (thing.mesh && before?.key !== thing.key) {
        // What was tried and is now written has been built already.
        if (held.tried?.key === thing.key) {
          held.base = held.tried;
          held.tried = null;
        } else {
          held.base = formOf(thing.key, thing.mesh);
          built += 1;
        }
        free(before);
      } else if (!thing.mesh && thing.box === null) {
        free(before);
        held.base = null;
      }
      this.endTry(held);
      if (restyled) this.dress(held);
    }
    for (const [id, held] of this.held) if (!stays.has(id)) this.drop(id, held);
    return built;
  }

  /** A model over the last one: what it brings is shown until the next. */
  try(model: WireModel): void {
    const stays = new Set<string>();
    for (const thing of model.things) {
      stays.add(thing.id);
      const held = this.held.get(thing.id) ?? this.hold(thing);
      if (thing.mesh && held.base?.key !== thing.key) {
        if (held.tried?.key !== thing.key) {
          free(held.tried);
          held.tried = formOf(thing.key, thing.mesh);
        }
        this.place(held, held.tried);
      } else {
        this.endTry(held);
        if (thing.mesh === null && thing.box === null) this.place(held, null);
      }
    }
    for (const [id, held] of this.held) if (!stays.has(id)) this.place(held, null);
  }

  /** Back to the last model. */
  forgetTry(): void {
    for (const held of this.held.values()) this.endTry(held);
  }

  private endTry(held: Held): void {
    free(held.tried);
    held.tried = null;
    this.place(held, held.base);
  }

  private hold(thing: WireThing): Held {
    const body = new Mesh(EMPTY);
    const edges = new LineSegments(EMPTY);
    body.userData = { id: thing.id };
    // They stand in the car's frame and move only when one is backed off.
    body.matrixAutoUpdate = edges.matrixAutoUpdate = false;
    body.renderOrder = thing.kind === 'space' ? 5 : 0;
    this.group.add(body, edges);
    const held: Held = { thing, base: null, tried: null, body, edges, rim: null, mask: null, through: null };
    this.held.set(thing.id, held);
    this.dress(held);
    return held;
  }

  private drop(id: string, held: Held): void {
    free(held.base);
    free(held.tried);
    for (const object of [held.body, held.edges, held.rim, held.mask, held.through])
      if (object) this.group.remove(object);
    this.held.delete(id);
  }

  private place(held: Held, form: Form | null): void {
    const surface = form?.surface ?? EMPTY;
    if (held.body.geometry === surface && held.edges.geometry === (form?.lines ?? EMPTY)) return;
    held.body.geometry = surface;
    held.edges.geometry = form?.lines ?? EMPTY;
    for (const extra of [held.rim, held.mask, held.through]) if (extra) extra.geometry = surface;
    this.dress(held);
  }

  /** What is lit, wrong, faded or hidden now. */
  show(showing: Showing): void {
    this.showing = showing;
    for (const held of this.held.values()) this.dress(held);
  }

  /** Another theme. */
  restyle(looks: Looks): void {
    this.looks = looks;
    this.show(this.showing);
  }

  private dress(held: Held): void {
    const { lit, worst, clear, hidden } = this.showing;
    const { thing, body, edges } = held;
    const isLit = lit.has(thing.id);
    const bad = worst.get(thing.id) ?? null;
    const state: State = isLit ? 'lit' : clear && !clear.has(thing.id) ? 'faded' : 'plain';
    const visible = body.geometry !== EMPTY && !hidden(thing);
    body.visible = visible;
    edges.visible = visible && edges.geometry !== EMPTY;
    body.material = this.looks.thing(thing.kind, state, bad);
    const rim: Rim | null = !visible || state === 'faded' || thing.kind === 'space' ? null : isLit ? 'lit' : bad;
    edges.material = this.looks.line(state, isRound(thing.kind) ? null : rim);
    const glass = !isSolid(thing.kind);
    held.mask = this.extra(held, held.mask, rim && glass ? this.looks.mask() : null, 2);
    held.rim = this.extra(held, held.rim, rim && this.looks.rim(rim, thing.kind), glass ? 3 : 1);
    held.through = this.extra(held, held.through, isLit && rim ? this.looks.through(rim) : null, 4);
  }

  private extra(held: Held, had: Mesh | null, material: Mesh['material'] | null, order: number): Mesh | null {
    if (!material) {
      if (had) this.group.remove(had);
      return null;
    }
    const mesh = had ?? new Mesh(held.body.geometry);
    mesh.geometry = held.body.geometry;
    mesh.material = material;
    mesh.renderOrder = order;
    mesh.matrixAutoUpdate = false;
    moveTo(mesh, held.body.position);
    if (!had) this.group.add(mesh);
    return mesh;
  }

  /** Backs one thing off by a vector, mm; all others stand where they are. */
  offset(id: string | null, by: Vector3): void {
    for (const held of this.held.values()) {
      const to = held.thing.id === id ? by : ORIGIN;
      const parts: (Object3D | null)[] = [held.body, held.edges, held.rim, held.mask, held.through];
      for (const part of parts) if (part) moveTo(part, to);
    }
  }
}

const ORIGIN = new Vector3();

function moveTo(object: Object3D, to: Vector3): void {
  if (object.position.equals(to)) return;
  object.position.copy(to);
  object.updateMatrix();
}
