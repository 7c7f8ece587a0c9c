/**
 * The cage as plain data: names bound, values evaluated, places placed, mirror unfolded. It knows nothing of
 * whether it is right or wrong. What could not be computed is null, never 0.
 */
import type { Finding, Place } from '../../grammar/finding';
import type { Angle, Dimension, Length, LengthUnit } from '../../grammar/units';
import type { Role } from '../../grammar/vocabulary';
import type { OwnBook } from './rulebooks';
import type { Centreline, Corner, PathProblem } from '../centreline/centreline';
import type { Vec3 } from '../centreline/vector';
import type { Bolts, CounterPlate, Hardware, PlatePoint } from './hardware';
import type { Named, Origin, Side } from './named';

export type { Role };
export type { Named, Origin, Side } from './named';
export type * from './hardware';

export interface Material {
  readonly name: string | null;
  readonly yield: number | null;
  readonly tensile: number | null;
  /** MPa. */
  readonly modulus: number;
  /** kg/m3; null where one is meant but cannot be read. */
  readonly density: number | null;
  readonly kind: string | null;
  /** Shares of the mass: 0.0025 for 0.25 %; null: not known. `others`: the largest of any other element. */
  readonly carbon: number | null;
  readonly manganese: number | null;
  readonly others: number | null;
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
  /** What is led through it or fixed in it; null: nothing is told. */
  readonly carries: string | null;
  /** Of this tube; null: that of the whole cage (`vehicle`), if that is told. */
  readonly finish: Finish | null;
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
  readonly bolts: Bolts | null;
  /** Where the bolts stand on the plate; null: not told, or one of them cannot be read. */
  readonly boltsAt: readonly PlatePoint[] | null;
  /** On the far side of the panel, or on the shell under the foot. */
  readonly counterPlate: CounterPlate | null;
  /** Welded to the shell, or to its counter-plate; null: not told. */
  readonly welded: boolean | null;
  /** What it stands on. */
  readonly on: 'shell' | 'frame';
  readonly hole: Length | null;
  /** True where a hole is written that cannot be read: then nobody knows whether it vents. */
  readonly holeUnread?: boolean;
}

export interface Joint extends Named {
  readonly kind: 'joint';
  readonly nodes: readonly string[];
  readonly order: readonly string[];
  /** How far round the tubes are welded here; null: as the rest of the cage. */
  readonly weld: 'round' | 'part' | null;
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
  /** As written; of a range its first, at which the seat is placed and judged. */
  readonly recline: Angle;
  /** From the smaller to the larger; both the same where it does not recline. Null: it cannot be read. */
  readonly reclineRange: { readonly from: Angle; readonly to: Angle } | null;
  /** Forward of what is written, mm: `{ 0, 0 }` where it does not slide. Null: it cannot be read. */
  readonly slideRange: { readonly from: Length; readonly to: Length } | null;
  /** Positive toward the car's left (right-handed about up). */
  readonly yaw: Angle;
  readonly slotSpacing: Length | null;
  readonly back: Length | null;
  /** From each slot, in the car's frame. */
  readonly shoulder: Vec3 | null;
  readonly yoke: Length | null;
  /** A ball round the driver's helmet: its middle from the middle between the slots, in the car's frame. */
  readonly helmet: { readonly offset: Vec3; readonly radius: Length } | null;
  /** The driver's elbow, from each slot, in the car's frame. */
  readonly elbow: Vec3 | null;
  /** Across the driver's shoulders. */
  readonly shoulderWidth: Length | null;
  /** Outside width of the shell at the hips. */
  readonly width: Length | null;
  /** Thickness of the cushion between shell and driver. */
  readonly cushion: Length | null;
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
  /** How it is held to the tube: wrapped round it, or bolted to it. */
  readonly fixing: 'wrap' | 'bolt';
  /** With `fixing bolt`. */
  readonly bolt: Bolts | null;
  /** A threaded insert for the bolt is welded into the tube; null: not told. */
  readonly insert: boolean | null;
  /** From the tube to the three-bar slide. */
  readonly slider: Length | null;
  /** Led back through the slide once more, which locks it; null: not told. */
  readonly locked: boolean | null;
  /** Free end behind the slide. */
  readonly tail: Length | null;
  /** From the collarbone down to the adjuster; with a yoke, from the yoke's end. */
  readonly adjuster: Length | null;
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
  /** What the driver weighs with all gear, kg. */
  readonly driver: number | null;
  readonly body: string | null;
  /** The day of the homologation, `2006-04-01`; the first of January where only the year is written. */
  readonly homologated: string | null;
  /** The day of the first technical passport of a car that was never homologated. */
  readonly passport: string | null;
  /** How the cage came: built by the text of the book, or certified. */
  readonly cage: 'self-built' | 'asn' | 'fia' | null;
  /** The cage bears its maker's plate with a number. */
  readonly identified: boolean | null;
  readonly shell: 'steel' | 'aluminium' | 'composite' | null;
  /** It has a frame apart from its shell. */
  readonly frame: boolean | null;
  /** A second person sits in the car. */
  readonly codriver: boolean | null;
  readonly kind: 'production' | 'formula' | 'sports-racer' | null;
  /** Quarter-mile time, s. */
  readonly elapsedTime: number | null;
  /** Where the front suspension's top mounting stands, and the rear one's; on either side of the car. */
  readonly frontSuspension: Vec3 | null;
  readonly rearSuspension: Vec3 | null;
  /** Of the whole cage, where a tube does not say its own. */
  readonly finish: Finish | null;
  readonly origin: Origin;
}

