/** Tubes that are made in one go: twins, and the pieces of one split tube, unless one of them is cut to another. */
import type { Part } from '../../geometry/shape';

export interface Job {
  /** Name of its first part: no two jobs share a part. */
  readonly key: string;
  readonly parts: readonly Part[];
}

const alone = (part: Part): Job => ({ key: part.name, parts: [part] });

/** True where `from` has to wait for `to`, be it by way of others. */
function waitsFor(from: Part, to: Part, hostsOf: (part: Part) => readonly Part[]): boolean {
  const seen = new Set([from]);
  for (const part of seen)
    for (const host of hostsOf(part)) {
      if (host === to) return true;
      seen.add(host);
    }
  return false;
}

/** In the order of `made`. `together`: false keeps every part by itself. */
export function jobsOf(
  made: readonly Part[],
  hostsOf: (part: Part) => readonly Part[],
  together: boolean,
): readonly Job[] {
  if (!together) return made.map(alone);
  const byBase = new Map<string, Part[]>();
  for (const part of made) byBase.set(part.tube.base, [...(byBase.get(part.tube.base) ?? []), part]);
  return [...byBase.values()].flatMap((parts) =>
    parts.some((a) => parts.some((b) => a !== b && waitsFor(a, b, hostsOf)))
      ? parts.map(alone)
      : [{ key: parts[0]?.name ?? '', parts }],
  );
}
