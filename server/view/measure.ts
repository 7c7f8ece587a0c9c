/**
 * What somebody with a tape and an angle gauge would read between two things that were picked. From exact centrelines,
 * sections and plates, not from the meshes that were clicked on; pure. Lines in the units of the file.
 *
 * Angles: between two legs the smaller one, 0 to 90 degrees, with its supplement; in a view between the legs as they are
 * seen from there. A lean is against the horizontal.
 */
import { sayInches, sayMeasure } from '../../grammar/print';
import type { LengthUnit } from '../../grammar/units';
import { degrees } from '../../grammar/units';
import type { Vec3 } from '../centreline/vector';
import { addScaled, angleBetween, dot, norm, scale, sub, unit } from '../centreline/vector';
import type { Shape } from '../geometry/shape';
import type { MeasureAnswer, Picked, ViewMark } from './model';
import type { Target } from './target';
import { targetOf } from './target';
import { roundedPoint } from './rounded';
import type { Between } from './solid';
import { shortest } from './solid';

/** Looked along this axis. */
const VIEWS = [
  { name: 'side', across: 1 },
  { name: 'plan', across: 2 },
  { name: 'front', across: 0 },
] as const;

/** A leg that is seen this nearly end-on has no direction in a view: sine of the angle to the line of sight. */
const END_ON = 1e-6;
/** Surfaces this near to each other touch, mm. */
const TOUCH = 1e-6;
/** How long the arms of an angle are drawn, mm. */
const ARM = 150;

type Line = MeasureAnswer['lines'][number];

class Words {
  readonly lines: Line[] = [];
  readonly marks: ViewMark[] = [];

  constructor(
    private readonly units: LengthUnit,
    private readonly of: readonly string[],
  ) {}

  length(value: number): string {
    return sayMeasure({ value, unit: 'mm' }, this.units);
  }

  /** The same, in inches also as a tape shows it: to the nearest sixteenth. */
  onTape(value: number): string {
    const inches = this.units === 'in' || this.units === 'ft';
    return inches ? `${this.length(value)} (${sayInches(value)} in on a tape)` : this.length(value);
  }

  angle(radians: number): string {
    return sayMeasure({ value: degrees(radians), unit: 'deg' }, this.units);
  }

  say(what: string, says: string): void {
    this.lines.push({ what, says });
  }

  line(what: string, words: string, { from, to, distance }: Between): void {
    this.marks.push({
      what,
      of: this.of,
      says: `${words} ${this.length(distance)}`,
      finding: null,
      kind: 'distance',
      from: roundedPoint(from),
      to: roundedPoint(to),
    });
  }

  angleAt(what: string, says: string, at: Vec3, from: Vec3, to: Vec3): void {
    const arm = (way: Vec3): Vec3 => addScaled(at, unit(way), ARM);
    this.marks.push({
      what,
      of: this.of,
      says,
      finding: null,
      kind: 'angle',
      at: roundedPoint(at),
      from: roundedPoint(arm(from)),
      to: roundedPoint(arm(to)),
    });
  }
}

/** As it is seen along an axis. */
const seen = (v: Vec3, across: 0 | 1 | 2): Vec3 => [
  across === 0 ? 0 : v[0],
  across === 1 ? 0 : v[1],
  across === 2 ? 0 : v[2],
];

/** Between two lines that have no direction of their own, 0 to π/2. */
const sharp = (a: Vec3, b: Vec3): number => {
  const angle = angleBetween(a, b);
  return Math.min(angle, Math.PI - angle);
};

/** Tape from point to point: true, along the car's axes, and as it is seen. */
function tape(words: Words, a: Vec3, b: Vec3): void {
  const way = sub(b, a);
  const far = norm(way);
  words.say('Distance between the two places', words.onTape(far));
  words.say(
    'Along the car, across it, in height',
    `dx ${words.length(way[0])}, dy ${words.length(way[1])}, dz ${words.length(way[2])}`,
  );
  words.say(
    'Distance as seen',
    VIEWS.map(({ name, across }) => `${name} ${words.length(norm(seen(way, across)))}`).join(', '),
  );
  words.line('tape', 'tape', { from: a, to: b, distance: far });
}

