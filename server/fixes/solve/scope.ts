/**
 * Which numbers of the text a finding can hang on: those of its own thing, of the tubes that it names, of the nodes on
 * their paths, of what those are placed on, and so on; how far away each stands, and which of them share a value.
 */
import type { PlacedFinding } from '../../../grammar/finding';
import type { Entry } from '../../../grammar/tree';
import type { Foot, Node, Origin, Strap, Thing, Tube } from '../../cage/cage';
import type { Analysis } from '../../project/project';
import { factOf, thingOf } from '../edit';
import type { Holder, Literal, Quantity } from './literals';
import type { PlaceRead, Slot } from './slots';
import { SlotReader } from './slots';

/** Numbers that move together, each by as much. */
export interface Knob {
  readonly literals: readonly Literal[];
  /** One of the slots that they govern, for the words of a title. */
  readonly slot: Slot;
  /** How many steps from the finding's own thing. */
  readonly far: number;
  /** Base name of the tube on whose path it stands; empty where it stands on none. */
  readonly path: string;
}

/** Farther from the finding than this nobody looks for what mends it. */
const FARTHEST = 2;

/**
 * Facts that are sizes of something that can be made otherwise, by the kind of the thing; and what is wanted there. What
 * is given stands in no list: seats and whoever sits in them, webbing, hardware, loads that were proved, the shell.
 */
const OWN_FACTS: Readonly<Record<string, Readonly<Record<string, Quantity>>>> = {
  foot: { plate: 'length', 'counter-plate': 'length', bolts: 'count', 'bolts-at': 'length' },
  strap: { at: 'length', collars: 'length', slider: 'length', tail: 'length', bolt: 'length' },
  collar: { at: 'length' },
  vent: { dia: 'length', from: 'length' },
  hole: { dia: 'length', from: 'length' },
  gusset: { legs: 'length', thickness: 'length', 'cut-out': 'length', hole: 'length' },
  padding: { thickness: 'length', from: 'length' },
  fitting: { 'stand-off': 'length', bolt: 'length' },
  'seat-mount': { points: 'count', bolts: 'count', 'seat-bolts': 'count', plate: 'length', 'counter-plate': 'length' },
  anchor: { at: 'length', plate: 'length', bolt: 'length' },
};

/** Axes on which what is left is minus what is right. */
const SIDEWAYS = /(^| )y$/;

const idOf = (literal: Literal): string => `${literal.file}\n${String(literal.span.start)}`;

export class Scope {
  readonly knobs: Knob[] = [];
  private readonly reader: SlotReader;
  private readonly seen = new Set<string>();
  private readonly given: ReadonlySet<string>;

  constructor(
    private readonly analysis: Analysis,
    private readonly finding: PlacedFinding,
  ) {
    this.reader = new SlotReader(analysis);
    this.given = givenNodes(analysis);
    const { subject } = finding;
    const named = [
      ...new Set(Object.values(finding.params).flatMap((value) => (typeof value === 'string' ? value : []))),
    ];
    this.thing(subject, 0);
    for (const name of named) if (name !== subject) this.thing(name, 1);
    if (/^(section|die|plane):/.test(subject)) this.shop(subject, 0);
    this.knobs.splice(0, this.knobs.length, ...distinct(this.knobs));
  }

  private thing(name: string, far: number): void {
    const thing = thingOf(this.analysis.cage, name) ?? thingOf(this.analysis.cage, name.replace(/\.[ab]$/, ''));
    if (thing === undefined) {
      if (far > 0) for (const space of ['die', 'section']) this.shop(`${space}:${name}`, far);
      return;
    }
    const key = `thing ${thing.base}`;
    if (far > FARTHEST || this.seen.has(key)) return;
    this.seen.add(key);
    switch (thing.kind) {
      case 'tube':
        this.tube(thing, far);
        this.onTube(thing, far);
        break;
      case 'node':
        this.alone(thing, far);
        break;
      case 'strap':
        this.strap(thing, far);
        break;
      case 'seat':
        for (const other of this.analysis.cage.things.values())
          if (other.kind === 'strap' && other.seat === thing.name) this.thing(other.name, far);
        break;
      case 'foot':
        this.foot(thing, far);
        break;
      default:
        this.facts(thing, far);
    }
  }

  private strap(strap: Strap, far: number): void {
    this.facts(strap, far);
    if (strap.tube !== null) {
      this.thing(strap.tube, far);
      for (const other of this.analysis.cage.things.values())
        if (other.kind === 'collar' && other.tube === strap.tube) this.facts(other, far + 1);
    }
  }

