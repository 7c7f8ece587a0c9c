/** Parts as they are cut and bent: lengths, bend tables, masses, and the figures of both ends. Millimetres, radians, kg. */
import type { Length } from '../../grammar/units';
import { mm, rad } from '../../grammar/units';
import type { Centreline, Piece } from '../centreline/centreline';
import { onPiece } from '../centreline/piece';
import type { Vec3 } from '../centreline/vector';
import { addScaled, dot, sub } from '../centreline/vector';
import { bendTable } from './bends';
import type { Bodies, Body, EndSite } from './bodies';
import { bendInsideClock, vectorAt } from './clock';
import type { Cope, CopeOrdinate } from './cope';
import type { EndCut } from './cutting';
import { once } from './once';
import type { SawnEnd } from './sawn';
import { sectionFigures } from './sections';
import type { End, Ordinate, Part, Print } from './shape';

/** An end that moves by less than this along its leg has not moved, mm. */
const STILL = 1e-9;

const length = (value: number | null): Length | null => (value === null ? null : mm(value));

const ordinateOf = (o: CopeOrdinate): Ordinate => ({
  clock: rad(o.clock),
  cut: length(o.cut),
  outer: length(o.outer),
  inner: length(o.inner),
  gap: length(o.gap),
});

/** The figures of an end, from how it is cut. */
export const endOf = (site: EndSite, cut: EndCut | undefined): End => new FoundEnd(site, cut);

/** What only a person asks for waits until one does. */
class FoundEnd implements End {
  readonly which: End['which'];
  readonly node: End['node'];
  readonly fit: End['fit'];
  readonly hosts: End['hosts'];
  readonly origin: End['origin'];
  readonly away: End['away'];
  readonly clockZero: End['clockZero'];
  readonly bendInsideClock: End['bendInsideClock'];
  readonly includedAngle: End['includedAngle'];
  readonly offset: End['offset'];
  readonly depth: End['depth'];
  readonly sawAngle: End['sawAngle'];
  readonly sawClock: End['sawClock'];
  readonly minCut: End['minCut'];
  readonly minOuter: End['minOuter'];
  readonly maxCut: End['maxCut'];
  readonly curve: End['curve'];
  private readonly figures: SawnEnd | Cope | null;
  private readonly list: () => readonly Ordinate[];
  private readonly covered: () => readonly Print[];
  private readonly rim: () => readonly Vec3[];

  constructor(site: EndSite, cut: EndCut | undefined) {
    const { leg } = site;
    const line = site.body.centreline;
    const inside = leg === null || line === null ? null : bendInsideClock(line, site.which, leg.frame);
    const cope = cut?.coped?.cope ?? null;
    const sawn = cut?.sawn ?? null;
    // What stands clear of its host has set-backs on paper only.
    const cuts = cut !== undefined && cut.untouched.length === 0;
    const figures = cuts ? (sawn ?? cope) : null;
    this.which = site.which;
    this.node = site.node;
    this.fit = cut?.fit ?? 'square';
    this.hosts = cut?.hosts ?? [];
    this.origin = cut?.landing.origin ?? null;
    this.away = leg?.away ?? null;
    this.clockZero = leg?.frame.zero ?? null;
    this.bendInsideClock = inside === null ? null : rad(inside);
    this.includedAngle = cope === null || cope.includedAngle === null ? null : rad(cope.includedAngle);
    this.offset = length(cope?.offset ?? null);
    this.depth = length(figures?.depth ?? null);
    this.sawAngle = cuts ? (sawn?.sawAngle ?? null) : null;
    this.sawClock = cuts ? (sawn?.sawClock ?? null) : null;
    this.minCut = length(figures?.minCut ?? null);
    this.minOuter = length(figures?.minOuter ?? null);
    this.maxCut = length(figures?.maxCut ?? null);
    this.curve = figures?.curve ?? null;
    this.figures = figures;
    this.list = once(() => (figures?.ordinates ?? []).map(ordinateOf));
    this.covered = once(() =>
      cut === undefined || !cuts || cope === null || cope.maxCut === null ? [] : printsOf(cut),
    );
    this.rim = once(() =>
      cut === undefined || !cuts || cope === null || cope.maxCut === null ? [] : edgeOf(site, cut),
    );
  }

  get edge(): readonly Vec3[] {
    return this.rim();
  }

  get widestGap(): Length | null {
    if (this.figures === null) return null;
    return 'maxGap' in this.figures ? length(this.figures.maxGap) : mm(0);
  }

  get prints(): readonly Print[] {
    return this.covered();
  }

  get ordinates(): readonly Ordinate[] {
    return this.list();
  }

  get saddleLength(): Length | null {
    return length(this.figures?.saddleLength ?? null);
  }
}

const printsOf = ({ coped, tubes }: EndCut): readonly Print[] =>
  tubes.flatMap(({ body, host }, i): readonly Print[] => {
    const print = coped?.footprint(i) ?? null;
    return print === null
      ? []
      : [{ host: body.name, before: mm(host.station - print.from), after: mm(print.to - host.station) }];
  });

const EDGE_POINTS = 72;

