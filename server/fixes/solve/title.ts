/** The title of a solved fix: what is moved, from where to where, and what the figure is then. */
import type { PlacedFinding } from '../../../grammar/finding';
import { wordFinding } from '../../../grammar/print';
import type { Cage } from '../../cage/cage';
import { assess } from '../../rules/assess';
import { Car } from '../../rules/car';
import { booksOf } from '../../rules/judge';
import { isMissing } from '../../rules/rule';
import { RULES } from '../../rules/rules';
import type { Analysis } from '../../project/project';
import type { Literal } from './literals';
import { sayValue, write } from './literals';
import { sameMatter } from './meter';
import type { Solution } from './search';
import type { Moved } from './trial';

const list = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1] ?? ''}`;

/** The verb for a move of nodes: the direction in which most of it goes. */
function verbOf({ way: [forward, out, up] }: Moved): readonly [verb: string, direction: string] {
  const [x, y, z] = [Math.abs(forward), Math.abs(out), Math.abs(up)];
  if (z >= x && z >= y) return [up > 0 ? 'Raise' : 'Lower', ''];
  if (x >= y) return ['Move', forward > 0 ? ' forward' : ' aft'];
  return ['Move', out > 0 ? ' out' : ' in'];
}

/** The verb for a coordinate as it is written: up is up, whatever else a node does that slides along a leaning tube. */
function verbAlong(axis: string, was: number, now: number): readonly [verb: string, direction: string] | null {
  switch (axis) {
    case 'x':
      return ['Move', now > was ? ' forward' : ' aft'];
    case 'y':
      return ['Move', Math.abs(now) > Math.abs(was) ? ' out' : ' in'];
    case 'z':
      return [now > was ? 'Raise' : 'Lower', ''];
    default:
      return null;
  }
}

/** The whole value of a fact, before and after. */
function factChange(analysis: Analysis, { knob, edits }: Solution): readonly [string, string] | null {
  const [literal] = knob.literals as readonly [Literal];
  const text = analysis.trees.get(literal.file)?.text ?? '';
  const at = edits.find((edit) => edit.span.start === literal.span.start);
  if (at === undefined) return null;
  // A fact ends at its line's end, at a semicolon, at a comment, or at the brace.
  const before = text.slice(0, literal.span.start);
  const from = Math.max(before.lastIndexOf('\n'), before.lastIndexOf(';'), before.lastIndexOf('{')) + 1;
  const rest = /^[^\n;}#]*/.exec(text.slice(literal.span.end))?.[0] ?? '';
  const head = text
    .slice(from, literal.span.start)
    .trimStart()
    .replace(/^\S+\s+/, '');
  return [`${head}${literal.text}${rest}`.trimEnd(), `${head}${at.newText}${rest}`.trimEnd()];
}

/** What is done, in the imperative, with the old and the new figure. */
export function doing(analysis: Analysis, solution: Solution, moved: Moved): string {
  const { knob, value } = solution;
  const [literal] = knob.literals as readonly [Literal];
  const { slot } = knob;
  const lets = knob.literals.filter(({ holder }) => holder.kind === 'let').map(({ holder }) => holder.name);
  const nodes = knob.literals.filter(({ holder }) => holder.kind === 'node').map(({ holder }) => holder.name);
  const names = list([...new Set([...lets, ...nodes])]);
  const figures = `from ${write(literal, literal.value)} to ${sayValue(literal, value)}`;
  const [verb, direction] = verbOf(moved);
  switch (literal.holder.kind) {
    case 'let':
      return moved.nodes === 0
        ? `Set ${names} ${figures}`
        : literal.quantity === 'length'
          ? `${verb} ${names}${direction} ${figures}`
          : `Change ${names} ${figures}`;
    case 'node': {
      const along = slot.after !== '';
      const [does, where] = verbAlong(slot.axis, literal.value, value) ?? [verb, direction];
      return along
        ? `Slide ${names} ${figures}${slot.after}`
        : `${does} ${names}${where} from ${slot.before}${figures.slice('from '.length)}`;
    }
    case 'plane':
      return literal.holder.fact === 'leans'
        ? `Lean plane ${literal.holder.name} ${figures}`
        : `Move plane ${literal.holder.name} ${figures}`;
    case 'adjust':
      return `Change the adjustment of ${literal.holder.name} ${figures}`;
    case 'fact': {
      const change = factChange(analysis, solution);
      const [was, now] = change ?? [sayValue(literal, literal.value), sayValue(literal, value)];
      return `Change ${literal.holder.fact} of ${literal.holder.name} from ${was} to ${now}`;
    }
  }
}

/** What the rule reads in the changed car, in its own sentence; null where the finding is no rule's. */
function readingAfter(after: Analysis, finding: PlacedFinding): string | null {
  const rule = RULES.find(({ code }) => code === finding.code);
  if (rule === undefined) return null;
  const own = assess(new Car(after.cage, after.shape), booksOf(after.cage), [rule]).find(
    ({ item, book }) =>
      book.name === finding.rule?.book &&
      !isMissing(item) &&
      sameMatter({ subject: item.subject, params: { ...finding.params, ...item.params } }, finding),
  );
  if (own === undefined || isMissing(own.item)) return null;
  const { item } = own;
  const { limit, need } = finding.params;
  const params = { ...item.params, limit: limit ?? null, need: need ?? null, ask: '', mend: '' };
  const { measured } = item;
  const allowed = finding.allowed;
  const said = wordFinding(
    { code: finding.code, params, measured, ...(allowed === undefined ? {} : { allowed }) },
    after.cage.units,
  );
  const bare = finding.params['bothSides'] === 'yes' ? said.replace(/\.(left|right)(?![\p{L}\d_-])/gu, '') : said;
  return /less than|not crossed|and will/.test(said) ? null : lowered(bare.replace(/\.$/, ''), after.cage);
}

const lowered = (sentence: string, cage: Cage): string => {
  const first = /^[^\s]+/.exec(sentence)?.[0] ?? '';
  return cage.things.has(first) ? sentence : sentence.charAt(0).toLowerCase() + sentence.slice(1);
};

/** The whole title. */
export function titleOf(
  analysis: Analysis,
  after: Analysis,
  finding: PlacedFinding,
  solution: Solution,
  moved: Moved,
): string {
  const count = moved.nodes > 1 ? `, ${String(moved.nodes)} nodes move` : '';
  return withReading(`${doing(analysis, solution, moved)}${count}`, after, finding);
}

/** What is done, and the figure that the rule reads then. */
export function withReading(done: string, after: Analysis, finding: PlacedFinding): string {
  const then = readingAfter(after, finding);
  return then === null ? done : `${done}: then ${then}`;
}
