/** Every statement that describes a thing, unfolded: what stands inside mirror becomes two things, one for each side. */
import type { Length } from '../../grammar/units';
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import type { Book } from './book';
import type { Named, Node, Side, Thing } from './cage';
import type { FactReader } from './facts';
import type { Census, Definition, Written } from './names';
import { fullName, nameOn, isDefinition, originOf, otherSide } from './names';
import { Page } from './page';
import type { Placed } from './places';
import { ranked } from './ranked';
import type { Reporter } from './reporter';
import type { Solver } from './solve';
import { collarOf, footOf, jointOf, seatOf, strapOf, tubeOf, ventOf } from './things';

const NAMELESS: ReadonlySet<string> = new Set(['joint', 'vent']);

/** The things of the car, in the order of file and text. */
export function thingsOf(
  census: Census,
  facts: FactReader,
  solver: Solver,
  book: Book,
  reporter: Reporter,
): ReadonlyMap<string, Thing> {
  const made = new Map<string, Thing>();
  const nodeAt = (name: string): Vec3 | null => {
    const node = made.get(name);
    return node?.kind === 'node' ? node.at : null;
  };
  const seatAt = (name: string): Vec3 | null => {
    const seat = made.get(name);
    return seat?.kind === 'seat' ? (seat.slots ?? seat.hip) : null;
  };
  const make = (head: Named, written: Written, page: Page): Thing | null => {
    if (isDefinition(written)) {
      if (written.kind === 'node') return nodeFrom(head, written, solver);
      if (written.kind === 'tube') return tubeOf(head, written, page, facts, solver, book);
    }
    switch (written.kind) {
      case 'foot':
        return footOf(head, page, nodeAt);
      case 'joint':
        return jointOf(head, page);
      case 'vent':
        return ventOf(head, page);
      case 'seat':
        return seatOf(head, page);
      case 'strap':
        return strapOf(head, page, seatAt);
      case 'collar':
        return collarOf(head, page);
      default:
        return null;
    }
  };
  const unfold = (written: Written, base: string): void => {
    const own: Side | null = isDefinition(written) ? written.side : written.inMirror ? written.scope.side : null;
    for (const side of own === null ? [null] : [own, otherSide(own)]) {
      const twin = side !== own;
      const name = fullName(base, side);
      const head: Named = { name, base, side, twin, origin: originOf(written) };
      solver.prepare(facts.needs(written), twin ? 'image' : 'real');
      const thing = make(head, written, new Page(facts, solver, reporter, written, name, twin));
      if (thing === null) continue;
      if (!isDefinition(written) || !written.repeated) made.set(name, thing);
    }
  };

  const ids = new Map<Written, string>();
  for (const kind of NAMELESS) {
    for (const { id, written } of ranked(
      census.written.filter((one) => one.kind === kind),
      kind,
    ))
      ids.set(written, id);
  }
  const nameOf = (written: Written): string | null =>
    ids.get(written) ?? (isDefinition(written) && written.space === 'thing' ? written.name : null);
  // Straps ask where their seats are, feet where their nodes are: those come first, whatever stands first.
  const stages: readonly ((kind: string) => boolean)[] = [
    (kind) => kind === 'node' || kind === 'seat',
    (kind) => kind !== 'node' && kind !== 'seat',
  ];
  for (const stage of stages) {
    for (const written of census.written) {
      const base = stage(written.kind) ? nameOf(written) : null;
      if (base !== null) unfold(written, base);
    }
  }
  return inOrder(census, nameOf, made);
}

function inOrder(
  census: Census,
  nameOf: (written: Written) => string | null,
  made: ReadonlyMap<string, Thing>,
): ReadonlyMap<string, Thing> {
  const ordered = new Map<string, Thing>();
  for (const written of census.written) {
    const base = nameOf(written);
    if (base === null) continue;
    for (const side of [null, 'left', 'right'] as const) {
      const name = fullName(base, side);
      const thing = made.get(name);
      if (thing !== undefined) ordered.set(name, thing);
    }
  }
  return ordered;
}

function nodeFrom(head: Named, definition: Definition, solver: Solver): Node {
  const placed = solver.node(definition, head.side);
  return {
    ...head,
    kind: 'node',
    at: placed?.at ?? null,
    miss: (placed?.miss ?? null) as Length | null,
    on: placed === null ? null : stationOf(placed, head.twin, solver),
  };
}

/** The tube on which a node was put, and how far along it. A tube that exists once runs the other way than its image. */
function stationOf({ at, on }: Placed, twin: boolean, solver: Solver): Node['on'] {
  if (on === null) return null;
  let { station } = on;
  if (twin && on.side === null) {
    const line = solver.tubePath(on.tube, null, 'real')?.centreline ?? null;
    if (line === null) return null;
    ({ station } = nearestOn(line, at));
  }
  return { tube: nameOn(on.tube, on.side), station: station as Length };
}
