/** Roll bars and cages of random sizes with one thing wrong in each, for the fixes that solve. Invented cars. */

import type { Code } from '../../grammar/codes';

/** A stream of numbers in [0, 1) from a seed: mulberry32, in the public domain. */
export function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** What is made wrong in a car, and the codes that tell of it where a chosen book asks. */
export const FAULTS = {
  'bar-low': ['strap.drop'],
  'bar-high': ['strap.drop', 'strap.shoulder-angle', 'strap.shoulder-drop', 'strap.bar-drop'],
  'bar-forward': ['strap.free-run', 'seat.gap'],
  'strap-aside': ['strap.spread', 'strap.skew'],
  'strap-near': ['strap.overlap'],
  'collar-away': ['strap.can-slide'],
  'diagonal-top': ['diagonal.top', 'diagonal.corner'],
  'diagonal-bottom': ['diagonal.bottom'],
  'stay-steep': ['backstay.angle'],
  'stay-low': ['backstay.drop', 'backstay.crown'],
  'hoop-lean': ['hoop.tilt'],
  'plate-small': ['foot.area', 'foot.side'],
  'plate-thin': ['foot.thickness', 'foot.tube-wall'],
  'bolts-few': ['foot.bolts'],
  'bolts-small': ['foot.bolt-size'],
  'vent-large': ['vent.too-large'],
  'die-small': ['bend.radius'],
  'wall-thin': ['tube.size'],
  'bends-near': ['cope.into-own-bend', 'bend.overlap', 'bend.between'],
  'roof-end': ['roof.ends'],
} as const satisfies Record<string, readonly Code[]>;
export type Fault = keyof typeof FAULTS;
export const FAULT_NAMES = Object.keys(FAULTS) as readonly Fault[];

const BOOKS = [
  'fia-253',
  'fia-253',
  'fia-253, shop',
  'fia-253, harness-makers, shop',
  'fia-253, scca-gcr',
  'nasa-ccr, shop',
  'scca-solo, nhra, shop',
  'fia-253, scca-gcr, nasa-ccr, nhra, harness-makers, shop',
];

