/** Where a place is: the forms that go along a line, into a plane, or onto a tube's bent centreline. */
import type { Code } from '../../grammar/codes';
import type { Measure, Params, Span } from '../../grammar/finding';
import type { Expr, PlaceForm, PlaceForm as Form, Ref } from '../../grammar/tree';
import type { LengthUnit } from '../../grammar/units';
import { LENGTH, UNITS } from '../../grammar/units';
import type { OnCentreline } from '../centreline/centreline';
import { bendSpan, nearestBetween, nearestOn, planeCrossings, pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled, distance, mirrorY, sub } from '../centreline/vector';
import type { Side } from './cage';
import type { Known, Reading } from './evaluate';
import { asSpot, directed, measure, namesIn, shareOrLength, sideSign, tell, within, worth } from './evaluate';
import type { Definition, Scope } from './names';
import { fullName } from './names';
import type { World } from './reporter';
import type { Resolver, Target } from './resolve';
import { NODE, PLANE, TUBE, twinSide } from './resolve';
import type { FlatPlane, Path, PathNode } from './solved';

/** What a place needs to know beside values: tubes and planes. */
export interface KnownShapes extends Known {
  tubePath(definition: Definition, side: Side | null, world: World): Path | null;
  planeOf(definition: Definition, world: World): FlatPlane | null;
}

export interface PlaceReading extends Reading {
  readonly known: KnownShapes;
}

/** A place with the tube on which it was put. */
export interface Placed {
  readonly at: Vec3;
  /** `where A meets B`: by how much they miss, mm. */
  readonly miss: number | null;
  readonly on: { readonly tube: Definition; readonly side: Side | null } | null;
}

const FORMS: ReadonlySet<string> = new Set<Form['kind']>([
  'between',
  'in-plane',
  'on-at',
  'on-bend',
  'on-mid',
  'on-where',
  'on-nearest',
  'meets',
]);

export const isForm = (value: { readonly kind: string }): value is Form => FORMS.has(value.kind);

/** Places within places deeper than this are left out; the parser tells of such texts. */
const DEEPEST = 200;

/** Finds the meaning of every name in a place, and gives those on which it hangs. */
export function namesInPlace(place: Expr | Form, scope: Scope, resolver: Resolver, out: Target[], depth = 0): void {
  if (depth > DEEPEST) return;
  const tube = (ref: Ref): void => {
    const target = resolver.named(ref, TUBE, scope);
    if (target !== null) out.push(target);
  };
  /** The corner or end of a path: a name only, its place is the tube's business. */
  const mark = (ref: Ref): void => void resolver.named(ref, NODE, scope);
  if (!isForm(place)) return namesIn(place, true, scope, resolver, out);
  switch (place.kind) {
    case 'between':
      namesInPlace(place.a, scope, resolver, out, depth + 1);
      namesInPlace(place.b, scope, resolver, out, depth + 1);
      return namesIn(place.at, false, scope, resolver, out);
    case 'in-plane': {
      const plane = resolver.named(place.plane, PLANE, scope);
      if (plane !== null) out.push(plane);
      if (place.pair.kind === 'tuple')
        for (const item of place.pair.items) namesIn(item.value, false, scope, resolver, out);
      return;
    }
    case 'on-at':
      tube(place.tube);
      if (place.from !== null) mark(place.from);
      return namesIn(place.at, false, scope, resolver, out);
    case 'on-bend':
      tube(place.tube);
      mark(place.corner);
      return namesIn(place.at, false, scope, resolver, out);
    case 'on-mid':
      tube(place.tube);
      return mark(place.corner);
    case 'on-where':
      tube(place.tube);
      namesIn(place.plane.value, false, scope, resolver, out);
      if (place.near !== null) namesInPlace(place.near, scope, resolver, out, depth + 1);
      return;
    case 'on-nearest':
      tube(place.tube);
      return namesInPlace(place.to, scope, resolver, out, depth + 1);
    case 'meets':
      tube(place.a);
      return tube(place.b);
  }
}

const bare = (at: Vec3 | null): Placed | null => (at === null ? null : { at, miss: null, on: null });

const wrong = (reading: Reading, span: Span, code: Code, params: Params): null =>
  tell(reading, span, { kind: 'fault', code, params });

/** The length in mm as a figure for a message. */
const length = (value: number): Measure => ({ value, unit: 'mm' });

