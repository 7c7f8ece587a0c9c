/** The drawings of a report: three views of the whole car, and the straps of each seat closer by. */
import { sayMeasure } from '../../grammar/print';
import type { Vec3 } from '../centreline/vector';
import type { Drawing } from '../drawing/drawing';
import { drawCage } from '../drawing/drawing';
import type { Mark } from '../drawing/marks';
import type { Scene } from '../drawing/scene';
import { group, point, text } from '../drawing/scene';
import type { DrawnView } from '../drawing/view';
import { VIEW_WORDS, viewNamed, VIEWS } from '../drawing/view';
import { svgElement } from '../drawing/svg';
import type { Car } from '../rules/car';
import { marksOf, strapDrops, strapSpreads } from './figures';
import type { Markup } from './html';
import { element, join, raw } from './html';
import type { TubeNumber } from './names';
import { tubeNumbers } from './names';

/** What every paper of its own says. */
const CAUTION = 'An aid, not an approval: the current printed rulebook and the scrutineer decide.';

/** As wide as A4 and Letter leave, mm; as high as leaves room for a heading. */
const WIDTH = 180;
const HEIGHT = 150;
const DETAIL = { width: 87, height: 80 };
/** What is seen round the straps of a seat, mm of the car. */
const AROUND = 140;

const figure = (drawing: Drawing): Markup => element('figure', {}, '\n', raw(svgElement(drawing.scene)), '\n');

/** Straps have their own drawings closer by: on the whole car only the figure stands at them. */
const inShort = (mark: Mark): Mark =>
  mark.what.startsWith('strap.')
    ? { ...mark, brief: true, says: sayMeasure({ value: Math.abs(mark.value), unit: 'deg' }, 'mm') }
    : mark;

/**
 * One whole view with its measured figures; `short`: straps are named on drawings of their own. A free view has none:
 * nothing in it is as long, or as steep, as it is. `height`: the most that it takes of the paper, mm.
 */
export function viewOf(
  car: Car,
  name: DrawnView,
  numbers: readonly TubeNumber[],
  short = true,
  height = HEIGHT,
): Drawing {
  const { units } = car.cage;
  const marks = name === 'free' ? [] : marksOf(car)[name];
  return drawCage(car.shape, {
    view: viewNamed(name),
    title: VIEW_WORDS[name],
    width: WIDTH,
    height,
    // For somebody who cannot see the picture.
    description: marks.map(({ says, of }) => `${of.join(', ')}: ${says}`).join('; '),
    marks: short ? marks.map(inShort) : marks,
    numbers,
    ...(name === 'free'
      ? { scaled: false }
      : { say: (length: number) => sayMeasure({ value: length, unit: 'mm' }, units) }),
  });
}

const KEY_LETTERS = 2.3;
const KEY_COLUMNS = 3;
const KEY_LINE = 3.4;

/** One view that stands alone: below it what its numbers mean. */
export function viewWithKey(car: Car, name: DrawnView): Scene {
  const numbers = tubeNumbers(car.shape);
  const { scene, numbered } = viewOf(car, name, numbers, false);
  const key = numbers.filter(({ number }) => numbered.includes(number));
  const rows = Math.ceil(key.length / KEY_COLUMNS);
  const items = key.map((tube, i) =>
    text(
      point(0.5 + (Math.floor(i / rows) * WIDTH) / KEY_COLUMNS, scene.height + 3 + (i % rows) * KEY_LINE),
      `${String(tube.number)}  ${tube.name}`,
      KEY_LETTERS,
    ),
  );
  const title = car.cage.title ?? car.cage.file;
  const height = scene.height + 5 + rows * KEY_LINE + 3;
  return {
    ...scene,
    title: `${title}: ${scene.title}`,
    height,
    items: [...scene.items, group('key', items), text(point(0.5, height - 1), CAUTION, KEY_LETTERS)],
  };
}

/** The straps of each seat, from the side and from above. Seats without a strap that is known have none. */
export function strapDetails(car: Car): readonly Drawing[] {
  const all = strapSpreads(car);
  return car.seats().flatMap((seat) => {
    const straps = car.shape.straps.filter((strap) => strap.seat === seat.name);
    const around = straps.flatMap(({ start, contact }): readonly Vec3[] =>
      start === null || contact === null ? [] : [start, contact],
    );
    if (around.length === 0) return [];
    const names = new Set(straps.map(({ name }) => name));
    const spreads = all.filter(({ of }) => of.some((name) => names.has(name)));
    const detail = { around, margin: AROUND };
    return [
      drawCage(car.shape, {
        view: VIEWS.side,
        title: `Straps of ${seat.name}, side view`,
        ...DETAIL,
        marks: strapDrops(straps),
        detail,
      }),
      drawCage(car.shape, {
        view: VIEWS.plan,
        title: `Straps of ${seat.name}, plan`,
        ...DETAIL,
        marks: spreads,
        detail,
      }),
    ];
  });
}

export function pictures(car: Car, numbers: readonly TubeNumber[]): Markup {
  const details = strapDetails(car);
  return join(
    [
      ...(['side', 'plan', 'front'] as const).map((name) => figure(viewOf(car, name, numbers))),
      ...(details.length === 0
        ? []
        : [element('div', { class: 'details' }, '\n', join(details.map(figure), '\n'), '\n')]),
    ],
    '\n',
  );
}
