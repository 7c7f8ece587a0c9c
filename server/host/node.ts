/**
 * Files for `use` from a disk, for the command line and for the editor's language server. Nothing outside the workspace is ever
 * read: the path as written is tested first, without touching the disk, and then the real path, so that no link leads out.
 */
import { constants } from 'node:fs';
import { lstat, open, readdir, readlink, realpath, stat } from 'node:fs/promises';
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import type { Host, HostFile } from '../project/project';

/** Larger files are no roll bars. 30,000 lines are about 1 MB. */
export const LARGEST_FILE = 16 * 1024 * 1024;

/** Where a list of files ends: nobody reads on, and a whole disk may be opened as a folder. */
const MOST_LISTED = 500;
const MOST_FOLDERS = 2000;

export interface NodeHostOptions {
  /** Absolute path of the workspace folder. */
  readonly root: string;
  /** The text of a file that an editor holds unsaved (or that comes from standard input); null: take the disk's. */
  readonly overlay?: (absolutePath: string) => string | null;
}

export interface NodeHost extends Host {
  /** Keys of the cage files in the folder, sorted; no more than a person would look through, links not followed. */
  list(): Promise<readonly string[]>;
  /** Key of an absolute path: relative to the root, with `/`; null outside the root (tested as written). */
  keyOf(absolutePath: string): string | null;
  /** Absolute path of a key. */
  pathOf(key: string): string;
}

/** Below `root`, or `root` itself; both absolute. */
export const isInside = (root: string, path: string): boolean => {
  const way = relative(root, path);
  return way === '' || (way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way));
};

/**
 * Text of bytes: UTF-8, a byte order mark left out. A byte that is no UTF-8 becomes U+FFFD, a character that has no place in a
 * cage file, so that it is found where it stands.
 */
export const decodeText = (bytes: Uint8Array): string => new TextDecoder('utf-8').decode(bytes);

const codeOf = (error: unknown): string =>
  typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';

/** The real path of a file that need not exist: the nearest existing folder's, with the rest; follows dangling links. */
const realTarget = async (path: string, depth = 0): Promise<string | null> => {
  if (depth > 40) return null;
  try {
    return await realpath(path);
  } catch (error) {
    if (codeOf(error) === 'ELOOP') return null;
  }
  try {
    if ((await lstat(path)).isSymbolicLink()) {
      return await realTarget(resolve(dirname(path), await readlink(path)), depth + 1);
    }
  } catch {
    // Not there, or not to be looked at: its folder decides.
  }
  const above = dirname(path);
  if (above === path) return path;
  const real = await realTarget(above, depth + 1);
  return real === null ? null : join(real, relative(above, path));
};

const reasonOf = (error: unknown): string => {
  switch (codeOf(error)) {
    case 'EACCES':
    case 'EPERM':
      return 'permission was refused';
    case 'EISDIR':
      return 'it is a folder';
    default:
      return 'the disk gave no text';
  }
};

const readReal = async (path: string, file: string): Promise<HostFile> => {
  try {
    const before = await stat(path);
    if (before.isDirectory()) return { kind: 'unreadable', file, why: 'it is a folder' };
    // A pipe or a device could block for ever or never end.
    if (!before.isFile()) return { kind: 'unreadable', file, why: 'it is no ordinary file' };
    if (before.size > LARGEST_FILE) {
      return { kind: 'unreadable', file, why: `it is larger than ${String(LARGEST_FILE / 1024 / 1024)} MB` };
    }
    // The path was resolved and tested: if it has become a link since, it is not followed.
    const handle = await open(path, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0));
    try {
      return { kind: 'file', file, text: decodeText(await handle.readFile()) };
    } finally {
      await handle.close();
    }
  } catch (error) {
    const code = codeOf(error);
    if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'ELOOP') return { kind: 'missing', file };
    return { kind: 'unreadable', file, why: reasonOf(error) };
  }
};

/** A host over a folder of the disk. */
export const nodeHost = ({ root, overlay }: NodeHostOptions): NodeHost => {
  const base = resolve(root);
  const keyOf = (path: string): string | null =>
    isInside(base, path) ? relative(base, path).split(sep).join('/') : null;
  const pathOf = (key: string): string => resolve(base, ...key.split('/'));

  const read = async (from: string, path: string): Promise<HostFile> => {
    // On every system `/` parts folders; elsewhere than on Windows a backslash is a letter like any other.
    if (path.includes('\0')) return { kind: 'missing', file: path };
    if (isAbsolute(path)) return { kind: 'outside' };
    const wanted = resolve(from === '' ? base : dirname(pathOf(from)), path);
    const written = keyOf(wanted);
    if (written === null) return { kind: 'outside' };
    if (written === '') return { kind: 'unreadable', file: path, why: 'it is a folder' };
    const [realRoot, real] = await Promise.all([realTarget(base), realTarget(wanted)]);
    if (real === null || realRoot === null) return { kind: 'missing', file: written };
    if (!isInside(realRoot, real)) return { kind: 'outside' };
    // A file reached by two ways is one file: its key is where it really lies.
    const file = relative(realRoot, real).split(sep).join('/');
    const held = overlay?.(wanted) ?? (real === wanted ? null : overlay?.(real)) ?? null;
    if (held !== null) return { kind: 'file', file, text: held };
    return readReal(real, file);
  };

  const list = async (): Promise<readonly string[]> => {
    const found: string[] = [];
    const folders = [base];
    for (let looked = 0; looked < MOST_FOLDERS && found.length < MOST_LISTED; looked += 1) {
      const folder = folders.shift();
      if (folder === undefined) break;
      const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
      for (const entry of entries) {
        if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
        const path = join(folder, entry.name);
        const key = keyOf(path);
        if (entry.isDirectory()) folders.push(path);
        else if (entry.isFile() && entry.name.endsWith('.cage') && key !== null) found.push(key);
      }
    }
    return found.sort().slice(0, MOST_LISTED);
  };

  return { read, list, keyOf, pathOf };
};
