/**
 * What lies on a bar: webbing, the straps' own collars, collar statements. Whether they lie wholly on it, clear of its
 * bends and of each other, and whether something holds a strap sideways.
 */
import type { Finding, Params } from '../../grammar/finding';
import { mm } from '../../grammar/units';
import type { Cage, Collar, Strap } from '../cage/cage';
import type { Arc } from '../centreline/centreline';
import { planeCrossings, pointAt } from '../centreline/query';
import { Kept } from './kept';
import type { Part, StrapFigures, Stretch } from './shape';
import type { Miss, StrapResult } from './straps';
import { about, overlap, partsOf, ringStretch } from './stretch';
import { byText, figure, tell } from './tell';

/** A collar, or the start of a bend, this near to the webbing's edge holds it. */
const HOLDS_WITHIN = mm(5);
/** A collar that is easily made, and the room that webbing wants beside it (common practice, no source). */
const COLLAR_WIDE = mm(19.05);
const COLLAR_GAP = mm(1.5875);
const BOTH_WAYS = 'both ways';
/** Less than this is rounding, mm. */
const NOTHING = 1e-6;
/** Of things that lie in a heap each is told against so many of the others: the rest is told when these are mended. */
const MOST_OVERLAPS = 8;

/** One thing on a bar: a strap with its collars, or a collar of its own. */
export interface OnBar {
  readonly thing: Strap | Collar;
  readonly part: Part;
  /** The webbing; null for a collar. */
  readonly webbing: Stretch | null;
  readonly collars: readonly Stretch[];
}

const AXIS = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] } as const;

/** Where a collar sits: where the bar crosses its plane, on its own side of the car if the bar is there several times. */
export function collarOnBar(collar: Collar, parts: ReadonlyMap<string, Part>): OnBar | null {
  if (collar.tube === null || collar.at === null || collar.width === null) return null;
  const places = partsOf(parts, collar.tube).flatMap((part) =>
    part.centreline === null || collar.at === null
      ? []
      : planeCrossings(part.centreline, AXIS[collar.at.axis], collar.at.value).crossings.map((on) => ({ part, on })),
  );
  const side = collar.side === null ? 0 : collar.side === 'left' ? 1 : -1;
  const place = places.find(({ on }) => on.point[1] * side > 0) ?? places[0];
  if (place === undefined) return null;
  return { thing: collar, part: place.part, webbing: null, collars: [about(place.on.station, collar.width)] };
}

const strapOnBar = (strap: Strap, figures: StrapFigures, parts: ReadonlyMap<string, Part>): OnBar | null => {
  const part = figures.part === null ? undefined : parts.get(figures.part);
  if (part === undefined || figures.webbing === null) return null;
  return { thing: strap, part, webbing: figures.webbing, collars: figures.collars };
};

const everything = (item: OnBar): readonly Stretch[] =>
  item.webbing === null ? item.collars : [item.webbing, ...item.collars];

const at = (thing: Strap | Collar, fact?: string): Finding['at'] =>
  fact === undefined ? { kind: 'thing', thing: thing.name } : { kind: 'thing', thing: thing.name, fact };

/** Which way along a bar, in words that are the same for a thing and its twin on the other side of the car. */
function wayAlong(part: Part, station: number, sign: 1 | -1): string {
  if (part.centreline === null) return 'along';
  const on = pointAt(part.centreline, station);
  const [x, y, z] = on.tangent.map((c) => c * sign) as [number, number, number];
  if (Math.abs(y) >= Math.abs(x) && Math.abs(y) >= Math.abs(z)) {
    if (Math.abs(on.point[1]) < NOTHING) return y > 0 ? 'left' : 'right';
    return y * on.point[1] > 0 ? 'outward' : 'inward';
  }
  if (Math.abs(x) >= Math.abs(z)) return x > 0 ? 'forward' : 'aft';
  return z > 0 ? 'up' : 'down';
}

