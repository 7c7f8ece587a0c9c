/**
 * The cage as plain data: names bound, values evaluated, places placed, mirror unfolded. It knows nothing of
 * whether it is right or wrong. What could not be computed is null, never 0.
 */
import type { Finding, Place } from '../../grammar/finding';
import type { Entry, PlacedStatement } from '../../grammar/tree';
import type { Angle, Dimension, Length, LengthUnit } from '../../grammar/units';
import type { Role } from '../../grammar/vocabulary';
import type { OwnBook } from './rulebooks';
import type { Centreline, Corner, PathProblem } from '../centreline/centreline';
import type { Vec3 } from '../centreline/vector';

export type Side = 'left' | 'right';

export type { Role };

/** Where a thing is written: the entry (inside a mirror: the inner one), and the statement whose offset its spans add to. */
export interface Origin {
  readonly file: string;
  readonly statement: PlacedStatement;
  readonly entry: Entry;
}

/** What every named (or id'd) thing has. */
export interface Named {
  /**
   * Full name: `bar-end.left`, `main-hoop`; ids of nameless statements: `vent:0`, `joint:2.right`, numbered in the
   * alphabetical order of their texts, so that their order in the file changes nothing. Unique in the cage.
   */
  readonly name: string;
  /** Without the side. */
  readonly base: string;
  readonly side: Side | null;
  /** True on the twin that is not the written one; findings are told at the written one. */
  readonly twin: boolean;
  readonly origin: Origin;
}

export interface Material {
  readonly name: string | null;
  readonly yield: number | null;
  readonly tensile: number | null;
  /** MPa. */
  readonly modulus: number;
  /** kg/m3; null where one is meant but cannot be read. */
  readonly density: number | null;
  readonly kind: string | null;
}

export interface Section {
  readonly name: string;
  readonly od: Length;
  readonly wall: Length;
  readonly material: Material;
}

export interface Die {
  readonly name: string;
  readonly od: Length;
  /** Centreline radius. */
  readonly radius: Length;
  /** Straights that the bender holds; null where one is written but cannot be read. */
  readonly grip: Length | null;
  readonly between: Length | null;
  readonly follow: Length | null;
  /** Over-bend for a bend of 90 degrees; null: not known. */
  readonly springback: Angle | null;
}

export interface Node extends Named {
  readonly kind: 'node';
  readonly at: Vec3 | null;
  /** For `where A meets B`: the distance by which they miss. */
  readonly miss: Length | null;
  /** The tube on whose centreline it was placed (`on TUBE …`, `where TUBE meets …`), with the station; null otherwise. */
  readonly on: { readonly tube: string; readonly station: Length } | null;
}

export type EndTold =
  | { readonly kind: 'auto' }
  | { readonly kind: 'onto'; readonly hosts: readonly string[] }
  | { readonly kind: 'open' }
  | { readonly kind: 'past'; readonly length: Length }
  /** Written, but it cannot be read: how the end is made is not known. */
  | { readonly kind: 'unknown' };

export interface Tube extends Named {
  readonly kind: 'tube';
  readonly role: Role;
  readonly section: Section | null;
  readonly die: Die | null;
  /** Full names of the nodes; null where the name is unknown. */
  readonly path: readonly (string | null)[];
  readonly first: EndTold;
  readonly last: EndTold;
  /** Full name of the tube that splits it. */
  readonly splitBy: string | null;
  readonly existing: boolean;
  /** The bent centreline from node to node; null when a node is missing or the path has a problem. */
  readonly centreline: Centreline | null;
  readonly corners: readonly Corner[];
  readonly problems: readonly PathProblem[];
}

export interface Foot extends Named {
  readonly kind: 'foot';
  readonly node: string | null;
  readonly plate: {
    readonly long: Length;
    readonly wide: Length;
    readonly thick: Length;
    /** Seen from above, counter-clockwise (right-handed about up). */
    readonly turned: Angle;
  } | null;
  /** `slopes`: rise = tan(aft)·aft + tan(left)·left, `out` already turned into left; `square`: across the tube. */
  readonly lies:
    | { readonly kind: 'slopes'; readonly aft: Angle; readonly left: Angle }
    | { readonly kind: 'square' }
    | { readonly kind: 'unknown' };
  readonly bolts: { readonly count: number; readonly diameter: Length } | null;
  readonly hole: Length | null;
  /** True where a hole is written that cannot be read: then nobody knows whether it vents. */
  readonly holeUnread?: boolean;
}

export interface Joint extends Named {
  readonly kind: 'joint';
  readonly nodes: readonly string[];
  readonly order: readonly string[];
}

export interface Vent extends Named {
  readonly kind: 'vent';
  /** Left of the arrow. */
  readonly tube: string | null;
  /** Right of the arrow: the host, or the open air. */
  readonly to: string | null | { readonly air: true };
  readonly node: string | null;
  readonly from: Length | null;
  readonly clock: Angle | null;
  readonly dia: Length | null;
  readonly plug: string | null;
}

