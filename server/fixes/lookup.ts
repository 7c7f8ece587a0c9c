/** What the fixes of a car share: things by name, names as they are written on a side, lengths as they are written in a file. */
import type { PlacedFinding } from '../../grammar/finding';
import type { Node, Tube } from '../cage/cage';
import { absolute, thingOf } from './edit';
import type { FixContext, TextEdit } from './fix';

export const some = (edit: TextEdit | null): readonly TextEdit[] => (edit === null ? [] : [edit]);

export const text = (finding: PlacedFinding, name: string): string | null => {
  const value = finding.params[name];
  return typeof value === 'string' && value !== '' ? value : null;
};

/** The whole tube of a part's name: a piece of a split is written where its tube is. */
export const tubeNamed = (context: FixContext, name: string): Tube | null => {
  const thing = thingOf(context.cage, name) ?? thingOf(context.cage, name.replace(/\.[ab]$/, ''));
  return thing?.kind === 'tube' ? thing : null;
};

export const nodeNamed = (context: FixContext, name: string): Node | null => {
  const thing = thingOf(context.cage, name);
  return thing?.kind === 'node' ? thing : null;
};

/** The name of a thing's twin; the name itself where it has none. */
export const mirrorName = (context: FixContext, name: string): string => {
  const thing = context.cage.things.get(name);
  if (thing === undefined || thing.side === null) return name;
  return `${thing.base}.${thing.side === 'left' ? 'right' : 'left'}`;
};

/** A length as it is written into a file: bare in a file in millimetres, else with its unit. */
export const written = (context: FixContext, file: string, value: unknown): string | null => {
  if (typeof value !== 'object' || value === null || !('value' in value) || typeof value.value !== 'number')
    return null;
  const digits = String(Math.round(value.value * 10) / 10);
  return unitOf(context, file) === 'mm' ? digits : `${digits} mm`;
};

/** The `units` line of a file. */
export const unitOf = (context: FixContext, file: string): string => {
  const line = context.trees.get(file)?.statements.find((s) => s.tree.entry.line.word.text === 'units');
  const word = line?.tree.entry.line.groups[0]?.args[0];
  return word?.kind === 'ref' ? (word.names[0]?.text ?? 'mm') : 'mm';
};

/**
 * True where the place of `from` hangs on `on` (bare names), by whatever way: a place of `on` that were written from
 * `from` would then be a circle. Asked of the text: a name that stands in a statement counts.
 */
export function hangsOn(context: FixContext, from: string, on: string): boolean {
  const { cage } = context;
  const waiting = [from];
  const seen = new Set(waiting);
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    if (name === on) return true;
    const origin = thingOf(cage, name)?.origin ?? cage.planes.get(name)?.origin ?? cage.lets.get(name)?.origin;
    if (origin === undefined) continue;
    const { start, end } = absolute(origin, origin.entry.span);
    for (const use of cage.uses) {
      if (use.place.file !== origin.file || use.place.span.start < start || use.place.span.end > end) continue;
      const used = use.target.slice(use.target.indexOf(':') + 1);
      if (seen.has(used)) continue;
      seen.add(used);
      waiting.push(used);
    }
  }
  return false;
}
