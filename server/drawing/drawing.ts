/**
 * One drawing of a cage from one side: true outlines with hidden lines, plates, seats and straps, numbers on the tubes,
 * measured angles and distances, scale and direction. Pure; the same car gives the same scene.
 */
import type { Vec3 } from '../centreline/vector';
import { addScaled, dot, scale as scaled, sub, unit } from '../centreline/vector';
import { pointAt } from '../centreline/query';
import type { Shape } from '../geometry/shape';
import type { Body } from './body';
import { bodyOf, solidsOf } from './body';
import { distanceLines, drawMark, LETTERS } from './dimension';
import { arrow, scaleBar } from './furniture';
import { Layout } from './labels';
import type { Mark, Numbered } from './marks';
import { curvesOf } from './outline';
import type { Box, Item, Point, Scene, Style } from './scene';
import { boxOf, group, line, point, text, textWidth } from './scene';
import { block, Crowd } from './solids';
import { plateEdges, platesOf, thingLines } from './things';
import type { View } from './view';
import { project } from './view';
import { isSeen, runsOf } from './visible';

export interface DrawingOptions {
  readonly view: View;
  readonly title: string;
  readonly description?: string;
  /** Paper for the whole picture, mm. The drawing is as large as fits in. */
  readonly width: number;
  readonly height: number;
  readonly marks?: readonly Mark[];
  readonly numbers?: readonly Numbered[];
  /** Only what lies round these points, mm of the car on every side: a detail, cut off at its frame. */
  readonly detail?: { readonly around: readonly Vec3[]; readonly margin: number };
  /** How a length is written on an overall dimension; without it there is none. */
  readonly say?: (length: number) => string;
}

export interface Drawing {
  readonly scene: Scene;
  /** mm of paper for a mm of the car; null: there is nothing to draw. */
  readonly scale: number | null;
  /** The numbers that found room. */
  readonly numbered: readonly number[];
}

/** Scales of drawings: 1 to each of these and their tenfolds. */
const SCALES = [1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8];
/** Room for words and overall dimensions round the car, and for what stands below, mm of paper. */
const MARGIN = { side: 17, top: 9, bottom: 16 };
const DETAIL_MARGIN = { side: 2, top: 2, bottom: 2 };
const BELOW = 13;
/** Between two looks along a line, mm of paper. */
const STEP = 0.5;
const BALLOON = 2.25;
const FRACTIONS = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88];

/** The largest scale of the series that fits. */
function scaleFor(width: number, height: number, room: { readonly x: number; readonly y: number }): number {
  const wanted = Math.max(width / room.x, height / room.y, 1e-6);
  const ten = 10 ** Math.floor(Math.log10(wanted));
  const found = [...SCALES.map((one) => one * ten), 10 * ten].find((one) => one >= wanted * (1 - 1e-9));
  return 1 / (found ?? wanted);
}

const finite = (body: Body): boolean =>
  body.pieces.every((piece) =>
    [...(piece.kind === 'leg' ? [piece.from, piece.to] : [piece.centre])].every((at) => at.every(Number.isFinite)),
  );

interface Flat {
  readonly style: Style;
  readonly points: readonly (readonly [number, number])[];
}

/** Everything of the car as lines on the picture, mm of the car. */
function flatLines(shape: Shape, view: View, bodies: readonly Body[], step: number): { lines: Flat[]; crowd: Crowd } {
  const plates = platesOf(shape).filter(({ centre }) => centre.every(Number.isFinite));
  const crowd = new Crowd([
    ...bodies.flatMap((body, i) => solidsOf(body, view, i)),
    ...plates.map(({ centre, halves: [a, b, c] }, i) =>
      block(bodies.length + i, project(view, centre), [project(view, a), project(view, b), project(view, c)]),
    ),
  ]);
  const lines: Flat[] = [];
  const hidden: Flat[] = [];
  for (const body of bodies) {
    const { existing } = body.part.tube;
    for (const curve of curvesOf(body, view)) {
      for (const { seen, points } of runsOf(view, crowd, curve, step)) {
        if (seen) lines.push({ style: existing ? 'existing' : curve.kind === 'cut' ? 'joint' : 'outline', points });
        else if (curve.kind === 'edge') hidden.push({ style: existing ? 'existing-hidden' : 'hidden', points });
      }
    }
  }
  for (const plate of plates)
    for (const curve of plateEdges(plate))
      for (const { seen, points } of runsOf(view, crowd, curve, step)) if (seen) lines.push({ style: 'plate', points });
  const things = thingLines(shape, view.right, view.up).map(({ style, curve }): Flat => {
    const points = curve.points.map(({ at }): readonly [number, number] => {
      const [u, v] = project(view, at);
      return [u, v];
    });
    return { style, points };
  });
  return { lines: [...hidden, ...lines, ...things], crowd };
}

