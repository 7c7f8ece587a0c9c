/** What hands let go of in the picture, so that undo there takes back just that, and nothing that was typed since. */

interface Drop {
  readonly uri: string;
  readonly before: number;
  readonly after: number;
}

/** The version of an open text; null: it is not open. */
export type VersionOf = (uri: string) => number | null;

export class Drops {
  private readonly drops: Drop[] = [];

  wrote(uri: string, before: number, after: number): void {
    this.drops.push({ uri, before, after });
  }

  /** The text whose next undo takes the last drop back; null: there is none, or the text has changed since. */
  next(versionOf: VersionOf): string | null {
    const last = this.drops.at(-1);
    return last !== undefined && versionOf(last.uri) === last.after ? last.uri : null;
  }

  /** The last drop was taken back: the one before it is the newest change of its text again, if it was just then. */
  undone(versionOf: VersionOf): void {
    const last = this.drops.pop();
    const earlier = this.drops.at(-1);
    if (last === undefined || earlier?.uri !== last.uri || earlier.after !== last.before) return;
    this.drops[this.drops.length - 1] = { ...earlier, after: versionOf(last.uri) ?? earlier.after };
  }
}
