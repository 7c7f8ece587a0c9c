/** `joint.toe-spacing`: between the welds of two tubes that land side by side on a third. */
import { figure } from '../../geometry/tell';
import type { Part } from '../../geometry/shape';
import type { Car } from '../car';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';
import type { Weld } from '../welds';
import { anchorOf, between, radiusOf, weldsOf } from '../welds';

/** Farther apart than this is no matter for anybody, mm. */
const FAR = 40;
/** Ends this near to each other are one node, mm. */
const SAME = 0.5;

/** What is cut to the other, or stands at its node, is one joint on purpose. */
function isOneNode(a: Weld, b: Weld): boolean {
  const cutTo = (one: Weld, other: Weld): boolean =>
    one.end.hosts.includes(other.part.name) || one.end.hosts.includes(other.part.tube.name);
  return (
    a.part.tube === b.part.tube ||
    cutTo(a, b) ||
    cutTo(b, a) ||
    (a.end.node !== null && a.end.node === b.end.node) ||
    Math.abs(a.station - b.station) <= SAME
  );
}

function pairReading(a: Weld, b: Weld): Reading | null {
  const apart = between(a.end.edge, b.end.edge);
  if (apart === null || apart > FAR) return null;
  const [first, second] = a.part.name < b.part.name ? [a, b] : [b, a];
  const params = { tube: first.part.name, other: second.part.name, host: a.host.name };
  return reading(first.part.tube.name, apart, 'mm', params, {
    at: anchorOf(first.part, first.end),
    limit: { from: radiusOf(a.host), to: null },
  });
}

function read(car: Car): readonly Reading[] {
  const onHost = new Map<Part, Weld[]>();
  for (const weld of weldsOf(car)) {
    const list = onHost.get(weld.host);
    if (list === undefined) onHost.set(weld.host, [weld]);
    else list.push(weld);
  }
  const readings: Reading[] = [];
  for (const list of onHost.values()) {
    list.sort((a, b) => a.station - b.station);
    const widest = Math.max(...list.map(({ bound }) => bound));
    for (const [i, a] of list.entries()) {
      for (const b of list.slice(i + 1)) {
        if (b.station - a.station > a.bound + widest + FAR) break;
        if (b.station - a.station > a.bound + b.bound + FAR || isOneNode(a, b)) continue;
        const found = pairReading(a, b);
        if (found !== null) readings.push(found);
      }
    }
  }
  return readings;
}

const struts = (apart: number): string =>
  [0, apart]
    .map(
      (off, i) =>
        `node low-${String(i)} = (-300, ${String(off)}, 700)\nnode high-${String(i)} = on hoop nearest (0, ${String(off)}, 1000)\ntube strut-${String(i)} as brace { section t38; path low-${String(i)}, high-${String(i)}; first open }`,
    )
    .join('\n');

export const jointToeSpacing: Rule = {
  code: 'joint.toe-spacing',
  unit: 'mm',
  slack: 0.1,
  read,
  mend: (item, target) => ({
    says: 'move one of them by {by}, or bring both to one node',
    params: { by: figure(target - item.measured.value, 'mm') },
  }),
  explanation: {
    what: 'Two tubes are welded to a third close beside each other.',
    why: 'Their heat zones run together into one wide soft one, and there is no room for the torch between them.',
    measured:
      'The shortest distance between the outer edges of both cuts, which is where the toes of the welds begin. Tubes that are cut to each other, or end at the same node, are one joint on purpose and not measured.',
    mend: 'Move one of them along the tube, or bring both to one node and say who is cut to whom.',
    stage: 'hoop',
    bad: struts(45),
    good: struts(70),
  },
};
