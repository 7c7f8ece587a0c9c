/** `joint.toe-spacing`: between the welds of two tubes that land side by side on a third. */
import { figure } from '../../geometry/tell';
import type { Car } from '../car';
import { each } from '../each';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';
import type { Weld } from '../welds';
import { anchorOf, between, radiusOf } from '../welds';

/** What is wanted everywhere, mm; and how much farther apart they may be to be measured at all. */
const LEAST = 12;
const NEXT = 1;
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

function pairReading(a: Weld, b: Weld, far: number): Reading | null {
  const apart = between(a.end.edge, b.end.edge);
  if (apart === null || apart > far) return null;
  const [first, second] = a.part.name < b.part.name ? [a, b] : [b, a];
  const params = { tube: first.part.name, other: second.part.name, host: a.host.name };
  return reading(first.part.tube.name, apart, 'mm', params, {
    at: anchorOf(first.part, first.end),
    limit: { from: radiusOf(a.host), to: null },
  });
}

/** What is welded on one part. */
function readHost(name: string, car: Car): readonly Reading[] {
  const readings: Reading[] = [];
  const list = [...car.weldsOn(name)].sort((a, b) => a.station - b.station);
  const [first, second] = list;
  if (first === undefined || second === undefined) return [];
  const far = Math.max(LEAST, radiusOf(first.host)) + NEXT;
  const widest = Math.max(...list.map(({ bound }) => bound));
  for (const [i, a] of list.entries()) {
    for (const b of list.slice(i + 1)) {
      if (b.station - a.station > a.bound + widest + far) break;
      if (b.station - a.station > a.bound + b.bound + far || isOneNode(a, b)) continue;
      const found = pairReading(a, b, far);
      if (found !== null) readings.push(found);
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
  read: each((car) => car.weldHosts(), readHost),
  mend: (item, target) => ({
    says: 'move one of them by {by~}, or bring both to one node',
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
