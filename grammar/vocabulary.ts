/**
 * DATA: the statements of the language and their facts, the one place to add one. Validator, completion, hover,
 * snippets, formatter, colours and the reference page are made from this table; nothing in it is written twice.
 *
 * Patterns are written as a fabricator would write the line, read once by `pattern.ts`:
 *   `word`            stands as it is
 *   `<od:length>`     a value with a name and a type; `<od:length > 0>` with a limit (in the unit inside: mm, rad, kg…)
 *   `<side:left|right>`   one of these words
 *   `a x b`           measures of one thing
 *   `[ … ]`           may be left out
 *   `… | …`           one or the other (at the top of a pattern)
 *   `<n:node>, …`     a list, one to each comma; `{ <a:angle> up }, …` a list of phrases
 * Types: length angle plain count mass stress density figure (any dimension); place triple plane string; name (a new
 * one); bolt (M8); `@node`, `@tube`, … the name of a thing that stands elsewhere ({@link NAME_SPACES}).
 */

/** What a name in a value may point at; `@any` is any thing of the car, `@host` a tube or a foot. */
export const NAME_SPACES = {
  node: 'a node',
  tube: 'a tube',
  foot: 'a foot',
  host: 'a tube or a foot',
  seat: 'a seat',
  strap: 'a strap',
  collar: 'a collar',
  any: 'a thing of the car',
  plane: 'a plane',
  material: 'a material',
  section: 'a section',
  die: 'a die',
  book: 'a rulebook',
  code: 'the code of a finding',
} as const satisfies Record<string, string>;
export type NameSpace = keyof typeof NAME_SPACES;

/** The part that a tube plays; `brace` where nothing is said. */
export const ROLES = {
  'main-rollbar': 'the hoop behind the front seats',
  'front-rollbar': 'the hoop along the windscreen pillars and over the top of the screen',
  'lateral-rollbar': 'a hoop along one side: windscreen pillar, roof edge and rear leg',
  'half-lateral': 'front pillar and roof edge of one side, landing on the main hoop',
  longitudinal: 'a tube along the car that joins front and main hoop',
  transverse: 'a tube across the car that joins the two sides',
  backstay: 'runs from the top of the main hoop down to the rear',
  diagonal: 'across the main hoop from an upper corner to the opposite foot',
  'backstay-diagonal': 'across the two backstays',
  'door-bar': 'in the door opening',
  'harness-bar': 'the shoulder straps are wrapped on it',
  'roof-bar': 'in the roof, between the hoops',
  'pillar-bar': 'stiffens the windscreen pillar at its bend',
  'dash-bar': 'across the car below the windscreen',
  'sill-bar': 'along the door sill',
  'front-extension': 'runs on to the front suspension',
  brace: 'any other tube',
} as const satisfies Record<string, string>;
export type Role = keyof typeof ROLES;

export interface FactEntry {
  readonly name: string;
  readonly pattern: string;
  readonly meaning: string;
  /** What holds without it, as a person would write it; null: nothing is assumed. */
  readonly default: string | null;
}

export interface KindEntry {
  readonly name: string;
  /** Pattern of what follows the word; for `node` and `let` of what follows the `=`. */
  readonly head: string;
  /** `NAME =` stands between the word and the pattern. */
  readonly target: boolean;
  readonly meaning: string;
  /** Whether `{ … }` follows. `statements`: with statements in it. */
  readonly block: 'none' | 'facts' | 'statements';
  /** Why it cannot stand inside mirror; null: it can. */
  readonly notInMirror: string | null;
  /** Counts only in the file that is judged. */
  readonly judgedOnly: boolean;
  /** At most one a file. */
  readonly once: boolean;
  readonly facts: readonly FactEntry[];
  /** Facts that are needed: of each inner list, one. */
  readonly needs: readonly (readonly string[])[];
  /** Facts that are needed where a condition holds: another fact is written, or a word stands in the head. */
  readonly needsWhen: readonly { readonly fact: string; readonly withFact?: string; readonly withHeadWord?: string }[];
  /** Facts that say the same: at most one of each inner list. */
  readonly oneOf: readonly (readonly string[])[];
}

