/** A folder on the disk for the command line to work in. */
import { mkdtemp, mkdir, realpath, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { nodeIo } from '../../server/cli/node-io';
import type { Result } from '../../server/cli/io';
import { run } from '../../server/cli/run';

export interface World {
  /** The folder that the program stands in. */
  readonly cwd: string;
  readonly path: (name: string) => string;
  readonly put: (name: string, content: string | Uint8Array) => Promise<void>;
  /** Runs the program with these arguments, and standard input. */
  readonly run: (argv: readonly string[], stdin?: string | Uint8Array) => Promise<Result>;
  readonly remove: () => Promise<void>;
}

export async function world(files: Readonly<Record<string, string | Uint8Array>> = {}): Promise<World> {
  const cwd = await realpath(await mkdtemp(join(tmpdir(), 'cage-')));
  const path = (name: string): string => join(cwd, name);
  const put = async (name: string, content: string | Uint8Array): Promise<void> => {
    await mkdir(dirname(path(name)), { recursive: true });
    await writeFile(path(name), content);
  };
  for (const [name, content] of Object.entries(files)) await put(name, content);
  return {
    cwd,
    path,
    put,
    run: (argv, stdin = '') => {
      const bytes = typeof stdin === 'string' ? new TextEncoder().encode(stdin) : stdin;
      const given = {
        async *[Symbol.asyncIterator]() {
          yield await Promise.resolve(bytes);
        },
      };
      return run(argv, nodeIo({ cwd, stdin: given, version: '1.2.3', serve: () => Promise.resolve() }));
    },
    remove: () => rm(cwd, { recursive: true, force: true }),
  };
}

/** Two open posts and a rail between them, vented: nothing is wrong with it. */
export const GOOD = `cage "Two posts and a rail"
section post { od 45; wall 2.5 }
section rail { od 38; wall 2.5 }
node a = (0, 300, 0)
node b = (0, 300, 900)
node c = (0, -300, 0)
node d = (0, -300, 900)
node e = (0, 300, 500)
node f = (0, -300, 500)
tube left-post { section post; path a, b; first open; last open }
tube right-post { section post; path c, d; first open; last open }
tube rail as transverse { section rail; path e, f }
vent rail -> left-post { at e; dia 5 }
`;

/** The same without its vent: one warning. */
export const UNVENTED = GOOD.replace(/^vent .*\n/m, '');

/** The same with a section that nobody named: an error. */
export const BROKEN = GOOD.replace('section rail; path', 'section rale; path');
