/**
 * A folder of papers, written so that an interrupted run leaves no half file: all of them go into a temporary folder first,
 * and only whole files are moved to their places, the front page last.
 */
import { rmSync } from 'node:fs';
import { lstat, mkdir, open, readdir, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join, posix, sep } from 'node:path';
import { isInside } from './node';
import { NOT_OURS, quiet, reason } from './write';

export interface FolderFile {
  /** Below the folder, with `/`. */
  readonly path: string;
  readonly content: string | Uint8Array;
}

export interface FolderJob {
  /** Absolute. It is made where it is missing. */
  readonly folder: string;
  /** The last one is moved last, and its old copy is removed first: where it stands, all the others do. */
  readonly files: readonly FolderFile[];
  /** Looks at a file's beginning, as Latin-1: true where it was made by an earlier run. */
  readonly mine: (head: string) => boolean;
  /** Writes over files of others. */
  readonly force: boolean;
}

export type FolderAnswer =
  | { readonly kind: 'written'; /** Papers of an earlier run that are no more. */ readonly removed: number }
  /** Nothing has been changed unless the disk itself failed. */
  | { readonly kind: 'refused'; readonly why: string };

const refused = (why: string): FolderAnswer => ({ kind: 'refused', why });

/** So many bytes tell whose a file is. */
const HEAD = 1024;
/** Where looking for papers of an earlier run ends: somebody may write into a folder of many things. */
const MOST_LOOKED_AT = 5000;

async function headOf(path: string): Promise<string> {
  const file = await open(path, 'r');
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(HEAD), 0, HEAD, 0);
    return buffer.toString('latin1', 0, bytesRead);
  } finally {
    await file.close();
  }
}

const isPlain = (path: string): boolean =>
  path !== '' &&
  posix.normalize(path) === path &&
  !path.startsWith('/') &&
  !path.startsWith('..') &&
  !/[\\\0]/.test(path);

/** Why a file cannot take its place in the folder; null: it can. */
async function obstacle(target: string, { path }: FolderFile, { mine, force }: FolderJob): Promise<string | null> {
  const full = join(target, path);
  const parent = await quiet(realpath(dirname(full)), null);
  if (parent !== null && !isInside(target, parent)) return `${path}: a link leads out of the folder`;
  const found = await quiet(lstat(full), null);
  if (found === null) return null;
  if (found.isDirectory()) return `${path}: it is a folder`;
  if (!found.isFile() && !found.isSymbolicLink()) return `${path}: it is no ordinary file`;
  if (force) return null;
  const ours = found.isFile() && mine(await quiet(headOf(full), ''));
  return ours ? null : `${path}: ${NOT_OURS}`;
}

/** What an earlier run wrote, here and one folder down, and this one does not. */
async function leftOver(target: string, job: FolderJob): Promise<readonly string[]> {
  const kept = new Set(job.files.map(({ path }) => path));
  const old: string[] = [];
  let looked = 0;
  const look = async (below: string, deeper: boolean): Promise<void> => {
    for (const entry of await quiet(readdir(join(target, below), { withFileTypes: true }), [])) {
      const path = posix.join(below, entry.name);
      if (++looked > MOST_LOOKED_AT) return;
      if (entry.isDirectory() && deeper) await look(path, false);
      if (!entry.isFile() || kept.has(path) || !/\.(html|pdf|svg|dxf|md|csv|txt|json)$/.test(path)) continue;
      if (job.mine(await quiet(headOf(join(target, path)), ''))) old.push(path);
    }
  };
  await look('', true);
  return old;
}

const isRunning = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return typeof error === 'object' && error !== null && 'code' in error && error.code === 'EPERM';
  }
};

/** Temporary folders of runs that were killed. */
async function sweep(place: string, name: string): Promise<void> {
  for (const entry of await quiet(readdir(place), [])) {
    const pid = entry.startsWith(`${name}.cagewright-`) ? /\.cagewright-(\d+)\.tmp$/.exec(entry)?.[1] : undefined;
    if (pid !== undefined && !isRunning(Number(pid)))
      await quiet(rm(join(place, entry), { recursive: true, force: true }), undefined);
  }
}

/** Beside the folder; in it where that is another disk or may not be written. */
async function stageFor(target: string): Promise<string> {
  const ending = `.cagewright-${String(process.pid)}.tmp`;
  const place = dirname(target);
  const found = await quiet(stat(target), null);
  await sweep(place, basename(target));
  if (found !== null) await sweep(target, '');
  if (found === null || (await stat(place)).dev === found.dev) {
    const beside = join(place, `${basename(target)}${ending}`);
    try {
      await mkdir(beside);
      return beside;
    } catch (error) {
      if (found === null) throw error;
    }
  }
  const inside = join(target, ending);
  await mkdir(inside);
  return inside;
}

async function fill(stage: string, files: readonly FolderFile[]): Promise<void> {
  for (const { path, content } of files) {
    await mkdir(join(stage, dirname(path)), { recursive: true });
    await writeFile(join(stage, path), content, { flag: 'wx' });
  }
}

async function move(stage: string, target: string, job: FolderJob): Promise<number> {
  const old = await leftOver(target, job);
  const front = job.files.at(-1);
  if (front !== undefined) await rm(join(target, front.path), { force: true });
  for (const path of old) await rm(join(target, path), { force: true });
  for (const { path } of job.files) {
    await mkdir(dirname(join(target, path)), { recursive: true });
    await rename(join(stage, path), join(target, path));
  }
  return old.length;
}

/** Runs `work` with a folder that is gone afterwards, also where the person breaks off. */
async function withStage<T>(target: string, work: (stage: string) => Promise<T>): Promise<T> {
  const stage = await stageFor(target);
  const stop = (signal: NodeJS.Signals): void => {
    release();
    try {
      // A file that is being written may come in between.
      rmSync(stage, { recursive: true, force: true, maxRetries: 5, retryDelay: 10 });
    } catch {
      // The next run sweeps it up.
    }
    process.kill(process.pid, signal);
  };
  const release = (): void => {
    process.off('SIGINT', stop).off('SIGTERM', stop).off('SIGHUP', stop);
  };
  process.on('SIGINT', stop).on('SIGTERM', stop).on('SIGHUP', stop);
  try {
    return await work(stage);
  } finally {
    release();
    await quiet(rm(stage, { recursive: true, force: true }), undefined);
  }
}

/** Writes all files, or says why none was. Throws nothing. */
export async function writeFolder(job: FolderJob): Promise<FolderAnswer> {
  const { folder, files } = job;
  const odd = files.find(({ path }) => !isPlain(path));
  if (odd !== undefined) return refused(`${odd.path}: that is no file name`);
  try {
    const target = await quiet(realpath(folder), folder.endsWith(sep) ? folder.slice(0, -1) : folder);
    const found = await quiet(stat(target), null);
    if (found !== null && !found.isDirectory()) return refused('it is no folder');
    const obstacles: string[] = [];
    if (found !== null)
      for (const file of files) obstacles.push(...[await obstacle(target, file, job)].flatMap((why) => why ?? []));
    const [first] = obstacles;
    if (first !== undefined)
      return refused(obstacles.length === 1 ? first : `${first} (and ${String(obstacles.length - 1)} more)`);
    if (found === null) await mkdir(dirname(target), { recursive: true });
    return await withStage(target, async (stage): Promise<FolderAnswer> => {
      await fill(stage, files);
      if (found === null) await rename(stage, target);
      return { kind: 'written', removed: found === null ? 0 : await move(stage, target, job) };
    });
  } catch (error) {
    return refused(reason(error));
  }
}
