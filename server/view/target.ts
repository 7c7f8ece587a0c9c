/** What was picked, as something exact that can be measured to. */
import type { Cage, Seat } from '../cage/cage';
import { facesOf } from '../centreline/outline';
import { alongPiece, onPiece } from '../centreline/piece';
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled, dot, norm, scale, sub } from '../centreline/vector';
import type { Plate } from '../drawing/things';
import { platesOf } from '../drawing/things';
import type { Part, Shape, StrapFigures } from '../geometry/shape';
import { rearRectangle } from '../geometry/shell';
import { axisOf, centrelineOf, partSolids } from './bodies';
import type { Picked } from './model';
import { nodeId } from './names';
import type { Solid } from './solid';
import { nearestIn } from './solid';

export interface Target {
  readonly id: string;
  readonly name: string;
  /** The place that was picked, brought onto the exact surface. */
  readonly at: Vec3;
  /** Beside it on the axis; the place itself where there is none. */
  readonly onAxis: Vec3;
  /** The body; a place alone is a ball without size. */
  readonly solids: readonly Solid[];
  /** What of it is measured to: `surface`, `rear face of the seat`; null: it is a place alone. */
  readonly face: string | null;
  /** The axis as bodies without thickness; empty: it has none. */
  readonly axis: readonly Solid[];
  readonly point: readonly Solid[];
  /** Direction of the leg that was picked, in a bend that of the axis there; null: it has none. */
  readonly leg: Vec3 | null;
  /** Which leg or bend of the part was picked; -1: none. */
  readonly piece: number;
  /** What was picked of a bent tube is in a bend. */
  readonly inBend: boolean;
}

/** The plates of all feet: whoever asks for many works them out once. */
export type Plates = () => readonly Plate[];

const ball = (centre: Vec3, radius = 0): Solid => ({ kind: 'ball', centre, radius });

const place = (id: string, name: string, at: Vec3): Target => ({
  id,
  name,
  at,
  onAxis: at,
  solids: [ball(at)],
  face: null,
  axis: [],
  point: [ball(at)],
  leg: null,
  piece: -1,
  inBend: false,
});

function tubeTarget(id: string, part: Part, at: Vec3): Target {
  const line = axisOf(part);
  if (line === null || line.pieces.length === 0) return place(id, part.name, at);
  const on = nearestOn(line, at);
  const radius = (part.tube.section?.od ?? 0) / 2;
  const aside = sub(at, on.point);
  const across = addScaled(aside, on.tangent, -dot(aside, on.tangent));
  const far = norm(across);
  // A pick on the round surface lies on a facet of the mesh, a little inside; on an end's face it stays where it is.
  const isRound = far > 0.8 * radius && far > 0;
  const piece = line.pieces.findIndex((one) => norm(sub(onPiece(one, alongPiece(one, at)).point, on.point)) < 1e-9);
  const axis = (centrelineOf(part) ?? line).pieces.map((one): Solid => ({ kind: 'tube', piece: one, radius: 0 }));
  const surface = isRound ? addScaled(sub(at, across), across, radius / far) : at;
  return {
    id,
    name: part.name,
    at: surface,
    onAxis: on.point,
    solids: partSolids(part),
    face: 'surface',
    axis,
    point: [ball(surface)],
    leg: on.tangent,
    piece,
    inBend: line.pieces[piece]?.kind === 'arc',
  };
}

const body = (id: string, name: string, at: Vec3, solids: readonly Solid[], face = 'surface'): Target => ({
  ...place(id, name, at),
  solids,
  face,
});

/** A straight line without thickness. */
function lineSolid(from: Vec3, to: Vec3): Solid {
  const way = sub(to, from);
  const length = norm(way);
  const direction = scale(way, 1 / Math.max(length, 1e-12));
  return { kind: 'tube', radius: 0, piece: { kind: 'leg', from, to, direction, start: 0, length } };
}

/** A line of two points, or a face by its corners, also where its edge turns inward. */
function outlineSolids(outline: readonly Vec3[]): readonly Solid[] {
  const [a, b] = outline;
  if (a === undefined || b === undefined) return [];
  if (outline.length === 2) return [lineSolid(a, b)];
  return facesOf(outline).map((corners): Solid => ({ kind: 'facet', corners }));
}

function helmetTarget(id: string, { name, helmet, slots }: Seat, at: Vec3): Target | null {
  if (helmet === null || slots === null) return null;
  const centre = add(slots, helmet.offset);
  const out = sub(at, centre);
  const onBall = norm(out) > 0 ? addScaled(centre, out, helmet.radius / norm(out)) : at;
  return body(id, `helmet of ${name}`, onBall, [ball(centre, helmet.radius)]);
}

function seatTarget(id: string, seat: Seat, at: Vec3): Target | null {
  const face = rearRectangle(seat);
  if (face === null) return null;
  const halves = [face.halfAcross, face.halfUp];
  return body(id, seat.name, at, [{ kind: 'box', centre: face.centre, halves }], 'rear face about the slots');
}

function strapTarget(id: string, { name, start, contact }: StrapFigures, at: Vec3): Target | null {
  if (start === null || contact === null) return null;
  const run = lineSolid(start, contact);
  const leg = run.kind === 'tube' && run.piece.kind === 'leg' ? run.piece.direction : null;
  const middle = nearestIn(run, at);
  return { ...body(id, name, at, [run], 'middle of the webbing'), onAxis: middle, leg, piece: 0 };
}

function thingTarget(id: string, name: string, kind: string, at: Vec3, shape: Shape, plates: Plates): Target | null {
  const thing = shape.cage.things.get(name);
  switch (thing?.kind) {
    case 'foot': {
      const plate = plates().find(({ foot }) => foot.name === name);
      if (plate === undefined) return null;
      const box: Solid = { kind: 'box', centre: plate.centre, halves: plate.halves };
      return body(id, name, nearestIn(box, at), [box]);
    }
    case 'seat':
      return kind === 'helmet' ? helmetTarget(id, thing, at) : seatTarget(id, thing, at);
    case 'strap': {
      const figures = shape.straps.find((one) => one.name === name);
      return kind !== 'strap' || figures === undefined ? null : strapTarget(id, figures, at);
    }
    case 'panel':
    case 'door': {
      const solids = outlineSolids(thing.outline ?? []);
      return solids.length === 0 ? null : body(id, name, at, solids);
    }
    default:
      return null;
  }
}

/** Null: there is nothing of that id in the car. What has no exact body is the place alone. */
export function targetOf({ id, at }: Picked, shape: Shape, plates: Plates = () => platesOf(shape)): Target | null {
  const [, kind = '', name = ''] = /^([a-z-]+):(.*?)(?:#\d+)?$/s.exec(id) ?? [];
  if (kind === 'node') return nodeTarget(id, name, shape.cage);
  const part = shape.parts.get(name);
  if (kind === 'tube' && part !== undefined) return tubeTarget(id, part, at);
  if (part === undefined && !shape.cage.things.has(name)) return null;
  return thingTarget(id, name, kind, at, shape, plates) ?? place(id, name, at);
}

function nodeTarget(id: string, name: string, cage: Cage): Target | null {
  const node = cage.things.get(name);
  return node?.kind === 'node' && node.at !== null && nodeId(name) === id ? place(id, name, node.at) : null;
}
