/** Whether a change is good: the finding is gone, no new one has come, and none that was there got worse. */
import type { PlacedFinding } from '../../../grammar/finding';
import type { Analysis } from '../../project/project';
import { outside } from './meter';

/** Figures closer than this, in their own units, are the same. */
const SAME = 1e-6;
/** By this share of what it is off already a warning may come to be farther off: it is broken as it was. */
const LITTLE = 0.1;

/** Twins are counted together: whether they are told as one hangs on whether their figures agree. */
const bare = (text: string): string => text.replace(/\.(left|right)\b/g, '');

/** Code, subject, book, and the names in its sentence: what makes two findings of two cars the same one. */
function keyOf({ code, subject, rule, params }: PlacedFinding, names: ReadonlySet<string>): string {
  const told = Object.entries(params)
    .filter(([, value]) => typeof value === 'string' && names.has(value))
    .map(([name, value]) => `${name}=${bare(String(value))}`);
  return [code, bare(subject), rule?.book ?? '', ...told.sort()].join('\n');
}

const namesOf = ({ cage }: Analysis): ReadonlySet<string> =>
  new Set([...[...cage.things.values()].flatMap(({ name, base }) => [name, base]), 'first', 'last']);

interface Standing {
  count: number;
  /** The farthest outside its limit; null where that is not known, or where it is told for information only. */
  worst: number | null;
  /** True where one of them is an error. */
  error: boolean;
}

function standing(analysis: Analysis, names: ReadonlySet<string>): ReadonlyMap<string, Standing> {
  const map = new Map<string, Standing>();
  const put = (key: string, finding: PlacedFinding): void => {
    const far = finding.severity === 'information' ? null : outside(finding);
    const old = map.get(key);
    if (old === undefined) map.set(key, { count: 1, worst: far, error: finding.severity === 'error' });
    else {
      old.count += 1;
      old.error ||= finding.severity === 'error';
      old.worst = old.worst === null || far === null ? null : Math.max(old.worst, far);
    }
  };
  for (const finding of analysis.findings) {
    if (finding.waived) continue;
    const key = keyOf(finding, names);
    put(key, finding);
    // One finding that speaks for both twins is two.
    if (finding.params['bothSides'] === 'yes') put(key, finding);
  }
  return map;
}

export interface Verdict {
  /** The finding is gone, no new one has come, and none got worse. */
  readonly good: boolean;
  /** Those that are new. */
  readonly fresh: readonly PlacedFinding[];
  /** True where going on in the same direction cannot help. */
  readonly hopeless: boolean;
  /** Keys of those that got worse. */
  readonly worse: readonly string[];
}

/** What stood before, kept for several tries. */
export class Verifier {
  private readonly names: ReadonlySet<string>;
  private readonly before: ReadonlyMap<string, Standing>;

  constructor(
    analysis: Analysis,
    private readonly finding: PlacedFinding,
  ) {
    this.names = namesOf(analysis);
    this.before = standing(analysis, this.names);
  }

  /** What a change does to the list of findings. */
  look(after: Analysis): Verdict {
    const { names } = this;
    const now = standing(after, namesOf(after));
    const key = keyOf(this.finding, names);
    const own = this.before.get(key)?.count ?? 0;
    const told = this.finding.params['bothSides'] === 'yes' ? 2 : 1;
    const gone = (now.get(key)?.count ?? 0) <= own - told;
    const fresh = new Set<string>();
    const worse: string[] = [];
    for (const [name, { count, worst }] of now) {
      const was = this.before.get(name);
      if (was === undefined || count > was.count) fresh.add(name);
      else if (worst !== null && was.worst !== null && worst > was.worst * (1 + (was.error ? 0 : LITTLE)) + SAME)
        worse.push(name);
    }
    const list = after.findings.filter((one) => fresh.has(keyOf(one, names)));
    return {
      good: gone && fresh.size === 0 && worse.length === 0,
      fresh: list,
      hopeless: !gone || worse.length > 0,
      worse,
    };
  }
}