const whatIs = (item: OnBar, stretch: Stretch): string =>
  item.thing.kind === 'collar'
    ? `Collar ${item.thing.name}`
    : stretch === item.webbing
      ? `Strap ${item.thing.name}`
      : `A collar of strap ${item.thing.name}`;

/** The strap that has no run to its bar. */
function missFinding(strap: Strap, miss: Miss): Finding {
  const params: Params = {
    strap: strap.name,
    tube: strap.tube,
    why:
      miss === 'inside'
        ? 'its slot lies inside the tube'
        : miss === 'upright'
          ? 'the bar stands upright there, so the webbing would slide down it'
          : strap.at === null
            ? 'the bar does not pass straight behind the slot; say where with at'
            : `no point of the bar lies at ${strap.at.axis} = {place}`,
    ...(miss === 'no-crossing' && strap.at !== null ? { place: figure(strap.at.value, 'mm') } : {}),
  };
  return tell('strap.misses-bar', strap.name, at(strap, strap.at !== null ? 'at' : 'to'), params);
}

/** Hanging over the cut at either end of the bar: there the tube is not whole all round. */
function overEnd(item: OnBar): readonly Finding[] {
  const ring = ringStretch(item.part);
  if (ring === null) return [];
  let worst: { readonly stretch: Stretch; readonly end: 'first' | 'last'; readonly by: number } | null = null;
  for (const stretch of everything(item)) {
    for (const [end, by] of [
      ['first', ring.from - stretch.from],
      ['last', stretch.to - ring.to],
    ] as const) {
      if (by > NOTHING && (worst === null || by > worst.by)) worst = { stretch, end, by };
    }
  }
  if (worst === null) return [];
  const way = wayAlong(
    item.part,
    worst.end === 'first' ? worst.stretch.from : worst.stretch.to,
    worst.end === 'first' ? 1 : -1,
  );
  const reach = { by: figure(worst.by, 'mm'), end: worst.end, way };
  if (item.thing.kind === 'collar') {
    const what = `Collar ${item.thing.name} reaches {by} past the {end} end of {tube}: move it ${way}.`;
    return [tell('place.none', item.thing.name, at(item.thing, 'at'), { what, tube: item.part.name, ...reach })];
  }
  const part = worst.stretch === item.webbing ? 'its webbing' : 'its collar';
  return [
    tell(
      'strap.misses-bar',
      item.thing.name,
      at(item.thing, item.thing.at === null ? 'to' : 'at'),
      {
        strap: item.thing.name,
        tube: item.part.name,
        why: `${part} hangs {by} over the {end} end; move it {way}`,
        ...reach,
      },
      { measured: figure(worst.by, 'mm') },
    ),
  ];
}

const arcsOf = (part: Part): readonly Arc[] =>
  (part.centreline?.pieces ?? []).filter((piece): piece is Arc => piece.kind === 'arc');

const arcStretch = (arc: Arc): Stretch => ({ from: mm(arc.start), to: mm(arc.start + arc.length) });

/** Lying on a bend: one finding for each bend, for the webbing if it does, else for the collar. */
function onBends(item: OnBar): readonly Finding[] {
  const findings: Finding[] = [];
  for (const arc of arcsOf(item.part)) {
    const bend = arcStretch(arc);
    const lying = everything(item).filter((stretch) => overlap(stretch, bend) > NOTHING);
    const first = lying[0];
    if (first === undefined) continue;
    // Off the bend by the shorter way, with everything that belongs to it.
    const back = Math.max(...everything(item).map((stretch) => stretch.to)) - bend.from;
    const on = bend.to - Math.min(...everything(item).map((stretch) => stretch.from));
    const by = Math.min(back, on);
    const way = wayAlong(item.part, back <= on ? bend.from : bend.to, back <= on ? -1 : 1);
    findings.push(
      tell(
        'strap.on-bend',
        item.thing.name,
        at(item.thing, item.thing.at === null ? 'to' : 'at'),
        {
          what: whatIs(item, first),
          strap: item.thing.name,
          tube: item.part.name,
          node: item.part.tube.path[arc.corner] ?? '',
          mend: 'move it {by} {way} along the bar',
          by: figure(by, 'mm'),
          way,
        },
        { measured: figure(overlap(first, bend), 'mm') },
      ),
    );
  }
  return findings;
}

