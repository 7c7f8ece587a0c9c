/** Everything that is drilled, with its place and the step before which it is done. Millimetres, radians. */
import type { Foot, Hole, Strap, Vent } from '../../cage/cage';
import type { Anchor, Fitting, Gusset, SeatMount } from '../../cage/hardware';
import { nearestOn, pointAt } from '../../centreline/query';
import type { Vec3 } from '../../centreline/vector';
import { addScaled, dot, sub } from '../../centreline/vector';
import { entryPoint } from '../../geometry/axis';
import type { Standing } from '../../geometry/feet';
import { plateFrame, standingOn } from '../../geometry/feet';
import { drilledBy } from '../../geometry/holes';
import type { End, Part } from '../../geometry/shape';
import { partsOf, stationFrom } from '../../geometry/stretch';
import { ventSite } from '../../geometry/vents';
import type { PacketInput } from '../packet/paper';
import type { AlongTube } from './along';
import { alongAt, alongTube } from './along';
import { clearanceHole } from './bolt-holes';

/** In the order of the work. */
export const STEPS = ['plate', 'tube', 'joint', 'car'] as const;
export type Step = (typeof STEPS)[number];

/** Along a plate (forward) and across it (left) from its middle. */
export interface OnPlate {
  readonly forward: number;
  readonly left: number;
}

export type Where =
  | { readonly kind: 'tube'; readonly along: AlongTube }
  | { readonly kind: 'plate'; readonly points: readonly OnPlate[] }
  /** In words, where the file gives no place that could be measured. */
  | { readonly kind: 'told'; readonly words: string }
  /** The vent joins nothing as it is written, or its tube is not known: nobody can drill it. */
  | { readonly kind: 'unknown' };

export interface Drilling {
  readonly thing: Vent | Hole | Foot | Gusset | Strap | Fitting | SeatMount | Anchor;
  readonly sort:
    | 'vent'
    | 'air'
    | 'inspection'
    | 'drain'
    | 'bolt'
    | 'plate-hole'
    | 'plate-bolts'
    | 'gusset'
    | 'strap'
    | 'fitting'
    | 'mount'
    | 'anchor';
  readonly step: Step;
  readonly count: number;
  readonly dia: number | null;
  /** The bolt that goes through; null: none. */
  readonly bolt: number | null;
  readonly where: Where;
  /** The part that is drilled, or to which the drilled plate belongs; null: none is known. */
  readonly part: Part | null;
  /** The end that is welded over it, or to the plate. */
  readonly closing: { readonly part: Part; readonly end: End } | null;
}

const UNKNOWN: Where = { kind: 'unknown' };
const onTube = (along: AlongTube | null): Where => (along === null ? UNKNOWN : { kind: 'tube', along });

type Input = Pick<PacketInput, 'cage' | 'shape'>;

const nodeAt = ({ cage }: Input, name: string | null): Vec3 | null => {
  const node = name === null ? undefined : cage.things.get(name);
  return node?.kind === 'node' ? node.at : null;
};

function ofVent(vent: Vent, input: Input): Drilling {
  const { shape, cage } = input;
  const site = ventSite(vent, cage, shape.parts);
  const air = vent.to !== null && typeof vent.to !== 'string';
  const base = { thing: vent, sort: air ? 'air' : 'vent', step: 'joint', count: 1, dia: vent.dia, bolt: null } as const;
  if (site === null) {
    const drilled = typeof vent.to === 'string' ? vent.to : vent.tube;
    const part = drilled === null ? undefined : partsOf(shape.parts, drilled)[0];
    return { ...base, where: UNKNOWN, part: part ?? null, closing: null };
  }
  const { child, end, host } = site;
  const closing = { part: child, end };
  if (host !== null) {
    const at = entryPoint(end, child, host);
    return { ...base, where: onTube(at === null ? null : alongAt(host, shape, at)), part: host, closing };
  }
  const station = vent.from === null ? null : stationFrom(child, end.which, nodeAt(input, vent.node), vent.from);
  const along = station === null ? null : alongTube(child, shape, station, positive(vent.clock ?? 0));
  return { ...base, where: onTube(along), part: child, closing };
}

function ofHole(hole: Hole, { shape }: Input): Drilling {
  const drilled = drilledBy(hole, shape.parts);
  const line = drilled?.part.tube.centreline ?? null;
  let along: AlongTube | null = null;
  if (drilled !== null && line !== null && hole.station !== null && drilled.part.centreline !== null) {
    // The hole counts along the tube from its node; the part's own centreline begins where its end is measured from.
    const at = pointAt(line, hole.station).point;
    const { station } = nearestOn(drilled.part.centreline, at);
    along = alongTube(drilled.part, shape, station, positive(hole.clock));
  }
  const existing = drilled?.part.tube.existing ?? false;
  return {
    thing: hole,
    sort: hole.purpose,
    step: existing ? 'car' : 'tube',
    count: 1,
    dia: hole.dia,
    bolt: null,
    where: onTube(along),
    part: drilled?.part ?? null,
    closing: null,
  };
}

/** 0 up to a full turn: a twin's clock is written below 0. */
const positive = (clock: number | null): number | null => {
  if (clock === null) return null;
  const rest = clock % (2 * Math.PI);
  return rest < 0 ? rest + 2 * Math.PI : rest + 0;
};

/** Where the axis of what stands on a plate meets it, from the plate's middle. */
function axisOnPlate(foot: Foot, at: Vec3, { end }: Standing): OnPlate | null {
  const frame = plateFrame(foot, end.away);
  if (frame === null || end.origin === null || end.away === null) return null;
  const steep = dot(end.away, frame.normal);
  if (Math.abs(steep) < 1e-6) return null;
  const meets = addScaled(end.origin, end.away, dot(sub(at, end.origin), frame.normal) / steep);
  const off = sub(meets, at);
  return { forward: dot(off, frame.long), left: dot(off, frame.wide) };
}

