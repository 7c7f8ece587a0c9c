/** How one finding speaks for a thing and its twin. */
import type { Finding, Params } from '../../grammar/finding';

const SIDE = /\.(left|right)(?=$|\.[ab]$)/;

const bare = (text: string): string => text.replace(SIDE, '');

/**
 * A finding of both twins: names lose the side that the finding stands on, and the sentence says that both are meant.
 * Names of the other side keep it: there it matters.
 */
export function forBothSides(finding: Finding): Finding {
  const side = SIDE.exec(finding.subject)?.[1];
  const strip = (text: string): string => (side !== undefined && text.includes(`.${side}`) ? bare(text) : text);
  const params: Record<string, Params[string]> = {};
  for (const [key, value] of Object.entries(finding.params)) {
    if (typeof value === 'string') params[key] = strip(value);
    else if (Array.isArray(value)) params[key] = value.map((item: string) => strip(item));
    else params[key] = value;
  }
  return { ...finding, subject: bare(finding.subject), params: { ...params, bothSides: 'yes' } };
}
