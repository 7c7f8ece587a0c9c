/**
 * The cage's shape: every figure that the tool shows, computed once. Millimetres, radians, kg, mm², mm⁴.
 * A figure that cannot be computed is null. Definitions and formulas stand at the functions that compute them.
 */
import type { Finding } from '../../grammar/finding';
import type { Angle, Length } from '../../grammar/units';
import type { Cage, Role, Side, Tube } from '../cage/cage';
import type { Centreline } from '../centreline/centreline';
import type { Vec3 } from '../centreline/vector';
import type { CopeCurve } from './cope';

export interface SectionFigures {
  /** mm². */
  readonly area: number;
  /** Second moment of area, mm⁴. */
  readonly secondMoment: number;
  /** mm⁴. */
  readonly torsionConstant: number;
  /** Elastic section modulus, mm³. */
  readonly modulus: number;
  /** kg/m; null where the material's density is not known. */
  readonly massPerMetre: number | null;
}

export interface Bend {
  /** Full name of the corner's node. */
  readonly node: string | null;
  readonly angle: Angle;
  readonly radius: Length | null;
  readonly straightBefore: Length | null;
  /** Of the bend plane from the one before, right-handed about travel, (-π, π]; null at the first bend. */
  readonly rotation: Angle | null;
  readonly arcLength: Length | null;
  readonly overbend: Angle | null;
  readonly startMark: Length | null;
}

/** One generator of a coped or sawn end. Set-backs from E along the leg, away from the joint. */
export interface Ordinate {
  readonly clock: Angle;
  readonly cut: Length | null;
  readonly outer: Length | null;
  readonly inner: Length | null;
  readonly gap: Length | null;
}

export type Fit = 'cope' | 'foot' | 'square' | 'open';

/** What an end covers of a tube that cuts it: how far it reaches along that tube from where the axes are nearest, mm. */
export interface Print {
  /** Name of the part. */
  readonly host: string;
  /** Against the host's travel, and with it; as if the host went on beyond its ends. */
  readonly before: Length;
  readonly after: Length;
}

/** The zero of the clock at a tube's end: TOP, or FRONT where the leg is within 20° of vertical. */
export interface ClockZero {
  readonly vector: Vec3;
  readonly name: 'TOP' | 'FRONT';
}

export interface End {
  readonly which: 'first' | 'last';
  /** Full name; null at the inner end of a split piece. */
  readonly node: string | null;
  readonly fit: Fit;
  /** What cuts it: full names of tubes (pieces by their piece name), or the foot's name. */
  readonly hosts: readonly string[];
  /** E: where set-backs are measured from. */
  readonly origin: Vec3 | null;
  /** Unit direction of the end leg pointing away from the joint. */
  readonly away: Vec3 | null;
  readonly clockZero: ClockZero | null;
  /** Clock of the inside of the nearest bend; null without bends. */
  readonly bendInsideClock: Angle | null;
  /** Between the leg and the (first) host's centreline, 0..π/2. Null for sawn ends. */
  readonly includedAngle: Angle | null;
  readonly offset: Length | null;
  /** max cut - min cut over all clocks; null with an overhang. */
  readonly depth: Length | null;
  readonly saddleLength: Length | null;
  /** Angle off square, for sawn ends. */
  readonly sawAngle: Angle | null;
  /** Clock of the long point. */
  readonly sawClock: Angle | null;
  /** Smallest cut (the long point) and smallest outer. */
  readonly minCut: Length | null;
  readonly minOuter: Length | null;
  readonly maxCut: Length | null;
  /** 0, 10, … 360 degrees. */
  readonly ordinates: readonly Ordinate[];
  /** Set-backs at any clock, for wraps with another division (16 of 22.5°), templates and meshes; null where nothing is cut or known. */
  readonly curve: CopeCurve | null;
  /** The widest groove that the cut leaves open, over all clocks; null where nothing is cut or known. */
  readonly widestGap: Length | null;
  /** One for each tube that cuts it; where another cuts farther all round, none. */
  readonly prints: readonly Print[];
  /** Points of its outer edge in space, every 5 degrees; empty where it is not coped, or one of them is not known. */
  readonly edge: readonly Vec3[];
}

/** A tube as it is cut and bent: one for each tube, two for a split one. */
export interface Part {
  /** `harness-bar`, `door-x.left.a`. */
  readonly name: string;
  readonly tube: Tube;
  readonly role: Role;
  readonly piece: 'a' | 'b' | null;
  /** Full names of the nodes on this part; null at a split. */
  readonly nodes: readonly (string | null)[];
  readonly centreline: Centreline | null;
  readonly section: SectionFigures | null;
  readonly bends: readonly Bend[];
  readonly straightAfter: Length | null;
  readonly centrelineLength: Length | null;
  readonly cutLength: Length | null;
  readonly holeSawLength: Length | null;
  readonly stickLength: Length | null;
  readonly mass: number | null;
  readonly ends: readonly [End, End];
}

export interface SeatFigures {
  readonly name: string;
  /** From the rear face to the nearest tube; below 0: a tube stands inside the seat, so far in front of the face. */
  readonly gap: Length | null;
  /** The nearest tube's part. */
  readonly to: string | null;
  /** The same to the straps' own bar; null where the seat has no strap on a bar that is known. */
  readonly barGap: Length | null;
  /** The part that `barGap` was measured to. */
  readonly bar: string | null;
}

/** A stretch of a part's bent centreline, stations in mm from its first point; from <= to. */
export interface Stretch {
  readonly from: Length;
  readonly to: Length;
}

export interface StrapFigures {
  readonly name: string;
  readonly seat: string | null;
  readonly tube: string | null;
  readonly slotSide: Side | null;
  readonly slot: Vec3 | null;
  readonly start: Vec3 | null;
  /** T. */
  readonly contact: Vec3 | null;
  /** P: the bar's centreline point. */
  readonly barPoint: Vec3 | null;
  /** True where the run lies on the slot's rear lip (start = L). */
  readonly onLip: boolean;
  readonly drop: Angle | null;
  readonly dropFromShoulder: Angle | null;
  readonly spread: Angle | null;
  readonly skew: Angle | null;
  readonly crossed: boolean;
  readonly length: Length | null;
  readonly freeRun: Length | null;
  /** The part of the bar on which it lies: the tube, or one of its split pieces. */
  readonly part: string | null;
  /** P's station on that part. */
  readonly station: Length | null;
  /** What the webbing covers of the bar: its full width about P; null where the strap has no width. */
  readonly webbing: Stretch | null;
  /** Its own collars. */
  readonly collars: readonly Stretch[];
}

export interface Space {
  /** Part names, sorted. */
  readonly tubes: readonly string[];
  /** Null where one of its tubes, or a vent of it, is not known. */
  readonly vented: boolean | null;
}

export interface Shape {
  readonly cage: Cage;
  /** By part name, in the cage's order. */
  readonly parts: ReadonlyMap<string, Part>;
  readonly seats: readonly SeatFigures[];
  readonly straps: readonly StrapFigures[];
  readonly spaces: readonly Space[];
  /** kg, without existing tubes. */
  readonly mass: number | null;
  /** Build findings: ends, copes, bends, clashes, spaces, vents, feet, and straps that cannot be computed. */
  readonly findings: readonly Finding[];
}
