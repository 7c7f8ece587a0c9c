/** How one finding speaks for a thing and its twin. */
import type { Finding, Params } from '../../grammar/finding';

const SIDE = /\.(left|right)(?=$|\.[ab]$)/;

const bare = (text: string): string => text.replace(SIDE, '');

/** Every name of that side in a sentence without its side. */
const bareWords = (text: string, side: string | undefined): string =>
  side === undefined ? text : text.replace(new RegExp(`\\.${side}(?![\\p{L}\\d_-])`, 'gu'), '');

/**
 * A finding of both twins: names lose the side that the finding stands on, and the sentence says that both are meant.
 * Names of the other side keep it: there it matters.
 */
export function forBothSides(finding: Finding): Finding {
  const side = SIDE.exec(finding.subject)?.[1];
  const strip = (text: string): string => bareWords(text, side);
  const params: Record<string, Params[string]> = {};
  for (const [key, value] of Object.entries(finding.params)) {
    if (typeof value === 'string') params[key] = strip(value);
    else if (Array.isArray(value)) params[key] = value.map((item: string) => strip(item));
    else params[key] = value;
  }
  const notes = finding.notes.map((note) => ({ ...note, message: bareWords(note.message, side) }));
  return { ...finding, subject: bare(finding.subject), params: { ...params, bothSides: 'yes' }, notes };
}
