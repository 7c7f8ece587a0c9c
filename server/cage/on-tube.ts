/** Where on a tube's bent centreline a place is: along it, beside a bend, where it crosses a plane, nearest to a point. */
import type { Measure } from '../../grammar/finding';
import type { Expr, PlaceForm, Ref } from '../../grammar/tree';
import { sayNumber } from '../../grammar/print';
import type { LengthUnit } from '../../grammar/units';
import { LENGTH, LENGTH_DIGITS, UNITS } from '../../grammar/units';
import type { OnCentreline } from '../centreline/centreline';
import { bendSpan, nearestOn, planeCrossings, pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { distance, mirrorY } from '../centreline/vector';
import type { Reading } from './evaluate';
import { measure, shareOrLength, sideSign, wrong } from './evaluate';
import { nameOn } from './names';
import type { PlaceReading } from './places';
import type { Target } from './resolve';
import { twinSide } from './resolve';
import type { Path, PathNode } from './solved';

/** A form that puts a place on one tube. */
export type OnForm = Exclude<PlaceForm, { kind: 'between' | 'in-plane' | 'meets' }>;

/** Where a place inside the form is. */
type Nested = (place: Expr | PlaceForm) => Vec3 | null;

/** The length in mm as a figure for a message. */
const length = (value: number): Measure => ({ value, unit: 'mm' });

/** The full name of a target in the car itself, also where the text is read in its image. */
const nameHere = (target: PathNode, reading: Reading): string =>
  nameOn(target.definition, reading.world === 'real' ? target.side : twinSide(target.side));

/** A point as text, in the car itself. */
const pointHere = (at: Vec3, reading: Reading): string =>
  coordinates(reading.world === 'real' ? at : mirrorY(at), reading.scope.units);

export interface TubeHere {
  readonly target: Target;
  readonly path: Path;
  readonly name: string;
}

/** The tube that a name means, in the world that is read. */
export function tubeOf(ref: Ref, reading: PlaceReading): TubeHere | null {
  const target = reading.scope.meanings.get(ref);
  if (target === undefined || target === null) return null;
  const path = reading.known.tubePath(target.definition, target.side, reading.world);
  return path === null ? null : { target, path, name: nameHere(target, reading) };
}

/** The point of a tube that a form tells; null where there is none, which is told. */
export function pointOn(
  form: OnForm,
  here: TubeHere | null,
  reading: PlaceReading,
  nested: Nested,
): OnCentreline | null {
  switch (form.kind) {
    case 'on-at':
      return alongFromEnd(form, here, reading);
    case 'on-bend':
      return besideBend(form, here, reading);
    case 'on-mid': {
      const bend = here === null ? null : bendAt(form.corner, here, reading);
      if (bend === null || here === null || here.path.centreline === null) return null;
      return pointAt(here.path.centreline, bend.mid);
    }
    case 'on-where':
      return crossing(form, here, reading, nested);
    case 'on-nearest': {
      const to = nested(form.to);
      const line = here?.path.centreline ?? null;
      return to === null || line === null ? null : nearestOn(line, to);
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
  form: Extract<PlaceForm, { kind: 'on-at' }>,
  here: TubeHere | null,
  reading: PlaceReading,
): OnCentreline | null {
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
  return pointAt(line, backward ? line.length - way : way);
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
  form: Extract<PlaceForm, { kind: 'on-bend' }>,
  here: TubeHere | null,
  reading: PlaceReading,
): OnCentreline | null {
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
  return pointAt(line, station);
}

const NORMALS: Readonly<Record<'x' | 'y' | 'z', Vec3>> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

/** Crossings nearer to each other than this are equally near, mm. */
const EQUALLY = 1e-6;

function crossing(
  form: Extract<PlaceForm, { kind: 'on-where' }>,
  tube: TubeHere | null,
  reading: PlaceReading,
  nested: Nested,
): OnCentreline | null {
  const written = measure(form.plane.value, LENGTH, reading);
  const near = form.near === null ? null : nested(form.near);
  const line = tube?.path.centreline ?? null;
  if (written === null || tube === null || line === null || (form.near !== null && near === null)) return null;
  const { crossings, liesIn } = planeCrossings(line, NORMALS[form.plane.axis], written);
  const { axis } = form.plane;
  /** A coordinate of the world that is read, in the car itself. */
  const here = (value: number): number => (axis === 'y' && reading.world === 'image' ? 0 - value : value);
  const list = (points: readonly OnCentreline[]): readonly string[] => points.map((c) => pointHere(c.point, reading));
  if (liesIn) {
    const at = [...tube.path.legsIn(NORMALS[form.plane.axis], written)].map((leg) =>
      leg.map((p) => pointHere(p, reading)).join(' to '),
    );
    return wrong(reading, form.span, 'place.several', {
      tube: tube.name,
      count: `all along ${axis} = ${bareLength(here(written), reading.scope.units)}`,
      places: [...at, ...list(crossings)],
      mend: 'choose another plane',
    });
  }
  if (crossings.length === 0) {
    const [low, high] = extent(line.points, axis)
      .map(here)
      .sort((p, q) => p - q);
    const what = `{tube} does not cross ${axis} = {value#}: its nodes lie between {low} and {high}.`;
    const params = {
      what,
      tube: tube.name,
      value: length(here(written)),
      low: length(low ?? 0),
      high: length(high ?? 0),
    };
    return wrong(reading, form.span, 'place.none', params);
  }
  const only = crossings[0];
  if (crossings.length === 1 && only !== undefined) return only;
  const several = (left: readonly OnCentreline[], mend: string): null =>
    wrong(reading, form.span, 'place.several', {
      tube: tube.name,
      count: `${left.length} times`,
      places: list(left),
      mend,
    });
  if (near !== null) {
    const far = crossings.map((c) => distance(c.point, near));
    const least = Math.min(...far);
    const nearest = crossings.filter((_, i) => (far[i] ?? Infinity) <= least + EQUALLY);
    const found = nearest[0];
    if (nearest.length === 1 && found !== undefined) return found;
    return several(nearest, 'they are equally near to the place after near, so choose another');
  }
  const side = reading.scope.side;
  const onSide = side === null ? crossings : crossings.filter((c) => c.point[1] * sideSign(side) > EQUALLY);
  const found = onSide[0];
  if (onSide.length === 1 && found !== undefined) return found;
  return several(onSide.length === 0 ? crossings : onSide, 'say which with near P');
}

function extent(points: readonly Vec3[], axis: 'x' | 'y' | 'z'): readonly [number, number] {
  const index = axis === 'x' ? 0 : axis === 'y' ? 1 : 2;
  const values = points.map((p) => p[index]);
  return [Math.min(...values), Math.max(...values)];
}

/** A length without its unit, as the file would have it. */
const bareLength = (value: number, units: LengthUnit): string =>
  sayNumber(value / (UNITS[units]?.factor ?? 1), LENGTH_DIGITS[units]);

/** A place as text, in a file's unit: `(-36, 596, 690)`. */
export function coordinates(at: Vec3, units: LengthUnit): string {
  return `(${at.map((value) => bareLength(value, units)).join(', ')})`;
}
