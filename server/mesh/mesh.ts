/** A closed surface of triangles, millimetres in the car's frame. */
export interface Mesh {
  /** x, y, z of each corner; where an edge is sharp its corners stand twice. */
  readonly positions: Float32Array;
  /** Unit normal of each corner, outward. */
  readonly normals: Float32Array;
  /** Three a triangle, counter-clockwise seen from outside. */
  readonly indices: Uint32Array;
  /** x, y, z of both ends of each line that is drawn on it. */
  readonly lines: Float32Array;
}
