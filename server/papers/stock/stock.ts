/** What is cut from what: pieces, sticks to buy, offcuts at hand, and a layout of the one on the other. Millimetres. */

export interface Piece {
  readonly name: string;
  /** mm, as it leaves the saw. */
  readonly length: number;
}

/** A length that the dealer sells; as many as wanted. */
export interface Sold {
  /** mm. */
  readonly length: number;
  /** In any one currency; null: not known. */
  readonly price: number | null;
}

export interface Supply {
  readonly sold: readonly Sold[];
  /** Offcuts at hand, mm; one stick each. */
  readonly have: readonly number[];
  /** What the saw turns to dust at each cut, mm. */
  readonly kerf: number;
}

/** One stick with what is cut from it, longest first. */
export interface Stick {
  readonly length: number;
  /** True for one that is bought. */
  readonly bought: boolean;
  readonly price: number | null;
  readonly pieces: readonly Piece[];
  /** What is left behind the last cut, mm. */
  readonly rest: number;
}

export interface Layout {
  readonly sticks: readonly Stick[];
  /** Longer than every stick: they are on none. */
  readonly tooLong: readonly Piece[];
  /** What the bought sticks cost; null where a price is not known: then their number counts. */
  readonly cost: number | null;
  readonly bought: number;
  /** Nothing cheaper (or, without prices, nothing with fewer sticks) is possible than this: the proof's bound. */
  readonly bound: number;
  /** True where the layout reaches the bound. */
  readonly proven: boolean;
}

/**
 * Lengths in whole steps, so that sums are exact: hundredths of a millimetre, thousandths and sixty-fourths of an inch are
 * all whole numbers of them. What is between is rounded up for pieces and down for sticks, so that a layout can always be
 * cut; two halves of an inch stick, with the kerf between them, still fit it.
 */
export const PER_MM = 40_000;
/** What sums of coordinates are off by is no length, in steps. */
const SLOP = 0.01;

export const gridUp = (mm: number): number => Math.ceil(mm * PER_MM - SLOP);
export const gridDown = (mm: number): number => Math.floor(mm * PER_MM + SLOP);

/** A kind of stick in the solver: its room on the grid with one kerf more, since the last piece needs no cut behind it. */
export interface Kind {
  readonly room: number;
  readonly length: number;
  /** In whole steps of the cost that is minimised. */
  readonly cost: number;
  readonly price: number | null;
  /** How many there are; null: as many as wanted. */
  readonly count: number | null;
}

/** Pieces of one length. `size` holds one kerf. */
export interface Demand {
  readonly size: number;
  readonly count: number;
}

/** One way to cut one kind of stick: how many of each demand. */
export interface Pattern {
  readonly kind: number;
  readonly counts: readonly number[];
}
