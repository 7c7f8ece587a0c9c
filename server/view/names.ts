/** From the names of the cage, as findings and figures say them, to things, parts and ids of the picture. */
import type { Thing } from '../cage/cage';
import type { Part, Shape } from '../geometry/shape';

/** Ids of nodes; things that are drawn have theirs from what was drawn. */
export const nodeId = (name: string): string => `node:${name}`;

/** A drawn thing, as far as its name goes. */
export interface Named {
  readonly id: string;
  readonly kind: string;
  readonly name: string;
}

/** Kinds that stand beside a thing of the same name and are not it: a helmet bears the name of its seat. */
const BESIDE: ReadonlySet<string> = new Set(['space']);

export class Names {
  private readonly ids = new Map<string, string[]>();
  private readonly atNode = new Map<string, string[]>();

  constructor(
    private readonly shape: Shape,
    drawn: readonly Named[],
  ) {
    for (const { id, kind, name } of drawn) if (!BESIDE.has(kind)) push(this.ids, name, id);
    for (const part of shape.parts.values()) {
      if (part.piece !== null) for (const id of this.ids.get(part.name) ?? []) push(this.ids, part.tube.name, id);
      for (const node of part.nodes)
        if (node !== null) for (const id of this.ids.get(part.name) ?? []) push(this.atNode, node, id);
    }
  }

  /** Full names that a name means: itself, or both sides of what stands on both. Empty: nothing is named so. */
  full(name: string): readonly string[] {
    const known = (one: string): boolean => this.shape.cage.things.has(one) || this.shape.parts.has(one);
    if (known(name)) return [name];
    const [, bare = name, piece = ''] = /^(.*?)(\.[ab])?$/s.exec(name) ?? [];
    return [`${bare}.left${piece}`, `${bare}.right${piece}`].filter(known);
  }

  /** The things of the cage that a name means; of a piece of a split tube that tube. */
  things(name: string): readonly Thing[] {
    const { things } = this.shape.cage;
    return this.full(name).flatMap((one) => things.get(one) ?? things.get(one.replace(/\.[ab]$/, '')) ?? []);
  }

  /** The parts of a tube, or of a piece of one. */
  parts(name: string): readonly Part[] {
    const { parts } = this.shape;
    return this.full(name).flatMap(
      (one) => parts.get(one) ?? [`${one}.a`, `${one}.b`].flatMap((p) => parts.get(p) ?? []),
    );
  }

  /** Ids of what is drawn of a name; of a node the tubes that it is a node of. */
  idsOf(name: string): readonly string[] {
    return this.full(name).flatMap((one) => this.ids.get(one) ?? this.atNode.get(one) ?? []);
  }
}

function push(map: Map<string, string[]>, key: string, value: string): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [value]);
  else if (!list.includes(value)) list.push(value);
}
