/** Hover on a number: what it is worth in both systems, with the unit that it has or the one that it takes where it stands. */
import { isFigure, KIND_SHAPES, type Part, type Slot } from '../../grammar/pattern';
import { numberValue } from '../../grammar/tokens';
import { ANGLE, LENGTH, MASS, sameDimension, UNITS, type LengthUnit } from '../../grammar/units';
import type { Span } from '../../grammar/finding';
import { FUNCTIONS } from '../../grammar/words';
import { unitOf } from '../rules/own-book';
import { lineSpanAt, type Cursor } from './cursor';
import { bothLengths, bothMasses, fixed, onTape } from './figures';

/** Units that are more than letters: `kg/m3`, `%`, `cm2`. */
const SIGNED_UNITS = Object.keys(UNITS).filter((unit) => !/^[A-Za-z]+$/.test(unit));
const FIGURE = new RegExp(
  `((?:\\d+[ \\t]+)?\\d+/\\d+|\\d+(?:\\.\\d+)?|\\.\\d+)(?:[ \\t]*(${SIGNED_UNITS.join('|')}|[A-Za-z]+))?`,
  'g',
);

const flat = (part: Part): (Slot | string)[] => {
  switch (part.part) {
    case 'slot':
      return [part];
    case 'literal':
      return [part.word];
    case 'arrow':
      return ['->'];
    case 'sized':
      return [...part.slots];
    case 'optional':
    case 'list':
      return part.parts.flatMap(flat);
  }
};

const PLACES: readonly string[] = ['place', 'triple', 'pair', 'plane'];

/** What a bare number in a line is taken for: by the word before it, else by all that the line holds. */
const takenFor = (cursor: Cursor, before: string): 'length' | 'angle' | 'plain' | null => {
  const line = cursor.onLine?.line;
  if (line === undefined) return null;
  if (line.word.text === 'limit') {
    const code = line.groups[0]?.args[0];
    const unit = code?.kind === 'ref' ? unitOf(code.names.map(({ text }) => text).join('.')) : null;
    return unit === 'mm' ? 'length' : unit === 'deg' ? 'angle' : null;
  }
  const owner = cursor.entries.at(-2)?.line.word.text ?? '';
  const shape = KIND_SHAPES.get(owner)?.facts.get(line.word.text)?.shape ?? KIND_SHAPES.get(line.word.text)?.head;
  const elements = (shape?.pattern ?? []).map((row) => row.flatMap(flat));
  const word = /([\p{L}][\p{L}\d_-]*)[ \t]+-?$/u.exec(before)?.[1];
  const behindWord = elements.flatMap((row) => row.filter((_, i) => word !== undefined && row[i - 1] === word));
  const free = elements.flatMap((row) => row.filter((_, i) => typeof row[i - 1] !== 'string'));
  const slots = (behindWord.length > 0 ? behindWord : free).filter((one) => typeof one !== 'string');
  const types = new Set(slots.filter((slot) => isFigure(slot) || PLACES.includes(slot.type)).map((slot) => slot.type));
  if (types.size !== 1) return null;
  const [type = ''] = types;
  if (PLACES.includes(type) || type === 'length') return 'length';
  return type === 'angle' ? 'angle' : type === 'figure' && line.word.text === 'let' ? 'plain' : null;
};

/** A factor, and what a function is given, keep the dimension that the sum decides. */
const inProduct = (before: string, after: string): boolean => {
  if (/[*/]\s*-?$/.test(before) || /^\s*[*/]/.test(after)) return true;
  let depth = 0;
  for (let at = before.length - 1; at >= 0; at -= 1) {
    if (before[at] === ')') depth += 1;
    else if (before[at] === '(' && (depth -= 1) < 0) {
      const name = /([\p{L}][\p{L}\d]*)\s*$/u.exec(before.slice(0, at))?.[1];
      return name !== undefined && Object.hasOwn(FUNCTIONS, name);
    }
  }
  return false;
};

const lengthText = (value: number, unit: LengthUnit): string =>
  `${bothLengths(value, unit)}, ${onTape(value)} in on a tape`;

const angleText = (value: number): string => `${fixed((value * 180) / Math.PI, 4)} deg (${fixed(value, 6)} rad)`;

const withUnit = (value: number, name: string, unit: LengthUnit): string | null => {
  const entry = Object.hasOwn(UNITS, name) ? UNITS[name] : undefined;
  if (entry === undefined) return null;
  const worth = value * entry.factor;
  const meaning = `**${name}**: ${entry.meaning}`;
  if (!Number.isFinite(worth)) return meaning;
  if (sameDimension(entry.dimension, LENGTH)) return `${lengthText(worth, unit)}\n\n${meaning}`;
  if (sameDimension(entry.dimension, ANGLE)) return `${angleText(worth)}\n\n${meaning}`;
  return sameDimension(entry.dimension, MASS) ? `${bothMasses(worth)}\n\n${meaning}` : meaning;
};

const bare = (value: number, taken: 'length' | 'angle' | 'plain', unit: LengthUnit): string | null => {
  const length = value * (UNITS[unit]?.factor ?? 1);
  if (!Number.isFinite(length)) return null;
  if (taken === 'length') return lengthText(length, unit);
  const angle = (value * Math.PI) / 180;
  if (taken === 'angle') return angleText(angle);
  return `A plain number: as a length ${lengthText(length, unit)}; as an angle ${fixed(value, 4)} deg.`;
};

/** The figure at an offset; null where none stands, or where what it is taken for hangs on more than its place. */
export const hoverFigure = (cursor: Cursor, unit: LengthUnit): { markdown: string; span: Span } | null => {
  const { offset } = cursor;
  const { text } = cursor.tree;
  const line = lineSpanAt(text, offset);
  const from = Math.max(line.start, offset - 200);
  for (const match of text.slice(from, Math.min(line.end, offset + 200)).matchAll(FIGURE)) {
    const [all, digits = '', word = ''] = match;
    const start = from + match.index;
    const known = Object.hasOwn(UNITS, word);
    const end = start + (known ? all.length : digits.length);
    if (offset < start || offset > end) continue;
    const before = text.slice(line.start, start);
    // Digits of a name (`m8`, `bar-2`), or of what cannot be read as a number.
    if (/[\p{L}\d_.]$|[\p{L}\d_]-$/u.test(before) || (!known && /^[\d.]/.test(text.slice(end, end + 1)))) return null;
    const negative = before.endsWith('-');
    const value = (negative ? -1 : 1) * numberValue(digits);
    const span = { start: negative ? start - 1 : start, end };
    const taken = known || inProduct(before, text.slice(end, line.end)) ? null : takenFor(cursor, before);
    const markdown = known ? withUnit(value, word, unit) : taken === null ? null : bare(value, taken, unit);
    return markdown === null ? null : { markdown, span };
  }
  return null;
};