/** The part of the tube's surface that faces the viewer at a share of its length, if it is seen. */
function faceAt(body: Body, view: View, crowd: Crowd, share: number): Vec3 | null {
  const line = body.part.centreline;
  if (line === null) return null;
  const { point: at, tangent } = pointAt(line, line.length * share);
  const facing = unit(sub(view.toward, scaled(tangent, dot(view.toward, tangent))));
  if (Math.hypot(...facing) < 0.5) return null;
  const on = addScaled(at, facing, body.radius);
  return isSeen(view, crowd, { at: on, facing }) ? at : null;
}

function balloons(
  numbers: readonly Numbered[],
  bodies: ReadonlyMap<string, Body>,
  place: { readonly view: View; readonly crowd: Crowd; readonly layout: Layout; readonly toPaper: (at: Vec3) => Point },
): { readonly items: readonly Item[]; readonly numbered: readonly number[] } {
  const { view, crowd, layout, toPaper } = place;
  const items: Item[] = [];
  const numbered: number[] = [];
  for (const { number, parts } of numbers) {
    const anchors = FRACTIONS.flatMap((share) =>
      parts.flatMap((name) => {
        const body = bodies.get(name);
        const at = body === undefined ? null : faceAt(body, view, crowd, share);
        return at === null ? [] : [toPaper(at)];
      }),
    );
    const spot = layout.place(anchors.slice(0, 8), 2 * BALLOON, 2 * BALLOON, 0);
    if (spot === null) continue;
    numbered.push(number);
    const { centre, leader } = spot;
    const away = leader === null ? [] : [line('leader', [centre, leader[1]])];
    items.push(
      group(
        'number',
        [
          ...away,
          { kind: 'circle', style: 'balloon', centre, radius: BALLOON },
          text(point(centre.x, centre.y + LETTERS * 0.36), String(number), LETTERS, { anchor: 'middle', bold: true }),
        ],
        { of: parts.join(' ') },
      ),
    );
  }
  return { items, numbered };
}

const nothing = (options: DrawingOptions): Drawing => ({
  scale: null,
  numbered: [],
  scene: {
    title: options.title,
    description: 'There is nothing to draw: the centreline or the section of every tube is unknown.',
    width: options.width,
    height: 16,
    items: [text(point(2, 9), 'Nothing to draw: no tube has a centreline and a section that are known.', LETTERS)],
  },
});

