/**
 * What was made of some objects is used again while it would be made of the same ones. Objects that say the same are
 * the same from one run to the next (the cage and the parts see to that), so that looking is enough.
 */

interface Entry<V> {
  readonly from: readonly unknown[];
  readonly value: V;
}

/** Values by name, or by an object that they belong to. What a round did not ask for is dropped at its end, so no more is kept than one car needs. */
export class Kept<V, Key = string> {
  private before: ReadonlyMap<Key, Entry<V>> = new Map();
  private now = new Map<Key, Entry<V>>();
  private misses = 0;

  /** The value of that key, made anew unless it was made from just these. `make` must depend on nothing else. */
  get(key: Key, from: readonly unknown[], make: () => V): V {
    const old = this.now.get(key) ?? this.before.get(key);
    if (old !== undefined && sameItems(old.from, from)) {
      this.now.set(key, old);
      return old.value;
    }
    this.misses += 1;
    const value = make();
    this.now.set(key, { from, value });
    return value;
  }

  /** How often something had to be made since this was last asked. */
  takeMisses(): number {
    const { misses } = this;
    this.misses = 0;
    return misses;
  }

  /** Ends a round. */
  sweep(): void {
    this.before = this.now;
    this.now = new Map();
  }
}

/** True where two lists hold the same objects, or equal numbers and texts, in the same order. */
export function sameItems(a: readonly unknown[], b: readonly unknown[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
