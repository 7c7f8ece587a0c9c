/** Gussets, holes, padding, fittings, doors, panels, seat mounts and anchors from their statements; each on its side. */
import type { Angle, Length } from '../../grammar/units';
import { FORCE, mm } from '../../grammar/units';
import type { Centreline } from '../centreline/centreline';
import { nearestOn } from '../centreline/query';
import type { Vec3 } from '../centreline/vector';
import { boltsOf, counterPlateOf, plateOf } from './bolts';
import { CENTRE } from './evaluate';
import type {
  Anchor,
  Door,
  Fitting,
  FittingKind,
  Gusset,
  GussetKind,
  Hole,
  HolePurpose,
  Padding,
  PaddingStandard,
  Panel,
  PanelKind,
  SeatMount,
} from './hardware';
import type { Named } from './named';
import type { Page } from './page';

/** A tube as it runs in the car itself. */
export interface TubeRun {
  readonly line: Centreline | null;
  /** True where the text of the twin counts from the other end: the tube exists once, its image runs the other way. */
  readonly turned: boolean;
  /** Outside radius; 0 where it is not known. */
  readonly radius: number;
}

const TURN = 360.000001;
/** A node this near to a tube's centreline is on it, mm: as where ends land. */
const ON_TUBE = 0.5;

/** A word that the pattern has allowed, as its type. */
const chosen = <T extends string>(page: Page, fact: string, slot = fact): T | null => page.word(fact, slot) as T | null;

/** A gusset of its statement. `node`: where it sits, mm; `runs`: the tubes between which it is told to stand. */
export function gussetOf(head: Named, page: Page, node: Vec3 | null, runs: readonly TubeRun[]): Gusset {
  const named = page.all('between', 'tubes');
  const names = page.names('between', 'tubes');
  const [one, other] = names;
  const two = names.length === 2 && one !== undefined && other !== undefined;
  if (page.fact('between') !== null && !two)
    page.tellAt(named[2] ?? named[0] ?? null, 'fact.value', { fact: 'between', wanted: 'two tubes' });
  else if (two && one !== null && one === other)
    page.tellAt(named[1] ?? null, 'fact.value', { fact: 'between', wanted: 'two different tubes' });
  if (two && node !== null) {
    for (const [i, run] of runs.entries()) {
      const bound = named[i];
      if (run.line === null || run.line.pieces.length === 0 || bound === undefined) continue;
      const away = nearestOn(run.line, node).distance;
      if (away <= Math.max(run.radius, ON_TUBE)) continue;
      const params = {
        tube: names[i] ?? '',
        node: page.name('at', 'node') ?? '',
        away: { value: away, unit: 'mm' } as const,
      };
      page.tellAt(bound, 'gusset.apart', params);
    }
  }
  const first = page.length('legs', 'first');
  const second = page.length('legs', 'second');
  return {
    ...head,
    kind: 'gusset',
    node: page.name('at', 'node'),
    between: two ? [one, other] : null,
    legs: first === null || second === null ? null : [first, second],
    thickness: page.length('thickness'),
    made: chosen<GussetKind>(page, 'kind'),
    cutOut: page.length('cut-out', 'radius'),
    hole: page.length('hole', 'dia'),
  };
}

/** A hole of its statement. Without a run, or where its place on it is not known, its station is null. */
export function holeOf(head: Named, page: Page, node: Vec3 | null, run: TubeRun | null): Hole {
  const clock = page.angle('clock', 'clock', TURN);
  return {
    ...head,
    kind: 'hole',
    tube: page.name('', 'tube'),
    purpose: chosen<HolePurpose>(page, '', 'purpose') ?? 'inspection',
    node: page.name('at', 'node'),
    station: stationOf(page, node, run),
    clock:
      clock === null ? (page.isWritten('clock') ? null : (0 as Angle)) : ((page.twin ? 0 - clock : clock) as Angle),
    dia: page.length('dia'),
    sleeve: page.flag('sleeve') ?? false,
    plug: page.word('plug', 'plug'),
    unread: page.broken('sleeve') || page.broken('plug'),
  };
}

/** Along the tube from its first node; null, and told, where it is not on the tube. */
function stationOf(page: Page, node: Vec3 | null, run: TubeRun | null): Length | null {
  const line = run?.line ?? null;
  if (!page.isWritten('at') && !page.isWritten('from')) return null;
  const from = page.isWritten('from') ? page.length('from') : mm(0);
  if (run === null || line === null || line.pieces.length === 0 || from === null) return null;
  const { length } = line;
  const tube = page.name('', 'tube') ?? '';
  let station = run.turned ? length - from : from;
  if (page.isWritten('at')) {
    if (node === null) return null;
    const near = nearestOn(line, node);
    if (near.distance > ON_TUBE) {
      const why = 'the node is {away} beside its centreline';
      const params = { tube, why, away: { value: near.distance, unit: 'mm' } as const };
      return page.tellAt(page.bound('at', 'node'), 'hole.off-tube', params);
    }
    const atFirst = near.station <= ON_TUBE;
    const atLast = near.station >= length - ON_TUBE;
    const backward = atLast || (!atFirst && run.turned);
    station = near.station + (backward ? -from : from);
  }
  if (station >= 0 && station <= length) return station as Length;
  const params = { tube, why: 'it is {length} long', length: { value: length, unit: 'mm' } as const };
  return page.tellAt(page.bound('from'), 'hole.off-tube', params);
}

