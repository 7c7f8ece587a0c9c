/** The bend table of a tube, and what is wrong with its bends. Millimetres, radians. */
import type { Finding, FixId, Measure, Params } from '../../grammar/finding';
import type { Code } from '../../grammar/codes';
import type { Length } from '../../grammar/units';
import { degrees, mm, rad } from '../../grammar/units';
import type { Die, Tube } from '../cage/cage';
import { STRAIGHT_ON } from '../centreline/build';
import type { Arc, Centreline } from '../centreline/centreline';
import type { Vec3 } from '../centreline/vector';
import { cross, dot, norm, sub, unit } from '../centreline/vector';
import type { Bend } from './shape';
import { figure, tell } from './tell';

/** A rotation this near to -180 degrees is +180, radians. */
const HALF_TURN_SLACK = 1e-9;
/** What rounding may take off a length before a limit counts as broken, mm. */
const ROUNDING = 1e-6;
/** A die fits a tube whose outside diameter is within this of its own, mm. */
const DIE_FIT = 0.3;
/** Common practice: bend at three diameters or more, with this much slack for inch dies on metric tube, mm. */
const RADIUS_SLACK = 0.5;
const TINY_BEND = (0.5 * Math.PI) / 180;
const TINY_ROTATION = (2 * Math.PI) / 180;

/** Where a bend stands and how it lies; the lengths only where the tube has a centreline. */
interface BendPlace {
  /** Index into the path. */
  readonly corner: number;
  readonly angle: number;
  readonly rotation: number | null;
  readonly arc: Arc | null;
}

/** Rotation of the bend plane with normal `to` from that with normal `from`, right-handed about `travel`, (-π, π]. */
export function bendRotation(from: Vec3, to: Vec3, travel: Vec3): number {
  const angle = Math.atan2(dot(cross(from, to), travel), dot(from, to));
  return angle <= -Math.PI + HALF_TURN_SLACK ? Math.PI : angle;
}

/**
 * The bends of a path in the order of travel. Corners that turn less than 1e-6 degrees are left out. `points` are the
 * path's points (null where one is not known): rotations come from them, so that they are there without a centreline.
 */
function bendPlaces(tube: Tube, points: readonly (Vec3 | null)[], centreline: Centreline | null): readonly BendPlace[] {
  const arcs = new Map<number, Arc>();
  for (const piece of centreline?.pieces ?? []) if (piece.kind === 'arc') arcs.set(piece.corner, piece);
  const places: BendPlace[] = [];
  let normal: Vec3 | null = null;
  for (const corner of tube.corners) {
    const arc = arcs.get(corner.index) ?? null;
    if (!(corner.angle > STRAIGHT_ON) || (centreline !== null && arc === null)) continue;
    const before = points[corner.index - 1] ?? null;
    const at = points[corner.index] ?? null;
    const after = points[corner.index + 1] ?? null;
    let own: Vec3 | null = arc?.axis ?? null;
    let travel: Vec3 | null = arc?.tangent ?? null;
    if (own === null && before !== null && at !== null && after !== null) {
      travel = unit(sub(at, before));
      const turned = cross(travel, unit(sub(after, at)));
      own = norm(turned) > 0 ? unit(turned) : null;
    }
    const rotation = normal !== null && own !== null && travel !== null ? bendRotation(normal, own, travel) : null;
    places.push({ corner: corner.index, angle: corner.angle, rotation, arc });
    normal = own;
  }
  return places;
}

export interface BendTable {
  readonly bends: readonly Bend[];
  readonly straightAfter: Length | null;
  /** How much longer the stick is at its first and last end, to be trimmed after bending. */
  readonly tails: readonly [Length, Length] | null;
}

/**
 * The bend table: straights from node to bend, angles, rotations, over-bends, and the marks along the stick.
 * `minCuts`: the smallest cut (the long point) at each end. Tail = max(0, grip | follow - straight from the long point
 * to the bend); a tube without bends has none. Start mark = tail + node to bend - smallest cut.
 */
export function bendTable(
  tube: Tube,
  points: readonly (Vec3 | null)[],
  centreline: Centreline | null,
  minCuts: readonly [number | null, number | null],
): BendTable {
  const places = bendPlaces(tube, points, centreline);
  const die = tube.die;
  const first = places[0]?.arc ?? null;
  const last = places[places.length - 1]?.arc ?? null;
  const [firstCut, lastCut] = minCuts;
  const tail = (wanted: number, straight: number): Length => mm(Math.max(0, wanted - straight));
  const grip = die?.grip ?? null;
  const follow = die?.follow ?? null;
  const straightAfter = centreline === null ? null : centreline.length - (last === null ? 0 : last.start + last.length);

  let tails: readonly [Length, Length] | null = null;
  if (centreline !== null && places.length === 0) tails = [mm(0), mm(0)];
  else if (first !== null && straightAfter !== null && firstCut !== null && lastCut !== null) {
    if (grip !== null && follow !== null)
      tails = [tail(grip, first.start - firstCut), tail(follow, straightAfter - lastCut)];
  }
  // The start mark needs the first end only.
  const lead =
    first !== null && grip !== null && firstCut !== null ? tail(grip, first.start - firstCut) - firstCut : null;

  let station = 0;
  const bends = places.map((place): Bend => {
    const { arc } = place;
    const bend: Bend = {
      node: tube.path[place.corner] ?? null,
      angle: rad(place.angle),
      radius: die === null ? null : die.radius,
      straightBefore: arc === null ? null : mm(arc.start - station),
      rotation: place.rotation === null ? null : rad(place.rotation),
      arcLength: arc === null ? null : mm(arc.length),
      overbend: overbend(die, place.angle),
      startMark: arc === null || lead === null ? null : mm(lead + arc.start),
    };
    if (arc !== null) station = arc.start + arc.length;
    return bend;
  });
  return { bends, straightAfter: straightAfter === null ? null : mm(Math.max(0, straightAfter)), tails };
}

