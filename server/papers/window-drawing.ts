/** The window of a harness bar as a drawing: side view, forward to the left, axes in the file's own unit. */
import type { LengthUnit } from '../../grammar/units';
import { UNITS } from '../../grammar/units';
import { arrow, roundBelow } from '../drawing/furniture';
import type { Item, Point as Spot, Scene, Style } from '../drawing/scene';
import { group, line, point, text } from '../drawing/scene';
import type { Vec3 } from '../centreline/vector';
import { add, addScaled } from '../centreline/vector';
import { slotsOf } from '../geometry/shell';
import type { Box, Point } from '../rules/window/field';
import type { Polygon } from '../rules/window/polygon';
import { endSettings, seatAt } from '../rules/window/settings';
import type { BarWindow } from '../rules/window/window';
import { boxWords, onTape, pointWords, tapeUnit } from './window-words';

/** Millimetres of paper. */
const WIDTH = 180;
const HEIGHT = 182;
const AREA = { left: 20, top: 18, right: 174, bottom: 136 };
const LETTERS = 2.6;
const HATCH = 2.4;
/** Seen round what is drawn, mm of the car. */
const MARGIN = 70;

const CAUTION = 'An aid, not an approval: the current printed book and the scrutineer decide.';

/** The lines under an outline that lean by 45 degrees, `every` mm apart: what of each lies inside, by crossings. */
function hatching(outlines: readonly (readonly Spot[])[], every: number, down: boolean, style: Style): readonly Item[] {
  const turn = ({ x, y }: Spot): Spot => (down ? point(x - y, x + y) : point(x + y, x - y));
  const back = ({ x, y }: Spot): Spot => (down ? point((x + y) / 2, (y - x) / 2) : point((x + y) / 2, (x - y) / 2));
  const turned = outlines.map((outline) => outline.map(turn));
  const heights = turned.flat().map(({ y }) => y);
  const items: Item[] = [];
  const step = every * Math.SQRT2;
  for (let y = Math.ceil(Math.min(...heights) / step) * step; y < Math.max(...heights); y += step) {
    const xs: number[] = [];
    for (const outline of turned) {
      outline.forEach((a, i) => {
        const b = outline[(i + 1) % outline.length] ?? a;
        if (a.y > y !== b.y > y) xs.push(a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y));
      });
    }
    xs.sort((a, b) => a - b);
    for (let i = 0; i + 1 < xs.length; i += 2)
      items.push(line(style, [back(point(xs[i] ?? 0, y)), back(point(xs[i + 1] ?? 0, y))]));
  }
  return items;
}

interface Paper {
  readonly at: (place: Point) => Spot;
  readonly scale: number;
  readonly box: Box;
}

/** What the drawing shows: the windows (no farther from the bar than needed), the bar, the slots and shoulders. */
function paperFor(places: readonly Point[]): Paper {
  const xs = places.map(([x]) => x);
  const zs = places.map(([, z]) => z);
  const box: Box = {
    x: [Math.min(...xs) - MARGIN, Math.max(...xs) + MARGIN],
    z: [Math.min(...zs) - MARGIN, Math.max(...zs) + MARGIN],
  };
  const scale = Math.min(
    (AREA.right - AREA.left) / (box.x[1] - box.x[0]),
    (AREA.bottom - AREA.top) / (box.z[1] - box.z[0]),
  );
  const middle = [(box.x[0] + box.x[1]) / 2, (box.z[0] + box.z[1]) / 2] as const;
  const centre = point((AREA.left + AREA.right) / 2, (AREA.top + AREA.bottom) / 2);
  const half = [(AREA.right - AREA.left) / 2 / scale, (AREA.bottom - AREA.top) / 2 / scale] as const;
  return {
    at: ([x, z]) => point(centre.x - (x - middle[0]) * scale, centre.y - (z - middle[1]) * scale),
    scale,
    box: { x: [middle[0] - half[0], middle[0] + half[0]], z: [middle[1] - half[1], middle[1] + half[1]] },
  };
}

