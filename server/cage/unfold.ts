/** Every statement that describes a thing, unfolded: what stands inside mirror becomes two things, one for each side. */
import type { Length } from '../../grammar/units';
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import type { Book } from './book';
import type { Named, Node, Side, Thing } from './cage';
import type { FactReader } from './facts';
import type { Census, Definition, Written } from './names';
import { fullName, isDefinition, nameOn, otherSide } from './names';
import { Page } from './page';
import type { Placed } from './places';
import { ranked } from './ranked';
import type { Reporter } from './reporter';
import type { Solver } from './solve';
import type { TubeRun } from './hardware-things';
import { anchorOf, doorOf, fittingOf, gussetOf, holeOf, paddingOf, panelOf, seatMountOf } from './hardware-things';
import { collarOf, footOf, jointOf, seatOf, strapOf, tubeOf, ventOf } from './things';

const NAMELESS: readonly string[] = ['joint', 'vent', 'hole', 'padding'];

export class Unfolder {
  /** Ids of the statements that have no name of their own. */
  private readonly ids = new Map<Written, string>();

  constructor(
    census: Census,
    private readonly facts: FactReader,
    private readonly solver: Solver,
    private readonly book: Book,
    private readonly reporter: Reporter,
  ) {
    for (const kind of NAMELESS) {
      const all = census.written.filter((one) => one.kind === kind);
      for (const { id, written } of ranked(all, kind)) this.ids.set(written, id);
    }
  }

  /** The name of what a statement describes, without its side; null where it describes no thing. */
  private baseOf(written: Written): string | null {
    if (isDefinition(written)) return written.space === 'thing' ? written.name : null;
    return this.ids.get(written) ?? null;
  }

  /**
   * Makes the things of statements. Straps ask where their seats are, so seats come first, whatever stands first.
   */
  unfold(list: readonly Written[]): void {
    for (const written of list) if (written.kind === 'seat') this.one(written);
    for (const written of list) if (written.kind !== 'seat') this.one(written);
  }

  private one(written: Written): void {
    const base = this.baseOf(written);
    if (base === null) return;
    const own: Side | null = isDefinition(written) ? written.side : written.inMirror ? written.scope.side : null;
    const made: Thing[] = [];
    for (const side of own === null ? [null] : [own, otherSide(own)]) {
      const twin = side !== own;
      const name = isDefinition(written) ? nameOn(written, side) : fullName(base, side);
      const head: Named = { name, base, side, twin, origin: written.origin };
      const thing = this.make(head, written);
      if (thing !== null) made.push(thing);
    }
    written.things = made;
  }

  private make(head: Named, written: Written): Thing | null {
    if (isDefinition(written) && written.kind === 'node') return nodeFrom(head, written, this.solver);
    this.solver.prepare(written.needs, head.twin ? 'image' : 'real');
    const page = new Page(this.facts, this.solver, this.reporter, written, head.name, head.twin);
    if (isDefinition(written) && written.kind === 'tube') {
      return tubeOf(head, written, page, this.facts, this.solver, this.book);
    }
    switch (written.kind) {
      case 'foot':
        return footOf(head, page, this.nodeAt(written, head));
      case 'joint':
        return jointOf(head, page);
      case 'vent':
        return ventOf(head, page);
      case 'seat':
        return seatOf(head, page);
      case 'strap':
        return strapOf(head, page, this.seatAt(written, head));
      case 'collar':
        return collarOf(head, page);
      case 'gusset':
        return gussetOf(head, page, this.nodeAt(written, head), this.runs(written, head, 'between', 'tubes'));
      case 'hole':
        return holeOf(head, page, this.nodeAt(written, head), this.runs(written, head, '', 'tube')[0] ?? null);
      case 'padding':
        return paddingOf(head, page, this.runs(written, head, '', 'tube')[0] ?? null);
      case 'fitting':
        return fittingOf(head, page);
      case 'door':
        return doorOf(head, page);
      case 'panel':
        return panelOf(head, page);
      case 'seat-mount':
        return seatMountOf(head, page);
      case 'anchor':
        return anchorOf(head, page);
      default:
        return null;
    }
  }

  /** Where the node of `at` is, in the car itself. */
  private nodeAt(written: Written, head: Named): Vec3 | null {
    const target = this.facts.target(written, 'at', 'node');
    return target === null ? null : this.solver.nodeAt(target.definition, sideOf(target.side, head), 'real');
  }

  /** The tubes that a fact names, as they run in the car itself; one that is not known has no line. */
  private runs(written: Written, head: Named, fact: string, slot: string): readonly TubeRun[] {
    return this.facts.all(written, fact, slot).map(({ arg }): TubeRun => {
      const target = arg.kind === 'ref' ? (written.scope.meanings.get(arg) ?? null) : null;
      if (target === null) return { line: null, turned: false, radius: 0 };
      const { definition } = target;
      const section = this.facts.target(definition, 'section', 'section');
      const size = section === null ? null : this.book.section(section.definition);
      return {
        line: this.solver.tubePath(definition, sideOf(target.side, head), 'real')?.centreline ?? null,
        turned: head.twin && target.side === null && this.solver.isEven(definition),
        radius: (size?.od ?? 0) / 2,
      };
    });
  }

  /** Where a strap's seat is, in the car itself. */
  private seatAt(written: Written, head: Named): Vec3 | null {
    const target = this.facts.target(written, 'seat', 'seat');
    const side = target === null ? null : sideOf(target.side, head);
    const seat = target?.definition.things.find((one) => one.side === side);
    return seat?.kind === 'seat' ? (seat.slots ?? seat.hip) : null;
  }
}

/** A side of the text, in the car itself. */
const sideOf = (side: Side | null, head: Named): Side | null => (side === null || !head.twin ? side : otherSide(side));

/** All things by name, in the order of file and text, left before right; of two with one name the first. */
export function byName(census: Census): ReadonlyMap<string, Thing> {
  const all = new Map<string, Thing>();
  for (const written of census.written) {
    const { things } = written;
    if (isDefinition(written) && written.repeated) continue;
    const [first, second] = things;
    if (first === undefined) continue;
    if (second === undefined) all.set(first.name, first);
    else for (const one of first.side === 'left' ? [first, second] : [second, first]) all.set(one.name, one);
  }
  return all;
}

function nodeFrom(head: Named, definition: Definition, solver: Solver): Node {
  const placed = solver.node(definition, head.side);
  const { name, base, side, twin, origin } = head;
  return {
    name,
    base,
    side,
    twin,
    origin,
    kind: 'node',
    at: placed === null ? null : placed.at,
    miss: placed === null ? null : (placed.miss as Length | null),
    on: placed === null ? null : stationOf(placed, twin, solver),
  };
}

/** The tube on which a node was put, and how far along it. A tube that exists once may run the other way than its image. */
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
