/** What has to come off the saw: every part that is made, with the length of its stick, by section. */
import type { End, Part, Shape } from '../../geometry/shape';
import type { PartNumber } from '../packet/numbers';
import type { PacketInput } from '../packet/paper';
import { degrees } from '../../../grammar/units';
import { endLabel } from '../packet/numbers';

export interface CutPiece {
  readonly number: PartNumber;
  readonly part: Part;
  /** As it leaves the saw, mm: from long point to long point, with the tails that the bender holds. Null: not known, or not to be cut. */
  readonly stick: number | null;
  /** From long point to long point, mm. */
  readonly cut: number | null;
  /** Why nothing is to be cut by it, in words; null: it may be. */
  readonly stopped: string | null;
}

export interface SectionPieces {
  /** Null: the parts have none that is known. */
  readonly section: string | null;
  readonly od: number | null;
  readonly wall: number | null;
  /** How its material is made: `cold-drawn-seamless`. Null: not told. */
  readonly made: string | null;
  readonly pieces: readonly CutPiece[];
}

const byCode = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function pieceOf(part: Part, number: PartNumber, { touched }: Pick<PacketInput, 'touched'>): CutPiece {
  const by = touched.get(part.name);
  const known = part.stickLength !== null && part.stickLength > 0;
  const stopped = by !== undefined ? `${by.why} (${by.finding.code})` : known ? null : 'its length is not known';
  return {
    number,
    part,
    stick: stopped === null ? part.stickLength : null,
    cut: stopped === null ? part.cutLength : null,
    stopped,
  };
}

/**
 * Parts by section, sections by name, parts by number. Twins are two pieces, a split tube is two; what stands in the car
 * already has no number and is not there. A part that an open error touches has no length.
 */
export function piecesOf(input: {
  readonly shape: Shape;
  readonly numbers: PacketInput['numbers'];
  readonly touched: PacketInput['touched'];
}): readonly SectionPieces[] {
  const groups = new Map<string, { of: Omit<SectionPieces, 'pieces'>; pieces: CutPiece[] }>();
  for (const number of input.numbers.values()) {
    const part = input.shape.parts.get(number.name);
    if (part === undefined) continue;
    const { section } = part.tube;
    const key = section?.name ?? '';
    let group = groups.get(key);
    if (group === undefined) {
      const of = {
        section: section?.name ?? null,
        od: section?.od ?? null,
        wall: section?.wall ?? null,
        made: section?.material.kind ?? null,
      };
      groups.set(key, (group = { of, pieces: [] }));
    }
    group.pieces.push(pieceOf(part, number, input));
  }
  return [...groups]
    .sort(([a], [b]) => byCode(a, b))
    .map(([, { of, pieces }]) => ({ ...of, pieces: pieces.sort((a, b) => a.number.number - b.number.number) }));
}

const tenth = (angle: number): string => `${(Math.round(degrees(angle) * 10) / 10).toFixed(1)}°`;
/** Less than this off square is square, radians: half of the last digit that is printed. */
const SQUARE = (0.05 * Math.PI) / 180;

/** `END 1 at a.left: fish-mouth onto 05 main-hoop at 64.2°`. */
export function endWords(end: End, { numbers }: Pick<PacketInput, 'numbers'>): string {
  const where = endLabel(end);
  const on = end.hosts.map((name) => numbers.get(name)?.label ?? name).join(', ');
  switch (end.fit) {
    case 'cope':
      return `${where}: fish-mouth${on === '' ? '' : ` onto ${on}`}${end.includedAngle === null ? ', angle not known' : ` at ${tenth(end.includedAngle)}`}`;
    case 'foot': {
      const off = end.sawAngle;
      return `${where}: sawn for plate ${on}, ${off === null ? 'angle not known' : off < SQUARE ? 'square' : `${tenth(off)} off square`}`;
    }
    case 'square':
      return `${where}: square`;
    default:
      return `${where}: open, cut square`;
  }
}