/** The most that anything of the one covers of anything of the other, mm. */
const mostOverlap = (a: OnBar, b: OnBar): number =>
  Math.max(...everything(a).flatMap((one) => everything(b).map((two) => overlap(one, two))));

const reach = (item: OnBar): Stretch => ({
  from: mm(Math.min(...everything(item).map((stretch) => stretch.from))),
  to: mm(Math.max(...everything(item).map((stretch) => stretch.to))),
});

/** Two things that cover the same stretch of one part, in the order of their names. */
interface Overlap {
  readonly a: Strap | Collar;
  readonly b: Strap | Collar;
  readonly part: Part;
  readonly by: number;
}

/** Which things on one part cover the same stretch of it. */
function overlaps(items: readonly OnBar[]): readonly Overlap[] {
  const found: Overlap[] = [];
  const sorted = items
    .map((item) => ({ item, reach: reach(item) }))
    .sort((a, b) => a.reach.from - b.reach.from || byText(a.item.thing.name, b.item.thing.name));
  sorted.forEach((one, i) => {
    let told = 0;
    for (let k = i + 1; k < sorted.length && told < MOST_OVERLAPS; k++) {
      const two = sorted[k];
      if (two === undefined || two.reach.from >= one.reach.to) break;
      const by = mostOverlap(one.item, two.item);
      if (by <= NOTHING) continue;
      told += 1;
      const pair = [one.item.thing, two.item.thing];
      const [a, b] = pair.sort((p, q) => byText(p.name, q.name)) as [Strap | Collar, Strap | Collar];
      found.push({ a, b, part: one.item.part, by });
    }
  });
  return found;
}

/** Told at the later statement. */
function overlapFinding({ a, b, part, by }: Overlap, orderOf: (name: string) => number): Finding {
  const [earlier, later] = orderOf(a.name) <= orderOf(b.name) ? [a, b] : [b, a];
  return tell(
    'strap.overlap',
    a.name,
    at(later),
    { a: a.name, b: b.name, tube: part.name },
    { measured: figure(by, 'mm'), notes: [{ at: at(earlier), message: `${earlier.name} lies here.` }] },
  );
}

/** Sideways: free where neither a collar nor the start of a bend is within {@link HOLDS_WITHIN} of the webbing's edge. */
function canSlide(item: OnBar, stops: readonly Stretch[]): readonly Finding[] {
  const webbing = item.webbing;
  if (webbing === null || item.thing.kind !== 'strap' || item.thing.collarsUnread === true) return [];
  const holds = (gap: number): boolean => Math.abs(gap) <= HOLDS_WITHIN + NOTHING;
  const heldBack = stops.some((stop) => holds(webbing.from - stop.to));
  const heldOn = stops.some((stop) => holds(stop.from - webbing.to));
  if (heldBack && heldOn) return [];
  const side =
    !heldBack && !heldOn
      ? BOTH_WAYS
      : heldBack
        ? wayAlong(item.part, webbing.to, 1)
        : wayAlong(item.part, webbing.from, -1);
  return [
    tell('strap.can-slide', item.thing.name, at(item.thing), {
      strap: item.thing.name,
      tube: item.part.name,
      side,
      limit: figure(HOLDS_WITHIN, 'mm'),
      mend: side === BOTH_WAYS ? 'write collars {wide~} gap {gap~} in it' : 'add a collar on that side',
      wide: figure(COLLAR_WIDE, 'mm'),
      gap: figure(COLLAR_GAP, 'mm'),
    }),
  ];
}