/** A car with one fault; the same for the same seed. */
export function randomCar(seed: number, fault: Fault): string {
  const next = numbers(seed);
  const between = (from: number, to: number): number => Math.round(from + (to - from) * next());
  const pick = <T>(list: readonly [T, ...T[]]): T => list[Math.floor(next() * list.length)] ?? list[0];
  const inches = next() < 0.3;
  const wrong = (it: Fault): boolean => it === fault;
  /** A length as the file writes it: millimetres, or the nearest sixteenth of an inch. */
  const len = (mm: number): string => {
    if (!inches) return String(mm);
    const sixteenths = Math.round((Math.abs(mm) / 25.4) * 16);
    const [whole, rest] = [Math.floor(sixteenths / 16), sixteenths % 16];
    const text =
      rest === 0 ? String(whole) : whole === 0 ? `${String(rest)}/16` : `${String(whole)} ${String(rest)}/16`;
    return mm < 0 ? `-${text}` : text;
  };
  const raw = (mm: number): string => (inches ? `${String(mm)} mm` : String(mm));

  const lean = wrong('hoop-lean') ? between(11, 14) : between(2, 6);
  // A straight bar lies in the plane of the hoop, where a diagonal would be in its way.
  const bent = next() < 0.75 || wrong('bends-near') || wrong('diagonal-top') || wrong('diagonal-bottom');
  const slots = [between(30, 50), between(305, 320), between(772, 795)] as const;
  const drop = between(4, 9);
  const aft = wrong('bar-forward') ? between(50, 95) : between(165, 175);
  const barX = slots[0] - 45 - aft;
  const height =
    Math.round(slots[2] - (aft + 45) * Math.tan((drop * Math.PI) / 180) - 18) +
    (wrong('bar-low') ? -between(15, 60) : wrong('bar-high') ? between(25, 60) : 0);
  const style = pick(['let', 'numbers', 'offset'] as const);
  const at = bent ? 0 : barX + height * Math.tan((lean * Math.PI) / 180);
  const [foot, waist, crown] = [between(590, 620), between(620, 645), between(450, 500)];
  const top = between(1020, 1080);
  const inner = wrong('strap-near') ? slots[1] + between(20, 60) : slots[1] - 62;
  const outer = wrong('strap-aside') ? slots[1] + between(170, 200) : slots[1] + 62;
  const plate = wrong('plate-small') ? [between(90, 110), between(90, 100)] : [between(156, 170), between(156, 165)];
  const z = style === 'let' ? 'bar-height' : len(height);
  const bend =
    style === 'offset'
      ? `bar-end + (in ${len(wrong('bends-near') ? 30 : 75)}, aft ${len(Math.round(-barX - height * Math.tan((lean * Math.PI) / 180)))})`
      : `(${len(barX)}, ${len(wrong('bends-near') ? 585 : 530)}, ${z})`;
  const mate = next() < 0.3;
  const strap = (name: string, seat: string, y: number): string =>
    `strap ${name} { seat ${seat}; slot ${name.endsWith('outer') ? 'outer' : 'inner'}; to harness-bar; at y = ${len(y)}; width ${raw(75)}; hardware ${raw(110)}; collars ${raw(20)} gap ${raw(wrong('collar-away') ? 9 : 2)} }`;
  const cage = next() < 0.2 || wrong('roof-end');
  const size = (od: number, wall: number): string => `od ${raw(od)}; wall ${raw(wall)}`;
  const lines = [
    'cage "An invented car"',
    ...(inches ? ['units in'] : []),
    `rules ${pick(BOOKS as [string, ...string[]])}`,
    `vehicle { mass ${String(between(850, 1150))} kg ${pick(['with', 'without'])} driver; body closed; homologated "2010-05-01" }`,
    'material cds { yield 360 MPa; tensile 490 MPa; kind cold-drawn-seamless }',
    `section hoop { ${size(45, 2.5)}; material cds }`,
    `section bar { ${size(38, wrong('wall-thin') ? 2 : 2.5)}; material cds }`,
    `die d45 { od ${raw(45)}; radius ${raw(wrong('die-small') ? between(115, 132) : 135)}; grip ${raw(90)}; between ${raw(60)} }`,
    `die d38 { od ${raw(38)}; radius ${raw(114)}; grip ${raw(75)}; between ${raw(50)} }`,
    `plane hoop { at (${len(Math.round(at))}, 0, ${len(60)}); leans ${String(lean)} deg aft }`,
    ...(style === 'let' ? [`let bar-height = ${len(height)}`] : []),
    'mirror left {',
    `  node foot = in hoop (out ${len(foot)}, up 0)`,
    `  node waist = in hoop (out ${len(waist)}, up ${len(between(440, 500))})`,
    `  node crown = in hoop (out ${len(crown)}, up ${len(top)})`,
    `  node stay-top = on main-hoop at ${len(wrong('stay-low') ? between(180, 260) : between(2, 8))} before crown`,
    `  node stay-foot = (${len(Math.round(at) - (wrong('stay-steep') ? between(180, 300) : between(760, 840)))}, ${len(between(500, 530))}, ${len(between(380, 430))})`,
    `  node bar-end = on main-hoop where z = ${z}`,
    ...(bent ? [`  node bar-bend = ${bend}`] : []),
    '  tube backstay as backstay { section bar; path stay-top, stay-foot }',
    `  foot hoop-foot { at foot; plate ${len(plate[0] ?? 0)} x ${len(plate[1] ?? 0)} x ${len(wrong('plate-thin') ? 2 : 6.5)}; lies level; bolts ${wrong('bolts-few') ? '1' : '4'} x ${wrong('bolts-small') ? 'M6' : 'M10'}; hole ${raw(8)} }`,
    `  foot stay-plate { at stay-foot; plate ${len(160)} x ${len(156)} x ${len(6.5)}; lies square; bolts 3 x M10; hole ${raw(8)} }`,
    `  vent harness-bar -> main-hoop { at bar-end; dia ${raw(wrong('vent-large') ? between(14, 20) : 5)} }`,
    '}',
    'tube main-hoop as main-rollbar {',
    '  section hoop',
    '  die d45',
    '  path foot.left, waist.left, crown.left, crown.right, waist.right, foot.right',
    '}',
    'tube harness-bar as harness-bar {',
    '  section bar',
    ...(bent
      ? ['  die d38', '  path bar-end.left, bar-bend.left, bar-bend.right, bar-end.right']
      : ['  path bar-end.left, bar-end.right']),
    '}',
    ...(bent
      ? [
          `node high = on main-hoop at ${len(wrong('diagonal-top') ? between(200, 280) : between(100, 110))} before crown.left`,
          `node low = on main-hoop at ${len(wrong('diagonal-bottom') ? between(180, 280) : between(70, 90))} from foot.right`,
          'tube diagonal as diagonal { section bar; path high, low }',
          `vent diagonal -> main-hoop { at low; dia ${raw(5)} }`,
        ]
      : []),
    ...(cage ? roofOf(len, raw, Math.round(at), wrong('roof-end') ? between(130, 200) : between(50, 80), top) : []),
    `seat driver { slots (${len(slots[0])}, ${len(slots[1])}, ${len(slots[2])}); recline ${String(between(10, 18))} deg; slot-spacing ${raw(220)}; back ${raw(45)}; shoulder (forward ${raw(110)}, up ${raw(30)}) }`,
    strap('driver-outer', 'driver', outer),
    strap('driver-inner', 'driver', inner),
    ...(mate
      ? [
          `seat mate { slots (${len(slots[0])}, ${len(-slots[1])}, ${len(slots[2])}); recline ${String(between(10, 18))} deg; slot-spacing ${raw(220)}; back ${raw(45)}; shoulder (forward ${raw(110)}, up ${raw(30)}) }`,
          strap('mate-outer', 'mate', -outer),
          strap('mate-inner', 'mate', -inner),
        ]
      : []),
  ];
  return `${lines.join('\n')}\n`;
}

/** Half-laterals, a header between them, and a V in the roof. */
function roofOf(
  len: (mm: number) => string,
  raw: (mm: number) => string,
  at: number,
  rear: number,
  top: number,
): readonly string[] {
  return [
    'mirror left {',
    `  node roof-rear = on main-hoop at ${len(25)} after crown`,
    `  node head = (${len(at + 700)}, ${len(420)}, ${len(top + 55)})`,
    `  node knee = (${len(at + 1230)}, ${len(590)}, ${len(640)})`,
    `  node front-foot = (${len(at + 1290)}, ${len(610)}, ${len(90)})`,
    '  tube half-lateral as half-lateral { section bar; die d38; path roof-rear, head, knee, front-foot }',
    `  foot front-plate { at front-foot; plate ${len(160)} x ${len(156)} x ${len(6.5)}; bolts 4 x M10; hole ${raw(8)} }`,
    `  node header-end = on half-lateral at ${len(20)} before head`,
    `  node v-rear = on main-hoop at ${len(rear)} after crown`,
    '  node v-front = on header at 42 %',
    '  tube roof-v as roof-bar { section bar; path v-rear, v-front }',
    `  vent roof-v -> main-hoop { at v-rear; dia ${raw(5)} }`,
    '}',
    'tube header as transverse { section bar; path header-end.left, header-end.right }',
    `vent header -> half-lateral.left { at header-end.left; dia ${raw(5)} }`,
  ];
}
