/** A cope's figures: ordinates, depth, saddle, gap, included angle, offset. Millimetres, radians. */
import { pointAt } from '../centreline/query';
import { angleBetween } from '../centreline/vector';
import { curveLength, larger, sampledMaximum, turnMaximum } from './cope-numeric';
import { once } from './once';
import type { ChildEnd, Host, HostField, TubeHost } from './setback';
import { NEAR_MISS } from './setback';
import { hostField, onGenerator } from './setback-field';

/** One generator; null where it meets no host. */
export interface CopeOrdinate {
  readonly clock: number;
  readonly cut: number | null;
  readonly outer: number | null;
  readonly inner: number | null;
  /** Shortest distance from the outer edge of the cut to the hosts' surface. */
  readonly gap: number | null;
}

/** Set-backs at any clock, for templates and meshes; null where the generator meets no host. Clock in radians. */
export interface CopeCurve {
  /** At radius ρ. */
  setback(rho: number, clock: number): number | null;
  outer(clock: number): number | null;
  inner(clock: number): number | null;
  /** The largest set-back over the whole wall; null where the outer edge meets no host. */
  cut(clock: number): number | null;
  gap(clock: number): number | null;
}

export interface Cope {
  /** At 0, 10, … 360 degrees: 37 of them. */
  readonly ordinates: readonly CopeOrdinate[];
  readonly curve: CopeCurve;
  /** Over all clocks, not only the listed ones; null where some generator meets no host. */
  readonly minCut: number | null;
  readonly maxCut: number | null;
  readonly minOuter: number | null;
  readonly maxOuter: number | null;
  /** maxCut - minCut. */
  readonly depth: number | null;
  /** Length of the outer curve in space. */
  readonly saddleLength: number | null;
  readonly maxGap: number | null;
  /** Between the leg and the first tube host's centreline at its station, 0..π/2; null without a tube host. */
  readonly includedAngle: number | null;
  /** Shortest distance between the leg's axis and the first tube host's, near E; null without a tube host. */
  readonly offset: number | null;
  /** False where no generator meets any host. */
  readonly contact: boolean;
  /** By how much the worst outer generator misses every host, where that is more than 0.5 mm; else null. */
  readonly overhang: number | null;
  /**
   * True where some generator touches a host but does not come out of it below the limit: the leg is too short for the
   * cope, or runs along in its host. The figures over all clocks are null then.
   */
  readonly buried: boolean;
}

/** Steps of the full turn at which curves are sampled: every degree, a multiple of four and of 36. */
const STEPS = 360;
const LISTED = 36;
/** Of those, which the extremes of the cut start from: every second degree. */
const CUT_STEPS = 180;

/** Hosts prepared for one end. */
export interface CopeFields {
  readonly child: ChildEnd;
  readonly fields: readonly HostField[];
  /** True where planes alone cut: the end is sawn. */
  readonly sawn: boolean;
}

/** Prepares an end's hosts: what {@link copeCurve} and {@link cope} do first. */
export const copeFields = (child: ChildEnd, hosts: readonly Host[]): CopeFields => ({
  child,
  fields: hosts.map((host) => hostField(child, host)),
  sawn: hosts.length > 0 && hosts.every((host) => host.kind === 'plane'),
});

/**
 * The largest set-back over the hosts, NaN without one. A host that the generator just misses counts only where none is
 * hit: material that touches nothing stays.
 */
export function setbackAt(prepared: CopeFields, rho: number, clock: number): number {
  return setbackOf(prepared, rho, Math.cos(clock), Math.sin(clock));
}

function setbackOf(prepared: CopeFields, rho: number, cos: number, sin: number): number {
  let best = NaN;
  for (const field of prepared.fields) best = larger(field.exit(rho, cos, sin), best);
  if (!Number.isNaN(best)) return best;
  for (const field of prepared.fields) best = larger(field.approach(rho, cos, sin), best);
  return best;
}

/** The largest set-back over the hosts and the wall; NaN where the outer edge has none. A saw cuts at the outer edge. */
export function cutAt(prepared: CopeFields, clock: number): number {
  const cos = Math.cos(clock);
  const sin = Math.sin(clock);
  const { outerRadius, innerRadius } = prepared.child;
  if (prepared.sawn) return setbackOf(prepared, outerRadius, cos, sin);
  let outer = NaN;
  let inner = NaN;
  let most = NaN;
  for (const field of prepared.fields) {
    const atOuter = field.exit(outerRadius, cos, sin);
    const atInner = field.exit(innerRadius, cos, sin);
    outer = larger(atOuter, outer);
    inner = larger(atInner, inner);
    most = larger(field.most(cos, sin, atOuter, atInner), most);
  }
  // An edge that no host is hit by may still pass one by a hair.
  if (Number.isNaN(outer)) outer = setbackOf(prepared, outerRadius, cos, sin);
  if (Number.isNaN(outer)) return NaN;
  if (Number.isNaN(inner)) inner = setbackOf(prepared, innerRadius, cos, sin);
  return larger(larger(outer, inner), most);
}

