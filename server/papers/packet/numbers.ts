/** Part numbers, the same on all papers, and the words that tell twins and the two ends of a tube apart. */
import type { End, Part, Shape } from '../../geometry/shape';

export interface PartNumber {
  readonly number: number;
  /** `07`. */
  readonly digits: string;
  /** The part's own name: `backstay.left`. */
  readonly name: string;
  /** `LEFT`, `RIGHT`; empty for a part that exists once. */
  readonly hand: 'LEFT' | 'RIGHT' | '';
  /** `07 backstay LEFT`, `12 door-x LEFT, piece a`: what is written on the tube. */
  readonly label: string;
  /** `07-backstay-left`: for file names. */
  readonly path: string;
}

/** By code units, so that no machine's language changes a number. */
const byName = (a: Part, b: Part): number => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0);

/** Letters, digits, points and hyphens only; never empty, never a dot first: a file name on every system. */
export const pathPart = (text: string): string => {
  const plain = text
    .toLowerCase()
    .replace(/[^a-z0-9.]+/g, '-')
    .replace(/\.{2,}/g, '.')
    .replace(/^[-.]+|[-.]+$/g, '')
    .slice(0, 60);
  return plain === '' ? 'part' : plain;
};

const handOf = ({ tube }: Part): PartNumber['hand'] =>
  tube.side === 'left' ? 'LEFT' : tube.side === 'right' ? 'RIGHT' : '';

/** Parts that are made, in the order of their names; tubes that stand in the car already have no number. */
export function partNumbers(shape: Shape): ReadonlyMap<string, PartNumber> {
  const made = [...shape.parts.values()].filter(({ tube }) => !tube.existing).sort(byName);
  const width = Math.max(2, String(made.length).length);
  return new Map(
    made.map((part, i): [string, PartNumber] => {
      const digits = String(i + 1).padStart(width, '0');
      const hand = handOf(part);
      const piece = part.piece === null ? '' : `, piece ${part.piece}`;
      return [
        part.name,
        {
          number: i + 1,
          digits,
          name: part.name,
          hand,
          label: `${digits} ${part.tube.base}${hand === '' ? '' : ` ${hand}`}${piece}`,
          path: `${digits}-${pathPart(part.name)}`,
        },
      ];
    }),
  );
}

/** `END 1` is the first of the path, `END 2` the last. */
export const endName = ({ which }: Pick<End, 'which'>): string => (which === 'first' ? 'END 1' : 'END 2');

/** A shape of its own beside the words, seen from across a shop: one bar or two. */
export const endSign = ({ which }: Pick<End, 'which'>): string => (which === 'first' ? '|' : '||');

/** `END 1 at foot.left`; the inner end of a split tube has no node. */
export const endLabel = (end: Pick<End, 'which' | 'node'>): string => `${endName(end)} at ${end.node ?? 'the split'}`;
