/** What was computed is kept by the numbers that it was computed from: names, comments and places are no part of a key. */

/** A list of numbers that is filled, asked for once, and filled again. Reused, so that looking up makes no garbage. */
export class NumberKey {
  private numbers = new Float64Array(64);
  private size = 0;

  clear(): this {
    this.size = 0;
    return this;
  }

  /** Adds a number; -0 is 0, and null is a number of its own that no length has. */
  add(value: number | null): this {
    if (this.size === this.numbers.length) {
      const larger = new Float64Array(this.size * 2);
      larger.set(this.numbers);
      this.numbers = larger;
    }
    this.numbers[this.size++] = value === null ? -Number.MAX_VALUE : value + 0;
    return this;
  }

  addAll(values: readonly number[]): this {
    for (const value of values) this.add(value);
    return this;
  }

  get length(): number {
    return this.size;
  }

  /** The filled part, only good until the next change. */
  view(): Float64Array {
    return this.numbers.subarray(0, this.size);
  }
}

interface Entry<V> {
  readonly numbers: Float64Array;
  readonly value: V;
  used: number;
}

/** So much more than a car needs is kept: a share of that, and a few more. Then what is too much is dropped. */
const SHARE = 0.25;
const SPARE = 64;

/**
 * Values by their numbers. What was asked for longest ago is dropped once far more is kept than a car needs: whoever
 * uses a value on and on holds it himself and does not ask again.
 */
export class Memo<V> {
  private readonly entries = new Map<number, Entry<V>[]>();
  private readonly bits: Uint32Array;
  private readonly scratch: Float64Array;
  private round = 0;
  private total = 0;
  /** How often something had to be computed since the round began. */
  misses = 0;

  constructor() {
    this.scratch = new Float64Array(1);
    this.bits = new Uint32Array(this.scratch.buffer);
  }

  /** The value of these numbers, computed if it is not known. `make` must depend on nothing else. */
  get(key: NumberKey, make: () => V): V {
    const numbers = key.view();
    const hash = this.hash(numbers);
    const bucket = this.entries.get(hash);
    if (bucket !== undefined) {
      for (const entry of bucket) {
        if (same(entry.numbers, numbers)) {
          entry.used = this.round;
          return entry.value;
        }
      }
    }
    const kept = numbers.slice();
    this.misses += 1;
    const entry: Entry<V> = { numbers: kept, value: make(), used: this.round };
    this.total += 1;
    if (bucket === undefined) this.entries.set(hash, [entry]);
    else bucket.push(entry);
    return entry.value;
  }

  get size(): number {
    return this.total;
  }

  /** The same values in a memo of its own: what is asked of the one is nothing to the other. */
  copy(): Memo<V> {
    const copy = new Memo<V>();
    for (const [hash, bucket] of this.entries) {
      copy.entries.set(
        hash,
        bucket.map((entry) => ({ ...entry })),
      );
    }
    copy.round = this.round;
    copy.total = this.total;
    return copy;
  }

  /** Begins a round. */
  begin(): void {
    this.round += 1;
    this.misses = 0;
  }

  /** Ends a round; a car needs about `needed` of these values. */
  sweep(needed: number): void {
    if (this.total <= (1 + SHARE) * needed + SPARE) return;
    const all = [...this.entries.values()].flat().sort((a, b) => b.used - a.used);
    const dropped = new Set(all.slice(needed));
    this.total -= dropped.size;
    for (const [hash, bucket] of this.entries) {
      const left = bucket.filter((entry) => !dropped.has(entry));
      if (left.length === 0) this.entries.delete(hash);
      else if (left.length < bucket.length) this.entries.set(hash, left);
    }
  }

  /** FNV-1a over the halves of the numbers, two lanes, 53 bits. */
  private hash(numbers: Float64Array): number {
    let a = 0x811c9dc5;
    let b = 0x01000193;
    const bits = this.bits;
    for (let i = 0; i < numbers.length; i++) {
      this.scratch[0] = numbers[i] as number;
      const low = bits[0] as number;
      const high = bits[1] as number;
      a = Math.imul(a ^ low, 0x01000193);
      a = Math.imul(a ^ (high ^ (a >>> 15)), 0x01000193);
      b = Math.imul(b ^ high, 0x85ebca6b);
      b = Math.imul(b ^ (low ^ (b >>> 13)), 0xc2b2ae35);
    }
    return (a >>> 0) * 0x200000 + ((b >>> 0) & 0x1fffff);
  }
}

function same(a: Float64Array, b: Float64Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
