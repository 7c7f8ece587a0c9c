/**
 * The computed model and the findings as plain data for JSON: millimetres, degrees, kilograms, megapascals, rounded to
 * 1e-6. A figure that cannot be computed is null, never absent and never 0. Names that exist twice carry their side.
 * The shape of this data is a promise to others: fields may be added, what stands keeps its meaning.
 */
import type { Allowed, Measure, Place, PlacedFinding, PlacedNote, RuleRef, Severity } from '../../grammar/finding';
import type { Cage, Node, Seat } from '../cage/cage';
import type { Bend, End, Ordinate, Part, SeatFigures, StrapFigures } from '../geometry/shape';
import { byText } from '../geometry/tell';
import { hardwareJson, seatFacts } from './describe-hardware';
import { shopJson } from './describe-shop';
import { angle, point, rounded, type Figure } from './json-figures';
import type { Analysis } from './project';

export { rounded } from './json-figures';

const MODEL_FORMAT = 'cagewright-model';
const FINDINGS_FORMAT = 'cagewright-findings';
const FORMAT_VERSION = 1;

/** Zero-based line and UTF-16 column, as in the Language Server Protocol. */
export interface JsonPosition {
  readonly line: number;
  readonly character: number;
}
export interface JsonRange {
  readonly start: JsonPosition;
  readonly end: JsonPosition;
}
/** Lines and columns belong to the edge: it says where a place stands. */
export type RangeOf = (place: Place) => JsonRange;

/** Listed clocks are full circles: the one at 360 degrees is the one at 0 again. */
const FULL_TURN = 2 * Math.PI - 1e-6;

/** A clock is from 0 up to, not including, 360 degrees: also after rounding. */
const clock = (radians: number | null): Figure => {
  const value = angle(radians);
  return value === 360 ? 0 : value;
};

/** A rotation is from -180, not included, up to 180 degrees: also after rounding. */
const rotation = (radians: number | null): Figure => {
  const value = angle(radians);
  return value === -180 ? 180 : value;
};

const nodeJson = (node: Node) => ({ name: node.name, at: point(node.at) });

const bendJson = (bend: Bend) => ({
  node: bend.node,
  angle: angle(bend.angle),
  radius: rounded(bend.radius),
  straightBefore: rounded(bend.straightBefore),
  rotation: rotation(bend.rotation),
  arcLength: rounded(bend.arcLength),
  overbend: angle(bend.overbend),
  startMark: rounded(bend.startMark),
});

const ordinateJson = (ordinate: Ordinate) => ({
  clock: clock(ordinate.clock),
  cut: rounded(ordinate.cut),
  outer: rounded(ordinate.outer),
  inner: rounded(ordinate.inner),
  gap: rounded(ordinate.gap),
});

const endJson = (end: End) => ({
  which: end.which,
  node: end.node,
  fit: end.fit,
  hosts: end.hosts,
  clockZero: point(end.clockZero?.vector ?? null),
  clockName: end.clockZero?.name ?? null,
  bendInsideClock: clock(end.bendInsideClock),
  includedAngle: angle(end.includedAngle),
  offset: rounded(end.offset),
  depth: rounded(end.depth),
  saddleLength: rounded(end.saddleLength),
  sawAngle: angle(end.sawAngle),
  sawClock: clock(end.sawClock),
  ordinates: end.ordinates.filter((ordinate) => ordinate.clock < FULL_TURN).map(ordinateJson),
});

const sectionJson = (part: Part) => {
  const section = part.tube.section;
  if (section === null) return null;
  return {
    name: section.name,
    od: rounded(section.od),
    wall: rounded(section.wall),
    massPerMetre: rounded(part.section?.massPerMetre),
    area: rounded(part.section?.area),
    secondMoment: rounded(part.section?.secondMoment),
    torsionConstant: rounded(part.section?.torsionConstant),
    sectionModulus: rounded(part.section?.modulus),
  };
};

const tubeJson = (part: Part) => ({
  name: part.name,
  role: part.role,
  existing: part.tube.existing,
  section: sectionJson(part),
  nodes: part.nodes,
  centrelineLength: rounded(part.centrelineLength),
  cutLength: rounded(part.cutLength),
  holeSawLength: rounded(part.holeSawLength),
  stickLength: rounded(part.stickLength),
  mass: rounded(part.mass),
  bends: part.bends.map(bendJson),
  straightAfter: rounded(part.straightAfter),
  ends: part.ends.map(endJson),
});

const seatNamed = (cage: Cage, name: string): Seat | undefined => {
  const thing = cage.things.get(name);
  return thing?.kind === 'seat' ? thing : undefined;
};

