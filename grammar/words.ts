/**
 * DATA: the small words of the language that belong to no statement: functions, directions, axes, sides,
 * the words of the place forms. Each with one line of meaning, shown by hover.
 */

/** A function by its name: what it takes and gives. `dimension` of the result is decided where it is evaluated. */
export interface FunctionEntry {
  /** Names of the arguments, for signatures and snippets. */
  readonly takes: readonly string[];
  /** May be given more than `takes` (min and max). */
  readonly more: boolean;
  /** Whether the arguments are places or figures. */
  readonly of: 'places' | 'figures';
  readonly meaning: string;
}

const figures = (takes: readonly string[], meaning: string, more = false): FunctionEntry => ({
  takes,
  more,
  of: 'figures',
  meaning,
});

export const FUNCTIONS: Readonly<Record<string, FunctionEntry>> = {
  sqrt: figures(['a'], 'square root; half the dimension of what stands in it'),
  abs: figures(['a'], 'the figure without its sign'),
  min: figures(['a', 'b'], 'the smallest of the figures', true),
  max: figures(['a', 'b'], 'the largest of the figures', true),
  sin: figures(['angle'], 'sine of an angle; a bare number is degrees'),
  cos: figures(['angle'], 'cosine of an angle; a bare number is degrees'),
  tan: figures(['angle'], 'tangent of an angle; a bare number is degrees'),
  asin: figures(['a'], 'the angle whose sine this is, from -90 to 90 degrees'),
  acos: figures(['a'], 'the angle whose cosine this is, from 0 to 180 degrees'),
  atan2: figures(['opposite', 'adjacent'], 'the angle of a slope from its rise and its run, from -180 to 180 degrees'),
  distance: { takes: ['A', 'B'], more: false, of: 'places', meaning: 'straight distance between two places' },
  angle: {
    takes: ['A', 'B', 'C'],
    more: false,
    of: 'places',
    meaning: 'the angle at B between the lines to A and to C',
  },
};

/** Direction words of a triple: the axis they go along and which way; `out` and `in` go by a side. */
export interface DirectionEntry {
  readonly axis: 'x' | 'y' | 'z';
  /** +1 or -1 along the axis; null: away from or toward the centreline, by the side. */
  readonly sign: 1 | -1 | null;
  readonly meaning: string;
}

export const DIRECTIONS: Readonly<Record<string, DirectionEntry>> = {
  forward: { axis: 'x', sign: 1, meaning: 'toward the front of the car, +x' },
  aft: { axis: 'x', sign: -1, meaning: 'toward the rear of the car, -x' },
  left: { axis: 'y', sign: 1, meaning: "toward the car's own left, +y" },
  right: { axis: 'y', sign: -1, meaning: "toward the car's own right, -y" },
  up: { axis: 'z', sign: 1, meaning: 'upward, +z' },
  down: { axis: 'z', sign: -1, meaning: 'downward, -z' },
  out: { axis: 'y', sign: null, meaning: "away from the car's centreline" },
  in: { axis: 'y', sign: null, meaning: "toward the car's centreline; after a number it is inches" },
};

export const AXES: Readonly<Record<'x' | 'y' | 'z', string>> = {
  x: 'forward (ISO 8855)',
  y: "to the car's left; y = 0 is its centreline (ISO 8855)",
  z: 'up (ISO 8855)',
};

/** Words with a meaning inside a value, beside the directions: place forms and phrases of facts. */
export const PHRASE_WORDS: Readonly<Record<string, string>> = {
  on: 'on a tube, along its bent centreline; in waive: on which thing; in rulebook: on which other book',
  in: 'in a declared plane, measured from its `at` along it',
  between: 'on the straight line from one place to another',
  and: 'the second place of between',
  at: 'how far along: a distance or a share (40 %)',
  from: 'measured from this end node',
  before:
    'measured back along the tube from where the bend at this corner begins; in rulebook: for cars homologated before that day',
  since: 'for cars homologated on that day or later',
  after: 'measured on along the tube from where the bend at this corner ends',
  mid: 'the middle of the arc of the bend at this corner',
  where: 'where the tube crosses a plane such as z = 690, or the point of one tube nearest to another',
  meets: 'the point of the first tube that is nearest to the second',
  near: 'of several crossings, the one nearest to this place',
  nearest: 'the point of the tube that is nearest to this place',
  as: 'the part that this tube plays in the cage',
  onto: 'the end is coped to these tubes or feet',
  open: 'the end is cut square and left open',
  past: 'the end runs on this far beyond its node and is cut square',
  by: 'by which tube, or by how much',
  turned: 'turned counter-clockwise, seen from above',
  level: 'the plate lies level',
  square: 'the plate lies square across the tube',
  upright: 'not leaned',
  gap: 'clearance on each side of the webbing',
  with: 'with the driver in the car',
  without: 'without the driver',
  driver: 'the mass includes the driver, or does not',
  first: 'the end at the first node of the path',
  last: 'the end at the last node of the path',
  to: 'as far as this value',
  based: 'the book that this one goes on from',
  of: 'only for these things',
  recommended: 'not a must: told as information',
  price: 'what one stick of that length costs',
  cite: 'where this limit is published',
  for: 'what the hole is for',
  grade: 'the grade of the bolt: 8.8, 10.9 (ISO 898-1), or 5, 8 (SAE J429)',
  fia: 'certified to this standard of the FIA: 8857, type A',
  sfi: 'certified to this specification of the SFI: 45.1 or 45.2',
  foam: 'non-resilient foam without a certificate',
  radius: 'the radius of the ball',
  because: 'the reason, for whoever reads the waiver',
  air: 'the open air',
  x: 'by: between the measures of one thing',
};
