/** Hover: what stands under the cursor, said in Markdown. */
import { unitsOf } from '../../grammar/file-units';
import type { Span } from '../../grammar/finding';
import type { LengthUnit } from '../../grammar/units';
import type { NameUse, Side, Strap, Thing, Tube } from '../cage/cage';
import type { End, Part } from '../geometry/shape';
import type { Analysis } from '../project/project';
import { findBook, libraryOf } from '../rules/library';
import { cursorAt, quietAt, wordAt, type Cursor, type Word } from './cursor';
import { hoverBook } from './hover-book';
import { hoverEnd } from './hover-end';
import { hoverFigure } from './hover-figure';
import { hoverSeat, hoverStrap } from './hover-strap';
import {
  hoverCollar,
  hoverDie,
  hoverFoot,
  hoverJoint,
  hoverLet,
  hoverMaterial,
  hoverNode,
  hoverPlane,
  hoverSection,
  hoverVent,
} from './hover-things';
import { hoverHardware } from './hover-hardware';
import { hoverTube, partsOf } from './hover-tube';
import { hoverWindow } from './hover-window';
import { twinEndText, twinText } from './hover-twin';
import { hoverWord } from './hover-word';
import { useAt } from './names';

export interface Hover {
  readonly markdown: string;
  readonly span: Span;
}

/** The side of the mirror around the cursor, as written. */
const mirrorSide = (cursor: Cursor): Side | null => {
  const head = cursor.entries[0]?.line;
  const arg = head?.word.text === 'mirror' ? head.groups[0]?.args[0] : undefined;
  const name = arg?.kind === 'ref' ? arg.names[0]?.text : undefined;
  return name === 'left' || name === 'right' ? name : null;
};

/** The thing that a name means where it stands: on the side that it means there, or on the side around it. */
const thingOf = (analysis: Analysis, cursor: Cursor, base: string, meant: Side | null): Thing | null => {
  const { things } = analysis.cage;
  const side = meant ?? mirrorSide(cursor);
  const sided = side === null ? undefined : things.get(`${base}.${side}`);
  return sided ?? things.get(base) ?? things.get(`${base}.left`) ?? things.get(`${base}.right`) ?? null;
};

const withTwin = (analysis: Analysis, thing: Thing, text: string, unit: LengthUnit): string =>
  [text, twinText(analysis, thing, unit)].filter((one) => one !== '').join('\n\n');

const withWindow = (analysis: Analysis, tube: Tube | null, text: string): string =>
  [text, hoverWindow(analysis, tube)].filter((one) => one !== '').join('\n\n');

/** The tube that a strap lies on, also where it names a piece of it. */
const barOf = ({ cage, shape }: Analysis, { tube }: Strap): Tube | null => {
  const thing = tube === null ? undefined : cage.things.get(tube);
  return thing?.kind === 'tube' ? thing : tube === null ? null : (shape.parts.get(tube)?.tube ?? null);
};

const hoverThing = (analysis: Analysis, thing: Thing, piece: 'a' | 'b' | null, unit: LengthUnit): string => {
  const { cage, shape } = analysis;
  switch (thing.kind) {
    case 'node':
      return withTwin(analysis, thing, hoverNode(shape, thing, unit), unit);
    case 'tube':
      return withTwin(analysis, thing, withWindow(analysis, thing, hoverTube(shape, thing, piece, unit)), unit);
    case 'foot':
      return hoverFoot(shape, thing, unit);
    case 'joint':
      return hoverJoint(thing);
    case 'vent':
      return hoverVent(shape, thing, unit);
    case 'seat':
      return withTwin(analysis, thing, hoverSeat(cage, shape, thing, unit), unit);
    case 'strap':
      return withTwin(
        analysis,
        thing,
        withWindow(analysis, barOf(analysis, thing), hoverStrap(cage, shape, thing, unit)),
        unit,
      );
    case 'collar':
      return hoverCollar(thing, unit);
    default:
      return hoverHardware(shape, thing, unit);
  }
};

/** The thing that the entry around the cursor declares, on the side that is written. */
const declaredThing = (analysis: Analysis, cursor: Cursor): Thing | null => {
  for (const thing of analysis.cage.things.values()) {
    if (!thing.twin && cursor.entries.includes(thing.origin.entry) && thing.origin.file === cursor.tree.file)
      return thing;
  }
  return null;
};

const endText = (analysis: Analysis, tube: Tube, part: Part, end: End, unit: LengthUnit): string =>
  [hoverEnd(tube, part, end, unit), twinEndText(analysis, tube, part, end, unit)]
    .filter((text) => text !== '')
    .join('\n\n');

const endsText = (analysis: Analysis, tube: Tube, which: 'first' | 'last', unit: LengthUnit): string | null => {
  const parts = partsOf(analysis.shape, tube);
  const part = which === 'first' ? parts[0] : parts.at(-1);
  return part === undefined ? null : endText(analysis, tube, part, part.ends[which === 'first' ? 0 : 1], unit);
};

