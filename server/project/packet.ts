/** The shop papers of an analysis. A bundle of its own: whoever wants them loads it then. */
import type { PlacedFinding } from '../../grammar/finding';
import type { Progress } from '../papers/packet/packet';
import { makePacket } from '../papers/packet/packet';
import { isPacketPaper } from '../papers/packet/marks';
import type { Packet } from '../papers/packet/paper';
import type { Analysis } from './project';

export { isPacketPaper };

/** What only the edge knows. */
export interface PacketEdge {
  /** SHA-256 of a text as UTF-8, in hexadecimal. */
  readonly hashOf: (text: string) => string;
  /** `car.cage:12`. */
  readonly placeOf: (finding: PlacedFinding) => string;
  /** `Cagewright 1.2.0`. */
  readonly maker: string;
  readonly progress?: Progress;
}

/**
 * One hash over all files: of one file it is the file's own, so that it can be checked with any tool; of several that of
 * the lines `hash  name`, sorted by name, as `sha256sum` prints them.
 */
export function contentHash(analysis: Pick<Analysis, 'trees'>, hashOf: (text: string) => string): string {
  const files = [...analysis.trees].map(([name, { text }]) => ({ name, hash: hashOf(text) }));
  const [only] = files;
  if (only !== undefined && files.length === 1) return only.hash;
  const sorted = files.sort((a, b) => (a.name < b.name ? -1 : 1));
  return hashOf(sorted.map(({ name, hash }) => `${hash}  ${name}\n`).join(''));
}

/** Every paper, as data. */
export const packetOf = (analysis: Analysis, { hashOf, placeOf, maker, progress }: PacketEdge): Packet =>
  makePacket(
    {
      cage: analysis.cage,
      shape: analysis.shape,
      findings: analysis.findings,
      hash: contentHash(analysis, hashOf),
      maker,
      placeOf,
    },
    progress,
  );
