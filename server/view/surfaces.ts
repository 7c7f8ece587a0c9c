/** How fine the surfaces of a picture are, and which of them are made anew while a hand drags. */
import type { Cage } from '../cage/cage';
import { sameItems } from '../geometry/kept';
import type { Shape } from '../geometry/shape';
import type { MadeMesh, MeshedThing } from '../mesh/meshes';
import { meshesOf, newMeshCache } from '../mesh/meshes';
import type { Fineness } from '../mesh/pipe';
import { TO_VIEW } from '../mesh/pipe';

/** The things of a car with their surfaces; each call is a car of its own, the next version of the one before. */
export type Surfaces = (cage: Cage, shape: Shape) => readonly MeshedThing[];

const COARSE: Fineness = { across: 0.4, along: 1, edge: 0.4 };

/** Of more parts than this the surfaces are coarser, so that what is sent and turned stays within bounds. */
const FINENESS: readonly (readonly [parts: number, fineness: Fineness])[] = [
  [400, TO_VIEW],
  [1500, COARSE],
  [Infinity, { across: 1, along: 3, edge: 1 }],
];

const finenessFor = ({ parts }: Shape): Fineness => FINENESS.find(([most]) => parts.size <= most)?.[1] ?? TO_VIEW;

/** Those of a judged car. */
export function judgedSurfaces(): Surfaces {
  const cache = newMeshCache();
  return (cage, shape) => meshesOf(cage, shape, cache, finenessFor(shape));
}

/** Those of a car that is tried out: what stays has its surface as it was judged; what moves is coarser, so that it follows the hand. */
export class TriedSurfaces {
  private readonly coarse = newMeshCache();
  private readonly still = new Map<string, { readonly from: readonly unknown[]; readonly made: MadeMesh | null }>();
  private judgement: object | null = null;

  /** Whether what is tried now is held against that judgement. */
  isOf(judgement: object): boolean {
    return this.judgement === judgement;
  }

  /**
   * From now on, what stays is told by this.
   * @param seen the car as it was judged, made of the parts that the tried ones are made of
   * @param judged its things with their surfaces
   */
  hold(
    judgement: object,
    { cage, shape }: { readonly cage: Cage; readonly shape: Shape },
    judged: readonly MeshedThing[],
  ): void {
    this.judgement = judgement;
    this.still.clear();
    const made = new Map(judged.map((thing) => [thing.id, thing]));
    for (const { id, from } of meshesOf(cage, shape, newMeshCache(), COARSE)) {
      const thing = made.get(id);
      if (thing !== undefined) this.still.set(id, { from, made: thing.made() });
    }
  }

  readonly surfaces: Surfaces = (cage, shape) =>
    meshesOf(cage, shape, this.coarse, COARSE).map((thing) => {
      const kept = this.still.get(thing.id);
      return kept !== undefined && sameItems(kept.from, thing.from) ? { ...thing, made: () => kept.made } : thing;
    });
}
