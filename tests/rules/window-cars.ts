/** Cars whose harness bar can be written anywhere in side view, and whose seats can be written at any recline and slide. */
import { RULE_CODES, type RuleCode } from '../../grammar/rule-codes';
import type { PlacedFinding } from '../../grammar/finding';
import { booksOf } from '../../server/rules/library';
import type { Limit } from '../../server/rules/rule';
import { PLACE_CODES } from '../../server/rules/window/demands';
import type { Analysis } from '../../server/project/project';

export interface Place {
  /** In the car's own unit. */
  readonly x: number;
  readonly z: number;
  /** Degrees; forward in the car's own unit. */
  readonly recline?: number;
  readonly slide?: number;
}

export interface WindowCar {
  readonly name: string;
  /** Millimetres of the unit that it is written in. */
  readonly unit: number;
  /** Where the bar is drawn. */
  readonly bar: Place;
  /** With one setting of the seat, or with its whole ranges. */
  readonly text: (place: Place, ranges: boolean) => string;
  /** Places on a grid over each of its windows. */
  readonly rate: number;
  /** The settings that are tried; one without recline and slide where the seat is fixed. */
  readonly settings: readonly Pick<Place, 'recline' | 'slide'>[];
}

const n = (value: number): string => value.toFixed(7);
const FIXED = [{}];

const belts = (seat: string, side: string, ats: readonly [string, string], more = ''): string =>
  `strap ${side}l { seat ${seat}; slot left; to bar; ${ats[0]}width 75; hardware 110; collars 20 gap 1${more} }
strap ${side}r { seat ${seat}; slot right; to bar; ${ats[1]}width 75; hardware 100; collars 20 gap 1${more} }
`;

/** A straight bar with open ends. */
const straight = ({ x, z }: Place, od = 38, wide = 700): string => `section t { od ${String(od)}; wall 2.5 }
node a = (${n(x)}, ${String(wide)}, ${n(z)})
node b = (${n(x)}, ${String(-wide)}, ${n(z)})
tube bar as harness-bar { section t; path a, b; first open; last open }
`;

/** A hoop, and a bar that is bent back from it to where the straps lie: clear of its bends wherever it is written. */
const bent = ({ x, z }: Place): string => `section t45 { od 45; wall 2.5 }
section t { od 38; wall 2.5 }
die d45 { od 45; radius 135 }
die d38 { od 38; radius 114 }
plane hoop { at (0, 0, 60); leans 3 deg aft }
mirror left {
  node foot = in hoop (out 600, up 0)
  node waist = in hoop (out 640, up 480)
  node crown = in hoop (out 520, up 1100)
  node bar-end = on main-hoop where z = ${n(z)}
  node bar-bend = (${n(x)}, 540, ${n(z)})
}
tube main-hoop as main-rollbar {
  section t45
  die d45
  path foot.left, waist.left, crown.left, crown.right, waist.right, foot.right
}
tube bar as harness-bar { section t; die d38; path bar-end.left, bar-bend.left, bar-bend.right, bar-end.right }
`;

const RECLINES = [12, 14.6, 17.2, 19.8, 22.4, 25];
const SLIDES = [0, 40, 80];

