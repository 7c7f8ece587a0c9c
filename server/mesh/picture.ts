/**
 * Meshes as a picture of points: parallel projection, a depth for each point, shading by how a surface faces, and the lines
 * that are not hidden. Drawn at twice its size and brought down. The same meshes give the same points.
 */
import type { Vec3 } from '../centreline/vector';
import { dot, unit } from '../centreline/vector';
import type { View } from '../drawing/view';
import { project } from '../drawing/view';
import type { Mesh } from './mesh';

export interface Drawable {
  readonly mesh: Mesh;
  /** Red, green, blue, 0 to 1. */
  readonly colour: readonly [number, number, number];
  /** Only its lines are drawn. */
  readonly outlineOnly: boolean;
}

export interface Picture {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue, a byte each, row by row from above. */
  readonly data: Uint8Array;
}

/** Points drawn for each that is kept, along either side. */
const FINER = 2;
/** Room round the car, as a share of the width. */
const MARGIN = 0.03;
/** Lines lie this far before their surface, mm, so that it does not swallow them. */
const BEFORE = 1.2;
/** A step in depth that is drawn as an edge, mm, and how dark edges and lines are. */
const STEP = 6;
const LINE = 0.28;
/** A point on the line between two triangles is in both of them, whatever rounding says. */
const RIM = -1e-9;
/** The light comes over the viewer's left shoulder; what faces away from it keeps so much. */
const LIGHT: Vec3 = unit([-0.45, 0.6, 0.66]);
const SHADE = 0.32;

class Canvas {
  readonly depth: Float32Array;
  readonly colours: Uint8Array;

  constructor(
    readonly width: number,
    readonly height: number,
  ) {
    this.depth = new Float32Array(width * height).fill(-Infinity);
    this.colours = new Uint8Array(width * height * 3).fill(255);
  }
}

/** From mm of the view to points. */
interface Scale {
  readonly perMm: number;
  readonly left: number;
  readonly top: number;
}

/** Corners on the canvas: x, y in points, depth in mm, and how bright they are. */
function projected({ positions, normals }: Mesh, view: View, { perMm, left, top }: Scale): Float32Array {
  const corners = new Float32Array((positions.length / 3) * 4);
  const { right, up, toward } = view;
  const light = [0, 1, 2].map((k) => right[k as 0] * LIGHT[0] + up[k as 0] * LIGHT[1] + toward[k as 0] * LIGHT[2]);
  const [lx, ly, lz] = light as [number, number, number];
  for (let i = 0; i < positions.length / 3; i++) {
    const [x, y, z] = [positions[3 * i] as number, positions[3 * i + 1] as number, positions[3 * i + 2] as number];
    corners[4 * i] = (x * right[0] + y * right[1] + z * right[2] - left) * perMm;
    corners[4 * i + 1] = (top - (x * up[0] + y * up[1] + z * up[2])) * perMm;
    corners[4 * i + 2] = x * toward[0] + y * toward[1] + z * toward[2];
    const lit =
      (normals[3 * i] as number) * lx + (normals[3 * i + 1] as number) * ly + (normals[3 * i + 2] as number) * lz;
    corners[4 * i + 3] = SHADE + (1 - SHADE) * (0.5 + 0.5 * lit);
  }
  return corners;
}

/**
 * Where a weight that changes by `step` from point to point is no longer below zero (`sense` 1), or not yet (-1), counted in
 * points from where it is `weight`; without such a bound: none.
 */
function ahead(weight: number, step: number, sense: 1 | -1): number {
  if (step * sense > 0) return (RIM - weight) / step;
  return sense * (step === 0 && weight < RIM ? Infinity : -Infinity);
}

function fill(canvas: Canvas, corners: Float32Array, indices: Uint32Array, colour: Drawable['colour']): void {
  const { width, height, depth, colours } = canvas;
  const [red, green, blue] = colour.map((c) => c * 255) as [number, number, number];
  for (let t = 0; t < indices.length; t += 3) {
    const a = 4 * (indices[t] as number);
    const b = 4 * (indices[t + 1] as number);
    const c = 4 * (indices[t + 2] as number);
    const [ax, ay] = [corners[a] as number, corners[a + 1] as number];
    const [bx, by] = [corners[b] as number, corners[b + 1] as number];
    const [cx, cy] = [corners[c] as number, corners[c + 1] as number];
    // Down is positive: what faces the viewer turns clockwise here.
    const area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
    if (!(area < 0)) continue;
    const top = Math.max(0, Math.ceil(Math.min(ay, by, cy) - 0.5));
    const bottom = Math.min(height - 1, Math.floor(Math.max(ay, by, cy) - 0.5));
    const left = Math.max(0, Math.ceil(Math.min(ax, bx, cx) - 0.5));
    const right = Math.min(width - 1, Math.floor(Math.max(ax, bx, cx) - 0.5));
    // Weights of the corners, and how they change from point to point of a row.
    const [da, db] = [(by - cy) / area, (cy - ay) / area];
    const [az, bz, cz] = [corners[a + 2] as number, corners[b + 2] as number, corners[c + 2] as number];
    const [al, bl, cl] = [corners[a + 3] as number, corners[b + 3] as number, corners[c + 3] as number];
    const dc = -da - db;
    for (let y = top; y <= bottom; y++) {
      const py = y + 0.5;
      const px = left + 0.5;
      const wa = ((bx - px) * (cy - py) - (by - py) * (cx - px)) / area;
      const wb = ((cx - px) * (ay - py) - (cy - py) * (ax - px)) / area;
      const wc = 1 - wa - wb;
      // The stretch of the row in which no weight is below zero: most of the box round a slanting triangle is outside.
      const from = Math.max(0, ahead(wa, da, 1), ahead(wb, db, 1), ahead(wc, dc, 1));
      const to = Math.min(right - left, ahead(wa, da, -1), ahead(wb, db, -1), ahead(wc, dc, -1));
      for (let k = Math.ceil(from); k <= to; k++) {
        const [sa, sb] = [wa + k * da, wb + k * db];
        const sc = 1 - sa - sb;
        const near = sa * az + sb * bz + sc * cz;
        const at = y * width + left + k;
        if (near <= (depth[at] as number)) continue;
        depth[at] = near;
        const lit = sa * al + sb * bl + sc * cl;
        colours[3 * at] = red * lit;
        colours[3 * at + 1] = green * lit;
        colours[3 * at + 2] = blue * lit;
      }
    }
  }
}

