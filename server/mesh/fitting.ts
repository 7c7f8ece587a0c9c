/**
 * Removable joints. Of one the file tells how far its bolt stands from the axis of the host, and how thick it is, but not
 * which way it goes through the tube: so it is a band round the tube, as wide as the bolt, where the bolt is. Millimetres.
 */
import type { Fitting } from '../cage/cage';
import { outerRadius } from '../geometry/axis';
import type { Part } from '../geometry/shape';
import { partsOf, stationFrom } from '../geometry/stretch';
import type { Mesh } from './mesh';
import type { Fineness } from './pipe';
import { sleeveMesh } from './tube';

/** The band stands clear of its tube, and is drawn so thick: no fact says it, mm. */
const CLEAR = 0.2;
const THICK = 2;

/** The part that has the end at which the fitting sits. */
export const fittedPart = ({ tube, end }: Fitting, parts: ReadonlyMap<string, Part>): Part | null => {
  const own = tube === null ? [] : partsOf(parts, tube);
  return (end === 'last' ? own[own.length - 1] : own[0]) ?? null;
};

/** Null where its end, its stand-off or its bolt is not known, or the bolt would stand past the tube. */
export function fittingMesh(fitting: Fitting, part: Part | null, fineness: Fineness): Mesh | null {
  const { end, standOff, bolt } = fitting;
  const line = part?.centreline ?? null;
  if (part === null || line === null || end === null || standOff === null || bolt === null) return null;
  const radius = outerRadius(part);
  const station = stationFrom(part, end, null, standOff);
  if (!(radius > 0) || !(bolt.diameter > 0) || station === null || station < 0 || station > line.length) return null;
  const half = bolt.diameter / 2;
  return sleeveMesh(line, station - half, station + half, radius + CLEAR, radius + CLEAR + THICK, fineness);
}