/** How the whole cage is welded, where a joint does not say its own. */
export interface Welding {
  readonly process: 'tig' | 'mig' | 'mma' | 'gas' | null;
  readonly weld: 'round' | 'part' | null;
  readonly ground: boolean | null;
  readonly origin: Origin;
}

/** A length that the dealer sells. */
export interface SoldLength {
  readonly length: Length;
  /** Of one stick, in any one currency; null: not told. */
  readonly price: number | null;
}

/** What can be had of a section. */
export interface Stock {
  readonly section: string;
  /** Empty: not told. */
  readonly sold: readonly SoldLength[];
  /** Offcuts, one stick each. */
  readonly have: readonly Length[];
  /** True where something of it is written that cannot be read, which is told. */
  readonly unread: boolean;
  readonly origin: Origin;
}

/** Null: not told, or it cannot be read. */
export interface Saw {
  /** Straight that its vice has to hold beside the cut. */
  readonly vice: Length | null;
  readonly kerf: Length | null;
  /** The most that it is turned off square. */
  readonly reach: Angle | null;
  readonly origin: Origin;
}

/** The welding torch, as a straight round body over the weld. Null: not told, or it cannot be read. */
export interface Torch {
  /** Outside of its nozzle or cup, at the widest. */
  readonly nozzle: Length | null;
  /** From the weld to where hand and hose begin; more than `stickOut` where both are told. */
  readonly reach: Length | null;
  /** From the weld to where the nozzle begins. */
  readonly stickOut: Length | null;
  /** The most that it leans from the middle of the groove. */
  readonly lean: Angle | null;
  readonly origin: Origin;
}

export type Finish = 'bare' | 'paint' | 'powder' | 'zinc' | 'galvanized' | 'chrome';

export type Thing = Node | Tube | Foot | Joint | Vent | Seat | Strap | Collar | Hardware;

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
  readonly welding: Welding | null;
  /** In the order of file and text. A duplicated name keeps its first. */
  readonly things: ReadonlyMap<string, Thing>;
  readonly planes: ReadonlyMap<string, Plane>;
  readonly materials: ReadonlyMap<string, { readonly value: Material; readonly origin: Origin }>;
  readonly sections: ReadonlyMap<string, { readonly value: Section | null; readonly origin: Origin }>;
  readonly dies: ReadonlyMap<string, { readonly value: Die | null; readonly origin: Origin }>;
  /** By the name of the section. */
  readonly stocks: ReadonlyMap<string, Stock>;
  readonly saw: Saw | null;
  readonly torch: Torch | null;
  /** Every statement of these, whether it counts or not: what is wrong in them changes no tube. */
  readonly storeOrigins: readonly Origin[];
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
