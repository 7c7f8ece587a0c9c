/** How far a finding is from being mended, read again and again while a number is changed. */
import type { PlacedFinding } from '../../../grammar/finding';
import type { Cage } from '../../cage/cage';
import type { Assessment } from '../../rules/assess';
import { assess, targetOf } from '../../rules/assess';
import { Car } from '../../rules/car';
import { booksOf } from '../../rules/judge';
import { isMissing } from '../../rules/rule';
import type { Rule } from '../../rules/rule';
import { RULES } from '../../rules/rules';
import type { Analysis } from '../../project/project';
import type { TextEdit } from '../fix';
import { sketchOf } from './sketch';
import type { Trial } from './trial';

export interface Read {
  /** True where no book has anything to say of it any more. */
  readonly gone: boolean;
  /** By how much it is broken, in the finding's unit; not positive: met by so much. Null: it cannot be read there. */
  readonly excess: number | null;
}

export interface Meter {
  /** How dear one reading is, in quick readings. */
  readonly price: number;
  /** The excess as it is written. */
  readonly start: number | null;
  readonly read: (edits: readonly TextEdit[]) => Read;
  /** Of a cage that is built already. */
  readonly readCage: (cage: Cage) => Read;
}

const UNREAD: Read = { gone: false, excess: null };
const SAME = 1e-6;

/** Parameters that tell one reading of a thing from another of the same thing. */
const TELLING = [
  ...['end', 'which', 'where', 'host', 'other', 'side', 'diagonal', 'hoop', 'tube', 'bolt', 'first', 'second'],
  ...['a', 'b', 'child', 'node', 'nodes'],
] as const;

const bare = (text: string): string => text.replace(/\.(left|right)\b/g, '');

/** True where a reading or a finding is about the same as that finding; of one that speaks for both twins, either of them. */
export function sameMatter(
  one: Pick<PlacedFinding, 'subject' | 'params'>,
  finding: Pick<PlacedFinding, 'subject' | 'params'>,
): boolean {
  const say = finding.params['bothSides'] === 'yes' ? bare : (text: string): string => text;
  return (
    say(one.subject) === say(finding.subject) &&
    TELLING.every((name) => say(String(one.params[name] ?? '')) === say(String(finding.params[name] ?? '')))
  );
}

/**
 * By how much a figure is outside what is allowed; 0 inside, null where nothing is measured. Where nothing at all is
 * allowed (an overlap, an overhang) all of the figure is too much.
 */
export function outside({ measured, allowed }: Pick<PlacedFinding, 'measured' | 'allowed'>): number | null {
  if (measured === undefined) return null;
  const { value } = measured;
  if (allowed === undefined) return Math.abs(value);
  const under = allowed.from === null ? 0 : allowed.from - value;
  const over = allowed.to === null ? 0 : value - allowed.to;
  return Math.max(0, under, over);
}

const ruleOf = (finding: PlacedFinding): Rule | undefined => RULES.find(({ code }) => code === finding.code);

/** The assessments of one thing by one rule, over all chosen books. */
function assessed(cage: Cage, shape: Analysis['shape'], rule: Rule, finding: PlacedFinding): readonly Assessment[] {
  return assess(new Car(cage, shape), booksOf(cage), [rule]).filter(
    ({ item }) =>
      !isMissing(item) && sameMatter({ subject: item.subject, params: { ...finding.params, ...item.params } }, finding),
  );
}

/**
 * Reads one rule on the sketch; null where the finding is no rule's, or the sketch does not give the figure that was told.
 * @param edits what was changed when it was told
 */
