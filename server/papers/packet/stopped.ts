/** Parts that must not be cut yet, told together where the reason is the same. */
import type { PacketInput } from './paper';

export interface Stopped {
  /** Labels, in the order of the numbers. */
  readonly labels: readonly string[];
  /** With the place of the error and its code. */
  readonly why: string;
}

export function stoppedParts({ numbers, touched, placeOf }: PacketInput): readonly Stopped[] {
  const reasons = new Map<string, string[]>();
  for (const { label, name } of numbers.values()) {
    const by = touched.get(name);
    if (by === undefined) continue;
    const why = `${by.why} (${placeOf(by.finding)}, ${by.finding.code})`;
    reasons.set(why, [...(reasons.get(why) ?? []), label]);
  }
  return [...reasons].map(([why, labels]) => ({ labels, why }));
}