/** Where a place is, its names having been found ({@link namesInPlace}); null where that cannot be told. */
export function placed(place: Expr | PlaceForm, reading: PlaceReading, depth = 0): Placed | null {
  if (depth > DEEPEST) return null;
  if (!isForm(place)) {
    const value = worth(place, reading);
    return bare(value === null ? null : asSpot(value, place.span, reading));
  }
  switch (place.kind) {
    case 'between':
      return bare(between(place, reading, depth));
    case 'in-plane':
      return bare(inPlane(place, reading));
    case 'meets':
      return meets(place, reading);
    default:
      return onTube(place, reading, depth);
  }
}

function between(form: Extract<Form, { kind: 'between' }>, reading: PlaceReading, depth: number): Vec3 | null {
  const a = placed(form.a, reading, depth + 1)?.at ?? null;
  const b = placed(form.b, reading, depth + 1)?.at ?? null;
  const along = shareOrLength(form.at, reading);
  if (a === null || b === null || along === null) return null;
  if (along.kind === 'share') return within(addScaled(a, sub(b, a), along.value), form.span, reading);
  const whole = distance(a, b);
  if (whole === 0) {
    return wrong(reading, form.span, 'place.none', {
      what: 'The two places are the same point: there is no way along between them.',
    });
  }
  return within(addScaled(a, sub(b, a), along.value / whole), form.span, reading);
}

function inPlane(form: Extract<Form, { kind: 'in-plane' }>, reading: PlaceReading): Vec3 | null {
  const target = reading.scope.meanings.get(form.plane);
  const plane =
    target === undefined || target === null ? null : reading.known.planeOf(target.definition, reading.world);
  if (form.pair.kind === 'missing') return null;
  const pair = form.pair;
  const across = plane?.runs !== 'along';
  const worded = pair.items.some((item) => item.word !== null);
  if (worded ? pair.items.some((item) => item.word === null) : pair.items.length !== 2) {
    const wanted = across
      ? 'two measures such as (596, 507) or (out 596, up 507)'
      : 'two measures such as (350, 420) or (aft 350, up 420)';
    return wrong(reading, pair.span, 'fact.value', { fact: 'a place in a plane', wanted });
  }
  if (!worded) {
    const [first, up] = pair.items.map((item) => measure(item.value, LENGTH, reading));
    if (first === undefined || up === undefined || first === null || up === null || plane === null) return null;
    return within(addScaled(addScaled(plane.at, plane.first, first), plane.up, up), form.span, reading);
  }
  const sum = directed(pair, across ? ['y', 'z'] : ['x', 'z'], reading, plane === null ? 'unknown' : plane.at);
  if (sum === null || plane === null) return null;
  return within(
    addScaled(addScaled(plane.at, plane.first, across ? sum.y : sum.x), plane.up, sum.z),
    form.span,
    reading,
  );
}

function meets(form: Extract<Form, { kind: 'meets' }>, reading: PlaceReading): Placed | null {
  const a = tubeOf(form.a, reading);
  const b = tubeOf(form.b, reading);
  if (a?.path.centreline === null || b?.path.centreline === null || a === null || b === null) return null;
  if (a.path === b.path) {
    return wrong(reading, form.span, 'place.none', { what: 'A tube does not meet itself: name two tubes.' });
  }
  const nearest = nearestBetween(a.path.centreline, b.path.centreline);
  return { at: nearest.onA.point, miss: nearest.distance, on: { tube: a.target.definition, side: a.target.side } };
}

/** The full name of a target in the car itself, also where the text is read in its image. */
const nameHere = (target: PathNode, reading: Reading): string =>
  fullName(target.definition.name, reading.world === 'real' ? target.side : twinSide(target.side));

/** A point as text, in the car itself. */
const pointHere = (at: Vec3, reading: Reading): string =>
  coordinates(reading.world === 'real' ? at : mirrorY(at), reading.scope.units);

interface TubeHere {
  readonly target: Target;
  readonly path: Path;
  readonly name: string;
}

function tubeOf(ref: Ref, reading: PlaceReading): TubeHere | null {
  const target = reading.scope.meanings.get(ref);
  if (target === undefined || target === null) return null;
  const path = reading.known.tubePath(target.definition, target.side, reading.world);
  return path === null ? null : { target, path, name: nameHere(target, reading) };
}

type OnForm = Exclude<Form, { kind: 'between' | 'in-plane' | 'meets' }>;

function onTube(form: OnForm, reading: PlaceReading, depth: number): Placed | null {
  const here = tubeOf(form.tube, reading);
  const at = pointOn(form, here, reading, depth);
  if (at === null || here === null) return null;
  return { at, miss: null, on: { tube: here.target.definition, side: here.target.side } };
}