export interface Seat extends Named {
  readonly kind: 'seat';
  readonly hip: Vec3 | null;
  /** Midway between the slots' lower front edges; computed from the hip where the hip was given. */
  readonly slots: Vec3 | null;
  readonly recline: Angle;
  /** Positive toward the car's left (right-handed about up). */
  readonly yaw: Angle;
  readonly slotSpacing: Length | null;
  readonly back: Length | null;
  /** From each slot, in the car's frame. */
  readonly shoulder: Vec3 | null;
  readonly yoke: Length | null;
}

export interface Strap extends Named {
  readonly kind: 'strap';
  readonly seat: string | null;
  readonly slot: Side | null;
  readonly tube: string | null;
  readonly at: { readonly axis: 'x' | 'y' | 'z'; readonly value: Length } | null;
  readonly width: Length | null;
  readonly wrap: 'over' | 'under';
  /** True where `at` or `wrap` is written but cannot be read: where it runs is not known. */
  readonly unread: boolean;
  /** True where collars are written that cannot be read: then nobody knows what holds it. */
  readonly collarsUnread?: boolean;
  readonly hardware: Length | null;
  readonly collars: { readonly width: Length; readonly gap: Length } | null;
}

export interface Collar extends Named {
  readonly kind: 'collar';
  readonly tube: string | null;
  readonly at: { readonly axis: 'x' | 'y' | 'z'; readonly value: Length } | null;
  readonly width: Length | null;
}

export interface Waiver {
  readonly id: string;
  readonly book: string | null;
  readonly code: string;
  /** Full names it covers (both twins when a bare mirrored name is meant). */
  readonly on: readonly string[];
  /** As written. */
  readonly written: string;
  readonly end: 'first' | 'last' | null;
  /** In the JSON's units (mm, degrees, plain). */
  readonly upTo: { readonly value: number; readonly kind: 'length' | 'angle' | 'plain' } | null;
  readonly because: string;
  readonly origin: Origin;
}

export interface Vehicle {
  readonly mass: number | null;
  readonly withDriver: boolean | null;
  readonly body: string | null;
  /** The day of the homologation, `2006-04-01`; the first of January where only the year is written. */
  readonly homologated: string | null;
  readonly origin: Origin;
}

export type Thing = Node | Tube | Foot | Joint | Vent | Seat | Strap | Collar;

/** A named plane of the car: `at`, its two axes, and which way it runs. */
export interface Plane {
  readonly name: string;
  readonly at: Vec3;
  readonly runs: 'across' | 'along';
  /** Unit: left for `across`, forward for `along`. */
  readonly first: Vec3;
  /** Unit, leaned. */
  readonly up: Vec3;
  readonly origin: Origin;
}

/** The worth of a `let` inside (mm, rad, kg, N, MPa), with its dimension. */
export interface LetValue {
  readonly value: number;
  readonly dimension: Dimension;
  /** For a plain number: the unit that it takes where a length is wanted; null: none. */
  readonly bare: LengthUnit | null;
}

export interface Cage {
  /** The file that is judged. */
  readonly file: string;
  readonly title: string | null;
  /** True where the judged file has a `cage` line. */
  readonly isCar: boolean;
  readonly units: LengthUnit;
  /** `rules` of the judged file; ['shop'] without one. */
  readonly rules: readonly string[];
  readonly rulesOrigin: Origin | null;
  /** The rulebooks that are written in the car's files, by name. */
  readonly ownBooks: ReadonlyMap<string, OwnBook>;
  readonly vehicle: Vehicle | null;
  /** In the order of file and text. A duplicated name keeps its first. */
  readonly things: ReadonlyMap<string, Thing>;
  readonly planes: ReadonlyMap<string, Plane>;
  readonly materials: ReadonlyMap<string, { readonly value: Material; readonly origin: Origin }>;
  readonly sections: ReadonlyMap<string, { readonly value: Section | null; readonly origin: Origin }>;
  readonly dies: ReadonlyMap<string, { readonly value: Die | null; readonly origin: Origin }>;
  /** What each `let` is worth, by name. */
  readonly lets: ReadonlyMap<string, { readonly value: LetValue | null; readonly origin: Origin }>;
  readonly waivers: readonly Waiver[];
  /** Names, units, facts and places that are wrong. */
  readonly findings: readonly Finding[];
  /** Where each used name stands and what it means: for definition, references, rename, hover. */
  readonly uses: readonly NameUse[];
}

/** One occurrence of a name in the text. */
export interface NameUse {
  readonly place: Place;
  /** For a name with or without its side: the side that it means here, in the car. Null: it exists once, or on both. */
  readonly side: Side | null;
  /** `thing:foot` (base name, both sides), `plane:hoop`, `section:bar`, `let:bar-height`, `material:…`, `die:…`, `book:…`. */
  readonly target: string;
  readonly definition: boolean;
}
