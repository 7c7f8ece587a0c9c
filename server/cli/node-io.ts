/** The world of the command line under Node. */
import { createHash } from 'node:crypto';
import { readFile, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { decodeText, LARGEST_FILE, nodeHost } from '../host/node';
import type { Io } from './io';

/** Why a file could not be written, in words. */
const reason = (error: unknown): string => {
  const code = typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';
  if (code === 'EACCES' || code === 'EPERM') return 'it may not be written';
  if (code === 'ENOENT' || code === 'ENOTDIR') return 'there is no such folder';
  if (code === 'ENAMETOOLONG') return 'its name is too long';
  if (code === 'ENOSPC') return 'the disk is full';
  if (code === 'EROFS') return 'the disk is read-only';
  return 'it cannot be written';
};

const quiet = async <T>(promise: Promise<T>, otherwise: T): Promise<T> => {
  try {
    return await promise;
  } catch {
    return otherwise;
  }
};

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
    await writeFile(path, marked ? Buffer.concat([MARK, Buffer.from(after, 'utf8')]) : after);
    return null;
  } catch (error) {
    return reason(error);
  }
}

async function writeWhole(
  path: string,
  text: string,
  may: (before: string) => boolean,
  force: boolean,
): Promise<string | null> {
  // Through a link: what it leads to is written, and the link stays.
  const target = await quiet(realpath(path), path);
  const found = await quiet(stat(target), null);
  if (found?.isDirectory() === true) return 'it is a folder';
  if (found !== null && !found.isFile()) return 'it is no ordinary file';
  const temporary = `${target}.${String(process.pid)}.tmp`;
  try {
    if (found !== null && !force && !may(await readFile(target, 'utf8')))
      return 'it is there already and was not made by cagewright: --force writes over it';
    await writeFile(temporary, text, { flag: 'wx', ...(found === null ? {} : { mode: found.mode }) });
  } catch (error) {
    return reason(error);
  }
  try {
    await rename(temporary, target);
    return null;
  } catch (error) {
    await quiet(rm(temporary), undefined);
    return reason(error);
  }
}

export interface NodeWorld {
  readonly cwd: string;
  readonly stdin: AsyncIterable<unknown>;
  readonly version: string;
  readonly serve: () => Promise<void>;
}

/** Files of the disk, read with the host's own care. */
export const nodeIo = ({ cwd, stdin, version, serve }: NodeWorld): Io => ({
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
  sha256: (text) => createHash('sha256').update(text, 'utf8').digest('hex'),
});
