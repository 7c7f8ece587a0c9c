/** The car as a PNG file (ISO/IEC 15948). */
import { encode } from 'fast-png';
import type { Cage } from '../cage/cage';
import type { View } from '../drawing/view';
import type { Shape } from '../geometry/shape';
import { MESH_LOOKS } from './looks';
import { meshesOf } from './meshes';
import { pictureOf } from './picture';

/** A picture is at most so many points wide and high. */
const MOST = { width: 1600, height: 1600 };
/** Written into the file, so that it may be written over: a text chunk with this keyword. */
const KEYWORD = 'Software';

/** The bytes of the file; null: there is nothing to draw. `maker`: `Cagewright 1.2.0`. */
export function pngFile(cage: Cage, shape: Shape, view: View, maker: string): Uint8Array | null {
  const things = meshesOf(cage, shape).flatMap(({ kind, made }) => {
    const { colour, outlineOnly } = MESH_LOOKS[kind];
    const found = made();
    return found === null ? [] : [{ mesh: found.mesh, colour, outlineOnly }];
  });
  const picture = pictureOf(things, view, MOST);
  if (picture === null) return null;
  return encode({ ...picture, channels: 3, depth: 8, text: { [KEYWORD]: maker } });
}
