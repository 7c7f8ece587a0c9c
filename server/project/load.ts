/**
 * Follows `use` lines from the judged file and collects every file that it reaches. The only asynchronous step of the
 * project; it reads nothing itself, the host does.
 */
import type { FileTree } from '../../grammar/tree';
import { usedPaths } from '../cage/uses';
import type { Host, HostFile, Sources, UseTarget } from './project';

/** What the loader needs of the parser: a tree for a text, cached by whoever hands it in. */
export type Parse = (file: string, text: string) => FileTree;

/** A car and its parts are a handful of files; beyond this nothing more is read. */
const MOST_FILES = 1000;

const tooMany = (file: string): HostFile => ({
  kind: 'unreadable',
  file,
  why: `the car reaches ${String(MOST_FILES)} files already`,
});

/**
 * Loads the judged file and what it uses.
 * @param host where files come from
 * @param root key of the judged file
 * @param text its text (the editor's own, saved or not)
 * @param parse the (cached) parser, to find the `use` lines
 */
export async function loadSources(host: Host, root: string, text: string, parse: Parse): Promise<Sources> {
  const files = new Map<string, string>([[root, text]]);
  const uses = new Map<string, Map<string, UseTarget>>();
  const waiting = [root];
  for (let from = waiting.shift(); from !== undefined; from = waiting.shift()) {
    const targets = new Map<string, UseTarget>();
    uses.set(from, targets);
    for (const path of usedPaths(parse(from, files.get(from) ?? ''))) {
      if (targets.has(path)) continue;
      const found = files.size < MOST_FILES ? await host.read(from, path) : tooMany(path);
      if (found.kind === 'file') {
        targets.set(path, { kind: 'file', file: found.file });
        if (!files.has(found.file)) {
          files.set(found.file, found.text);
          waiting.push(found.file);
        }
      } else {
        targets.set(path, found);
      }
    }
  }
  return { root, files, uses };
}
