/** The whole packet: every sort of paper by its maker, then the front page that links them. */
import type { PlacedFinding } from '../../../grammar/finding';
import type { Cage } from '../../cage/cage';
import type { Shape } from '../../geometry/shape';
import { bendPapers } from '../bend/papers';
import { sawPapers } from '../saw/papers';
import { pointPapers } from '../points/papers';
import { drillPapers } from '../drill/papers';
import { cutPapers } from '../cut/cut-papers';
import { orderPapers } from '../order/papers';
import { roomPapers } from '../room/papers';
import type { Insides } from '../room/rooms';
import { insidesOf } from '../room/rooms';
import type { WeldLine } from '../weld/list';
import { weldLines } from '../weld/list';
import { weldPapers } from '../weld/papers';
import { templatePapers } from '../template/papers';
import { frontPage } from './front-page';
import { partNumbers } from './numbers';
import type { Maker, Packet, PacketInput, Paper } from './paper';
import { touchedBy } from './touched';
import { unfinishedPage } from './unfinished';

/** One line for each sort of paper: its name while it is being made, and its maker. */
export const MAKERS: readonly (readonly [string, Maker])[] = [
  ['cope templates', templatePapers],
  ['saw sheets', sawPapers],
  ['bend sheets', bendPapers],
  ['set-out sheet', pointPapers],
  ['drill list', drillPapers],
  ['cut and buying list', cutPapers],
  ['weld list', weldPapers],
  ['order of work', orderPapers],
  ['will it go in?', roomPapers],
];

/** What the project and the edge know of a car. */
export type PacketSource = Pick<PacketInput, 'hash' | 'maker' | 'placeOf'> & {
  readonly cage: Cage;
  readonly shape: Shape;
  readonly findings: readonly PlacedFinding[];
};

/** How far it is, for a terminal. */
export type Progress = (step: { readonly done: number; readonly of: number; readonly what: string }) => void;

/** Two papers never share a path, also where a disk does not tell capitals apart: the first keeps it. */
function withOwnPaths(papers: readonly Paper[]): readonly Paper[] {
  const taken = new Set<string>();
  return papers.map((paper) => {
    let { path } = paper;
    for (let i = 2; taken.has(path.toLowerCase()); i++) path = paper.path.replace(/(?=\.[^/.]+$|$)/, `-${String(i)}`);
    taken.add(path.toLowerCase());
    return path === paper.path ? paper : { ...paper, path };
  });
}

/** What every maker is given, worked out once. */
export function packetInput(source: PacketSource): PacketInput {
  const { cage, shape, findings } = source;
  let welds: readonly WeldLine[] | null = null;
  let rooms: Insides | null = null;
  return {
    ...source,
    units: cage.units,
    title: cage.title ?? cage.file,
    numbers: partNumbers(shape),
    touched: touchedBy(findings, cage, shape),
    welds: () => (welds ??= weldLines(source)),
    rooms: () => (rooms ??= insidesOf(source)),
  };
}

/** Same source, same papers. Nothing is read or written. */
export function makePacket(source: PacketSource, progress: Progress = () => undefined): Packet {
  const input = packetInput(source);
  const of = MAKERS.length + 1;
  const made = MAKERS.flatMap(([what, maker], i) => {
    progress({ done: i, of, what });
    return maker(input);
  });
  progress({ done: MAKERS.length, of, what: 'front page' });
  const papers = withOwnPaths(made);
  return {
    papers: [...papers, frontPage(input, papers)],
    hash: input.hash,
    unfinished: unfinishedPage(input),
    errorsTouch: new Set(input.touched.keys()),
  };
}
