/** What the fixes of a car share: things by name, names as they are written on a side, lengths as they are written in a file. */
import { unitsOf } from '../../grammar/file-units';
import type { PlacedFinding } from '../../grammar/finding';
import { sayInches } from '../../grammar/print';
import { UNITS, type LengthUnit } from '../../grammar/units';
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

const INCH = UNITS['in']?.factor ?? 25.4;

/** How a length may be rounded: as it is (to a tenth of a millimetre), to the next size of a drill or a tape, or up to one. */
type Rounding = 'fine' | 'nearest' | 'up';

/** In inches: sixteenths, as they stand on drills and tapes; where it has to be finer, thousandths. */
function inInches(length: number, how: Rounding): string {
  const sixteenths = (length / INCH) * 16;
  if (how === 'fine' && Math.abs(sixteenths - Math.round(sixteenths)) > 0.06)
    return String(Math.round((length / INCH) * 1000) / 1000);
  return sayInches(((how === 'up' ? Math.ceil(sixteenths - 1e-9) : Math.max(1, Math.round(sixteenths))) / 16) * INCH);
}

/** A length as it is written into a file: in the file's own unit, and bare; in feet as inches. Null: there is none. */
export const written = (context: FixContext, file: string, value: unknown, how: Rounding = 'fine'): string | null => {
  if (typeof value !== 'object' || value === null || !('value' in value) || typeof value.value !== 'number')
    return null;
  const unit = unitOf(context, file);
  if (unit === 'in') return inInches(value.value, how);
  if (unit === 'ft') return `${inInches(value.value, how)} in`;
  const factor = UNITS[unit]?.factor ?? 1;
  return String(Math.round((Math.round(value.value * 10) / 10 / factor) * 1e6) / 1e6);
};

/** The unit of bare lengths in a file. */
export const unitOf = (context: FixContext, file: string): LengthUnit => {
  const tree = context.trees.get(file);
  return tree === undefined ? 'mm' : unitsOf(tree);
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
