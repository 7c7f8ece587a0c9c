/** `pillar.missing`: whether a windscreen pillar is so raked that it needs a bar, and has one. */
import { pointAt } from '../../centreline/query';
import type { Vec3 } from '../../centreline/vector';
import { figure } from '../../geometry/tell';
import type { Car, Hoop } from '../car';
import { front } from '../examples';
import { flankOf } from '../hoop';
import { onPillar } from '../pillars';
import { pointWords } from '../points';
import { reading } from '../readings';
import type { Decision, Limit, Reading, Rule } from '../rule';

/** A leg along a windscreen pillar: its foot, the joint at the roof, and its bends between foot and roof corner. */
interface Pillar {
  readonly foot: Vec3;
  readonly roof: Vec3;
  readonly bends: readonly Vec3[];
}

function pillarsOf(car: Car, hoop: Hoop): readonly Pillar[] {
  const { line, figures, tube } = hoop;
  const { top, topStation } = figures;
  const joints = [...car.landedOn(hoop, 'transverse', 'longitudinal')].sort((a, b) => b.end.at[2] - a.end.at[2]);
  return hoop.ends.flatMap((end, i): readonly Pillar[] => {
    const other = hoop.ends[i === 0 ? 1 : 0];
    // Of a half-lateral the lower end, of a lateral rollbar the front leg, of a front rollbar both.
    if (tube.role === 'half-lateral' && end.at[2] > other.at[2]) return [];
    if (tube.role === 'lateral-rollbar' && end.at[0] < other.at[0]) return [];
    const here = ({ station }: { readonly station: number }): boolean =>
      tube.role !== 'front-rollbar' || station < topStation === (i === 0);
    const joint = joints.find(here);
    if (joint === undefined) return [];
    const whole = tube.role === 'half-lateral';
    const [from, to] = whole ? [0, line.length] : i === 0 ? [0, topStation] : [topStation, line.length];
    const { corner } = flankOf(line, top, from, to);
    const bends = line.pieces.flatMap((piece) => {
      if (piece.kind !== 'arc' || corner === null) return [];
      const below = i === 0 ? piece.start < corner.start : piece.start > corner.start;
      return below ? [pointAt(line, piece.start + piece.length / 2).point] : [];
    });
    return [{ foot: end.at, roof: pointAt(line, joint.station).point, bends }];
  });
}

/** In side view: how far the leg's bends lie off the line from foot to roof; and how far foot or bend lie ahead of the roof. */
function readingsOf({ foot, roof, bends }: Pillar): { readonly offset: number; readonly ahead: number } {
  const [dx, dz] = [roof[0] - foot[0], roof[2] - foot[2]];
  const length = Math.hypot(dx, dz);
  const off = (p: Vec3): number =>
    length === 0 ? 0 : Math.abs((p[0] - foot[0]) * dz - (p[2] - foot[2]) * dx) / length;
  return {
    offset: Math.max(0, ...bends.map(off)),
    ahead: Math.max(...[foot, ...bends].map((p) => Math.abs(p[0] - roof[0]))),
  };
}

const lengthIn = (item: Reading, name: string): number => {
  const value = item.params[name];
  return typeof value === 'object' && value !== null && 'value' in value ? value.value : 0;
};

/** The drawing that shows the dimension was not seen: only where both readings of it agree is anything told. */
function decide(limit: Limit, item: Reading): Decision {
  const { to } = limit.allowed;
  const [offset, ahead] = [lengthIn(item, 'offset'), lengthIn(item, 'ahead')];
  if (to === null || Math.max(offset, ahead) <= to) return { kind: 'met' };
  const least = Math.min(offset, ahead);
  if (least > to) return { kind: 'broken', measured: figure(least, 'mm'), from: null, to, low: false };
  return {
    kind: 'unknown',
    fact: `the drawing that shows its dimension A was not seen: from the bend to the line from foot to roof it is ${String(Math.round(offset))} mm, from foot to roof along the car ${String(Math.round(ahead))} mm, and the limit lies between; a tube as pillar-bar settles it`,
  };
}

const hasBar = (car: Car, hoop: Hoop, { foot }: Pillar): boolean =>
  car
    .of('pillar-bar')
    .some((bar) => bar.ends.some((end) => onPillar(car, end)?.host.name === hoop.name && end.at[1] * foot[1] > 0));

const leaning = (knee: string): string =>
  `rules fia-253\nvehicle { homologated "2008"; codriver no }\n${front(knee, '(1000, 610, 0)')}`;

export const pillarMissing: Rule = {
  code: 'pillar.missing',
  unit: 'mm',
  slack: 1e-6,
  read: (car) =>
    car
      .hoops()
      .filter(({ tube }) => tube.role !== 'main-rollbar')
      .flatMap((hoop) =>
        pillarsOf(car, hoop)
          .filter((pillar) => !hasBar(car, hoop, pillar))
          .map((pillar): Reading => {
            const { offset, ahead } = readingsOf(pillar);
            const from = pointWords('from', pillar.roof);
            const to = pointWords('to', pillar.foot);
            const params = {
              tube: hoop.name,
              offset: figure(offset, 'mm'),
              ahead: figure(ahead, 'mm'),
              ...from.params,
              ...to.params,
            };
            return reading(hoop.name, Math.min(offset, ahead), 'mm', params, { fact: 'path' });
          }),
      ),
  decide,
  mend: () => ({
    says: 'add a tube as pillar-bar on each side, from near ({fromX#}, {fromY#}, {fromZ#}) to near ({toX#}, {toY#}, {toZ#})',
    ask: ', over {limit} {book} wants it stiffened',
    params: {},
  }),
  explanation: {
    what: 'A windscreen pillar is bent or raked so far that the book wants a bar along it, and there is none.',
    why: 'A pillar with a knee folds at it when the car comes down on its front corner.',
    measured:
      "In side view, two readings of the drawing's dimension, which was not seen: how far the leg's bend lies off the line from its foot to the highest joint of a transverse or longitudinal tube; and how far foot or bend lie ahead of that joint. Both have to be over the limit; where one is, the tool says that it cannot judge.",
    mend: 'Add a `pillar-bar` from near the roof joint to near the front foot.',
    stage: 'hoop',
    bad: leaning('(1000, 600, 500)'),
    good: leaning('(760, 600, 500)'),
  },
};
