/** Where everything goes: points of the car, and where each end lands along the tube that it is cut to. Millimetres. */
import type { Foot, Node } from '../../cage/cage';
import type { Vec3 } from '../../centreline/vector';
import { distance, mirrorY } from '../../centreline/vector';
import { entryPoint } from '../../geometry/axis';
import type { End, Part } from '../../geometry/shape';
import type { AlongTube } from '../drill/along';
import { alongAt } from '../drill/along';
import type { PacketInput } from '../packet/paper';

/** A point that is measured in the car: one, or two that mirror each other. */
export interface Point {
  readonly name: string;
  /** Of the left one, where there are two. Null: not known. */
  readonly at: Vec3 | null;
  readonly twins: boolean;
  /** What is there: parts' ends, corners of bends, feet. */
  readonly parts: readonly { readonly part: Part; readonly end: End | null }[];
  readonly feet: readonly Foot[];
}

/** Two places that agree so well are one, mm. */
const SAME = 1e-3;

type Input = Pick<PacketInput, 'cage' | 'shape'>;

/** Every point that a made part runs through or a foot stands at, in the order of the file. */
export function pointsOf({ cage, shape }: Input): readonly Point[] {
  const things = [...cage.things.values()];
  const feet = things.filter((thing): thing is Foot => thing.kind === 'foot');
  const made = [...shape.parts.values()].filter(({ tube }) => !tube.existing);
  const usesOf = ({ name }: Node): Pick<Point, 'parts' | 'feet'> => ({
    parts: made.flatMap((part): Point['parts'] => {
      if (!part.nodes.includes(name)) return [];
      const ends = part.ends.filter(({ node }) => node === name);
      return ends.length === 0 ? [{ part, end: null }] : ends.map((end) => ({ part, end }));
    }),
    feet: feet.filter(({ node }) => node === name),
  });
  const nodes = things.filter((thing): thing is Node => thing.kind === 'node');
  const named = new Map(nodes.map((node) => [node.name, node]));
  const done = new Set<string>();
  return nodes.flatMap((node): readonly Point[] => {
    if (done.has(node.name)) return [];
    done.add(node.name);
    const own = usesOf(node);
    const other = node.side === null ? undefined : named.get(`${node.base}.${node.side === 'left' ? 'right' : 'left'}`);
    const twin = other === undefined || done.has(other.name) ? null : other;
    const left = node.side === 'right' ? twin : node;
    const mirrored =
      twin !== null && node.at !== null && twin.at !== null && distance(mirrorY(node.at), twin.at) < SAME;
    if (mirrored) {
      done.add(twin.name);
      const others = usesOf(twin);
      const both = { parts: [...own.parts, ...others.parts], feet: [...own.feet, ...others.feet] };
      if (both.parts.length + both.feet.length === 0) return [];
      return [{ name: node.base, at: left?.at ?? null, twins: true, ...both }];
    }
    return own.parts.length + own.feet.length === 0 ? [] : [{ name: node.name, at: node.at, twins: false, ...own }];
  });
}

/** Where an end lands: along each of its hosts, where the axis of the end goes through the outside of it. */
export interface Landing {
  readonly part: Part;
  readonly end: End;
  readonly host: Part;
  readonly along: AlongTube | null;
}

/** Every coped end of made parts on every host that it is cut to, in the order of the parts. */
export function landingsOf({ shape }: Input): readonly Landing[] {
  return [...shape.parts.values()].flatMap((part) =>
    part.tube.existing
      ? []
      : part.ends.flatMap((end) =>
          end.fit !== 'cope'
            ? []
            : end.hosts.flatMap((name): readonly Landing[] => {
                const host = shape.parts.get(name);
                if (host === undefined) return [];
                const at = entryPoint(end, part, host) ?? end.origin;
                return [{ part, end, host, along: at === null ? null : alongAt(host, shape, at) }];
              }),
        ),
  );
}
