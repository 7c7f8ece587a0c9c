/**
 * The bodies of a cage: one for each tube, two for a split one. A body knows its centreline, its radii and its two
 * ends; where those land and what cuts them is found later. Millimetres, radians.
 */
import type { EndTold, Foot, Node, Thing, Tube } from '../cage/cage';
import type { Cage } from '../cage/cage';
import type { Centreline, Piece } from '../centreline/centreline';
import { onPiece } from '../centreline/piece';
import { nearestBetween, pointAt } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { distance } from '../centreline/vector';
import type { ClockFrame, Which } from './clock';
import { clockFrame, endLeg } from './clock';
import type { Kinds } from './kinds';
import { kindsOf } from './kinds';
import { NumberKey } from './memo';
import { sameList, sameTube } from './same-tube';

/** One end of a body, before anybody asks what it meets. */
export interface EndSite {
  readonly body: Body;
  readonly which: Which;
  /** Full name; null at the inner end of a split piece, or where the name is not known. */
  readonly node: string | null;
  /** Index of the node in the tube's path, for the place of a finding. */
  readonly item: number;
  readonly told: EndTold;
  /** The tube that splits it here. */
  readonly splitter: string | null;
  /** The node's point; null without a centreline. */
  readonly at: Vec3 | null;
  readonly leg: EndLegOf | null;
}

export interface EndLegOf {
  /** Unit direction away from the joint. */
  readonly away: Vec3;
  readonly frame: ClockFrame;
  /** Straight from the node to the nearest bend, or the whole length. */
  readonly straight: number;
  /** From the node to the next corner, or to the other end. */
  readonly toNext: number;
}

export interface Body {
  /** Name of the part. */
  readonly name: string;
  /** Place in the cage's order. */
  readonly index: number;
  readonly tube: Tube;
  readonly piece: 'a' | 'b' | null;
  /** The part's own stretch, stations from 0; null without one. */
  readonly centreline: Centreline | null;
  /** The stretch's begin on the whole tube's centreline. */
  readonly from: number;
  readonly outer: number | null;
  readonly inner: number | null;
  readonly nodes: readonly (string | null)[];
  /** A small number for its geometry: equal for equal centrelines and radii. -1 without a centreline. */
  readonly geometry: number;
  readonly ends: readonly [EndSite, EndSite];
}

/** What the run before found: bodies of which nothing has changed are used again, the same objects. */
export type BodiesBefore = Pick<Bodies, 'all' | 'ofTube' | 'standing' | 'footOf'>;

export interface StandingFoot {
  readonly foot: Foot;
  readonly at: Vec3 | null;
}

/** Where a tube is split: the station, and by how much the two centrelines miss; null: it cannot be said. */
export interface Split {
  readonly tube: Tube;
  readonly by: string;
  readonly station: number | null;
  readonly distance: number | null;
  /** Outer radius of the tube that splits it. */
  readonly radius: number | null;
}

export interface Bodies {
  readonly all: readonly Body[];
  /** The bodies of a tube, by the tube's name: one, or the pieces a and b. */
  readonly ofTube: ReadonlyMap<string, readonly Body[]>;
  readonly splits: readonly Split[];
  readonly feet: readonly Foot[];
  readonly standing: readonly StandingFoot[];
  /** By the foot's name. */
  readonly footOf: ReadonlyMap<string, StandingFoot>;
  readonly nodeAt: (name: string | null) => Vec3 | null;
}

/** Small numbers for lists of numbers. */
export interface Geometries {
  idOf(key: NumberKey): number;
}

/** Outer and inner radius of a tube; null without a section that is a tube. */
const radii = (tube: Tube): readonly [number, number] | readonly [null, null] => {
  const section = tube.section;
  if (section === null || !(section.od > 0 && section.wall > 0 && 2 * section.wall < section.od)) return [null, null];
  return [section.od / 2, section.od / 2 - section.wall];
};

/**
 * All bodies of a cage, in its order. A tube that is split where nothing can be computed still has its two pieces,
 * without centrelines. Never throws.
 */
