/** Sizes that come in steps of a list: bolts, and the tubes that the books name. The next one that mends is taken. */
import type { PlacedFinding } from '../../../grammar/finding';
import type { Arg, Entry, Ref } from '../../../grammar/tree';
import { UNITS } from '../../../grammar/units';
import type { Origin, Section } from '../../cage/cage';
import type { Analysis } from '../../project/project';
import { booksOf } from '../../rules/judge';
import { absolute, factOf, thingOf } from '../edit';
import type { TextEdit } from '../fix';
import type { Literal } from './literals';
import { worthOf } from './literals';
import { SlotReader } from './slots';

export interface Rung {
  /** What it does, in the imperative, with the old and the new size. */
  readonly doing: string;
  readonly edits: readonly TextEdit[];
}

/** Preferred sizes of metric bolts (ISO 262, first choice), as far as a mounting plate takes them. */
const BOLTS = [6, 8, 10, 12, 16, 20];

/** The next bolts, the smallest first. */
function bolts(finding: PlacedFinding, analysis: Analysis): readonly Rung[] {
  const thing = thingOf(analysis.cage, finding.subject);
  if (thing === undefined) return [];
  return BOLT_FACTS.flatMap((word) => {
    const fact = factOf(thing.origin.entry, word);
    const named = fact === null ? null : threadIn(fact);
    const size = /^M(\d+)$/.exec(named?.names[0]?.text ?? '')?.[1];
    if (named === null || size === undefined) return [];
    const span = absolute(thing.origin, named.span);
    return BOLTS.filter((bolt) => bolt > Number(size)).map((bolt) => ({
      doing: `Take M${String(bolt)} instead of M${size} for ${word} of ${thing.base}`,
      edits: [{ file: thing.origin.file, span, newText: `M${String(bolt)}` }],
    }));
  });
}

const BOLT_FACTS = ['bolts', 'seat-bolts', 'bolt'] as const;

function threadIn(fact: Entry): Ref | null {
  for (const arg of fact.line.groups.flatMap((group) => group.args)) {
    const parts: readonly Arg[] = arg.kind === 'sized' ? arg.parts : [arg];
    const ref = parts.find((part): part is Ref => part.kind === 'ref');
    if (ref !== undefined) return ref;
  }
  return null;
}

const INCH = UNITS['in']?.factor ?? 25.4;

interface Size {
  readonly od: number;
  readonly wall: number;
}

/** Steel in a tube, mm²: the lightest that is enough is taken. */
const areaOf = ({ od, wall }: Size): number => Math.PI * wall * (od - wall);

/** A tube this much wider still goes through the same die, mm. */
const DIE_FIT = 0.3;

/** Rounding of a size that was changed to inches and back, mm. */
const SAME = 0.006;

/** Walls that are in stock: preferred ones of EN 10305-1, and gauges 14, 13, 12, 11 and 10 of the BWG, both from memory; mm. */
const STOCK_WALLS = {
  metric: [1.5, 2, 2.5, 3, 3.5, 4],
  gauges: [0.083, 0.095, 0.109, 0.12, 0.134].map((inches) => inches * INCH),
} as const;

/**
 * The sizes of the chosen books, that of the main hoop, and heavier walls of the same tube, where they are no smaller than
 * the tube's own in either figure: the same diameter first, and the lightest of it.
 */
