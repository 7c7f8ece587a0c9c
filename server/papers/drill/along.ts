/** A place on a tube as somebody with a tape finds it: from an end, from a bend, round the tube. Millimetres, radians. */
import type { Vec3 } from '../../centreline/vector';
import { sub } from '../../centreline/vector';
import { nearestOn, pointAt } from '../../centreline/query';
import { clockFrame, clockOf } from '../../geometry/clock';
import type { ClockZero, Part } from '../../geometry/shape';
import { bodyStretch } from '../../geometry/stretch';
import { bendFigures } from '../bend/figures';
import { arcsOf } from '../bend/stick';
import type { Shape } from '../../geometry/shape';

/** From a bend's tangent along the tube. */
export interface FromBend {
  /** 1, 2, … from END 1. */
  readonly bend: number;
  readonly tangent: 'begins' | 'ends';
  readonly distance: number;
  /** The way from the tangent to the place. */
  readonly toward: 'END 1' | 'END 2';
  /** True where the place lies in the bend itself: then the distance is along its centreline. */
  readonly inBend: boolean;
}

export interface AlongTube {
  readonly part: Part;
  /** Along the part's centreline, from where its set-backs are measured at END 1. */
  readonly station: number;
  /** From the long point of each end along the tube; null where how the end is cut is not known. */
  readonly fromFirst: number | null;
  readonly fromLast: number | null;
  /** From END 1 of the straight stick, before bending; null for a tube without bends, and where tails are not known. */
  readonly onStick: number | null;
  /** From the nearest tangent; null without bends. */
  readonly fromBend: FromBend | null;
  /** Clockwise from its zero, seen from END 1 toward END 2; null: not told. */
  readonly clock: number | null;
  readonly zero: ClockZero['name'];
  /** From the zero clockwise round the outside; null where clock or section is not known. */
  readonly round: number | null;
}

function bendBeside(part: Part, station: number): FromBend | null {
  const tangents = arcsOf(part.centreline).flatMap((arc, i) => {
    const inBend = station > arc.start && station < arc.start + arc.length;
    return [
      { bend: i + 1, tangent: 'begins' as const, at: arc.start, inBend },
      { bend: i + 1, tangent: 'ends' as const, at: arc.start + arc.length, inBend },
    ];
  });
  const inside = tangents.filter(({ inBend }) => inBend);
  const near = (inside.length > 0 ? inside : tangents).reduce<(typeof tangents)[number] | null>(
    (best, one) => (best === null || Math.abs(one.at - station) < Math.abs(best.at - station) ? one : best),
    null,
  );
  if (near === null) return null;
  const by = station - near.at;
  const { bend, tangent, inBend } = near;
  return { bend, tangent, distance: Math.abs(by), toward: by < 0 ? 'END 1' : 'END 2', inBend };
}

/** The place at a station of a part; `clock` null where it is not told. Null where the part has no centreline. */
export function alongTube(part: Part, shape: Shape, station: number, clock: number | null): AlongTube | null {
  const line = part.centreline;
  if (line === null || !Number.isFinite(station)) return null;
  const body = bodyStretch(part);
  const [first, last] = part.ends;
  const known = body !== null && first.minCut !== null;
  const fromFirst = known ? station - body.from : null;
  const tails = part.bends.length === 0 ? null : bendFigures(part, shape).tails;
  const od = part.tube.section?.od ?? null;
  return {
    part,
    station,
    fromFirst,
    fromLast: body !== null && last.minCut !== null ? body.to - station : null,
    onStick: fromFirst === null || tails === null ? null : tails[0] + fromFirst,
    fromBend: bendBeside(part, station),
    clock,
    zero: clockFrame(pointAt(line, station).tangent).zero.name,
    round: clock === null || od === null ? null : (clock * od) / 2,
  };
}

/** The place on a part's outside nearest to a point in space; the clock is that of the point. */
export function alongAt(part: Part, shape: Shape, at: Vec3): AlongTube | null {
  const line = part.centreline;
  if (line === null) return null;
  const on = nearestOn(line, at);
  return alongTube(part, shape, on.station, clockOf(clockFrame(on.tangent), sub(at, on.point)));
}
