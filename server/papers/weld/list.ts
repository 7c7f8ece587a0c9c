/** The welds of a car, joint by joint: how long, how thick, and whether a torch gets round. */
import type { End, Part } from '../../geometry/shape';
import type { PacketInput } from '../packet/paper';
import type { Reach } from './reach';
import { obstaclesOf, reachOf } from './reach';
import { torchOf } from './torch';

export interface WeldLine {
  readonly part: Part;
  readonly end: End;
  /** Full names of the tubes, or of the foot. */
  readonly on: readonly string[];
  /** Along the outer edge, mm. */
  readonly length: number | null;
  /** Throat a, mm. */
  readonly throat: number | null;
  /** Null: not known. */
  readonly reach: Reach | null;
}

/** a = z / √2 of a fillet whose leg z is the thinner wall, rounded as shops say it: common practice, no source. */
export const THROAT = 0.7;

/** Circumference of an ellipse (Ramanujan, 1914; from memory): of a tube sawn at an angle off square. */
export function sawnEdge(radius: number, saw: number): number | null {
  const long = radius / Math.cos(saw);
  if (!(radius > 0) || !Number.isFinite(long) || Math.cos(saw) < 0.05) return null;
  const h = ((long - radius) / (long + radius)) ** 2;
  return Math.PI * (long + radius) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
}

const least = (values: readonly (number | null | undefined)[]): number | null =>
  values.reduce<number | null>(
    (sum, one) => (sum === null || one === null || one === undefined ? null : Math.min(sum, one)),
    Infinity,
  );

/** Every coped end, and every end on a plate, of parts that are made: in the order of the parts. */
export function weldLines(input: Pick<PacketInput, 'cage' | 'shape'>): readonly WeldLine[] {
  const { cage, shape } = input;
  const all = obstaclesOf(input);
  const torch = torchOf(cage.torch);
  return [...shape.parts.values()].flatMap((part) => {
    const { section, existing } = part.tube;
    if (existing) return [];
    return part.ends.flatMap((end): readonly WeldLine[] => {
      if (end.fit !== 'cope' && end.fit !== 'foot') return [];
      const walls = end.hosts.map((name) => {
        const foot = cage.things.get(name);
        return shape.parts.get(name)?.tube.section?.wall ?? (foot?.kind === 'foot' ? foot.plate?.thick : null);
      });
      const thin = walls.length === 0 ? null : least([section?.wall, ...walls]);
      const sawn = end.sawAngle === null || section === null ? null : sawnEdge(section.od / 2, end.sawAngle);
      return [
        {
          part,
          end,
          on: end.hosts,
          length: end.saddleLength ?? sawn,
          throat: thin === null || !Number.isFinite(thin) ? null : THROAT * thin,
          reach: reachOf(end, part, input, all, torch),
        },
      ];
    });
  });
}
