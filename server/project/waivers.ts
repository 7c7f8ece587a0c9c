/** Waivers: which findings they cover, which of them cover nothing, and which cannot be meant. */
import type { Code, CodeEntry } from '../../grammar/codes';
import { CODES } from '../../grammar/codes';
import type { Anchor, Finding, Measure, Params } from '../../grammar/finding';
import type { LengthUnit } from '../../grammar/units';
import { UNITS } from '../../grammar/units';
import type { Cage, Waiver } from '../cage/cage';

/** A finding with the waiver that covers it; null: none does. */
export interface Weighed {
  readonly finding: Finding;
  readonly waiver: Waiver | null;
}

export interface WaiverResult {
  readonly weighed: readonly Weighed[];
  /** What is to be said about the waivers themselves. */
  readonly findings: readonly Finding[];
  readonly used: ReadonlySet<string>;
}

/** The entry of a code; null where the word is no code. Names that every object carries are no codes either. */
const codeEntry = (code: string): CodeEntry | null =>
  Object.prototype.hasOwnProperty.call(CODES, code) ? (CODES[code as Code] as CodeEntry) : null;

/** Why a waiver does not cover a finding of its code and subject. */
type Miss = { readonly says: string; readonly params: Params };

const KIND_UNITS: Readonly<Record<'length' | 'angle', Measure['unit']>> = { length: 'mm', angle: 'deg' };

/** The bound in the finding's own unit; null where the two cannot be compared. A bare number takes the file's unit. */
function boundIn(measured: Measure, upTo: NonNullable<Waiver['upTo']>, units: LengthUnit): number | null {
  if (upTo.kind === 'plain') return measured.unit === 'mm' ? upTo.value * (UNITS[units]?.factor ?? 1) : upTo.value;
  return KIND_UNITS[upTo.kind] === measured.unit ? upTo.value : null;
}

/** True where the figure is no worse than the bound. Worse is further out on the side on which the limit is broken. */
function within(finding: Finding, measured: Measure, bound: number): boolean {
  const from = finding.allowed?.from ?? null;
  const to = finding.allowed?.to ?? null;
  const low = from !== null && measured.value < from && (to === null || measured.value <= to);
  return low ? measured.value >= bound - 1e-9 : measured.value <= bound + 1e-9;
}

/** Null where the waiver covers the finding; otherwise why not. The code and the name match already. */
function missOf(waiver: Waiver, finding: Finding, units: LengthUnit): Miss | null {
  if (waiver.book !== null && waiver.book !== finding.rule?.book)
    return { says: 'the finding is not one of {book}', params: { book: waiver.book } };
  if (waiver.end !== null && finding.params['end'] !== waiver.end)
    return { says: 'the finding is about the other end', params: {} };
  if (waiver.upTo === null) return null;
  if (finding.measured === undefined) return { says: '{code} measures nothing that a bound could hold', params: {} };
  const bound = boundIn(finding.measured, waiver.upTo, units);
  if (bound === null) return { says: 'its bound is no figure of {code}', params: {} };
  if (within(finding, finding.measured, bound)) return null;
  return { says: '{figure} is worse than its bound, so it counts', params: { figure: finding.measured } };
}

/** The name without the piece of a split tube: a waiver on the tube covers both pieces. */
const wholeOf = (subject: string): string => subject.replace(/\.[ab]$/, '');

/** The names under which a finding can be waived: its subject's; for vents, holes and padding, which have none, their tube's. */
function namesOf(cage: Cage, finding: Finding): readonly string[] {
  const thing = cage.things.get(finding.subject);
  if (thing?.kind === 'vent' || thing?.kind === 'hole' || thing?.kind === 'padding')
    return thing.tube === null ? [] : [thing.tube];
  return [finding.subject, wholeOf(finding.subject)];
}

const concerns = (cage: Cage, waiver: Waiver, finding: Finding): boolean =>
  finding.code === waiver.code && namesOf(cage, finding).some((name) => waiver.on.includes(name));

const told = (code: Code, at: Anchor, params: Params, subject: string): Finding => ({
  code,
  severity: CODES[code].severity,
  subject,
  at,
  params,
  notes: [],
  fixes: [],
});

/** What is wrong with the words of a waiver, whatever the car is like; null: nothing. */
function wrongWith(waiver: Waiver, at: Anchor): Finding | null {
  const entry = codeEntry(waiver.code);
  // An unknown code is told where the line is read.
  if (entry === null) return null;
  if (!entry.waivable) return told('waive.not-waivable', at, { code: waiver.code }, waiver.written);
  return null;
}

/**
 * Weighs findings against the car's waivers. A waived finding stays in the list; a waiver that covers nothing is told,
 * with the reason. Waivers on names that are not known are passed over: the name has its own finding.
 */
export function weigh(
  cage: Cage,
  findings: readonly Finding[],
  anchorOf: (waiver: Waiver, part: 'line' | 'code') => Anchor,
): WaiverResult {
  const used = new Set<string>();
  const misses = new Map<string, Miss>();
  const weighed = findings.map((finding): Weighed => {
    if (codeEntry(finding.code)?.waivable !== true) return { finding, waiver: null };
    let covering: Waiver | null = null;
    for (const waiver of cage.waivers) {
      if (!concerns(cage, waiver, finding)) continue;
      const miss = missOf(waiver, finding, cage.units);
      if (miss === null) {
        used.add(waiver.id);
        covering ??= waiver;
      } else if (!misses.has(waiver.id)) misses.set(waiver.id, miss);
    }
    return { finding, waiver: covering };
  });
  const own: Finding[] = [];
  for (const waiver of cage.waivers) {
    if (used.has(waiver.id)) continue;
    const at = anchorOf(waiver, 'line');
    const wrong = wrongWith(waiver, anchorOf(waiver, 'code'));
    if (wrong !== null) own.push(wrong);
    if (wrong !== null || waiver.on.length === 0 || codeEntry(waiver.code) === null) continue;
    const miss = misses.get(waiver.id) ?? { says: 'there is no {code} on {written}', params: {} };
    own.push(
      told(
        'waive.unused',
        at,
        { why: miss.says, code: waiver.code, written: waiver.written, ...miss.params },
        waiver.written,
      ),
    );
  }
  return { weighed, findings: own, used };
}
