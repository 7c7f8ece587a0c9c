/** What all steps of a car are made from: its tubes by jobs, its feet, its holes, and the names of the steps. */
import type { Foot } from '../../cage/cage';
import { partsOf } from '../../geometry/stretch';
import type { End, Part } from '../../geometry/shape';
import type { PacketInput } from '../packet/paper';
import type { Need, Step } from './graph';
import type { Moment, Numbered } from './holes';
import { momentOf, numberedHoles } from './holes';
import type { Job } from './jobs';
import { jobsOf } from './jobs';

/** Headings, in the order in which a shop goes about it where nothing else decides. */
export const GROUPS = {
  car: 'The car',
  plates: 'Plates',
  bend: 'Bend',
  feet: 'Set the plates',
  fit: 'Cut, cope, fit and tack',
  tape: 'Tape again, and make ready to weld',
  out: 'Weld out of the car',
  weld: 'Weld in the car',
  finish: 'Finish',
} as const;

export const MEASURE = 'measure';
export const EXISTING = 'existing';
export const SEATS = 'seats';
export const BAR_HEIGHT = 'bar-height';
export const CAR_HOLES = 'car-holes';
export const GUSSETS = 'gussets';
export const TAPE = 'tape';
export const SEATS_OUT = 'seats-out';
export const WELD = 'weld';
export const WELD_PLATES = 'weld-plates';
export const WELD_GUSSETS = 'weld-gussets';
export const WELDED = 'welded';
export const PAINT = 'paint';
export const CLOSE = 'close';

/** Steps of a job are named by its first part, those of feet by the first foot. */
export const bendId = (part: string): string => `bend ${part}`;
export const copeId = (part: string): string => `cope ${part}`;
export const benchId = (part: string): string => `bench ${part}`;
export const collarId = (part: string): string => `collars ${part}`;
export const passId = (part: string): string => `pass ${part}`;
export const fitId = (part: string): string => `fit ${part}`;
export const drillId = (part: string): string => `drill ${part}`;
export const tackId = (part: string): string => `tack ${part}`;
export const plateId = (foot: string): string => `plate ${foot}`;
export const footId = (foot: string): string => `foot ${foot}`;
export const outId = (part: string, end: End['which'], turn: number): string => `out ${part} ${end} ${String(turn)}`;

export const need = (on: string, why: string): Need => ({ on, why });

export interface WorkStep extends Step {
  /** The tubes that it is about, as a heading over several steps; what it does is then said without them. */
  readonly about?: string;
  /** Names of the parts that it is about. */
  readonly parts: readonly string[];
  /** Numbers on the drill list of the holes that are drilled in it. */
  readonly holes: readonly string[];
}

export const isWelded = (end: End): boolean => end.fit === 'cope' || end.fit === 'foot';

/** Feet that are alike but for their side. */
export interface Feet {
  /** Name of the first. */
  readonly key: string;
  readonly feet: readonly Foot[];
}

function feetOf(feet: readonly Foot[], together: boolean): readonly Feet[] {
  const groups = new Map<string, Foot[]>();
  for (const foot of feet) {
    const key = together ? foot.base : foot.name;
    groups.set(key, [...(groups.get(key) ?? []), foot]);
  }
  return [...groups.values()].map((of) => ({ key: of[0]?.name ?? '', feet: of }));
}

export class Plan {
  readonly existing: readonly Part[];
  readonly jobs: readonly Job[];
  readonly feet: readonly Feet[];
  /** Parts on which straps lie. */
  readonly bars: ReadonlySet<string>;
  private readonly jobKeys: ReadonlyMap<string, string>;
  private readonly holes: readonly { readonly moment: Moment; readonly hole: Numbered }[];

  /** `together`: twins in one step. */
  constructor(
    readonly input: PacketInput,
    together: boolean,
  ) {
    const { cage, shape } = input;
    const parts = [...shape.parts.values()];
    this.existing = parts.filter(({ tube }) => tube.existing);
    // Hosts before what is cut to them wherever nothing else decides: by the order of the file.
    const made = parts.filter(({ tube }) => !tube.existing);
    this.jobs = jobsOf(made, (part) => this.hostsOf(part), together);
    this.jobKeys = new Map(this.jobs.flatMap(({ key, parts: of }) => of.map(({ name }) => [name, key])));
    this.feet = feetOf(
      [...cage.things.values()].filter((thing): thing is Foot => thing.kind === 'foot'),
      together,
    );
    this.bars = new Set(
      shape.straps.flatMap(({ tube }) => (tube === null ? [] : partsOf(shape.parts, tube).map(({ name }) => name))),
    );
    this.holes = numberedHoles(input).map((hole) => ({ hole, moment: momentOf(hole.drilling) }));
  }

  /** Parts on which an end is cut, that are made and therefore have to be there first. */
  hostsOf(part: Part): readonly Part[] {
    const { splitBy } = part.tube;
    const names = part.ends.flatMap((end) => (end.fit === 'cope' ? end.hosts : []));
    const found = [...names, ...(splitBy === null || part.piece === null ? [] : [splitBy])].flatMap((name) =>
      partsOf(this.input.shape.parts, name),
    );
    return [...new Set(found)].filter((host) => host !== part && !host.tube.existing);
  }

  /** The job of a part that is made; its own name for others. */
  jobOf(part: string): string {
    return this.jobKeys.get(part) ?? part;
  }

  /** What is drilled at a moment, in any of the things or parts of these names. */
  holesAt(kind: Moment['kind'], names: readonly string[] = []): readonly Numbered[] {
    return this.holes.flatMap(({ moment, hole }) => {
      if (moment.kind !== kind) return [];
      const name = 'name' in moment ? moment.name : 'part' in moment ? moment.part : null;
      return name === null || names.includes(name) ? [hole] : [];
    });
  }
}