/** Draws the car. Tubes without a centreline or a section are left out; never throws. */
export function drawCage(shape: Shape, options: DrawingOptions): Drawing {
  const { view, detail } = options;
  const bodies = [...shape.parts.values()].flatMap((part) => bodyOf(part) ?? []).filter(finite);
  if (bodies.length === 0) return nothing(options);
  const flat = (at: Vec3): Point => {
    const [u, v] = project(view, at);
    return point(u, v);
  };
  const silhouette = boxOf(
    bodies.flatMap((body) => curvesOf(body, view).flatMap((curve) => curve.points.map(({ at }) => flat(at)))),
  );
  const rest = thingLines(shape, view.right, view.up).flatMap(({ curve }) => curve.points.map(({ at }) => flat(at)));
  const whole =
    detail === undefined
      ? boxOf([
          ...rest,
          ...(silhouette === null
            ? []
            : [point(silhouette.left, silhouette.top), point(silhouette.right, silhouette.bottom)]),
        ])
      : boxOf(
          detail.around
            .map(flat)
            .flatMap(({ x, y }) => [
              point(x - detail.margin, y - detail.margin),
              point(x + detail.margin, y + detail.margin),
            ]),
        );
  if (whole === null || silhouette === null) return nothing(options);
  const margin = detail === undefined ? MARGIN : DETAIL_MARGIN;
  const room = { x: options.width - 2 * margin.side, y: options.height - margin.top - margin.bottom - BELOW };
  const scale = scaleFor(whole.right - whole.left, whole.bottom - whole.top, room);
  const tall = (whole.bottom - whole.top) * scale;
  // A detail fills its frame; the whole car takes what it needs.
  const spare = detail === undefined ? 0 : Math.max(0, room.y - tall);
  const height = tall + spare + margin.top + margin.bottom + BELOW;
  const left = (options.width - (whole.right - whole.left) * scale) / 2;
  const onPaper = (u: number, v: number): Point =>
    point(left + (u - whole.left) * scale, margin.top + spare / 2 + (whole.bottom - v) * scale);
  const toPaper = (at: Vec3): Point => {
    const { x, y } = flat(at);
    return onPaper(x, y);
  };
  const field: Box = { left: 0, top: 0, right: options.width, bottom: height - BELOW };
  const layout = new Layout({ left: 0.5, top: 0.5, right: field.right - 0.5, bottom: field.bottom - 0.5 });

  const { lines, crowd } = flatLines(shape, view, bodies, STEP / scale);
  const car = lines.map(({ style, points }) =>
    line(
      style,
      points.map(([u, v]) => onPaper(u, v)),
    ),
  );
  for (const item of car) {
    if (item.kind !== 'line' || item.style === 'hidden' || item.style === 'existing-hidden') continue;
    const near = item.points.filter(({ x, y }) => x > -50 && y > -50 && x < field.right + 50 && y < field.bottom + 50);
    layout.draw(near);
  }
  const ground = bodies.map((body): Item => bandOf(body, toPaper, scale));
  const datum = datumLines(view, onPaper, field);
  for (const item of datum) if (item.kind === 'line') layout.draw(item.points);
  const marks = (options.marks ?? []).flatMap((mark) => drawMark(mark, toPaper) ?? []);
  for (const { points } of marks) layout.draw(points);
  const overall = options.say === undefined ? [] : overallLines(silhouette, onPaper, options.say, layout);
  const words = marks.map((mark) => mark.words(layout));
  const numbers = balloons(options.numbers ?? [], new Map(bodies.map((body) => [body.part.name, body])), {
    view,
    crowd,
    layout,
    toPaper,
  });
  const seen: readonly Item[] = [
    group('tubes', [...ground, ...car]),
    ...(detail === undefined ? datum : []),
    group('measured', [...marks.flatMap((mark) => mark.lines), ...overall, ...words]),
    ...numbers.items,
  ];
  return {
    scale,
    numbered: numbers.numbered,
    scene: {
      title: options.title,
      description: options.description ?? '',
      width: options.width,
      height,
      items: [...(detail === undefined ? seen : [framed(field, seen)]), ...below(view, options, scale, field.bottom)],
    },
  };
}

const framed = (field: Box, items: readonly Item[]): Item =>
  group('detail', [
    { kind: 'clip', at: point(0, 0), width: field.right, height: field.bottom, items },
    line(
      'frame',
      [
        point(0.1, 0.1),
        point(field.right - 0.1, 0.1),
        point(field.right - 0.1, field.bottom - 0.1),
        point(0.1, field.bottom - 0.1),
      ],
      true,
    ),
  ]);

/** The tube's ground: its centreline as wide as the tube. */
function bandOf(body: Body, toPaper: (at: Vec3) => Point, scale: number): Item {
  const points = body.pieces.flatMap((piece, i) => {
    const line = body.part.centreline;
    if (line === null) return [];
    const steps = piece.kind === 'arc' ? Math.max(2, Math.ceil(piece.angle / 0.12)) : 1;
    const first = i === 0 ? 0 : 1;
    return Array.from({ length: steps + 1 - first }, (_, k) =>
      toPaper(pointAt(line, piece.start + (piece.length * (k + first)) / steps).point),
    );
  });
  return { kind: 'band', style: 'body', points, width: 2 * body.radius * scale };
}

