/** Numbers out of the text that they travel as: base64 of little-endian 32-bit words. */

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

function wordsOf(text: string): ArrayBuffer {
  try {
    const bytes = bytesOf(text);
    const whole = bytes.length - (bytes.length % 4);
    return bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + whole) as ArrayBuffer;
  } catch {
    return new ArrayBuffer(0);
  }
}

/** 32-bit floats; none where the text is no base64. */
export function floats(text: string): Float32Array {
  return new Float32Array(wordsOf(text));
}

/** 32-bit counts; none where the text is no base64. */
export function counts(text: string): Uint32Array {
  return new Uint32Array(wordsOf(text));
}