/** Marks along both axes, in whole steps of the file's unit. */
function axes({ at, box, scale }: Paper, units: LengthUnit): Item {
  const unit = units === 'in' || units === 'ft' ? (UNITS['in']?.factor ?? 1) : 1;
  const step = roundBelow(30 / scale / unit) * unit;
  const items: Item[] = [
    line(
      'frame',
      [
        point(AREA.left, AREA.top),
        point(AREA.right, AREA.top),
        point(AREA.right, AREA.bottom),
        point(AREA.left, AREA.bottom),
      ],
      true,
    ),
  ];
  for (let x = Math.ceil(box.x[0] / step) * step; x <= box.x[1]; x += step) {
    const { x: px } = at([x, 0]);
    items.push(line('datum', [point(px, AREA.bottom), point(px, AREA.bottom + 1.6)]));
    items.push(text(point(px, AREA.bottom + 4.6), onTape(x, units), LETTERS, { anchor: 'middle' }));
  }
  for (let z = Math.ceil(box.z[0] / step) * step; z <= box.z[1]; z += step) {
    const { y } = at([0, z]);
    items.push(line('datum', [point(AREA.left - 1.6, y), point(AREA.left, y)]));
    items.push(text(point(AREA.left - 2.2, y + 0.9), onTape(z, units), LETTERS, { anchor: 'end' }));
  }
  items.push(text(point(AREA.right, AREA.bottom + 8.4), `x, ${tapeUnit(units)}`, LETTERS, { anchor: 'end' }));
  items.push(text(point(AREA.left - 2.2, AREA.top - 1.4), `z, ${tapeUnit(units)}`, LETTERS, { anchor: 'end' }));
  return group('axes', items);
}

const side = (place: Vec3): Point => [place[0], place[2]];

interface SeatDrawn {
  readonly name: string;
  /** Slots at each end of the seat's ranges, with the line of its back and the driver's shoulder. */
  readonly slots: readonly {
    readonly front: Point;
    readonly rear: Point | null;
    readonly back: readonly Point[];
    readonly shoulder: Point | null;
  }[];
}

/** The length of the line of a seat's back that is drawn, above and below the slot, mm. */
const BACK_UP = 90;
const BACK_DOWN = 160;

function seatsDrawn({ seats }: BarWindow): readonly SeatDrawn[] {
  return seats.map((seat) => ({
    name: seat.name,
    slots: endSettings(seat).flatMap((setting) => {
      const placed = seatAt(seat, setting);
      const slots = slotsOf(placed);
      if (slots === null || placed.slots === null) return [];
      const rear = placed.back === null ? null : side(addScaled(placed.slots, slots.aft, placed.back));
      const shoulder =
        placed.shoulder === null ? null : side(add(placed.slots, add(placed.shoulder, [0, 0, placed.yoke ?? 0])));
      const back = [-BACK_DOWN, BACK_UP].map((by) => side(addScaled(placed.slots ?? [0, 0, 0], slots.up, by)));
      return [{ front: side(placed.slots), rear, back, shoulder }];
    }),
  }));
}

/** Names stand under the backs, that of a second seat a line lower. */
const seatItems = (drawn: SeatDrawn, { at }: Paper, index: number): Item => {
  const cross = ({ x, y }: Spot): readonly Item[] => [
    line('scale', [point(x - 1.5, y), point(x + 1.5, y)]),
    line('scale', [point(x, y - 1.5), point(x, y + 1.5)]),
  ];
  const label = ({ back, front }: SeatDrawn['slots'][number]): Item => {
    const foot = at(back[0] ?? front);
    const below = point(foot.x, foot.y + 3.2 + index * LETTERS * 1.4);
    return text(below, drawn.name, LETTERS, { anchor: 'middle', halo: true });
  };
  return group(
    'seat',
    drawn.slots.flatMap((slot, i): readonly Item[] => [
      line('seat', slot.back.map(at)),
      ...(slot.rear === null ? [] : [line('strap', [at(slot.front), at(slot.rear)])]),
      { kind: 'circle', style: 'outline', centre: at(slot.front), radius: 0.7 },
      ...(slot.shoulder === null ? [] : cross(at(slot.shoulder))),
      ...(i === 0 ? [label(slot)] : []),
    ]),
    { name: drawn.name },
  );
};

