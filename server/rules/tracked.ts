/** A cage and its shape as the rules see them while their readings are kept: whatever is looked at is noted as a need. */
import type { Cage } from '../cage/cage';
import { samePlain } from '../cage/same';
import type { Shape } from '../geometry/shape';
import type { Memory, Same } from './memory';
import { sameValue } from './memory';

/** What is looked at. */
export interface Source {
  readonly cage: Cage;
  readonly shape: Shape;
}

/** What holds it, round after round. */
interface World {
  readonly source: Source;
}

/** Plain facts; where they are written is nothing that a rule asks. */
const sameFacts: Same = (a, b) => samePlain(a, b, 'origin');

type MapName = 'things' | 'parts';

const mapOf = ({ cage, shape }: Source, name: MapName): ReadonlyMap<string, unknown> =>
  name === 'things' ? cage.things : shape.parts;

const wholeMap = (name: MapName, { source }: World): ReadonlyMap<string, unknown> => mapOf(source, name);
const ENTRY: Readonly<Record<MapName, (key: string, world: World) => unknown>> = {
  things: (key, { source }) => source.cage.things.get(key),
  parts: (key, { source }) => source.shape.parts.get(key),
};

/** A map of which each entry is a need of its own; who goes through all of them needs them all. */
class TrackedMap<V> implements ReadonlyMap<string, V> {
  constructor(
    private readonly memory: Memory<World>,
    private readonly name: MapName,
  ) {}

  private all(): ReadonlyMap<string, V> {
    return this.memory.fact(wholeMap, this.name, sameValue) as ReadonlyMap<string, V>;
  }

  get(name: string): V | undefined {
    return this.memory.fact(ENTRY[this.name], name) as V | undefined;
  }

  has(name: string): boolean {
    return this.get(name) !== undefined;
  }

  get size(): number {
    return this.all().size;
  }

  forEach(visit: (value: V, name: string, map: ReadonlyMap<string, V>) => void): void {
    for (const [name, value] of this.all()) visit(value, name, this);
  }

  entries(): ReturnType<ReadonlyMap<string, V>['entries']> {
    return this.all().entries();
  }

  keys(): ReturnType<ReadonlyMap<string, V>['keys']> {
    return this.all().keys();
  }

  values(): ReturnType<ReadonlyMap<string, V>['values']> {
    return this.all().values();
  }

  [Symbol.iterator](): ReturnType<ReadonlyMap<string, V>['entries']> {
    return this.all().entries();
  }
}

const cageFact = (name: keyof Cage, { source }: World): unknown => source.cage[name];
const shapeFact = (name: keyof Shape, { source }: World): unknown => source.shape[name];

/** The same behaviour for each name: what is asked of `target` is looked up as `fact` says. */
function tracked<T extends object>(names: Readonly<Record<keyof T, (name: keyof T) => unknown>>): T {
  const view = {};
  for (const name of Object.keys(names) as (keyof T & string)[])
    Object.defineProperty(view, name, { get: () => names[name](name), enumerable: true });
  return view as T;
}

/** Of a cage and its shape, what rules may look at; what they look at is a need of what they work out. */
export function trackedSource(memory: Memory<World>): Source {
  const cageAs = (same: Same) => (name: keyof Cage) => memory.fact(cageFact, name, same);
  const [plain, list, facts] = [cageAs(Object.is), cageAs(sameValue), cageAs(sameFacts)];
  const things = new TrackedMap(memory, 'things');
  const parts = new TrackedMap(memory, 'parts');
  const cage = tracked<Cage>({
    file: plain,
    title: plain,
    isCar: plain,
    units: plain,
    rules: list,
    rulesOrigin: plain,
    ownBooks: cageAs((a, b) => a === b || (a instanceof Map && b instanceof Map && samePlain([...a], [...b]))),
    vehicle: facts,
    welding: facts,
    things: () => things,
    planes: plain,
    materials: plain,
    sections: plain,
    dies: plain,
    stocks: plain,
    saw: plain,
    torch: plain,
    storeOrigins: plain,
    lets: plain,
    waivers: plain,
    findings: plain,
    uses: plain,
  });
  const shapeAs = (same: Same) => (name: keyof Shape) => memory.fact(shapeFact, name, same);
  const [figure, items] = [shapeAs(Object.is), shapeAs(sameValue)];
  const shape = tracked<Shape>({
    cage: () => cage,
    parts: () => parts,
    seats: items,
    straps: items,
    spaces: items,
    mass: figure,
    findings: figure,
  });
  return { cage, shape };
}
