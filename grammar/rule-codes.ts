/**
 * The codes on which rulebooks put limits: one quantity each, with its sentence. What stands behind a code (how it is
 * measured, an example, the limits of the books) is the rule of that name. `{ask}` is what the book wants, `{mend}` what
 * brings the figure there.
 */
import type { CodeEntry } from './code-entry';

/** A quantity that books limit. Without a book it is at most a warning; a book may make it an error. */
const judged = (says: string): CodeEntry => ({ severity: 'warning', waivable: true, says });
const told = (says: string): CodeEntry => ({ severity: 'information', waivable: true, says });

export const RULE_CODES = {
  // Straps and seats
  'strap.drop': judged('Strap {strap} {way}{ask}: {mend}.'),
  'strap.bar-drop': told('Strap {strap} drops {measured} to the harness bar {tube}{ask}: {mend}.'),
  'strap.spread': judged("Strap {strap} runs {measured} {way} from its seat's centreline in plan{ask}: {mend}."),
  'strap.skew': judged('Strap {strap} meets {tube} {measured} off square and will walk along it{ask}: {mend}.'),
  'strap.free-run': judged(
    'Strap {strap} has {measured} of free run between the seat and {tube}, its hardware needs {need}: {mend}.',
  ),
  'strap.length': told(
    'Strap {strap} is {measured} long from slot to bar{ask}: under load it gives {least} to {most}, a shorter one less.',
  ),
  'strap.shoulder-angle': judged('Strap {strap} {way} from the shoulder{ask}: {mend}.'),
  'strap.shoulder-drop': judged('Where strap {strap} lies on {tube} is {way} the shoulder{ask}: {mend}.'),
  'strap.shoulder-reach': told('Strap {strap} runs {measured} from the shoulder to {tube}{ask}: {mend}.'),
  'strap.spacing': judged('The straps of seat {seat} lie {measured} apart on {tube}, middle to middle{ask}: {mend}.'),
  'strap.gap': judged('The straps of seat {seat} lie {measured} apart on {tube}, edge to edge{ask}: {mend}.'),
  'strap.spacing-formula': told(
    'The straps of seat {seat} lie {spacing} apart on {tube}, {off} than {asked} for their reach of {reach}{ask}: {mend}.',
  ),
  'strap.crossing': judged('Strap {strap} lies {measured} behind the seat back and is not crossed{ask}: {mend}.'),
  'seat.gap': judged('{where}, a slide needs {need}: {mend}.'),
  // Tubes
  'tube.size': judged('{tube} is {size}{ask}: {mend}.'),
  'tube.material': judged('The steel of {tube} is {word}{ask}: {mend}.'),
  'tube.strength': judged('The steel of {tube} holds {measured}{ask}: {mend}.'),
  'tube.same-as-hoop': judged('{tube} is {size}, the main hoop {hoopSize}{ask}: {mend}.'),
  'tube.pieces': judged('{tube} is made of {measured} pieces{ask}: {mend}.'),
  'tube.straight': judged('{tube} has {measured} bends{ask}: {mend}.'),
  'bend.radius': judged('Die {die} bends at {measured}, less than 3 x od ({limit}){ask}: the wall thins and flattens.'),
  'bend.thinning': told('The wall of {tube} thins from {wall} to {measured} outside in its bends{ask}: {mend}.'),
  'bend.difficulty': told('To bend {tube} by {angle} on die {die} has a difficulty of {measured}{ask}: {mend}.'),
  // Joints and welds
  'joint.gap': judged('The cut at the {end} end of {tube} leaves a groove of {measured} to {host}{ask}: {mend}.'),
  'joint.toe-to-bend': told('{what} {where} at {node}{ask}: {mend}.'),
  'joint.toe-spacing': judged('The welds of {tube} and {other} on {host} are {measured} apart{ask}: {mend}.'),
  'joint.od-ratio': judged('The {end} end of {tube} is of od {od}, {host} of od {hostOd}{ask}: {mend}.'),
  'joint.eccentricity': told('The axis of {tube} at its {end} end is {measured} from {other}{ask}: {mend}.'),
  // Vents
  'vent.size': judged('{what} is {measured} wide{ask}: {mend}.'),
  'vent.bend': judged('The vent of {tube} lies outside on its bend at {node}, by {measured}{ask}: {mend}.'),
  'vent.span': told('The vent of {tube} lies {measured} from the nearest joint of a span of {span}{ask}: {mend}.'),
  // What stiffens corners and crossings, and joints that come apart
  'gusset.thickness': judged('The sheet of {gusset} is {measured} thick{ask}: {mend}.'),
  'gusset.kind': judged('{gusset} is {word}{ask}: {mend}.'),
  'gusset.legs': judged('{gusset} reaches {reach} along {tube}, {measured} x the larger od of {od}{ask}: {mend}.'),
  'gusset.cut-out': judged(
    'The cut-out of {gusset} has a radius of {radius}, {measured} x the larger od of {od}{ask}: {mend}.',
  ),
  'gusset.hole': judged('The hole in {gusset} is {hole} wide, {measured} x the larger od of {od}{ask}: {mend}.'),
  'gusset.missing': judged('Where {second} meets {first} there are {measured} gussets{ask}: {mend}.'),
  'cross.whole': judged('Neither leg of the cross of {first} and {second} is in one piece{ask}: {mend}.'),
  'fitting.drawing': judged('{fitting} at {tube} follows drawing {word}{ask}: {mend}.'),
  'fitting.welded': judged('{fitting} is welded up{ask}: {mend}.'),
  'fitting.at-roof': judged('There are {measured} removable joints at roof level{ask}: {mend}.'),
  'fitting.on-harness-bar': judged('{tube} can be taken out, by {fitting}{ask}: {mend}.'),
  'fitting.bush': judged('The bolt of {fitting} at the foot of {tube} is in {word}{ask}: {mend}.'),
  'bolt.grade': judged('The bolts of {thing} are of grade {grade} ({strength}){ask}: {mend}.'),
  'brace.half-way': judged(
    '{tube} ends {far} from the joint of {first} and {second} on {host}, {measured} of its length{ask}: {mend}.',
  ),
  // The cage as a whole
  'cage.route': judged('The cage is {word}{ask}: {mend}.'),
  'cage.identified': judged("The cage is certified and bears no maker's plate{ask}: {mend}."),
  'cage.modified': judged('{thing} is welded to {host}, which is part of a certified cage{ask}: {mend}.'),
  'cage.length': judged('{tube} reaches {measured} beyond the {which} suspension{ask}: {mend}.'),
  'extension.reach': judged('{tube} ends {measured} from the top mounting of the front suspension{ask}: {mend}.'),
  'tube.carries': judged('{what} is led through {tube}{ask}: {mend}.'),
  'tube.finish': judged('The finish of {tube} is {word}{ask}: {mend}.'),
  'steel.analysis': judged('The steel of {tube} holds {measured} % of {element}{ask}: {mend}.'),
  'weld.round': judged('Of {where} the joints are welded {word} of the way round{ask}: {mend}.'),
  'weld.process': judged('The cage is welded by {word}{ask}: {mend}.'),
  // Galvanized
  'galvanized.sealed': judged('The bore of {tubes} is closed{ask}: {mend}.'),
  'galvanized.hole': judged('The vent of {tube} is {measured} wide, and it is to be galvanized{ask}: {mend}.'),
  'galvanized.foot': judged(
    'The plate of {foot} leaves {measured} of the bore of {tube} open, and it is to be galvanized{ask}: {mend}.',
  ),
  'galvanized.weld': judged(
    'The vent of {tube} lies {measured} from its weld, and it is to be galvanized{ask}: {mend}.',
  ),
  // Hoops
  'hoop.missing': judged('There is no main hoop{ask}: {mend}.'),
  'hoop.bends': judged('{tube} has {measured} bends{ask}: {mend}.'),
  'hoop.total-angle': judged('The bends of {tube} turn {measured} together{ask}: {mend}.'),
  'hoop.flat': judged('{tube} lies {measured} out of one plane{ask}: {mend}.'),
  'hoop.tilt': judged('{tube} leans {measured} from upright{ask}: {mend}.'),
  'hoop.leg-bends': judged('A leg of {tube} has {measured} bends below its top corner{ask}: {mend}.'),
  'hoop.leg-spacing': judged('The legs of {tube} are {measured} apart inside{ask}: {mend}.'),
  'hoop.rear-leg': judged('The rear leg of {tube} lies {measured} off its chord in side view{ask}: {mend}.'),
  'hoop.front-foot': told('The foot of {tube} stands {measured} behind its foremost point{ask}: {mend}.'),
  'structure.missing': judged('The basic structure lacks {lacks}{ask}: {mend}.'),
  'structure.roof-level': judged('{tube} meets {host} {measured} below its top{ask}: {mend}.'),
  // Backstays
  'backstay.missing': judged('{which}{ask}: {mend}.'),
  'backstay.angle': judged('{tube} stands {measured} from the vertical in side view{ask}: {mend}.'),
  'backstay.hoop-angle': judged('{tube} stands {measured} to the main hoop{ask}: {mend}.'),
  'backstay.plane-angle': judged("The backstays' plane stands {measured} to the plane of {hoop}{ask}: {mend}."),
  'backstay.rearward': judged('The foot of {tube} stands {measured} behind its top{ask}: {mend}.'),
  'backstay.drop': judged('{tube} meets {hoop} {measured} below its top{ask}: {mend}.'),
  'backstay.crown': judged('{tube} meets {hoop} {measured} from its top corner{ask}: {mend}.'),
  // Diagonals
  'diagonal.missing': judged('The main hoop has {measured} diagonals{ask}: {mend}.'),
  'diagonal.cross': judged('{first} and {second} do not cross in the main hoop, split one by the other{ask}: {mend}.'),
  'diagonal.top': judged('The upper end of {tube} is {measured} from the backstay along {host}{ask}: {mend}.'),
  'diagonal.bottom': judged('The lower end of {tube} is {measured} from the foot along {host}{ask}: {mend}.'),
  'diagonal.corner': judged(
    "The upper end of {tube} is {measured} from the driver's corner along {hoop}{ask}: {mend}.",
  ),
  'diagonal.in-plane': judged('{tube} lies {measured} out of the plane of {hoop}{ask}: {mend}.'),
  'diagonal.feet': judged('The lower mountings of {tube} and {other} are {measured} apart{ask}: {mend}.'),
  'diagonal.on-harness-bar': judged('{tube} ends on the harness bar {host}{ask}: {mend}.'),
  // Doors, roof, pillars, dash
  'door.bars': judged('There are {measured} door bars on the {side}{ask}: {mend}.'),
  'door.seat-gap': judged('{tube} is {measured} beside the shell of seat {seat}{ask}: {mend}.'),
  'door.alike': judged('The doors differ: {onLeft} on the left, {onRight} on the right{ask}: {mend}.'),
  'roof.bars': judged('There are {measured} roof bars between the hoops{ask}: {mend}.'),
  'roof.ends': judged('The {end} end of {tube} is {measured} from the next junction along {host}{ask}: {mend}.'),
  'roof.form': judged('The roof bars {tubes} make no form of the book, but: {form}{ask}: {mend}.'),
  'roof.gap': judged('The bars {tube} and {other} of the V in the roof land {measured} apart{ask}: {mend}.'),
  'pillar.missing': judged(
    'The windscreen pillar of {tube} has no bar; its bend lies {offset} off the line from foot to roof, its foot {ahead} ahead of the roof{ask}: {mend}.',
  ),
  'pillar.bend': judged('{tube} turns {measured}{ask}: {mend}.'),
  'pillar.side-view': judged('{tube} lies {measured} off its chord in side view{ask}: {mend}.'),
  'pillar.top': judged('The upper end of {tube} is {measured} from the junction along {host}{ask}: {mend}.'),
  'pillar.bottom': judged('The lower end of {tube} is {measured} from the front foot along {host}{ask}: {mend}.'),
  'dash.bar': told('There is no tube between the front legs near the dash{ask}: {mend}.'),
  'dash.height': judged('The lower edge of {tube} lies {measured} above the dashboard{ask}: {mend}.'),
  'dash.column': judged('{tube} lies {measured} below the steering column{ask}: {mend}.'),
  'door.height': judged(
    '{tube} meets the edge of the door opening {height} above its foot, at {measured} of its height{ask}: {mend}.',
  ),
  'backstay-diagonal.form': judged(
    'The roof is a V to the rear and the diagonals of the backstays are: {form}{ask}: {mend}.',
  ),
  // Padding
  'padding.missing': judged('{tube} has no padding{ask}: {mend}.'),
  'padding.standard': judged('The padding of {tube} is {word}{ask}: {mend}.'),
  'padding.flame': judged('The padding of {tube} is not flame-retardant{ask}: {mend}.'),
  'padding.fixed': judged('The padding of {tube} can move on it{ask}: {mend}.'),
  // Harness bar
  'harness.ends': judged('The {end} end of {tube} lands on {host}{ask}: {mend}.'),
  'harness.diagonal': judged('{tube} passes {measured} from the diagonal {diagonal}{ask}: {mend}.'),
  // Anchors and seats
  'strap.insert': judged('Strap {strap} is bolted to {tube} without an insert{ask}: {mend}.'),
  'strap.bolt': judged('The bolt of strap {strap} is {measured}{ask}: {mend}.'),
  'anchor.load': judged('{anchor} is proved for {measured}{ask}: {mend}.'),
  'anchor.shared': judged('{measured} straps share the anchorage of {anchor}{ask}: {mend}.'),
  'anchor.plate-area': judged('The plate of {anchor} has {measured}{ask}: {mend}.'),
  'anchor.plate-thickness': judged('The plate of {anchor} is {measured} thick{ask}: {mend}.'),
  'anchor.through-seat': judged('The strap of {anchor} passes over the side of the seat{ask}: {mend}.'),
  'seat-mount.points': judged('{mount} holds its seat at {measured} points{ask}: {mend}.'),
  'seat-mount.bolt-size': judged('The bolts of {mount} to the {where} are of {measured}{ask}: {mend}.'),
  'seat-mount.seat-bolts': judged('{mount} holds the seat by {measured} bolts{ask}: {mend}.'),
  'seat-mount.area': judged('The {which} of {mount} has {measured} at each point{ask}: {mend}.'),
  'seat-mount.thickness': judged('The {which} of {mount} is {measured} thick{ask}: {mend}.'),
  'seat-mount.length': judged('A support of {mount} is {measured} long{ask}: {mend}.'),
  'seat-mount.load': judged('{mount} is proved for {measured} at each point{ask}: {mend}.'),
  'seat-mount.quick-release': judged('The quick release of {mount} is proved for {measured}{ask}: {mend}.'),
  'seat.cushion': judged('The cushion of seat {seat} is {measured} thick{ask}: {mend}.'),
  // Feet and holes
  'foot.missing': judged('The {end} end of {tube} stands on no foot{ask}: {mend}.'),
  'foot.area': judged('The plate of {foot} has {measured}{ask}: {mend}.'),
  'foot.side': judged('The plate of {foot} measures {measured} along its {which} side{ask}: {mend}.'),
  'foot.thickness': judged('The plate of {foot} is {measured} thick{ask}: {mend}.'),
  'foot.bolt-edge': judged('Bolt {bolt} of {foot} stands {measured} from the edge of its plate{ask}: {mend}.'),
  'foot.edge': judged('The plate of {foot} reaches {measured} beyond {tube}{ask}: {mend}.'),
  'foot.tube-wall': judged('The plate of {foot} is {measured} thick, the wall on it {need}{ask}: {mend}.'),
  'foot.bolts': judged('{foot} has {measured} bolts{ask}: {mend}.'),
  'foot.bolt-size': judged('The bolts of {foot} are of {measured}{ask}: {mend}.'),
  'foot.bolt-angle': judged('Two bolts of {foot} stand {measured} apart round the tube{ask}: {mend}.'),
  'foot.held': judged('{foot} is {word} to a shell of {shell}{ask}: {mend}.'),
  'foot.count': told('The cage stands on {measured} plates{ask}: {mend}.'),
  'hole.existing': judged('A hole is to be drilled into {tube}, which is already in the car{ask}: {mend}.'),
} as const satisfies Record<string, CodeEntry>;

export type RuleCode = keyof typeof RULE_CODES;
