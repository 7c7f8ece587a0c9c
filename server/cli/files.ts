/** From a FILE argument to a judged text: which folder is the workspace, what the file is called in it. */
import { dirname, relative, resolve, sep } from 'node:path';
import type { NodeHost } from '../host/node';
import { isInside } from '../host/node';
import type { Io } from './io';

export interface Opened {
  readonly kind: 'opened';
  /** As written by the user. */
  readonly argument: string;
  /** Workspace-relative, with `/`. */
  readonly key: string;
  readonly text: string;
  readonly host: NodeHost;
  /** Real path on the disk; null for standard input. */
  readonly path: string | null;
}

export interface NotOpened {
  readonly kind: 'problem';
  /** One line. */
  readonly message: string;
}

/** What standard input is called without `--name`. */
const STDIN_NAME = 'stdin.cage';

const problem = (argument: string, why: string): NotOpened => ({ kind: 'problem', message: `${argument}: ${why}` });

/**
 * The workspace: `--root`, else the current folder if it holds the file, else the file's own folder. All real paths.
 * Null: there is no such folder.
 */
async function rootOf(io: Io, root: string | null, file: string): Promise<string | null> {
  if (root !== null) {
    const real = await io.realPath(resolve(io.cwd, root));
    return real !== null && (await io.isFolder(real)) ? real : null;
  }
  const here = (await io.realPath(io.cwd)) ?? io.cwd;
  return isInside(here, file) ? here : dirname(file);
}

/** The real path of a file that need not be there: standard input may be called anything. */
async function realFile(io: Io, path: string): Promise<string> {
  const real = await io.realPath(path);
  if (real !== null) return real;
  const folder = await io.realPath(dirname(path));
  return folder === null ? path : resolve(folder, relative(dirname(path), path));
}

/** Opens one FILE argument; `-` is standard input, whose text is handed in. */
async function openFile(
  io: Io,
  argument: string,
  options: { readonly root: string | null; readonly name: string | null },
  stdin: string | null,
): Promise<Opened | NotOpened> {
  if (argument === '') return problem("''", 'that is no file name');
  const written = stdin === null ? argument : (options.name ?? STDIN_NAME);
  if (written.includes('\0')) return problem(written, 'that is no file name');
  const path = await realFile(io, resolve(io.cwd, written));
  const root = await rootOf(io, options.root, path);
  if (root === null) return problem(`--root ${options.root ?? ''}`, 'there is no such folder');
  if (!isInside(root, path)) return problem(argument, `it lies outside the workspace ${options.root ?? root}`);
  const key = relative(root, path).split(sep).join('/');
  const host = io.hostOf(root, (asked) => (stdin !== null && asked === path ? stdin : null));
  if (stdin !== null) {
    return key === ''
      ? problem(argument, 'its name is that of a folder')
      : { kind: 'opened', argument, key, text: stdin, host, path: null };
  }
  const found = await host.read('', key);
  switch (found.kind) {
    case 'file':
      return { kind: 'opened', argument, key: found.file, text: found.text, host, path };
    case 'missing':
      return problem(argument, 'there is no such file');
    case 'outside':
      return problem(argument, 'it lies outside the workspace');
    case 'unreadable':
      return problem(argument, found.why);
  }
}

/** Opens all FILE arguments in their order; each is one or the other. Standard input is read once. */
export async function openFiles(
  io: Io,
  files: readonly string[],
  options: { readonly root: string | null; readonly name: string | null },
): Promise<readonly (Opened | NotOpened)[]> {
  const results: (Opened | NotOpened)[] = [];
  let stdin: string | { readonly why: string } | undefined;
  for (const file of files) {
    if (file !== '-') {
      results.push(await openFile(io, file, options, null));
      continue;
    }
    if (stdin === undefined) stdin = await io.readStdin();
    results.push(typeof stdin === 'string' ? await openFile(io, file, options, stdin) : problem(file, stdin.why));
  }
  return results;
}
