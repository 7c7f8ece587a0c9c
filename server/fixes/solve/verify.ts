/** Whether a change is good: the finding is gone, no new one has come, and none that was there got worse. */
import type { PlacedFinding } from '../../../grammar/finding';
import type { Analysis } from '../../project/project';
import { outside } from './meter';

/** Figures closer than this, in their own units, are the same. */
const SAME = 1e-6;

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
}

function standing(analysis: Analysis): ReadonlyMap<string, Standing> {
  const names = namesOf(analysis);
  const map = new Map<string, Standing>();
  const put = (key: string, finding: PlacedFinding): void => {
    const far = finding.severity === 'information' ? null : outside(finding);
    const old = map.get(key);
    if (old === undefined) map.set(key, { count: 1, worst: far });
    else {
      old.count += 1;
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

/** What stood before, kept for several tries. */
export class Verifier {
  private readonly before: ReadonlyMap<string, Standing>;

  constructor(
    private readonly analysis: Analysis,
    private readonly finding: PlacedFinding,
  ) {
    this.before = standing(analysis);
  }

  /** True where the changed car has lost the finding, and gained none. */
  good(after: Analysis): boolean {
    const now = standing(after);
    const key = keyOf(this.finding, namesOf(this.analysis));
    const own = this.before.get(key)?.count ?? 0;
    const told = this.finding.params['bothSides'] === 'yes' ? 2 : 1;
    if ((now.get(key)?.count ?? 0) > own - told) return false;
    for (const [name, { count, worst }] of now) {
      const was = this.before.get(name);
      if (was === undefined || count > was.count) return false;
      if (worst !== null && was.worst !== null && worst > was.worst + SAME) return false;
    }
    return true;
  }
}
