/**
 * Where files live: workspace folders on a disk, a lone file's own folder, folders of other file systems that only the
 * editor can read, and documents that have no place yet. Turns URIs into the project's keys and back.
 */
import { dirname, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { isInside, nodeHost } from '../host/node';
import type { Host, HostFile } from '../project/project';

/** Documents that the editor holds open, by URI in the spelling of {@link sameUri}. */
export interface OpenTexts {
  text(uri: string): string | null;
  /** The client's own spelling of a URI that it has open. */
  spelling(uri: string): string;
}

/** A folder whose files may use each other: a host, and the way between keys and URIs. */
export interface Space {
  readonly id: string;
  readonly host: Host;
  /** Keys of the cage files that lie in it, as far as they can be listed. */
  list(): Promise<readonly string[]>;
  /** Key of a URI; null outside. */
  keyOf(uri: string): string | null;
  uriOf(key: string): string;
}

/** Reads a file of a file system that only the editor knows; null where there is none. */
export type ReadByEditor = (uri: string) => Promise<string | null>;

/** Path of a `file:` URI; null for others. */
export const pathOfUri = (uri: string): string | null => {
  if (!uri.startsWith('file:')) return null;
  try {
    return resolve(fileURLToPath(uri));
  } catch {
    return null;
  }
};

/** One spelling for URIs that mean the same file: clients differ in what they escape. */
export const sameUri = (uri: string): string => {
  const path = pathOfUri(uri);
  return path === null ? uri : pathToFileURL(path.replace(/^([A-Z]):/, (drive) => drive.toLowerCase())).href;
};

/** Folder on a disk. */
const diskSpace = (path: string, open: OpenTexts): Space => {
  const host = nodeHost({ root: path, overlay: (file) => open.text(sameUri(pathToFileURL(file).href)) });
  return {
    id: path,
    host,
    list: () => host.list(),
    keyOf: (uri) => {
      const file = pathOfUri(uri);
      return file === null ? null : host.keyOf(file);
    },
    uriOf: (key) => open.spelling(sameUri(pathToFileURL(host.pathOf(key)).href)),
  };
};

const parsed = (uri: string, base?: string): URL | null => {
  try {
    return new URL(uri, base);
  } catch {
    return null;
  }
};

/** Folder of another file system (`vscode-vfs:` and the like): the editor reads for us. */
const virtualSpace = (root: string, open: OpenTexts, read: ReadByEditor): Space => {
  const base = root.endsWith('/') ? root : `${root}/`;
  const keyOf = (uri: string): string | null => {
    if (!uri.startsWith(base)) return null;
    try {
      return decodeURIComponent(uri.slice(base.length));
    } catch {
      return uri.slice(base.length);
    }
  };
  const uriOf = (key: string): string => open.spelling(base + key.split('/').map(encodeURIComponent).join('/'));
  const readFile = async (from: string, path: string): Promise<HostFile> => {
    if (path.startsWith('/')) return { kind: 'outside' };
    const target = parsed(path.split('/').map(encodeURIComponent).join('/'), from === '' ? base : uriOf(from));
    const file = target === null ? null : keyOf(target.href);
    if (target === null || file === null) return { kind: 'outside' };
    const text = open.text(target.href) ?? (await read(target.href));
    return text === null ? { kind: 'missing', file } : { kind: 'file', file, text };
  };
  // Nobody lists the files of another file system for us: those that are open must do.
  return { id: base, host: { read: readFile }, list: () => Promise.resolve([]), keyOf, uriOf };
};

/** A document without a place: it sees the files of `around` (the first folder), if there is one. */
const placelessSpace = (uri: string, around: Space | null): Space => ({
  id: uri,
  host: {
    read: (from, path) =>
      around === null
        ? Promise.resolve<HostFile>({ kind: 'missing', file: path })
        : around.host.read(from === uri ? '' : from, path),
  },
  list: () => around?.list() ?? Promise.resolve([]),
  keyOf: (other) => (other === uri ? uri : (around?.keyOf(other) ?? null)),
  uriOf: (key) => (key === uri || around === null ? uri : around.uriOf(key)),
});

/**
 * The space of a document: the longest workspace folder that holds it, else its own folder.
 * @param uri of the document, as the client spells it
 * @param folders URIs of the workspace folders
 */
export const spaceOf = (uri: string, folders: readonly string[], open: OpenTexts, read: ReadByEditor): Space => {
  const path = pathOfUri(uri);
  if (path !== null) {
    const holding = folders
      .map(pathOfUri)
      .filter((folder) => folder !== null)
      .filter((folder) => isInside(folder, path))
      .sort((a, b) => b.length - a.length)[0];
    return diskSpace(holding ?? dirname(path), open);
  }
  const holding = folders
    .filter((folder) => uri.startsWith(folder.endsWith('/') ? folder : `${folder}/`))
    .sort((a, b) => b.length - a.length)[0];
  if (holding !== undefined) return virtualSpace(holding, open, read);
  const first = folders[0];
  if (first === undefined) return placelessSpace(uri, null);
  const firstPath = pathOfUri(first);
  return placelessSpace(uri, firstPath === null ? virtualSpace(first, open, read) : diskSpace(firstPath, open));
};