/** Kept between runs: where collars sit, and what is told of everything on one bar. */
export interface BarCaches {
  readonly collars: Kept<OnBar | null>;
  readonly bars: Kept<Bar>;
}

export const newBarCaches = (): BarCaches => ({ collars: new Kept(), bars: new Kept() });

/** What is to be told of one bar; of overlaps it depends on the order of the text where. */
interface Bar {
  readonly findings: readonly Finding[];
  readonly overlaps: readonly Overlap[];
}

/** Everything on one part, and what that was made of. */
interface Load {
  readonly part: Part;
  readonly items: OnBar[];
  readonly from: unknown[];
}

function barOf(part: Part, items: readonly OnBar[]): Bar {
  const stops = [...items.flatMap((item) => item.collars), ...arcsOf(part).map(arcStretch)];
  const findings: Finding[] = [];
  for (const item of items) findings.push(...overEnd(item), ...onBends(item), ...canSlide(item, stops));
  return { findings, overlaps: overlaps(items) };
}

/**
 * The findings of everything that lies on bars: `strap.misses-bar`, `strap.slot-edge`, `strap.on-bend`,
 * `strap.overlap`, `strap.can-slide`, and `place.none` for a collar that sits nowhere. A strap whose seat, bar or width
 * is not known has its own finding elsewhere and none here. `ownCollars`: the collar statements of the cage.
 */
export function onBarFindings(
  cage: Cage,
  straps: readonly { readonly strap: Strap; readonly result: StrapResult }[],
  parts: ReadonlyMap<string, Part>,
  ownCollars: readonly Collar[],
  caches: BarCaches,
): readonly Finding[] {
  const findings: Finding[] = [];
  const loads = new Map<string, Load>();
  const lay = (item: OnBar, madeOf: unknown): void => {
    let load = loads.get(item.part.name);
    if (load === undefined) {
      load = { part: item.part, items: [], from: [item.part] };
      loads.set(item.part.name, load);
    }
    load.items.push(item);
    load.from.push(item.thing, madeOf);
  };
  for (const { strap, result } of straps) {
    if (result.miss !== null) findings.push(missFinding(strap, result.miss));
    if (result.figures.onLip) findings.push(tell('strap.slot-edge', strap.name, at(strap), { strap: strap.name }));
    const item = strapOnBar(strap, result.figures, parts);
    if (item !== null) lay(item, result.figures);
  }
  for (const thing of ownCollars) {
    const bars = thing.tube === null ? [] : partsOf(parts, thing.tube);
    const item = caches.collars.get(thing.name, [thing, ...bars], () => collarOnBar(thing, parts));
    if (item !== null) lay(item, item);
    else if (isPlaced(thing, parts)) findings.push(nowhere(thing));
  }
  let order: ReadonlyMap<string, number> | null = null;
  const orderOf = (name: string): number => {
    order ??= new Map([...cage.things.keys()].map((each, i) => [each, i]));
    return order.get(name) ?? 0;
  };
  for (const [name, { part, items, from }] of loads) {
    const bar = caches.bars.get(name, from, () => barOf(part, items));
    for (const finding of bar.findings) findings.push(finding);
    for (const each of bar.overlaps) findings.push(overlapFinding(each, orderOf));
  }
  return findings;
}

/** All that a collar needs is known, so that it can be said to sit nowhere. */
const isPlaced = (collar: Collar, parts: ReadonlyMap<string, Part>): boolean =>
  collar.at !== null &&
  collar.width !== null &&
  collar.tube !== null &&
  partsOf(parts, collar.tube).some((part) => part.centreline !== null);

const nowhere = (collar: Collar): Finding =>
  tell('place.none', collar.name, at(collar, 'at'), {
    what: `No point of ${collar.tube ?? ''} lies at ${collar.at?.axis ?? ''} = {place}.`,
    place: figure(collar.at?.value ?? 0, 'mm'),
  });
