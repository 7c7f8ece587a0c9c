/** Where new text goes: after a fact, into a block, behind a statement; in the layout that stands there. */
import type { Span } from '../../grammar/finding';
import type { Block, Entry } from '../../grammar/tree';
import type { Cage, Named, Origin, Side } from '../cage/cage';
import type { FixContext, TextEdit } from './fix';

/** A span of a statement as a span of its file. */
export const absolute = (origin: Origin, span: Span): Span => ({
  start: origin.statement.offset + span.start,
  end: origin.statement.offset + span.end,
});

const insertion = (file: string, at: number, newText: string): TextEdit => ({
  file,
  span: { start: at, end: at },
  newText,
});

const newline = (text: string): string => (text.includes('\r\n') ? '\r\n' : '\n');

const lineStart = (text: string, at: number): number => text.lastIndexOf('\n', at - 1) + 1;

const lineEnd = (text: string, at: number): number => {
  const end = text.indexOf('\n', at);
  if (end < 0) return text.length;
  return text[end - 1] === '\r' ? end - 1 : end;
};

const indentOf = (text: string, at: number): string => /^[ \t]*/.exec(text.slice(lineStart(text, at), at))?.[0] ?? '';

/** Text put into a block behind its last entry: on a line of its own if the block is laid out so. */
function intoBlock(file: string, text: string, offset: number, block: Block, added: string): TextEdit {
  const open = offset + block.span.start;
  const last = block.entries[block.entries.length - 1];
  if (last === undefined) return insertion(file, open + 1, ` ${added}${text[open + 1] === ' ' ? '' : ' '}`);
  const begin = offset + last.span.start;
  const end = offset + last.span.end;
  const ownLine = text.slice(open, begin).includes('\n');
  const closesHere = block.closed && lineEnd(text, end) >= offset + block.span.end;
  if (!ownLine || closesHere) return insertion(file, end, `; ${added}`);
  return insertion(file, lineEnd(text, end), `${newline(text)}${indentOf(text, begin)}${added}`);
}

/** Adds a fact to a statement; gives it a block if it has none. */
export function addFact(context: FixContext, origin: Origin, fact: string): TextEdit | null {
  const text = context.trees.get(origin.file)?.text;
  if (text === undefined) return null;
  const { entry, statement } = origin;
  if (entry.block === null) return insertion(origin.file, statement.offset + entry.line.span.end, ` { ${fact} }`);
  return intoBlock(origin.file, text, statement.offset, entry.block, fact);
}

/** Adds a statement next to another: into the same mirror if it stands in one, else behind it. */
export function addBeside(context: FixContext, origin: Origin, added: string): TextEdit | null {
  const text = context.trees.get(origin.file)?.text;
  if (text === undefined) return null;
  const outer: Entry = origin.statement.tree.entry;
  if (outer !== origin.entry && outer.block !== null)
    return intoBlock(origin.file, text, origin.statement.offset, outer.block, added);
  const end = lineEnd(text, origin.statement.offset + outer.span.end);
  return insertion(origin.file, end, `${newline(text)}${added}`);
}

/** Adds a statement at the end of a file. */
export function addLast(context: FixContext, file: string, added: string): TextEdit | null {
  const text = context.trees.get(file)?.text;
  if (text === undefined) return null;
  const kept = text.replace(/\s+$/, '').length;
  return {
    file,
    span: { start: kept, end: text.length },
    newText: `${kept > 0 ? newline(text) : ''}${added}${newline(text)}`,
  };
}

/** The side of the mirror that a thing is written in; null outside. */
export const writtenSide = (thing: Named): Side | null => {
  const inside = thing.origin.statement.tree.entry !== thing.origin.entry;
  if (!inside || thing.side === null) return null;
  return thing.twin ? (thing.side === 'left' ? 'right' : 'left') : thing.side;
};

/** A thing's name as it is written in a text of that side: bare on the same side. */
export function nameOn(cage: Cage, full: string, side: Side | null): string {
  const thing = cage.things.get(full);
  return thing !== undefined && side !== null && thing.side === side ? thing.base : full;
}

/** The written one of a thing and its twin. */
export function writtenOf(cage: Cage, name: string): string {
  const thing = cage.things.get(name);
  if (thing === undefined || !thing.twin || thing.side === null) return name;
  return `${thing.base}.${thing.side === 'left' ? 'right' : 'left'}`;
}

/** A thing by its full name, or by its bare one where both twins are meant: then the written one. */
export function thingOf(cage: Cage, name: string): ReturnType<Cage['things']['get']> {
  const direct = cage.things.get(name);
  if (direct !== undefined) return direct;
  const left = cage.things.get(`${name}.left`);
  const right = cage.things.get(`${name}.right`);
  return left !== undefined && !left.twin ? left : right;
}

/** The facts of a statement by their word. */
export const factOf = (entry: Entry, word: string): Entry | null =>
  entry.block?.entries.find((fact) => fact.line.word.text === word) ?? null;