/** Distance from the outer edge of the cut to the nearest host; NaN without a cut. */
function gapAt(prepared: CopeFields, clock: number, cut: number): number {
  if (Number.isNaN(cut)) return NaN;
  if (prepared.sawn) return 0;
  const p = onGenerator(prepared.child, prepared.child.outerRadius, Math.cos(clock), Math.sin(clock), cut);
  let least = Infinity;
  for (const field of prepared.fields) least = Math.min(least, field.clearance(p));
  return Math.max(0, least);
}

const orNull = (value: number): number | null => (Number.isFinite(value) ? value : null);

/** Set-backs of an end against its hosts at any clock, without the figures that look at the whole turn. */
export const copeCurve = (child: ChildEnd, hosts: readonly Host[]): CopeCurve => curveOf(copeFields(child, hosts));

function curveOf(prepared: CopeFields): CopeCurve {
  const { outerRadius, innerRadius } = prepared.child;
  return {
    setback: (rho, clock) => orNull(setbackAt(prepared, rho, clock)),
    outer: (clock) => orNull(setbackAt(prepared, outerRadius, clock)),
    inner: (clock) => orNull(setbackAt(prepared, innerRadius, clock)),
    cut: (clock) => orNull(cutAt(prepared, clock)),
    gap: (clock) => orNull(gapAt(prepared, clock, cutAt(prepared, clock))),
  };
}

/**
 * The whole cope of an end. With several hosts every set-back is the largest of theirs. With planes alone the end is
 * sawn: cut = outer, gap 0. Without hosts nothing is met. Never throws; what cannot be computed is null.
 */
export function cope(child: ChildEnd, hosts: readonly Host[]): Cope {
  const prepared = copeFields(child, hosts);
  const curve = curveOf(prepared);
  const outerAt = (clock: number): number => setbackAt(prepared, child.outerRadius, clock);
  const outer = sampleTurn(outerAt, STEPS);
  const { contact, overhang, buried } = missesOf(prepared, outer);
  const tube = hosts.findIndex((host) => host.kind === 'tube');
  const host = hosts[tube];
  const field = prepared.fields[tube];
  const cutOf = (clock: number): number => cutAt(prepared, clock);
  const figures = overhang === null && !buried && contact;
  const cuts = figures && !prepared.sawn ? sampleTurn(cutOf, CUT_STEPS) : outer;
  const extremes = figures ? extremesOf(prepared, outerAt, outer, cutOf, cuts) : NOTHING;
  return new FoundCope(prepared, figures, {
    curve,
    ...extremes,
    includedAngle: host?.kind === 'tube' ? orNull(includedAngle(child, host)) : null,
    offset: field === undefined ? null : orNull(field.offset()),
    contact,
    overhang,
    buried,
  });
}

/** What only a person asks for waits until one does: at most keys nobody looks at most ends. Nor are samples held. */
class FoundCope implements Cope {
  readonly curve: CopeCurve;
  readonly minCut: number | null;
  readonly maxCut: number | null;
  readonly minOuter: number | null;
  readonly maxOuter: number | null;
  readonly depth: number | null;
  readonly includedAngle: number | null;
  readonly offset: number | null;
  readonly contact: boolean;
  readonly overhang: number | null;
  readonly buried: boolean;
  private readonly list: () => readonly CopeOrdinate[];
  private readonly saddle: () => number | null;
  private readonly widest: () => number | null;

  constructor(prepared: CopeFields, figures: boolean, known: Omit<Cope, 'ordinates' | 'saddleLength' | 'maxGap'>) {
    const { curve } = known;
    this.curve = curve;
    this.minCut = known.minCut;
    this.maxCut = known.maxCut;
    this.minOuter = known.minOuter;
    this.maxOuter = known.maxOuter;
    this.depth = known.depth;
    this.includedAngle = known.includedAngle;
    this.offset = known.offset;
    this.contact = known.contact;
    this.overhang = known.overhang;
    this.buried = known.buried;
    this.list = once(() => listed(prepared, curve));
    this.saddle = once(() => (figures ? saddleOf(prepared) : null));
    this.widest = once(() => (figures ? largestGap(prepared) : null));
  }

  get ordinates(): readonly CopeOrdinate[] {
    return this.list();
  }

  get saddleLength(): number | null {
    return this.saddle();
  }

  get maxGap(): number | null {
    return this.widest();
  }
}

