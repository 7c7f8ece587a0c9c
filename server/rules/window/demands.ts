/**
 * What the chosen books ask of the bar's place, as figures that can be followed: each limit on each figure of each strap and
 * seat, and by how much it is kept. Measures, limits and judgement are those of the rules; here is only the distance to a
 * limit.
 */
import type { Code, RuleCode } from '../../../grammar/codes';
import type { Allowed, Measure } from '../../../grammar/finding';
import type { Vec3 } from '../../centreline/vector';
import type { Assessment } from '../assess';
import { assessor, boundsFor, decide, holdsOn, slackOf } from '../assess';
import type { Car } from '../car';
import type { Book, Limit, Reading, Rule } from '../rule';
import { isMissing } from '../rule';
import { RULES } from '../rules';
import type { Setting } from './settings';
import type { Stage } from './stage';

/** The quantities that change when the bar is moved as it is, in side view. */
export const PLACE_CODES: ReadonlySet<RuleCode> = new Set<RuleCode>([
  'harness.diagonal',
  'seat.gap',
  'strap.bar-drop',
  'strap.crossing',
  'strap.drop',
  'strap.free-run',
  'strap.gap',
  'strap.length',
  'strap.shoulder-angle',
  'strap.shoulder-drop',
  'strap.shoulder-reach',
  'strap.skew',
  'strap.slider-seat',
  'strap.spacing',
  'strap.spacing-formula',
  'strap.spine',
  'strap.spread',
]);

const PLACE_RULES: readonly Rule[] = RULES.filter(({ code }) => PLACE_CODES.has(code));

/** Which of the rules about the bar's place the books ask for, and what judges by them and by nothing else. */
export function asksOf(books: readonly Book[]): { readonly codes: ReadonlySet<string>; readonly judge: Judge } {
  const slim = books.map((book) => ({ ...book, limits: book.limits.filter(({ code }) => PLACE_CODES.has(code)) }));
  const codes = new Set<string>(slim.flatMap(({ limits }) => limits.map(({ code }) => code)));
  return { codes, judge: assessor(slim, PLACE_RULES) };
}

/**
 * What a limit does: `required` ones make the window, also those from memory and of practice; recommendations make the
 * inner, preferred window; what a book only tells (information that is no recommendation) makes neither.
 */
export type Counts = 'required' | 'preferred' | 'told';

const countsOf = ({ force, severity }: Limit): Counts =>
  force === 'recommends' ? 'preferred' : severity === 'information' ? 'told' : 'required';

/** One limit on one figure of one thing, with the seat at one setting. */
export interface Demand {
  readonly key: string;
  readonly code: Code;
  /** Full name of the strap, the seat or the bar. */
  readonly subject: string;
  readonly seat: string | null;
  readonly setting: Setting | null;
  /** Null where no book says so, but the bar's nature: a strap has to reach it. */
  readonly limit: { readonly book: Book; readonly limit: Limit } | null;
  readonly counts: Counts;
  /** What it is judged with. */
  readonly stage: Stage;
  /** What is allowed here, in the JSON's units; null: it is no range. */
  readonly allowed: Allowed | null;
}

/** How a demand is kept at one place of the bar. */
export interface Level {
  readonly demand: Demand;
  /** By how much, in millimetres or what comes to about as much in the figure's own unit; below 0: it is broken. */
  readonly room: number;
  /** The same to the lower and to the upper bound: each changes evenly from place to place, their least has a ridge. */
  readonly sides: readonly number[];
  readonly measured: Measure | null;
  /**
   * Which straps lie on the edge of their slot here, as bits: from there they are measured anew, so that figures jump
   * where this changes, and nowhere else.
   */
  readonly branch: number;
}

/** A fact without which a limit cannot be judged. */
export interface Unknown {
  readonly subject: string;
  readonly code: Code;
  readonly book: string | null;
  readonly fact: string;
}

export interface Judged {
  readonly levels: readonly Level[];
  readonly unknown: readonly Unknown[];
}

/** So much of a run of usual length (230 mm) is a degree, mm: only for comparing rooms of different units. */
const MM_PER_DEGREE = 4;
/** What a strap without a way to the bar counts for. */
const NO_RUN = 1000;
/** A limit that is kept or broken without a figure to say by how much. */
const BY_WORD = 10;

type Rooms = Pick<Level, 'room' | 'sides'>;

