/**
 * The vocabulary of findings, as data: every code with its severity where no book speaks, whether it may be waived,
 * and its sentence. `{name}` takes a parameter of the finding; a Measure is printed in the file's own units,
 * a list with commas. `{measured}` and `{allowed}` are the finding's own figures. The long texts for
 * `explain` and the user's page stand in `explanations.ts`.
 */
import type { CodeEntry } from './code-entry';
import { RULE_CODES } from './rule-codes';

export type { CodeEntry } from './code-entry';

const broken = (says: string): CodeEntry => ({ severity: 'error', waivable: false, says });
const odd = (says: string): CodeEntry => ({ severity: 'warning', waivable: true, says });
const told = (says: string): CodeEntry => ({ severity: 'information', waivable: true, says });

export const CODES = {
  // Text. {found} is the offending text, {wanted} a phrase.
  'syntax.unexpected': broken("'{found}' has no place here: {wanted}."),
  'syntax.missing': broken('Something is missing here: {wanted}.'),
  'syntax.character': broken("'{found}' has no place in a cage file{hint}."),
  'syntax.string': broken('This string is not closed: end it with " on the same line.'),
  'syntax.brace': broken("The '{' after '{name}' is not closed: write '}' on a line of its own."),
  'syntax.brace-close': broken("This '}' closes nothing."),
  'syntax.nesting': broken('Nested {depth} deep; at most 200 is read.'),
  'syntax.decimal-comma': broken("'{found}' has a decimal comma: write {mend}."),
  'syntax.degree-sign': broken("'{found}': write the unit as a word, {mend}."),
  'syntax.inch-sign': broken("'{found}': write the unit as a word, {mend}."),
  'number.mixed-fraction': broken("'{found}' could be read two ways: write {mend}."),
  'number.fraction-after-division': broken(
    "A fraction directly after '/' could be read two ways: put it in brackets, {mend}.",
  ),
  'number.range': broken('{value} is out of range: {wanted}.'),
  'number.arithmetic': broken('This cannot be computed: {why}.'),
  // Units
  'unit.unknown': broken("'{name}' is no unit{hint}."),
  'unit.dimension': broken('This is {found}, but {wanted} is wanted{hint}.'),
  'unit.mixed': broken(
    'Plain numbers of a file with units {a} and of one with units {b} meet here: give one of them its unit.',
  ),
  'unit.inch-after-angle': broken("'in' after an angle would be inches: write {mend}."),
  // Names
  'name.unknown': broken("{what} '{name}' is not known{hint}."),
  'name.twice': broken("'{name}' is named twice: the first one, {first}, counts."),
  'name.cycle': broken('These hang on each other in a circle: {links}.'),
  'name.side': broken("'{name}' {why}."),
  'name.case': broken("'{name}' is written '{known}' where it is named: letters' case counts."),
  'name.kind': broken("'{name}' is a {found}, but a {wanted} is wanted here."),
  // Files
  'use.missing': broken("There is no file '{path}'."),
  'use.unreadable': broken("'{path}' cannot be read: {why}."),
  'use.outside': broken("'{path}' lies outside the workspace and was not read."),
  'use.cycle': broken('These files use each other in a circle: {links}.'),
  // Facts
  'kind.unknown': broken("'{name}' is no statement{hint}."),
  'role.unknown': broken("'{name}' is no role; there are {roles}{hint}."),
  'fact.unknown': broken("{kind} has no fact '{name}'{hint}."),
  'fact.missing': broken("{kind} '{name}' needs {facts}."),
  'fact.twice': broken("'{name}' is written twice here: the first one counts."),
  'fact.value': broken("'{fact}' wants {wanted}."),
  'mirror.not-here': broken("'{kind}' cannot stand inside mirror: {why}."),
  // Places
  'place.none': broken('{what}'),
  'place.several': broken('{tube} is there {count}, at {places}: {mend}.'),
  'place.bend-corner': broken(
    "'{node}' is the corner of a bend in {tube}: no point of the tube lies there; use mid {node}, or before or after it.",
  ),
  'place.near-miss': odd(
    'The {end} end of {tube} passes {measured} beside the centreline of {host}: move it on, or write {end} onto {host} if the offset is meant.',
  ),
  'place.on-centre': broken("'{word}' has no meaning on the car's centreline: use left or right."),
  // Sections and bends
  'section.wall': broken('Wall {wall} leaves no bore in od {od}.'),
  'section.od': broken('An outside diameter of {od} is no tube.'),
  'bend.no-die': broken('{tube} {what} but has no die: add die NAME.'),
  'bend.die-diameter': broken('Die {die} bends od {dieOd}, but {tube} is od {od}.'),
  'bend.overlap': broken(
    '{tube}: between {nodes} the bends take {need}, there are {have}: move the nodes apart by {by} or use a smaller radius.',
  ),
  'leg.zero': broken('{tube}: {a} and {b} are the same point.'),
  'bend.between': odd('{tube}: {measured} of straight between the bends at {nodes}; the die holds {limit}.'),
  'bend.tiny': odd('{tube} turns only {measured} at {node}: a bend by accident; move {node} into the line.'),
  'bend.rotation-tiny': odd(
    '{tube}: the bend at {node} lies {measured} out of the plane of the one before: put it into that plane.',
  ),
  // Ends and copes
  'end.loose': broken('The {end} end of {tube} touches nothing{near}: join it, set it on a foot, or write {end} open.'),
  'cope.overhang': broken(
    'The {end} end of {tube} reaches {measured} past the side of {host} and does not sit wholly on it: {mend}.',
  ),
  'cope.no-contact': broken('The {end} end of {tube} does not touch {host}: {mend}.'),
  'cope.past-host-end': broken(
    'The {end} end of {tube} reaches {measured} past the end of {host}: lengthen {host} with past, or move the joint.',
  ),
  'cope.buried': broken(
    'The {end} end of {tube} is still inside {host} half-way along its leg ({limit}): the leg is too short, or runs along in {host}.',
  ),
  'cope.shallow': odd(
    'The {end} end of {tube} meets {host} at {measured}; under {limit} the heel cannot be welded through.',
  ),
  'cope.into-own-bend': odd(
    "The cope at the {end} end of {tube} runs {measured} into the tube's own bend: move the bend away.",
  ),
  'cope.on-bend': odd(
    'The {end} end of {tube} lands on a bend of {host}: move it {measured} along {host}, onto its straight.',
  ),
  'cope.order-guessed': told('{where} the tool chose {first} to stay whole, with {others} cut to it: {mend}.'),
  'tube.clash': broken('{what}{where}: {mend}.'),
  'tube.past-length': told('The {end} end of {tube} runs {measured} past {node}, so that {others} can land on it.'),
  // Feet, joints, vents, spaces
  'foot.no-tube': broken('No tube ends on foot {foot}.'),
  'foot.outside-plate': odd(
    '{tube} is od {od}, but the plate of {foot} is {long} x {wide}: the end reaches {measured} past its edge.',
  ),
  'joint.no-ends': broken('No tubes end at {nodes}.'),
  'joint.crowded': broken(
    'More than {most} others meet the {end} end of {tube}: no such joint is cut or computed; spread them out.',
  ),
  'joint.not-there': broken('{tube} does not end at {nodes}.'),
  'space.unvented': odd(
    'The bore of {tubes} has no way to breathe: the last weld, at {joint}, will blow out; vent it{mend}.',
  ),
  'vent.no-effect': odd('This vent joins nothing that is not joined already: {why}.'),
  'vent.outside-joint': odd('The vent lies outside the joint: {why}.'),
  'vent.too-large': odd('A vent of {measured} takes too much of {tube}: at most {limit} ({why}).'),
  'fitting.no-joint': broken('The {end} end of {tube} joins nothing that {fitting} could hold it to: {why}.'),
  'fitting.twice': broken('The {end} end of {tube} has a fitting already: {first}.'),
  'gusset.apart': broken(
    "'{tube}' passes {away} beside {node}: a gusset stiffens the corner of tubes that meet there.",
  ),
  'hole.off-tube': broken('The hole is not on {tube}: {why}.'),
  'padding.off-tube': broken('The padding does not lie on {tube}: {why}.'),
  'foot.bolt-off-plate': broken('This bolt of {foot} stands {by} past the edge of its plate of {long} x {wide}.'),
  'vehicle.dates': broken('The dates contradict each other: {why}.'),
  // Straps and seats
  'strap.misses-bar': broken('Strap {strap} does not meet {tube}: {why}.'),
  'strap.on-bend': odd('{what} lies on the bend of {tube} at {node}, by {measured}: {mend}.'),
  'strap.overlap': odd('{a} and {b} overlap by {measured} on {tube}: move one of them along it.'),
  'strap.can-slide': odd('Strap {strap} can slide {side} on {tube}: nothing holds it within {limit}; {mend}.'),
  'strap.slot-edge': told("Strap {strap} lies on the slot's rear edge: measured from there."),
  // Stock
  'stock.twice': broken("Stock of '{section}' is told twice: the first one counts."),
  'stock.length-twice': broken('A length of {length} is sold twice here: the first one counts.'),
  'stock.price': broken(
    'Which length costs {price} is not told: write it beside the length, as length 6000 price {price}.',
  ),
  // Books and waivers
  ...RULE_CODES,
  'role.contradicts': odd('{tube} is told to be a {role}, but it {why}: give it another role, or mend its path.'),
  'rule.cannot-judge': told('{books} cannot judge {rule} here: {fact}.'),
  'rule.roll-bar': told(
    '{tube} is a bare roll bar: of {book} those rows are judged that carry over to one; it is not a full cage of that book.',
  ),
  'rule.edition': told('{book}: {text}.'),
  'rule.unknown-book': broken("There is no rulebook '{name}'{hint}."),
  'rulebook.built-in': broken("'{name}' is a rulebook of the tool: give this one a name of its own."),
  'rulebook.code': broken("'{code}' {why}{hint}."),
  'rulebook.group': broken("{code} is not told apart for '{name}'{hint}."),
  'rulebook.no-range': broken('{code} is {why}, no range limits it: {mend}.'),
  'rulebook.word': broken("{code} knows no word '{name}'{hint}."),
  'rulebook.range': broken('From {from} to {to} is no range: write the smaller figure first.'),
  'rulebook.nothing-to-drop': broken('There is no limit on {code}{of} to drop: {who}.'),
  'waive.unknown': broken("'{code}' is no finding that this tool makes{hint}."),
  'waive.not-waivable': broken("'{code}' cannot be waived: the car cannot be built with it."),
  'waive.unused': told('This waiver waives nothing: {why}.'),
} as const satisfies Record<string, CodeEntry>;

export type Code = keyof typeof CODES;
export type { RuleCode } from './rule-codes';
export { RULE_CODES } from './rule-codes';
