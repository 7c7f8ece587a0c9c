/** `strap.drop`: the run's angle below horizontal in side view, from where the webbing leaves the seat. */
import { degrees } from '../../../grammar/units';
import type { Cage } from '../../cage/cage';
import { pointAt } from '../../centreline/query';
import type { Shape, StrapFigures } from '../../geometry/shape';
import type { Mend, Rule } from '../rule';
import { strapReadings } from '../strap-readings';
import { laid, solveBetween, tidy } from '../what-if';

const dropOf = (figures: StrapFigures): number | null => (figures.drop === null ? null : degrees(figures.drop));

/** A bar that is moved farther than this is another car, mm. */
const FARTHEST = 600;
/** A bar whose ends differ less than this in height is level, mm: a height can be told for all of it. */
const LEVEL = 0.05;

/** The height of the bar's centreline, if it has one height; null for a sloping or bent-down bar. */
function levelOf(shape: Shape, figures: StrapFigures): number | null {
  const part = figures.part === null ? undefined : shape.parts.get(figures.part);
  const line = part?.centreline ?? null;
  if (line === null || figures.barPoint === null) return null;
  const heights = line.points.map((point) => point[2]);
  const ends = [pointAt(line, 0).point[2], pointAt(line, line.length).point[2]];
  const all = [...heights, ...ends];
  return Math.max(...all) - Math.min(...all) < LEVEL ? figures.barPoint[2] : null;
}

/** The height that brings the drop to `target`: the bar moved straight up or down, solved on the strap model. */
function lift(cage: Cage, shape: Shape, name: string, drop: number, target: number): Mend {
  const raise = drop > target;
  const verb = raise ? 'raise' : 'lower';
  const strap = laid(cage, shape, name);
  const says = `${verb} the bar`;
  if (strap === null) return { says, params: {} };
  const by = solveBetween((z) => dropOf(strap.withBar([0, 0, z])), 0, raise ? FARTHEST : -FARTHEST, target);
  if (by === null) return { says, params: {} };
  const level = levelOf(shape, strap.figures);
  return level === null
    ? { says: `${says} by {by} there`, params: { by: { value: Math.abs(tidy(by, 0, cage.units)), unit: 'mm' } } }
    : { says: `${says} to z = {to#}`, params: { to: { value: tidy(level + by, level, cage.units), unit: 'mm' } } };
}

export const strapDrop: Rule = {
  code: 'strap.drop',
  unit: 'deg',
  slack: 1e-6,
  read: strapReadings('deg', dropOf, (figures) => {
    const drop = dropOf(figures) ?? 0;
    return {
      params: drop < 0 ? { way: 'runs up {rise}', rise: { value: -drop, unit: 'deg' } } : { way: 'drops {measured}' },
    };
  }),
  mend: (reading, target, { cage, shape }) => {
    const drop = reading.measured.value;
    const mend = lift(cage, shape, reading.subject, drop, target);
    return drop < 0 && target === 0 ? { ...mend, ask: ', {book} wants it level or down' } : mend;
  },
  explanation: {
    what: 'A shoulder strap runs too steeply down from the seat to the bar, or runs up.',
    why: 'In a frontal hit a steep strap loads the spine lengthwise; one that runs up lets the shoulders rise.',
    measured:
      "In side view, below horizontal, along the straight run from the slot's edge to where the webbing first touches the bar. Some books measure from the shoulder instead: that figure stands beside it.",
    mend: 'Raise or lower the bar; a bar farther aft makes the strap flatter too. Reclining the seat moves the slot.',
    stage: 'harness',
    bad: 'seat low { slots (240, -300, 778); recline 20 deg; slot-spacing 220; back 45 }\nstrap steep { seat low; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
    good: 'seat low { slots (240, -300, 755); recline 20 deg; slot-spacing 220; back 45 }\nstrap flat { seat low; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }',
  },
};
