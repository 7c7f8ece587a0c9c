/** The curves in which a pipe ends, on its outside and in its bore. Millimetres, radians. */
import type { Leg, Piece } from '../centreline/centreline';
import { arcPoint, arcTangent } from '../centreline/piece';
import type { Vec3 } from '../centreline/vector';
import { addScaled, dot, sub } from '../centreline/vector';

/** Where a pipe ends: set-backs from `origin` along `away`, at clocks from `zero` toward `quarter`. */
export interface PipeEnd {
  readonly origin: Vec3;
  readonly away: Vec3;
  readonly zero: Vec3;
  readonly quarter: Vec3;
  readonly outer: (clock: number) => number;
  readonly inner: (clock: number) => number;
  /** No set-back is more than this; Infinity: that is not known. */
  readonly deepest: number;
}

export interface Pipe {
  /** Of the centreline, in the order of travel. */
  readonly pieces: readonly Piece[];
  readonly outer: number;
  /** 0: it is solid. */
  readonly inner: number;
  readonly ends: readonly [PipeEnd, PipeEnd];
}

export const TURN = 2 * Math.PI;
/** Between an end and the next ring of corners there is at least so much, mm. */
export const LEAST = 0.02;
/** A stretch of a cut is halved so often at most. */
const HALVINGS = 4;

const NOWHERE: Vec3 = [NaN, NaN, NaN];

/** The leg at an end; one of no length where a bend begins there. */
function endLeg(pieces: readonly Piece[], last: boolean): Leg {
  const piece = pieces[last ? pieces.length - 1 : 0];
  if (piece === undefined) return { kind: 'leg', from: NOWHERE, to: NOWHERE, direction: NOWHERE, start: 0, length: 0 };
  if (piece.kind === 'leg') return piece;
  const angle = last ? piece.angle : 0;
  const at = arcPoint(piece, angle);
  return { kind: 'leg', from: at, to: at, direction: arcTangent(piece, angle), start: 0, length: 0 };
}

/** The curves of one cut on the outside and in the bore (of a solid: the outside alone), at the same angles. */
export interface Cut {
  /** Of the carried frame, from 0 up. */
  readonly angles: readonly number[];
  /** x, y, z of the direction from the axis outward, for each angle. */
  readonly outward: readonly number[];
  /** Of each skin, x, y, z of a point for each angle. */
  readonly points: readonly (readonly number[])[];
}

/** What is known at one angle: x, y, z outward, then of a point on each skin. */
type Row = readonly number[];

/** How far a point of a row lies from the line through those of two others. */
function bow(row: Row, from: Row, to: Row, skin: number): number {
  const k = 3 + 3 * skin;
  const [ax, ay, az] = [from[k] as number, from[k + 1] as number, from[k + 2] as number];
  const [x, y, z] = [(to[k] as number) - ax, (to[k + 1] as number) - ay, (to[k + 2] as number) - az];
  const [u, v, w] = [(row[k] as number) - ax, (row[k + 1] as number) - ay, (row[k + 2] as number) - az];
  const [p, q, r] = [v * z - w * y, w * x - u * z, u * y - v * x];
  return Math.sqrt((p * p + q * q + r * r) / (x * x + y * y + z * z));
}

/** Both ends of a pipe as curves that never cross, nor reach into a bend. */
class Ends {
  private readonly legs: readonly [Leg, Leg];
  private readonly turns: readonly [number, number];
  /** Where the axis of a cut begins, seen from its leg's end: set-backs count from there. */
  private readonly begins: readonly [number, number];
  private readonly skins: readonly ('outer' | 'inner')[];

  /** @param lastZero the carried frame at the last end */
  constructor(
    private readonly pipe: Pipe,
    lastZero: Vec3,
  ) {
    const { pieces, ends, inner } = pipe;
    const turnAt = ({ zero, quarter }: PipeEnd, from: Vec3): number => Math.atan2(dot(from, quarter), dot(from, zero));
    this.legs = [endLeg(pieces, false), endLeg(pieces, true)];
    this.turns = [turnAt(ends[0], ends[0].zero), turnAt(ends[1], lastZero)];
    this.begins = [this.beginOf(0), this.beginOf(1)];
    this.skins = inner > 0 ? ['outer', 'inner'] : ['outer'];
  }

