/** `joint.toe-to-bend`: from the edge of a weld to where the bend of a tube begins, on the host and on the end's own tube. */
import type { Arc } from '../../centreline/centreline';
import { figure } from '../../geometry/tell';
import type { End, Part } from '../../geometry/shape';
import type { Car } from '../car';
import { stays } from '../examples';
import { each } from '../each';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';
import type { Weld } from '../welds';
import { bendsOf, coveredBy, fromBend, straightBehind } from '../welds';

/** Mm. */
const SAME = 1e-6;

interface Toe {
  /** Mm; below 0: it reaches into the bend. */
  readonly far: number;
  readonly what: string;
  /** The tube whose end it is, or which of the tube's own ends. */
  readonly child: string;
  readonly bend: Arc;
}

/** Welds of the tube's own ends, where the cut does not reach into the bend: that is told as a fault of its own. */
function ownToes(part: Part): readonly Toe[] {
  return part.ends.flatMap((end: End) => {
    if (end.fit !== 'cope' && end.fit !== 'foot') return [];
    const behind = straightBehind(part, end);
    if (behind === null || behind.left < 0) return [];
    return [{ far: behind.left, what: 'The weld at the {child} end of {tube}', child: end.which, bend: behind.bend }];
  });
}

/** The toe of all that are welded to a tube that is nearest to one of its bends. Those whose axis lands on the bend are told by geometry. */
function landedToe(part: Part, welds: readonly Weld[]): Toe | null {
  const bends = bendsOf(part);
  const near = welds.flatMap((weld) =>
    bends
      .filter((bend) => weld.station < bend.start || weld.station > bend.start + bend.length)
      .map((bend) => ({ weld, bend, least: fromBend(bend, weld.station, weld.station) - weld.bound })),
  );
  near.sort((a, b) => a.least - b.least);
  let best: Toe | null = null;
  for (const { weld, bend, least } of near) {
    if (best !== null && least > best.far) break;
    const print = coveredBy(weld);
    if (print === null) continue;
    const far = fromBend(bend, print.from, print.to);
    if (best === null || far < best.far)
      best = { far, what: 'The weld of {child} on {tube}', child: weld.part.name, bend };
  }
  return best;
}

/** Of those that are equally near, as far as figures go, the first: twins must not change places by rounding. */
const nearest = (toes: readonly Toe[]): Toe | undefined =>
  toes.reduce<Toe | undefined>(
    (best, toe) => (best === undefined || toe.far < best.far - SAME ? toe : best),
    undefined,
  );

function readPart(part: Part, car: Car): readonly Reading[] {
  const { section } = part.tube;
  if (section === null || bendsOf(part).length === 0) return [];
  const landed = landedToe(part, car.weldsOn(part.name));
  const toes = [...ownToes(part), ...(landed === null ? [] : [landed])];
  const toe = nearest(toes);
  if (toe === undefined) return [];
  const where = toe.far < 0 ? 'reaches {into} into the bend' : 'ends {measured} from the bend';
  const node = part.tube.path[toe.bend.corner] ?? null;
  const { what, child } = toe;
  const params = { tube: part.name, what, child, where, into: figure(-toe.far, 'mm'), node };
  return [reading(part.tube.name, toe.far, 'mm', params, { limit: { from: section.od, to: null } })];
}

export const jointToeToBend: Rule = {
  code: 'joint.toe-to-bend',
  unit: 'mm',
  slack: 0.05,
  read: each((car) => car.parts(), readPart),
  mend: (item, target) => ({
    says: 'move it {by~} away from the bend, or weld there last and slowly',
    ...(item.measured.value < 0 ? { ask: ', where no weld should be' } : {}),
    params: { by: figure(target - item.measured.value, 'mm') },
  }),
  explanation: {
    what: 'A weld lies close to a bend, or reaches onto it.',
    why: 'The bend is thinner outside, harder and full of stress: heat beside it draws the tube, and a crack that starts at the toe finds an easy way.',
    measured:
      "Along the bent centreline from the edge of what the joint covers to the bend's tangent, of all welds of a tube the nearest: those that land on it, and its own ends. The habit is one diameter; a code for plate allows more (EN 1993-1-8, table 4.2: a bend of three diameters strains by 16.7 %, which it allows to be welded up to 10 mm thick). Ends that land on the bend itself are told by cope.on-bend.",
    mend: 'Move the joint along its tube, or the bend away from it.',
    stage: 'hoop',
    bad: stays('at 40 before crown'),
    good: stays('at 110 before crown'),
  },
};
