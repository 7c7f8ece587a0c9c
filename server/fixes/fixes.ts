/** The door to the quick fixes: which are offered for a finding, and what one of them does to the text. */
import type { Code } from '../../grammar/codes';
import { CODES } from '../../grammar/codes';
import type { PlacedFinding } from '../../grammar/finding';
import { addVent, openEnd, waiveIt } from './car-fixes';
import type { FixContext, FixOffer, Fixer, TextEdit } from './fix';
import { besideCorner, intoPlane, nearMiss, nearOne, ontoAxis, straighten } from './place-fixes';
import {
  chooseSide,
  closeBrace,
  didYouMean,
  giveUnit,
  leftOrRight,
  textReplace,
  writeMend,
  writeSign,
} from './text-fixes';

export type { FixContext, FixOffer, TextEdit } from './fix';
export type { Solved } from './solve/solve';
export { mayBeSolved, solve, solving } from './solve/solve';

/** By code; what is not here has no fix but those that its finding carries itself. */
const FIXERS: Partial<Readonly<Record<Code, readonly Fixer[]>>> = {
  'syntax.brace': [closeBrace],
  'syntax.missing': [writeSign],
  'syntax.decimal-comma': [writeMend],
  'syntax.degree-sign': [writeMend],
  'syntax.inch-sign': [writeMend],
  'number.mixed-fraction': [writeMend],
  'number.fraction-after-division': [writeMend],
  'unit.unknown': [didYouMean],
  'unit.mixed': [giveUnit],
  'unit.inch-after-angle': [writeMend],
  'name.unknown': [didYouMean],
  'name.case': [didYouMean],
  'name.side': [chooseSide],
  'kind.unknown': [didYouMean],
  'role.unknown': [didYouMean],
  'fact.unknown': [didYouMean],
  'rule.unknown-book': [didYouMean],
  'rulebook.code': [didYouMean],
  'rulebook.group': [didYouMean],
  'waive.unknown': [didYouMean],
  'bend.tiny': [straighten],
  'bend.rotation-tiny': [intoPlane],
  'end.loose': [openEnd],
  'place.bend-corner': [besideCorner],
  'place.near-miss': [nearMiss],
  'cope.no-contact': [ontoAxis],
  'place.several': [nearOne],
  'place.on-centre': [leftOrRight],
  'space.unvented': [addVent],
};

/** What can be done about a finding, the best first. Cheap: nothing is solved before {@link resolveFix}. */
export function fixesFor(finding: PlacedFinding, context: FixContext): readonly FixOffer[] {
  const own = [textReplace, ...(FIXERS[finding.code] ?? [])].flatMap((fixer) => fixer(finding, context));
  const waive = CODES[finding.code].waivable && finding.code !== 'waive.unused' ? waiveIt(finding, context) : [];
  return [...own, ...waive];
}

/** The text edits of the fix of that id, for the analysis from which it was offered; empty where there is none. */
export function resolveFix(id: string, finding: PlacedFinding, context: FixContext): readonly TextEdit[] {
  return (
    fixesFor(finding, context)
      .find((offer) => offer.id === id)
      ?.edits() ?? []
  );
}
