/**
 * Fixes that solve: the number in the text that really governs a finding is changed until the real geometry meets the
 * limit, by as little as possible, and only offered where no other rule is broken by it.
 */
import type { PlacedFinding } from '../../../grammar/finding';
import type { Analysis } from '../../project/project';
import { thingOf } from '../edit';
import type { TextEdit } from '../fix';
import type { Rung } from './ladder';
import { rungsFor } from './ladder';
import type { Meter } from './meter';
import { meterAt, meterFor, wholeMeter } from './meter';
import type { Probed, Purse } from './search';
import { probe, pushOn, search } from './search';
import type { Knob } from './scope';
import { Scope } from './scope';
import { titleOf, withReading } from './title';
import { Trial } from './trial';
import { Verifier } from './verify';

export interface Solved {
  readonly title: string;
  readonly edits: readonly TextEdit[];
}

/** What one finding may cost, in quick readings of a changed car (about two milliseconds each for a car of forty tubes). */
const PURSE = 64;
/** The same where each reading takes the whole car. */
const PURSE_OF_WHOLE = 100;
/** Verifying a change takes the whole car. */
const VERIFYING = 10;
const MOST_PROBES = 12;
const MOST_SEARCHES = 3;
/** A change that brings other findings is followed so often, at an expense of its own. */
const FOLLOWING = 40;
const MOST_TRIES = 4;
const MOST_FRESH = 4;
/** So many ways to mend it are offered. */
const MOST_OFFERS = 2;

/** Findings of what is written: there a number has not been read, or means nothing yet. */
const OF_TEXT = /^(syntax|name|use|unit|number|fact|kind|role|mirror|waive|rule)\./;

/** Choices that are told, and faults that are mended by another word or another place: a number would only hide them. */
const OF_FORM =
  /^(place\.|space\.|end\.loose|leg\.zero|cope\.order-guessed|tube\.past-length|bend\.(no-die|tiny|rotation-tiny)|foot\.no-tube|joint\.(crowded|no-ends|not-there)|vent\.(no-effect|outside-joint)|strap\.slot-edge)/;

/**
 * True where a number may mend it. What is missing, and tubes that are counted, are mended by another thing; what a book
 * accepts by its name, by another word.
 */
export function mayBeSolved(
  { code, waived, measured, allowed, subject, rule }: PlacedFinding,
  { cage }: Analysis,
): boolean {
  if (waived || OF_TEXT.test(code) || OF_FORM.test(code) || code.endsWith('.missing')) return false;
  if (measured?.unit !== '1') return true;
  if (rule !== undefined && allowed?.from === null && allowed.to === null) return false;
  if (!Number.isInteger(measured.value)) return true;
  const kind = thingOf(cage, subject)?.kind;
  return kind !== undefined && kind !== 'tube';
}

/**
 * Solves one finding. A generator, so that whoever is asked can look up between two readings and give up; it yields
 * nothing of worth. Gives at most `most` ways to mend it, the one that moves least first; empty where no one number does.
 */
export function* solving(
  finding: PlacedFinding,
  analysis: Analysis,
  most = MOST_OFFERS,
): Generator<void, readonly Solved[]> {
  if (!mayBeSolved(finding, analysis)) return [];
  const trial = new Trial(analysis);
  const rungs = rungsFor(finding, analysis);
  // Of a bolt that is written as a length the length is looked for, below.
  if (rungs !== null && rungs.length > 0) {
    const climbed = yield* climbing(rungs, trial, finding);
    if (climbed.length > 0 || thingOf(analysis.cage, finding.subject)?.kind === 'tube') return climbed;
  }
  const { knobs } = new Scope(analysis, finding);
  if (knobs.length === 0) return [];
  const meter = meterFor(trial, finding);
  yield;
  const job: Job = { trial, finding, most, verifier: new Verifier(analysis, finding), remarked: [] };
  const tiers = [...new Set(knobs.map(({ far }) => far))]
    .sort((one, other) => one - other)
    .map((far) => knobs.filter((knob) => knob.far === far).slice(0, MOST_PROBES));
  const purse: Purse = { left: PURSE };
  let hangs = false;
  // What stands nearer to the finding is tried first: a strap is mended at its bar, not by another hoop.
  for (const tier of tiers) {
    const probed = yield* probing(tier, trial, meter, purse);
    hangs ||= probed.length > 0;
    const solved = yield* searching(job, meter, probed, purse);
    if (solved.length > 0) return solved;
  }
  const [nearest] = tiers;
  if (hangs || meter.price > 1 || nearest === undefined) return job.remarked.slice(0, most);
  // The sketch shows no change at all: the figure hangs on how ends are cut, and takes the whole car.
  const whole = wholeMeter(trial, finding);
  const dear: Purse = { left: PURSE_OF_WHOLE };
  const solved = yield* searching(job, whole, yield* probing(nearest, trial, whole, dear), dear);
  return solved.length > 0 ? solved : job.remarked.slice(0, most);
}

