/**
 * DATA: the statements of seats, their mountings, and the harness. Part of the vocabulary, see `statements.ts`.
 */
import { BOLT, BOLTS, COUNTER_PLATE, fact, kind, PLATE } from './entries';
import type { KindEntry } from './vocabulary-types';

export const SEAT_KINDS: readonly KindEntry[] = [
  kind('seat', '<name:name>', 'A seat, for the straps and for the room behind it.', {
    block: 'facts',
    facts: [
      fact('hip', '<hip:place>', 'Hip point of the driver.'),
      fact('slots', '<slots:place>', "Midway between the shoulder slots' lower front edges, which a tape can reach."),
      fact(
        'recline',
        '<recline:angle> [to <last:angle>]',
        'Angle of the back from vertical, aft; as far as the second, where it reclines. It stands and is judged at the first.',
        { example: '12 to 25 deg' },
      ),
      fact(
        'slide',
        '<from:length> to <to:length>',
        'How far it slides forward of what is written (aft: less than 0). It stands and is judged where it is written.',
        { default: 'it does not', example: '0 to 80' },
      ),
      fact('yaw', '<yaw:angle> [<toward:in|out|left|right>]', 'Which way the seat faces off straight ahead.', {
        default: '0',
        example: '3 deg in',
      }),
      fact('slot-height', '<height:length > 0>', "With hip: up the back line to the slots' lower edges."),
      fact('slot-spacing', '<spacing:length > 0>', 'Between the middles of the two shoulder slots.'),
      fact('back', '<back:length >= 0>', 'Thickness of the shell at the slots.'),
      fact('shoulder', '<shoulder:triple>', "Top of the driver's shoulder, from each slot, in the car's frame.", {
        example: '(forward 110, up 35)',
      }),
      fact('yoke', '<yoke:length >= 0>', 'Height of the yoke of a head restraint above the shoulder.'),
      fact(
        'helmet',
        '<offset:triple> radius <radius:length > 0>',
        "A ball round the driver's helmet: its middle from midway between the slots, in the car's frame.",
        { example: '(forward 60, up 280) radius 150' },
      ),
      fact('elbow', '<elbow:triple>', "The driver's elbow, from each slot, in the car's frame.", {
        example: '(forward 250, down 220)',
      }),
      fact('shoulder-width', '<width:length > 0>', "Across the driver's shoulders."),
      fact('width', '<width:length > 0>', 'Outside width of the shell at the hips.'),
      fact('cushion', '<cushion:length >= 0>', 'Thickness of the cushion between shell and driver.'),
    ],
    needs: [['hip', 'slots'], ['recline'], ['slot-spacing'], ['back']],
    needsWhen: [{ fact: 'slot-height', withFact: 'hip' }],
    oneOf: [['hip', 'slots']],
  }),
  kind('strap', '<name:name>', 'A shoulder strap, from a slot of the seat to the bar that it is wrapped on.', {
    block: 'facts',
    facts: [
      fact('seat', '<seat:@seat>', 'The seat that it belongs to.'),
      fact(
        'slot',
        '<slot:left|right|outer|inner>',
        'The slot that it leaves by; outer is the one farther from the centreline.',
      ),
      fact('to', '<tube:@tube>', 'The tube that it is wrapped on.'),
      fact('at', '<at:plane>', 'Where on that tube its middle lies.', {
        default: 'straight behind the slot',
        example: 'y = 480',
      }),
      fact('width', '<width:length > 0>', 'Width of the webbing.'),
      fact('wrap', '<wrap:over|under>', 'Whether it passes over or under the tube first.', { default: 'over' }),
      fact('hardware', '<hardware:length >= 0>', 'Straight run that the adjuster and the slider need.'),
      fact(
        'collars',
        '<width:length > 0> [gap <gap:length >= 0>]',
        'A clamp of this width on each side, this clear of the webbing.',
        { example: '20 gap 1.5' },
      ),
      fact('fixing', '<fixing:wrap|bolt>', 'Wrapped round the tube, or bolted to it.', { default: 'wrap' }),
      fact('bolt', BOLT, 'With fixing bolt: which, and its grade.', { example: 'M12 8.8' }),
      fact('insert', '<insert:yes|no>', 'With fixing bolt: a threaded insert is welded into the tube.'),
      fact('slider', '<slider:length >= 0>', 'From the tube to the three-bar slide.'),
      fact('locked', '<locked:yes|no>', 'Whether the strap is led back through the slide once more.'),
      fact('tail', '<tail:length >= 0>', 'Free end behind the slide.'),
      fact(
        'adjuster',
        '<adjuster:length >= 0>',
        'From the collarbone (with a yoke, from its end) down to the adjuster.',
      ),
    ],
    needs: [['seat'], ['slot'], ['to'], ['width']],
  }),
  kind('collar', '<name:name>', 'A clamp on a tube.', {
    block: 'facts',
    facts: [
      fact('on', '<tube:@tube>', 'The tube that it is clamped on.'),
      fact('at', '<at:plane>', 'Where on that tube its middle lies.', { example: 'y = 525' }),
      fact('width', '<width:length > 0>', 'Its width along the tube.'),
    ],
    needs: [['on'], ['at'], ['width']],
  }),
  kind('seat-mount', '<name:name>', 'What holds a seat to the car.', {
    block: 'facts',
    facts: [
      fact('seat', '<seat:@seat>', 'The seat.'),
      fact('points', '<points:count > 0>', 'How many points hold its supports to the shell.'),
      fact('bolts', BOLTS, 'Supports to shell: how many bolts, and which.', { example: '4 x M8 8.8' }),
      fact('seat-bolts', BOLTS, 'Seat to supports: how many bolts, and which.', { example: '4 x M8 8.8' }),
      fact('plate', PLATE, 'Where each support meets the shell: length, width, and thickness of the support.', {
        example: '80 x 60 x 3',
      }),
      fact('counter-plate', COUNTER_PLATE, 'The plate on the far side of the panel at each point.', {
        example: '80 x 60 x 3 welded',
      }),
      fact('material', '<material:steel|aluminium>', 'What the supports are made of.'),
      fact('approved', '<approved:yes|no>', 'Whether the maker of the seat approves these supports.'),
      fact('load', '<load:force > 0>', 'The load that each point is proved for.', { example: '15 kN' }),
      fact('quick-release', '<release:force > 0>', 'The load that a quick release is proved for.', {
        example: '18 kN',
      }),
    ],
    needs: [['seat']],
  }),
  kind(
    'anchor',
    '<name:name> as <as:lap|crotch|shoulder>',
    'Where a strap of the harness is anchored. A shoulder strap that is wrapped on a bar is a strap.',
    {
      example: 'lap-outer as lap',
      block: 'facts',
      facts: [
        fact('seat', '<seat:@seat>', 'The seat that it belongs to.'),
        fact('at', '<at:place>', 'Where it is.'),
        fact('on', '<tube:@tube>', 'The tube that it is on.', { default: 'the shell' }),
        fact('plate', PLATE, 'The plate that spreads its load.', { example: '80 x 60 x 3' }),
        fact('bolt', BOLT, 'Its bolt: thread or diameter, and grade.', { example: 'M12 8.8' }),
        fact('fixing', '<fixing:bolt|eye|wrap>', 'A bolted bracket, a snap hook in an eye bolt, or wrapped on a tube.'),
        fact('series', '<series:yes|no>', 'Whether the maker of the car put it there.'),
        fact('through-seat', '<through:yes|no>', 'Whether the strap passes through the seat, not over its side.'),
        fact('adjuster', '<adjuster:length >= 0>', 'From the opening of the seat out to the adjuster.'),
        fact('load', '<load:force > 0>', 'The load that it is proved for.', { example: '15 kN' }),
      ],
      needs: [['seat'], ['at']],
    },
  ),
];
