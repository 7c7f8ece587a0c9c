/** Steps that wait for one another, put in order. Nothing here knows what a cage is. */

/** That `on` must be done first, and why: in words, for whoever has the list in hand. */
export interface Need {
  readonly on: string;
  readonly why: string;
}

export interface Step {
  readonly id: string;
  readonly does: string;
  /** Under which heading it stands. */
  readonly group: string;
  readonly needs: readonly Need[];
}

/** One link of a circle: `step` waits for `on`. */
export interface Link {
  readonly step: string;
  readonly on: string;
  readonly why: string;
}

export interface Sorted<T extends Step = Step> {
  /** Every step whose needs can all be met, each after everything that it needs. */
  readonly order: readonly T[];
  /** Circles of steps that wait for one another, each as its links, head to tail. */
  readonly cycles: readonly (readonly Link[])[];
  /** Steps that are in a circle or wait behind one, in the order in which they were given. */
  readonly stuck: readonly T[];
}

/** Needs that name no step of the list ask for nothing; of two steps with one id the first counts. */
function known<T extends Step>(steps: readonly T[]): ReadonlyMap<string, T> {
  const byId = new Map<string, T>();
  for (const step of steps) if (!byId.has(step.id)) byId.set(step.id, step);
  return byId;
}

/** The first circle that is met from each step still stuck; a step is told in one circle at most. */
function cyclesOf(stuck: ReadonlyMap<string, Step>): readonly (readonly Link[])[] {
  const cycles: (readonly Link[])[] = [];
  const done = new Set<string>();
  for (const start of stuck.keys()) {
    // Every stuck step waits for a stuck step, so that following the first of them must come round.
    const path: Link[] = [];
    const at = new Map<string, number>();
    let id = start;
    while (!done.has(id) && !at.has(id)) {
      at.set(id, path.length);
      const need = stuck.get(id)?.needs.find(({ on }) => stuck.has(on));
      if (need === undefined) break;
      path.push({ step: id, on: need.on, why: need.why });
      id = need.on;
    }
    const from = at.get(id);
    if (from !== undefined && path.length > from) cycles.push(path.slice(from));
    for (const { step } of path) done.add(step);
    done.add(start);
  }
  return cycles;
}

/** A binary heap of places, the least first. */
class Least {
  private readonly heap: number[] = [];

  push(value: number): void {
    const { heap } = this;
    let i = heap.push(value) - 1;
    while (i > 0) {
      const up = (i - 1) >> 1;
      const [mine, above] = [heap[i] ?? 0, heap[up] ?? 0];
      if (above <= mine) return;
      [heap[i], heap[up]] = [above, mine];
      i = up;
    }
  }

  pop(): number | undefined {
    const { heap } = this;
    const top = heap[0];
    const last = heap.pop();
    if (top === undefined || last === undefined || heap.length === 0) return top;
    heap[0] = last;
    for (let i = 0; ;) {
      const [l, r] = [2 * i + 1, 2 * i + 2];
      const small = r < heap.length && (heap[r] ?? 0) < (heap[l] ?? 0) ? r : l;
      if (small >= heap.length || (heap[small] ?? 0) >= (heap[i] ?? 0)) return top;
      [heap[i], heap[small]] = [heap[small] ?? 0, heap[i] ?? 0];
      i = small;
    }
  }
}

/**
 * Topological order by Kahn's algorithm (Communications of the ACM 5, 1962), stable: of the steps that are free, the one
 * given first is done first.
 */
export function sortSteps<T extends Step>(steps: readonly T[]): Sorted<T> {
  const byId = known(steps);
  const all = [...byId.values()];
  const place = new Map(all.map(({ id }, i) => [id, i]));
  const waits = all.map(({ needs }) => new Set(needs.flatMap(({ on }) => (byId.has(on) ? [on] : []))));
  const after: number[][] = all.map(() => []);
  waits.forEach((on, i) => {
    for (const id of on) after[place.get(id) ?? -1]?.push(i);
  });
  const open = waits.map(({ size }) => size);
  const free = new Least();
  open.forEach((count, i) => {
    if (count === 0) free.push(i);
  });
  const order: T[] = [];
  for (let i = free.pop(); i !== undefined; i = free.pop()) {
    const step = all[i];
    if (step !== undefined) order.push(step);
    for (const next of after[i] ?? []) {
      const left = (open[next] ?? 0) - 1;
      open[next] = left;
      if (left === 0) free.push(next);
    }
  }
  const sorted = new Set(order.map(({ id }) => id));
  const stuck = all.filter(({ id }) => !sorted.has(id));
  return { order, stuck, cycles: cyclesOf(new Map(stuck.map((step) => [step.id, step]))) };
}

/**
 * For each step of a sorted order its needs without those that another of them waits for anyway. What is left asks for the
 * same order (a transitive reduction: Aho, Garey and Ullman, SIAM Journal on Computing 1, 1972).
 */
export function shortNeeds(order: readonly Step[]): ReadonlyMap<string, readonly Need[]> {
  const place = new Map(order.map(({ id }, i) => [id, i]));
  // Of each step, all that it waits for by way of others, as places.
  const behind: ReadonlySet<number>[] = [];
  return new Map(
    order.map(({ id, needs }): [string, readonly Need[]] => {
      const known = needs.flatMap((one) => {
        const at = place.get(one.on);
        return at === undefined || behind[at] === undefined ? [] : [{ one, at }];
      });
      const farther = new Set(known.flatMap(({ at }) => [...(behind[at] ?? [])]));
      behind.push(new Set([...farther, ...known.map(({ at }) => at)]));
      return [id, known.filter(({ at }) => !farther.has(at)).map(({ one }) => one)];
    }),
  );
}
