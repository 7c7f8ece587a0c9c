/** The ground under the car: a grid with its scale, the centreline, and which way the car goes. */
import { BufferAttribute, BufferGeometry, Group, LineBasicMaterial, LineSegments } from 'three';
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
  labels: readonly Label[] = [];

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
    const { minor, major, each, unit } = STEPS[units];
    const thin: number[] = [];
    const thick: number[] = [];
    const labels: Label[] = [];
    const put = (name: string, at: Point3, text: string, rank: number) =>
      labels.push({ key: `ground ${name}`, at, text, sign: null, kind: 'ground', rank, does: null });
    const even = (value: number) => Math.abs(value / major - Math.round(value / major)) < 1e-6;
    const from = (low: number, high: number) =>
      Array.from({ length: Math.min(400, Math.round((high - low) / minor) + 1) }, (_, n) => low + n * minor);
    for (const at of from(...x)) {
      (even(at) ? thick : thin).push(at, y[0], 0, at, y[1], 0);
      if (even(at)) put(`x${String(at)}`, [at, y[0], 0], `x ${String(Math.round(at / each))}`, 2);
    }
    for (const at of from(...y)) {
      (even(at) ? thick : thin).push(x[0], at, 0, x[1], at, 0);
      if (even(at) && at !== 0) put(`y${String(at)}`, [x[0], at, 0], `y ${String(Math.round(at / each))}`, 2);
    }
    put('scale', [x[0], y[0], 0], `grid ${String(Math.round(minor / each))} ${unit}`, 3);
    put('front', [x[1] + major * 0.55, 0, 0], 'FRONT', 9);
    put('left', [(x[0] + x[1]) / 2, y[1] + major * 0.3, 0], 'LEFT', 8);
    setLines(this.thin, thin);
    setLines(this.thick, thick);
    setLines(this.axis, axisOf(x, major));
    this.labels = labels;
  }
}

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
