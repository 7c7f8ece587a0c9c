/** Two posts and a bar between them, as a car's text: what the tests of "will it go in?" move about. */
import type { Vec3 } from '../../server/centreline/vector';
import { addScaled } from '../../server/centreline/vector';
import { evened } from '../../server/geometry/room/play';
import type { Bar } from '../../server/geometry/room/bar';
import type { Pose } from '../../server/geometry/room/frame';
import type { Room } from '../../server/geometry/room/room';
import { hostsOf, Rooms } from '../../server/geometry/room/room';
import { stretchesOf, tubesIn, type Tubes } from '../../server/geometry/room/tubes';
import type { Part, Shape } from '../../server/geometry/shape';
import { analyse } from '../support/analyse';

export interface Posts {
  /** Foot and top of the left post, then of the right one. */
  readonly left: readonly [Vec3, Vec3];
  readonly right: readonly [Vec3, Vec3];
  readonly od: readonly [number, number];
  readonly bar: { readonly od: number; readonly wall: number };
  /** Where along each post, %, the bar sits. */
  readonly at: readonly [number, number];
  /** Posts that stand on plates let nothing pass their feet. */
  readonly feet?: boolean;
  /** More statements. */
  readonly more?: string;
}

const said = (p: Vec3): string => `(${p.map((x) => x.toFixed(6)).join(', ')})`;

export const textOf = ({ left, right, od, bar, at, feet = false, more = '' }: Posts): string => `cage "Two posts"
units mm
section left { od ${String(od[0])}; wall 2 }
section right { od ${String(od[1])}; wall 2 }
section bar { od ${String(bar.od)}; wall ${String(bar.wall)} }
node a1 = ${said(left[0])}
node a2 = ${said(left[1])}
node b1 = ${said(right[0])}
node b2 = ${said(right[1])}
tube post-left as brace { section left; path a1, a2 }
tube post-right as brace { section right; path b1, b2 }
${feet ? 'foot plate-left { at a1; plate 100 x 100 x 3; lies level }\nfoot plate-right { at b1; plate 100 x 100 x 3; lies level }' : ''}
node c1 = on post-left at ${String(at[0])} %
node c2 = on post-right at ${String(at[1])} %
tube bar as brace { section bar; path c1, c2 }
${more}
`;

export async function shapeOf(text: string): Promise<Shape> {
  const { shape } = await analyse(text);
  return shape;
}

export interface Case {
  readonly shape: Shape;
  readonly part: Part;
  readonly room: Room;
  readonly hosts: readonly Part[];
  /** In the bar's axes. */
  readonly tubes: Tubes;
}

/** What the tool says of `bar` with everything else in; null where it says that it is not known. */
export async function caseOf(posts: Posts): Promise<Case | null> {
  const shape = await shapeOf(textOf(posts));
  const part = shape.parts.get('bar');
  if (part === undefined) return null;
  const room = new Rooms(shape.parts).of(part, [...shape.parts.values()]);
  if (room === null) return null;
  const hosts = hostsOf(part, shape.parts);
  const tubes = tubesIn(
    room.bar.frame,
    hosts.flatMap((host) => stretchesOf(host, true)),
  );
  return { shape, part, room, hosts, tubes };
}

/** Upright posts, `wide` from axis to axis. */
export const upright = (wide: number, od: number, bar: number, more: Partial<Posts> = {}): Posts => ({
  left: [
    [0, wide / 2, 0],
    [0, wide / 2, 1000],
  ],
  right: [
    [0, -wide / 2, 0],
    [0, -wide / 2, 1000],
  ],
  od: [od, od],
  bar: { od: bar, wall: 2.5 },
  at: [50, 50],
  ...more,
});

/** Posts that stand apart by `degrees` each more than upright, the lower the wider. */
export function astride(wide: number, degrees: number, od: number, bar: number, more: Partial<Posts> = {}): Posts {
  const out = Math.tan((degrees * Math.PI) / 180);
  const foot = (side: number): Vec3 => [0, side * (wide / 2 + 500 * out), 0];
  const top = (side: number): Vec3 => [0, side * (wide / 2 - 500 * out), 1000];
  return { ...upright(wide, od, bar), left: [foot(1), top(1)], right: [foot(-1), top(-1)], ...more };
}

/** Points of a bar's metal at its ends, each set back by `back`, in its own axes. */
export function ringsOf(bar: Bar, end: 0 | 1, back: number): readonly Vec3[] {
  const { axes, origin, lines } = bar.ends[end];
  return Array.from(lines.x, (x, i) => {
    const across = addScaled(addScaled(origin, axes[0], x), axes[1], lines.y[i] ?? NaN);
    return addScaled(across, axes[2], (lines.z[i] ?? NaN) - back);
  });
}

/** Where the bar is held: evenly between its hosts. */
export const held = ({ room, tubes }: Case, pose: Pose): Pose => evened(room.bar, pose, tubes);
