/** The mark by which the tool knows a paper of a packet, in every format, and the words that stand on all of them. */
import type { LengthUnit } from '../../../grammar/units';
import { MARK } from '../page';
import type { PacketInput } from './paper';

/** Begins as the mark of all files that the tool writes; the rest tells a packet's papers from others. */
export const PACKET_MARK = `${MARK}; a paper of a packet`;

/** So many bytes of a file's beginning are looked at. */
export const HEAD = 600;

/** True for the beginning of a packet's paper: it may be written anew, and removed when the packet has it no more. */
export const isPacketPaper = (head: string): boolean => head.slice(0, HEAD).includes(PACKET_MARK);

/** The first line of Markdown, SVG and HTML. */
export const markupMark = `<!-- ${PACKET_MARK} -->`;

/** What every paper says. */
export const CAUTIONS: readonly string[] = [
  'An aid, not an approval: the current printed rulebook, the scrutineer and licensed practice decide.',
  'It knows the text of the file, not the car and not the tube in your hand: measure, cut long, fit, tack, measure again.',
];

/** So much of the hash is read aloud and compared: the front page has all of it. */
export const shortHash = (hash: string): string => hash.slice(0, 16);

/** Feet are printed as inches: that is what a tape shows. */
const UNIT_WORDS: Readonly<Record<LengthUnit, string>> = { mm: 'mm', cm: 'cm', m: 'm', in: 'inches', ft: 'inches' };

/** At the foot of every paper: `File 0123456789abcdef · lengths in mm, the other system beside · Cagewright 1.2.0`. */
export const footer = ({ hash, units, maker }: Pick<PacketInput, 'hash' | 'units' | 'maker'>): string =>
  `File ${shortHash(hash)} · lengths in ${UNIT_WORDS[units]}, the other system beside · ${maker}`;

/** At the head of every paper: the car, then the part. */
export const header = ({ title }: Pick<PacketInput, 'title'>, what: string): string => `${title}: ${what}`;