/** The two ends that face each other where a tube is split. */
const splitText = (analysis: Analysis, tube: Tube, unit: LengthUnit): string | null => {
  const [a, b] = partsOf(analysis.shape, tube);
  if (a === undefined || b === undefined) return null;
  return `${endText(analysis, tube, a, a.ends[1], unit)}\n\n---\n\n${endText(analysis, tube, b, b.ends[0], unit)}`;
};

/** Which end of its tube the cursor points at: the first or last node of a `path`, or the facts `first` and `last`. */
const endUnder = (cursor: Cursor): 'first' | 'last' | 'split' | null => {
  const line = cursor.onLine?.line;
  const owner = cursor.entries.at(-2)?.line.word.text;
  if (line === undefined || owner !== 'tube') return null;
  const at = cursor.offset - (cursor.statement?.offset ?? 0);
  const word = line.word.text;
  const onWord = at <= line.word.span.end;
  if (word === 'first' || word === 'last' || word === 'split') return onWord ? word : null;
  if (word !== 'path' || onWord) return null;
  const holding = line.groups.findIndex((group) => group.span.start <= at && at <= group.span.end);
  if (holding === 0) return 'first';
  return holding === line.groups.length - 1 ? 'last' : null;
};

/** `door-x.a` means one piece of a split tube. */
const pieceOf = ({ tree }: Cursor, { place }: NameUse): 'a' | 'b' | null => {
  const written = /^[^\s,;{}()]+/.exec(tree.text.slice(place.span.start, place.span.start + 300))?.[0] ?? '';
  const piece = /\.([ab])$/.exec(written)?.[1];
  return piece === 'a' || piece === 'b' ? piece : null;
};

const nameText = (analysis: Analysis, cursor: Cursor, use: NameUse, unit: LengthUnit): string | null => {
  const { cage } = analysis;
  const colon = use.target.indexOf(':');
  const [space, name] = [use.target.slice(0, colon), use.target.slice(colon + 1)];
  switch (space) {
    case 'thing': {
      const thing = thingOf(analysis, cursor, name, use.side);
      return thing === null ? null : hoverThing(analysis, thing, pieceOf(cursor, use), unit);
    }
    case 'plane': {
      const plane = cage.planes.get(name);
      return plane === undefined ? null : hoverPlane(plane, unit);
    }
    case 'section':
      return hoverSection(name, cage.sections.get(name)?.value ?? null, unit);
    case 'die':
      return hoverDie(name, cage.dies.get(name)?.value ?? null, unit);
    case 'material': {
      const material = cage.materials.get(name);
      return material === undefined ? null : hoverMaterial(material.value);
    }
    case 'let':
      return hoverLet(cage, name, unit);
    case 'book': {
      const library = libraryOf(cage);
      const book = findBook(library, name);
      return book === null ? null : hoverBook(library, book, unit);
    }
    default:
      return null;
  }
};

const NAMELESS: ReadonlySet<string> = new Set(['vent', 'joint', 'hole', 'padding']);

/** Some things have no name: their own word speaks for them. */
const namelessText = (analysis: Analysis, cursor: Cursor, word: Word, unit: LengthUnit): string | null => {
  const head = cursor.onLine?.line.word;
  const start = cursor.statement?.offset ?? 0;
  if (head === undefined || head.span.start + start !== word.span.start) return null;
  if (!NAMELESS.has(head.text)) return null;
  const thing = declaredThing(analysis, cursor);
  return thing === null ? null : hoverThing(analysis, thing, null, unit);
};

/**
 * What a hover at the offset says.
 * @returns null where there is nothing to say
 */
export const hover = (analysis: Analysis, file: string, offset: number): Hover | null => {
  const tree = analysis.trees.get(file);
  if (tree === undefined || quietAt(tree.text, offset) !== null) return null;
  const cursor = cursorAt(tree, offset);
  const unit = unitsOf(tree);
  const word = wordAt(tree.text, offset);
  const use = useAt(analysis, file, offset);
  const figure = hoverFigure(cursor, unit);
  if (word === null) return figure;
  const end = endUnder(cursor);
  const tube = end === null ? null : declaredThing(analysis, cursor);
  const parts: (string | null)[] = [];
  if (tube?.kind === 'tube' && end !== null) {
    parts.push(end === 'split' ? splitText(analysis, tube, unit) : endsText(analysis, tube, end, unit));
  }
  const named = use === null ? null : nameText(analysis, cursor, use, unit);
  parts.push(named);
  if (named === null) {
    if (figure !== null && parts.every((part) => part === null)) return figure;
    parts.push(namelessText(analysis, cursor, word, unit), hoverWord(cursor, word, unit, libraryOf(analysis.cage)));
  }
  const markdown = parts.filter((part) => part !== null).join('\n\n---\n\n');
  return markdown === '' ? null : { markdown, span: word.span };
};
