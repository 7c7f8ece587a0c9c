/** `hoop.rear-leg`: the rear leg of a lateral rollbar is straight in side view. */
import type { Centreline } from '../../centreline/centreline';
import { pointAt } from '../../centreline/query';
import type { Vec3 } from '../../centreline/vector';
import type { Hoop } from '../car';
import { flankOf } from '../hoop';
import { reading } from '../readings';
import type { Rule } from '../rule';

/** Enough to find how far a bend leaves the chord: a hundredth of a bend's own length apart. */
const STEPS = 64;

/** The greatest distance of the centreline between two stations from the chord between them, in side view, mm. */
function offChord(line: Centreline, from: number, to: number): number {
  const [a, b] = [pointAt(line, from).point, pointAt(line, to).point];
  const [dx, dz] = [b[0] - a[0], b[2] - a[2]];
  const length = Math.hypot(dx, dz);
  if (length === 0) return 0;
  const off = (p: Vec3): number => Math.abs((p[0] - a[0]) * dz - (p[2] - a[2]) * dx) / length;
  const stations = [
    ...line.pieces.map(({ start }) => start).filter((start) => start > from && start < to),
    ...Array.from({ length: STEPS - 1 }, (_, i) => from + ((to - from) * (i + 1)) / STEPS),
  ];
  return Math.max(0, ...stations.map((station) => off(pointAt(line, station).point)));
}

/** From the foot that stands farther aft up to where its corner bend begins. */
function rearLeg({ line, figures, ends: [first, last] }: Hoop): number {
  const { top, topStation } = figures;
  if (first.at[0] <= last.at[0]) {
    const { corner } = flankOf(line, top, 0, topStation);
    return offChord(line, 0, corner?.start ?? topStation);
  }
  const { corner } = flankOf(line, top, topStation, line.length);
  return offChord(line, corner === null ? topStation : corner.start + corner.length, line.length);
}

const lateral = (knee: string): string =>
  `rules fia-253
node rear-foot = (0, 600, 0)
node rear-knee = ${knee}
node rear-top = (-40, 520, 1000)
node front-top = (700, 500, 1000)
node front-foot = (1300, 600, 0)
tube side as lateral-rollbar { section t45; die d45; path rear-foot, rear-knee, rear-top, front-top, front-foot; first open; last open }`;

export const hoopRearLeg: Rule = {
  code: 'hoop.rear-leg',
  unit: 'mm',
  slack: 1e-6,
  read: (car) =>
    car
      .hoops()
      .filter(({ tube }) => tube.role === 'lateral-rollbar')
      .map((hoop) => reading(hoop.name, rearLeg(hoop), 'mm', { tube: hoop.name }, { fact: 'path' })),
  mend: () => ({
    says: 'bend it in front view only',
    ask: ', {book} wants it straight and names no tolerance; over {limit} is told',
    params: {},
  }),
  explanation: {
    what: 'The rear leg of a lateral rollbar is not straight in side view.',
    why: 'It stands for the main hoop: bent, it folds where it leaves its line.',
    measured:
      'In side view, from the bent centreline to the line from its foot to where its top corner begins. The book names no tolerance; up to 5 mm is not told.',
    mend: 'Put its nodes into one line, seen from the side.',
    stage: 'parts',
    bad: lateral('(-60, 620, 450)'),
    good: lateral('(-18, 620, 450)'),
  },
};
