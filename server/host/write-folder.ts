/**
 * A folder of papers, written so that an interrupted run leaves no half file: all of them go into a temporary folder first.
 * A folder that holds nothing but papers of an earlier run is exchanged as a whole; into any other only whole files are
 * moved, the front page last.
 */
import { rmSync, writeFileSync } from 'node:fs';
import { lstat, mkdir, realpath, rm, stat } from 'node:fs/promises';
import { basename, dirname, join, posix, sep } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { isInside } from './node';
import { exchange, headOf, moveInto, onlyOurs, oursIn, sweep, TEMPORARY } from './swap-folder';
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
  /**
   * Lies in the place of the last file while the others are moved one by one into a folder that is not exchanged as a
   * whole: a run that is killed there leaves words, not a gap. Missing: nothing lies there then.
   */
  readonly unfinished?: string;
}

export type FolderAnswer =
  | { readonly kind: 'written'; /** Papers of an earlier run that are no more. */ readonly removed: number }
  /** Nothing has been changed unless the disk itself failed. */
  | { readonly kind: 'refused'; readonly why: string };

const frontOf = ({ files }: FolderJob): string | null => files.at(-1)?.path ?? null;

const refused = (why: string): FolderAnswer => ({ kind: 'refused', why });

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
  return found.isFile() && mine(headOf(full)) ? null : `${path}: ${NOT_OURS}`;
}

/** Beside the folder; in it where that is another disk or may not be written. */
async function stageFor(target: string, job: FolderJob): Promise<string> {
  const ending = `${TEMPORARY}${String(process.pid)}.tmp`;
  const place = dirname(target);
  const found = await quiet(stat(target), null);
  if (found !== null) sweep(target, '', job.mine, frontOf(job));
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

/** So many files are written before whoever waits (a signal, the editor) has a turn. */
const AT_ONCE = 16;

async function fill(stage: string, files: readonly FolderFile[]): Promise<void> {
  for (const folder of new Set(files.map(({ path }) => dirname(path)))) {
    await mkdir(join(stage, folder), { recursive: true });
  }
  for (const [i, { path, content }] of files.entries()) {
    if (i % AT_ONCE === AT_ONCE - 1) await setImmediate();
    writeFileSync(join(stage, path), content, { flag: 'wx' });
  }
}

/** Runs `work` with a folder that is gone afterwards, also where the person breaks off. */
async function withStage<T>(target: string, job: FolderJob, work: (stage: string) => Promise<T>): Promise<T> {
  const stage = await stageFor(target, job);
  const stop = (signal: NodeJS.Signals): void => {
    release();
    try {
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

/** Puts the whole stage in the target's place, in one go if that can be; papers of an earlier run that went. */
function place(stage: string, target: string, job: FolderJob): number {
  const kept = new Set(job.files.map(({ path }) => path));
  const whole = onlyOurs(target, job.mine, frontOf(job));
  if (whole !== null && exchange(stage, target, whole)) return whole.filter((path) => !kept.has(path)).length;
  const old = oursIn(target, job.mine, frontOf(job)).filter((path) => !kept.has(path));
  moveInto(
    stage,
    target,
    job.files.map(({ path }) => path),
    old,
    job.unfinished ?? null,
  );
  return old.length;
}

/** Writes all files, or says why none was. Throws nothing. */
export async function writeFolder(job: FolderJob): Promise<FolderAnswer> {
  const { folder, files } = job;
  const odd = files.find(({ path }) => !isPlain(path));
  if (odd !== undefined) return refused(`${odd.path}: that is no file name`);
  try {
    const target = await quiet(realpath(folder), folder.endsWith(sep) ? folder.slice(0, -1) : folder);
    sweep(dirname(target), basename(target), job.mine, frontOf(job));
    const found = await quiet(stat(target), null);
    if (found !== null && !found.isDirectory()) return refused('it is no folder');
    const obstacles: string[] = [];
    if (found !== null)
      for (const file of files) obstacles.push(...[await obstacle(target, file, job)].flatMap((why) => why ?? []));
    const [first] = obstacles;
    if (first !== undefined)
      return refused(obstacles.length === 1 ? first : `${first} (and ${String(obstacles.length - 1)} more)`);
    if (found === null) await mkdir(dirname(target), { recursive: true });
    return await withStage(target, job, async (stage): Promise<FolderAnswer> => {
      await fill(stage, files);
      return { kind: 'written', removed: place(stage, target, job) };
    });
  } catch (error) {
    return refused(reason(error));
  }
}
