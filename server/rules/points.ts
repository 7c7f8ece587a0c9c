/** Points in the words of a mend: `near (-20, 598, 60)`, in the file's units. */
import type { Params } from '../../grammar/finding';
import type { Vec3 } from '../centreline/vector';

/** A point as a tape reads it: the phrase, with the figures that it names by `key`. */
export function pointWords(key: string, [x, y, z]: Vec3): { readonly says: string; readonly params: Params } {
  const whole = (value: number): { value: number; unit: 'mm' } => ({ value: Math.round(value), unit: 'mm' });
  return {
    says: `({${key}X#}, {${key}Y#}, {${key}Z#})`,
    params: { [`${key}X`]: whole(x), [`${key}Y`]: whole(y), [`${key}Z`]: whole(z) },
  };
}

export const mirrored = ([x, y, z]: Vec3): Vec3 => [x, -y, z];
