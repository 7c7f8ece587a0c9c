/** Numbers out of the text that they travel as: base64 of what lay in memory, little-endian. */
import type { WireMesh } from '../../server/view/model';

/** Engines that know it decode base64 by themselves. */
type Decoder = (text: string) => Uint8Array;
const own = (Uint8Array as unknown as { readonly fromBase64?: Decoder }).fromBase64;

function bytesOf(text: string): Uint8Array {
  if (own) return own.call(Uint8Array, text);
  const binary = atob(text);
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < binary.length; i++) bytes[i] = binary.charCodeAt(i);
  return bytes;
}

/** Whole numbers of so many bytes each; none where the text is no base64. */
function memoryOf(text: string, size: number): ArrayBuffer {
  try {
    const bytes = bytesOf(text);
    const whole = bytes.length - (bytes.length % size);
    return bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + whole) as ArrayBuffer;
  } catch {
    return new ArrayBuffer(0);
  }
}

/** 32-bit floats; none where the text is no base64. */
export const floats = (text: string): Float32Array => new Float32Array(memoryOf(text, 4));

const shorts = (text: string): Uint16Array => new Uint16Array(memoryOf(text, 2));

/** The most that 16 bits hold. */
const SHORT = 0xffff;

/** A surface as three takes it. */
export interface Surface {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly indices: Uint16Array | Uint32Array;
  /** x, y, z of both ends of each line. */
  readonly lines: Float32Array;
}

function places(steps: Uint16Array, { from, step }: WireMesh): Float32Array {
  const all = new Float32Array(steps.length);
  for (let i = 0; i + 2 < steps.length; i += 3) {
    all[i] = from[0] + (steps[i] ?? 0) * step[0];
    all[i + 1] = from[1] + (steps[i + 1] ?? 0) * step[1];
    all[i + 2] = from[2] + (steps[i + 2] ?? 0) * step[2];
  }
  return all;
}

/** Strokes as lines from point to point; points beyond the strokes are left out. */
function segments(points: Float32Array, strokes: Uint16Array): Float32Array {
  const all: number[] = [];
  let at = 0;
  for (const count of strokes) {
    for (let i = 1; i < count && 3 * (at + i + 1) <= points.length; i++)
      for (let k = -3; k < 3; k++) all.push(points[3 * (at + i) + k] ?? NaN);
    at += count;
  }
  return Float32Array.from(all);
}

/** What does not fit together is left for the caller to see. */
export function surfaceOf(mesh: WireMesh): Surface {
  const positions = places(shorts(mesh.positions), mesh);
  const short = new Int8Array(memoryOf(mesh.normals, 1));
  const normals = new Float32Array(short.length);
  for (let i = 0; i < short.length; i++) normals[i] = (short[i] ?? 0) / 127;
  return {
    positions,
    normals,
    indices: positions.length / 3 > SHORT ? new Uint32Array(memoryOf(mesh.indices, 4)) : shorts(mesh.indices),
    lines: segments(places(shorts(mesh.lines), mesh), shorts(mesh.strokes)),
  };
}
