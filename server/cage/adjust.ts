/** `adjust NODE by (…)`: moves of nodes, after everything that placed them. */
import { triple } from './evaluate';
import type { FactReader } from './facts';
import type { Census, Definition } from './names';
import { nameOn } from './names';
import type { Adjustment } from './solve';

/** The moves of each node. Several moves of one node add up. */
export function adjustmentsFrom(census: Census, facts: FactReader): ReadonlyMap<Definition, readonly Adjustment[]> {
  const adjustments = new Map<Definition, Adjustment[]>();
  for (const written of census.written) {
    if (written.kind !== 'adjust' || written.inMirror) continue;
    const target = facts.target(written, '', 'node');
    const move = facts.one(written, '', 'move')?.arg;
    if (target === null || move?.kind !== 'tuple') continue;
    const { definition, side } = target;
    const adjustment: Adjustment = {
      side,
      needs: written.needs.filter((need) => need !== target),
      move: (from, reading) =>
        triple(move, { ...reading, scope: written.scope, subject: nameOn(definition, side) }, from),
    };
    // What the move hangs on moves the node.
    for (const need of adjustment.needs) need.definition.users.push(definition);
    const list = adjustments.get(definition);
    if (list === undefined) adjustments.set(definition, [adjustment]);
    else list.push(adjustment);
  }
  return adjustments;
}