  private foot(foot: Foot, far: number): void {
    this.facts(foot, far);
    if (foot.node !== null) this.thing(foot.node, far + 1);
  }

  /** What a die, a section or a plane is made of. */
  private shop(named: string, far: number): void {
    const { cage } = this.analysis;
    const [space = '', name = ''] = named.split(':');
    const { code } = this.finding;
    if (space === 'plane') {
      const origin = cage.planes.get(name)?.origin;
      if (origin === undefined) return;
      const holder: Holder = { kind: 'plane', name, fact: '' };
      this.take(this.entryFacts(origin, holder, { leans: 'angle' }), far, '');
      const at = factOf(origin.entry, 'at')?.line.groups[0]?.args[0];
      if (at !== undefined) this.take(this.reader.place(at, { origin, holder: { ...holder, fact: 'at' } }), far, '');
    }
    if (space === 'die' && code === 'bend.radius') {
      const origin = cage.dies.get(name)?.origin;
      if (origin !== undefined)
        this.take(this.entryFacts(origin, { kind: 'fact', name, fact: '' }, { radius: 'length' }), far, '');
    }
  }

  /** The path of a tube: all its nodes, those that they start from, and where they stand. */
  private tube(tube: Tube, far: number): void {
    if (tube.existing) return;
    for (const name of new Set(tube.path)) {
      const node = name === null ? undefined : thingOf(this.analysis.cage, name);
      if (node?.kind === 'node') this.node(node, far, tube.base);
    }
  }

  /** What is put on a tube, or into it, where the finding is about that: padding, vents, holes. */
  private onTube(tube: Tube, far: number): void {
    const [about = ''] = this.finding.code.split('.');
    const kinds = about === 'galvanized' ? ['vent', 'hole'] : [about];
    for (const thing of this.analysis.cage.things.values()) {
      if (thing.kind !== 'vent' && thing.kind !== 'hole' && thing.kind !== 'padding') continue;
      if (thing.tube === tube.name && kinds.includes(thing.kind)) this.facts(thing, far);
    }
  }

  private alone(node: Node, far: number): void {
    const { cage } = this.analysis;
    const over = [...cage.things.values()].filter(
      (thing): thing is Tube => thing.kind === 'tube' && !thing.existing && thing.path.includes(node.name),
    );
    // A node is moved with those that share its value: on the tubes that end or turn there.
    for (const tube of over) this.thing(tube.name, far);
    if (over.length === 0) this.node(node, far, '');
  }

  private node(node: Node, far: number, path: string): void {
    const { base, origin } = node;
    const key = `node ${base} ${path}`;
    if (far > FARTHEST || this.seen.has(key) || this.given.has(base)) return;
    this.seen.add(key);
    const place = origin.entry.line.groups[0]?.args[0];
    if (place === undefined) return;
    const holder: Holder = { kind: 'node', name: base, fact: '' };
    this.take(this.reader.place(place, { origin, holder }), far, path);
    for (const adjust of adjustsOf(this.analysis, base)) {
      const by = adjust.entry.line.groups[0]?.args.find(({ kind }) => kind === 'tuple');
      if (by === undefined) continue;
      const read = this.reader.place(by, { origin: adjust, holder: { kind: 'adjust', name: base, fact: '' } });
      const slots = read.slots.map((slot) => ({ ...slot, axis: `adjust ${base} ${slot.axis}` }));
      this.take({ ...read, slots }, far, path);
    }
  }

  private take(read: PlaceRead, far: number, path: string): void {
    for (const slot of read.slots) for (const knob of knobsOf(slot, far, path)) this.knobs.push(knob);
    const nodes = (names: readonly string[], away: number, over: string): void => {
      for (const name of names) {
        const node = thingOf(this.analysis.cage, name);
        if (node?.kind === 'node') this.node(node, away, over);
      }
    };
    nodes(read.rigid, far, path);
    nodes(read.nodes, far + 1, '');
    for (const tube of read.tubes) this.thing(tube, far + 1);
    for (const plane of read.planes) {
      const key = `plane ${plane}`;
      if (far + 1 > FARTHEST || this.seen.has(key)) continue;
      this.seen.add(key);
      this.shop(`plane:${plane}`, far + 1);
    }
  }