/** Springback is given for 90 degrees and grows in proportion to the bend. */
const overbend = (die: Die | null, angle: number): Bend['overbend'] =>
  die === null || die.springback === null ? null : rad((die.springback * angle) / (Math.PI / 2));

const millimetres = (value: number): Measure => figure(value, 'mm');
const degreesOf = (value: number): Measure => figure(value, 'deg');

/** What is wrong with a tube's path and bends, once for the whole tube (not for each piece of a split one). */
export function bendFindings(tube: Tube, points: readonly (Vec3 | null)[]): readonly Finding[] {
  const findings: Finding[] = [];
  const nodeAt = (index: number): string => tube.path[index] ?? '?';
  const say = (
    code: Code,
    at: { readonly fact: string; readonly item?: number },
    params: Params,
    figures: Pick<Finding, 'measured' | 'allowed'> = {},
    fixes: readonly FixId[] = [],
  ): void => {
    const anchor = { kind: 'thing', thing: tube.name, ...at } as const;
    findings.push(tell(code, tube.name, anchor, { tube: tube.name, ...params }, { ...figures, fixes }));
  };

  const unbent = tube.problems.flatMap((problem) => (problem.kind === 'no-radius' ? [problem] : []));
  const sharp = unbent[0];
  if (sharp !== undefined && tube.die === null && !writesDie(tube)) {
    const angle = degreesOf(sharp.angle);
    const what = unbent.length === 1 ? 'turns {angle} at {nodes}' : 'turns at {nodes}';
    const nodes = unbent.map(({ corner }) => nodeAt(corner));
    say('bend.no-die', { fact: 'path', item: sharp.corner }, { what, nodes, angle }, { measured: angle });
  }
  for (const problem of tube.problems) {
    if (problem.kind === 'zero-leg') {
      say('leg.zero', { fact: 'path', item: problem.leg + 1 }, { a: nodeAt(problem.leg), b: nodeAt(problem.leg + 1) });
    } else if (problem.kind === 'overlap') {
      const need = problem.by + legLength(points, problem.leg);
      say(
        'bend.overlap',
        { fact: 'path', item: problem.leg + 1 },
        {
          nodes: [nodeAt(problem.leg), nodeAt(problem.leg + 1)],
          need: millimetres(need),
          have: millimetres(legLength(points, problem.leg)),
          by: millimetres(problem.by),
        },
        { measured: millimetres(problem.by), allowed: { from: null, to: 0, unit: 'mm' } },
      );
    }
  }

  const places = bendPlaces(tube, points, tube.centreline);
  const { die, section } = tube;
  if (places.length > 0 && die !== null && section !== null) {
    if (Math.abs(die.od - section.od) > DIE_FIT + ROUNDING) {
      say(
        'bend.die-diameter',
        { fact: 'die' },
        { die: die.name, dieOd: millimetres(die.od), od: millimetres(section.od) },
        {
          measured: millimetres(die.od),
          allowed: { from: section.od - DIE_FIT, to: section.od + DIE_FIT, unit: 'mm' },
        },
      );
    }
    const limit = 3 * section.od;
    if (die.radius < limit - RADIUS_SLACK - ROUNDING) {
      say(
        'bend.radius',
        { fact: 'die' },
        { die: die.name, limit: millimetres(limit) },
        { measured: millimetres(die.radius), allowed: { from: limit - RADIUS_SLACK, to: null, unit: 'mm' } },
      );
    }
  }

  for (const [i, place] of places.entries()) {
    const node = nodeAt(place.corner);
    if (place.angle < TINY_BEND - STRAIGHT_ON) {
      say(
        'bend.tiny',
        { fact: 'path', item: place.corner },
        { node },
        { measured: degreesOf(place.angle), allowed: { from: degrees(TINY_BEND), to: null, unit: 'deg' } },
        [{ id: 'straighten', data: { tube: tube.name, node } }],
      );
    }
    const rotation = place.rotation;
    if (rotation !== null) {
      // An S-bend's planes are half a turn apart: what counts is how far the bends are from one plane.
      const off = Math.min(Math.abs(rotation), Math.PI - Math.abs(rotation));
      if (off > STRAIGHT_ON && off < TINY_ROTATION - STRAIGHT_ON) {
        say(
          'bend.rotation-tiny',
          { fact: 'path', item: place.corner },
          { node },
          { measured: degreesOf(off), allowed: { from: degrees(TINY_ROTATION), to: null, unit: 'deg' } },
          [{ id: 'into-bend-plane', data: { tube: tube.name, node } }],
        );
      }
    }
    const before = i > 0 ? places[i - 1] : undefined;
    if (before?.arc && place.arc !== null && die !== null && die.between !== null) {
      const straight = place.arc.start - (before.arc.start + before.arc.length);
      if (straight < die.between - ROUNDING) {
        say(
          'bend.between',
          { fact: 'path', item: place.corner },
          { nodes: [nodeAt(before.corner), node], limit: millimetres(die.between) },
          { measured: millimetres(Math.max(0, straight)), allowed: { from: die.between, to: null, unit: 'mm' } },
        );
      }
    }
  }
  return findings;
}

/** A die that is written but not known has its own finding. */
const writesDie = (tube: Tube): boolean =>
  tube.origin.entry.block?.entries.some((entry) => entry.line.word.text === 'die') ?? false;

function legLength(points: readonly (Vec3 | null)[], leg: number): number {
  const a = points[leg] ?? null;
  const b = points[leg + 1] ?? null;
  return a === null || b === null ? NaN : norm(sub(b, a));
}
