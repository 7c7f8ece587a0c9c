/** The drawings of a report: three views of the whole car, and the straps of each seat closer by. */
import { sayMeasure } from '../../grammar/print';
import type { Vec3 } from '../centreline/vector';
import type { Drawing } from '../drawing/drawing';
import { drawCage } from '../drawing/drawing';
import type { Mark } from '../drawing/marks';
import type { Item, Scene } from '../drawing/scene';
import { group, point, text, textWidth } from '../drawing/scene';
import type { DrawnView } from '../drawing/view';
import { VIEW_WORDS, viewNamed, VIEWS } from '../drawing/view';
import { svgElement } from '../drawing/svg';
import { undrawnWords } from '../drawing/undrawn';
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
const KEY_LINE = 3.4;
const KEY_COLUMNS = [3, 2, 1] as const;
/** Between two columns, mm. */
const KEY_APART = 3;
/** The car's name is a bold line or more. */
const TITLE_LETTERS = 2.6;
const TITLE_LINE = 4;
const EDGE = 0.5;

/** Said where there are overall dimensions. */
const OVERALL =
  'Overall sizes are over the tubes as they are cut, outside to outside, without plates and what stands beside.';

/** Words in lines no wider than so much, mm; a word that is wider is broken. */
function inLines(words: string, width: number, size: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of words.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (textWidth(longer, size) <= width) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    const letters = [...word];
    const most = Math.max(1, Math.floor(width / textWidth('x', size)));
    while (letters.length > most) lines.push(letters.splice(0, most).join(''));
    line = letters.join('');
  }
  return line === '' ? lines : [...lines, line];
}

/** What the numbers mean, in as many columns as the names leave room for; lines of text from `top` down. */
function keyOf(
  tubes: readonly TubeNumber[],
  top: number,
): { readonly items: readonly Item[]; readonly bottom: number } {
  const says = tubes.map((tube) => `${String(tube.number)}  ${tube.name}`);
  const widest = Math.max(0, ...says.map((one) => textWidth(one, KEY_LETTERS)));
  const columns = KEY_COLUMNS.find((count) => widest <= WIDTH / count - KEY_APART) ?? 1;
  const lines = columns === 1 ? says.flatMap((one) => inLines(one, WIDTH - 2 * EDGE, KEY_LETTERS)) : says;
  const rows = Math.ceil(lines.length / columns);
  const items = lines.map((one, i) =>
    text(point(EDGE + (Math.floor(i / rows) * WIDTH) / columns, top + (i % rows) * KEY_LINE), one, KEY_LETTERS),
  );
  return { items, bottom: top + rows * KEY_LINE };
}

/**
 * One view that stands alone: below it the car's name, what the numbers mean, what is not drawn, and how to take it.
 * `errors`: how many stand open among the findings.
 */
export function viewWithKey(car: Car, name: DrawnView, errors = 0): Scene {
  const numbers = tubeNumbers(car.shape);
  const { scene, numbered, scale } = viewOf(car, name, numbers, false);
  const title = car.cage.title ?? car.cage.file;
  const called = inLines(title, WIDTH - 2 * EDGE, TITLE_LETTERS);
  const heading = called.map((one, i) =>
    text(point(EDGE, scene.height + 3 + i * TITLE_LINE), one, TITLE_LETTERS, { bold: true }),
  );
  const key = keyOf(
    numbers.filter(({ number }) => numbered.includes(number)),
    scene.height + 3 + called.length * TITLE_LINE,
  );
  const lacks = undrawnWords(car.shape);
  const warnings = [
    ...(lacks === null ? [] : [lacks]),
    ...(errors === 0
      ? []
      : [
          errors === 1
            ? 'An error is open in this car: see its findings.'
            : `${String(errors)} errors are open in this car: see its findings.`,
        ]),
  ].flatMap((one) => inLines(one, 0.9 * (WIDTH - 2 * EDGE), KEY_LETTERS));
  const notes = [...warnings, ...(scale === null || name === 'free' ? [] : [OVERALL]), CAUTION];
  const height = key.bottom + 1.5 + notes.length * KEY_LINE;
  return {
    ...scene,
    title: `${title}: ${scene.title}`,
    height,
    items: [
      ...scene.items,
      group('heading', heading),
      group('key', key.items),
      ...notes.map((one, i) =>
        text(point(EDGE, key.bottom + 3 + i * KEY_LINE), one, KEY_LETTERS, { bold: i < warnings.length }),
      ),
    ],
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
