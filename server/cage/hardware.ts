/**
 * What is welded, bolted, drilled and laid round a cage, and what stands near it, as plain data: gussets, holes, padding,
 * fittings, plates and bolts, doors and panels, seat mounts and anchors. Like all things of the cage: null is a figure
 * that is not written, or cannot be computed; never 0.
 */
import type { Length } from '../../grammar/units';
import type { Vec3 } from '../centreline/vector';
import type { Named, Side } from './named';

/** A bolt's grade by ISO 898-1 (8.8, 10.9 …) or SAE J429 (2, 5, 8 …). */
export interface Grade {
  readonly standard: 'iso' | 'sae';
  readonly value: number;
  /** Nominal tensile strength of that grade, MPa: what two standards can be compared by. */
  readonly tensile: number;
}

export interface Bolts {
  /** One where no number is written. */
  readonly count: number;
  readonly diameter: Length;
  readonly grade: Grade | null;
}

/** A flat plate: fore and aft, across, thickness. */
export interface Plate {
  readonly long: Length;
  readonly wide: Length;
  readonly thick: Length;
}

/** How a plate on the far side, or a foot, is held to the shell. */
export type Held = 'welded' | 'bolted' | 'bonded';

export interface CounterPlate extends Plate {
  readonly held: Held | null;
}

export const GUSSET_KINDS = ['sheet', 'tube', 'flat'] as const;
export type GussetKind = (typeof GUSSET_KINDS)[number];

export interface Gusset extends Named {
  readonly kind: 'gusset';
  readonly node: string | null;
  /** The two tubes that it ties, by their full names; null where one is not known. */
  readonly between: readonly [string | null, string | null] | null;
  /** From the node along each of the two, in their order. */
  readonly legs: readonly [Length, Length] | null;
  readonly thickness: Length | null;
  /** `sheet`: bent to a U; `flat`: a triangle of plate; `tube`: a piece of tube. */
  readonly made: GussetKind | null;
  /** Radius of the cut-out at the apex. */
  readonly cutOut: Length | null;
  /** Diameter of the hole in each flat side. */
  readonly hole: Length | null;
}

export type HolePurpose = 'inspection' | 'drain' | 'bolt';

/** A hole drilled into a tube from outside, other than a vent. */
export interface Hole extends Named {
  readonly kind: 'hole';
  readonly tube: string | null;
  readonly purpose: HolePurpose;
  /** The node that it is measured from; null: the tube's first node. */
  readonly node: string | null;
  /** Along the tube's bent centreline from its first node; null where it is not known. */
  readonly station: Length | null;
  /** Round the tube, as for a vent to the air; null where it cannot be read. */
  readonly clock: number | null;
  readonly dia: Length | null;
  /** A sleeve is welded in: the bore stays closed. */
  readonly sleeve: boolean;
  /** How it is closed afterwards; null: it stays open. */
  readonly plug: string | null;
  /** True where `sleeve` or `plug` is written but cannot be read: then nobody knows whether it stays open. */
  readonly unread: boolean;
}

export type PaddingStandard = 'fia-8857' | 'sfi-45.1' | 'sfi-45.2' | 'foam';

/** Padding round a tube. */
export interface Padding extends Named {
  readonly kind: 'padding';
  readonly tube: string | null;
  readonly thickness: Length | null;
  /** Stations along the tube from its first node; null: the whole tube. Unread is told by {@link unread}. */
  readonly from: Length | null;
  readonly to: Length | null;
  readonly standard: PaddingStandard | null;
  readonly flameRetardant: boolean | null;
  /** Held so that it cannot move on the tube. */
  readonly fixed: boolean | null;
  /** True where `from` is written but cannot be read: how far it reaches is not known. */
  readonly unread: boolean;
}

export type FittingKind = 'clevis' | 'muff' | 'tapered' | 'flange' | 'lug';

/** A removable joint at the end of a tube. */
export interface Fitting extends Named {
  readonly kind: 'fitting';
  readonly tube: string | null;
  readonly end: 'first' | 'last' | null;
  readonly made: FittingKind | null;
  readonly shear: 'single' | 'double' | null;
  readonly bolt: Bolts | null;
  /** From the host's centreline to the pin's, along the tube. */
  readonly standOff: Length | null;
  /** The drawing of the book that it follows: `253-37`. */
  readonly drawing: string | null;
  /** Welded up once assembled. */
  readonly welded: boolean | null;
  /** A bush for the bolt is welded into the tube. */
  readonly bush: boolean | null;
}

/** The aperture of a door in the shell, seen from the side. */
export interface Door extends Named {
  readonly kind: 'door';
  /** Three corners or more, in the order of the edge; null where one is not known. */
  readonly outline: readonly Vec3[] | null;
}

export const PANEL_KINDS = [
  'roof',
  'pillar',
  'side',
  'floor',
  'firewall',
  'header',
  'dashboard',
  'steering-column',
] as const;
export type PanelKind = (typeof PANEL_KINDS)[number];

/** A part of the car that a rule measures to: its inside face, or its edge. */
export interface Panel extends Named {
  readonly kind: 'panel';
  readonly as: PanelKind | null;
  /** Two points: a line; three or more: a surface, by its edge. Null where one is not known. */
  readonly outline: readonly Vec3[] | null;
}

export interface SeatMount extends Named {
  readonly kind: 'seat-mount';
  readonly seat: string | null;
  /** Points at which the supports are held to the shell. */
  readonly points: number | null;
  /** Supports to the shell. */
  readonly bolts: Bolts | null;
  /** The seat to its supports. */
  readonly seatBolts: Bolts | null;
  /** The contact of each support with the shell, and the support's thickness. */
  readonly plate: Plate | null;
  readonly counterPlate: CounterPlate | null;
  readonly material: 'steel' | 'aluminium' | null;
  /** Approved by the maker of the seat. */
  readonly approved: boolean | null;
  /** Load that each point is proved for, N. */
  readonly load: number | null;
  /** Load that a quick release is proved for, N; null: there is none, or it is not known. */
  readonly quickRelease: number | null;
}

/** An anchorage of the harness. Shoulder straps on a bar are `strap`. */
export interface Anchor extends Named {
  readonly kind: 'anchor';
  readonly as: 'lap' | 'crotch' | 'shoulder' | null;
  readonly seat: string | null;
  readonly at: Vec3 | null;
  /** The tube of the cage that it is on; null: the shell. */
  readonly tube: string | null;
  readonly plate: Plate | null;
  readonly bolt: Bolts | null;
  readonly fixing: 'bolt' | 'wrap' | 'eye' | null;
  /** An anchorage that the maker of the car put there. */
  readonly series: boolean | null;
  /** The strap passes through the seat, not over its side. */
  readonly throughSeat: boolean | null;
  /** From the opening of the seat to the adjuster, along the strap, outside of the seat. */
  readonly adjuster: Length | null;
  /** N. */
  readonly load: number | null;
}

/** A bolt's place on a foot's plate, from its middle, along the plate (forward) and across it (left), before it is turned. */
export interface PlatePoint {
  readonly forward: Length;
  readonly left: Length;
}

export type Hardware = Gusset | Hole | Padding | Fitting | Door | Panel | SeatMount | Anchor;
export type { Named, Side };
