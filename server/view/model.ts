/**
 * What the picture beside the text is made from: plain data, as it goes over the protocol. Millimetres and radians in the
 * car's frame (x forward, y left, z up). Arrays of numbers travel as base64, as they lie in memory, little-endian.
 * `P` is how a place in the text is told: by offsets inside, by lines and columns on the way to the editor.
 */

export type Point3 = readonly [number, number, number];

/** What a thing is; the picture's looks hang on it, never on a name. */
export const THING_KINDS = [
  'tube',
  'existing-tube',
  'foot',
  'plate',
  'gusset',
  'collar',
  'fitting',
  'vent',
  'hole',
  'padding',
  'seat',
  'helmet',
  'strap',
  'panel',
  'anchor',
  'space',
] as const;
export type ThingKind = (typeof THING_KINDS)[number];

/** Where something is written, inside: a file's key and offsets. The edge gives it as lines and columns instead. */
export interface SpanPlace {
  readonly file: string;
  readonly start: number;
  readonly end: number;
}

/** A closed surface. Places are counted in steps: a place is `from` and, on each axis, so many times `step`. */
export interface WireMesh {
  readonly from: Point3;
  readonly step: Point3;
  /** Uint16: x, y, z of each corner, in steps. */
  readonly positions: string;
  /** Int8: unit normal of each corner, 127 times as long; sharp edges have their corners twice. */
  readonly normals: string;
  /** Three a triangle, counter-clockwise seen from outside. Uint16; Uint32 where there are more than 65535 corners. */
  readonly indices: string;
  /** Uint16: x, y, z of the points of lines that are drawn on it, in steps: cut edges, tangents of bends, outlines. */
  readonly lines: string;
  /** Uint16: how many of the points each line has, one line after the other. */
  readonly strokes: string;
}

/** One end of a tube, for looking at its cope backed off from the host. */
export interface ViewEnd {
  readonly which: 'first' | 'last';
  /** Full name of the node; null at the inner end of a split piece. */
  readonly node: string | null;
  readonly fit: 'cope' | 'foot' | 'square' | 'open';
  /** Ids of what cuts it. */
  readonly hosts: readonly string[];
  /** Unit direction of the leg away from the joint: along it the end is backed off. */
  readonly away: Point3;
  /** Clock marks on the tube's outer edge: `TOP` or `FRONT` at 0, then every 30°, and the inside of the bend. */
  readonly clock: readonly { readonly label: string; readonly at: Point3; readonly outward: Point3 }[];
  /** Float32: the outer edge of the cut, x, y, z of each point, closed; '' where it is not known. */
  readonly edge: string;
  /** What the end is, in a line: `cope on main-hoop, 63.4°, offset 12.0 mm, depth 9.8 mm`. */
  readonly says: string;
}

export interface ViewThing<P = SpanPlace> {
  /** Unique in the model and the same after an edit: `tube:harness-bar`, `foot:main-foot.left`. */
  readonly id: string;
  readonly kind: ThingKind;
  /** Full name of the statement's thing (of a part: of the piece). */
  readonly name: string;
  /** For the list and for a screen reader: `harness-bar: harness bar, 38 × 2.5 mm, 1204.3 mm long`. */
  readonly label: string;
  /** Where it is written, by its name; null: nowhere of its own. */
  readonly place: P | null;
  /** The whole statement that makes it: the cursor in it means the thing. Null where `place` is. */
  readonly statement: P | null;
  /** Of mesh and ends: the same key, the same mesh and ends. Empty: there is nothing to draw. */
  readonly key: string;
  /** Null: the asker said that it has this key already, or there is nothing to draw. */
  readonly mesh: WireMesh | null;
  /** Two corners of the box round it; null: nothing to draw. */
  readonly box: readonly [Point3, Point3] | null;
  /** Of tubes. Null: the asker said that it has this key already. */
  readonly ends: readonly ViewEnd[] | null;
}

/** A node, and whether a hand may drag it. */
export interface ViewNode<P = SpanPlace> {
  readonly id: string;
  readonly name: string;
  readonly at: Point3;
  readonly place: P | null;
  readonly statement: P | null;
  /** The axes whose coordinate is a plain number in the text; for the others `hangs` says what it hangs on. */
  readonly axes: readonly ('x' | 'y' | 'z')[];
  /** Which way it slides, on its tube or between two nodes, as its distance along, a plain number, grows; null: it has none. */
  readonly along: Point3 | null;
  /** Null: nothing, each coordinate is a number. */
  readonly hangs: string | null;
}

/** Something measured, drawn where it was measured. */
export type ViewMark = {
  /** The quantity: `strap.drop`. */
  readonly what: string;
  /** Ids of what was measured. */
  readonly of: readonly string[];
  /** `drop 8.7°`. */
  readonly says: string;
  /** The worst open finding about it; null: it is as it should be. */
  readonly finding: number | null;
} &
  /** At `at`, from the line to one place to the line to another: the angle between these is the figure. */
  (
    | { readonly kind: 'angle'; readonly at: Point3; readonly from: Point3; readonly to: Point3 }
    | { readonly kind: 'distance'; readonly from: Point3; readonly to: Point3 }
    | { readonly kind: 'spot'; readonly at: Point3 }
    /** The way of a tube that cannot be shaped yet, from node to node. */
    | { readonly kind: 'path'; readonly points: readonly Point3[] }
  );

export interface ViewFinding<P = SpanPlace> {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'information' | 'hint';
  readonly text: string;
  /** Ids of the things that have it; may be empty. */
  readonly of: readonly string[];
  /** Indices of marks that show it. */
  readonly marks: readonly number[];
  readonly place: P;
}

/** Where a harness bar may be: outlines in the side plane (x, z), over a width of the car. */
export interface ViewWindow {
  readonly bar: string;
  readonly regions: readonly {
    readonly level: 'required' | 'recommended';
    readonly outlines: readonly (readonly (readonly [number, number])[])[];
  }[];
  /** From right to left, mm of y. */
  readonly across: readonly [number, number];
}

export interface ViewModel<P = SpanPlace> {
  readonly title: string;
  readonly units: 'mm' | 'in';
  readonly things: readonly ViewThing<P>[];
  readonly nodes: readonly ViewNode<P>[];
  readonly marks: readonly ViewMark[];
  /** Open ones, worst first. */
  readonly findings: readonly ViewFinding<P>[];
  /** Worked out when it is asked for by itself, since it takes its time; here it is null. */
  readonly window: ViewWindow | null;
  /** The box round all that is made. */
  readonly box: readonly [Point3, Point3] | null;
}

/** What a hand picked: a thing, and where on it. */
export interface Picked {
  readonly id: string;
  readonly at: Point3;
}
/** As with a tape and an angle gauge. */
export interface MeasureAnswer {
  /** One line a figure, in the units of the file: for the panel and for the clipboard. */
  readonly lines: readonly { readonly what: string; readonly says: string }[];
  /** What is drawn: the shortest line between the two, and the angle where there is one. */
  readonly marks: readonly ViewMark[];
}
