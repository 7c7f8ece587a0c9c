/**
 * A statement held against the vocabulary: what it is, its values by name, and what is wrong with its words: an unknown
 * statement or fact, a fact that is missing, written twice, or that does not fit its pattern.
 */
import { CODES } from './codes';
import type { Finding, FindingNote, Params, Span } from './finding';
import { meant, nearestWord } from './nearest';
import { KIND_SHAPES, type KindShape } from './pattern';
import { matchLine, type Match } from './shape-check';
import type { Entry, Name, Statement } from './tree';
import { holdsStatements, KINDS, type FactEntry, type KindEntry } from './vocabulary';

/** A fact that is written, rightly or wrongly. */
export interface ReadFact {
  readonly fact: FactEntry;
  readonly entry: Entry;
  /** Null: it does not fit, or its line did not parse; the finding is made. */
  readonly match: Match | null;
}

export interface ReadStatement {
  readonly entry: Entry;
  /** Null: no such statement. */
  readonly kind: KindEntry | null;
  /** The head's values; null: it does not fit, or its line did not parse. */
  readonly head: Match | null;
  /** By the fact's name; of two with the same name, the first. */
  readonly facts: ReadonlyMap<string, ReadFact>;
  /** Facts that may be written several times, all of them in the order of the text. */
  readonly many: readonly ReadFact[];
  /** The statements inside a mirror. */
  readonly inner: readonly ReadStatement[];
  /** Findings of this statement and those inside it; spans relative to the statement, file ''. */
  readonly findings: readonly Finding[];
}

type Report = (code: keyof typeof CODES, span: Span, params: Params, notes?: readonly FindingNote[]) => void;

const placeOf = (
  span: Span,
): { readonly kind: 'place'; readonly place: { readonly file: string; readonly span: Span } } => ({
  kind: 'place',
  place: { file: '', span },
});

/** Where a statement's own name stands: behind its word, else the word itself. */
export function nameOf(entry: Entry): Name {
  const { line } = entry;
  if (line.target !== null) return line.target;
  const first = line.groups[0]?.args[0];
  return first?.kind === 'ref' && first.names[0] !== undefined ? first.names[0] : line.word;
}

/** What a statement is called in a sentence: `main-hoop`, `n1, n2`, or '' for one without a name. */
function titleOf(entry: Entry): string {
  const { line } = entry;
  if (line.target !== null) return line.target.text;
  const names = line.groups.flatMap(({ args }) =>
    args.flatMap((arg) => (arg.kind === 'ref' ? [arg.names.map((name) => name.text).join('.')] : [])),
  );
  return line.word.text === 'vent'
    ? names.slice(0, 2).join(' -> ')
    : line.word.text === 'joint'
      ? names.join(', ')
      : (names[0] ?? '');
}

const STATEMENT_WORDS = KINDS.map((kind) => kind.name);

/** An unknown word, with the known one that it is nearest to. */
function unknown(
  report: Report,
  code: 'kind.unknown' | 'fact.unknown',
  word: Name,
  known: Iterable<string>,
  kind: string,
): string | null {
  const nearest = nearestWord(word.text, known);
  const params: Params = { name: word.text, kind, hint: meant(nearest) };
  report(code, word.span, nearest === null ? params : { ...params, nearest });
  return nearest;
}

interface ReadFacts {
  readonly facts: ReadonlyMap<string, ReadFact>;
  readonly many: readonly ReadFact[];
}

function readFacts(shape: KindShape, entry: Entry, report: Report): ReadFacts {
  const facts = new Map<string, ReadFact>();
  const many: ReadFact[] = [];
  for (const inner of entry.block?.entries ?? []) {
    const { line } = inner;
    if (line.word.text === '') continue;
    const known = shape.facts.get(line.word.text);
    if (known === undefined) {
      // A misspelt fact counts as written: one finding is enough.
      const nearest =
        line.ok || line.groups.length > 0
          ? unknown(report, 'fact.unknown', line.word, shape.facts.keys(), shape.kind.name)
          : null;
      const meantFact = nearest === null ? undefined : shape.facts.get(nearest);
      if (meantFact !== undefined && !facts.has(meantFact.fact.name))
        facts.set(meantFact.fact.name, { fact: meantFact.fact, entry: inner, match: null });
      continue;
    }
    const before = known.fact.many ? undefined : facts.get(line.word.text);
    if (before !== undefined && before.entry.line.word.text === line.word.text) {
      report('fact.twice', line.word.span, { name: line.word.text }, [
        { at: placeOf(before.entry.line.word.span), message: 'the first one' },
      ]);
      continue;
    }
    let match: Match | null = null;
    if (line.ok) {
      const result = matchLine(known.shape, line);
      if (result.slip !== null) report(result.slip.code, result.slip.span, result.slip.params);
      ({ match } = result);
    }
    const read = { fact: known.fact, entry: inner, match };
    if (known.fact.many) many.push(read);
    if (!known.fact.many || !facts.has(line.word.text)) facts.set(line.word.text, read);
  }
  return { facts, many };
}

