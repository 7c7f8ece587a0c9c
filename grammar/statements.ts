/**
 * DATA: the statements of the language and their facts, the one place to add one. Validator, completion, hover,
 * snippets, formatter, colours and the reference page are made from this table; nothing in it is written twice.
 * How a pattern is written stands in `vocabulary.ts`.
 */
import { BOLTS, COUNTER_PLATE, fact, kind } from './entries';
import { HARDWARE_KINDS } from './hardware-statements';
import { SEAT_KINDS } from './seat-statements';
import type { KindEntry } from './vocabulary-types';

const WHOLE_FILE = 'it is said once for the whole file';
const SHARED = 'it is the same on both sides; write it outside';
const NAMES_SIDE = 'it names its side itself; write it outside';

/** What is told of an end that is not what it would be taken for. */
const END = 'onto <hosts:@host>, … | open | past <length:length >= 0>';

export const KINDS: readonly KindEntry[] = [
  kind(
    'cage',
    '<title:string>',
    'A file with this line is judged as a whole car; one without it is a part that others use.',
    {
      notInMirror: WHOLE_FILE,
      judgedOnly: true,
      once: true,
    },
  ),
  kind(
    'units',
    '<unit:mm|cm|m|in|ft>',
    'The length unit of bare numbers in this file; without it mm. Bare angles are degrees.',
    {
      notInMirror: WHOLE_FILE,
      once: true,
    },
  ),
  kind('use', '<file:string>', 'Reads another file, relative to this one and inside the workspace.', {
    notInMirror: WHOLE_FILE,
  }),
  kind('rules', '<books:@book>, …', 'The rulebooks that judge this car; without the line: shop.', {
    notInMirror: WHOLE_FILE,
    judgedOnly: true,
    once: true,
  }),
  kind(
    'rulebook',
    '<name:name> [based on <base:@book>]',
    "A club's own book: what it limits differently from the book that it is based on. It judges a car whose rules name it.",
    {
      example: 'heron-club based on fia-253',
      block: 'facts',
      notInMirror: SHARED,
      facts: [
        fact('cite', '<text:string>', 'Where the limits of this book are published, with the edition.', {
          example: '"Heron Hill Climb Club, yearbook 2026"',
        }),
        fact(
          'limit',
          '<code:@code> [from <from:figure>] [to <to:figure>] [of <groups:string>, …] [since <since:string>] [before <before:string>] [recommended] [cite <text:string>]',
          'Takes the place of what the base says of that quantity, on the sides that are written; of: only for these things; since and before: only for cars homologated from that day on, or before it.',
          { example: 'strap.drop from 0 to 20', many: true },
        ),
        fact('drop', '<code:@code> [of <groups:string>, …]', 'Leaves out what the base says of that quantity.', {
          example: 'tube.size',
          many: true,
        }),
        fact(
          'accept',
          '<code:@code> <words:string>, … [of <groups:string>, …] [since <since:string>] [before <before:string>] [recommended] [cite <text:string>]',
          'Takes the place of the words that the base accepts of that quantity; of, since and before as in limit.',
          { example: 'tube.material "cold-drawn seamless", "drawn over mandrel"', many: true },
        ),
      ],
    },
  ),
  kind('vehicle', '', 'The car that the cage is built into.', {
    block: 'facts',
    notInMirror: WHOLE_FILE,
    judgedOnly: true,
    once: true,
    facts: [
      fact(
        'mass',
        '<mass:mass > 0> [<basis:with|without> driver]',
        "The car's mass, and whether the driver is in it: each rulebook has its own basis.",
        { example: '980 kg without driver' },
      ),
      fact(
        'driver',
        '<driver:mass > 0>',
        'What the driver weighs with all gear: books that go by the other basis of the mass can be judged too.',
        { example: '85 kg' },
      ),
      fact('body', '<body:closed|open>', 'Whether the car has a roof.'),
      fact(
        'homologated',
        '<day:string>',
        'The day of the homologation, or of the first passport: some books have texts and limits that hang on it.',
        { example: '"2006-04-01"' },
      ),
      fact('passport', '<day:string>', 'The day of the first technical passport of a car that was never homologated.', {
        example: '"2021-03-15"',
      }),
      fact(
        'cage',
        '<route:self-built|asn|fia>',
        'How the cage came: built by the text of the book, or certified by an ASN or the FIA.',
      ),
      fact('identified', '<identified:yes|no>', "Whether the cage bears its maker's plate with a number."),
      fact('shell', '<shell:steel|aluminium|composite>', 'What the shell is made of.'),
      fact('frame', '<frame:yes|no>', 'Whether the car has a frame apart from its shell.'),
      fact('codriver', '<codriver:yes|no>', 'Whether a second person sits in the car.'),
      fact('kind', '<kind:production|formula|sports-racer>', 'What kind of car it is.'),
      fact('elapsed-time', '<seconds:plain > 0>', 'Its time over the quarter mile, in seconds.', { example: '11.49' }),
      fact('front-suspension', '<at:place>', 'The top mounting of the front suspension, on either side.'),
      fact('rear-suspension', '<at:place>', 'The top mounting of the rear suspension, on either side.'),
      fact('finish', '<finish:bare|paint|powder|zinc|galvanized|chrome>', 'How the cage is coated.'),
    ],
  }),
  kind('let', '<value:figure>', 'A named value, for sums that are used more than once.', {
    target: true,
    notInMirror: SHARED,
  }),
  kind('plane', '<name:name>', 'A flat in which nodes can be placed: hoops are bent flat and then leaned.', {
    block: 'facts',
    notInMirror: SHARED,
    facts: [
      fact('at', '<at:place>', 'The point from which `in PLANE (…)` is measured.'),
      fact('runs', '<runs:across|along>', 'across the car (holds left) or along it (holds forward).', {
        default: 'across',
      }),
      fact(
        'leans',
        '<lean:angle> <toward:aft|forward|out|in> | upright',
        'How far the plane leans from upright, and which way.',
        { default: 'upright', example: '6 deg aft' },
      ),
    ],
    needs: [['at']],
  }),
  kind('node', '<at:place>', 'A named place: corners and ends of tubes.', { target: true }),
  kind(
    'material',
    '<name:name>',
    'What a tube is made of. Without one: mild steel, 7850 kg/m3, 205 GPa, strength unknown.',
    {
      block: 'facts',
      notInMirror: SHARED,
      facts: [
        fact('yield', '<yield:stress > 0>', 'Yield strength.'),
        fact('tensile', '<tensile:stress > 0>', 'Tensile strength.'),
        fact('modulus', '<modulus:stress > 0>', "Young's modulus.", { default: '205 GPa' }),
        fact('density', '<density:density > 0>', 'Density.', { default: '7850 kg/m3' }),
        fact('kind', '<kind:word>', 'How the tube is made, such as cold-drawn-seamless.'),
        fact('carbon', '<carbon:share > 0>', 'Carbon in the steel.', { example: '0.2 %' }),
        fact('manganese', '<manganese:share > 0>', 'Manganese in the steel.', { example: '1.4 %' }),
        fact('others', '<others:share > 0>', 'The largest share of any other element.', { example: '0.3 %' }),
      ],
    },
  ),
  kind('section', '<name:name>', 'A tube size.', {
    block: 'facts',
    notInMirror: SHARED,
    facts: [
      fact('od', '<od:length > 0>', 'Outside diameter.'),
      fact('wall', '<wall:length > 0>', 'Wall thickness.'),
      fact('size', '<od:length > 0> x <wall:length > 0>', 'Outside diameter and wall in one: size 1 3/4 x .095.', {
        example: '1 3/4 x .095',
      }),
      fact('material', '<material:@material>', 'What it is made of.', { default: 'mild steel' }),
    ],
    needs: [
      ['od', 'size'],
      ['wall', 'size'],
    ],
    oneOf: [
      ['od', 'size'],
      ['wall', 'size'],
    ],
  }),
  kind('die', '<name:name>', 'A bending die.', {
    block: 'facts',
    notInMirror: SHARED,
    facts: [
      fact('od', '<od:length > 0>', 'The tube that it bends; fits within 0.3 mm.'),
      fact('radius', '<radius:length > 0>', 'Centreline radius of its bends.'),
      fact('grip', '<grip:length >= 0>', 'Straight that is held before the first bend.', { default: '0' }),
      fact('between', '<between:length >= 0>', 'Straight that is held between two bends.', { default: 'grip' }),
      fact('follow', '<follow:length >= 0>', 'Straight that is held after the last bend.', { default: 'grip' }),
      fact('springback', '<springback:angle >= 0>', 'Over-bend for a bend of 90 degrees.'),
    ],
    needs: [['od'], ['radius']],
  }),
  kind('stock', '<section:@section>', 'What the dealer sells of a section, and what lies in the rack.', {
    block: 'facts',
    notInMirror: SHARED,
    facts: [
      fact(
        'length',
        '<length:length > 0> [price <price:plain > 0>]',
        'A length that is sold, and what one stick costs.',
        {
          default: '6000 mm, without a price',
          example: '6000 price 84',
          many: true,
        },
      ),
      fact('price', '<price:plain > 0>', 'What one stick costs, where one length is sold; in any one currency.', {
        example: '84',
      }),
      fact('have', '<have:length > 0>, …', 'Offcuts in the rack, one figure to each: they are used first.', {
        example: '1450, 2200',
      }),
    ],
    needs: [['length', 'have']],
    needsWhen: [{ fact: 'length', withFact: 'price' }],
  }),
  kind('saw', '', 'The saw that the tubes are cut with.', {
    block: 'facts',
    notInMirror: WHOLE_FILE,
    once: true,
    facts: [
      fact('vice', '<vice:length > 0>', 'Straight tube that its vice has to hold beside the cut.', { example: '120' }),
      fact('kerf', '<kerf:length >= 0>', 'What the blade turns to dust at each cut.', {
        default: '3 mm',
        example: '2',
      }),
      fact('reach', '<reach:angle > 0>', 'The most that it is turned off square.', {
        default: '45 deg',
        example: '60 deg',
      }),
    ],
  }),
  kind('torch', '', 'The welding torch: what has to find room beside a joint.', {
    block: 'facts',
    notInMirror: WHOLE_FILE,
    once: true,
    facts: [
      fact('nozzle', '<nozzle:length > 0>', 'Outside of its nozzle or cup, at the widest.', {
        default: '18 mm',
        example: '16',
      }),
      fact('reach', '<reach:length > 0>', 'From the weld to where hand and hose begin: the straight that needs room.', {
        default: '90 mm',
        example: '60',
      }),
      fact('stick-out', '<stick-out:length >= 0>', 'From the weld to where the nozzle begins.', {
        default: '10 mm',
        example: '8',
      }),
      fact('lean', '<lean:angle >= 0>', 'The most that it leans from the middle of the groove, any way.', {
        default: '30 deg',
        example: '25 deg',
      }),
    ],
  }),
  kind(
    'tube',
    '<name:name> [as <role:role>]',
    'A tube: straight legs from node to node, each inner node the corner of a bend.',
    {
      example: 'harness-bar as harness-bar',
      block: 'facts',
      facts: [
        fact('section', '<section:@section>', 'Its size.'),
        fact('die', '<die:@die>', 'The die that bends it; wanted once the path turns.'),
        fact('path', '<path:@node>, …', 'Its nodes from end to end.'),
        fact('first', END, 'What the end at its first node is, where it is not what it would be taken for.', {
          example: 'onto main-hoop',
        }),
        fact('last', END, 'What the end at its last node is, where it is not what it would be taken for.', {
          example: 'past 30',
        }),
        fact(
          'split',
          'by <tube:@tube>',
          'Made in two aligned pieces, each coped to that tube: NAME.a with the first node, and NAME.b.',
          { example: 'by door-bar' },
        ),
        fact('existing', '<existing:yes|no>', 'Already in the car: others are coped to it, it gets no papers.', {
          default: 'no',
        }),
        fact('carries', '<carries:string>', 'What is led through it: a cage may carry nothing.', {
          default: 'nothing',
          example: '"brake line"',
        }),
        fact('finish', '<finish:bare|paint|powder|zinc|galvanized|chrome>', 'How this tube is coated.', {
          default: 'that of the vehicle',
        }),
      ],
      needs: [['section'], ['path']],
    },
  ),
  kind('foot', '<name:name>', 'A mounting plate on the shell, at the end of a tube.', {
    block: 'facts',
    facts: [
      fact('at', '<node:@node>', "The node, on the tube's side of the plate."),
      fact(
        'plate',
        '<long:length > 0> x <wide:length > 0> x <thick:length > 0> [turned <turned:angle>]',
        'Length fore and aft, width across, thickness; turned counter-clockwise seen from above.',
        { example: '140 x 100 x 3' },
      ),
      fact(
        'lies',
        'level | square | { <slope:angle> up <toward:aft|forward|out|in|left|right> }, …',
        'level, square across the tube, or rising this way; slopes add.',
        { default: 'level', example: '6.5 deg up aft, 3 deg up out' },
      ),
      fact('bolts', BOLTS, 'How many bolts, and which: a thread or a diameter, and its grade.', {
        example: '3 x M8 8.8',
      }),
      fact('bolts-at', '<at:pair>, …', "Where they stand, from the plate's middle along it and across it.", {
        example: '(forward 50, out 30), (forward 50, in 30), (aft 50, out 0)',
      }),
      fact('counter-plate', COUNTER_PLATE, 'The plate under it on the shell, or on the far side of the panel.', {
        example: '160 x 120 x 3 welded',
      }),
      fact('welded', '<welded:yes|no>', 'Whether it is welded to the shell, or to its counter-plate.'),
      fact('on', '<on:shell|frame>', 'What it stands on.', { default: 'shell' }),
      fact('hole', '<hole:length > 0>', "Hole through the plate into the tube's bore: it vents the first tube at it."),
    ],
    needs: [['at'], ['plate']],
  }),
  kind('welding', '', 'How the whole cage is welded.', {
    block: 'facts',
    notInMirror: WHOLE_FILE,
    judgedOnly: true,
    once: true,
    facts: [
      fact('process', '<process:tig|mig|mma|gas>', 'tig, mig, mma (stick), or gas.'),
      fact('weld', '<weld:round|part>', 'Whether every joint is welded all round.'),
      fact('ground', '<ground:yes|no>', 'Whether the welds are ground.'),
    ],
  }),
  kind('joint', '<nodes:@node>, …', 'Who is cut to whom at these nodes.', {
    block: 'facts',
    facts: [
      fact('order', '<tubes:@tube>, …', 'Each is cut to those before it; ends not listed come after.'),
      fact('weld', '<weld:round|part>', 'Whether the tubes are welded all round here, or only part of the way.', {
        default: 'that of welding',
      }),
    ],
    needs: [['order', 'weld']],
  }),
  kind(
    'vent',
    '<tube:@tube> -> air | <tube:@tube> -> <host:@tube>',
    "A hole that lets a tube's bore breathe: through the host's wall inside the joint, or to the open air.",
    {
      example: 'harness-bar -> main-hoop',
      block: 'facts',
      facts: [
        fact('at', '<node:@node>', 'The joint, by its node.'),
        fact('from', '<from:length >= 0>', 'To the air: how far from the node along the tube.'),
        fact('clock', '<clock:angle>', 'To the air: where round the tube, clockwise from its TOP or FRONT.', {
          default: '0',
        }),
        fact('dia', '<dia:length > 0>', 'Diameter of the hole.'),
        fact('plug', '<plug:word>', 'How it is closed after welding, such as weld.'),
      ],
      needs: [['at'], ['dia']],
      needsWhen: [{ fact: 'from', withHeadWord: 'air' }],
    },
  ),
  ...SEAT_KINDS,
  ...HARDWARE_KINDS,
  kind(
    'mirror',
    '<side:left|right>',
    'Everything in it exists on both sides, as NAME.left and NAME.right; the side named is the one it is written for.',
    {
      block: 'statements',
      notInMirror: 'mirrors do not stand in each other',
    },
  ),
  kind(
    'adjust',
    '<node:@node> by <move:triple>',
    "Moves a node's final value, what hangs on it follows: no shell is symmetric.",
    {
      example: 'foot.right by (down 4)',
      notInMirror: NAMES_SIDE,
    },
  ),
  kind(
    'waive',
    '[<book:@book>] <code:@code> on <name:@any> [<end:first|last>] [up to <bound:figure>] because <reason:string>',
    'Accepts a finding, with the reason; beyond the bound it counts again.',
    {
      example: 'strap.drop on driver-outer up to 12 deg because "seat shell is fixed"',
      notInMirror: NAMES_SIDE,
      judgedOnly: true,
    },
  ),
];
