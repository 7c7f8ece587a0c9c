/** Changed texts of one car, tried beside it. */
import type { Cage, Seat } from '../../cage/cage';
import type { Vec3 } from '../../centreline/vector';
import { distance } from '../../centreline/vector';
import type { Analysis, Apart, Sources } from '../../project/project';
import type { TextEdit } from '../fix';

/** Edits put into a text; they do not overlap. */
export const applyEdits = (text: string, edits: readonly TextEdit[]): string =>
  [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((done, { span, newText }) => done.slice(0, span.start) + newText + done.slice(span.end), text);

/** What a change does to the car's places. */
export interface Moved {
  /** Nodes that move by more than rounding. */
  readonly nodes: number;
  /** How far they move together, mm. */
  readonly path: number;
  /** The sum of their moves: forward, outward, up, mm. */
  readonly way: Vec3;
  /** True where a seat moves: it was there first. */
  readonly seats: boolean;
  /** Base names of harness bars that were level and are so no more. */
  readonly tilted: readonly string[];
}

const STILL = 1e-6;
/** Nodes whose heights differ less than this are level, mm: nobody sets a bar finer. */
const LEVEL = 0.5;

export class Trial {
  private readonly apart: Apart;

  constructor(readonly analysis: Analysis) {
    this.apart = analysis.apart();
  }

  private sources(edits: readonly TextEdit[]): Sources {
    const { sources } = this.analysis;
    const files = new Map(
      [...sources.files].map(([file, text]) => [
        file,
        applyEdits(
          text,
          edits.filter((edit) => edit.file === file),
        ),
      ]),
    );
    return { ...sources, files };
  }

  /** The cage of the changed text: good until the next is asked for. */
  cage(edits: readonly TextEdit[]): Cage {
    return this.apart.build(this.sources(edits)).cage;
  }

  /** The cage of the changed text with its whole shape, not judged. */
  shape(edits: readonly TextEdit[]): Pick<Analysis, 'cage' | 'shape'> {
    return this.apart.shape(this.sources(edits));
  }

  /** Everything of the changed text. */
  whole(edits: readonly TextEdit[]): Analysis {
    return this.apart.analyse(this.sources(edits));
  }

  /** What has moved in a changed cage. */
  moved(cage: Cage): Moved {
    let nodes = 0;
    let path = 0;
    let way: Vec3 = [0, 0, 0];
    let seats = false;
    for (const [name, was] of this.analysis.cage.things) {
      const now = cage.things.get(name);
      if (was.kind === 'seat') seats ||= now?.kind !== 'seat' || seatMoved(was, now);
      if (was.kind !== 'node' || now?.kind !== 'node' || was.at === null || now.at === null) continue;
      const far = distance(was.at, now.at);
      if (far < STILL) continue;
      nodes += 1;
      path += far;
      const out = Math.abs(now.at[1]) - Math.abs(was.at[1]);
      way = [way[0] + now.at[0] - was.at[0], way[1] + out, way[2] + now.at[2] - was.at[2]];
    }
    return { nodes, path, way, seats, tilted: this.tilted(cage) };
  }

  private tilted(cage: Cage): readonly string[] {
    const bars = [...this.analysis.cage.things.values()].flatMap((thing) =>
      thing.kind === 'tube' && thing.role === 'harness-bar' ? [thing] : [],
    );
    return bars.flatMap(({ path, base }) => (isLevel(this.analysis.cage, path) && !isLevel(cage, path) ? [base] : []));
  }
}

/** True where the nodes whose places are known are level. */
function isLevel(cage: Cage, path: readonly (string | null)[]): boolean {
  const heights = path.flatMap((name) => {
    const node = name === null ? undefined : cage.things.get(name);
    return node?.kind === 'node' && node.at !== null ? [node.at[2]] : [];
  });
  return Math.max(...heights) - Math.min(...heights) <= LEVEL;
}

const seatMoved = (a: Seat, b: Seat): boolean =>
  [
    [a.hip, b.hip],
    [a.slots, b.slots],
  ].some(([was, now]) => was && now && distance(was, now) > STILL);
