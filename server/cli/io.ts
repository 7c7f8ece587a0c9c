/** What the command line asks of the world, so that its commands are functions that a test can call. */
import type { NodeHost } from '../host/node';
import type { FolderAnswer, FolderJob } from '../host/write-folder';

/** What a command has to say, and how it ends: 0 nothing found, 1 findings, 2 it could not do what was asked. */
export interface Result {
  readonly stdout: string;
  readonly stderr: string;
  readonly exit: 0 | 1 | 2;
}

export interface Io {
  /** Absolute path of the current folder. */
  readonly cwd: string;
  /** The real path of a file or folder, through its links; null where there is none. */
  readonly realPath: (path: string) => Promise<string | null>;
  readonly isFolder: (path: string) => Promise<boolean>;
  readonly hostOf: (root: string, overlay: (path: string) => string | null) => NodeHost;
  /** All of standard input, as text; or why there is none. */
  readonly readStdin: () => Promise<string | { readonly why: string }>;
  /**
   * Replaces the text of a file that was read as `before`; null: done, else why not. A byte order mark stays. A file
   * whose bytes are not that text (it is no UTF-8, or has changed since) is left as it is.
   */
  readonly replaceText: (path: string, before: string, after: string) => Promise<string | null>;
  /**
   * Writes a file whole or not at all. One that is there already is written over only where `may` says so of its text,
   * or with `force`. Null: done, else why not.
   */
  readonly writeWhole: (
    path: string,
    text: string | Uint8Array,
    may: (before: string) => boolean,
    force: boolean,
  ) => Promise<string | null>;
  /** Writes a folder of files, all of them or none; what others have made only with `force`. */
  readonly writeFolder: (job: FolderJob) => Promise<FolderAnswer>;
  /** How far it is, over the line before; empty: the line goes away. Only where somebody looks. */
  readonly progress: (line: string) => void;
  /** SHA-256 of a text as UTF-8, in hexadecimal. */
  readonly sha256: (text: string) => string;
  /** Starts the language server over standard input and output; it ends the process when it is told to exit. */
  readonly serve: () => Promise<void>;
  readonly version: string;
}

export type Exit = Result['exit'];

/** One line on standard error; what comes from outside cannot break it in two or colour the terminal. */
export const complaint = (text: string): string => `cagewright: ${visible(text)}\n`;

/** Text for a terminal: control characters are shown, not obeyed. */
export const visible = (text: string): string =>
  [...text]
    .map((sign) => {
      const code = sign.codePointAt(0) ?? 0;
      const control = code < 0x20 || (code >= 0x7f && code < 0xa0) || code === 0x2028 || code === 0x2029;
      const turns = (code >= 0x202a && code <= 0x202e) || (code >= 0x2066 && code <= 0x2069);
      return control || turns ? `\\u${code.toString(16).padStart(4, '0')}` : sign;
    })
    .join('');

/** The worse of two ends. */
export const worse = (a: Exit, b: Exit): Exit => (a > b ? a : b);
