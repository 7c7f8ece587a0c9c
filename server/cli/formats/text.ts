/** Findings for a terminal: `file:line:column: severity code: message`, then a count. */
import type { JsonFinding } from '../../project/describe';
import { visible } from '../io';

const line = (finding: JsonFinding): string => {
  const { start } = finding.range;
  const waived = finding.waived ? ' (waived)' : '';
  const where = `${finding.file}:${String(start.line + 1)}:${String(start.character + 1)}`;
  return visible(`${where}: ${finding.severity} ${finding.code}: ${finding.message}${waived}`);
};

const many = (count: number, word: string): string => `${String(count)} ${word}${count === 1 ? '' : 's'}`;

/** `3 findings: 1 error, 2 warnings, 0 information; 1 waived`. */
export function countLine(findings: readonly JsonFinding[]): string {
  const counted = findings.filter((finding) => !finding.waived);
  const waived = findings.length - counted.length;
  const of = (severity: string): number => counted.filter((finding) => finding.severity === severity).length;
  const aside = waived === 0 ? '' : `; ${String(waived)} waived`;
  if (counted.length === 0) return `No findings${aside}.`;
  const parts = `${many(of('error'), 'error')}, ${many(of('warning'), 'warning')}, ${String(of('information'))} information`;
  return `${many(counted.length, 'finding')}: ${parts}${aside}.`;
}

export const findingsText = (findings: readonly JsonFinding[]): string =>
  [...findings.map(line), countLine(findings)].map((each) => `${each}\n`).join('');
