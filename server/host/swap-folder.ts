/**
 * How a folder of whole files takes the place of an earlier one. The steps after each other wait for nothing, so that a
 * signal finds the folder before or after them, and each is one that the disk does whole: somebody who pulls the plug between
 * two finds whole files, and the front page only where all stand that it links.
 */
import {
  chmodSync,
  closeSync,
  existsSync,
  mkdirSync,
  openSync,
  readdirSync,
  readSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, posix } from 'node:path';
import { isInside } from './node';

type Mine = (head: string) => boolean;

/** What the names of temporary folders have in their middle: the folder's before it, the process and a kind behind it. */
export const TEMPORARY = '.cagewright-';
/** Such as papers have. */
const ENDINGS = /\.(html|pdf|svg|dxf|md|csv|txt|json)$/;
/** So many bytes tell whose a file is. */
const HEAD = 1024;
/** Where looking for papers of an earlier run ends: somebody may write into a folder of many things. */
const MOST_LOOKED_AT = 5000;
/** Folders below the folder that papers lie in. */
const DEEPEST = 2;

const tried = <T>(work: () => T, otherwise: T): T => {
  try {
    return work();
  } catch {
    return otherwise;
  }
};

/** A file's beginning, as Latin-1; empty where it cannot be read. */
export const headOf = (path: string): string =>
  tried(() => {
    const file = openSync(path, 'r');
    try {
      const bytes = Buffer.alloc(HEAD);
      return bytes.toString('latin1', 0, readSync(file, bytes, 0, HEAD, 0));
    } finally {
      closeSync(file);
    }
  }, '');

interface Found {
  /** Paths with `/` of files that an earlier run wrote. */
  readonly ours: readonly string[];
  /** True where something else was seen, or not everything could be. */
  readonly others: boolean;
}

/** `front`: the name of the page that lies in front; a folder below that has one of its own is another packet. */
function look(target: string, mine: Mine, front: string | null): Found {
  const ours: string[] = [];
  let others = false;
  let looked = 0;
  const into = (below: string, depth: number): void => {
    const entries = tried(() => readdirSync(join(target, below), { withFileTypes: true }), null);
    // A folder that somebody made and left empty is theirs.
    if (entries === null || (entries.length === 0 && depth > 0)) others = true;
    if (depth > 0 && front !== null && mine(headOf(join(target, below, front)))) {
      others = true;
      return;
    }
    for (const entry of entries ?? []) {
      const path = posix.join(below, entry.name);
      if (++looked > MOST_LOOKED_AT) {
        others = true;
        return;
      }
      if (entry.isDirectory() && depth < DEEPEST) into(path, depth + 1);
      else if (entry.isFile() && ENDINGS.test(path) && mine(headOf(join(target, path)))) ours.push(path);
      else others = true;
    }
  };
  into('', 0);
  return { ours, others };
}

/** What an earlier run wrote there. */
export const oursIn = (target: string, mine: Mine, front: string | null): readonly string[] =>
  look(target, mine, front).ours;

/** The same, where there is nothing else in the folder; null: there is. A folder that is missing has nothing. */
export function onlyOurs(target: string, mine: Mine, front: string | null): readonly string[] | null {
  if (!existsSync(target)) return [];
  const { ours, others } = look(target, mine, front);
  return others ? null : ours;
}

/** Removes files, and the folders that are empty then. */
function removeFiles(folder: string, paths: readonly string[]): void {
  for (const path of paths) rmSync(join(folder, path), { force: true });
  const below = new Set(paths.map((path) => dirname(path)).filter((path) => path !== '.'));
  for (const path of [...below].sort((a, b) => b.length - a.length))
    tried(() => rmdirSync(join(folder, path)), undefined);
}

/** Somebody works in it, or another one made in its place would be another person's or group's: then it stays. */
function isHeld(target: string, stage: string): boolean {
  const [there, here] = [statSync(target), statSync(stage)];
  return isInside(target, process.cwd()) || there.uid !== here.uid || there.gid !== here.gid;
}

/**
 * Puts the stage in the place of a folder that is missing, or holds nothing but `ours`. False where the disk does not let
 * folders be exchanged: then all is as before.
 */
export function exchange(stage: string, target: string, ours: readonly string[]): boolean {
  if (!existsSync(target)) {
    renameSync(stage, target);
    return true;
  }
  if (dirname(stage) !== dirname(target) || isHeld(target, stage)) return false;
  const old = `${target}${TEMPORARY}${String(process.pid)}.old`;
  const away = tried(() => {
    chmodSync(stage, statSync(target).mode);
    renameSync(target, old);
    return true;
  }, false);
  if (!away) return false;
  try {
    renameSync(stage, target);
  } catch {
    renameSync(old, target);
    return false;
  }
  bury(old, target, ours);
  return true;
}

/** Removes the papers of a folder that was exchanged; what somebody put there meanwhile goes to its place in the new one. */
function bury(old: string, target: string, ours: readonly string[]): void {
  const gone = new Set(ours);
  const settle = (path: string): void => {
    if (gone.has(path)) return rmSync(join(old, path));
    if (existsSync(join(target, path))) return;
    mkdirSync(dirname(join(target, path)), { recursive: true });
    renameSync(join(old, path), join(target, path));
  };
  const clear = (below: string): void => {
    for (const entry of readdirSync(join(old, below), { withFileTypes: true })) {
      const path = posix.join(below, entry.name);
      tried(() => (entry.isDirectory() ? clear(path) : settle(path)), undefined);
    }
    rmdirSync(join(old, below));
  };
  tried(() => clear(''), undefined);
}

/**
 * Moves whole files to their places among others, the last one last; `old` ones are removed. `unfinished`: what lies in the
 * place of the last one until then; null: nothing.
 */
export function moveInto(
  stage: string,
  target: string,
  paths: readonly string[],
  old: readonly string[],
  unfinished: string | null,
): void {
  const front = paths.at(-1);
  if (front !== undefined && unfinished !== null) {
    const words = join(stage, `${TEMPORARY}front`);
    writeFileSync(words, unfinished, { flag: 'wx' });
    renameSync(words, join(target, front));
  } else if (front !== undefined) rmSync(join(target, front), { force: true });
  removeFiles(target, old);
  for (const folder of new Set(paths.map((path) => dirname(path))))
    mkdirSync(join(target, folder), { recursive: true });
  for (const path of paths) renameSync(join(stage, path), join(target, path));
}

const isRunning = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return typeof error === 'object' && error !== null && 'code' in error && error.code === 'EPERM';
  }
};

/**
 * Clears up after runs that were killed: what they had not finished is removed; an old folder that was put away and not
 * replaced comes back to its place. `name`: the folder's in `place`; empty for what lies inside it.
 */
export function sweep(place: string, name: string, mine: Mine, front: string | null): void {
  for (const entry of tried(() => readdirSync(place), [])) {
    const match = entry.startsWith(`${name}${TEMPORARY}`) ? /\.cagewright-(\d+)\.(tmp|old)$/.exec(entry) : null;
    if (match === null || isRunning(Number(match[1]))) continue;
    const path = join(place, entry);
    tried(() => {
      if (match[2] === 'tmp') rmSync(path, { recursive: true, force: true });
      else if (existsSync(join(place, name))) bury(path, join(place, name), oursIn(path, mine, front));
      else renameSync(path, join(place, name));
    }, undefined);
  }
}
