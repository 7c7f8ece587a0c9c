/** Files that the tool writes beside a car: whole or not at all, and never over what somebody else has made. */
import { readFile, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';

const codeOf = (error: unknown): string =>
  typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';

const isThere = (error: unknown): boolean => codeOf(error) === 'EEXIST';

/** Why a file could not be written, in words. */
export const reason = (error: unknown): string => {
  const code = codeOf(error);
  if (code === 'EACCES' || code === 'EPERM') return 'it may not be written';
  if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'EEXIST') return 'there is no such folder';
  if (code === 'ENAMETOOLONG') return 'its name is too long';
  if (code === 'ENOSPC') return 'the disk is full';
  if (code === 'EROFS') return 'the disk is read-only';
  return 'it cannot be written';
};

export const quiet = async <T>(promise: Promise<T>, otherwise: T): Promise<T> => {
  try {
    return await promise;
  } catch {
    return otherwise;
  }
};

export const NOT_OURS = 'it is there already and was not made by cagewright: --force writes over it';

/**
 * Writes a file whole or not at all. One that is there already is written over only where `may` says so of its text, or
 * with `force`. Null: done, else why not.
 */
export async function writeWhole(
  path: string,
  text: string | Uint8Array,
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
    if (found !== null && !force && !may(await readFile(target, 'utf8'))) return NOT_OURS;
    await writeFile(temporary, text, { flag: 'wx', ...(found === null ? {} : { mode: found.mode }) });
  } catch (error) {
    // What is there already under that name is somebody else's; half a file of our own goes.
    if (!isThere(error)) await quiet(rm(temporary, { force: true }), undefined);
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