const fact = (name: string, pattern: string, meaning: string, byDefault: string | null = null): FactEntry => ({
  name,
  pattern,
  meaning,
  default: byDefault,
});

const kind = (name: string, head: string, meaning: string, more: Partial<KindEntry> = {}): KindEntry => ({
  name,
  head,
  meaning,
  target: false,
  block: 'none',
  notInMirror: null,
  judgedOnly: false,
  once: false,
  facts: [],
  needs: [],
  needsWhen: [],
  oneOf: [],
  ...more,
});

const WHOLE_FILE = 'it is said once for the whole file';
const SHARED = 'it is the same on both sides; write it outside';
const NAMES_SIDE = 'it names its side itself; write it outside';

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
      ),
      fact('body', '<body:closed|open>', 'Whether the car has a roof.'),
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
      fact('runs', '<runs:across|along>', 'across the car (holds left) or along it (holds forward).', 'across'),
      fact(
        'leans',
        '<lean:angle> <toward:aft|forward|out|in> | upright',
        'How far the plane leans from upright, and which way.',
        'upright',
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
        fact('modulus', '<modulus:stress > 0>', "Young's modulus.", '205 GPa'),
        fact('density', '<density:density > 0>', 'Density.', '7850 kg/m3'),
        fact('kind', '<kind:word>', 'How the tube is made, such as cold-drawn-seamless.'),
      ],
    },
  ),
  kind('section', '<name:name>', 'A tube size.', {
    block: 'facts',
    notInMirror: SHARED,
    facts: [
      fact('od', '<od:length > 0>', 'Outside diameter.'),
      fact('wall', '<wall:length > 0>', 'Wall thickness.'),
      fact('size', '<od:length > 0> x <wall:length > 0>', 'Outside diameter and wall in one: size 1 3/4 x .095.'),
      fact('material', '<material:@material>', 'What it is made of.', 'mild steel'),
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
      fact('grip', '<grip:length >= 0>', 'Straight that is held before the first bend.', '0'),
      fact('between', '<between:length >= 0>', 'Straight that is held between two bends.', 'grip'),
      fact('follow', '<follow:length >= 0>', 'Straight that is held after the last bend.', 'grip'),
      fact('springback', '<springback:angle >= 0>', 'Over-bend for a bend of 90 degrees.'),
    ],
    needs: [['od'], ['radius']],
  }),
  kind(
    'tube',
    '<name:name> [as <role:role>]',
    'A tube: straight legs from node to node, each inner node the corner of a bend.',
    {
      block: 'facts',
      facts: [
        fact('section', '<section:@section>', 'Its size.'),
        fact('die', '<die:@die>', 'The die that bends it; wanted once the path turns.'),
        fact('path', '<path:@node>, …', 'Its nodes from end to end.'),
        fact(
          'first',
          'onto <hosts:@host>, … | open | past <length:length>',
          'What the end at its first node is, where it is not what it would be taken for.',
        ),
        fact(
          'last',
          'onto <hosts:@host>, … | open | past <length:length>',
          'What the end at its last node is, where it is not what it would be taken for.',
        ),
        fact(
          'split',
          'by <tube:@tube>',
          'Made in two aligned pieces, each coped to that tube: NAME.a with the first node, and NAME.b.',
        ),
        fact('existing', '<existing:yes|no>', 'Already in the car: others are coped to it, it gets no papers.', 'no'),
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
      ),
      fact(
        'lies',
        'level | square | { <slope:angle> up <toward:aft|forward|out|in|left|right> }, …',
        'level, square across the tube, or rising this way; slopes add.',
        'level',
      ),
      fact('bolts', '<count:count > 0> x <bolt:bolt>', 'How many bolts, and which.'),
      fact('hole', '<hole:length > 0>', "Hole through the plate into the tube's bore: it vents the first tube at it."),
    ],
    needs: [['at'], ['plate']],
  }),
  kind('joint', '<nodes:@node>, …', 'Who is cut to whom at these nodes.', {
    block: 'facts',
    facts: [fact('order', '<tubes:@tube>, …', 'Each is cut to those before it; ends not listed come after.')],
    needs: [['order']],
  }),
  kind(
    'vent',
    '<tube:@tube> -> air | <tube:@tube> -> <host:@tube>',
    "A hole that lets a tube's bore breathe: through the host's wall inside the joint, or to the open air.",
    {
      block: 'facts',
      facts: [
        fact('at', '<node:@node>', 'The joint, by its node.'),
        fact('from', '<from:length >= 0>', 'To the air: how far from the node along the tube.'),
        fact('clock', '<clock:angle>', 'To the air: where round the tube, clockwise from its TOP or FRONT.', '0'),
        fact('dia', '<dia:length > 0>', 'Diameter of the hole.'),
        fact('plug', '<plug:word>', 'How it is closed after welding, such as weld.'),
      ],
      needs: [['at'], ['dia']],
      needsWhen: [{ fact: 'from', withHeadWord: 'air' }],
    },
  ),
  kind('seat', '<name:name>', 'A seat, for the straps and for the room behind it.', {
    block: 'facts',
    facts: [
      fact('hip', '<hip:place>', 'Hip point of the driver.'),
      fact('slots', '<slots:place>', "Midway between the shoulder slots' lower front edges, which a tape can reach."),
      fact('recline', '<recline:angle>', 'Angle of the back from vertical, aft.'),
      fact('yaw', '<yaw:angle> [<toward:in|out|left|right>]', 'Which way the seat faces off straight ahead.', '0'),
      fact('slot-height', '<height:length > 0>', "With hip: up the back line to the slots' lower edges."),
      fact('slot-spacing', '<spacing:length > 0>', 'Between the middles of the two shoulder slots.'),
      fact('back', '<back:length >= 0>', 'Thickness of the shell at the slots.'),
      fact('shoulder', '<shoulder:triple>', "Top of the driver's shoulder, from each slot, in the car's frame."),
      fact('yoke', '<yoke:length >= 0>', 'Height of the yoke of a head restraint above the shoulder.'),
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
      fact('at', '<at:plane>', 'Where on that tube its middle lies.', 'straight behind the slot'),
      fact('width', '<width:length > 0>', 'Width of the webbing.'),
      fact('wrap', '<wrap:over|under>', 'Whether it passes over or under the tube first.', 'over'),
      fact('hardware', '<hardware:length >= 0>', 'Straight run that the adjuster and the slider need.'),
      fact(
        'collars',
        '<width:length > 0> [gap <gap:length >= 0>]',
        'A clamp of this width on each side, this clear of the webbing.',
      ),
    ],
    needs: [['seat'], ['slot'], ['to'], ['width']],
  }),
  kind('collar', '<name:name>', 'A clamp on a tube.', {
    block: 'facts',
    facts: [
      fact('on', '<tube:@tube>', 'The tube that it is clamped on.'),
      fact('at', '<at:plane>', 'Where on that tube its middle lies.'),
      fact('width', '<width:length > 0>', 'Its width along the tube.'),
    ],
    needs: [['on'], ['at'], ['width']],
  }),
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
      notInMirror: NAMES_SIDE,
    },
  ),
  kind(
    'waive',
    '[<book:@book>] <code:@code> on <name:@any> [<end:first|last>] [up to <bound:figure>] because <reason:string>',
    'Accepts a finding, with the reason; beyond the bound it counts again.',
    {
      notInMirror: NAMES_SIDE,
      judgedOnly: true,
    },
  ),
];

/** By name. */
export const KIND_BY_NAME: ReadonlyMap<string, KindEntry> = new Map(KINDS.map((entry) => [entry.name, entry]));

/** Words that are a fact of some statement. */
export const FACT_NAMES: ReadonlySet<string> = new Set(KINDS.flatMap((entry) => entry.facts.map((one) => one.name)));
