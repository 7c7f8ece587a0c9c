/** The mirror image of a centreline, for tests that hold a car against its image. */
import type { Centreline, Piece } from '../../server/centreline/centreline';
import { mirrorY, scale, unit } from '../../server/centreline/vector';

/** The image of a centreline in the car's centre plane, y = 0; stations stay. */
export function mirrorCentreline(c: Centreline): Centreline {
  const pieces = c.pieces.map((piece): Piece => {
    if (piece.kind === 'leg') {
      return { ...piece, from: mirrorY(piece.from), to: mirrorY(piece.to), direction: mirrorY(piece.direction) };
    }
    // A reflection turns the sense of rotation round: fromCentre × tangent is the negative image of the axis.
    const axis = unit(scale(mirrorY(piece.axis), -1));
    return {
      ...piece,
      centre: mirrorY(piece.centre),
      fromCentre: mirrorY(piece.fromCentre),
      tangent: mirrorY(piece.tangent),
      axis,
    };
  });
  return { pieces, length: c.length, points: c.points.map(mirrorY) };
}
