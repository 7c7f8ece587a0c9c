/** Foot plates: how a plate lies, and whether it covers the tube that stands on it. */
import type { Finding } from '../../grammar/finding';
import type { Cage, Foot } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { addScaled, cross, dot, norm, scale, sub, unit } from '../centreline/vector';
import { Kept } from './kept';
import type { End, Part } from './shape';
import { byText, figure, tell } from './tell';

/** Less than this beyond the plate's edge is rounding, mm. */
const NOTHING = 1e-6;
/** A plate this nearly along the tube cuts it nowhere. */
const ALONG = 1e-6;

/** A plate's axes, unit vectors: its length (fore and aft unless turned), its width, and its normal, upward. */
export interface PlateFrame {
  readonly long: Vec3;
  readonly wide: Vec3;
  readonly normal: Vec3;
}

/**
 * How the plate lies. Slopes: rise = tan(aft) · aft + tan(left) · left, so the normal is (tan aft, -tan left, 1).
 * `square`: across the tube, whose end leg runs along `away`; without one: null. `turned` is counter-clockwise seen
 * from above; the length lies fore and aft as nearly as the plate allows (on an upright plate: upward).
 */
export function plateFrame(foot: Foot, away: Vec3 | null): PlateFrame | null {
  let normal: Vec3;
  if (foot.lies.kind === 'slopes') normal = unit([Math.tan(foot.lies.aft), -Math.tan(foot.lies.left), 1]);
  else if (foot.lies.kind === 'unknown' || away === null) return null;
  else normal = away[2] < 0 ? scale(away, -1) : away;
  if (!normal.every(Number.isFinite)) return null;
  const across = cross(normal, [1, 0, 0]);
  // A plate that faces straight forward or aft has no fore and aft in it.
  const wide = norm(across) > 1e-9 ? unit(across) : ([0, 1, 0] as const);
  const long = cross(wide, normal);
  const turned = foot.plate?.turned ?? 0;
  const [c, s] = [Math.cos(turned), Math.sin(turned)];
  return {
    long: addScaled(scale(long, c), wide, s),
    wide: addScaled(scale(wide, c), long, -s),
    normal,
  };
}

/** An end that stands on a foot: the plate is one of the things that cut it. */
export interface Standing {
  readonly part: Part;
  readonly end: End;
}

/** The ends on each foot, the first tube (cut by the plate alone) before those that are cut to it. */
export type OnFeet = ReadonlyMap<Foot, readonly Standing[]>;

/** Which ends stand on which foot. Feet without an end are left out. */
export const standingOn = (cage: Cage, parts: ReadonlyMap<string, Part>): OnFeet =>
  onFeet([...parts.values()].map((part) => standsOn(part, cage, parts)));

/** An end with a foot on which it stands. */
export interface Stand extends Standing {
  readonly foot: Foot;
}

/** The feet on which a part's ends stand. */
export const standsOn = (part: Part, cage: Cage, parts: ReadonlyMap<string, Part>): readonly Stand[] =>
  part.ends.flatMap((end) =>
    end.hosts.flatMap((host): readonly Stand[] => {
      // What has a part of that name is a tube: names are unique.
      const foot = parts.has(host) ? undefined : cage.things.get(host);
      return foot?.kind === 'foot' ? [{ part, end, foot }] : [];
    }),
  );

/** By the feet, what stands on each of them. */
export function onFeet(stands: readonly (readonly Stand[])[]): OnFeet {
  const feet = new Map<Foot, Standing[]>();
  for (const own of stands) {
    for (const { part, end, foot } of own) {
      const list = feet.get(foot);
      if (list === undefined) feet.set(foot, [{ part, end }]);
      else list.push({ part, end });
    }
  }
  for (const list of feet.values()) {
    if (list.length < 2) continue;
    list.sort(
      (a, b) =>
        a.end.hosts.length - b.end.hosts.length ||
        (b.part.tube.section?.od ?? 0) - (a.part.tube.section?.od ?? 0) ||
        byText(a.part.name, b.part.name),
    );
  }
  return feet;
}

/**
 * How much plate there is outside the tube's print, mm, where it is least; below 0: the print reaches past the edge;
 * null where that is not known.
 */
export function plateMargin(foot: Foot, at: Vec3, standing: Standing): number | null {
  const beyond = beyondPlate(foot, at, standing);
  return beyond === null ? null : -beyond;
}

/**
 * By how much the tube's print on the plate reaches beyond the plate's edge, mm; 0 or less: the plate covers it. The
 * print is the ellipse in which the plate's plane cuts the tube's outside: along a direction e of the plate it reaches
 * r · |e - n (e · a) / (a · n)| from the axis (a: the tube's direction, n: the plate's normal).
 */
function beyondPlate(foot: Foot, at: Vec3, standing: Standing): number | null {
  const { part, end } = standing;
  if (foot.plate === null || part.tube.section === null || end.away === null || end.origin === null) return null;
  const frame = plateFrame(foot, end.away);
  if (frame === null) return null;
  const a = end.away;
  const steep = dot(a, frame.normal);
  if (Math.abs(steep) < ALONG) return null;
  const r = part.tube.section.od / 2;
  const centre = addScaled(end.origin, a, dot(sub(at, end.origin), frame.normal) / steep);
  const offset = sub(centre, at);
  const beyond = (e: Vec3, half: number): number =>
    Math.abs(dot(offset, e)) + r * norm(addScaled(e, frame.normal, -dot(e, a) / steep)) - half;
  return Math.max(beyond(frame.long, foot.plate.long / 2), beyond(frame.wide, foot.plate.wide / 2));
}

/** `foot.outside-plate`: a tube whose print the plate does not cover. `kept`: what was told of each foot. */
export function feetFindings(
  cage: Cage,
  onFeet: OnFeet,
  kept: Kept<readonly Finding[]> = new Kept(),
): readonly Finding[] {
  const findings: Finding[] = [];
  for (const [foot, list] of onFeet) {
    const node = foot.node === null ? undefined : cage.things.get(foot.node);
    if (node?.kind !== 'node' || node.at === null) continue;
    const { at } = node;
    const from = [foot, at, ...list.map(({ part }) => part), ...list.map(({ end }) => end)];
    for (const finding of kept.get(foot.name, from, () => outsidePlate(foot, at, list))) findings.push(finding);
  }
  return findings;
}

function outsidePlate(foot: Foot, at: Vec3, list: readonly Standing[]): readonly Finding[] {
  const findings: Finding[] = [];
  if (foot.plate === null) return [];
  for (const standing of list) {
    const by = beyondPlate(foot, at, standing);
    if (by === null || by <= NOTHING) continue;
    findings.push(
      tell(
        'foot.outside-plate',
        foot.name,
        { kind: 'thing', thing: foot.name, fact: 'plate' },
        {
          tube: standing.part.tube.name,
          od: figure(standing.part.tube.section?.od ?? 0, 'mm'),
          foot: foot.name,
          long: figure(foot.plate.long, 'mm'),
          wide: figure(foot.plate.wide, 'mm'),
        },
        { measured: figure(by, 'mm') },
      ),
    );
  }
  return findings;
}
