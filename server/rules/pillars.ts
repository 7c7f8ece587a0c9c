/** The tubes that stiffen the windscreen pillars: their ends, and the example that the rules about them share. */
import { nearestOn } from '../centreline/query';
import type { Car, Member, MemberEnd } from './car';
import { front } from './examples';

const HOSTS = ['half-lateral', 'front-rollbar', 'lateral-rollbar'] as const;

export interface OnPillar {
  readonly host: Member;
  readonly station: number;
}

/** The pillar that an end lands on; null: it lands on none. */
export function onPillar(car: Car, end: MemberEnd): OnPillar | null {
  for (const name of end.hosts) {
    const host = car.member(name);
    if (host !== null && HOSTS.some((role) => role === host.tube.role))
      return { host, station: nearestOn(host.line, end.at).station };
  }
  return null;
}

export const pillarExample = (
  high = 'at 60 before head',
  low = 'at 80 from front-foot',
  header = 'at 10 before head',
): string =>
  `${front('(900, 600, 700)', '(1000, 610, 0)', header)}
mirror left {
  node pillar-high = on side ${high}
  node pillar-low = on side ${low}
  tube pillar as pillar-bar { section t38; path pillar-high, pillar-low }
  vent pillar -> side { at pillar-low; dia 5 }
}`;

/** One that turns by its middle node, standing free. */
export const bentPillar = (middle: string): string =>
  `node low = (0, 600, 0)
node middle = ${middle}
node high = (-300, 600, 900)
tube pillar as pillar-bar { section t38; die d38; path low, middle, high; first open; last open }`;