function ruleMeter(trial: Trial, finding: PlacedFinding, edits: readonly TextEdit[] = []): Meter | null {
  const rule = ruleOf(finding);
  if (rule === undefined || finding.measured === undefined) return null;
  const { analysis } = trial;
  const cage = trial.cage(edits);
  const base = assessed(cage, sketchOf(cage, analysis.shape), rule, finding);
  const broken = base.filter(({ verdict }) => verdict.kind === 'broken');
  const own = broken.find(({ book }) => book.name === finding.rule?.book);
  if (own === undefined || own.verdict.kind !== 'broken') return null;
  if (Math.abs(own.verdict.decision.measured.value - finding.measured.value) > SAME) return null;
  const { low } = own.verdict.decision;
  const targets = broken.flatMap((one) => targetOf(one) ?? []);
  const target = targets.length === 0 ? null : low ? Math.max(...targets) : Math.min(...targets);
  const readCage = (cage: Cage): Read => {
    const now = assessed(cage, sketchOf(cage, analysis.shape), rule, finding);
    const first = now[0];
    if (first === undefined || isMissing(first.item)) return UNREAD;
    const worst = now.find(({ verdict }) => verdict.kind === 'broken')?.verdict;
    const value = worst?.kind === 'broken' ? worst.decision.measured.value : first.item.measured.value;
    const excess = target === null ? null : low ? target - value : value - target;
    return { gone: worst === undefined, excess };
  };
  const { value } = own.verdict.decision.measured;
  const start = target === null ? null : low ? target - value : value - target;
  return { price: 1, start, readCage, read: (changed) => readCage(trial.cage(changed)) };
}

type Told = Pick<PlacedFinding, 'code' | 'subject' | 'params' | 'measured' | 'allowed'>;

function readTold(findings: readonly Told[], finding: PlacedFinding): Read {
  const left = findings.filter((one) => one.code === finding.code && sameMatter(one, finding));
  if (left.length === 0) return { gone: true, excess: 0 };
  const far = left.map(outside);
  return { gone: false, excess: far.some((one) => one === null) ? null : Math.max(...far.map((one) => one ?? 0)) };
}

/** Reads what is told of straps, bends and names, on the sketch; null where it is not told there. */
function toldMeter(trial: Trial, finding: PlacedFinding): Meter | null {
  const { shape } = trial.analysis;
  const readCage = (cage: Cage): Read => readTold(sketchOf(cage, shape).findings, finding);
  const base = readCage(trial.cage([]));
  if (base.gone) return null;
  return { price: 1, start: base.excess, readCage, read: (edits) => readCage(trial.cage(edits)) };
}

/** The whole car costs so many quick readings. */
const WHOLE_PRICE = 8;

/** What a rule finds broken in the whole shape, or what the shape tells by itself. */
function toldOf({ cage, shape }: Pick<Analysis, 'cage' | 'shape'>, finding: PlacedFinding): readonly Told[] {
  const rule = ruleOf(finding);
  if (rule === undefined) return [...cage.findings, ...shape.findings];
  return assessed(cage, shape, rule, finding).flatMap(({ item, verdict }): readonly Told[] => {
    if (verdict.kind !== 'broken' || isMissing(item)) return [];
    const { measured, from, to } = verdict.decision;
    const params = { ...finding.params, ...item.params };
    return [{ code: rule.code, subject: item.subject, params, measured, allowed: { from, to, unit: measured.unit } }];
  });
}

/** Reads the whole car. */
export const wholeMeter = (trial: Trial, finding: PlacedFinding): Meter => {
  const read = (edits: readonly TextEdit[]): Read => readTold(toldOf(trial.shape(edits), finding), finding);
  return { price: WHOLE_PRICE, start: outside(finding), read, readCage: () => UNREAD };
};

/** The cheapest way to read a finding again. */
export const meterFor = (trial: Trial, finding: PlacedFinding): Meter =>
  ruleMeter(trial, finding) ?? toldMeter(trial, finding) ?? wholeMeter(trial, finding);

/** The same for a finding that is told of a changed car only. */
export const meterAt = (trial: Trial, finding: PlacedFinding, edits: readonly TextEdit[]): Meter =>
  ruleMeter(trial, finding, edits) ?? wholeMeter(trial, finding);