export const WINDOW_CARS: readonly WindowCar[] = [
  {
    name: 'one seat by its slots, fia-253 and shop',
    rate: 600,
    unit: 1,
    bar: { x: 20, z: 720 },
    settings: FIXED,
    text: (place) => `cage "A"
rules fia-253, shop
${straight(place)}seat s { slots (240, 0, 760); recline 12 deg; slot-spacing 220; back 40 }
${belts('s', '', ['', ''])}`,
  },
  {
    name: 'a yawed seat with shoulder and yoke, harness makers and two clubs',
    rate: 600,
    unit: 1,
    bar: { x: 30, z: 740 },
    settings: FIXED,
    text: (place) => `cage "B"
rules harness-makers, nasa-ccr, nhra, shop
${straight(place, 42)}seat s { slots (260, 310, 790); recline 20 deg; yaw 5 deg in; slot-spacing 230; back 45; shoulder (forward 110, up 25); yoke 28 }
${belts('s', '', ['at y = 360; ', 'at y = 250; '])}`,
  },
  {
    name: 'in inches, the webbing led under the bar',
    rate: 400,
    unit: 25.4,
    bar: { x: 1, z: 29 },
    settings: FIXED,
    text: ({ x, z }) => `cage "C"
units in
rules scca-gcr, fia-253, shop
section t { od 1 3/4; wall .120 }
node a = (${n(x)}, 26, ${n(z)})
node b = (${n(x)}, -26, ${n(z)})
tube bar as harness-bar { section t; path a, b; first open; last open }
seat s { slots (9 1/2, 12, 30 1/8); recline 14 deg; slot-spacing 8 1/4; back 1 3/4; shoulder (forward 4 1/4, up 1) }
strap l { seat s; slot left; to bar; wrap under; width 3; hardware 4; collars 3/4 gap 1/16 }
strap r { seat s; slot right; to bar; wrap under; width 3; hardware 3 1/2; collars 3/4 gap 1/16 }
`,
  },
  {
    name: 'two seats by their hips on one bent bar',
    rate: 120,
    unit: 1,
    bar: { x: -150, z: 756 },
    settings: FIXED,
    text: (place) => `cage "D"
rules fia-253, shop
${bent(place)}seat d { hip (275, 345, 262); recline 18 deg; slot-height 560; slot-spacing 210; back 45; shoulder (forward 110, up 30) }
seat p { hip (250, -345, 262); recline 20 deg; slot-height 560; slot-spacing 210; back 45; shoulder (forward 110, up 30) }
${belts('d', 'd', ['at y = 395; ', 'at y = 275; '])}${belts('p', 'p', ['at y = -285; ', 'at y = -395; '])}`,
  },
  {
    name: 'a seat that reclines and slides',
    rate: 80,
    unit: 1,
    bar: { x: -60, z: 770 },
    settings: RECLINES.flatMap((recline) => SLIDES.map((slide) => ({ recline, slide }))),
    text: (place, ranges) => `cage "E"
rules fia-253, shop
${straight(place)}seat s {
  hip (${n(300 + (ranges ? 0 : (place.slide ?? 0)))}, 0, 262)
  recline ${ranges ? '12 to 25 deg' : `${n(place.recline ?? 12)} deg`}
  ${ranges ? 'slide 0 to 80' : ''}
  slot-height 560
  slot-spacing 210
  back 40
}
${belts('s', '', ['at y = 90; ', 'at y = -90; '])}`,
  },
  {
    name: 'a bar that has to meet the diagonal',
    rate: 300,
    unit: 1,
    bar: { x: 0, z: 700 },
    settings: FIXED,
    text: (place) => `cage "F"
rules nasa-ccr, harness-makers
${straight(place)}node top = (-10, 400, 1150)
node low = (-40, -500, 150)
tube cross as diagonal { section t; path top, low; first open; last open }
seat s { slots (210, 300, 770); recline 10 deg; slot-spacing 200; back 30; shoulder (forward 100, up 20) }
${belts('s', '', ['', ''])}`,
  },
];

const isRule = (code: string): code is RuleCode => Object.hasOwn(RULE_CODES, code);

/** The limit of the chosen books that a finding tells. */
function limitOf({ cage }: Analysis, finding: PlacedFinding): Limit | undefined {
  const book = booksOf(cage).find(({ name }) => name === finding.rule?.book);
  const limits = (book?.limits ?? []).filter(
    ({ code, severity, citation }) =>
      code === finding.code && severity === finding.severity && citation === finding.rule?.citation,
  );
  const exact = limits.find(
    ({ allowed }) => allowed.from === finding.allowed?.from && allowed.to === finding.allowed.to,
  );
  return exact ?? limits[0];
}

/**
 * Whether the books, judging the car as it is written, have anything against where its bar is. `apart`: what the window
 * says is broken wherever the bar lies, as `code subject`.
 */
export function judged(
  analysis: Analysis,
  apart: ReadonlySet<string>,
): { readonly required: boolean; readonly preferred: boolean } {
  let [required, preferred] = [true, true];
  for (const finding of analysis.findings) {
    if (finding.code === 'strap.misses-bar') return { required: false, preferred: false };
    if (!isRule(finding.code) || !PLACE_CODES.has(finding.code) || finding.rule === undefined) continue;
    if (apart.has(`${finding.code} ${finding.subject}`)) continue;
    if (finding.code === 'seat.gap' && finding.params['tube'] !== 'bar') continue;
    const limit = limitOf(analysis, finding);
    if (limit?.force === 'recommends') preferred = false;
    else if (finding.severity !== 'information') [required, preferred] = [false, false];
  }
  return { required, preferred };
}