/** What is to be mended, and by what it is verified. */
interface Job {
  readonly trial: Trial;
  readonly finding: PlacedFinding;
  readonly most: number;
  readonly verifier: Verifier;
  /** Ways that mend it and bring nothing but a remark: for want of better ones. */
  readonly remarked: Solved[];
}

/** What a change is remarked on for, behind the title. */
const withRemarks = (title: string, fresh: readonly PlacedFinding[]): string =>
  `${title}; then remarked: ${[...new Set(fresh.map(({ code, subject }) => `${code} on ${subject}`))].join(', ')}`;

/** Follows the numbers that move least, each until it mends, and verifies each on the whole car. */
function* searching(
  { trial, finding, most, verifier, remarked }: Job,
  meter: Meter,
  probed: readonly Probed[],
  purse: Purse,
): Generator<void, readonly Solved[]> {
  const solved: Solved[] = [];
  for (const one of [...probed].sort((a, b) => a.cost - b.cost).slice(0, MOST_SEARCHES)) {
    if (purse.left <= 0 || solved.length >= most) break;
    let solution = search(meter, one, purse);
    yield;
    // Where a change brings another finding, it may go by going on.
    for (let tries = 0; solution !== null && tries < MOST_TRIES; tries++) {
      const { edits } = solution;
      const after = trial.whole(edits);
      purse.left -= VERIFYING;
      yield;
      const { good, fresh, hopeless } = verifier.look(after);
      const moved = trial.moved(after.cage);
      if (good) {
        solved.push({ title: titleOf(trial.analysis, after, finding, solution, moved), edits });
        break;
      }
      const [other] = fresh;
      // A recommendation that is missed is no rule that is broken; what is a remark itself is not traded for another.
      const remarks = finding.severity !== 'information' && fresh.every(({ severity }) => severity === 'information');
      if (tries === 0 && remarks && !hopeless && other !== undefined) {
        const title = titleOf(trial.analysis, after, finding, solution, moved);
        remarked.push({ title: withRemarks(title, fresh), edits });
      }
      // One way is enough to go so far for.
      if (hopeless || other === undefined || fresh.length > MOST_FRESH || solved.length > 0) break;
      if (tries === 0) purse.left = Math.max(purse.left, FOLLOWING);
      solution = pushOn(meter, meterAt(trial, other, edits), solution, moved, purse);
      yield;
    }
  }
  return solved;
}

/** Tries each number once; those on which the finding hangs. */
function* probing(knobs: readonly Knob[], trial: Trial, meter: Meter, purse: Purse): Generator<void, Probed[]> {
  const probed: Probed[] = [];
  for (const knob of knobs) {
    if (purse.left <= 0) break;
    const tried = probe(trial, meter, knob, purse);
    if (tried !== null && Number.isFinite(tried.cost)) probed.push(tried);
    yield;
  }
  return probed;
}

/** The first size of a list that mends it and breaks nothing. */
function* climbing(rungs: readonly Rung[], trial: Trial, finding: PlacedFinding): Generator<void, readonly Solved[]> {
  const { analysis } = trial;
  const meter = meterFor(trial, finding);
  const verifier = new Verifier(analysis, finding);
  const enough = rungs.filter(({ edits }) => meter.price > 1 || meter.read(edits).gone);
  yield;
  for (const { doing, edits } of enough.slice(0, MOST_SEARCHES)) {
    const after = trial.whole(edits);
    yield;
    if (verifier.look(after).good) return [{ title: withReading(doing, after, finding), edits }];
  }
  return [];
}

/** {@link solving}, without a break. */
export function solve(finding: PlacedFinding, analysis: Analysis, most = MOST_OFFERS): readonly Solved[] {
  const steps = solving(finding, analysis, most);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}
