/** Writes something to a file that the person names; nothing is written over without the person's word (the dialog asks). */
import { Uri, window, workspace } from 'vscode';

export interface Saving {
  /** Where the dialog begins; null: wherever it likes. */
  readonly proposed: Uri | null;
  /** What it is, by name of the kind of file: extensions without the dot. */
  readonly filters: Readonly<Record<string, readonly string[]>>;
  readonly title: string;
  readonly content: Uint8Array;
}

/** The file that was written; null: the person would not. */
export const saveAsked = async ({ proposed, filters, title, content }: Saving): Promise<Uri | null> => {
  const target = await window.showSaveDialog({
    ...(proposed === null ? {} : { defaultUri: proposed }),
    filters: Object.fromEntries(Object.entries(filters).map(([kind, extensions]) => [kind, [...extensions]])),
    title,
  });
  if (target === undefined) return null;
  if (target.path.toLowerCase().endsWith('.cage')) {
    const extension = Object.values(filters)[0]?.[0] ?? '';
    void window.showErrorMessage(`This does not go over a cage file: give it a name that ends with .${extension}.`);
    return null;
  }
  await workspace.fs.writeFile(target, content);
  return target;
};

/** The last part of a file's path, as a person reads it. */
export const nameOf = (uri: Uri): string => uri.path.split('/').at(-1) ?? uri.path;

/** A file beside a document; null for a text that was never saved. */
export const placeBeside = (document: Uri, name: string): Uri | null =>
  document.scheme === 'untitled' ? null : Uri.joinPath(document, '..', name.replace(/[\\/:*?"<>|\0]/g, '-'));
