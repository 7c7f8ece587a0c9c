/**
 * Fixes that solve: the number in the text that really governs a finding is changed until the real geometry meets the
 * limit, by as little as possible, and only offered where no other rule is broken by it.
 */
import type { PlacedFinding } from '../../../grammar/finding';
import type { Analysis } from '../../project/project';
import type { TextEdit } from '../fix';
import type { Rung } from './ladder';
import { rungsFor } from './ladder';
import { meterAt, meterFor } from './meter';
import type { Probed, Purse } from './search';
import { probe, pushOn, search } from './search';
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

/** True where a number may mend it. What is missing or counted is mended by another thing, but for the bolts of a foot. */
const mayBeSolved = ({ code, waived, measured, params }: PlacedFinding): boolean =>
  !waived &&
  !OF_TEXT.test(code) &&
  !code.endsWith('.missing') &&
  (measured?.unit !== '1' || typeof params['foot'] === 'string');

/**
 * Solves one finding. A generator, so that whoever is asked can look up between two readings and give up; it yields
 * nothing of worth. Gives at most `most` ways to mend it, the one that moves least first; empty where no one number does.
 */
export function* solving(
  finding: PlacedFinding,
  analysis: Analysis,
  most = MOST_OFFERS,
): Generator<void, readonly Solved[]> {
  if (!mayBeSolved(finding)) return [];
  const trial = new Trial(analysis);
  const rungs = rungsFor(finding, analysis);
  if (rungs.length > 0) return yield* climbing(rungs, trial, finding);
  const { knobs } = new Scope(analysis, finding);
  if (knobs.length === 0) return [];
  const meter = meterFor(trial, finding);
  yield;
  const purse: Purse = { left: PURSE };
  let verifier: Verifier | null = null;
  const solved: Solved[] = [];
  // What stands nearer to the finding is tried first: a strap is mended at its bar, not by another hoop.
  for (const far of [...new Set(knobs.map((knob) => knob.far))].sort((a, b) => a - b)) {
    const probed: Probed[] = [];
    for (const knob of knobs.filter((one) => one.far === far).slice(0, MOST_PROBES)) {
      if (purse.left <= 0) break;
      const tried = probe(trial, meter, knob, purse);
      if (tried !== null && Number.isFinite(tried.cost)) probed.push(tried);
      yield;
    }
    probed.sort((a, b) => a.cost - b.cost);
    for (const one of probed.slice(0, MOST_SEARCHES)) {
      if (purse.left <= 0 || solved.length >= most) break;
      let solution = search(meter, one, purse);
      yield;
      // Where a change brings another finding, it may go by going on.
      for (let tries = 0; solution !== null && tries < MOST_TRIES; tries++) {
        const { edits } = solution;
        const after = trial.whole(edits);
        purse.left -= VERIFYING;
        yield;
        verifier ??= new Verifier(analysis, finding);
        const { good, fresh, hopeless } = verifier.look(after);
        const moved = trial.moved(after.cage);
        if (good) {
          solved.push({ title: titleOf(analysis, after, finding, solution, moved), edits });
          break;
        }
        const [other] = fresh;
        // One way is enough to go so far for.
        if (hopeless || other === undefined || fresh.length > MOST_FRESH || solved.length > 0) break;
        if (tries === 0) purse.left = Math.max(purse.left, FOLLOWING);
        solution = pushOn(meter, meterAt(trial, other, edits), solution, moved, purse);
        yield;
      }
    }
    if (solved.length > 0) break;
  }
  return solved;
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
