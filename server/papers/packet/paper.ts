/** What a packet is made of. A maker takes the car and gives papers as data; the edge writes them. */
import type { PlacedFinding } from '../../../grammar/finding';
import type { LengthUnit } from '../../../grammar/units';
import type { Cage } from '../../cage/cage';
import type { Shape } from '../../geometry/shape';
import type { Insides } from '../room/rooms';
import type { WeldLine } from '../weld/list';
import type { PartNumber } from './numbers';
import type { Touched } from './touched';

/** For which step of the work. The front page lists them in this order. */
export const KINDS = [
  'set-out',
  'template',
  'two-cut',
  'bend',
  'cut-list',
  'drill',
  'weld',
  'order',
  'room',
  'other',
] as const;
export type PaperKind = (typeof KINDS)[number];

export interface Paper {
  /** Below the packet's folder, with `/`: `templates/07-harness-bar-end-1.a4.pdf`. See `pathPart` in `numbers.ts`. */
  readonly path: string;
  /** What it is, in words: `Cope template, END 1, A4`. */
  readonly title: string;
  readonly kind: PaperKind;
  /** Names of the parts that it is about; empty: the whole car. */
  readonly parts: readonly string[];
  /** Text is written as UTF-8. It begins with the packet's mark (`marks.ts`). */
  readonly content: string | Uint8Array;
}

/** What every maker is given. */
export interface PacketInput {
  readonly cage: Cage;
  readonly shape: Shape;
  /** Placed and worded, as `check` lists them. */
  readonly findings: readonly PlacedFinding[];
  /** SHA-256 over the car's files, hexadecimal: printed on every paper. */
  readonly hash: string;
  /** `Cagewright 1.2.0`. */
  readonly maker: string;
  /** `car.cage:12`, for the place of a finding. */
  readonly placeOf: (finding: PlacedFinding) => string;
  readonly units: LengthUnit;
  /** The car's title, or its file's name. */
  readonly title: string;
  /** Every part that is made, by its name: same number on all papers. */
  readonly numbers: ReadonlyMap<string, PartNumber>;
  /** Parts that an open error touches, with the reason: they get no template, and nothing else to cut by. */
  readonly touched: ReadonlyMap<string, Touched>;
  /** The welds with the reach of the torch, for all papers that ask: worked out when first asked for. */
  readonly welds: () => readonly WeldLine[];
  /** Bars between tubes, and whether they go in: worked out when first asked for, once. */
  readonly rooms: () => Insides;
}

/** One sort of paper. Throws nothing, reads nothing: the same input gives the same bytes. */
export type Maker = (input: PacketInput) => readonly Paper[];

export interface Packet {
  /** The front page comes last: while it is missing, the packet is not whole. */
  readonly papers: readonly Paper[];
  readonly hash: string;
  /** Lies in the front page's place while papers are moved in: words for whoever finds a run that was broken off. */
  readonly unfinished: string;
  readonly errorsTouch: ReadonlySet<string>;
}