export function bodiesOf(
  cage: Cage,
  geometries: Geometries,
  before: BodiesBefore | null = null,
  kinds: Kinds = kindsOf(cage),
): Bodies {
  const all: Body[] = [];
  const ofTube = new Map<string, readonly Body[]>();
  const splits: Split[] = [];
  const footOf = new Map<string, StandingFoot>();
  const key = new NumberKey();
  const nodeAt = (name: string | null): Vec3 | null => {
    const thing = name === null ? undefined : cage.things.get(name);
    return thing?.kind === 'node' ? (thing as Node).at : null;
  };
  const add = (body: Omit<Body, 'ends' | 'index' | 'geometry'>, sites: Sites): Body => {
    const geometry = geometryOf(body, key, geometries);
    const old = before?.ofTube.get(body.tube.name)?.find(({ name }) => name === body.name);
    const same = old instanceof PlainBody && old.renew(body, geometry, all.length);
    const made = same ? old : new PlainBody(body, all.length, geometry, sites);
    all.push(made);
    return made;
  };
  for (const foot of kinds.feet)
    footOf.set(foot.name, standingOf(foot, nodeAt(foot.node), before?.footOf.get(foot.name)));
  for (const thing of kinds.tubes) {
    const old = before?.ofTube.get(thing.name);
    const still = old?.[0];
    if (old !== undefined && still instanceof PlainBody && still.stays(thing, all.length)) {
      all.push(still);
      ofTube.set(thing.name, old);
      continue;
    }
    const [outer, bore] = radii(thing);
    const last = thing.path.length - 1;
    const whole = { tube: thing, outer, inner: bore };
    if (thing.splitBy === null) {
      const body = add(
        { ...whole, name: thing.name, piece: null, centreline: thing.centreline, from: 0, nodes: thing.path },
        { first: { node: thing.path[0] ?? null, item: 0 }, last: { node: thing.path[last] ?? null, item: last } },
      );
      ofTube.set(thing.name, [body]);
      continue;
    }
    const split = splitOf(thing, cage.things);
    splits.push(split);
    const line = thing.centreline;
    // Where it cannot be split, the piece a is the whole of it, so that whatever lands on it still finds it.
    const at = split.station ?? line?.length ?? 0;
    const head = thing.path.filter((_, i) => i < last && (i === 0 || cornerStation(line, i) < at));
    const stretches: readonly (Centreline | null)[] =
      line === null
        ? [null, null]
        : split.station === null
          ? [line, null]
          : [stretchOf(line, 0, at), stretchOf(line, at, line.length)];
    const inner: Site = { node: null, item: last, splitter: split.by };
    const a = add(
      {
        ...whole,
        name: `${thing.name}.a`,
        piece: 'a',
        centreline: stretches[0] ?? null,
        from: 0,
        nodes: [...head, null],
      },
      { first: { node: thing.path[0] ?? null, item: 0 }, last: inner },
    );
    const rest = thing.path.slice(head.length);
    const b = add(
      {
        ...whole,
        name: `${thing.name}.b`,
        piece: 'b',
        centreline: stretches[1] ?? null,
        from: at,
        nodes: [null, ...rest],
      },
      { first: inner, last: { node: thing.path[last] ?? null, item: last } },
    );
    ofTube.set(thing.name, [a, b]);
  }
  const standing = [...footOf.values()];
  return { all, ofTube, splits, feet: standing.map(({ foot }) => foot), standing, footOf, nodeAt };
}

/** A foot: the object of the run before, where it says the same. */
function standingOf(foot: Foot, at: Vec3 | null, old: StandingFoot | undefined): StandingFoot {
  if (old?.foot === foot && old.at === at) return old;
  if (old === undefined || old.foot.node !== foot.node) return { foot, at };
  const numbers = (f: Foot): readonly (number | null)[] => [
    ...(f.plate === null ? [null] : [f.plate.long, f.plate.wide, f.plate.thick, f.plate.turned]),
    ...(f.lies.kind === 'slopes' ? [f.lies.aft, f.lies.left] : [f.lies.kind === 'square' ? 0 : 1]),
  ];
  const same = sameList(numbers(foot), numbers(old.foot)) && sameList(at ?? [], old.at ?? []);
  return same ? old : { foot, at };
}

/** Station of the middle of a corner's bend; of a corner that runs straight on, of its point. */
function cornerStation(line: Centreline | null, corner: number): number {
  if (line === null) return Infinity;
  const point = line.points[corner];
  let station = Infinity;
  let least = Infinity;
  for (const piece of line.pieces) {
    if (piece.kind === 'arc' && piece.corner === corner) return piece.start + piece.length / 2;
    if (piece.kind === 'leg' && point !== undefined) {
      const off = distance(piece.to, point);
      if (off < least) {
        least = off;
        station = piece.start + piece.length;
      }
    }
  }
  return station;
}

function splitOf(tube: Tube, things: ReadonlyMap<string, Thing>): Split {
  const by = tube.splitBy ?? '';
  const other = things.get(by);
  if (other?.kind !== 'tube' || tube.centreline === null || other.centreline === null || other === tube) {
    return { tube, by, station: null, distance: null, radius: null };
  }
  const near = nearestBetween(tube.centreline, other.centreline);
  // At its very end there is nothing to split off.
  const inside = near.onA.station > 1e-6 && near.onA.station < tube.centreline.length - 1e-6;
  return {
    tube,
    by,
    station: inside ? near.onA.station : null,
    distance: near.distance,
    radius: radii(other)[0],
  };
}