/** Facts that say the same, and facts that are missing. */
function checkFacts(
  shape: KindShape,
  entry: Entry,
  facts: ReadonlyMap<string, ReadFact>,
  head: Match | null,
  report: Report,
): void {
  const { kind } = shape;
  const told = new Set<string>();
  for (const group of kind.oneOf) {
    const written = group
      .flatMap((name) => facts.get(name) ?? [])
      .sort((a, b) => a.entry.span.start - b.entry.span.start);
    const [first, ...more] = written;
    for (const again of more) {
      if (first === undefined || told.has(again.fact.name)) continue;
      told.add(again.fact.name);
      report('fact.twice', again.entry.line.word.span, { name: again.fact.name }, [
        { at: placeOf(first.entry.line.word.span), message: `${first.fact.name} says the same` },
      ]);
    }
  }
  // A block that is not closed is not all there: its brace is told, not its facts.
  if (entry.block?.closed === false) return;
  const missing = kind.needs
    .filter((group) => !group.some((name) => facts.has(name)))
    .map((group) => group.join(' or '));
  for (const { fact, withFact, withHeadWord } of kind.needsWhen) {
    const wanted =
      (withFact !== undefined && facts.has(withFact)) ||
      (withHeadWord !== undefined && head?.words.has(withHeadWord) === true);
    if (wanted && !facts.has(fact)) missing.push(fact);
  }
  // Without a name there is nothing yet that could want them: the name is told.
  if (missing.length === 0 || (titleOf(entry) === '' && kind.head !== '')) return;
  report('fact.missing', nameOf(entry).span, { kind: kind.name, name: titleOf(entry), facts: missing });
}

/** Reads a statement. `inMirror`: it stands inside mirror. */
export function readEntry(entry: Entry, inMirror: boolean): ReadStatement {
  const findings: Finding[] = [];
  const report: Report = (code, span, params, notes = []) => {
    findings.push({ code, severity: CODES[code].severity, subject: '', at: placeOf(span), params, notes, fixes: [] });
  };
  const { line } = entry;
  const shape = KIND_SHAPES.get(line.word.text);
  const nothing = { entry, kind: null, head: null, facts: new Map<string, ReadFact>(), many: [], inner: [], findings };
  if (line.word.text === '') return nothing;
  const readInner = (): readonly ReadStatement[] => {
    const inner = (entry.block?.entries ?? []).map((one) => readEntry(one, true));
    for (const one of inner) findings.push(...one.findings);
    return inner;
  };
  if (shape === undefined) {
    unknown(report, 'kind.unknown', line.word, STATEMENT_WORDS, '');
    return holdsStatements(line.word.text) ? { ...nothing, inner: readInner() } : nothing;
  }
  const { kind } = shape;
  if (inMirror && kind.notInMirror !== null)
    report('mirror.not-here', line.word.span, { kind: kind.name, why: kind.notInMirror });
  let head: Match | null = null;
  if (line.ok) {
    const result = matchLine(shape.head, line);
    if (result.slip !== null) report(result.slip.code, result.slip.span, result.slip.params);
    head = result.match;
  }
  if (kind.block === 'statements') return { ...nothing, kind, head, inner: readInner() };
  const { facts, many } = readFacts(shape, entry, report);
  if (kind.block === 'facts') checkFacts(shape, entry, facts, head, report);
  return { entry, kind, head, facts, many, inner: [], findings };
}

/** Reads statements and keeps what it read for as long as their trees are kept. */
export class StatementReader {
  private readonly kept = new WeakMap<Statement, ReadStatement>();

  read(statement: Statement): ReadStatement {
    const kept = this.kept.get(statement);
    if (kept !== undefined) return kept;
    const read = readEntry(statement.entry, false);
    this.kept.set(statement, read);
    return read;
  }
}