/** z = 0 where it is seen as a line, and the car's centreline. */
function datumLines(view: View, onPaper: (u: number, v: number) => Point, field: Box): readonly Item[] {
  const items: Item[] = [];
  const zero = onPaper(0, 0);
  const inside = (at: number, from: number, to: number): boolean => at > from && at < to;
  if (view.toward[2] === 0 && view.up[2] === 1 && inside(zero.y, 0, field.bottom)) {
    items.push(
      line('datum', [point(2, zero.y), point(field.right - 2, zero.y)]),
      text(point(field.right - 2, zero.y + LETTERS), 'z = 0', LETTERS, { anchor: 'end' }),
    );
  }
  if (view.toward[1] === 0 && Math.abs(view.up[1]) === 1)
    items.push(
      line('centre', [point(2, zero.y), point(field.right - 2, zero.y)]),
      text(point(field.right - 2, zero.y - 0.7), 'centreline', LETTERS, { anchor: 'end' }),
    );
  if (view.toward[1] === 0 && Math.abs(view.right[1]) === 1)
    items.push(line('centre', [point(zero.x, 2), point(zero.x, field.bottom - 2)]));
  return items;
}

/** How long and how high the tubes are together, outside to outside. */
function overallLines(
  box: Box,
  onPaper: (u: number, v: number) => Point,
  say: (length: number) => string,
  layout: Layout,
): readonly Item[] {
  const low = [onPaper(box.left, box.top), onPaper(box.right, box.top)] as const;
  const high = [onPaper(box.right, box.top), onPaper(box.right, box.bottom)] as const;
  const items: Item[] = [];
  for (const [[from, to], value, name] of [
    [low, box.right - box.left, 'overall-across'],
    [high, box.bottom - box.top, 'overall-up'],
  ] as const) {
    const across = name === 'overall-across';
    const drawn = distanceLines(from, to, across ? 10 : 9);
    layout.draw(drawn.points);
    const words = say(value);
    const width = textWidth(words, LETTERS);
    // Above a level line; across an upright one, off its middle, where the car's centreline runs.
    const middle = drawn.anchors[0] ?? from;
    const at = across
      ? point(middle.x, middle.y - LETTERS * 0.36)
      : point(middle.x, middle.y + Math.abs(to.y - from.y) * 0.2);
    layout.reserve({
      left: at.x - width / 2 - 1,
      right: at.x + width / 2 + 1,
      top: at.y - LETTERS,
      bottom: at.y + LETTERS * 0.4,
    });
    items.push(
      group('overall', [...drawn.items, text(at, words, LETTERS, { anchor: 'middle', halo: true })], {
        what: name,
        value: String(Math.round(value * 1e6) / 1e6),
      }),
    );
  }
  return items;
}

/** What stands below the drawing: its name, where forward is, and how long a length is on it. */
function below(view: View, options: DrawingOptions, scale: number, top: number): readonly Item[] {
  const title = text(point(0.5, top + 4), options.title, LETTERS * 1.1, { bold: true });
  const forward = view.right[0];
  const way =
    Math.abs(forward) > 0.9
      ? [arrow(point(0.5, top + 8), forward < 0, 'forward')]
      : Math.abs(view.right[1]) > 0.9
        ? [arrow(point(0.5, top + 8), view.right[1] < 0, "the car's left")]
        : [];
  const ratio = 1 / scale;
  const says = `1 : ${String(Math.round(ratio * 100) / 100)} printed at full size`;
  const barAt = Math.max(options.width * 0.38, 36);
  return [
    title,
    ...way,
    ...(options.width < 100
      ? [text(point(0.5, top + 12), says, LETTERS)]
      : [text(point(options.width - 0.5, top + 9), says, LETTERS, { anchor: 'end' })]),
    scaleBar(point(barAt, top + 7), scale),
  ];
}
