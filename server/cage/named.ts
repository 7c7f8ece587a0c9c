/** What every thing of the car has: its name, its side, and where it is written. */
import type { Entry, PlacedStatement } from '../../grammar/tree';

export type Side = 'left' | 'right';

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