function pointOn(form: OnForm, here: TubeHere | null, reading: PlaceReading, depth: number): Vec3 | null {
  switch (form.kind) {
    case 'on-at':
      return alongFromEnd(form, here, reading);
    case 'on-bend':
      return besideBend(form, here, reading);
    case 'on-mid': {
      const bend = here === null ? null : bendAt(form.corner, here, reading);
      if (bend === null || here === null || here.path.centreline === null) return null;
      return pointAt(here.path.centreline, bend.mid).point;
    }
    case 'on-where':
      return crossing(form, here, reading, depth);
    case 'on-nearest': {
      const to = placed(form.to, reading, depth + 1);
      const line = here?.path.centreline ?? null;
      return to === null || line === null ? null : nearestOn(line, to.at).point;
    }
  }
}

/** The index of a node in a tube's path, as the text names both; null where it is not there. */
function indexIn(
  ref: Ref,
  path: Path,
  reading: PlaceReading,
): { readonly name: string; readonly index: number } | null {
  const target = reading.scope.meanings.get(ref);
  if (target === undefined || target === null) return null;
  const index = path.nodes.findIndex((n) => n !== null && n.definition === target.definition && n.side === target.side);
  return { name: nameHere(target, reading), index };
}

function alongFromEnd(
  form: Extract<Form, { kind: 'on-at' }>,
  here: TubeHere | null,
  reading: PlaceReading,
): Vec3 | null {
  const along = shareOrLength(form.at, reading);
  if (along === null || here === null) return null;
  if (along.kind === 'length' && form.from === null) {
    const wanted = 'a share such as 35 %, or a length from an end node: at 420 from NODE';
    return wrong(reading, form.at.span, 'fact.value', { fact: 'at', wanted });
  }
  let backward = false;
  const first = here.path.nodes[0];
  let from = first === null || first === undefined ? 'its first node' : nameHere(first, reading);
  if (form.from !== null) {
    const node = indexIn(form.from, here.path, reading);
    if (node === null) return null;
    const last = here.path.nodes.length - 1;
    if (node.index !== 0 && !sameNode(here.path, last, form.from, reading)) {
      const what =
        node.index < 0
          ? "'{node}' is not on the path of {tube}."
          : "'{node}' is no end node of {tube}: measure from one of its ends.";
      return wrong(reading, form.from.span, 'place.none', { what, node: node.name, tube: here.name });
    }
    backward = node.index !== 0;
    from = node.name;
  }
  const line = here.path.centreline;
  if (line === null) return null;
  const way = along.kind === 'share' ? along.value * line.length : along.value;
  if (way < -ROUNDING || way > line.length + ROUNDING) {
    const what =
      way < 0
        ? '{tube} has no point {way} before {from}.'
        : '{tube} is {length} long: there is no point {way} from {from}.';
    return wrong(reading, form.at.span, 'place.none', {
      what,
      tube: here.name,
      way: length(Math.abs(way)),
      length: length(line.length),
      from,
    });
  }
  return pointAt(line, backward ? line.length - way : way).point;
}

function sameNode(path: Path, index: number, ref: Ref, reading: PlaceReading): boolean {
  const node = path.nodes[index];
  const target = reading.scope.meanings.get(ref);
  return !!node && !!target && node.definition === target.definition && node.side === target.side;
}

/** What rounding may put a point beyond a tube's end, mm. */
const ROUNDING = 1e-9;

/** Stations of a corner's bend; a corner that runs straight on is a bend of no length. */
function bendAt(
  ref: Ref,
  here: TubeHere,
  reading: PlaceReading,
): { readonly start: number; readonly mid: number; readonly end: number } | null {
  const node = indexIn(ref, here.path, reading);
  if (node === null) return null;
  if (node.index <= 0 || node.index >= here.path.nodes.length - 1) {
    const what =
      node.index < 0 ? "'{node}' is not on the path of {tube}." : "'{node}' is an end of {tube}, not a corner.";
    return wrong(reading, ref.span, 'place.none', { what, node: node.name, tube: here.name });
  }
  const line = here.path.centreline;
  if (line === null) return null;
  const bend = bendSpan(line, node.index);
  if (bend !== null) return bend;
  const corner = line.points[node.index];
  if (corner === undefined) return null;
  const { station } = nearestOn(line, corner);
  return { start: station, mid: station, end: station };
}

