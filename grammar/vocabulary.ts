/**
 * The vocabulary: the statements and facts of `statements.ts`, by name. Validator, completion, hover, snippets,
 * formatter, colours and the reference page are made from it; nothing in it is written twice.
 *
 * Patterns are written as a fabricator would write the line, read once by `pattern.ts`:
 *   `word`            stands as it is
 *   `<od:length>`     a value with a name and a type; `<od:length > 0>` with a limit (in the unit inside: mm, rad, kg…)
 *   `<side:left|right>`   one of these words
 *   `a x b`           measures of one thing
 *   `[ … ]`           may be left out
 *   `… | …`           one or the other (at the top of a pattern)
 *   `<n:node>, …`     a list, one to each comma; `{ <a:angle> up }, …` a list of phrases
 * Types: length angle plain count mass stress density figure (any dimension); place triple plane string; name (a new
 * one); bolt (M8, or a diameter); `@node`, `@tube`, … the name of a thing that stands elsewhere ({@link NAME_SPACES}).
 */
import { nearestWord } from './nearest';
import { KINDS } from './statements';
import type { KindEntry } from './vocabulary-types';

export { KINDS } from './statements';
export { NAME_SPACES, ROLES } from './vocabulary-types';
export type { FactEntry, KindEntry, NameSpace, Role } from './vocabulary-types';

/** By name. */
export const KIND_BY_NAME: ReadonlyMap<string, KindEntry> = new Map(KINDS.map((entry) => [entry.name, entry]));

/**
 * Whether the braces behind this word hold statements. Also behind one that is nearly such a word: a slip in it must not
 * make something else of all that stands in the block.
 */
export function holdsStatements(word: string): boolean {
  const kind = KIND_BY_NAME.get(word) ?? KIND_BY_NAME.get(nearestWord(word, KIND_BY_NAME.keys()) ?? '');
  return kind?.block === 'statements';
}

/** Statements of one line that begin with a text in quotes. */
const TITLED: ReadonlySet<string> = new Set(
  KINDS.filter((entry) => entry.block === 'none' && /^<[\w-]+:string>/.test(entry.head)).map((entry) => entry.name),
);

/** Words that are a fact of some statement. */
export const FACT_NAMES: ReadonlySet<string> = new Set(KINDS.flatMap((entry) => entry.facts.map((one) => one.name)));

/**
 * Words that are a statement of one line and a fact of another statement (`cage "Title"`, `cage self-built`): the
 * statement is told by the quotes that follow.
 */
export const TOLD_BY_QUOTES: ReadonlySet<string> = new Set([...TITLED].filter((name) => FACT_NAMES.has(name)));
