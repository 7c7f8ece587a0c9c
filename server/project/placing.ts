/** The last step: findings get their places, their sentences, their waivers and their order. */
import type { Code } from '../../grammar/codes';
import type { Anchor, Finding, FindingNote, PlacedFinding, PlacedNote, Place } from '../../grammar/finding';
import { wordFinding } from '../../grammar/print';
import type { FileTree } from '../../grammar/tree';
import type { LengthUnit } from '../../grammar/units';
import type { Cage, Waiver } from '../cage/cage';
import { placeOf } from '../cage/place';
import type { Shape } from '../geometry/shape';
import type { Standing } from './twins';
import { mergeTwins } from './twins';
import { forBothSides } from './wording';
import { weigh } from './waivers';

/** Everything that has something to say about a car. */
export interface ToPlace {
  readonly cage: Cage;
  readonly shape: Shape;
  /** By the key of the file. */
  readonly trees: ReadonlyMap<string, FileTree>;
  /** The findings of the chosen books. */
  readonly judged: readonly Finding[];
  /** Codes that a chosen book limits. */
  readonly askedByBooks: ReadonlySet<Code>;
  /** What was worded before. */
  readonly sentences: Sentences;
}

export interface PlacedFindings {
  /** In the order of file, start, code and subject. Waived ones stay, marked. */
  readonly findings: readonly PlacedFinding[];
  readonly waivers: readonly (Waiver & { readonly used: boolean })[];
}

/** Where a finding goes whose thing is written nowhere that is known: the beginning of the judged file. */
const top = (cage: Cage): Place => ({ file: cage.file, span: { start: 0, end: 0 } });

const placed = (cage: Cage, anchor: Anchor): Place => placeOf(cage, anchor) ?? top(cage);

const noteOf = (cage: Cage, note: FindingNote): PlacedNote => ({
  place: note.at === null ? null : placeOf(cage, note.at),
  message: note.message,
});

/** A waiver's line, or the code in it. */
function anchorOfWaiver({ code, origin }: Waiver, part: 'line' | 'code'): Anchor {
  const { line } = origin.entry;
  const named = line.groups
    .flatMap((group) => group.args)
    .find((arg) => arg.kind === 'ref' && arg.names.map((name) => name.text).join('.') === code);
  const { start, end } = part === 'code' && named !== undefined ? named.span : line.span;
  const { offset } = origin.statement;
  return { kind: 'place', place: { file: origin.file, span: { start: offset + start, end: offset + end } } };
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

const byPlace = (a: PlacedFinding, b: PlacedFinding): number =>
  compare(a.place.file, b.place.file) ||
  a.place.span.start - b.place.span.start ||
  compare(a.code, b.code) ||
  compare(a.subject, b.subject) ||
  compare(a.rule?.book ?? '', b.rule?.book ?? '') ||
  compare(a.message, b.message);

/** Two stages may see the same fault; a person is told once. They stand side by side when all are in order. */
function once(sorted: readonly PlacedFinding[]): readonly PlacedFinding[] {
  let first = 0;
  return sorted.filter((finding, i) => {
    const before = sorted[i - 1];
    if (before === undefined || byPlace(before, finding) !== 0) {
      first = i;
      return true;
    }
    return !sorted.slice(first, i).some(({ place }) => place.span.end === finding.place.span.end);
  });
}

/** So many findings of one code are listed for a file. Who has more has one fault, written many times. */
const MOST_OF_A_CODE = 2000;

/** Those that come first in the text stay; the last of them says how many more there are. Waived ones count by themselves. */
function bounded(standing: readonly Standing[]): readonly Standing[] {
  const counts = new Map<string, number>();
  for (const { finding } of standing) counts.set(finding.code, (counts.get(finding.code) ?? 0) + 1);
  if ([...counts.values()].every((count) => count <= MOST_OF_A_CODE)) return standing;
  const groups = new Map<string, Standing[]>();
  for (const item of standing) {
    const { finding, place, waived } = item;
    const key = `${finding.code} ${finding.severity} ${String(waived)} ${place.file}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return [...groups.values()].flatMap((group) => (group.length <= MOST_OF_A_CODE ? group : firstOf(group)));
}

function firstOf(group: readonly Standing[]): readonly Standing[] {
  const sorted = [...group].sort(
    (a, b) => a.place.span.start - b.place.span.start || compare(a.finding.subject, b.finding.subject),
  );
  return sorted.slice(0, MOST_OF_A_CODE).map((item, i) => {
    if (i < MOST_OF_A_CODE - 1) return item;
    const message = `${String(group.length - MOST_OF_A_CODE)} more ${item.finding.code} in this file are not listed.`;
    return { ...item, finding: { ...item.finding, notes: [...item.finding.notes, { at: null, message }] } };
  });
}

/** What a finding says in a unit, for itself or for both twins. */
interface Said {
  readonly units: LengthUnit;
  readonly both: boolean;
  readonly finding: Finding;
  readonly message: string;
}

/** Sentences of findings that are the same objects as in the run before. They go with their findings. */
export type Sentences = WeakMap<Finding, Said>;

function said(sentences: Sentences, { finding, both }: Standing, units: LengthUnit): Said {
  const old = sentences.get(finding);
  if (old !== undefined && old.units === units && old.both === both) return old;
  const spoken = both ? forBothSides(finding) : finding;
  const made = { units, both, finding: spoken, message: wordFinding(spoken, units) };
  sentences.set(finding, made);
  return made;
}

function worded(cage: Cage, standing: Standing, sentences: Sentences): PlacedFinding {
  const { finding, message } = said(sentences, standing, cage.units);
  return {
    ...finding,
    place: standing.place,
    message,
    notes: finding.notes.map((note) => noteOf(cage, note)),
    waived: standing.waived,
  };
}

/** Places and words all findings of a car: of its text, its names and places, its shape, its books and its waivers. */
export function placeFindings({ cage, shape, trees, judged, askedByBooks, sentences }: ToPlace): PlacedFindings {
  const text = [...trees.values()].flatMap((tree) => tree.findings);
  // What a chosen book asks for takes the place of practice: of a tight die a person is told once.
  const built = shape.findings.filter(({ code }) => !askedByBooks.has(code));
  const result = weigh(cage, [...text, ...cage.findings, ...built, ...judged], anchorOfWaiver);
  const standing: Standing[] = [
    ...result.weighed.map(({ finding, waiver }) => ({ finding, waived: waiver !== null })),
    ...result.findings.map((finding) => ({ finding, waived: false })),
  ].map(({ finding, waived }) => ({ finding, waived, both: false, place: placed(cage, finding.at) }));
  return {
    findings: once(
      mergeTwins(cage, bounded(standing))
        .map((item) => worded(cage, item, sentences))
        .sort(byPlace),
    ),
    waivers: cage.waivers.map((waiver) => ({ ...waiver, used: result.used.has(waiver.id) })),
  };
}
