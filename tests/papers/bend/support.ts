/** Packets of texts and samples; and a tube bent step by step from what its sheet says, not from the model. */
import { readFileSync } from 'node:fs';
import type { Vec3 } from '../../../server/centreline/vector';
import { add, cross, dot, scale, unit } from '../../../server/centreline/vector';
import { packetInput } from '../../../server/papers/packet/packet';
import type { PacketInput } from '../../../server/papers/packet/paper';
import { bendFigures, type BendFigures } from '../../../server/papers/bend/figures';
import { analyse } from '../../support/analyse';

const sample = (name: string): string => readFileSync(new URL(`../../../samples/${name}`, import.meta.url), 'utf8');
const USED = Object.fromEntries(
  ['curlew-seats.cage', 'every-finding-part.cage', 'heron-club.cage'].map((name) => [name, sample(name)]),
);

export async function inputOf(text: string, name = 'example.cage'): Promise<PacketInput> {
  const { cage, shape, findings } = await analyse(text, USED, name);
  return packetInput({
    cage,
    shape,
    findings,
    hash: 'c0ffee'.repeat(8),
    maker: 'Cagewright 1.2.3',
    placeOf: () => 'x:1',
  });
}

export const sampleInput = (name: string): Promise<PacketInput> => inputOf(sample(`${name}.cage`), `${name}.cage`);

export function figuresOf({ shape }: PacketInput, name: string): BendFigures {
  const part = shape.parts.get(name);
  if (part === undefined) throw new Error(`no part ${name}`);
  return bendFigures(part, shape);
}

/** Right-handed about a unit axis, by Rodrigues' formula. */
export function turned(v: Vec3, axis: Vec3, by: number): Vec3 {
  const [c, s] = [Math.cos(by), Math.sin(by)];
  return add(add(scale(v, c), scale(cross(axis, v), s)), scale(axis, dot(axis, v) * (1 - c)));
}

export interface Bent {
  /** Every so many millimetres: the axis and where it runs. */
  readonly axis: readonly { readonly at: Vec3; readonly tangent: Vec3; readonly straight: boolean }[];
  /** On the outside, and the inside, of each bend at its middle mark. */
  readonly outside: readonly Vec3[];
  readonly inside: readonly Vec3[];
  /** Of each bend toward its centre, where it begins; the tangent there. */
  readonly toward: readonly Vec3[];
  readonly along: readonly Vec3[];
}

/**
 * A stick bent by its marks: begin, end, angle and rotation of each bend, no other figure. The centreline radius is what the
 * length between the two marks makes of the angle.
 */
export function bendByMarks(
  bends: readonly { readonly start: number; readonly end: number; readonly angle: number; readonly rotation: number }[],
  stick: number,
  radius: number,
  step = 1,
): Bent {
  let at: Vec3 = [0, 0, 0];
  let tangent: Vec3 = [1, 0, 0];
  let toward: Vec3 = [0, 0, 1];
  const axis: { at: Vec3; tangent: Vec3; straight: boolean }[] = [{ at, tangent, straight: true }];
  const outside: Vec3[] = [];
  const inside: Vec3[] = [];
  const towards: Vec3[] = [];
  const along: Vec3[] = [];
  let station = 0;
  const go = (length: number): void => {
    const from = at;
    const steps = Math.max(1, Math.ceil(length / step));
    for (let i = 1; i <= steps; i++) {
      at = add(from, scale(tangent, (length * i) / steps));
      axis.push({ at, tangent, straight: true });
    }
  };
  for (const { start, end, angle, rotation } of bends) {
    go(start - station);
    // Clockwise as seen along the travel is right-handed about it.
    toward = turned(toward, tangent, rotation);
    towards.push(toward);
    along.push(tangent);
    const clr = (end - start) / angle;
    const centre = add(at, scale(toward, clr));
    const normal = cross(tangent, toward);
    const [from, way] = [scale(toward, -clr), tangent];
    const onArc = (by: number): Vec3 => add(centre, turned(from, normal, by));
    const middle = unit(turned(from, normal, angle / 2));
    outside.push(add(centre, scale(middle, clr + radius)));
    inside.push(add(centre, scale(middle, clr - radius)));
    const steps = Math.max(8, Math.ceil((end - start) / step));
    for (let i = 1; i <= steps; i++) {
      const by = (angle * i) / steps;
      axis.push({ at: onArc(by), tangent: turned(way, normal, by), straight: false });
    }
    at = onArc(angle);
    tangent = turned(way, normal, angle);
    toward = turned(toward, normal, angle);
    station = end;
  }
  go(stick - station);
  return { axis, outside, inside, toward: towards, along };
}

/** Points round a circle across a direction. */
export function ring(at: Vec3, tangent: Vec3, radius: number, count: number): readonly Vec3[] {
  const u = unit(cross(tangent, Math.abs(tangent[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const v = cross(tangent, u);
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    return add(at, add(scale(u, radius * Math.cos(angle)), scale(v, radius * Math.sin(angle))));
  });
}
