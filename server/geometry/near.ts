/** Finds things near points and boxes. Things may be exchanged: the few that have changed are kept beside the tree. */
import type { Box } from './boxes';
import { BoxTree } from './boxes';

/** So many boxes beside the tree are looked at one by one before the tree is built anew. */
const ASIDE = 300;

export class Near<T> {
  private tree = new BoxTree([]);
  private owners: T[] = [];
  /** What stands in the tree, and what of that is not here any more. Nothing else that is gone is held. */
  private planted = new Set<T>();
  private gone = new Set<T>();
  private aside: { readonly box: Box; readonly owner: T }[] = [];
  /** The greatest coordinate of any box that there was since the tree was built, without its sign. */
  farthest = 0;

  /** @param boxesOf the boxes of a thing, always the same for the same thing */
  constructor(
    all: Iterable<T>,
    private readonly boxesOf: (thing: T) => readonly Box[],
  ) {
    this.build(all);
  }

  private build(all: Iterable<T>): void {
    const boxes: Box[] = [];
    this.owners = [];
    this.gone = new Set();
    this.aside = [];
    this.farthest = 0;
    for (const thing of all) {
      for (const box of this.boxesOf(thing)) {
        boxes.push(box);
        this.owners.push(thing);
        this.widen(box);
      }
    }
    this.tree = new BoxTree(boxes);
    this.planted = new Set(this.owners);
  }

  private widen(box: Box): void {
    for (const c of box) this.farthest = Math.max(this.farthest, Math.abs(c));
  }

  /** From now on `all` are here: those of `gone` no more, those of `fresh` for the first time. */
  exchange(all: Iterable<T>, gone: readonly T[], fresh: readonly T[]): void {
    if (gone.length + fresh.length === 0) return;
    const left = new Set(gone);
    this.aside = this.aside.filter(({ owner }) => !left.has(owner));
    for (const thing of gone) if (this.planted.has(thing)) this.gone.add(thing);
    for (const owner of fresh) {
      for (const box of this.boxesOf(owner)) {
        this.aside.push({ box, owner });
        this.widen(box);
      }
    }
    if (this.aside.length > ASIDE || this.gone.size > ASIDE) this.build(all);
  }

  /** Things of which a box meets a box; in no order, each once. */
  inside(box: Box): Set<T> {
    const found = new Set<T>();
    this.tree.near(box, (index) => {
      const thing = this.owners[index];
      if (thing !== undefined && !this.gone.has(thing)) found.add(thing);
    });
    for (const other of this.aside) if (boxesMeet(other.box, box)) found.add(other.owner);
    return found;
  }
}

export const boxesMeet = (a: Box, b: Box): boolean =>
  a[0] <= b[3] && a[3] >= b[0] && a[1] <= b[4] && a[4] >= b[1] && a[2] <= b[5] && a[5] >= b[2];
