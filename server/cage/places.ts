/** Where a place is: the forms that go along a line, into a plane, or onto a tube's bent centreline. */
import type { Expr, PlaceForm, PlaceForm as Form, Ref } from '../../grammar/tree';
import { LENGTH } from '../../grammar/units';
import { nearestBetween } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { addScaled, distance, sub } from '../centreline/vector';
import type { Side } from './cage';
import type { Known, Reading } from './evaluate';
import { asSpot, directed, measure, namesIn, shareOrLength, within, worth, wrong } from './evaluate';
import type { Definition, Scope } from './names';
import type { World } from './reporter';
import type { OnForm } from './on-tube';
import { pointOn, tubeOf } from './on-tube';
import type { Resolver, Target } from './resolve';
import { NODE, PLANE, TUBE } from './resolve';
import type { FlatPlane, Path } from './solved';

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
  readonly on: { readonly tube: Definition; readonly side: Side | null; readonly station: number } | null;
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

/** What rounding may put a point beyond an end, mm. */
const ROUNDING = 1e-9;

const bare = (at: Vec3 | null): Placed | null => (at === null ? null : { at, miss: null, on: null });

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
  if (along.value < 0 || along.value > whole + ROUNDING) {
    const what = 'There is no point {way} along: the two places are {whole} apart.';
    const [way, apart] = [along.value, whole].map((value) => ({ value, unit: 'mm' as const }));
    return wrong(reading, form.at.span, 'place.none', { what, way: way ?? null, whole: apart ?? null });
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
    return wrong(reading, pair.span, 'fact.value', { fact: '(…)', wanted });
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
  return {
    at: nearest.onA.point,
    miss: nearest.distance,
    on: { tube: a.target.definition, side: a.target.side, station: nearest.onA.station },
  };
}

function onTube(form: OnForm, reading: PlaceReading, depth: number): Placed | null {
  const here = tubeOf(form.tube, reading);
  const on = pointOn(form, here, reading, (place) => placed(place, reading, depth + 1)?.at ?? null);
  if (on === null || here === null) return null;
  const { definition, side } = here.target;
  return { at: on.point, miss: null, on: { tube: definition, side, station: on.station } };
}
