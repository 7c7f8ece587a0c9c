/** `brace.half-way`: how far along the members that it braces a corner tube ends, as a share of their length. */
import { nearestOn } from '../../centreline/query';
import { figure } from '../../geometry/tell';
import type { Car, Member } from '../car';
import { stays } from '../examples';
import type { Item } from '../rule';
import { reading } from '../readings';
import type { Rule } from '../rule';

/** Along each of the two tubes whose corner it braces: from their joint to its end. */
function halvesOf(car: Car, brace: Member): readonly Item[] {
  const [a, b] = brace.ends.map(({ hosts }) => hosts.map((host) => car.member(host)).find((on) => on !== null) ?? null);
  if (!a || !b || a === b) return [];
  if (a.tube.role === 'front-rollbar' || b.tube.role === 'front-rollbar') return [];
  const joint =
    car.landedOn(a).find(({ member }) => member === b)?.end.at ??
    car.landedOn(b).find(({ member }) => member === a)?.end.at;
  if (joint === undefined) return [];
  const ends = [a, b].flatMap((host, i) => {
    const end = brace.ends[i === 0 ? 0 : 1];
    const from = nearestOn(host.line, joint).station;
    const to = nearestOn(host.line, end.at).station;
    const whole = to > from ? host.line.length - from : from;
    return whole > 0 ? [{ host, far: Math.abs(to - from), share: Math.abs(to - from) / whole }] : [];
  });
  // What ends beyond the middle of both is a member of its own, no corner.
  if (ends.every(({ share }) => share > CORNER)) return [];
  return ends.map(({ host, far, share }) => {
    const params = { tube: brace.name, first: a.name, second: b.name, host: host.name, far: figure(far, 'mm') };
    return reading(brace.name, share, '1', params, { fact: 'path' });
  });
}

/** A tube that braces a corner has at least one end in the half of its tube that is nearer to the corner. */
const CORNER = 0.5;

const corner = (at: string): string =>
  `${stays()}\nmirror left {\n  node low = on stay at ${at}\n  node high = on hoop at 400 before crown\n  tube prop as brace { section t38; path low, high }\n}`;

export const braceHalfWay: Rule = {
  code: 'brace.half-way',
  unit: '1',
  slack: 1e-6,
  read: (car) => car.of('brace').flatMap((brace) => halvesOf(car, brace)),
  mend: () => ({ says: 'end it nearer to the joint', ask: ', {book} wants no more than half', params: {} }),
  explanation: {
    what: 'A tube that braces the corner of two others ends farther from their joint than the book wants.',
    why: 'So far out it is no corner any more, and bends the tube in its middle.',
    measured:
      "A tube `as brace` whose two ends lie on two tubes of which one ends on the other: from that joint to its end along each of them, as a share of that tube's length from the joint on. What ends beyond the middle of both is no corner but a member of its own. The junction at a front rollbar is left out.",
    mend: 'Move its end toward the joint.',
    stage: 'hoop',
    bad: `rules fia-253\n${corner('64 %')}`,
    good: `rules fia-253\n${corner('40 %')}`,
  },
};
