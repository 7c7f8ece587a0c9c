/** Work where only the newest matters: one under way, one waiting, what was in between never begins. */
export class Latest<T> {
  private waiting: { readonly what: T } | null = null;
  private running = false;

  /** @param work tells by itself when it fails; what it throws all the same ends nothing but itself */
  constructor(private readonly work: (what: T) => Promise<void>) {}

  /** Whether something is under way or waits. */
  get busy(): boolean {
    return this.running || this.outdated;
  }

  /** Whether something newer waits for what is under way. */
  get outdated(): boolean {
    return this.waiting !== null;
  }

  ask(what: T): void {
    this.waiting = { what };
    if (!this.running) void this.run();
  }

  /** Begins again with this one, if nothing newer waits. */
  askUnlessNewer(what: T): void {
    if (!this.outdated) this.ask(what);
  }

  /** What waits never begins; what is under way goes on. */
  drop(): void {
    this.waiting = null;
  }

  private async run(): Promise<void> {
    this.running = true;
    try {
      for (let next = this.take(); next !== null; next = this.take()) await this.work(next.what).catch(() => undefined);
    } finally {
      this.running = false;
    }
  }

  private take(): { readonly what: T } | null {
    const next = this.waiting;
    this.waiting = null;
    return next;
  }
}