  /** The numbers of a thing's own facts. */
  private facts(thing: Thing, far: number): void {
    const { kind, base, origin } = thing;
    const wanted = Object.hasOwn(OWN_FACTS, kind) ? OWN_FACTS[kind] : undefined;
    if (far > FARTHEST || wanted === undefined) return;
    const onTube = thing.kind === 'vent' || thing.kind === 'hole' || thing.kind === 'padding' ? thing.tube : null;
    const holder: Holder = { kind: 'fact', name: onTube ?? base, fact: '' };
    this.take(this.entryFacts(origin, holder, wanted), far, '');
  }

  private entryFacts(origin: Origin, holder: Holder, wanted: Readonly<Record<string, Quantity>>): PlaceRead {
    const read: PlaceRead = { slots: [], rigid: [], nodes: [], tubes: [], planes: [] };
    for (const fact of origin.entry.block?.entries ?? []) {
      const word = fact.line.word.text;
      const quantity = Object.hasOwn(wanted, word) ? wanted[word] : undefined;
      if (quantity === undefined) continue;
      const args = fact.line.groups.flatMap((group) => group.args);
      const held: Holder = { ...holder, fact: word };
      const own = this.reader.fact(args, quantity, { origin, holder: held });
      read.slots.push(...own.slots.map((slot) => ({ ...slot, axis: `${holder.name} ${slot.axis}` })));
    }
    return read;
  }
}

/** Each number that a slot hangs on can mend it. */
const knobsOf = (slot: Slot, far: number, path: string): readonly Knob[] =>
  slot.literals.map((literal) => ({ literals: [literal], slot, far, path }));

/** Nodes of tubes that are in the car already: they stand where they stand. */
function givenNodes({ cage }: Analysis): ReadonlySet<string> {
  const given = new Set<string>();
  for (const thing of cage.things.values()) {
    if (thing.kind !== 'tube' || !thing.existing) continue;
    for (const name of thing.path) if (name !== null) given.add(cage.things.get(name)?.base ?? name);
  }
  return given;
}

/** The `adjust` statements of a node. */
function adjustsOf({ trees }: Analysis, base: string): readonly Origin[] {
  return [...trees.values()].flatMap(({ file, statements }) =>
    statements
      .filter(({ tree }) => tree.entry.line.word.text === 'adjust' && adjusted(tree.entry) === base)
      .map((statement): Origin => ({ file, statement, entry: statement.tree.entry })),
  );
}

function adjusted(entry: Entry): string | null {
  const target = entry.line.groups[0]?.args[0];
  return target?.kind === 'ref' ? (target.names[0]?.text ?? null) : null;
}

/**
 * True where a number moves the whole value of its slot as others of the same value are moved: away from 0 with them, and
 * of a sum one number only.
 */
function leads({ axis, total, lead }: Slot, [literal]: readonly Literal[]): boolean {
  if (total === null || lead === null || lead.literal !== literal) return false;
  const same = lead.sense * Math.sign(total) * Math.sign(literal.value) >= 0;
  return same && (lead.sense === 1 || SIDEWAYS.test(axis));
}

/**
 * Numbers on one path that say the same of the same axis move together: a bar is raised at its ends and at its bends.
 * Then each set of numbers once, the nearest first.
 */
function distinct(knobs: readonly Knob[]): readonly Knob[] {
  const groups = new Map<string, Knob[]>();
  for (const knob of knobs) {
    const { path, slot, literals } = knob;
    const shared = path !== '' && leads(slot, literals);
    const total = slot.total ?? 0;
    const value = SIDEWAYS.test(slot.axis) ? Math.abs(total) : total;
    const key = shared ? `${path}\n${slot.axis}\n${value.toFixed(6)}` : `${slot.axis}\n${literals.map(idOf).join()}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [knob]);
    else group.push(knob);
  }
  const merged = [...groups.values()].map((group): Knob => {
    const literals = new Map(group.flatMap((knob) => knob.literals.map((literal) => [idOf(literal), literal])));
    const [first] = group as [Knob];
    return { ...first, literals: [...literals.values()], far: Math.min(...group.map(({ far }) => far)) };
  });
  const found = new Map<string, Knob>();
  for (const knob of merged.sort((a, b) => a.far - b.far || b.literals.length - a.literals.length)) {
    const ids = knob.literals.map(idOf).sort();
    // A number that moves with others does not move alone.
    const inside = [...found.keys()].some((key) => ids.every((id) => key.split('\t').includes(id)));
    if (!inside) found.set(ids.join('\t'), knob);
  }
  return [...found.values()];
}