/** The outer edge in space; empty where a point of it is not known. */
function edgeOf({ leg }: EndSite, { child, coped }: EndCut): readonly Vec3[] {
  if (leg === null || child === null || coped === null) return [];
  const points: Vec3[] = [];
  for (let i = 0; i < EDGE_POINTS; i++) {
    const clock = (2 * Math.PI * i) / EDGE_POINTS;
    const back = coped.cope.curve.outer(clock);
    if (back === null) return [];
    points.push(addScaled(addScaled(child.origin, leg.away, back), vectorAt(leg.frame, clock), child.outerRadius));
  }
  return points;
}

/** How far E lies before the node, along the leg: what the tube is longer for it. */
const lead = (site: EndSite, end: End): number =>
  site.at === null || end.origin === null || end.away === null ? 0 : dot(sub(site.at, end.origin), end.away);

/** A centreline whose end legs are longer at the first and last end (or shorter, below 0); ends in a bend stay. */
export function lengthened(line: Centreline, first: number, last: number): Centreline {
  const begin = line.pieces[0];
  const end = line.pieces[line.pieces.length - 1];
  const grow = (value: number, piece: Piece | undefined): number =>
    piece?.kind === 'leg' && Math.abs(value) > STILL && piece.length + value > STILL ? value : 0;
  const before = grow(first, begin);
  const after = grow(last, end);
  if (before === 0 && after === 0) return line;
  const pieces = line.pieces.map((piece, i): Piece => {
    const moved = { ...piece, start: i === 0 ? 0 : piece.start + before };
    if (moved.kind !== 'leg') return moved;
    const head = i === 0 ? before : 0;
    const tail = i === line.pieces.length - 1 ? after : 0;
    return {
      ...moved,
      from: head === 0 ? moved.from : onPiece(piece, -head).point,
      to: tail === 0 ? moved.to : onPiece(piece, piece.length + tail).point,
      length: moved.length + head + tail,
    };
  });
  const points = [...line.points];
  const [p, q] = [pieces[0], pieces[pieces.length - 1]];
  if (p?.kind === 'leg') points[0] = p.from;
  if (q?.kind === 'leg') points[points.length - 1] = q.to;
  return { pieces, length: line.length + before + after, points };
}

/**
 * A part. Cut length = centreline length minus the smallest cut at each end, hole-saw length the same with the smallest
 * outer, stick length = cut length + tails; mass from the centreline length.
 */
export function partOf(body: Body, bodies: Bodies, cuts: ReadonlyMap<EndSite, EndCut>): Part {
  const { tube } = body;
  const [firstSite, lastSite] = body.ends;
  const ends: readonly [End, End] = [endOf(firstSite, cuts.get(firstSite)), endOf(lastSite, cuts.get(lastSite))];
  // Set-backs, stations and lengths all count from E.
  const line =
    body.centreline === null ? null : lengthened(body.centreline, lead(firstSite, ends[0]), lead(lastSite, ends[1]));
  const points: readonly (Vec3 | null)[] = tube.path.map((node) => bodies.nodeAt(node));
  const table = bendTable(tube, points, line, [ends[0].minCut, ends[1].minCut]);
  const bends = body.piece === null ? table.bends : table.bends.filter((bend) => bend.arcLength !== null);
  const { section } = tube;
  const figures = section === null ? null : sectionFigures(section.od, section.wall, section.material.density);
  const perMetre = figures?.massPerMetre ?? null;
  const without = (first: number | null, last: number | null): number | null => {
    if (line === null || first === null || last === null) return null;
    const left = line.length - first - last;
    // Cuts that meet leave no tube: there is no such length.
    return left > 0 ? left : null;
  };
  const cutLength = without(ends[0].minCut, ends[1].minCut);
  return {
    name: body.name,
    tube,
    role: tube.role,
    piece: body.piece,
    nodes: body.nodes,
    centreline: line,
    section: figures,
    bends,
    straightAfter: table.straightAfter,
    centrelineLength: length(line?.length ?? null),
    cutLength: length(cutLength),
    holeSawLength: length(without(ends[0].minOuter, ends[1].minOuter)),
    stickLength: cutLength === null || table.tails === null ? null : mm(cutLength + table.tails[0] + table.tails[1]),
    mass: line === null || perMetre === null ? null : (line.length / 1000) * perMetre,
    ends,
  };
}

/** A part, and the cuts that it was made from. */
export interface MadePart {
  readonly part: Part;
  readonly cuts: readonly (EndCut | undefined)[];
}

/** A part; the one of the run before, where both its ends are cut as they were. */
export function madePart(
  body: Body,
  bodies: Bodies,
  cuts: ReadonlyMap<EndSite, EndCut>,
  old: MadePart | undefined,
): MadePart {
  const own = body.ends.map((site) => cuts.get(site));
  if (old === undefined || own.some((cut, i) => cut !== old.cuts[i]) || body.centreline === null) {
    return { part: partOf(body, bodies, cuts), cuts: own };
  }
  return old.part.tube === body.tube ? old : { part: { ...old.part, tube: body.tube }, cuts: own };
}

/** kg, without the tubes that are in the car already; null where some tube's cannot be computed. */
export function massOf(parts: Iterable<Part>): number | null {
  let total = 0;
  for (const part of parts) {
    if (part.tube.existing) continue;
    if (part.mass === null) return null;
    total += part.mass;
  }
  return total;
}
