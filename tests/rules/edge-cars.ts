/** Cars for the edges of the rules: a text for each side of a limit, and one in which the needed fact is missing. */
import type { RuleCode } from '../../grammar/codes';
import { BRACE_EDGES } from './edge-cars-braces';
import { HOOP_EDGES } from './edge-cars-hoops';
import { MOUNT_EDGES } from './edge-cars-mounts';

export interface Edge {
  readonly code: RuleCode;
  readonly book: string;
  /** Another book that has to be chosen for it. */
  readonly also?: string;
  /** What stands before both texts; without it a hoop of 45 x 2.5 on two feet, 1000 high. */
  readonly stage?: 'parts';
  readonly inside: string;
  readonly outside: string;
  /** How far the figure outside may be from the limit, in the figure's unit. */
  readonly within: number;
  /** A text that lacks a fact, and words of what is told; null: what the rule reads cannot be missing from a text that can be built. */
  readonly missing: readonly [string, RegExp] | null;
}

/** Those of the rules that many books share. */
export const EDGES: readonly Edge[] = [...HOOP_EDGES, ...BRACE_EDGES, ...MOUNT_EDGES];
