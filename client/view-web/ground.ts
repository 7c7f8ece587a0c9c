/** The ground under the car: a grid with its scale, the centreline, and which way the car goes. */
import { BufferAttribute, BufferGeometry, Group, LineBasicMaterial, LineSegments, type Vector3 } from 'three';
import type { Point3 } from '../../server/view/model';
import type { Label } from './labels';
import { colour, mixed, type Palette } from './palette';
import type { Box } from './pose';

/** What the grid is drawn by, mm: a line every `minor`, a figure every `major`. */
const STEPS = {
  mm: { minor: 100, major: 500, each: 1, unit: 'mm' },
  in: { minor: 152.4, major: 609.6, each: 25.4, unit: 'in' },
};

/** The part of the ground that is drawn, on whole steps, with a margin round the car. */
export function groundOf(box: Box, units: 'mm' | 'in'): { x: [number, number]; y: [number, number] } {
  const { major } = STEPS[units];
  const low = (value: number) => Math.floor((value - major * 0.4) / major) * major;
  const high = (value: number) => Math.ceil((value + major * 0.4) / major) * major;
  const wide = Math.max(Math.abs(low(box[0][1])), Math.abs(high(box[1][1])));
  return { x: [low(box[0][0]), high(box[1][0])], y: [-wide, wide] };
}

export class Ground {
  readonly group = new Group();
  private key = '';
  private readonly thin = new LineSegments(new BufferGeometry(), new LineBasicMaterial({ transparent: true }));
  private readonly thick = new LineSegments(new BufferGeometry(), new LineBasicMaterial({ transparent: true }));
  private readonly axis = new LineSegments(new BufferGeometry(), new LineBasicMaterial());
  private extent: { readonly x: readonly [number, number]; readonly y: readonly [number, number] } | null = null;
  private units: 'mm' | 'in' = 'mm';
  /** Whether the figures stand at the front and at the left edge: always at those nearest to the eye. */
  private edges = { front: true, left: true };

  constructor() {
    this.group.add(this.thin, this.thick, this.axis);
  }

  restyle(palette: Palette): void {
    const { background, foreground, contrast, orange } = palette;
    const ink = (share: number) => colour(mixed(background, foreground, share));
    this.thin.material.color = ink(contrast ? 0.35 : 0.1);
    this.thick.material.color = ink(contrast ? 0.6 : 0.22);
    this.axis.material.color = colour(mixed(background, orange, 0.85));
  }

  update(box: Box | null, units: 'mm' | 'in'): void {
    const { x, y } = groundOf(
      box ?? [
        [-1000, -700, 0],
        [1500, 700, 1200],
      ],
      units,
    );
    const key = [...x, ...y, units].join(' ');
    if (key === this.key) return;
    this.key = key;
    this.extent = { x, y };
    this.units = units;
    const { minor, major } = STEPS[units];
    const thin: number[] = [];
    const thick: number[] = [];
    const from = (low: number, high: number) =>
      Array.from({ length: Math.min(400, Math.round((high - low) / minor) + 1) }, (_, n) => low + n * minor);
    const lines = (at: number) => (isWhole(at, major) ? thick : thin);
    for (const at of from(...x)) lines(at).push(at, y[0], 0, at, y[1], 0);
    for (const at of from(...y)) lines(at).push(x[0], at, 0, x[1], at, 0);
    setLines(this.thin, thin);
    setLines(this.thick, thick);
    setLines(this.axis, axisOf(x, major));
  }

  /** Turns the figures to the eye; true when they stand elsewhere now. */
  face(toward: Vector3): boolean {
    const front = toward.x > 0.02 || (toward.x >= -0.02 && this.edges.front);
    const left = toward.y > 0.02 || (toward.y >= -0.02 && this.edges.left);
    if (front === this.edges.front && left === this.edges.left) return false;
    this.edges = { front, left };
    return true;
  }

  /** Figures of the scale, and which way the car goes. */
  labels(): readonly Label[] {
    if (!this.extent) return [];
    const { x, y } = this.extent;
    const { minor, major, each, unit } = STEPS[this.units];
    const side = this.edges.left ? y[1] : y[0];
    const end = this.edges.front ? x[1] : x[0];
    const figure = (mm: number) => String(Math.round(mm / each));
    const whole = ([low, high]: readonly [number, number]) =>
      Array.from({ length: Math.round((high - low) / major) + 1 }, (_, n) => low + n * major);
    const label = (name: string, at: Point3, text: string, rank: number): Label => {
      return { key: `ground ${name}`, at, text, sign: null, kind: 'ground', rank, does: null, quiet: true };
    };
    return [
      ...whole(x).map((at) => label(`x${String(at)}`, [at, side, 0], `x ${figure(at)}`, 2)),
      ...whole(y).flatMap((at) => (at === side ? [] : [label(`y${String(at)}`, [end, at, 0], `y ${figure(at)}`, 2)])),
      label('scale', [end, (side * 3) / 4, 0], `grid ${figure(minor)} ${unit}`, 3),
      label('front', [x[1] + major * 0.2, 0, 0], 'FRONT', 9),
    ];
  }
}

const isWhole = (value: number, step: number) => Math.abs(value / step - Math.round(value / step)) < 1e-6;

/** The centreline, long and short dashes in turn as on drawings, with an arrow's head where the car goes. */
function axisOf(x: readonly [number, number], major: number): number[] {
  const points: number[] = [];
  const [long, gap, short] = [major * 0.3, major * 0.06, major * 0.08];
  const end = x[1] + major * 0.45;
  let at = x[0];
  while (at < end) {
    points.push(at, 0, 0.5, Math.min(end, at + long), 0, 0.5);
    at += long + gap;
    if (at < end) points.push(at, 0, 0.5, Math.min(end, at + short), 0, 0.5);
    at += short + gap;
  }
  const [back, wide] = [major * 0.16, major * 0.09];
  for (const side of [-1, 1]) points.push(end, 0, 0.5, end - back, side * wide, 0.5);
  points.push(end - back, -wide, 0.5, end - back, wide, 0.5);
  return points;
}

function setLines(of: LineSegments<BufferGeometry>, points: readonly number[]): void {
  of.geometry.dispose();
  of.geometry = new BufferGeometry();
  of.geometry.setAttribute('position', new BufferAttribute(new Float32Array(points), 3));
}