/** The lean of one leg: true, and as it is seen from the side and from the front. */
function lean(words: Words, target: Target): void {
  const { leg } = target;
  if (leg === null) return;
  const level = (way: Vec3): number | null => {
    const size = norm(way);
    return size < END_ON ? null : Math.atan2(Math.abs(way[2]), Math.hypot(way[0], way[1]));
  };
  const parts = VIEWS.filter(({ across }) => across !== 2).map(({ name, across }) => {
    const angle = level(seen(leg, across));
    return `${name} ${angle === null ? 'end-on' : words.angle(angle)}`;
  });
  words.say(
    `Lean of ${target.name}${target.inBend ? ', there in its bend,' : ''} against horizontal`,
    [words.angle(level(leg) ?? 0), ...parts].join(', '),
  );
}

function angles(words: Words, a: Target, b: Target, at: Vec3): void {
  if (a.leg === null || b.leg === null) return;
  const [from, other] = [a.leg, b.leg];
  const least = sharp(from, other);
  words.say('Angle between them', `${words.angle(least)} (${words.angle(Math.PI - least)})`);
  words.say(
    'Angle as seen',
    VIEWS.map(({ name, across }) => {
      const [p, q] = [seen(from, across), seen(other, across)];
      return `${name} ${norm(p) < END_ON || norm(q) < END_ON ? 'end-on' : words.angle(sharp(p, q))}`;
    }).join(', '),
  );
  words.angleAt('angle', `angle ${words.angle(least)}`, at, from, dot(from, other) < 0 ? scale(other, -1) : other);
}

const calledFor = (target: Target): string => (target.face === null ? target.name : `${target.face} of ${target.name}`);

/** The shortest way between the two bodies; a place alone has none but the tape's. */
function gap(words: Words, a: Target, b: Target): void {
  if (a.face === null && b.face === null) return;
  const line = shortest(a.solids, b.solids);
  if (line === null) return;
  const touches = line.distance <= TOUCH;
  words.say(`Shortest, ${calledFor(a)} to ${calledFor(b)}`, touches ? 'they touch' : words.onTape(line.distance));
  if (!touches) words.line('gap', 'gap', line);
}

/** The same of axes; from a place to the axis of a tube. */
function axes(words: Words, a: Target, b: Target): Between | null {
  if (a.axis.length === 0 && b.axis.length === 0) return null;
  const line = shortest(a.axis.length > 0 ? a.axis : a.point, b.axis.length > 0 ? b.axis : b.point);
  if (line === null) return null;
  const called = ({ axis, face, name }: Target): string =>
    axis.length > 0 ? `axis of ${name}` : face === null ? name : `the place on ${name}`;
  words.say(`Shortest, ${called(a)} to ${called(b)}`, words.onTape(line.distance));
  words.line('axes', 'axes', line);
  return line;
}

/** What is read between two targets. */
export function measured(a: Target, b: Target, units: LengthUnit): MeasureAnswer {
  const words = new Words(units, [...new Set([a.id, b.id])]);
  tape(words, a.at, b.at);
  const isOne = a.id === b.id;
  if (!isOne) gap(words, a, b);
  const between = isOne ? null : axes(words, a, b);
  const isOneLeg = isOne && a.piece === b.piece;
  if (!isOneLeg) angles(words, a, b, between?.from ?? a.onAxis);
  lean(words, a);
  if (!isOneLeg) lean(words, b);
  return { lines: words.lines, marks: words.marks };
}

/** What is read between two things that were picked; null: one of them is not in the car. Never throws. */
export function measureBetween(shape: Shape, first: Picked, second: Picked): MeasureAnswer | null {
  const a = targetOf(first, shape);
  const b = targetOf(second, shape);
  return a === null || b === null ? null : measured(a, b, shape.cage.units);
}
