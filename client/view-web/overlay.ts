/** Lines over the picture in the pixels of the page: what is measured stands before everything and is never hidden. */
import type { Vector3 } from 'three';
import type { Point3 } from '../../server/view/model';
import { css, type Rgb } from './palette';
import type { OnPicture } from './stage';

export interface Pen {
  readonly ink: Rgb;
  /** CSS pixels. */
  readonly width: number;
  /** Lengths of dashes and gaps; none: solid. */
  readonly dash?: readonly number[];
  readonly alpha?: number;
}

export type Project = (at: Point3 | Vector3) => OnPicture;

/** What draws: a flat canvas over the picture, or the page that a picture is saved from. */
export class Overlay {
  constructor(
    readonly context: CanvasRenderingContext2D,
    readonly project: Project,
    /** What stands under thin lines, so that they are read on any ground. */
    readonly ground: Rgb,
  ) {}

  private trace(points: readonly OnPicture[], closed: boolean): boolean {
    const { context } = this;
    if (points.length < 2 || points.some(({ ahead }) => !ahead)) return false;
    context.beginPath();
    points.forEach(({ x, y }, index) => {
      if (index === 0) context.moveTo(x, y);
      else context.lineTo(x, y);
    });
    if (closed) context.closePath();
    return true;
  }

  private ink(pen: Pen): void {
    const { context } = this;
    context.lineCap = 'round';
    context.lineJoin = 'round';
    context.setLineDash([]);
    if (!pen.dash) {
      context.strokeStyle = css(this.ground, 0.75);
      context.lineWidth = pen.width + 2;
      context.stroke();
    }
    context.setLineDash(pen.dash ? [...pen.dash] : []);
    context.strokeStyle = css(pen.ink, pen.alpha ?? 1);
    context.lineWidth = pen.width;
    context.stroke();
    context.setLineDash([]);
  }

  /** A line through places of the car. */
  line(points: readonly (Point3 | Vector3)[], pen: Pen, closed = false): void {
    if (
      this.trace(
        points.map((point) => this.project(point)),
        closed,
      )
    )
      this.ink(pen);
  }

  /** A stroke between points of the picture. */
  stroke(points: readonly OnPicture[], pen: Pen): void {
    if (this.trace(points, false)) this.ink(pen);
  }

  /** A short line across the end of another, as on a dimension line. */
  tick(at: OnPicture, from: OnPicture, size: number, pen: Pen): void {
    const [dx, dy] = [at.x - from.x, at.y - from.y];
    const long = Math.hypot(dx, dy);
    const [nx, ny] = long < 1e-6 ? [0, 1] : [-dy / long, dx / long];
    this.stroke(
      [
        { ...at, x: at.x - nx * size, y: at.y - ny * size },
        { ...at, x: at.x + nx * size, y: at.y + ny * size },
      ],
      pen,
    );
  }

  /** An arrow's head at the end of a line that comes from another point. */
  head(at: OnPicture, from: OnPicture, size: number, ink: Rgb): void {
    const long = Math.hypot(at.x - from.x, at.y - from.y);
    if (long < 1e-6 || !at.ahead || !from.ahead) return;
    const [dx, dy] = [(at.x - from.x) / long, (at.y - from.y) / long];
    const { context } = this;
    context.beginPath();
    context.moveTo(at.x, at.y);
    context.lineTo(at.x - dx * size - dy * size * 0.4, at.y - dy * size + dx * size * 0.4);
    context.lineTo(at.x - dx * size + dy * size * 0.4, at.y - dy * size - dx * size * 0.4);
    context.closePath();
    context.fillStyle = css(ink);
    context.fill();
  }

  /** A round spot, full or hollow. */
  dot(at: OnPicture, radius: number, ink: Rgb, full: boolean, alpha = 1): void {
    if (!at.ahead) return;
    const { context } = this;
    context.beginPath();
    context.arc(at.x, at.y, radius, 0, 2 * Math.PI);
    context.fillStyle = css(full ? ink : this.ground, full ? alpha : Math.min(alpha, 0.8));
    context.fill();
    context.lineWidth = full ? 1 : 1.5;
    context.strokeStyle = css(full ? this.ground : ink, alpha);
    context.stroke();
  }

  /** Fills a closed outline. */
  fill(ring: readonly (Point3 | Vector3)[], ink: Rgb, alpha: number): void {
    if (
      ring.length < 3 ||
      !this.trace(
        ring.map((point) => this.project(point)),
        true,
      )
    )
      return;
    this.context.fillStyle = css(ink, alpha);
    this.context.fill();
  }

  /** Fills closed outlines with slanted lines, `gap` pixels apart. Outlines inside outlines are left out. */
  hatch(outlines: readonly (readonly Point3[])[], pen: Pen, gap: number): void {
    const { context } = this;
    const rings = outlines.map((ring) => ring.map((point) => this.project(point)));
    if (rings.length === 0 || rings.some((ring) => ring.length < 3 || ring.some(({ ahead }) => !ahead))) return;
    context.save();
    context.beginPath();
    for (const ring of rings) {
      ring.forEach(({ x, y }, index) => {
        if (index === 0) context.moveTo(x, y);
        else context.lineTo(x, y);
      });
      context.closePath();
    }
    context.fillStyle = css(pen.ink, 0.1);
    context.fill('evenodd');
    context.clip('evenodd');
    const all = rings.flat();
    const [left, right] = [Math.min(...all.map(({ x }) => x)), Math.max(...all.map(({ x }) => x))];
    const [top, bottom] = [Math.min(...all.map(({ y }) => y)), Math.max(...all.map(({ y }) => y))];
    context.beginPath();
    // From a fixed origin, so that the hatching of two regions runs on.
    const begin = Math.floor((left - bottom) / gap) * gap;
    for (let shift = begin; shift < right - top && shift < begin + 4000 * gap; shift += gap) {
      context.moveTo(shift + top, top);
      context.lineTo(shift + bottom, bottom);
    }
    context.strokeStyle = css(pen.ink, pen.alpha ?? 0.7);
    context.lineWidth = pen.width;
    context.stroke();
    context.restore();
    for (const ring of rings) if (this.trace(ring, true)) this.ink({ ...pen, alpha: 1 });
  }
}
