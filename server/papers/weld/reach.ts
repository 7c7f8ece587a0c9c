/** Which joints a torch cannot go all round, what is in its way, and how far the cage must be let down to reach them. */
import type { Panel } from '../../cage/hardware';
import { facesOf } from '../../centreline/outline';
import { pointAt } from '../../centreline/query';
import { betweenStretches } from '../../centreline/stretches';
import type { Vec3 } from '../../centreline/vector';
import { addScaled, distance } from '../../centreline/vector';
import type { End, Part } from '../../geometry/shape';
import { bodyStretch } from '../../geometry/stretch';
import type { PacketInput } from '../packet/paper';
import type { Groove } from './groove';
import { grooveOf, liesOn, plateGroove, seatOf } from './groove';
import { gussetObstacles } from './gussets';
import { plateObstacles } from './plates';
import type { Obstacle, Torch } from './torch';
import { blockersAt, TORCH } from './torch';

export interface Reach {
  /** Of the points looked at round the joint, how many the torch cannot stand at. */
  readonly blocked: number;
  readonly of: number;
  /** Parts and panels in the way, in the order in which they are met. */
  readonly by: readonly string[];
  /** Those of them that stay where they are: panels, and tubes that stand in the car. */
  readonly fixed: readonly string[];
  /** False where letting the tubes down does not move it: on a plate, or on a tube that stands in the car. */
  readonly lowers: boolean;
  /** The least drop that frees all round, mm; null: none up to `MOST_DROP` does. 0 where nothing is blocked. */
  readonly drop: number | null;
  /** Those of `by` that are plates of feet: they come off their tubes, and are off where the tubes are let down. */
  readonly plates: readonly string[];
  /** Gussets that go in after it and cover it, and the number of points at which only they stand in the way. */
  readonly under: readonly string[];
  readonly covered: number;
  /** Points at which the groove is less open than `SHARP`, and how open it is where it is least, radians. */
  readonly sharp: number;
  readonly heel: number;
}

/**
 * Where two tubes meet at a sharper angle no weld metal is counted on to reach the root without a trial of that joint: the
 * least local dihedral angle of tubular joints in AWS D1.1, from memory.
 */
export const SHARP = Math.PI / 6;
/** What an angle is off by is no sharper groove, rad. */
const SLOP = 1e-6;

export const MOST_DROP = 300;
const DROP_STEP = 5;
/** Bends as chords of at most so much, rad: on a radius of 150 mm less than 0.6 mm off. */
const CHORD = Math.PI / 18;

type Input = Pick<PacketInput, 'cage' | 'shape'>;

function stretchesOf(part: Part): readonly Obstacle[] {
  const line = part.centreline;
  const body = bodyStretch(part);
  const od = part.tube.section?.od ?? null;
  if (line === null || body === null || od === null) return [];
  const moves = !part.tube.existing;
  return line.pieces.flatMap((piece) => {
    const [from, to] = [Math.max(body.from, piece.start), Math.min(body.to, piece.start + piece.length)];
    if (!(to > from)) return [];
    const count = piece.kind === 'arc' ? Math.max(1, Math.ceil(piece.angle / CHORD)) : 1;
    const points = Array.from({ length: count + 1 }, (_, i) => pointAt(line, from + ((to - from) * i) / count).point);
    return points
      .slice(1)
      .map((b, i): Obstacle => ({ kind: 'tube', name: part.name, a: points[i] ?? b, b, radius: od / 2, moves }));
  });
}

function panelFaces({ name, outline }: Panel): readonly Obstacle[] {
  const points = outline ?? [];
  const faces = facesOf(points).map((corners): Obstacle => ({ kind: 'face', name, corners, moves: false }));
  if (faces.length > 0) return faces;
  return points
    .slice(1)
    .map((b, i): Obstacle => ({ kind: 'tube', name, a: points[i] ?? b, b, radius: 0, moves: false }));
}

/** What stands in the way in a car: tubes and panels, plates of feet, and gussets once they are in. */
export interface Obstacles {
  readonly all: readonly Obstacle[];
  readonly plates: readonly Obstacle[];
  readonly gussets: readonly Obstacle[];
}

export const obstaclesOf = (input: Input): Obstacles => ({
  all: [
    ...[...input.shape.parts.values()].flatMap(stretchesOf),
    ...[...input.cage.things.values()].flatMap((thing) => (thing.kind === 'panel' ? panelFaces(thing) : [])),
  ],
  plates: plateObstacles(input.shape),
  gussets: gussetObstacles(input),
});

const lowered = (point: Vec3, by: number): Vec3 => [point[0], point[1], point[2] - by];

/** What lies within reach of an end at any drop that is looked at. */
function near(points: readonly Vec3[], all: readonly Obstacle[], torch: Torch, drop: number): readonly Obstacle[] {
  const middle = points.reduce((sum, p) => addScaled(sum, p, 1 / points.length), [0, 0, 0] as Vec3);
  const far = Math.max(...points.map((p) => distance(p, middle))) + torch.reach + torch.nozzle / 2;
  return all.filter((it) => {
    if (it.kind === 'tube') return betweenStretches(middle, lowered(middle, drop), it.a, it.b) < far + it.radius;
    // By boxes: a face is large and seldom near.
    return [0, 1, 2].every((k) => {
      const of = it.corners.map((corner) => corner[k] ?? 0);
      const at = middle[k] ?? 0;
      return Math.min(...of) < at + far && Math.max(...of) > at - far - (k === 2 ? drop : 0);
    });
  });
}

