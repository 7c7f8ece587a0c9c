/** The unit of a file's bare lengths: what its `units` line says. */
import type { FileTree } from './tree';
import { LENGTH_UNITS, UNIT_SPELLINGS, type LengthUnit } from './units';

/**
 * The length unit of a file; mm without a `units` line. A line that is wrong behind its unit, or spells it out, still says
 * what the file is written in: with another unit every figure of the car would be wrong, and told so.
 */
export function unitsOf(tree: FileTree): LengthUnit {
  for (const { tree: statement } of tree.statements) {
    if (statement.entry.line.word.text !== 'units') continue;
    const said = /^units[ \t]+([a-z]+)/.exec(statement.text)?.[1];
    if (said === undefined) continue;
    const word = Object.hasOwn(UNIT_SPELLINGS, said) ? UNIT_SPELLINGS[said] : said;
    const unit = LENGTH_UNITS.find((one) => one === word);
    if (unit !== undefined) return unit;
  }
  return 'mm';
}
