/**
 * A flat drawing as data: lines, arcs, circles, texts in millimetres of paper, x to the right, y down. It knows nothing of
 * SVG or PDF; each has a writer. What a line looks like hangs on its style alone.
 */

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** What a line or an area stands for. */
export type Style =
  | 'body'
  | 'outline'
  | 'hidden'
  | 'existing'
  | 'existing-hidden'
  | 'joint'
  | 'plate'
  | 'seat'
  | 'helmet'
  | 'strap'
  | 'panel'
  | 'datum'
  | 'centre'
  | 'dimension'
  | 'leader'
  | 'balloon'
  | 'scale'
  | 'scale-filled'
  | 'frame';

export type Anchor = 'start' | 'middle' | 'end';

export type Item =
  | { readonly kind: 'line'; readonly style: Style; readonly points: readonly Point[]; readonly closed: boolean }
  /** A line as wide as a tube, mm of paper. */
  | { readonly kind: 'band'; readonly style: Style; readonly points: readonly Point[]; readonly width: number }
  /** Angles in radians, clockwise on the paper from the right (y is down); from < to. */
  | {
      readonly kind: 'arc';
      readonly style: Style;
      readonly centre: Point;
      readonly radius: number;
      readonly from: number;
      readonly to: number;
    }
  | { readonly kind: 'circle'; readonly style: Style; readonly centre: Point; readonly radius: number }
  | {
      readonly kind: 'text';
      /** On the baseline. */
      readonly at: Point;
      readonly text: string;
      /** Height of the letters' body, mm. */
      readonly size: number;
      readonly anchor: Anchor;
      readonly bold: boolean;
      /** A ground of paper round the letters, where lines run under them. */
      readonly halo: boolean;
    }
  /** Items that belong together; `data` says what they stand for, for whoever reads the drawing as data. */
  | {
      readonly kind: 'group';
      readonly name: string;
      readonly data: Readonly<Record<string, string>>;
      readonly items: readonly Item[];
    }
  /** Only what lies in the rectangle is seen. */
  | {
      readonly kind: 'clip';
      readonly at: Point;
      readonly width: number;
      readonly height: number;
      readonly items: readonly Item[];
    };

export interface Scene {
  /** What the picture shows, in a sentence. */
  readonly title: string;
  /** Longer, for somebody who cannot see it; empty: the title says it. */
  readonly description: string;
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export const point = (x: number, y: number): Point => ({ x, y });

export const line = (style: Style, points: readonly Point[], closed = false): Item => ({
  kind: 'line',
  style,
  points,
  closed,
});

export const group = (name: string, items: readonly Item[], data: Readonly<Record<string, string>> = {}): Item => ({
  kind: 'group',
  name,
  data,
  items,
});

/** Mean width of a letter, in heights of the body: a sans serif of common width, from memory. Labels keep that much room. */
const LETTER = 0.55;

/** Room that a text takes, mm. */
export const textWidth = (text: string, size: number): number => [...text].length * size * LETTER;

export const text = (
  at: Point,
  words: string,
  size: number,
  { anchor = 'start', bold = false, halo = false }: { anchor?: Anchor; bold?: boolean; halo?: boolean } = {},
): Item => ({ kind: 'text', at, text: words, size, anchor, bold, halo });

/** The room of a text where it stands. */
export function textBox({ at, text: words, size, anchor }: Extract<Item, { kind: 'text' }>): Box {
  const width = textWidth(words, size);
  const left = anchor === 'start' ? at.x : anchor === 'middle' ? at.x - width / 2 : at.x - width;
  return { left, right: left + width, top: at.y - size, bottom: at.y + size * 0.25 };
}

/** The smallest box round all points; null without any. */
export function boxOf(points: Iterable<Point>): Box | null {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  return left <= right && top <= bottom ? { left, top, right, bottom } : null;
}

export const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
