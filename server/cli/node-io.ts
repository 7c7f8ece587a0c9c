/** The world of the command line under Node. */
import { createHash } from 'node:crypto';
import { readFile, realpath, stat } from 'node:fs/promises';
import { decodeText, LARGEST_FILE, nodeHost } from '../host/node';
import { quiet, reason, writeWhole } from '../host/write';
import { writeFolder } from '../host/write-folder';
import type { Io } from './io';

/** All bytes of a stream as text, or why not: it is larger than any file that is read, or breaks. */
async function textOf(stream: AsyncIterable<unknown>): Promise<string | { readonly why: string }> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  try {
    for await (const chunk of stream) {
      if (!(chunk instanceof Uint8Array)) continue;
      size += chunk.length;
      if (size > LARGEST_FILE) return { why: 'there is too much of it' };
      chunks.push(chunk);
    }
  } catch {
    return { why: 'it cannot be read' };
  }
  return decodeText(Buffer.concat(chunks));
}

const MARK = Buffer.from([0xef, 0xbb, 0xbf]);

async function replaceText(path: string, before: string, after: string): Promise<string | null> {
  try {
    const bytes = await readFile(path);
    const marked = bytes.subarray(0, MARK.length).equals(MARK);
    const body = marked ? bytes.subarray(MARK.length) : bytes;
    if (!body.equals(Buffer.from(before, 'utf8'))) return 'it is not wholly UTF-8 text, so it stays as it is';
    // Whole or not at all: on a full disk the car must not end in the middle of a line.
    return await writeWhole(path, marked ? Buffer.concat([MARK, Buffer.from(after, 'utf8')]) : after, () => true, true);
  } catch (error) {
    return reason(error);
  }
}

export interface NodeWorld {
  readonly cwd: string;
  readonly stdin: AsyncIterable<unknown>;
  readonly version: string;
  readonly serve: () => Promise<void>;
  /** How far it is; nothing where nobody looks. */
  readonly progress?: (line: string) => void;
}

/** Files of the disk, read with the host's own care. */
export const nodeIo = ({ cwd, stdin, version, serve, progress = () => undefined }: NodeWorld): Io => ({
  cwd,
  version,
  serve,
  realPath: (path) => quiet<string | null>(realpath(path), null),
  isFolder: (path) =>
    quiet(
      stat(path).then((found) => found.isDirectory()),
      false,
    ),
  hostOf: (root, overlay) => nodeHost({ root, overlay }),
  readStdin: () => textOf(stdin),
  replaceText,
  writeWhole,
  writeFolder,
  progress,
  sha256: (text) => createHash('sha256').update(text, 'utf8').digest('hex'),
});