const seatJson = (cage: Cage, seat: SeatFigures) => ({
  name: seat.name,
  gap: rounded(seat.gap),
  to: seat.to,
  barGap: rounded(seat.barGap),
  ...seatFacts(seatNamed(cage, seat.name)),
});

const strapJson = (strap: StrapFigures) => ({
  name: strap.name,
  seat: strap.seat,
  tube: strap.tube,
  slot: point(strap.slot),
  start: point(strap.start),
  contact: point(strap.contact),
  drop: angle(strap.drop),
  dropFromShoulder: angle(strap.dropFromShoulder),
  spread: angle(strap.spread),
  skew: angle(strap.skew),
  crossed: strap.crossed,
  length: rounded(strap.length),
  freeRun: rounded(strap.freeRun),
});

export interface JsonFinding {
  readonly file: string;
  readonly range: JsonRange;
  readonly code: string;
  readonly severity: Severity;
  readonly subject: string;
  readonly message: string;
  readonly measured: { readonly value: Figure; readonly unit: string } | null;
  readonly allowed: { readonly from: Figure; readonly to: Figure; readonly unit: string } | null;
  readonly rule: RuleRef | null;
  readonly waived: boolean;
  readonly notes: readonly {
    readonly file: string | null;
    readonly range: JsonRange | null;
    readonly message: string;
  }[];
}

const measureJson = (measure: Measure | undefined) =>
  measure === undefined ? null : { value: rounded(measure.value), unit: measure.unit };

const allowedJson = (allowed: Allowed | undefined) =>
  allowed === undefined ? null : { from: rounded(allowed.from), to: rounded(allowed.to), unit: allowed.unit };

const noteJson = (note: PlacedNote, rangeOf: RangeOf) => ({
  file: note.place?.file ?? null,
  range: note.place === null ? null : rangeOf(note.place),
  message: note.message,
});

const ruleJson = (rule: RuleRef | undefined): RuleRef | null =>
  rule === undefined ? null : { book: rule.book, citation: rule.citation, edition: rule.edition, source: rule.source };

/** One finding as it stands in the JSON of `check` and of `describe`. */
const findingJson = (finding: PlacedFinding, rangeOf: RangeOf): JsonFinding => ({
  file: finding.place.file,
  range: rangeOf(finding.place),
  code: finding.code,
  severity: finding.severity,
  subject: finding.subject,
  message: finding.message,
  measured: measureJson(finding.measured),
  allowed: allowedJson(finding.allowed),
  rule: ruleJson(finding.rule),
  waived: finding.waived,
  notes: finding.notes.map((note) => noteJson(note, rangeOf)),
});

const waiversJson = (analysis: Analysis) =>
  analysis.waivers.map((waiver) => ({
    code: waiver.code,
    on: waiver.written,
    book: waiver.book,
    end: waiver.end,
    because: waiver.because,
    used: waiver.used,
  }));

const inOrder = (a: JsonFinding, b: JsonFinding): number =>
  byText(a.file, b.file) ||
  a.range.start.line - b.range.start.line ||
  a.range.start.character - b.range.start.character ||
  byText(a.code, b.code) ||
  byText(a.subject, b.subject) ||
  byText(a.message, b.message);

/**
 * The data of `check --format json` for one or several judged files. A finding in a file that several of them use is
 * listed once. Order: file, start, code, subject.
 */
export function findingsJson(analyses: readonly Analysis[], rangeOf: RangeOf) {
  const all = analyses.flatMap((analysis) => analysis.findings.map((finding) => findingJson(finding, rangeOf)));
  // One file's findings are each different and in order already.
  const findings =
    analyses.length === 1
      ? all
      : [...new Map(all.map((finding) => [JSON.stringify(finding), finding])).values()].sort(inOrder);
  return {
    format: FINDINGS_FORMAT,
    version: FORMAT_VERSION,
    findings,
    waivers: analyses.flatMap(waiversJson),
  };
}

/** The data of `describe --format json`: everything computed, a broken thing with its figures null. */
export function modelJson(analysis: Analysis, rangeOf: RangeOf) {
  const { cage, shape } = analysis;
  const nodes = [...cage.things.values()].filter((thing): thing is Node => thing.kind === 'node');
  return {
    format: MODEL_FORMAT,
    version: FORMAT_VERSION,
    title: cage.title,
    nodes: nodes.map(nodeJson),
    tubes: [...shape.parts.values()].map(tubeJson),
    seats: shape.seats.map((seat) => seatJson(cage, seat)),
    straps: shape.straps.map(strapJson),
    spaces: shape.spaces.map((space) => ({ tubes: space.tubes, vented: space.vented })),
    mass: rounded(shape.mass),
    ...hardwareJson(cage),
    ...shopJson(cage),
    findings: analysis.findings.map((finding) => findingJson(finding, rangeOf)),
  };
}
