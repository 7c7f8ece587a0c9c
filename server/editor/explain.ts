/** What stands behind a finding's code, as a page for the editor: with the limits of the books that the car's files hold. */
import type { Analysis } from '../project/project';
import { explainMarkdown } from '../rules/explain';
import { BUILT_IN, libraryOf } from '../rules/library';

/** The page of a code, in Markdown; null where there is no such code. Without an analysis: the tool's books alone. */
export const explainCode = (code: string, analysis: Analysis | null): string | null =>
  explainMarkdown(code, analysis === null ? BUILT_IN : libraryOf(analysis.cage));
