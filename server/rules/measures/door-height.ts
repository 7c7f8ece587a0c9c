/** `door.height`: how high in the door opening a door bar is fixed, or leaves it, as a share of its height. */
import type { Side } from '../../cage/cage';
import { pointAt } from '../../centreline/query';
import type { Vec3 } from '../../centreline/vector';
import { figure } from '../../geometry/tell';
import type { Car, Member } from '../car';
import { front } from '../examples';
import type { Item } from '../rule';
import { missingOfCar, reading } from '../readings';
import type { Rule } from '../rule';

interface Opening {
  readonly side: Side | null;
  readonly outline: readonly Vec3[];
}

const openingsOf = (car: Car): readonly Opening[] =>
  car.ofKind('door').flatMap(({ outline }) => {
    if (outline === null || outline.length < 3) return [];
    const y = outline.reduce((sum, p) => sum + p[1], 0);
    return [{ side: y > 0 ? ('left' as const) : y < 0 ? ('right' as const) : null, outline }];
  });

/** True where the point lies in the outline, seen from the side (even-odd rule; edges count as in). */
function isIn(outline: readonly Vec3[], [x, , z]: Vec3): boolean {
  let inside = false;
  outline.forEach((a, i) => {
    const b = outline[(i + 1) % outline.length] ?? a;
    if (a[2] > z !== b[2] > z && x < a[0] + ((z - a[2]) / (b[2] - a[2])) * (b[0] - a[0])) inside = !inside;
  });
  return inside;
}

/** Steps in which the bar is followed from its end to the edge; the edge itself is found by halving. */
const STEPS = 64;
const HALVINGS = 40;

/** From one end: the end itself where it lies in the opening, else where the bar first comes into it; null: never. */
function meets({ line }: Member, outline: readonly Vec3[], forward: boolean): Vec3 | null {
  const at = (share: number): Vec3 => pointAt(line, line.length * (forward ? share : 1 - share)).point;
  if (isIn(outline, at(0))) return at(0);
  for (let i = 1; i <= STEPS; i++) {
    if (!isIn(outline, at(i / STEPS))) continue;
    let [out, into] = [(i - 1) / STEPS, i / STEPS];
    for (let k = 0; k < HALVINGS; k++) {
      const middle = (out + into) / 2;
      if (isIn(outline, at(middle))) into = middle;
      else out = middle;
    }
    return at(into);
  }
  return null;
}

function readingOf(bar: Member, openings: readonly Opening[]): Item | null {
  const opening = openings.find(({ side }) => side === bar.side) ?? null;
  if (opening === null) return null;
  const { outline } = opening;
  const ends = [meets(bar, outline, true), meets(bar, outline, false)].flatMap((p) => (p === null ? [] : [p[2]]));
  if (ends.length === 0) return null;
  const foot = Math.min(...outline.map((p) => p[2]));
  const whole = Math.max(...outline.map((p) => p[2])) - foot;
  if (whole <= 0) return null;
  const height = Math.max(...ends) - foot;
  const params = { tube: bar.name, height: figure(height, 'mm'), whole: figure(whole, 'mm') };
  return reading(bar.name, height / whole, '1', params, { fact: 'path' });
}

const opened = (z: string): string =>
  `${front()}\nmirror left {\n  door opening { outline (880, 700, 100), (60, 700, 100), (60, 650, 900), (880, 650, 900) }\n  node door-front = on side where z = ${z}\n  node door-rear = on hoop where z = 300\n  tube long as door-bar { section t38; path door-front, door-rear }\n  vent long -> hoop { at door-rear; dia 5 }\n}`;

export const doorHeight: Rule = {
  code: 'door.height',
  unit: '1',
  slack: 1e-6,
  read: (car): readonly Item[] => {
    const bars = car.of('door-bar');
    if (bars.length === 0) return [];
    const openings = openingsOf(car);
    if (openings.length === 0)
      return missingOfCar(
        car,
        'the opening of the door is not written: door NAME { outline P, P, P, … }, inside mirror',
      );
    return bars.flatMap((bar) => readingOf(bar, openings) ?? []);
  },
  mend: (item, target) => {
    const { whole, height } = item.params;
    const down =
      typeof whole === 'object' &&
      whole !== null &&
      'value' in whole &&
      typeof height === 'object' &&
      height !== null &&
      'value' in height
        ? height.value - target * whole.value
        : 0;
    return {
      says: 'lower that end so that it meets the edge {by~} lower',
      ask: ', {book} allows no more than half',
      params: { by: { value: Math.ceil(down), unit: 'mm' } },
    };
  },
  explanation: {
    what: 'A door bar is fixed, or leaves the door opening, above half of its height.',
    why: 'Over a high bar nobody gets out, and nobody can be lifted out.',
    measured:
      "In side view: the higher of the bar's ends, above the lowest corner of the opening, over the opening's height. Where an end lies outside the opening: where the bent centreline of the bar crosses its edge.",
    mend: 'Lower that end.',
    stage: 'hoop',
    bad: `rules fia-253\n${opened('560')}`,
    good: `rules fia-253\n${opened('420')}`,
  },
};
