/** Where in the text a thing, one of its facts, or one item of a fact stands. */
import type { Anchor, Place, Span } from '../../grammar/finding';
import type { Entry, Line } from '../../grammar/tree';
import type { Cage, Origin } from './cage';

/** From the first argument of a line to its last; its word where it has none. */
function valueSpan(line: Line): Span {
  const first = line.groups[0];
  const last = line.groups[line.groups.length - 1];
  if (first === undefined || last === undefined) return line.word.span;
  return { start: first.span.start, end: Math.max(last.span.end, first.span.start) };
}

/** The name in a statement's head; the whole head of one that has no name of its own. */
function headSpan(entry: Entry): Span {
  const { line } = entry;
  if (line.target !== null) return line.target.span;
  if (line.word.text === 'vent' || line.word.text === 'joint' || line.word.text === 'waive') return valueSpan(line);
  const arg = line.groups[0]?.args[0];
  return arg?.kind === 'ref' ? (arg.names[0]?.span ?? arg.span) : line.word.span;
}

/** The value of a fact, or its n-th item; the head's name where the fact is not written. */
export function factSpan(entry: Entry, fact: string, item: number | undefined): Span {
  const written = entry.block?.entries.find(({ line }) => line.word.text === fact)?.line;
  const line = written ?? (entry.line.target !== null ? entry.line : undefined);
  if (line === undefined) return headSpan(entry);
  if (item === undefined) return valueSpan(line);
  return line.groups[item]?.span ?? valueSpan(line);
}

/** What bears that full name: a thing, a piece of a split tube, or what the shop holds (`die:d45`, or just `d45`). */
function originOf(cage: Cage, name: string): Origin | null {
  const thing = cage.things.get(name) ?? cage.things.get(name.replace(/\.[ab]$/, ''));
  if (thing !== undefined) return thing.origin;
  const [, space, bare] = /^(die|section|material|plane|let|waive):(.*)$/s.exec(name) ?? [];
  const wanted = bare ?? name;
  const spaces = {
    die: cage.dies,
    section: cage.sections,
    material: cage.materials,
    plane: cage.planes,
    let: cage.lets,
  };
  for (const [kind, map] of Object.entries(spaces)) {
    const found = space === undefined || space === kind ? map.get(wanted) : undefined;
    if (found !== undefined) return found.origin;
  }
  return cage.waivers.find((waiver) => waiver.id === name)?.origin ?? null;
}

/** The whole statement that makes a thing, its block included. Null: there is no such thing. */
export function statementOf(cage: Cage, name: string): Place | null {
  const origin = originOf(cage, name);
  if (origin === null) return null;
  const { entry, statement, file } = origin;
  const end = Math.max(entry.span.end, entry.block?.span.end ?? entry.span.end);
  return { file, span: { start: statement.offset + entry.span.start, end: statement.offset + end } };
}

/** The place of an anchor in its file; both twins stand where they are written. Null: there is no such thing. */
export function placeOf(cage: Cage, anchor: Anchor): Place | null {
  if (anchor.kind === 'place') return anchor.place;
  const origin = originOf(cage, anchor.thing);
  if (origin === null) return null;
  const { entry, statement, file } = origin;
  const span = anchor.fact === undefined ? headSpan(entry) : factSpan(entry, anchor.fact, anchor.item);
  return { file, span: { start: statement.offset + span.start, end: statement.offset + span.end } };
}
