/** The shape of an explanation, and the little cars in which its examples stand. */

/** A stage: the text that comes before an example, so that the example itself can be short. */
export type Stage = 'empty' | 'parts' | 'hoop' | 'harness';

export interface Explanation {
  /** What the finding says, without figures. */
  readonly what: string;
  /** What happens to the car, the weld or the driver. */
  readonly why: string;
  readonly measured: string;
  readonly source: string;
  readonly mend: string;
  /** What stands before both examples. */
  readonly stage: Stage;
  /** Text that yields the finding, in `example.cage`. */
  readonly bad: string;
  /** The same, mended. */
  readonly good: string;
  /** Other files that the examples use, by path. */
  readonly files?: Readonly<Record<string, string>>;
}

export const AS_WRITTEN = 'Nothing is measured: it is the text itself.';
export const LANGUAGE = 'The rules of the cage language.';
export const PRACTICE = 'Common practice, no source.';
export const ARITHMETIC = 'Arithmetic: what cannot be made is no matter of opinion.';
export const NEVER_GUESSED =
  'A part that is cut from a guess is scrap; so nothing is taken from this line until it can be read.';

const PARTS = `cage "Example"
units mm
section t45 { od 45; wall 2.5 }
section t38 { od 38; wall 2.5 }
die d45 { od 45; radius 135; grip 90; between 60 }
die d38 { od 38; radius 114; grip 75; between 50 }
`;

const HOOP = `${PARTS}
mirror left {
  node foot  = (0, 600, 0)
  node crown = (0, 550, 1000)
  foot shoe { at foot; plate 140 x 100 x 3; bolts 3 x M8; hole 8 }
}
tube hoop as main-rollbar { section t45; die d45; path foot.left, crown.left, crown.right, foot.right }
`;

const HARNESS = `${HOOP}
mirror left { node bar-end = on hoop where z = 700 }
tube bar as harness-bar { section t38; path bar-end.left, bar-end.right }
vent bar -> hoop { at bar-end.left; dia 5 }
seat driver { slots (240, 300, 750); recline 10 deg; slot-spacing 220; back 45 }
`;

/** What stands around the examples, for whoever reads them alone. */
export const STAGE_WORDS: Readonly<Record<Stage, string>> = {
  empty: '',
  parts: 'in a file that has the sections t45 and t38 and the dies d45 and d38',
  hoop: 'in a car with a hoop of 45 x 2.5 on feet at y = 600 and y = -600, 1000 high',
  harness: 'in a car with a hoop, a harness bar of 38 x 2.5 at z = 700 and a seat named driver',
};

export const STAGES: Readonly<Record<Stage, string>> = { empty: '', parts: PARTS, hoop: HOOP, harness: HARNESS };

/** Explains what cannot be read as it is written: a slip in the text, and the same text without it. */
export const read = (
  what: string,
  mend: string,
  bad: string,
  good: string,
  more: Partial<Pick<Explanation, 'why' | 'measured' | 'source' | 'stage' | 'files'>> = {},
): Explanation => ({
  what,
  why: NEVER_GUESSED,
  measured: AS_WRITTEN,
  source: LANGUAGE,
  mend,
  stage: 'parts',
  bad,
  good,
  ...more,
});
