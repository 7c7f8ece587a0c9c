/** Every quantity that books put limits on: one file each. */
import type { Rule } from './rule';
import { seatGap } from './seat-gap';
import { strapDrop } from './strap-drop';
import { strapFreeRun } from './strap-free-run';
import { strapLength } from './strap-length';
import { strapSkew } from './strap-skew';
import { strapSpread } from './strap-spread';

export const RULES: readonly Rule[] = [strapDrop, strapSpread, strapSkew, strapFreeRun, strapLength, seatGap];
