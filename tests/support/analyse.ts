/** A car in a string through the whole pipeline, with its other files in a map instead of on a disk. */
import type { PlacedFinding } from '../../grammar/finding';
import { Project } from '../../server/project/pipeline';
import type { Analysis, Host } from '../../server/project/project';

/** Paths are taken as they are written; one that leads out of the workspace is outside, `/` at its end is a folder. */
export const mapHost = (files: ReadonlyMap<string, string>): Host => ({
  read: (_from, path) => {
    if (path.startsWith('../') || path.startsWith('/')) return Promise.resolve({ kind: 'outside' });
    const text = files.get(path);
    if (text !== undefined) return Promise.resolve({ kind: 'file', file: path, text });
    if ([...files.keys()].some((key) => key.startsWith(`${path}/`)))
      return Promise.resolve({ kind: 'unreadable', file: path, why: 'it is a folder' });
    return Promise.resolve({ kind: 'missing', file: path });
  },
});

/** Analyses `text` as the file `name`. */
export const analyse = async (
  text: string,
  files: Readonly<Record<string, string>> = {},
  name = 'example.cage',
): Promise<Analysis> => {
  const all = new Map([...Object.entries(files), [name, text] as const]);
  const project = new Project();
  return project.analyse(await project.load(mapHost(all), name, text));
};

/** Findings as short lines, for messages of failed tests. */
export const told = (findings: readonly PlacedFinding[]): readonly string[] =>
  findings.map((f) => `${f.severity} ${f.code} ${f.subject}: ${f.message}`);
