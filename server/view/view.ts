/** The picture's model: everything that a panel draws, lists and points at, of one analysed car. */
import type { PlacedFinding, Place, Severity } from '../../grammar/finding';
import { placeOf, statementOf } from '../cage/place';
import type { Shape } from '../geometry/shape';
import type { MeshedThing } from '../mesh/meshes';
import { Car } from '../rules/car';
import type { EndCache, MadeEnds } from './ends';
import { endsOf, newEndCache } from './ends';
import type { SayPlace, Written } from './grips';
import { AXES, GripReader } from './grips';
import { Labels } from './labels';
import type { Spaces } from './marks';
import { idsOfFinding, marksOfCar } from './marks';
import type { Point3, SpanPlace, ViewFinding, ViewModel, ViewNode, ViewThing } from './model';
import { Names, nodeId } from './names';
import { roundedPoint } from './rounded';
import type { Surfaces } from './surfaces';
import { judgedSurfaces } from './surfaces';
import type { Pack } from './wire-mesh';
import { wireMesh } from './wire-mesh';

/** An analysed car. */
export interface Seen extends Written {
  readonly shape: Shape;
  readonly findings: readonly PlacedFinding[];
}

/** What only the edge knows. */
export interface ViewEdge {
  readonly pack: Pack;
  readonly say: SayPlace;
  /** Keys of meshes that the asker has, by id. */
  readonly have: Readonly<Record<string, string>>;
}

/** What is kept of a car from one model to the next. */
export interface ViewCache {
  readonly surfaces: Surfaces;
  readonly ends: EndCache;
}

export const newViewCache = (): ViewCache => ({ surfaces: judgedSurfaces(), ends: newEndCache() });

/** Beyond this many things the rest are listed and not drawn. */
const MOST_DRAWN = 6000;

type Box = readonly [Point3, Point3];

/** Of what is no tube. */
const NO_ENDS: MadeEnds = { ends: [], key: '' };

/** What the camera frames, where there is any of it: what is made, not what stands round it. */
const MADE: ReadonlySet<string> = new Set(['tube', 'existing-tube', 'foot', 'gusset', 'collar', 'plate']);

const RANKS: Readonly<Record<Severity, number>> = { error: 0, warning: 1, information: 2 };

/** Open findings, worst first; equal ones in the order of the text. */
export const openFindings = (findings: readonly PlacedFinding[]): readonly PlacedFinding[] =>
  findings.filter(({ waived }) => !waived).sort((a, b) => RANKS[a.severity] - RANKS[b.severity]);

const spanPlace = ({ file, span }: Place): SpanPlace => ({ file, start: span.start, end: span.end });

const joined = (boxes: readonly Box[]): Box | null =>
  boxes.length === 0
    ? null
    : boxes.reduce(([low, high], [a, b]) => [
        [Math.min(low[0], a[0]), Math.min(low[1], a[1]), Math.min(low[2], a[2])],
        [Math.max(high[0], b[0]), Math.max(high[1], b[1]), Math.max(high[2], b[2])],
      ]);

/** The spaces by each part whose bore belongs to them. */
function spacesOf(shape: Shape, things: readonly MeshedThing[]): Spaces {
  const byPart = new Map<string, string>();
  for (const { id, kind, name } of things) {
    if (kind !== 'space') continue;
    for (const part of shape.spaces.find(({ tubes }) => tubes.includes(name))?.tubes ?? []) byPart.set(part, id);
  }
  return byPart;
}

const spanPlaceOr = (place: Place | null): SpanPlace | null => (place === null ? null : spanPlace(place));

function placeOfThing({ kind, name }: MeshedThing, { cage }: Seen): SpanPlace | null {
  const fact = kind === 'helmet' ? { fact: 'helmet' } : {};
  return spanPlaceOr(placeOf(cage, { kind: 'thing', thing: name, ...fact }));
}

function nodesOf(seen: Seen, say: SayPlace): readonly ViewNode[] {
  const reader = new GripReader(seen, say);
  return [...seen.cage.things.values()].flatMap((node): readonly ViewNode[] => {
    if (node.kind !== 'node' || node.at === null) return [];
    const { grips, hangs } = reader.of(node);
    const slides = grips.find(({ axis }) => axis === null);
    return [
      {
        id: nodeId(node.name),
        name: node.name,
        at: roundedPoint(node.at),
        place: spanPlaceOr(placeOf(seen.cage, { kind: 'thing', thing: node.name })),
        statement: spanPlaceOr(statementOf(seen.cage, node.name)),
        axes: AXES.filter((axis) => grips.some((grip) => grip.axis === axis)),
        along: slides === undefined ? null : roundedPoint(slides.way),
        hangs,
      },
    ];
  });
}

/** The model of a car. Never throws. Meshes and ends whose key the asker has are left out. */
export function viewOf(seen: Seen, cache: ViewCache, { pack, say, have }: ViewEdge): ViewModel {
  const { cage, shape } = seen;
  const drawn = cache.surfaces(cage, shape);
  cache.ends.sweep();
  const names = new Names(shape, drawn);
  const labels = new Labels(shape);
  const idsOf = (name: string): readonly string[] => names.idsOf(name);
  const things = drawn.map((thing, i): ViewThing => {
    const made = i < MOST_DRAWN ? thing.made() : null;
    const part = shape.parts.get(thing.name);
    const isTube = thing.kind === 'tube' || thing.kind === 'existing-tube';
    const { ends, key: endsKey } =
      isTube && part !== undefined ? endsOf(part, cage.units, pack, idsOf, cache.ends) : NO_ENDS;
    const key = made === null ? '' : made.key + endsKey;
    const isHeld = made !== null && Object.hasOwn(have, thing.id) && have[thing.id] === key;
    return {
      id: thing.id,
      kind: thing.kind,
      name: thing.name,
      label: labels.of(thing),
      place: placeOfThing(thing, seen),
      statement: spanPlaceOr(statementOf(cage, thing.name)),
      key,
      mesh: made === null || isHeld ? null : wireMesh(made, pack),
      box: made === null ? null : [roundedPoint(made.box[0]), roundedPoint(made.box[1])],
      ends: isHeld ? null : ends,
    };
  });
  const open = openFindings(seen.findings);
  const { marks, ofFinding } = marksOfCar(new Car(cage, shape), open, names);
  const spaces = spacesOf(shape, drawn);
  const boxes = (wanted: (kind: string) => boolean): readonly Box[] =>
    things.flatMap(({ kind, box }) => (box !== null && wanted(kind) ? [box] : []));
  return {
    title: cage.title ?? cage.file,
    units: cage.units === 'in' || cage.units === 'ft' ? 'in' : 'mm',
    things,
    nodes: nodesOf(seen, say),
    marks,
    findings: open.map((finding, i): ViewFinding => ({
      code: finding.code,
      severity: finding.severity,
      text: finding.message,
      of: idsOfFinding(finding, names, spaces),
      marks: ofFinding[i] ?? [],
      place: spanPlace(finding.place),
    })),
    window: null,
    box: joined(boxes((kind) => MADE.has(kind))) ?? joined(boxes(() => true)),
  };
}
