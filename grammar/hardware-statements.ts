/**
 * DATA: the statements of what is welded, bolted, drilled and laid round a cage, and of what stands near it: what the
 * books ask for beside tubes, feet, seats and straps. Part of the vocabulary, see `statements.ts`.
 */
import { BOLT, fact, kind } from './entries';
import type { KindEntry } from './vocabulary-types';

const NO = { default: 'no' };

export const HARDWARE_KINDS: readonly KindEntry[] = [
  kind('gusset', '<name:name>', 'Stiffens the corner between two tubes that meet at a node.', {
    block: 'facts',
    facts: [
      fact('at', '<node:@node>', 'The node at which the two tubes meet.'),
      fact('between', '<tubes:@tube>, …', 'The two tubes that it ties.', { example: 'main-hoop, diagonal' }),
      fact(
        'legs',
        '<first:length > 0> x <second:length > 0>',
        'How far it reaches from the node along each of the two tubes, in their order.',
        { example: '120 x 120' },
      ),
      fact('thickness', '<thickness:length > 0>', 'Thickness of the sheet, or wall of the tube.'),
      fact(
        'kind',
        '<kind:sheet|tube|flat>',
        'sheet: bent to a U; flat: a triangle of flat plate; tube: a piece of tube.',
      ),
      fact('cut-out', '<radius:length > 0>', 'Radius of the cut-out at its apex.'),
      fact('hole', '<dia:length > 0>', 'Diameter of the hole in each flat side.'),
    ],
    needs: [['at'], ['between']],
  }),
  kind(
    'hole',
    '<tube:@tube> for <purpose:inspection|drain|bolt>',
    'A hole drilled into a tube from outside; those that let the bore breathe while it is welded are vents.',
    {
      example: 'main-hoop for inspection',
      block: 'facts',
      facts: [
        fact('at', '<node:@node>', 'The node on the tube from which it is measured.', { default: 'its first node' }),
        fact(
          'from',
          '<from:length >= 0>',
          'How far from that node along the tube: from an end inward, from a node between toward the last.',
          {
            default: '0',
          },
        ),
        fact('clock', '<clock:angle>', 'Where round the tube, clockwise from its TOP or FRONT.', { default: '0' }),
        fact('dia', '<dia:length > 0>', 'Diameter of the hole.'),
        fact('sleeve', '<sleeve:yes|no>', 'A sleeve is welded in, so that the bore stays closed.', NO),
        fact('plug', '<plug:word>', 'How it is closed afterwards, such as screw.', { default: 'it stays open' }),
      ],
      needs: [['at', 'from'], ['dia']],
    },
  ),
  kind('padding', '<tube:@tube>', 'Padding round a tube, where a helmet or a body can reach it.', {
    example: 'main-hoop',
    block: 'facts',
    facts: [
      fact('thickness', '<thickness:length > 0>', 'Its thickness.'),
      fact('from', '<from:length >= 0> to <to:length > 0>', 'Along the tube from its first node.', {
        default: 'the whole tube',
        example: '100 to 600',
      }),
      fact(
        'standard',
        'fia <fia:plain> | sfi <sfi:plain> | foam',
        'What it is certified to: FIA 8857 type A, SFI 45.1 or 45.2; foam: non-resilient foam without a certificate.',
        { example: 'sfi 45.1' },
      ),
      fact('flame-retardant', '<flame:yes|no>', 'Whether it is flame-retardant.'),
      fact('fixed', '<fixed:yes|no>', 'Whether it is held so that it cannot move on the tube.'),
    ],
    needs: [['thickness']],
  }),
  kind('fitting', '<name:name>', 'A removable joint at the end of a tube.', {
    block: 'facts',
    facts: [
      fact('tube', '<tube:@tube> <end:first|last>', 'The tube, and which of its ends.', { example: 'diagonal first' }),
      fact('kind', '<kind:clevis|muff|tapered|flange|lug>', 'How it is made.'),
      fact('shear', '<shear:single|double>', 'Whether the bolt is held on one side of the tube, or on both.'),
      fact('bolt', BOLT, 'Its bolt, or how many of which: thread or diameter, and grade.', { example: 'M10 8.8' }),
      fact('stand-off', '<stand:length >= 0>', 'From the centreline of the tube that it joins to the bolt.'),
      fact('drawing', '<drawing:string>', 'The drawing of the rulebook that it follows.', { example: '"253-37"' }),
      fact('welded', '<welded:yes|no>', 'Whether it is welded up once it is together.', NO),
      fact('bush', '<bush:yes|no>', 'Whether a bush for the bolt is welded into the tube.'),
    ],
    needs: [['tube'], ['kind']],
  }),
  kind('door', '<name:name>', 'The opening for a door in the shell, seen from the side.', {
    block: 'facts',
    facts: [
      fact('outline', '<outline:place>, …', 'Its corners, in the order of its edge.', {
        example: '(900, 700, 250), (-150, 700, 250), (-150, 650, 900), (300, 650, 900)',
      }),
    ],
    needs: [['outline']],
  }),
  kind(
    'panel',
    '<name:name> as <as:roof|pillar|side|floor|firewall|header|dashboard|steering-column>',
    'A part of the car that a rule measures to: its inside face, or an edge. header: the top of the windscreen frame.',
    {
      example: 'roof-skin as roof',
      block: 'facts',
      facts: [
        fact('outline', '<outline:place>, …', 'Two places: a line; more: a face, by its corners in order.', {
          example: '(200, 500, 1180), (200, -500, 1180), (-500, -500, 1180), (-500, 500, 1180)',
        }),
      ],
      needs: [['outline']],
    },
  ),
];
