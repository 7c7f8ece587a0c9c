/**
 * The car for other programs: as a picture of points, and as glTF. Import the makers of both only from here: they bring
 * libraries, which are loaded when somebody asks.
 */
import { viewNamed, type DrawnView } from '../drawing/view';
import type { Analysis } from './project';

type OfCar = Pick<Analysis, 'cage' | 'shape'>;

/** A PNG file of one view; null: there is nothing to draw. `maker`: `Cagewright 1.2.0`. */
export async function viewPng({ cage, shape }: OfCar, view: DrawnView, maker: string): Promise<Uint8Array | null> {
  const { pngFile } = await import('../mesh/png');
  return pngFile(cage, shape, viewNamed(view), maker);
}

/** A binary glTF 2.0 file of the whole car; null: there is nothing to draw. */
export async function carGlb({ cage, shape }: OfCar, maker: string): Promise<Uint8Array | null> {
  const { glbFile } = await import('../mesh/gltf');
  return glbFile(cage, shape, maker);
}

/** Who made a file, as both formats carry it. */
const MADE_BY = 'Cagewright ';

/** True for what the tool has made, whose bytes were read as text: it may be written again. */
export const isOwnPicture = (text: string): boolean =>
  text.startsWith('glTF') ? text.includes(`"generator":"${MADE_BY}`) : text.includes(`Software\0${MADE_BY}`);