  private tip(which: 0 | 1): Vec3 {
    return which === 0 ? this.legs[0].from : this.legs[1].to;
  }

  private beginOf(which: 0 | 1): number {
    const { origin, away } = this.pipe.ends[which];
    return dot(sub(origin, this.tip(which)), away);
  }

  /** From the leg's end into it. */
  private along(which: 0 | 1, skin: 'outer' | 'inner', angle: number): number {
    return this.begins[which] + this.pipe.ends[which][skin](angle + this.turns[which]);
  }

  private room(which: 0 | 1, skin: 'outer' | 'inner', angle: number): number {
    const own = this.along(which, skin, angle);
    const [first] = this.legs;
    if (this.pipe.pieces.length > 1 || first.length === 0) return Math.min(own, this.legs[which].length - LEAST);
    const most = first.length - LEAST;
    const other = which === 0 ? 1 : 0;
    // Most tubes are far longer than both their cuts are deep.
    if (own + this.begins[other] + this.pipe.ends[other].deepest <= most) return own;
    const over = own + this.along(other, skin, angle) - most;
    return over > 0 ? own - over / 2 : own;
  }

  /** The curves of one end at angles at which they are known well enough: those of the ring, halved where one of them bows. */
  cut(which: 0 | 1, even: readonly number[], within: number): Cut {
    const { skins, pipe } = this;
    const { origin, away, zero, quarter } = pipe.ends[which];
    const turn = this.turns[which];
    // Round the axis of the cut, which may stand beside the leg by the half millimetre that an end may miss.
    const base = addScaled(origin, away, -this.begins[which]);
    const at = (angle: number): Row => {
      const [cos, sin] = [Math.cos(angle + turn), Math.sin(angle + turn)];
      const x = zero[0] * cos + quarter[0] * sin;
      const y = zero[1] * cos + quarter[1] * sin;
      const z = zero[2] * cos + quarter[2] * sin;
      const row = [x, y, z];
      for (const skin of skins) {
        const room = this.room(which, skin, angle);
        const radius = pipe[skin];
        row.push(
          base[0] + away[0] * room + x * radius,
          base[1] + away[1] * room + y * radius,
          base[2] + away[2] * room + z * radius,
        );
      }
      return row;
    };
    const angles: number[] = [];
    const outward: number[] = [];
    const points = skins.map((): number[] => []);
    const add = (angle: number, row: Row): void => {
      angles.push(angle);
      outward.push(row[0] as number, row[1] as number, row[2] as number);
      points.forEach((list, skin) => {
        const k = 3 + 3 * skin;
        list.push(row[k] as number, row[k + 1] as number, row[k + 2] as number);
      });
    };
    const between = (from: number, a: Row, to: number, b: Row, left: number): void => {
      if (left === 0) return;
      const middle = (from + to) / 2;
      const here = at(middle);
      if (bow(here, a, b, 0) <= within && (skins.length === 1 || bow(here, a, b, 1) <= within)) return;
      between(from, a, middle, here, left - 1);
      add(middle, here);
      between(middle, here, to, b, left - 1);
    };
    const ring = even.map(at);
    for (const [i, here] of ring.entries()) {
      const angle = even[i] as number;
      add(angle, here);
      between(angle, here, even[i + 1] ?? TURN, ring[(i + 1) % ring.length] ?? here, HALVINGS);
    }
    return { angles, outward, points };
  }
}

/**
 * Both cuts of a pipe, at angles of the carried frame: at `even` ones, and between them where a chord would leave a curve by
 * more than `within`.
 */
export function cutsOf(pipe: Pipe, lastZero: Vec3, even: readonly number[], within: number): readonly [Cut, Cut] {
  const ends = new Ends(pipe, lastZero);
  return [ends.cut(0, even, within), ends.cut(1, even, within)];
}
