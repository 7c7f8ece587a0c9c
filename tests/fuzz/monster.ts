/** What the monsters are made of and asked for. */
import type { Analysis } from '../../server/project/project';

export const times = (count: number, make: (i: number) => string, between = '\n'): string =>
  Array.from({ length: count }, (_, i) => make(i)).join(between);

/** What is found: each code once, sorted. */
export const codes = ({ findings }: Analysis): string[] => [...new Set(findings.map(({ code }) => code))].sort();
export const starts = ({ findings }: Analysis): number[] => findings.map(({ place }) => place.span.start);

export const PARTS =
  'units mm\nsection s { od 38; wall 2.5 }\nsection m { od 45; wall 2.5 }\ndie d { od 38; radius 114 }\n';

/** A point of many, spread evenly over a sphere round the origin. */
export const onSphere = (i: number, count: number, radius = 1000): string => {
  const z = 1 - (2 * (i + 0.5)) / count;
  const r = Math.sqrt(1 - z * z);
  const turn = i * Math.PI * (3 - Math.sqrt(5));
  return [r * Math.cos(turn), r * Math.sin(turn), z].map((v) => (radius * v).toFixed(3)).join(', ');
};

export const figuresOf = ({ shape }: Analysis, tube: string): readonly (number | null)[] => {
  const part = shape.parts.get(tube);
  if (part === undefined) throw new Error(`There is no ${tube}.`);
  return [part.cutLength, part.stickLength, part.holeSawLength, ...part.ends.map((end) => end.depth)];
};
