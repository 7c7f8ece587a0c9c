/** What is measured, drawn where it was measured: the figures of the drawings, and for each finding at least a spot. */
import type { Measure, Params, PlacedFinding } from '../../grammar/finding';
import { sayMeasure } from '../../grammar/print';
import type { LengthUnit } from '../../grammar/units';
import type { Cage, Thing } from '../cage/cage';
import { pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { add, scale } from '../centreline/vector';
import type { Mark } from '../drawing/marks';
import { platesOf } from '../drawing/things';
import { once } from '../geometry/once';
import type { Part, Shape } from '../geometry/shape';
import { marksInSpace } from '../papers/figures';
import type { Car } from '../rules/car';
import type { ViewMark } from './model';
import type { Names } from './names';
import { lineOf } from './pairs';
import { roundedPoint } from './rounded';
import { spansOf, spansOnDemand } from './spans';
import type { Target } from './target';
import { targetOf } from './target';

/** Findings with the indices of the marks that show each, and all marks. */
export interface Marked {
  readonly marks: readonly ViewMark[];
  readonly ofFinding: readonly (readonly number[])[];
}

/** What a code measures, in words: `strap free run`. */
const wordsOf = (code: string): string => code.replace(/[.-]/g, ' ');

const saysOf = ({ code, measured }: PlacedFinding, units: LengthUnit): string =>
  measured === undefined || measured.unit === '1' ? wordsOf(code) : `${wordsOf(code)} ${sayMeasure(measured, units)}`;

type Param = Params[string] | undefined;

const text = (value: Param): string | null => (typeof value === 'string' ? value : null);
const length = (value: Param): number | null =>
  typeof value === 'object' && value !== null && value !== null && 'unit' in value && (value as Measure).unit === 'mm'
    ? (value as Measure).value
    : null;

const nodeAt = (cage: Cage, name: string | null): Vec3 | null => {
  const node = name === null ? undefined : cage.things.get(name);
  return node?.kind === 'node' ? node.at : null;
};

/** Those that are known. */
const known = (points: readonly (Vec3 | null)[]): readonly Vec3[] => points.filter((point) => point !== null);

const mean = (points: readonly Vec3[]): Vec3 | null =>
  points.length === 0 ? null : scale(points.reduce(add), 1 / points.length);

function middleOf(part: Part | undefined): Vec3 | null {
  const line = part?.centreline ?? null;
  return line === null ? null : pointAt(line, line.length / 2).point;
}

function onTube(names: Names, tube: string | null, station: number | null): Vec3 | null {
  const thing = tube === null ? undefined : names.things(tube)[0];
  const line = thing?.kind === 'tube' ? thing.centreline : null;
  return line === null ? null : pointAt(line, station ?? line.length / 2).point;
}

/** Where a thing is; null: nowhere that is known. */
export function whereIs(thing: Thing, shape: Shape, names: Names): Vec3 | null {
  const { cage } = shape;
  switch (thing.kind) {
    case 'node':
      return thing.at;
    case 'tube':
      return middleOf(names.parts(thing.name)[0]) ?? mean(known(thing.path.map((node) => nodeAt(cage, node))));
    case 'foot':
    case 'gusset':
      return nodeAt(cage, thing.node);
    case 'vent':
      return nodeAt(cage, thing.node) ?? onTube(names, thing.tube, null);
    case 'joint':
      return nodeAt(cage, thing.nodes[0] ?? null);
    case 'seat':
      return thing.slots ?? thing.hip;
    case 'strap': {
      const figures = shape.straps.find(({ name }) => name === thing.name);
      return figures?.contact ?? figures?.slot ?? null;
    }
    case 'collar':
      return onTube(names, thing.tube, null);
    case 'hole':
      return onTube(names, thing.tube, thing.station);
    case 'padding':
      return onTube(names, thing.tube, thing.from);
    case 'fitting': {
      const part = thing.tube === null ? undefined : names.parts(thing.tube).at(thing.end === 'last' ? -1 : 0);
      return part?.ends[thing.end === 'last' ? 1 : 0].origin ?? onTube(names, thing.tube, null);
    }
    case 'door':
    case 'panel':
      return mean(thing.outline ?? []);
    case 'seat-mount': {
      const seat = thing.seat === null ? undefined : cage.things.get(thing.seat);
      return seat?.kind === 'seat' ? (seat.hip ?? seat.slots) : null;
    }
    case 'anchor':
      return thing.at;
  }
}

/** Params that name a node where the finding is seen. */
const NODE_PARAMS = ['node', 'joint', 'corner'] as const;
/** Params that name the other thing that a finding is about. */
const OTHER_PARAMS = ['a', 'b', 'other', 'first', 'second', 'to'] as const;

/** Where a finding is seen: told by itself, at a node that it names, at an end, else at its thing. For twins both places. */
function spotsOf({ subject, params }: PlacedFinding, shape: Shape, names: Names): readonly Vec3[] {
  const [x, y, z] = [length(params['x']), length(params['y']), length(params['z'])];
  if (x !== null && y !== null && z !== null) return [[x, y, z]];
  for (const param of NODE_PARAMS) {
    const name = text(params[param]);
    const nodes = name === null ? [] : known(names.full(name).map((one) => nodeAt(shape.cage, one)));
    if (nodes.length > 0) return nodes;
  }
  const end = params['end'];
  if (end === 'first' || end === 'last') {
    const parts = names.parts(text(params['tube']) ?? subject);
    const own = known(
      parts.map((part) => {
        const cut = part.ends[end === 'first' ? 0 : 1];
        // Of a split tube only the piece that has this end.
        return cut.node === null ? null : (cut.origin ?? nodeAt(shape.cage, cut.node));
      }),
    );
    if (own.length > 0) return own;
  }
  return known(names.things(subject).map((thing) => whereIs(thing, shape, names)));
}

/** The nodes of tubes that a finding is about and that have no shape, in order: for twins both. */
function pathsOf({ subject }: PlacedFinding, { cage }: Shape, names: Names): readonly (readonly Vec3[])[] {
  return names.things(subject).flatMap((thing) => {
    if (thing.kind !== 'tube' || thing.centreline !== null) return [];
    const points = known(thing.path.map((node) => nodeAt(cage, node)));
    return points.length > 1 ? [points] : [];
  });
}

/** Ids of the things that have a finding. */
export function idsOfFinding(
  { code, subject, params }: PlacedFinding,
  names: Names,
  spaces: Spaces,
): readonly string[] {
  const tubes = params['tubes'];
  const list = Array.isArray(tubes) ? (tubes as readonly string[]) : [];
  const all = [
    ...(code === 'space.unvented'
      ? list.flatMap((tube) => names.full(tube).flatMap((one) => spaces.get(one) ?? []))
      : []),
    ...names.idsOf(subject),
    ...list.flatMap((tube) => names.idsOf(tube)),
    ...OTHER_PARAMS.flatMap((param) => {
      const name = text(params[param]);
      return name === null ? [] : names.idsOf(name);
    }),
  ];
  return all.length > 0 ? [...new Set(all)] : [...new Set(carriersOf(subject, params, names))];
}

/** Of what has no body of its own: the tube or the seat that it belongs to. */
function carriersOf(subject: string, params: Params, names: Names): readonly string[] {
  const own = names
    .things(subject)
    .flatMap((thing) => [
      'tube' in thing ? thing.tube : null,
      'seat' in thing ? thing.seat : null,
      'node' in thing ? thing.node : null,
      ...('nodes' in thing ? thing.nodes : []),
    ]);
  return [...own, text(params['tube']), text(params['seat'])].flatMap((name) =>
    name === null ? [] : names.idsOf(name),
  );
}

/** The id of the space that a part's bore belongs to. */
export type Spaces = ReadonlyMap<string, string>;

/** What is drawn of a car: the marks of the drawings, and the way of a tube that has no shape yet. */
type SpaceMark = Mark | (Omit<Extract<Mark, { kind: 'spot' }>, 'kind' | 'at'> & Path);
interface Path {
  readonly kind: 'path';
  readonly points: readonly Vec3[];
}

function viewMark(mark: SpaceMark, ids: readonly string[], finding: number | null): ViewMark {
  const { what, says } = mark;
  const common = { what, of: ids, says, finding };
  switch (mark.kind) {
    case 'angle':
      return {
        ...common,
        kind: 'angle',
        at: roundedPoint(mark.at),
        from: roundedPoint(add(mark.at, mark.from)),
        to: roundedPoint(add(mark.at, mark.to)),
      };
    case 'distance':
      return { ...common, kind: 'distance', from: roundedPoint(mark.from), to: roundedPoint(mark.to) };
    case 'spot':
      return { ...common, kind: 'spot', at: roundedPoint(mark.at) };
    case 'path':
      return { ...common, kind: 'path', points: mark.points.map(roundedPoint) };
  }
}

/** What names mean, as exact bodies, each worked out once; of a node, and of what has none: nothing. */
function bodiesOf(shape: Shape, names: Names): (name: string) => readonly Target[] {
  const known = new Map<string, Target | null>();
  const plates = once(() => platesOf(shape));
  return (name) => {
    if (names.things(name).some(({ kind }) => kind === 'node')) return [];
    return names.idsOf(name).flatMap((id) => {
      const target = known.get(id) ?? targetOf({ id, at: [0, 0, 0] }, shape, plates);
      known.set(id, target);
      return target === null || target.face === null ? [] : [target];
    });
  };
}

/** A finding's own line, where it measures one; else spots where it is seen. */
function ownMarks(
  finding: PlacedFinding,
  { cage, shape }: Car,
  names: Names,
  bodies: (name: string) => readonly Target[],
): readonly SpaceMark[] {
  const common = {
    what: finding.code,
    of: [finding.subject],
    says: saysOf(finding, cage.units),
    value: finding.measured?.value ?? 0,
  };
  const line = lineOf(finding, names, bodies);
  if (line !== null) return [{ ...common, kind: 'distance', from: line.from, to: line.to, offset: 0 }];
  const paths = pathsOf(finding, shape, names);
  if (paths.length > 0) return paths.map((points) => ({ ...common, kind: 'path', points }));
  return spotsOf(finding, shape, names).map((at) => ({ ...common, kind: 'spot', at }));
}

/** Codes that judge what another one measures: both are seen in one mark. */
const SEEN_AS: Readonly<Record<string, string>> = { 'strap.bar-drop': 'strap.drop' };

/** Marks by what they measure and of what. */
class Shelf {
  private readonly places = new Map<string, number[]>();
  private readonly own = new Map<string, number>();
  readonly all: SpaceMark[] = [];

  constructor(marks: readonly Mark[]) {
    for (const mark of marks) this.add(mark);
  }

  add(mark: SpaceMark): number {
    const index = this.all.push(mark) - 1;
    for (const name of mark.of) {
      const key = `${mark.what} ${name}`;
      const list = this.places.get(key);
      if (list === undefined) this.places.set(key, [index]);
      else list.push(index);
    }
    return index;
  }

  /** A finding's own: another one of the same figure at the same place is seen in the same mark. */
  addOwn(mark: SpaceMark): number {
    const key = JSON.stringify([mark.what, mark.says, mark.kind, placesOf(mark)[0]]);
    const index = this.own.get(key) ?? this.all.push(mark) - 1;
    this.own.set(key, index);
    return index;
  }

  of(what: string, names: readonly string[]): readonly number[] {
    return [...new Set(names.flatMap((name) => this.places.get(`${what} ${name}`) ?? []))].sort((a, b) => a - b);
  }
}

/** All marks of a car. `findings`: the open ones, worst first. */
export function marksOfCar(car: Car, findings: readonly PlacedFinding[], names: Names): Marked {
  const shelf = new Shelf([...marksInSpace(car), ...spansOf(car)].filter(isSound));
  const onDemand = once(() => new Shelf(spansOnDemand(car).filter(isSound)));
  const bodies = bodiesOf(car.shape, names);
  const worst = new Map<number, number>();
  const ofFinding = findings.map((finding, index): readonly number[] => {
    const what = SEEN_AS[finding.code] ?? finding.code;
    const about = names.full(finding.subject);
    const inShelf = (): readonly number[] => {
      const drawn = shelf.of(what, about);
      if (drawn.length > 0) return drawn;
      const { all } = onDemand();
      const more = onDemand().of(what, about);
      return more.flatMap((i) => all[i] ?? []).map((mark) => shelf.add(mark));
    };
    const found = inShelf();
    const shown =
      found.length > 0
        ? found
        : ownMarks(finding, car, names, bodies)
            .filter(isSound)
            .map((mark) => shelf.addOwn(mark));
    for (const i of shown) if (!worst.has(i)) worst.set(i, index);
    return shown;
  });
  const marks = shelf.all.map((mark, i) =>
    viewMark(mark, [...new Set(mark.of.flatMap((name) => names.idsOf(name)))], worst.get(i) ?? null),
  );
  return { marks, ofFinding };
}

/** Places of a mark, that of its beginning or its corner first. */
const placesOf = (mark: SpaceMark): readonly Vec3[] =>
  mark.kind === 'path'
    ? mark.points
    : mark.kind === 'distance'
      ? [mark.from, mark.to]
      : mark.kind === 'spot'
        ? [mark.at]
        : [mark.at, mark.from, mark.to];

/** Everything of it is a number. */
const isSound = (mark: SpaceMark): boolean => placesOf(mark).flat().every(Number.isFinite);
