/** Seats, straps and bare bars for tests of figures: no text, no mirror, no joints. */
import type { Entry } from '../../grammar/tree';
import { deg, mm } from '../../grammar/units';
import type { Cage, Collar, Named, Seat, Strap, Thing, Tube } from '../../server/cage/cage';
import { buildPath } from '../../server/centreline/build';
import type { Vec3 } from '../../server/centreline/vector';
import type { End, Part } from '../../server/geometry/shape';
import { NO_ANALYSIS, PLAIN_SEAT, PLAIN_STRAP, PLAIN_TUBE } from './nothing-more';

const ENTRY: Entry = {
  line: {
    word: { text: 'x', span: { start: 0, end: 1 } },
    target: null,
    groups: [],
    ok: true,
    span: { start: 0, end: 1 },
  },
  block: null,
  span: { start: 0, end: 1 },
};

const ORIGIN: Named['origin'] = {
  entry: ENTRY,
  file: 'car.cage',
  statement: {
    offset: 0,
    tree: {
      entry: ENTRY,
      findings: [],
      text: 'x',
    },
  },
};

const named = (name: string): Named => ({ name, base: name, side: null, twin: false, origin: ORIGIN });

const STEEL = { name: null, yield: null, tensile: null, modulus: 205_000, density: 7850, kind: null, ...NO_ANALYSIS };

export const tubeOf = (
  name: string,
  path: readonly Vec3[],
  od = 38,
  radius: number | null = null,
  wall = 2.5,
): Tube => {
  const built = buildPath(path, radius);
  return {
    ...named(name),
    kind: 'tube',
    role: 'harness-bar',
    section: { name: 'bar', od: mm(od), wall: mm(wall), material: STEEL },
    die: null,
    path: path.map((_, i) => `${name}-${String(i)}`),
    first: { kind: 'auto' },
    last: { kind: 'auto' },
    splitBy: null,
    existing: false,
    ...PLAIN_TUBE,
    centreline: built.centreline,
    corners: built.corners,
    problems: built.problems,
  };
};

const endOf = (tube: Tube, which: 'first' | 'last', more: Partial<End>): End => {
  const line = tube.centreline;
  const first = line?.pieces[0];
  const last = line?.pieces[line.pieces.length - 1];
  const origin = (which === 'first' ? line?.points[0] : line?.points.at(-1)) ?? null;
  const away =
    which === 'first'
      ? first?.kind === 'leg'
        ? first.direction
        : null
      : last?.kind === 'leg'
        ? (last.direction.map((c) => -c) as unknown as Vec3)
        : null;
  return {
    which,
    node: (which === 'first' ? tube.path[0] : tube.path.at(-1)) ?? null,
    fit: 'square',
    hosts: [],
    origin,
    away,
    clockZero: null,
    bendInsideClock: null,
    includedAngle: null,
    offset: null,
    depth: mm(0),
    saddleLength: null,
    sawAngle: null,
    sawClock: null,
    minCut: mm(0),
    minOuter: mm(0),
    maxCut: mm(0),
    ordinates: [],
    curve: null,
    widestGap: null,
    prints: [],
    edge: [],
    ...more,
  };
};

export const partOf = (tube: Tube, first: Partial<End> = {}, last: Partial<End> = {}): Part => ({
  name: tube.name,
  tube,
  role: tube.role,
  piece: null,
  nodes: tube.path,
  centreline: tube.centreline,
  section: { area: 1, secondMoment: 1, torsionConstant: 1, modulus: 1, massPerMetre: 1 },
  bends: [],
  straightAfter: null,
  centrelineLength: null,
  cutLength: null,
  holeSawLength: null,
  stickLength: null,
  mass: null,
  ends: [endOf(tube, 'first', first), endOf(tube, 'last', last)],
});

export const partsByName = (...parts: readonly Part[]): ReadonlyMap<string, Part> =>
  new Map(parts.map((part) => [part.name, part]));

export const seatOf = (slots: Vec3, more: Partial<Seat> = {}): Seat => ({
  ...named('driver'),
  kind: 'seat',
  hip: null,
  slots,
  recline: deg(0),
  yaw: deg(0),
  slotSpacing: mm(200),
  back: mm(40),
  shoulder: null,
  yoke: null,
  ...PLAIN_SEAT,
  ...more,
});

export const strapOf = (more: Partial<Strap> = {}): Strap => ({
  ...named(more.name ?? 'belt'),
  kind: 'strap',
  seat: 'driver',
  slot: 'left',
  tube: 'bar',
  at: null,
  width: mm(75),
  wrap: 'over',
  unread: false,
  hardware: null,
  collars: null,
  ...PLAIN_STRAP,
  ...more,
});

export const collarOf = (name: string, y: number, width = 20): Collar => ({
  ...named(name),
  kind: 'collar',
  tube: 'bar',
  at: { axis: 'y', value: mm(y) },
  width: mm(width),
});

export const cageOf = (...things: readonly Thing[]): Cage => ({
  file: 'car.cage',
  title: 'car',
  isCar: true,
  units: 'mm',
  rules: ['shop'],
  rulesOrigin: null,
  vehicle: null,
  welding: null,
  ownBooks: new Map(),
  stocks: new Map(),
  saw: null,
  torch: null,
  storeOrigins: [],
  things: new Map(things.map((thing) => [thing.name, thing])),
  planes: new Map(),
  materials: new Map(),
  sections: new Map(),
  dies: new Map(),
  waivers: [],
  findings: [],
  uses: [],
  lets: new Map(),
});
