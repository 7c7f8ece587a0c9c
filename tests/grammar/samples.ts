/** Texts for the tests of the grammar: one that uses every form of the language, and makers of texts at random. */
import fc from 'fast-check';
import { KINDS } from '../../grammar/vocabulary';
import { DIRECTIONS, FUNCTIONS, PHRASE_WORDS } from '../../grammar/words';
import { UNITS } from '../../grammar/units';

/** Tubes, seats and straps with every place form, rightly written. Invented. */
export const STRUCTURE = `cage "Siskin, every form"   # a comment
units mm
use "parts/seats.cage"
rules fia-253, shop
vehicle {
  mass 980 kg without driver
  body closed
  homologated "2006-04-01"
  cage self-built
  shell steel
  elapsed-time 11.49
}
welding { process tig; weld round; ground no }
let bar-height = 775
let slope = atan2(bar-height - 300, 2 * 410 + 3/4) / 2

material cds { yield 350 MPa; tensile 450 MPa; modulus 205 GPa; density 7850 kg/m3; kind cold-drawn-seamless; carbon 0.2 %; others 0.3 % }
section hoop { od 45; wall 2.5; material cds }
section club { size 1 3/4 x .095 in }
die d45 { od 45; radius 135; grip 90; between 60; follow 120; springback 2.1 deg }
plane hoop { at (0, 0, 118); runs across; leans 6 deg aft }

mirror left {
  node foot  = in hoop (out 596, up 0)
  node crown = in hoop (out 455, up 1010)   # where the bend is
  node top = on main-hoop at 60 before crown
  node low = on main-hoop at 420 from foot
  node share = on main-hoop at 35 %
  node middle = on main-hoop mid crown
  node level = on main-hoop where z = 690 near (0, 500, 690)
  node next-to = on main-hoop nearest foot + (aft 350, down 20, out 15)
  node meet = where brace meets main-hoop

  tube stay as backstay { section hoop; path top, low; last past 30 }
  foot plate {
    at foot
    plate 140 x 100 x 3 turned 20 deg
    lies 6.5 deg up aft, 3 deg up out
    bolts 3 x M8 8.8
    bolts-at (forward 50, out 30), (50, -30)
    counter-plate 160 x 120 x 3 welded
    welded yes
    on shell
    hole 8
  }
  vent stay -> air { at low; from 30; clock 180; dia 5; plug weld }
  vent stay -> main-hoop { at top; dia 5 }
}
node halfway = between foot.left and crown.right at 40 %
tube main-hoop as main-rollbar {
  section hoop
  die d45
  path foot.left, crown.left,   # the left side
    crown.right, foot.right
  first onto plate.left
  last open
  existing no
}
tube brace {
  section hoop
  path halfway, low.left
  split by main-hoop
}
joint top.left, low.right { order main-hoop, stay.left }

seat driver {
  hip (230, 345, 300)
  recline 12 to 25 deg
  slide -20 to 80
  yaw 3 deg in
  slot-height 545
  slot-spacing 220
  back 45
  shoulder (forward 110, up 35)
  yoke 30
  helmet (forward 60, up 280) radius 150
  elbow (forward 250, down 220)
  width 500
}
strap driver-outer { seat driver; slot outer; to brace; at y = 385; width 75; wrap under; hardware 110; collars 20 gap 1.5 }
collar clamp { on brace; at y = 525 - w; width 20 }
adjust foot.right by (down 4)
waive fia-253 strap.drop on driver-outer first up to 12 deg because "the \\"shell\\" is fixed"
`;