function besideBend(
  form: Extract<Form, { kind: 'on-bend' }>,
  here: TubeHere | null,
  reading: PlaceReading,
): Vec3 | null {
  const way = measure(form.at, LENGTH, reading);
  const bend = here === null ? null : bendAt(form.corner, here, reading);
  if (way === null || bend === null || here === null || here.path.centreline === null) return null;
  if (way < 0) {
    const wanted = `a length of 0 or more ${form.side} the bend`;
    return wrong(reading, form.at.span, 'number.range', { value: length(way), wanted });
  }
  const line = here.path.centreline;
  const station = form.side === 'before' ? bend.start - way : bend.end + way;
  if (station < -ROUNDING || station > line.length + ROUNDING) {
    const have = form.side === 'before' ? bend.start : line.length - bend.end;
    const what = `{tube} has only {have} ${form.side} the bend at {node}: there is no point {way} from it.`;
    const node = indexIn(form.corner, here.path, reading)?.name ?? '';
    return wrong(reading, form.at.span, 'place.none', {
      what,
      tube: here.name,
      have: length(have),
      node,
      way: length(way),
    });
  }
  return pointAt(line, station).point;
}

const NORMALS: Readonly<Record<'x' | 'y' | 'z', Vec3>> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

/** Crossings nearer to each other than this are equally near, mm. */
const EQUALLY = 1e-6;

function crossing(
  form: Extract<Form, { kind: 'on-where' }>,
  here: TubeHere | null,
  reading: PlaceReading,
  depth: number,
): Vec3 | null {
  const written = measure(form.plane.value, LENGTH, reading);
  const near = form.near === null ? null : placed(form.near, reading, depth + 1);
  const line = here?.path.centreline ?? null;
  if (written === null || here === null || line === null || (form.near !== null && near === null)) return null;
  const { crossings, liesIn } = planeCrossings(line, NORMALS[form.plane.axis], written);
  const plane = `${form.plane.axis} = {value}`;
  const value = length(written);
  const list = (points: readonly OnCentreline[]): readonly string[] => points.map((c) => pointHere(c.point, reading));
  if (liesIn) {
    const at = [...here.path.legsIn(NORMALS[form.plane.axis], written)].map((leg) =>
      leg.map((p) => pointHere(p, reading)).join(' to '),
    );
    return wrong(reading, form.span, 'place.several', {
      tube: here.name,
      count: `all along ${plane}`,
      value,
      places: [...at, ...list(crossings)],
      mend: 'choose another plane',
    });
  }
  if (crossings.length === 0) {
    const [low, high] = extent(line.points, form.plane.axis);
    const what = `{tube} does not cross ${plane}: it lies between {low} and {high}.`;
    return wrong(reading, form.span, 'place.none', {
      what,
      tube: here.name,
      value,
      low: length(low),
      high: length(high),
    });
  }
  const only = crossings[0];
  if (crossings.length === 1 && only !== undefined) return only.point;
  const several = (left: readonly OnCentreline[], mend: string): null =>
    wrong(reading, form.span, 'place.several', {
      tube: here.name,
      count: `${left.length} times`,
      places: list(left),
      mend,
    });
  if (near !== null) {
    const far = crossings.map((c) => distance(c.point, near.at));
    const least = Math.min(...far);
    const nearest = crossings.filter((_, i) => (far[i] ?? Infinity) <= least + EQUALLY);
    const found = nearest[0];
    if (nearest.length === 1 && found !== undefined) return found.point;
    return several(nearest, 'they are equally near to the place after near, so choose another');
  }
  const side = reading.scope.side;
  const onSide = side === null ? crossings : crossings.filter((c) => c.point[1] * sideSign(side) > EQUALLY);
  const found = onSide[0];
  if (onSide.length === 1 && found !== undefined) return found.point;
  return several(onSide.length === 0 ? crossings : onSide, 'say which with near P');
}

function extent(points: readonly Vec3[], axis: 'x' | 'y' | 'z'): readonly [number, number] {
  const index = axis === 'x' ? 0 : axis === 'y' ? 1 : 2;
  const values = points.map((p) => p[index]);
  return [Math.min(...values), Math.max(...values)];
}

/** Digits behind the point that a tape can show. */
const DIGITS: Readonly<Record<LengthUnit, number>> = { mm: 1, cm: 2, m: 4, in: 3, ft: 4 };

/** A place as text, in a file's unit: `(-36, 596, 690)`. */
export function coordinates(at: Vec3, units: LengthUnit): string {
  const factor = UNITS[units]?.factor ?? 1;
  const one = (value: number): string => String(Number((value / factor).toFixed(DIGITS[units])) + 0);
  return `(${at.map(one).join(', ')})`;
}
