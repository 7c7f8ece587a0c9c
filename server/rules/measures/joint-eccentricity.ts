/** `joint.eccentricity`: by how much the axes of a joint miss each other. */
import type { Vec3 } from '../../centreline/vector';
import { distance } from '../../centreline/vector';
import { figure } from '../../geometry/tell';
import type { End, Part } from '../../geometry/shape';
import type { Car } from '../car';
import { each } from '../each';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';
import type { Weld } from '../welds';
import { anchorOf, radiusOf } from '../welds';

/** An end that is told to land where it stands, beside the axis; others that miss are told by place.near-miss. */
function besideReading(part: Part, end: End, host: Part): Reading | null {
  const told = end.which === 'first' ? part.tube.first : part.tube.last;
  if (told.kind !== 'onto' || end.offset === null || end.hosts[0] !== host.name) return null;
  return found(part, end, end.offset, `the axis of ${host.name}`, host);
}

const found = (part: Part, end: End, value: number, other: string, host: Part): Reading =>
  reading(
    part.tube.name,
    value,
    'mm',
    { tube: part.name, end: end.which, other, host: host.name },
    { at: anchorOf(part, end), limit: { from: null, to: radiusOf(host) / 2 } },
  );

/** Two ends that are cut to each other on one tube: how far apart their axes meet it. */
function clusterReading(weld: Weld, others: readonly Weld[]): Reading | null {
  const own = weld.end.origin;
  if (own === null || weld.end.hosts.length < 2) return null;
  let most: { readonly far: number; readonly with: Weld } | null = null;
  for (const other of others) {
    const at: Vec3 | null = other.end.origin;
    if (other.part === weld.part || at === null || !weld.end.hosts.includes(other.part.name)) continue;
    const far = distance(own, at);
    if (most === null || far > most.far) most = { far, with: other };
  }
  return most === null
    ? null
    : found(weld.part, weld.end, most.far, `that of ${most.with.part.name} along ${weld.host.name}`, weld.host);
}

function readWeld(weld: Weld, car: Car): readonly Reading[] {
  const beside = besideReading(weld.part, weld.end, weld.host);
  const cluster = clusterReading(weld, car.weldsOn(weld.host.name));
  return [...(beside === null ? [] : [beside]), ...(cluster === null ? [] : [cluster])];
}

const cluster = (apart: number): string =>
  `node a = (-300, 0, 700)
node b = (0, ${String(apart)}, 500)
node top-a = on hoop nearest (0, 0, 1000)
node top-b = on hoop nearest (0, ${String(apart)}, 1000)
tube strut as brace { section t38; path a, top-a; first open }
tube post as brace { section t38; path b, top-b; first open; last onto hoop, strut }`;

export const jointEccentricity: Rule = {
  code: 'joint.eccentricity',
  unit: 'mm',
  slack: 0.05,
  read: each((car) => car.welds(), readWeld),
  mend: (item, target) => ({
    says: 'bring them {by~} nearer to one point, or apart until both are welded all round',
    params: { by: figure(item.measured.value - target, 'mm') },
  }),
  explanation: {
    what: 'The axes of the tubes of a joint do not meet in one point.',
    why: 'Their loads turn the joint: the tube that runs through is bent beside the weld.',
    measured:
      "Of an end that is told to land beside the axis (`onto`), how far its axis passes that of its host; of ends that are cut to each other on one tube, how far apart their axes meet it. A quarter of the through tube's diameter is usual.",
    mend: 'Bring the nodes together, or keep the tubes apart.',
    stage: 'hoop',
    bad: cluster(25),
    good: cluster(5),
  },
};