/** The stretch of a centreline between two stations; stations begin anew, corners keep their index. */
export function stretchOf(line: Centreline, from: number, to: number): Centreline | null {
  const pieces: Piece[] = [];
  for (const piece of line.pieces) {
    const begin = Math.max(from, piece.start);
    const end = Math.min(to, piece.start + piece.length);
    const length = end - begin;
    if (!(length > 1e-9)) continue;
    const head = onPiece(piece, begin - piece.start);
    if (piece.kind === 'leg') {
      const tail = onPiece(piece, end - piece.start).point;
      pieces.push({ ...piece, from: head.point, to: tail, start: begin - from, length });
      continue;
    }
    const out = head.point.map((c, k) => (c - (piece.centre[k] as number)) / piece.radius);
    pieces.push({
      ...piece,
      fromCentre: [out[0] as number, out[1] as number, out[2] as number],
      tangent: head.tangent,
      angle: length / piece.radius,
      start: begin - from,
      length,
    });
  }
  if (pieces.length === 0) return null;
  const stations = [from, to];
  const ends = stations.map((station) => pointAt(line, station).point);
  return { pieces, length: to - from, points: [ends[0] as Vec3, ends[1] as Vec3] };
}

/** Numbers that make a body's geometry: its radii, and its pieces. */
function geometryOf(
  body: Pick<Body, 'centreline' | 'outer' | 'inner'>,
  key: NumberKey,
  geometries: Geometries,
): number {
  if (body.centreline === null) return -1;
  key.clear().add(body.outer).add(body.inner);
  for (const piece of body.centreline.pieces) {
    if (piece.kind === 'leg') key.add(0).addAll(piece.from).addAll(piece.to);
    else
      key.add(1).addAll(piece.centre).addAll(piece.fromCentre).addAll(piece.tangent).add(piece.radius).add(piece.angle);
  }
  return geometries.idOf(key);
}

interface Site {
  readonly node: string | null;
  readonly item: number;
  readonly splitter?: string;
}
interface Sites {
  readonly first: Site;
  readonly last: Site;
}

const AUTO: EndTold = { kind: 'auto' };

class PlainBody implements Body {
  readonly name: string;
  tube: Tube;
  readonly piece: 'a' | 'b' | null;
  readonly centreline: Centreline | null;
  readonly from: number;
  readonly outer: number | null;
  readonly inner: number | null;
  readonly nodes: readonly (string | null)[];
  readonly ends: readonly [EndSite, EndSite];

  constructor(
    body: Omit<Body, 'ends' | 'index' | 'geometry'>,
    public index: number,
    readonly geometry: number,
    sites: Sites,
  ) {
    this.name = body.name;
    this.tube = body.tube;
    this.piece = body.piece;
    this.centreline = body.centreline;
    this.from = body.from;
    this.outer = body.outer;
    this.inner = body.inner;
    this.nodes = body.nodes;
    this.ends = [this.site('first', sites.first), this.site('last', sites.last)];
  }

  /** True where the body is that of this very tube, and nothing else has a say in it; then it has its place. */
  stays(tube: Tube, index: number): boolean {
    if (this.tube !== tube || tube.splitBy !== null || this.geometry < 0) return false;
    this.index = index;
    return true;
  }

  /** Takes the place of a body that is just the same, if it is: then only the tube's text and place have changed. */
  renew(body: Omit<Body, 'ends' | 'index' | 'geometry'>, geometry: number, index: number): boolean {
    if (geometry < 0 || geometry !== this.geometry || body.from !== this.from || body.piece !== this.piece)
      return false;
    if (!sameTube(body.tube, this.tube) || !sameList(body.nodes, this.nodes)) return false;
    this.tube = body.tube;
    this.index = index;
    return true;
  }

  private site(which: Which, site: Site): EndSite {
    const told = site.splitter !== undefined ? AUTO : which === 'first' ? this.tube.first : this.tube.last;
    const rest = { body: this, which, node: site.node, item: site.item, told, splitter: site.splitter ?? null };
    if (this.centreline === null) return { ...rest, at: null, leg: null };
    const leg = endLeg(this.centreline, which);
    return {
      ...rest,
      at: leg.origin,
      leg: {
        away: leg.away,
        frame: clockFrame(leg.travel),
        straight: leg.straight,
        toNext: toNext(this.centreline, this.tube, which, leg.straight),
      },
    };
  }
}

/** From an end to the next corner: its straight and the tangent length of the bend behind it. */
function toNext(line: Centreline, tube: Tube, which: Which, straight: number): number {
  const arcs = line.pieces.filter((piece) => piece.kind === 'arc');
  const arc = which === 'first' ? arcs[0] : arcs[arcs.length - 1];
  if (arc === undefined) return line.length;
  const corner = tube.corners.find((c) => c.index === arc.corner);
  return straight + (corner?.tangentLength ?? 0);
}
