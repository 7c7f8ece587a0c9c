/**
 * What was worked out of a car is kept together with what it was worked out from, and worked out again only where
 * that has changed. Nobody has to say what a figure hangs on: whatever is asked while it is worked out is noted.
 */

import { sameItems } from '../geometry/kept';

/** Something to be worked out: by a thing, of a world that answers questions. */
type Make<W> = (key: unknown, world: W) => unknown;

/** Tells whether two values say the same, so that whatever was made of the one holds for the other. */
export type Same = (a: unknown, b: unknown) => boolean;

const NOTHING: readonly Cell[] = [];

/** One value with the round in which it was last looked at, and the one in which it last became another. */
class Cell {
  value: unknown = undefined;
  seen = 0;
  changed = 0;
  /** The last list of needs in which it was noted. */
  noted = 0;
  /** What was asked while it was worked out, in that order; null: a fact, which is looked up anew in each round. */
  needs: readonly Cell[] | null = NOTHING;

  constructor(
    readonly make: Make<unknown>,
    readonly key: unknown,
    readonly same: Same,
  ) {}
}

/** How deep two values are compared: a list of readings, each with its parameters, each with its figure. */
const DEEP = 4;

/** True where two plain values say the same, as far as `deep`; from there on only where they are the same. */
export function alike(a: unknown, b: unknown, deep = DEEP): boolean {
  if (Object.is(a, b)) return true;
  if (deep === 0 || typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    for (let i = 0; i < a.length; i++) if (!alike(a[i], b[i], deep - 1)) return false;
    return true;
  }
  const plain: unknown = Object.getPrototypeOf(a);
  if (plain !== Object.prototype || Object.getPrototypeOf(b) !== plain) return false;
  const [one, two] = [a as Readonly<Record<string, unknown>>, b as Readonly<Record<string, unknown>>];
  const keys = Object.keys(one);
  return (
    keys.length === Object.keys(two).length &&
    keys.every((key) => Object.hasOwn(two, key) && alike(one[key], two[key], deep - 1))
  );
}

/** Lists by their items, which are the same only where they are the same objects. */
export const sameObjects: Same = (a, b) => Array.isArray(a) && Array.isArray(b) && sameItems(a, b);

/** The same items in the same order. */
const sameEntries = (a: ReadonlyMap<unknown, unknown>, b: ReadonlyMap<unknown, unknown>): boolean => {
  if (a.size !== b.size) return false;
  const others = b.entries();
  for (const [key, value] of a) {
    const next = others.next();
    if (next.done === true || next.value[0] !== key || next.value[1] !== value) return false;
  }
  return true;
};

/** Maps by their entries and the order of these, all else as plain values. */
export const sameValue: Same = (a, b) => (a instanceof Map && b instanceof Map ? sameEntries(a, b) : alike(a, b));

/** More cells than were needed by the last round's car: that share of them, and some. Then those not needed go. */
const SHARE = 0.25;
const SPARE = 256;

/**
 * Holds what was worked out of one car from one run to the next. Functions that are handed in are known by what they
 * are: they must stand in a module, and hang on nothing but the key and what they ask of the world.
 */
export class Memory<W extends object> {
  private readonly cells = new Map<unknown, Map<unknown, Cell>>();
  private world: W | null = null;
  private round = 0;
  private noting: Cell[] | null = null;
  private list = 0;
  private lists = 0;
  private total = 0;
  private swept = 0;
  private made = 0;

  /** Begins a round with the world as it is now. */
  begin(world: W): void {
    this.world = world;
    this.round += 1;
    this.noting = null;
    this.list = 0;
  }

  /** Ends a round, and lets go of the world and of what it did not need. */
  end(): void {
    this.world = null;
    this.noting = null;
    if (this.total <= (1 + SHARE) * this.swept + SPARE) return;
    for (const [make, cells] of this.cells) {
      for (const [key, cell] of cells) if (cell.seen !== this.round) cells.delete(key);
      if (cells.size === 0) this.cells.delete(make);
    }
    this.total = [...this.cells.values()].reduce((sum, cells) => sum + cells.size, 0);
    this.swept = this.total;
  }

  /** How many values are kept. */
  get size(): number {
    return this.total;
  }

  /** How often something was worked out since this was last asked; facts are only looked up. */
  takeMade(): number {
    const { made } = this;
    this.made = 0;
    return made;
  }

  /** What `make` gives for that key. */
  ask<K, V>(make: (key: K, world: W) => V, key: K, same: Same = sameValue): V {
    return this.value(make as Make<unknown>, key, same, NOTHING) as V;
  }

  /** A fact: looked up in each round, `same` tells whether it is another. What is asked meanwhile is nobody's need. */
  fact<K, V>(look: (key: K, world: W) => V, key: K, same: Same = Object.is): V {
    return this.value(look as Make<unknown>, key, same, null) as V;
  }

  private value(make: Make<unknown>, key: unknown, same: Same, needs: readonly Cell[] | null): unknown {
    let cells = this.cells.get(make);
    if (cells === undefined) {
      cells = new Map();
      this.cells.set(make, cells);
    }
    let cell = cells.get(key);
    if (cell === undefined) {
      cell = new Cell(make, key, same);
      cell.needs = needs;
      cells.set(key, cell);
      this.total += 1;
    }
    this.refresh(cell);
    if (this.noting !== null && cell.noted !== this.list) {
      cell.noted = this.list;
      this.noting.push(cell);
    }
    return cell.value;
  }

  /** Brings a cell up to this round. */
  private refresh(cell: Cell): void {
    if (cell.seen === this.round) return;
    const { noting, list } = this;
    if (cell.needs === null) {
      this.noting = null;
      this.put(cell, cell.make(cell.key, this.world));
      this.noting = noting;
      return;
    }
    if (cell.seen !== 0) {
      // In the order in which they were asked: what comes after one that has changed may not be asked any more.
      let still = true;
      for (const need of cell.needs) {
        this.refresh(need);
        if (need.changed > cell.seen) {
          still = false;
          break;
        }
      }
      if (still) {
        cell.seen = this.round;
        return;
      }
    }
    const needs: Cell[] = [];
    this.noting = needs;
    this.lists += 1;
    this.list = this.lists;
    const value = cell.make(cell.key, this.world);
    this.noting = noting;
    this.list = list;
    cell.needs = needs.length === 0 ? NOTHING : needs;
    this.made += 1;
    this.put(cell, value);
  }

  private put(cell: Cell, value: unknown): void {
    if (cell.seen === 0 || !cell.same(cell.value, value)) {
      cell.value = value;
      cell.changed = this.round;
    }
    cell.seen = this.round;
  }
}