/** Every tenth degree. */
function listed(prepared: CopeFields, curve: CopeCurve): readonly CopeOrdinate[] {
  const ordinates: CopeOrdinate[] = [];
  for (let i = 0; i <= LISTED; i++) {
    // 360 degrees is the same generator as 0, to the last bit.
    const clock = ((i % LISTED) * 2 * Math.PI) / LISTED;
    const cut = cutAt(prepared, clock);
    ordinates.push({
      clock: (i * 2 * Math.PI) / LISTED,
      cut: orNull(cut),
      outer: curve.outer(clock),
      inner: curve.inner(clock),
      gap: orNull(gapAt(prepared, clock, cut)),
    });
  }
  return ordinates;
}

type Extremes = Pick<Cope, 'minCut' | 'maxCut' | 'minOuter' | 'maxOuter' | 'depth'>;

const NOTHING: Extremes = { minCut: null, maxCut: null, minOuter: null, maxOuter: null, depth: null };

/** The least and the most over the whole turn, from samples of it. */
function extremesOf(
  prepared: CopeFields,
  outerAt: (clock: number) => number,
  outer: Float64Array,
  cutOf: (clock: number) => number,
  cuts: Float64Array,
): Extremes {
  const least = (f: (clock: number) => number, samples: Float64Array): number =>
    -turnMaximum((clock) => -f(clock), samples.map(negative));
  const minOuter = least(outerAt, outer);
  const maxOuter = turnMaximum(outerAt, outer);
  const minCut = prepared.sawn ? minOuter : least(cutOf, cuts);
  // A crest of the outer edge between the cut's wider samples is one of the cut too.
  const maxCut = prepared.sawn ? maxOuter : larger(turnMaximum(cutOf, cuts), maxOuter);
  return {
    minCut: orNull(minCut),
    maxCut: orNull(maxCut),
    minOuter: orNull(minOuter),
    maxOuter: orNull(maxOuter),
    depth: orNull(maxCut - minCut),
  };
}

/** Length of the outer curve in space. */
function saddleOf(prepared: CopeFields): number | null {
  const { outerRadius } = prepared.child;
  const outerAt = (clock: number): number => setbackAt(prepared, outerRadius, clock);
  return orNull(curveLength(outerAt, sampleTurn(outerAt, STEPS), outerRadius));
}

/** The widest gap over the whole turn. */
function largestGap(prepared: CopeFields): number | null {
  if (prepared.sawn) return 0;
  const gapOf = (clock: number): number => gapAt(prepared, clock, cutAt(prepared, clock));
  return orNull(turnMaximum(gapOf, sampleTurn(gapOf, CUT_STEPS)));
}

const negative = (value: number): number => -value;

function sampleTurn(f: (clock: number) => number, steps: number): Float64Array {
  const samples = new Float64Array(steps);
  for (let i = 0; i < steps; i++) samples[i] = f((i * 2 * Math.PI) / steps);
  return samples;
}

/** What the generators that meet no host say: how far off the worst is, or that it never comes out. */
function missesOf(prepared: CopeFields, outer: Float64Array): Pick<Cope, 'contact' | 'overhang' | 'buried'> {
  const { child, fields } = prepared;
  const missAt = (clock: number): number => {
    let least = Infinity;
    for (const field of fields) {
      least = Math.min(least, field.miss(child.outerRadius, Math.cos(clock), Math.sin(clock)));
    }
    return least;
  };
  let missing = 0;
  let buried = false;
  let worst = -Infinity;
  let where = 0;
  // Every fifth degree, and each first miss beside a hit: a miss is dear to measure, and smooth in between.
  for (let i = 0; i < outer.length; i++) {
    if (!Number.isNaN(outer[i])) continue;
    missing++;
    const edge = !Number.isNaN(outer[(i + outer.length - 1) % outer.length]);
    if (!edge && i % 5 !== 0) continue;
    const clock = (i * 2 * Math.PI) / outer.length;
    const miss = missAt(clock);
    if (miss <= NEAR_MISS) buried = true;
    if (miss > worst) {
      worst = miss;
      where = clock;
    }
  }
  if (missing === 0) return { contact: true, overhang: null, buried: false };
  const step = (5 * 2 * Math.PI) / outer.length;
  const amount = fields.length === 0 ? NaN : larger(sampledMaximum(missAt, where - step, where + step, 4, 1e-6), worst);
  return {
    contact: missing < outer.length,
    overhang: amount > NEAR_MISS && amount < Infinity ? amount : null,
    buried,
  };
}

/** Between a leg and a host's centreline at its station, 0..π/2. */
function includedAngle(child: ChildEnd, host: TubeHost): number {
  const angle = angleBetween(child.away, pointAt(host.centreline, host.station).tangent);
  return Math.min(angle, Math.PI - angle);
}