/** What does not stand in the way of one end: the joint's own tubes, and the panel that its plate lies on. */
function othersThan(end: End, part: Part, { cage, shape }: Input, all: readonly Obstacle[]): readonly Obstacle[] {
  const own = new Set([part.name, ...end.hosts.filter((name) => shape.parts.has(name))]);
  const seats = end.fit === 'foot' ? end.hosts.flatMap((name) => seatOf(name, end, cage) ?? []) : [];
  return all.filter(
    (it) => !own.has(it.name) && !(it.kind === 'face' && seats.some((seat) => liesOn(seat, it.corners))),
  );
}

/**
 * How the torch gets round one end with everything in. The tubes of the joint themselves are not in its way: the groove is
 * between them. The drop lets all made tubes down together; panels and what is in the car already stay. Null where the
 * joint is not known.
 */
export function reachOf(
  end: End,
  part: Part,
  input: Input,
  { all, plates, gussets }: Obstacles,
  torch: Torch = TORCH,
): Reach | null {
  const hosts = end.hosts.flatMap((name) => input.shape.parts.get(name) ?? []);
  const groove = end.fit === 'foot' ? plateGroove(end, part, input.cage) : grooveOf(end, hosts);
  if (groove.length === 0) return null;
  const lowers = end.fit === 'cope' && !hosts.some(({ tube }) => tube.existing);
  const others = near(
    groove.map(({ point }) => point),
    othersThan(end, part, input, all),
    torch,
    lowers ? MOST_DROP : 0,
  );
  const points = groove.map(({ point }) => point);
  const feet = near(points, plates, torch, 0).filter(({ name }) => !end.hosts.includes(name));
  const standing = [...others, ...feet];
  const by = new Set<string>();
  const stuck = groove.filter(({ point, middle }) => {
    const names = blockersAt(point, middle, standing, torch);
    for (const name of names ?? []) by.add(name);
    return names !== null;
  });
  const covers = near(points, gussets, torch, 0);
  const under = new Set<string>();
  const covered = groove.filter(({ point, middle }) => {
    if (covers.length === 0 || blockersAt(point, middle, standing, torch) !== null) return false;
    const names = blockersAt(point, middle, [...covers, ...standing], torch) ?? [];
    for (const name of names) if (covers.some((it) => it.name === name)) under.add(name);
    return names.length > 0;
  });
  const stays = new Set(others.flatMap(({ name, moves }) => (moves ? [] : [name])));
  const figures = {
    blocked: stuck.length,
    of: groove.length,
    by: [...by],
    fixed: [...by].filter((name) => stays.has(name)),
    lowers,
    plates: [...by].filter((name) => feet.some((it) => it.name === name)),
    under: [...under],
    covered: covered.length,
    sharp: groove.filter(({ open }) => open < SHARP - SLOP).length,
    heel: Math.min(...groove.map(({ open }) => open)),
  };
  if (stuck.length === 0) return { ...figures, drop: 0 };
  // With the plates off.
  const still = stuck.filter(({ point, middle }) => blockersAt(point, middle, others, torch) !== null);
  return { ...figures, drop: lowers && still.length > 0 ? dropOf(groove, still, others, torch) : null };
}

/** The least drop that frees all of a groove, to a millimetre; null: none that is looked at. */
function dropOf(
  groove: readonly Groove[],
  stuck: readonly Groove[],
  others: readonly Obstacle[],
  torch: Torch,
): number | null {
  const moving = others.filter(({ moves }) => moves);
  const still = others.filter(({ moves }) => !moves);
  // What comes down with it is in its way at any drop: points that it alone blocks are never freed.
  if (stuck.some(({ point, middle }) => blockersAt(point, middle, moving, torch) !== null)) return null;
  const free = (drop: number): boolean => {
    const down = [...moving, ...still.map((it) => raised(it, drop))];
    // Those that are stuck in its place are the likeliest to be stuck lower.
    return [stuck, groove].every((points) =>
      points.every(({ point, middle }) => blockersAt(point, middle, down, torch) === null),
    );
  };
  for (let drop = DROP_STEP; drop <= MOST_DROP; drop += DROP_STEP) {
    if (!free(drop)) continue;
    for (let fine = drop - DROP_STEP + 1; fine < drop; fine++) if (free(fine)) return fine;
    return drop;
  }
  return null;
}

/** To let the cage down is to lift the car. */
function raised(it: Obstacle, by: number): Obstacle {
  const up = (p: Vec3): Vec3 => lowered(p, -by);
  if (it.kind === 'tube') return { ...it, a: up(it.a), b: up(it.b) };
  const [a, b, c] = it.corners;
  return { ...it, corners: [up(a), up(b), up(c)] };
}