function regionItems(polygons: readonly Polygon[], paper: Paper, preferred: boolean): Item {
  const outlines = polygons.map((polygon) => polygon.map(paper.at));
  return group(preferred ? 'preferred' : 'window', [
    ...(outlines.length === 0 ? [] : hatching(outlines, preferred ? HATCH / 2 : HATCH, preferred, 'leader')),
    ...outlines.map((outline) => line(preferred ? 'plate' : 'outline', outline, true)),
  ]);
}

function rectangleItems(box: Box | null, paper: Paper): readonly Item[] {
  if (box === null) return [];
  const corners: readonly Point[] = [
    [box.x[0], box.z[0]],
    [box.x[1], box.z[0]],
    [box.x[1], box.z[1]],
    [box.x[0], box.z[1]],
  ];
  return [group('rectangle', [line('strap', corners.map(paper.at), true)])];
}

function barItems({ at, tube, units }: BarWindow, paper: Paper): Item {
  const centre = paper.at(at);
  const radius = ((tube.section?.od ?? 0) / 2) * paper.scale;
  const arm = radius + 2;
  return group('bar', [
    ...(radius > 0 ? [{ kind: 'circle', style: 'joint', centre, radius } as const] : []),
    line('centre', [point(centre.x - arm, centre.y), point(centre.x + arm, centre.y)]),
    line('centre', [point(centre.x, centre.y - arm), point(centre.x, centre.y + arm)]),
    text(point(centre.x + arm + 0.6, centre.y + arm), `${tube.name} now: ${pointWords(at, units)}`, LETTERS, {
      halo: true,
    }),
  ]);
}

/** Of a window that reaches far, so much round the bar and the seats is drawn, mm. */
const FAR = 320;

/** The whole picture. */
export function windowScene(window: BarWindow): Scene {
  const { required, preferred, units, tube } = window;
  const seats = seatsDrawn(window);
  const fixed: readonly Point[] = [
    window.at,
    ...seats.flatMap(({ slots }) =>
      slots.flatMap(({ front, shoulder }) => (shoulder === null ? [front] : [front, shoulder])),
    ),
    ...preferred.polygons.flat(),
  ];
  const xs = fixed.map(([x]) => x);
  const zs = fixed.map(([, z]) => z);
  const near = ([x, z]: Point): Point => [
    Math.max(Math.min(...xs) - FAR, Math.min(Math.max(...xs) + FAR, x)),
    Math.max(Math.min(...zs) - FAR, Math.min(Math.max(...zs) + FAR, z)),
  ];
  const paper = paperFor([...fixed, ...required.polygons.flat().map(near)]);
  const area = { at: point(AREA.left, AREA.top), width: AREA.right - AREA.left, height: AREA.bottom - AREA.top };
  const box = required.aroundBar ?? required.rectangle;
  const inner = preferred.aroundBar ?? preferred.rectangle;
  const legend: readonly string[] = [
    required.polygons.length === 0
      ? 'Window: none'
      : `Window (hatched): ${box === null ? 'narrower than a tape shows' : boxWords(box, units)}`,
    preferred.polygons.length === 0
      ? 'Preferred part: none'
      : `Preferred part (crossed): ${inner === null ? 'narrower than a tape shows' : boxWords(inner, units)}`,
    `The bar is ${required.holdsBar ? 'inside' : 'outside'}. Books: ${window.books.map(({ name }) => name).join(', ')}`,
    'Slanting lines: the backs of the seats at each end of their ranges; rings: the slots; crosses: the top of the shoulder.',
    CAUTION,
  ];
  const title = `Where the axis of ${tube.name} may lie, side view`;
  return {
    title,
    description: legend.join('. '),
    width: WIDTH,
    height: HEIGHT,
    items: [
      text(point(AREA.left, 7), title, 4, { bold: true }),
      arrow(point(AREA.left, 12), true, 'forward'),
      axes(paper, units),
      {
        kind: 'clip',
        ...area,
        items: [
          regionItems(required.polygons, paper, false),
          regionItems(preferred.polygons, paper, true),
          ...rectangleItems(box, paper),
          ...rectangleItems(inner, paper),
          ...seats.map((seat, i) => seatItems(seat, paper, i)),
          barItems(window, paper),
        ],
      },
      ...legend.map((words, i) =>
        text(point(AREA.left, AREA.bottom + 14 + 4.6 * i), words, 3, { bold: i === legend.length - 1 }),
      ),
    ],
  };
}
