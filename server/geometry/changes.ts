/** What is different from the run before, and which ends that may concern. Millimetres. */
import type { Bodies, BodiesBefore, Body, EndSite } from './bodies';
import type { Box } from './boxes';
import { boxesOf, ON, SLACK } from './surroundings';

export class Changes {
  readonly gone: readonly Body[];
  readonly fresh: readonly Body[];
  private readonly boxes: readonly Box[];
  private readonly nodes = new Set<string>();
  private readonly names = new Set<string>();

  constructor(before: BodiesBefore, now: Bodies) {
    const old = new Set(before.all);
    const kept = new Set(now.all.filter((body) => old.has(body)));
    this.gone = before.all.filter((body) => !kept.has(body));
    this.fresh = now.all.filter((body) => !kept.has(body));
    const boxes: Box[] = [];
    for (const body of [...this.gone, ...this.fresh]) {
      boxes.push(...boxesOf(body));
      this.names.add(body.name).add(body.tube.name);
      for (const node of body.tube.path) if (node !== null) this.nodes.add(node);
    }
    const oldFeet = new Set(before.standing);
    const newFeet = new Set(now.standing);
    const feet = [...before.standing.filter((f) => !newFeet.has(f)), ...now.standing.filter((f) => !oldFeet.has(f))];
    for (const { foot, at } of feet) {
      this.names.add(foot.name);
      if (foot.node !== null) this.nodes.add(foot.node);
      const reach = ON + SLACK;
      if (at !== null) {
        boxes.push([at[0] - reach, at[1] - reach, at[2] - reach, at[0] + reach, at[1] + reach, at[2] + reach]);
      }
    }
    this.boxes = boxes;
  }

  /** Whether the landing of an end may be different now; `through`: on how many tubes it landed. */
  touch(site: EndSite, through: number): boolean {
    // Where it lands then hangs on where others land.
    if (through > 1) return true;
    if (this.names.size === 0) return false;
    if (site.node !== null && this.nodes.has(site.node)) return true;
    if (site.splitter !== null && this.names.has(site.splitter)) return true;
    if (site.told.kind === 'onto' && site.told.hosts.some((host) => this.names.has(host))) return true;
    const p = site.at;
    if (p === null) return true;
    return this.boxes.some(
      (b) => p[0] >= b[0] && p[0] <= b[3] && p[1] >= b[1] && p[1] <= b[4] && p[2] >= b[2] && p[2] <= b[5],
    );
  }
}