function ofFoot(foot: Foot, standing: Standing | null, input: Input): readonly Drilling[] {
  const at = nodeAt(input, foot.node);
  const base = { thing: foot, step: 'plate', part: standing?.part ?? null, closing: standing } as const;
  const holes: Drilling[] = [];
  if (foot.hole !== null && foot.hole > 0) {
    const point = at === null || standing === null ? null : axisOnPlate(foot, at, standing);
    const where: Where = point === null ? UNKNOWN : { kind: 'plate', points: [point] };
    holes.push({ ...base, sort: 'plate-hole', count: 1, dia: foot.hole, bolt: null, where });
  }
  if (foot.bolts !== null) {
    const { count, diameter } = foot.bolts;
    const where: Where =
      foot.boltsAt === null
        ? { kind: 'told', words: 'places not told: write `bolts-at (forward …, left …), …`' }
        : { kind: 'plate', points: foot.boltsAt };
    holes.push({ ...base, sort: 'plate-bolts', count, dia: clearanceHole(diameter), bolt: diameter, where });
  }
  return holes;
}

function ofStrap(strap: Strap, { shape }: Input): readonly Drilling[] {
  if (strap.fixing !== 'bolt' || strap.bolt === null) return [];
  const figures = shape.straps.find(({ name }) => name === strap.name);
  const part = figures === undefined || figures.part === null ? null : (shape.parts.get(figures.part) ?? null);
  const station = figures?.station ?? null;
  const where = onTube(part === null || station === null ? null : alongTube(part, shape, station, null));
  const { count, diameter } = strap.bolt;
  // A threaded insert wants a hole of its own size, which only its maker knows.
  const dia = strap.insert === true ? null : clearanceHole(diameter);
  const step = part?.tube.existing === true ? 'car' : 'tube';
  return [{ thing: strap, sort: 'strap', step, count, dia, bolt: diameter, where, part, closing: null }];
}

function ofFitting(fitting: Fitting, { shape }: Input): readonly Drilling[] {
  if (fitting.bolt === null) return [];
  const pieces = fitting.tube === null ? [] : partsOf(shape.parts, fitting.tube);
  const part = (fitting.end === 'last' ? pieces.at(-1) : pieces[0]) ?? null;
  const end = part === null || fitting.end === null ? null : part.ends[fitting.end === 'first' ? 0 : 1];
  const { count, diameter } = fitting.bolt;
  const drawing = fitting.drawing === null ? 'by the drawing of its maker' : `by drawing ${fitting.drawing}`;
  return [
    {
      thing: fitting,
      sort: 'fitting',
      step: 'joint',
      count,
      dia: null,
      bolt: diameter,
      where: { kind: 'told', words: `${drawing}; both halves drilled together` },
      part,
      closing: part === null || end === null ? null : { part, end },
    },
  ];
}

function ofGusset(gusset: Gusset): readonly Drilling[] {
  if (gusset.hole === null || !(gusset.hole > 0)) return [];
  const sides = gusset.made === 'sheet' ? 2 : 1;
  const words =
    sides === 2 ? 'one in each flat side; where in it is not told' : 'in its flat side; where in it is not told';
  return [
    {
      thing: gusset,
      sort: 'gusset',
      step: 'plate',
      count: sides,
      dia: gusset.hole,
      bolt: null,
      where: { kind: 'told', words },
      part: null,
      closing: null,
    },
  ];
}

function ofMount(mount: SeatMount): readonly Drilling[] {
  if (mount.bolts === null) return [];
  const { count, diameter } = mount.bolts;
  const words = 'through the shell and the counter-plates; places by the seat as it is set up in the car';
  return [
    {
      thing: mount,
      sort: 'mount',
      step: 'car',
      count,
      dia: clearanceHole(diameter),
      bolt: diameter,
      where: { kind: 'told', words },
      part: null,
      closing: null,
    },
  ];
}

function ofAnchor(anchor: Anchor, { shape }: Input): readonly Drilling[] {
  if (anchor.bolt === null || anchor.series === true) return [];
  const part = anchor.tube === null ? null : (partsOf(shape.parts, anchor.tube)[0] ?? null);
  const { count, diameter } = anchor.bolt;
  const along = part === null || anchor.at === null ? null : alongAt(part, shape, anchor.at);
  const where: Where =
    along === null ? { kind: 'told', words: 'through the shell where the strap is anchored' } : onTube(along);
  const dia = clearanceHole(diameter);
  return [
    {
      thing: anchor,
      sort: 'anchor',
      step: part === null || part.tube.existing ? 'car' : 'tube',
      count,
      dia,
      bolt: diameter,
      where,
      part,
      closing: null,
    },
  ];
}

/** All that is drilled, in the order of the things of the car. Holes that are told nowhere are not thought up. */
export function drillingsOf(input: Input): readonly Drilling[] {
  const { cage, shape } = input;
  const onFeet = standingOn(cage, shape.parts);
  return [...cage.things.values()].flatMap((thing): readonly Drilling[] => {
    switch (thing.kind) {
      case 'vent':
        return [ofVent(thing, input)];
      case 'hole':
        return [ofHole(thing, input)];
      case 'foot':
        return ofFoot(thing, onFeet.get(thing)?.[0] ?? null, input);
      case 'strap':
        return ofStrap(thing, input);
      case 'fitting':
        return ofFitting(thing, input);
      case 'gusset':
        return ofGusset(thing);
      case 'seat-mount':
        return ofMount(thing);
      case 'anchor':
        return ofAnchor(thing, input);
      default:
        return [];
    }
  });
}
