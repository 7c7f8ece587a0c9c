/** Snippets from the vocabulary: each statement with the facts that it needs, every value a field to fill in. */
import { KIND_SHAPES, type KindShape, type Part, type Pattern, type Shape } from '../pattern';
import { ROLES } from '../vocabulary';

export interface Snippet {
  readonly prefix: string;
  readonly body: readonly string[];
  readonly description: string;
}

/** Numbers the fields of one snippet. */
class Fields {
  private count = 0;

  field(name: string): string {
    this.count++;
    return `\${${String(this.count)}:${name}}`;
  }

  choice(words: readonly string[]): string {
    this.count++;
    return `\${${String(this.count)}|${words.join(',')}|}`;
  }
}

function write(part: Part, fields: Fields): string {
  switch (part.part) {
    case 'slot':
      if (part.type === 'choice') return fields.choice(part.words);
      if (part.type === 'role') return fields.choice(Object.keys(ROLES));
      if (part.type === 'string') return `"${fields.field(part.name)}"`;
      if (part.type === 'plane') return `y = ${fields.field(part.name)}`;
      if (part.type === 'triple') return `(${fields.field('down 4')})`;
      if (part.type === 'pair') return `(${fields.field('forward 50')}, ${fields.field('out 30')})`;
      if (part.type === 'bolt') return fields.field('M8');
      return part.space === 'code' ? fields.field('strap.drop') : fields.field(part.name);
    case 'literal':
      return part.word;
    case 'arrow':
      return '->';
    case 'sized':
      return part.slots.map((slot) => write(slot, fields)).join(' x ');
    case 'optional':
      return '';
    case 'list':
      return part.parts.map((one) => write(one, fields)).join(' ');
  }
}

/** A tube's role is worth asking for, though it may be left out. */
const keeps = (part: Part): boolean =>
  part.part === 'optional' && part.parts.some((one) => one.part === 'slot' && one.type === 'role');

const writeParts = (parts: readonly Part[], fields: Fields): string =>
  parts
    .flatMap((part) => (part.part === 'optional' && keeps(part) ? part.parts : [part]))
    .map((part) => write(part, fields))
    .filter((text) => text !== '')
    .join(' ');

/** Of several ways to write a value, the last: it is the one with most in it. */
const writePattern = (pattern: Pattern, fields: Fields): string =>
  writeParts(pattern[pattern.length - 1] ?? [], fields);

const namesCode = (pattern: Pattern): boolean =>
  pattern.some((parts) => parts.some((part) => part.part === 'slot' && part.space === 'code'));

/** What follows a code depends on the code: the example has one and what suits it. */
function writeFact(shape: Shape | undefined, fields: Fields): string {
  if (shape === undefined) return '';
  return shape.example !== null && namesCode(shape.pattern)
    ? fields.field(shape.example)
    : writePattern(shape.pattern, fields);
}

/** The facts that a statement cannot do without; of those that say the same, the first. */
function neededFacts({ kind }: KindShape): readonly string[] {
  const needed = kind.needs.flatMap(([first]) => first ?? []);
  const more = kind.needsWhen.filter(({ withFact }) => withFact !== undefined && needed.includes(withFact));
  const all = new Set([...needed, ...more.map(({ fact }) => fact)]);
  // In the order of the vocabulary, which is the order of a build sheet. Without a need: all of them.
  const facts = kind.facts.map((fact) => fact.name);
  return all.size === 0 ? facts : facts.filter((fact) => all.has(fact));
}

/** The snippet of one statement. */
export function snippetOf(shape: KindShape): Snippet {
  const { kind, head, facts } = shape;
  const fields = new Fields();
  const name = kind.target ? `${fields.field('name')} = ` : '';
  const begin = `${kind.name} ${name}${writePattern(head.pattern, fields)}`.trimEnd();
  if (kind.block === 'none') return { prefix: kind.name, body: [begin], description: kind.meaning };
  const inner =
    kind.block === 'statements'
      ? ['\t$0']
      : neededFacts(shape).map((name) => `\t${name} ${writeFact(facts.get(name)?.shape, fields)}`);
  return { prefix: kind.name, body: [`${begin} {`, ...inner, '}'], description: kind.meaning };
}

/** All snippets, as an editor wants them. */
export function snippets(): Readonly<Record<string, Snippet>> {
  return Object.fromEntries([...KIND_SHAPES.values()].map((shape) => [shape.kind.name, snippetOf(shape)]));
}