const darken = (colours: Uint8Array, at: number, by: number): void => {
  for (let k = 0; k < 3; k++) colours[3 * at + k] = (colours[3 * at + k] as number) * by;
};

/** Where one surface stands before another, or before nothing: the outlines. */
function outlines({ width, height, depth, colours }: Canvas): void {
  const edges = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = y * width + x;
      const here = depth[at] as number;
      if (here === -Infinity) continue;
      const beyond = (other: number): boolean => here - other > STEP;
      if (
        (x > 0 && beyond(depth[at - 1] as number)) ||
        (x + 1 < width && beyond(depth[at + 1] as number)) ||
        (y > 0 && beyond(depth[at - width] as number)) ||
        (y + 1 < height && beyond(depth[at + width] as number))
      )
        edges[at] = 1;
    }
  }
  for (let at = 0; at < edges.length; at++) if (edges[at] === 1) darken(colours, at, LINE);
}

/** Lines of a mesh where nothing stands before them; over the bare ground they are grey. */
function strokes(canvas: Canvas, { mesh }: Drawable, view: View, { perMm, left, top }: Scale): void {
  const { width, height, depth, colours } = canvas;
  const { lines } = mesh;
  for (let i = 0; i < lines.length; i += 6) {
    const ends = [0, 3].map((k) =>
      project(view, [lines[i + k] as number, lines[i + k + 1] as number, lines[i + k + 2] as number]),
    );
    const [[au, av, aw], [bu, bv, bw]] = ends as [Vec3, Vec3];
    const steps = Math.max(1, Math.ceil(Math.max(Math.abs(bu - au), Math.abs(bv - av)) * perMm));
    // The last point of a line is the first of the next one.
    for (let k = 0; k < steps; k++) {
      const share = k / steps;
      const x = Math.floor((au + (bu - au) * share - left) * perMm);
      const y = Math.floor((top - (av + (bv - av) * share)) * perMm);
      if (x < 0 || y < 0 || x >= width || y >= height) continue;
      const at = y * width + x;
      const near = aw + (bw - aw) * share + BEFORE;
      if (near < (depth[at] as number)) continue;
      darken(colours, at, 0.5);
      depth[at] = Math.max(depth[at] as number, near);
    }
  }
}

/** Every point is the mean of those that it was drawn with. */
function broughtDown(canvas: Canvas): Picture {
  const [width, height] = [canvas.width / FINER, canvas.height / FINER];
  const data = new Uint8Array(width * height * 3);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let k = 0; k < 3; k++) {
        let sum = 0;
        for (let j = 0; j < FINER; j++)
          for (let i = 0; i < FINER; i++)
            sum += canvas.colours[3 * ((y * FINER + j) * canvas.width + x * FINER + i) + k] as number;
        data[3 * (y * width + x) + k] = Math.round(sum / (FINER * FINER));
      }
  return { width, height, data };
}

/** How far everything reaches on the view, mm; null: there is nothing. */
function reachOf(things: readonly Drawable[], view: View): readonly [number, number, number, number] | null {
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { mesh } of things) {
    for (const list of [mesh.positions, mesh.lines]) {
      for (let i = 0; i < list.length; i += 3) {
        const at: Vec3 = [list[i] as number, list[i + 1] as number, list[i + 2] as number];
        const [u, v] = [dot(at, view.right), dot(at, view.up)];
        left = Math.min(left, u);
        right = Math.max(right, u);
        low = Math.min(low, v);
        high = Math.max(high, v);
      }
    }
  }
  return left <= right ? [left, right, low, high] : null;
}

/** The picture, at most so many points wide and high; null: there is nothing to draw. */
export function pictureOf(
  things: readonly Drawable[],
  view: View,
  most: { readonly width: number; readonly height: number },
): Picture | null {
  const reach = reachOf(things, view);
  if (reach === null) return null;
  const [left, right, low, high] = reach;
  const room = most.width * (1 - 2 * MARGIN);
  const perMm = Math.min(
    room / Math.max(1, right - left),
    (most.height - 2 * MARGIN * most.width) / Math.max(1, high - low),
  );
  const edge = MARGIN * most.width;
  const canvas = new Canvas(
    FINER * Math.min(most.width, Math.ceil((right - left) * perMm + 2 * edge)),
    FINER * Math.min(most.height, Math.ceil((high - low) * perMm + 2 * edge)),
  );
  const scale: Scale = { perMm: perMm * FINER, left: left - edge / perMm, top: high + edge / perMm };
  for (const { mesh, colour, outlineOnly } of things)
    if (!outlineOnly) fill(canvas, projected(mesh, view, scale), mesh.indices, colour);
  outlines(canvas);
  for (const thing of things) strokes(canvas, thing, view, scale);
  return broughtDown(canvas);
}
