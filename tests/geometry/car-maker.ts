/** Builds cages by hand, for tests of the geometry alone: no text, no parser. Millimetres, degrees where said. */
import type {
  Cage,
  Die,
  EndTold,
  Foot,
  Joint,
  Node,
  Origin,
  Role,
  Section,
  Side,
  Thing,
  Tube,
} from '../../server/cage/cage';
import { deg, mm } from '../../grammar/units';
import { buildPath } from '../../server/centreline/build';
import { mirrorY } from '../../server/centreline/vector';
import type { Vec3 } from '../../server/centreline/vector';
import { NO_ANALYSIS, PLAIN_FOOT, PLAIN_JOINT, PLAIN_TUBE } from './nothing-more';

const SPAN = { start: 0, end: 0 };
const ORIGIN: Origin = {
  file: 'test.cage',
  statement: {
    offset: 0,
    tree: {
      entry: {
        line: { word: { text: 'tube', span: SPAN }, target: null, groups: [], ok: true, span: SPAN },
        block: null,
        span: SPAN,
      },
      findings: [],
      text: '',
    },
  },
  entry: {
    line: { word: { text: 'tube', span: SPAN }, target: null, groups: [], ok: true, span: SPAN },
    block: null,
    span: SPAN,
  },
};

export const STEEL = {
  name: null,
  yield: null,
  tensile: null,
  modulus: 205_000,
  density: 7850,
  kind: null,
  ...NO_ANALYSIS,
};

export const section = (od: number, wall = 2.5): Section => ({
  name: `t${String(od)}`,
  od: mm(od),
  wall: mm(wall),
  material: STEEL,
});

export const die = (
  od: number,
  radius: number,
  more: Partial<Record<'grip' | 'between' | 'follow', number>> = {},
): Die => ({
  name: `d${String(od)}`,
  od: mm(od),
  radius: mm(radius),
  grip: mm(more.grip ?? 90),
  between: mm(more.between ?? 60),
  follow: mm(more.follow ?? more.grip ?? 90),
  springback: null,
});

export interface TubeOptions {
  readonly od?: number;
  readonly wall?: number;
  readonly die?: Die;
  readonly role?: Role;
  readonly first?: EndTold;
  readonly last?: EndTold;
  readonly split?: string;
  readonly existing?: boolean;
}

export const OPEN: EndTold = { kind: 'open' };
export const onto = (...hosts: readonly string[]): EndTold => ({ kind: 'onto', hosts });
export const past = (length: number): EndTold => ({ kind: 'past', length: mm(length) });

const SIDE = /^(.*)\.(left|right)$/;

export class CarMaker {
  private readonly list: Thing[] = [];
  private joints = 0;

  private named(name: string): { name: string; base: string; side: Side | null; twin: boolean; origin: Origin } {
    const match = SIDE.exec(name);
    const side = match === null ? null : (match[2] as Side);
    return { name, base: match?.[1] ?? name, side, twin: side === 'right', origin: ORIGIN };
  }

  node(name: string, at: Vec3): this {
    this.list.push({ kind: 'node', ...this.named(name), at, miss: null, on: null } satisfies Node);
    return this;
  }

  /** The node on the left, and its image on the right. */
  nodes(base: string, at: Vec3): this {
    return this.node(`${base}.left`, at).node(`${base}.right`, mirrorY(at));
  }

  point(name: string): Vec3 {
    const thing = this.list.find((each) => each.name === name);
    if (thing?.kind !== 'node' || thing.at === null) throw new Error(`no node ${name}`);
    return thing.at;
  }

  tube(name: string, path: readonly string[], options: TubeOptions = {}): this {
    const points = path.map((node) => this.point(node));
    const built = buildPath(points, options.die?.radius ?? null);
    this.list.push({
      kind: 'tube',
      ...this.named(name),
      role: options.role ?? 'brace',
      section: section(options.od ?? 38, options.wall ?? 2.5),
      die: options.die ?? null,
      path,
      first: options.first ?? { kind: 'auto' },
      last: options.last ?? { kind: 'auto' },
      splitBy: options.split ?? null,
      existing: options.existing ?? false,
      ...PLAIN_TUBE,
      ...built,
    } satisfies Tube);
    return this;
  }

  /** A plate that lies level, or with slopes in degrees, or square. */
  foot(
    name: string,
    node: string,
    lies: 'level' | 'square' | { readonly aft: number; readonly left: number } = 'level',
  ): this {
    this.list.push({
      kind: 'foot',
      ...this.named(name),
      node,
      plate: { long: mm(140), wide: mm(100), thick: mm(3), turned: deg(0) },
      lies:
        lies === 'square'
          ? { kind: 'square' }
          : lies === 'level'
            ? { kind: 'slopes', aft: deg(0), left: deg(0) }
            : { kind: 'slopes', aft: deg(lies.aft), left: deg(lies.left) },
      bolts: null,
      hole: mm(8),
      ...PLAIN_FOOT,
    } satisfies Foot);
    return this;
  }

  joint(nodes: readonly string[], order: readonly string[]): this {
    const name = `joint:${String(this.joints++)}`;
    this.list.push({ kind: 'joint', ...this.named(name), nodes, order, ...PLAIN_JOINT } satisfies Joint);
    return this;
  }

  /** The things in the order given, or turned round: the order of statements has no meaning. */
  cage(turned = false): Cage {
    const list = turned ? [...this.list].reverse() : this.list;
    return {
      file: 'test.cage',
      title: 'Test',
      isCar: true,
      units: 'mm',
      rules: ['shop'],
      rulesOrigin: null,
      vehicle: null,
      welding: null,
      ownBooks: new Map(),
      stocks: new Map(),
      saw: null,
      torch: null,
      storeOrigins: [],
      things: new Map(list.map((thing) => [thing.name, thing])),
      planes: new Map(),
      materials: new Map(),
      sections: new Map(),
      dies: new Map(),
      lets: new Map(),
      waivers: [],
      findings: [],
      uses: [],
    };
  }
}