/** The certificates that there are: FIA 8857-2001 type A, SFI 45.1 and 45.2. */
function standardOf(page: Page): PaddingStandard | null {
  if (page.has('standard', 'foam')) return 'foam';
  const fia = page.plain('standard', 'fia');
  const sfi = page.plain('standard', 'sfi');
  if (fia === 8857) return 'fia-8857';
  if (sfi === 45.1) return 'sfi-45.1';
  if (sfi === 45.2) return 'sfi-45.2';
  const bound = page.bound('standard', 'fia') ?? page.bound('standard', 'sfi');
  if (fia === null && sfi === null) return null;
  return page.tellAt(bound, 'fact.value', { fact: 'standard', wanted: 'fia 8857, sfi 45.1, sfi 45.2 or foam' });
}

/** Padding of its statement. A stretch that ends before it begins or beyond the tube is told, and none. */
export function paddingOf(head: Named, page: Page, run: TubeRun | null): Padding {
  const from = page.length('from', 'from');
  const to = page.length('from', 'to');
  const length = run?.line?.length ?? null;
  const tube = page.name('', 'tube');
  let sound = from !== null && to !== null;
  if (from !== null && to !== null && (to <= from || (length !== null && to > length + ON_TUBE))) {
    const why = to <= from ? 'it ends before it begins' : 'the tube is {length} long';
    const params = { tube: tube ?? '', why, length: { value: length ?? 0, unit: 'mm' } as const };
    page.tellAt(page.bound('from', 'to'), 'padding.off-tube', params);
    sound = false;
  }
  const turned = run?.turned === true;
  const unread = page.isWritten('from') && (!sound || (turned && length === null));
  const [a, b] = sound && from !== null && to !== null ? [from, to] : [null, null];
  const flip = (station: Length | null): Length | null =>
    station === null || length === null ? null : ((length - station) as Length);
  return {
    ...head,
    kind: 'padding',
    tube,
    thickness: page.length('thickness'),
    from: turned ? flip(b) : a,
    to: turned ? flip(a) : b,
    standard: standardOf(page),
    flameRetardant: page.flag('flame-retardant'),
    fixed: page.flag('fixed'),
    unread,
  };
}

/** A fitting of its statement: a removable joint at the end of a tube. */
export function fittingOf(head: Named, page: Page): Fitting {
  return {
    ...head,
    kind: 'fitting',
    tube: page.name('tube', 'tube'),
    end: chosen<'first' | 'last'>(page, 'tube', 'end'),
    made: chosen<FittingKind>(page, 'kind'),
    shear: chosen<'single' | 'double'>(page, 'shear'),
    bolt: boltsOf(page, 'bolt'),
    standOff: page.length('stand-off', 'stand'),
    drawing: page.text('drawing'),
    welded: page.flag('welded'),
    bush: page.flag('bush'),
  };
}

/** The corners of an outline; null where there are fewer than it takes, or one cannot be had. */
function outlineOf(page: Page, least: number, wanted: string): readonly Vec3[] | null {
  const places = page.places('outline');
  if (places === null || places.length >= least) return places;
  return page.tellAt(page.bound('outline'), 'fact.value', { fact: 'outline', wanted });
}

/** Twice the area that it encloses in side view. */
const sideArea = (outline: readonly Vec3[]): number =>
  Math.abs(
    outline.reduce((sum, [x, , z], i) => {
      const [nx, , nz] = outline[(i + 1) % outline.length] ?? [x, 0, z];
      return sum + x * nz - nx * z;
    }, 0),
  );

/** A door of its statement. An outline that encloses nothing from the side is told, and null. */
export function doorOf(head: Named, page: Page): Door {
  const corners = outlineOf(page, 3, 'three places or more');
  const flat = corners !== null && sideArea(corners) <= CENTRE;
  if (flat)
    page.tellAt(page.bound('outline'), 'fact.value', {
      fact: 'outline',
      wanted: 'corners that enclose an opening when seen from the side',
    });
  return { ...head, kind: 'door', outline: flat ? null : corners };
}

/** A panel of its statement: two places for an edge, more for an outline. */
export function panelOf(head: Named, page: Page): Panel {
  return {
    ...head,
    kind: 'panel',
    as: chosen<PanelKind>(page, '', 'as'),
    outline: outlineOf(page, 2, 'two places or more'),
  };
}

/** What holds a seat, of its statement. */
export function seatMountOf(head: Named, page: Page): SeatMount {
  return {
    ...head,
    kind: 'seat-mount',
    seat: page.name('seat', 'seat'),
    points: page.count('points', 'points'),
    bolts: boltsOf(page, 'bolts'),
    seatBolts: boltsOf(page, 'seat-bolts'),
    plate: plateOf(page, 'plate'),
    counterPlate: counterPlateOf(page, 'counter-plate'),
    material: chosen<'steel' | 'aluminium'>(page, 'material'),
    approved: page.flag('approved'),
    load: page.figure('load', 'load', FORCE),
    quickRelease: page.figure('quick-release', 'release', FORCE),
  };
}

/** The anchorage of a strap, of its statement. */
export function anchorOf(head: Named, page: Page): Anchor {
  return {
    ...head,
    kind: 'anchor',
    as: chosen<'lap' | 'crotch' | 'shoulder'>(page, '', 'as'),
    seat: page.name('seat', 'seat'),
    at: page.place('at'),
    tube: page.name('on', 'tube'),
    plate: plateOf(page, 'plate'),
    bolt: boltsOf(page, 'bolt'),
    fixing: chosen<'bolt' | 'eye' | 'wrap'>(page, 'fixing'),
    series: page.flag('series'),
    throughSeat: page.flag('through-seat'),
    adjuster: page.length('adjuster'),
    load: page.figure('load', 'load', FORCE),
  };
}
