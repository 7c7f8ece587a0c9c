/** What the graph gives: values of lets, places of nodes, centrelines of tubes, planes. */
import type { PathResult } from '../centreline/centreline';
import type { Vec3 } from '../centreline/vector';
import { dot } from '../centreline/vector';
import type { Side } from './cage';
import type { Definition } from './names';

/** A plane of the car, or its image. */
export interface FlatPlane {
  readonly at: Vec3;
  readonly runs: 'across' | 'along';
  /** Unit: left for `across`, forward for `along`. */
  readonly first: Vec3;
  /** Unit, leaned. */
  readonly up: Vec3;
}

/** A node of a path, as the text names it. */
export interface PathNode {
  readonly definition: Definition;
  readonly side: Side | null;
}

/** A tube's path. */
export class Path {
  constructor(
    /** Null where the name is not known. */
    readonly nodes: readonly (PathNode | null)[],
    readonly result: PathResult,
  ) {}

  get centreline(): PathResult['centreline'] {
    return this.result.centreline;
  }

  /** The two ends of each leg, or bend, that lies in a plane. */
  legsIn(normal: Vec3, offset: number): readonly (readonly [Vec3, Vec3])[] {
    const points = this.result.centreline?.points ?? [];
    const pairs = points.slice(1).map((to, i): readonly [Vec3, Vec3] => [points[i] ?? to, to]);
    return pairs.filter((pair) => pair.every((p) => Math.abs(dot(p, normal) - offset) <= IN_PLANE));
  }
}

/** Heights within this of a plane lie in it, mm. */
const IN_PLANE = 1e-6;