function namedSizes({ cage }: Analysis, own: Section, inInches: boolean): readonly Size[] {
  const pairs = booksOf(cage)
    .flatMap((book) => book.limits)
    .flatMap(({ sizes }) => sizes?.rows ?? [])
    .flatMap((row) => row.pairs);
  const hoops = [...cage.things.values()].flatMap((thing) =>
    thing.kind === 'tube' && thing.role === 'main-rollbar' && thing.section !== null ? [thing.section] : [],
  );
  const walls = (inInches ? STOCK_WALLS.gauges : STOCK_WALLS.metric).map((wall) => ({ od: own.od, wall }));
  const sizes = new Map<string, Size>();
  for (const pair of [...pairs, ...hoops, ...walls]) {
    const size = { od: Math.max(own.od, pair.od), wall: Math.max(own.wall, pair.wall) };
    if (size.od > own.od + SAME || size.wall > own.wall + SAME)
      sizes.set(`${size.od.toFixed(2)} ${size.wall.toFixed(2)}`, size);
  }
  // The same diameter first: dies, holes and collars fit it already.
  const wider = ({ od }: Size): number => (od <= own.od + SAME ? 0 : od <= own.od + DIE_FIT ? 1 : 2);
  return [...sizes.values()].sort((a, b) => wider(a) - wider(b) || areaOf(a) - areaOf(b));
}

/** A figure of a tube in a literal's own unit, as suppliers write it: hundredths of a millimetre, thousandths of an inch. */
function figure(literal: Literal, mm: number): string {
  const value = mm / worthOf(literal);
  const inches = (UNITS[literal.unit]?.factor ?? 1) > 1;
  const text = String(Math.ceil(value * (inches ? 1000 : 100) - 0.5) / (inches ? 1000 : 100));
  return literal.text.startsWith('.') ? text.replace(/^0\./, '.') : text;
}

function tubes(finding: PlacedFinding, analysis: Analysis): readonly Rung[] {
  const thing = thingOf(analysis.cage, finding.subject);
  const section = thing?.kind === 'tube' && !thing.existing ? thing.section : null;
  const origin = section === null ? undefined : analysis.cage.sections.get(section.name)?.origin;
  if (section === null || origin === undefined) return [];
  const [od, wall] = sizeLiterals(analysis, origin, section.name);
  if (od === null || wall === null) return [];
  return namedSizes(analysis, section, worthOf(wall) === INCH).map((size) => {
    const changes = (
      [
        [od, section.od, size.od],
        [wall, section.wall, size.wall],
      ] as const
    )
      .filter(([, was, now]) => now > was + SAME)
      .map(([literal, , now]): TextEdit => ({ file: literal.file, span: literal.span, newText: figure(literal, now) }));
    const say = (literal: Literal): string =>
      changes.find((edit) => edit.span.start === literal.span.start)?.newText ?? literal.text;
    const unit = wall.unit === od.unit ? wall.unit : '';
    return {
      doing: `Make section ${section.name} ${say(od)} x ${say(wall)} ${unit} instead of ${od.text} x ${wall.text}`,
      edits: changes,
    };
  });
}

/** The two numbers of a section; null where one of them is no plain number. */
function sizeLiterals(analysis: Analysis, origin: Origin, name: string): readonly [Literal | null, Literal | null] {
  const reader = new SlotReader(analysis);
  const read = (word: string): readonly Literal[] => {
    const fact = factOf(origin.entry, word);
    if (fact === null) return [];
    const args = fact.line.groups.flatMap((group) => group.args);
    const { slots } = reader.fact(args, 'length', { origin, holder: { kind: 'fact', name, fact: word } });
    return slots.flatMap(({ literals, total }) => (total === null || literals.length > 1 ? [] : literals));
  };
  const pair = read('size');
  return [read('od')[0] ?? pair[0] ?? null, read('wall')[0] ?? pair[1] ?? null];
}

/** The sizes to be tried for a finding, the smallest change first; null where its figure comes in no list. */
export function rungsFor(finding: PlacedFinding, analysis: Analysis): readonly Rung[] | null {
  switch (finding.code) {
    case 'foot.bolt-size':
    case 'seat-mount.bolt-size':
    case 'strap.bolt':
      return bolts(finding, analysis);
    case 'tube.size':
    case 'tube.same-as-hoop':
    case 'tube.measured-wall':
    case 'bend.thinning':
      return tubes(finding, analysis);
    default:
      return null;
  }
}
