/** A node dragged: which numbers of the text change, and to what; in steps that a tape shows, written as they were. */
import { unitsOf } from '../../grammar/file-units';
import type { TextEdit } from '../fixes/fix';
import { applyEdits } from '../fixes/solve/trial';
import type { Literal } from '../fixes/solve/literals';
import { markOf, write } from '../fixes/solve/literals';
import type { Vec3 } from '../centreline/vector';
import type { Grip, SayPlace, Written } from './grips';
import { GripReader, wayTo } from './grips';
import type { Point3 } from './model';
import { nodeId } from './names';

export interface Dragged {
  /** Null: it cannot be moved at all; `why` says why. */
  readonly edits: readonly TextEdit[] | null;
  readonly why: string | null;
  /** `x 420, z 815`: what is written then. */
  readonly says: string;
}

/** Marks of a tape from where the number is; a number that stands between two marks keeps its rest. */
function moved(grip: Grip, at: Vec3, to: Vec3): number {
  const { literal, worth, line } = grip;
  const mark = markOf(literal.unit);
  const steps = Math.round(wayTo(grip, at, to) / (mark * worth));
  // What rounding leaves of a sum of decimals is not written.
  const settled = (value: number): number => Math.round(value * 1e6) / 1e6;
  const value = settled(literal.value + steps * mark);
  if (line === null || value < 0) return line === null ? value : 0;
  // Along a line nothing is before its beginning or behind its end, the last mark before that included.
  const most = line.length / worth;
  return value <= most ? value : settled(Math.max(0, value - Math.ceil((value - most) / mark - 1e-9) * mark));
}

/** As many digits behind the point as were written, at least. */
function textOf(literal: Literal, value: number): string {
  const text = write(literal, value);
  const were = /\.(\d+)$/.exec(literal.text)?.[1]?.length ?? 0;
  const are = /\.(\d+)$/.exec(text)?.[1]?.length ?? 0;
  if (were <= are || /\//.test(text)) return text;
  return `${text}${are === 0 ? '.' : ''}${'0'.repeat(were - are)}`;
}

/** A number of another unit than its file's says which. */
function sayGrip({ word, literal }: Grip, text: string, { trees }: Written): string {
  const tree = trees.get(literal.file);
  const own = tree === undefined || unitsOf(tree) === literal.unit ? '' : ` ${literal.unit}`;
  return `${word === '' ? 'at' : word} ${text}${own}`;
}

/** Moves the node of that id toward a place, as far as its own numbers let it. Never throws. */
export function dragged(written: Written, id: string, to: Point3, say: SayPlace): Dragged {
  const node = [...written.cage.things.values()].find((thing) => thing.kind === 'node' && nodeId(thing.name) === id);
  if (node?.kind !== 'node') return { edits: null, why: 'there is no such node', says: '' };
  const { grips, hangs } = new GripReader(written, say).of(node);
  const { at } = node;
  if (grips.length === 0 || at === null)
    return { edits: null, why: `${node.name}: ${hangs ?? 'where it is cannot be read'}`, says: '' };
  const values = grips.map((grip) => {
    const value = moved(grip, at, to);
    return { grip, value, text: textOf(grip.literal, value) };
  });
  const changed = values.filter(({ grip, value }) => value !== grip.literal.value);
  return {
    edits: changed.map(({ grip: { literal }, text }) => ({ file: literal.file, span: literal.span, newText: text })),
    why: null,
    says: (changed.length === 0 ? values : changed).map(({ grip, text }) => sayGrip(grip, text, written)).join(', '),
  };
}

/** The files with the edits in them. */
export const editedFiles = (
  files: ReadonlyMap<string, string>,
  edits: readonly TextEdit[],
): ReadonlyMap<string, string> =>
  new Map(
    [...files].map(([file, text]) => [
      file,
      applyEdits(
        text,
        edits.filter((edit) => edit.file === file),
      ),
    ]),
  );
