/** Watches folders of a disk for an editor that does not tell which files change on it. */
import { watch, type FSWatcher } from 'node:fs';
import { join } from 'node:path';

/** No more than a person's cars lie in; each costs a handle of the system. */
const MOST_FOLDERS = 64;

export class FolderWatch {
  private readonly watchers = new Map<string, FSWatcher>();

  /** @param changed is told the absolute path of a file that came, changed or went */
  constructor(private readonly changed: (path: string) => void) {}

  /** Watches these folders (absolute paths) and no others. One that is not there is left out. */
  follow(folders: ReadonlySet<string>): void {
    for (const [folder, watcher] of this.watchers) {
      if (folders.has(folder)) continue;
      watcher.close();
      this.watchers.delete(folder);
    }
    for (const folder of folders) {
      if (this.watchers.has(folder) || this.watchers.size >= MOST_FOLDERS) continue;
      try {
        // Not persistent: a process is not kept alive by what it watches.
        const watcher = watch(folder, { persistent: false }, (_event, name) => {
          if (name !== null) this.changed(join(folder, name));
        });
        watcher.on('error', () => this.forget(folder));
        this.watchers.set(folder, watcher);
      } catch {
        // Not there, or no handle is left: the next edit reads the disk anyway.
      }
    }
  }

  private forget(folder: string): void {
    this.watchers.get(folder)?.close();
    this.watchers.delete(folder);
  }
}
