/** Whether a value is the model of a car's picture: asked inside the panel of what comes from outside it. */
import type {
  MeasureAnswer,
  Point3,
  TextPlace,
  ViewMark,
  WireFinding,
  WireModel,
  WireNode,
  WireThing,
} from '../../server/lsp/view-wire';
import { THING_KINDS, type ViewEnd, type ViewWindow, type WireMesh } from '../../server/view/model';
import { below, cases, figure, listOf, oneOf, orNull, record, row, text, type Is } from './check';

/** No car has as many parts; a list that is longer is no car's. */
const MANY = 20_000;
/** Characters of a name, of a sentence, and of one array of numbers. */
const NAME = 20_000;
const SENTENCE = 1_000_000;
const ARRAY = 64 * 1024 * 1024;
const END = Number.MAX_SAFE_INTEGER;

const name = text(NAME);
const sentence = text(SENTENCE);

export const isPoint: Is<Point3> = row<Point3>(figure, figure, figure);
const isBox = row<readonly [Point3, Point3]>(isPoint, isPoint);
/** Base64 comes in fours; what is in it is looked at where it is unpacked. */
const isArray: Is<string> = (value): value is string => text(ARRAY)(value) && value.length % 4 === 0;

const position = record<TextPlace['start']>({ line: below(END), character: below(END) });
const isPlace = record<TextPlace>({ uri: sentence, start: position, end: position });

const isMesh = record<WireMesh>({
  from: isPoint,
  step: isPoint,
  positions: isArray,
  normals: isArray,
  indices: isArray,
  lines: isArray,
  strokes: isArray,
});

const isEnd = record<ViewEnd>({
  which: oneOf('first', 'last'),
  node: orNull(name),
  fit: oneOf('cope', 'foot', 'square', 'open'),
  hosts: listOf(name, MANY),
  away: isPoint,
  clock: listOf(record<ViewEnd['clock'][number]>({ label: name, at: isPoint, outward: isPoint }), MANY),
  edge: isArray,
  says: sentence,
});

const isThing = record<WireThing>({
  id: name,
  kind: oneOf(...THING_KINDS),
  name,
  label: sentence,
  place: orNull(isPlace),
  statement: orNull(isPlace),
  key: sentence,
  mesh: orNull(isMesh),
  box: orNull(isBox),
  ends: orNull(listOf(isEnd, MANY)),
});

const isNode = record<WireNode>({
  id: name,
  name,
  at: isPoint,
  place: orNull(isPlace),
  statement: orNull(isPlace),
  axes: listOf(oneOf('x', 'y', 'z'), 3),
  along: orNull(isPoint),
  hangs: orNull(sentence),
});

const ofMark = { what: name, of: listOf(name, MANY), says: sentence, finding: orNull(below(MANY)) };
const isMark: Is<ViewMark> = cases<'kind', ViewMark>('kind', {
  angle: record<Extract<ViewMark, { kind: 'angle' }>>({
    ...ofMark,
    kind: oneOf('angle'),
    at: isPoint,
    from: isPoint,
    to: isPoint,
  }),
  distance: record<Extract<ViewMark, { kind: 'distance' }>>({
    ...ofMark,
    kind: oneOf('distance'),
    from: isPoint,
    to: isPoint,
  }),
  spot: record<Extract<ViewMark, { kind: 'spot' }>>({ ...ofMark, kind: oneOf('spot'), at: isPoint }),
  path: record<Extract<ViewMark, { kind: 'path' }>>({ ...ofMark, kind: oneOf('path'), points: listOf(isPoint, MANY) }),
});

const isFinding = record<WireFinding>({
  code: name,
  severity: oneOf('error', 'warning', 'information', 'hint'),
  text: sentence,
  of: listOf(name, MANY),
  marks: listOf(below(MANY), MANY),
  place: isPlace,
});

const flat = row<readonly [number, number]>(figure, figure);
const isWindow = record<ViewWindow>({
  bar: name,
  regions: listOf(
    record<ViewWindow['regions'][number]>({
      level: oneOf('required', 'recommended'),
      outlines: listOf(listOf(flat, MANY), MANY),
    }),
    MANY,
  ),
  across: flat,
});

const isWhole = record<WireModel>({
  title: sentence,
  units: oneOf('mm', 'in'),
  things: listOf(isThing, MANY),
  nodes: listOf(isNode, MANY),
  marks: listOf(isMark, MANY),
  findings: listOf(isFinding, MANY),
  window: orNull(isWindow),
  box: orNull(isBox),
  uri: sentence,
  version: orNull(figure),
});

/** Indices lead somewhere, and no two things or nodes share an id. */
export const isModel: Is<WireModel> = (value): value is WireModel => {
  if (!isWhole(value)) return false;
  const { things, nodes, marks, findings } = value;
  return (
    marks.every(({ finding }) => finding === null || finding < findings.length) &&
    findings.every((one) => one.marks.every((index) => index < marks.length)) &&
    new Set([...things, ...nodes].map(({ id }) => id)).size === things.length + nodes.length
  );
};

export const isMeasureAnswer: Is<MeasureAnswer> = record<MeasureAnswer>({
  lines: listOf(record<MeasureAnswer['lines'][number]>({ what: sentence, says: sentence }), 100),
  marks: listOf(isMark, 100),
});