/** What is round them. */
export const HARDWARE = `mirror left {
  gusset web {
    at top
    between main-hoop, stay
    legs 120 x 110
    thickness 1.5
    kind sheet
    cut-out 40
    hole 20
  }
  hole main-hoop for inspection {
    at foot
    from 300
    clock 90
    dia 5
    sleeve no
    plug screw
  }
  padding main-hoop {
    thickness 25
    from 600 to 900
    standard fia 8857
    flame-retardant yes
    fixed yes
  }
  padding stay { thickness 1 in; standard sfi 45.1 }
  fitting pin {
    tube stay first
    kind clevis
    shear double
    bolt M10 8.8
    stand-off 35
    drawing "253-37"
    welded no
    bush yes
  }
  door front { outline (900, 700, 250), top + (down 200), (-150, 650, 900) }
}
panel skin as roof { outline crown.left, crown.right, (-500, 0, 1200) }
seat-mount rails {
  seat driver
  points 4
  bolts 4 x 3/8 in grade 5
  seat-bolts 4 x M8
  plate 80 x 60 x 3
  counter-plate 80 x 60 x 3 bonded
  material steel
  approved no
  load 15 kN
  quick-release 18 kN
}
anchor lap as lap {
  seat driver
  at (150, 555, 120)
  on brace
  plate 80 x 60 x 3
  bolt 2 x M12 10.9
  fixing eye
  series yes
  through-seat yes
  adjuster 40
  load 3300 lbf
}
`;

/** A club's own rulebook, with every form of its lines. */
const RULEBOOK = `rulebook siskin-club based on fia-253 {
  cite "Siskin Club, yearbook 2026"
  limit strap.drop from 0 to bar-height / 50 - 1/2
  limit strap.drop to 12 deg recommended cite "yearbook 2026, 4.2"
  limit foot.area from 120 cm2 of "hoop foot", "backstay foot"
  drop foot.bolts of "hoop foot"; drop tube.size
}
`;

/** Every statement and every place form. */
export const EVERYTHING = `${STRUCTURE}${HARDWARE}${RULEBOOK}`;

const WORDS = [
  ...KINDS.map((kind) => kind.name),
  ...KINDS.flatMap((kind) => kind.facts.map((fact) => fact.name)),
  ...Object.keys(FUNCTIONS),
  ...Object.keys(DIRECTIONS),
  ...Object.keys(PHRASE_WORDS),
  ...Object.keys(UNITS),
];
const SIGNS = [
  '{',
  '}',
  '(',
  ')',
  ',',
  ';',
  '=',
  '+',
  '-',
  ' - ',
  '*',
  '/',
  '.',
  '->',
  '"',
  '#',
  '\n',
  '\r\n',
  '\r',
  ' ',
  '\t',
];
const ODD = ['°', '½', '×', '\u0000', '\ufeff', 'é', 'e\u0301', '😀', '\ud800', '“', '\u00a0', 'µm', '\\', '\u2028'];
const NUMBERS = ['1', '38', '.095', '1 3/4', '3/4', '1-1/2', '12,5', '45x2.5', '3xM8', '1/0', '45°', '1.5"', '4.'];

/** Pieces of the language and of other languages in any order. */
export const jumble = fc
  .array(
    fc.oneof(
      fc.constantFrom(...WORDS),
      fc.constantFrom(...SIGNS),
      fc.constantFrom(...NUMBERS),
      fc.constantFrom(...ODD),
    ),
    {
      maxLength: 60,
    },
  )
  .chain((pieces) =>
    fc
      .array(fc.constantFrom('', ' ', '\n'), { minLength: pieces.length, maxLength: pieces.length })
      .map((gaps) => pieces.map((piece, i) => `${piece}${gaps[i] ?? ''}`).join('')),
  );

/** Any characters, and any bytes read as UTF-8. */
export const anything = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 200 }),
  fc.uint8Array({ maxLength: 200 }).map((bytes) => new TextDecoder().decode(bytes)),
);

/** A sound text with a few pieces cut out, put in or doubled. */
export const damaged = fc
  .array(
    fc.record({
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      length: fc.integer({ min: 0, max: 12 }),
      put: fc.oneof(
        fc.constant(''),
        fc.constantFrom(...SIGNS),
        fc.constantFrom(...ODD),
        fc.constantFrom(...NUMBERS),
        fc.constantFrom(...WORDS),
      ),
    }),
    { minLength: 1, maxLength: 6 },
  )
  .map((cuts) =>
    cuts.reduce((text, { at, length, put }) => {
      const where = Math.floor(at * text.length);
      return text.slice(0, where) + put + text.slice(where + length);
    }, EVERYTHING),
  );

export const anyText = fc.oneof(anything, jumble, damaged);
