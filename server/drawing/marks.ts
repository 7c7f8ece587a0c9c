/** What is measured on a drawing, before it has its place on paper: in the car's frame, with the figure in words. */
import type { Vec3 } from '../centreline/vector';

interface Common {
  /** The quantity, by the code of whatever judges it: `strap.drop`. */
  readonly what: string;
  /** Full names of what was measured. */
  readonly of: readonly string[];
  /** The figure, in words: `drop 8.7°`. The names are set beside it. */
  readonly says: string;
  /** The figure in degrees or millimetres. */
  readonly value: number;
  /** Only the figure is written, without the names. */
  readonly brief?: boolean;
}

export type Mark =
  /**
   * The angle at `at` from one direction to another, each as long as it is drawn. Both lie in the plane in which the angle is
   * measured, so that it is the figure in space too.
   */
  | (Common & { readonly kind: 'angle'; readonly at: Vec3; readonly from: Vec3; readonly to: Vec3 })
  /** From point to point. `offset`: the line stands so far beside them, mm of paper; 0: between them. */
  | (Common & { readonly kind: 'distance'; readonly from: Vec3; readonly to: Vec3; readonly offset: number })
  /** A place with words. */
  | (Common & { readonly kind: 'spot'; readonly at: Vec3 });

/** A direction as it is seen from the side of the car, and from above. */
export const fromSide = ([x, , z]: Vec3): Vec3 => [x, 0, z];
export const fromAbove = ([x, y]: Vec3): Vec3 => [x, y, 0];

/** A number on a tube: the key beside the drawing says which it is. */
export interface Numbered {
  readonly number: number;
  /** Names of parts that carry it: twins share one. */
  readonly parts: readonly string[];
}