/** The room to a limit: its sign is what the rule decides, its size the distance to the nearer bound. */
function roomOf(rule: Rule, limit: Limit, reading: Reading, car: Car): Rooms | null {
  const decision = decide(rule, limit, reading, car);
  if (decision.kind === 'unknown') return null;
  const { from, to } = boundsFor(limit, reading);
  const { value, unit } = reading.measured;
  const scale = unit === 'deg' ? MM_PER_DEGREE : 1;
  const slack = slackOf(rule, limit);
  const sides = [...(from === null ? [] : [value - from + slack]), ...(to === null ? [] : [to - value + slack])];
  const broken = decision.kind === 'broken';
  if (rule.decide !== undefined || sides.length === 0) {
    const room = broken ? -BY_WORD : BY_WORD;
    return { room, sides: [room] };
  }
  const scaled = sides.map((side) => side * scale);
  const room = Math.min(...scaled);
  return { room: broken ? Math.min(room, -1e-9) : Math.max(room, 0), sides: scaled };
}

const allowedIn = (limit: Limit, reading: Reading): Allowed | null => {
  const { from, to } = boundsFor(limit, reading);
  return from === null && to === null ? null : { from, to, unit: limit.allowed.unit };
};

const seatKey = ({ seat, setting }: Stage): string =>
  seat === null || setting === null ? '' : `${seat.name} ${String(setting.recline)} ${String(setting.slide)}`;

/** Makes demands, each once. */
export class Demands {
  private readonly made = new Map<Stage, Map<Limit | null, Map<string, Demand>>>();

  of(stage: Stage, code: Code, subject: string, limit: Demand['limit'], allowed: () => Demand['allowed']): Demand {
    const ofStage = this.made.get(stage) ?? new Map<Limit | null, Map<string, Demand>>();
    this.made.set(stage, ofStage);
    const own = limit?.limit ?? null;
    const ofLimit = ofStage.get(own) ?? new Map<string, Demand>();
    ofStage.set(own, ofLimit);
    const old = ofLimit.get(subject);
    if (old !== undefined) return old;
    const book = limit === null ? '' : `${limit.book.name} ${String(limit.book.limits.indexOf(limit.limit))}`;
    const demand: Demand = {
      key: `${code}|${subject}|${book}|${seatKey(stage)}`,
      code,
      subject,
      seat: stage.seat?.name ?? null,
      setting: stage.setting,
      stage,
      limit,
      counts: limit === null ? 'required' : countsOf(limit.limit),
      allowed: allowed(),
    };
    ofLimit.set(subject, demand);
    return demand;
  }
}

export type Judge = (car: Car) => readonly Assessment[];

/** Judges one stage with the bar moved by `by`. `judge`: by the books and rules that {@link asksOf} gives. */
export function judgeStage(stage: Stage, by: Vec3, judge: Judge, demands: Demands): Judged {
  const { car, runs } = stage.placed(by);
  const levels: Level[] = [];
  const unknown: Unknown[] = [];
  const branches = new Map<string, number>();
  let all = 0;
  for (const [i, { figures }] of runs.entries()) {
    const branch = figures.onLip ? 1 << (i % 30) : 0;
    branches.set(figures.name, branch);
    all |= branch;
  }
  const branchOf = (subject: string): number => branches.get(subject) ?? all;
  for (const { figures, miss } of runs) {
    if (figures.contact === null && miss === null) {
      const fact = 'how it runs to the bar is not known: see what is found in the file';
      unknown.push({ subject: figures.name, code: 'strap.misses-bar', book: null, fact });
      continue;
    }
    const demand = demands.of(stage, 'strap.misses-bar', figures.name, null, () => null);
    levels.push({
      demand,
      room: miss === null ? NO_RUN : -NO_RUN,
      sides: [miss === null ? NO_RUN : -NO_RUN],
      measured: null,
      branch: branchOf(figures.name),
    });
  }
  for (const assessment of judge(car)) {
    if (!stage.subjects.has(assessment.item.subject)) continue;
    judgeOne(assessment, stage, car, demands, branchOf(assessment.item.subject), levels, unknown);
  }
  return { levels, unknown };
}

function judgeOne(
  { rule, book, item, limits, verdict }: Assessment,
  stage: Stage,
  car: Car,
  demands: Demands,
  branch: number,
  levels: Level[],
  unknown: Unknown[],
): void {
  if (verdict.kind === 'unknown')
    unknown.push({ subject: item.subject, code: rule.code, book: book.name, fact: verdict.fact });
  if (isMissing(item)) return;
  const day = car.day();
  for (const limit of limits) {
    const dated = limit.since !== undefined || limit.before !== undefined;
    if (dated && (day === null || !holdsOn(limit, day))) continue;
    const rooms = roomOf(rule, limit, item, car);
    if (rooms === null) continue;
    const demand = demands.of(stage, rule.code, item.subject, { book, limit }, () => allowedIn(limit, item));
    levels.push({ demand, ...rooms, measured: item.measured, branch });
  }
}
