/** Before which step each hole of the drill list is drilled: every one of them in one step. */
import type { Drilling } from '../drill/holes';
import { inOrder } from '../drill/papers';
import type { PacketInput } from '../packet/paper';

/** A hole with its number on the drill list. */
export interface Numbered {
  /** `D7`. */
  readonly id: string;
  readonly drilling: Drilling;
}

/** In the car; in the plate or gusset of that name; in a part before it is fitted; where a part that is fitted lands. */
export type Moment =
  | { readonly kind: 'car' }
  | { readonly kind: 'plate' | 'gusset'; readonly name: string }
  | { readonly kind: 'bench' | 'joint'; readonly part: string };

export function momentOf({ sort, thing, part, closing }: Drilling): Moment {
  if (sort === 'plate-hole' || sort === 'plate-bolts') return { kind: 'plate', name: thing.name };
  if (sort === 'gusset') return { kind: 'gusset', name: thing.name };
  if (sort === 'mount' || part === null) return { kind: 'car' };
  if (closing !== null && !closing.part.tube.existing) return { kind: 'joint', part: closing.part.name };
  return part.tube.existing ? { kind: 'car' } : { kind: 'bench', part: part.name };
}

export const numberedHoles = (input: PacketInput): readonly Numbered[] =>
  inOrder(input).map((drilling, i) => ({ id: `D${String(i + 1)}`, drilling }));
