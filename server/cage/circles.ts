/** Names that hang on themselves: the shortest way round, told from the name that comes first in the alphabet. */
import type { Definition } from './names';
import type { PathNode } from './solved';

export interface CircleFinding {
  /** `a -> b -> a`. */
  readonly links: string;
  /** Where it is told. */
  readonly first: Definition;
  readonly notes: readonly { readonly at: Definition; readonly message: string }[];
}

/** A sentence holds no more links than this. */
const MOST_LINKS = 12;

const compare = (a: Definition, b: Definition): number => {
  const [p, q] = [`${a.name} ${a.kind} ${a.scope.file}`, `${b.name} ${b.kind} ${b.scope.file}`];
  return p < q ? -1 : p > q ? 1 : 0;
};

/**
 * One finding for each set of names that hang on each other. Both twins of a circle are one.
 * @param components what was found to hang on itself; the same definition may be in one twice, for its twin
 * @param hangsOn the definitions that a definition's text names
 */
export function circleFindings(
  components: readonly (readonly Definition[])[],
  hangsOn: (definition: Definition) => readonly Pick<PathNode, 'definition'>[],
): readonly CircleFinding[] {
  const told = new Set<string>();
  const findings: CircleFinding[] = [];
  for (const component of components) {
    const members = new Set(component);
    const first = [...members].sort(compare)[0];
    if (first === undefined) continue;
    const next = (d: Definition): readonly Definition[] =>
      [
        ...new Set(
          hangsOn(d)
            .map(({ definition }) => definition)
            .filter((other) => members.has(other)),
        ),
      ].sort(compare);
    const way = shortestRound(first, next);
    const key = way.map((d) => `${d.kind} ${d.name} ${d.scope.file}`).join();
    if (told.has(key)) continue;
    told.add(key);
    const shown = way.length <= MOST_LINKS ? way : way.slice(0, MOST_LINKS - 1);
    const names = shown.map((d) => d.name);
    if (shown.length < way.length) names.push(`… (${String(way.length)} in all)`);
    findings.push({
      links: [...names, first.name].join(' -> '),
      first,
      notes: shown.slice(1).map((d, i) => ({ at: d, message: `'${shown[i]?.name ?? ''}' hangs on '${d.name}'.` })),
    });
  }
  return findings;
}

/** The shortest way from a definition back to itself, without the return; breadth first. */
function shortestRound(first: Definition, next: (d: Definition) => readonly Definition[]): readonly Definition[] {
  const from = new Map<Definition, Definition | null>([[first, null]]);
  const queue = [first];
  for (let head = 0; head < queue.length; head++) {
    const here = queue[head] as Definition;
    for (const there of next(here)) {
      if (there === first) {
        const way: Definition[] = [];
        for (let d: Definition | null = here; d !== null; d = from.get(d) ?? null) way.push(d);
        return way.reverse();
      }
      if (from.has(there)) continue;
      from.set(there, here);
      queue.push(there);
    }
  }
  return [first];
}
