/**
 * One drawing of a cage from one side: true outlines with hidden lines, plates, seats and straps, numbers on the tubes,
 * measured angles and distances, scale and direction. Pure; the same car gives the same scene.
 */
import type { Vec3 } from '../centreline/vector';
import { addScaled, dot, scale as scaled, sub, unit } from '../centreline/vector';
import { pointAt } from '../centreline/query';
import type { Part, Shape } from '../geometry/shape';
import type { Body } from './body';
import { bodyOf } from './body';
import { drawMark, LETTERS } from './dimension';
import { frameFor } from './frame';
import { below, datumLines } from './furniture';
import { Layout } from './labels';
import type { Mark, Numbered } from './marks';
import { flatLines } from './car-lines';
import { curvesOf } from './outline';
import { extremesOf, overallLines } from './overall';
import type { Box, Item, Point, Scene } from './scene';
import { boxOf, group, line, overlap, point, text, textBox } from './scene';
import type { Crowd } from './solids';
import { thingLines } from './things';
import type { View } from './view';
import { project } from './view';
import { isSeen } from './visible';

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
  /** False: lengths in it are no true ones, so it has no scale. */
  readonly scaled?: boolean;
}

export interface Drawing {
  readonly scene: Scene;
  /** mm of paper for a mm of the car; null: there is nothing to draw. */
  readonly scale: number | null;
  /** The numbers that found room. */
  readonly numbered: readonly number[];
}

/** Between two looks along a line, mm of paper. */
const STEP = 0.5;
const BALLOON = 2.25;
const FRACTIONS = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88];

const finite = (body: Body): boolean =>
  body.pieces.every((piece) =>
    [...(piece.kind === 'leg' ? [piece.from, piece.to] : [piece.centre])].every((at) => at.every(Number.isFinite)),
  );

/** True where the box round some piece of the tube lies in the window, mm of the view. */
const reaches = ({ pieces, radius }: Body, view: View, window: Box): boolean =>
  pieces.some((piece) => {
    const ends = piece.kind === 'leg' ? [piece.from, piece.to] : [piece.centre];
    const by = piece.kind === 'leg' ? radius : piece.radius + radius;
    const box = boxOf(
      ends.flatMap((at) => {
        const [u, v] = project(view, at);
        return [point(u - by, v - by), point(u + by, v + by)];
      }),
    );
    return box !== null && overlap(box, window);
  });

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

const flatOf = (view: View, at: Vec3): Point => {
  const [u, v] = project(view, at);
  return point(u, v);
};

/** The edges of the tubes as they are seen, mm of the view. */
const silhouetteOf = (bodies: readonly Body[], view: View): readonly Point[] =>
  bodies.flatMap((body) => curvesOf(body, view).flatMap(({ points }) => points.map(({ at }) => flatOf(view, at))));

/** How far the tubes of a car reach, outside to outside, as they are cut: what is seen from a side, mm; null: nothing is. */
export const overallBox = (parts: Iterable<Part>, view: View): Box | null =>
  boxOf(silhouetteOf([...parts].flatMap((part) => bodyOf(part) ?? []).filter(finite), view));

/** The box round the tubes and what stands beside them. */
function wholeOf(shape: Shape, view: View, tubes: Box | null): Box | null {
  const rest = thingLines(shape, view.right, view.up).flatMap(({ curve }) =>
    curve.points.map(({ at }) => flatOf(view, at)),
  );
  return tubes === null ? null : boxOf([...rest, point(tubes.left, tubes.top), point(tubes.right, tubes.bottom)]);
}

/** The box of a detail. */
const windowOf = ({ around, margin }: NonNullable<DrawingOptions['detail']>, view: View): Box | null =>
  boxOf(
    around.flatMap((at) => {
      const { x, y } = flatOf(view, at);
      return [point(x - margin, y - margin), point(x + margin, y + margin)];
    }),
  );

/** Draws the car. Tubes without a centreline or a section are left out; never throws. */
export function drawCage(shape: Shape, options: DrawingOptions): Drawing {
  const { view, detail } = options;
  const bodies = [...shape.parts.values()].flatMap((part) => bodyOf(part) ?? []).filter(finite);
  if (bodies.length === 0) return nothing(options);
  const silhouette = detail === undefined ? silhouetteOf(bodies, view) : [];
  const whole = detail === undefined ? wholeOf(shape, view, boxOf(silhouette)) : windowOf(detail, view);
  if (whole === null) return nothing(options);
  const { scale, height, field, onPaper, seen: window } = frameFor(whole, options, detail !== undefined);
  const toPaper = (at: Vec3): Point => {
    const { x, y } = flatOf(view, at);
    return onPaper(x, y);
  };
  const layout = new Layout({ left: 0.5, top: 0.5, right: field.right - 0.5, bottom: field.bottom - 0.5 });

  // Of a detail only what reaches into its frame is looked at.
  const near = detail === undefined ? bodies : bodies.filter((body) => reaches(body, view, window));
  const { lines, crowd } = flatLines(shape, view, near, STEP / scale, detail === undefined ? null : window);
  const car = lines.map(({ style, points }) =>
    line(
      style,
      points.map(([u, v]) => onPaper(u, v)),
    ),
  );
  for (const item of car) {
    if (item.kind !== 'line' || item.style === 'hidden' || item.style === 'existing-hidden') continue;
    const inked = item.points.filter(({ x, y }) => x > -50 && y > -50 && x < field.right + 50 && y < field.bottom + 50);
    layout.draw(inked);
  }
  const ground = near.map((body): Item => bandOf(body, toPaper, scale));
  const datum = datumLines(view, onPaper, field);
  for (const item of datum) {
    if (item.kind === 'line') layout.draw(item.points);
    else if (item.kind === 'text') layout.reserve(textBox(item));
  }
  const marks = (options.marks ?? []).flatMap((mark) => drawMark(mark, toPaper) ?? []);
  for (const { points } of marks) layout.draw(points);
  const extremes = options.say === undefined ? null : extremesOf(silhouette);
  const aside = view.toward[1] === 0 && Math.abs(view.right[1]) === 1;
  const overall =
    options.say === undefined || extremes === null ? [] : overallLines(extremes, onPaper, options.say, layout, aside);
  const words = marks.map((mark) => mark.words(layout));
  const numbers = balloons(options.numbers ?? [], new Map(near.map((body) => [body.part.name, body])), {
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
      items: [
        ...(detail === undefined ? seen : [framed(field, seen)]),
        ...below(view, options, options.scaled === false ? null : scale, field.bottom),
      ],
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
