/**
 * The one door to the compiler for the language server, the command line and the tests.
 * Loading files is asynchronous and belongs to the host; everything behind `analyse` is synchronous and pure.
 */
import type { PlacedFinding } from '../../grammar/finding';
import type { FileTree } from '../../grammar/tree';
import type { Cage, Waiver } from '../cage/cage';
import type { Shape } from '../geometry/shape';

/** Files, as the outside gives them: a disk, an editor's open buffers, a test's map. */
export interface Host {
  /**
   * The text behind a `use` path (relative to the file that names it), or why there is none.
   * `outside`: not below the workspace, also not through a link; then nothing has been read.
   * With `from` empty, `path` is a key: the judged file itself.
   */
  read(from: string, path: string): Promise<HostFile>;
}

export type HostFile =
  | { readonly kind: 'file'; readonly file: string; readonly text: string }
  | { readonly kind: 'missing'; readonly file: string }
  /** It is there, but no text can be had from it; `why` is a clause: `it is a folder`. */
  | { readonly kind: 'unreadable'; readonly file: string; readonly why: string }
  | { readonly kind: 'outside' };

/** How a `use` line was resolved. */
export type UseTarget =
  | { readonly kind: 'file' | 'missing'; readonly file: string }
  | { readonly kind: 'unreadable'; readonly file: string; readonly why: string }
  | { readonly kind: 'outside' };

/** The files that a judged file reaches, and how each `use` was resolved. */
export interface Sources {
  /** Key of the judged file. */
  readonly root: string;
  /** By key; the judged file first. */
  readonly files: ReadonlyMap<string, string>;
  /** For `from`, then the path as written: the key of the file, or why there is none. */
  readonly uses: ReadonlyMap<string, ReadonlyMap<string, UseTarget>>;
}

/** The stages, for texts that are tried out: what they keep is their own, and no analysis made elsewhere changes by it. */
export interface Apart {
  /** The cage alone, without its shape: quick. It holds until the next is built. */
  build(sources: Sources): Built;
  /** The cage and its whole shape, without any judgement: about half of an analysis. */
  shape(sources: Sources): Pick<Analysis, 'cage' | 'shape'>;
  analyse(sources: Sources): Analysis;
}

export interface Built {
  readonly trees: ReadonlyMap<string, FileTree>;
  readonly cage: Cage;
}

export interface Analysis {
  readonly root: string;
  /** What was analysed. */
  readonly sources: Sources;
  readonly trees: ReadonlyMap<string, FileTree>;
  readonly cage: Cage;
  readonly shape: Shape;
  /** Sorted: file, start, code, subject. Waived ones included, marked. */
  readonly findings: readonly PlacedFinding[];
  readonly waivers: readonly (Waiver & { readonly used: boolean })[];
  /** How often each stage really ran in this pass: `parse`, `evaluate`, `part`, `end`, `strap`, … */
  readonly runs: Readonly<Record<string, number>>;
  /** Stages of their own in which a changed text of this car can be tried, with what is kept of its geometry. */
  readonly apart: () => Apart;
}
