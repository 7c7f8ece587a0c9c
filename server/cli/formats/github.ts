/** Findings as workflow commands that a hosted CI turns into annotations: `::warning file=…,line=…::message`. */
import type { JsonFinding } from '../../project/describe';

/** Escapes of the workflow command's own syntax, for its message and for the values of its properties. */
const data = (text: string): string => text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
const property = (text: string): string => data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');

const LEVELS = { error: 'error', warning: 'warning', information: 'notice' } as const;

function command(finding: JsonFinding): string {
  const { start, end } = finding.range;
  // Columns are only read where both ends stand on one line.
  const columns: readonly (readonly [string, number])[] =
    start.line === end.line
      ? [
          ['col', start.character + 1],
          ['endColumn', end.character + 1],
        ]
      : [];
  const properties = [
    ['file', finding.file],
    ['line', start.line + 1],
    ['endLine', end.line + 1],
    ...columns,
    ['title', finding.waived ? `${finding.code} (waived)` : finding.code],
  ] as const;
  const level = finding.waived ? 'notice' : LEVELS[finding.severity];
  const list = properties.map(([name, value]) => `${name}=${property(String(value))}`).join(',');
  return `::${level} ${list}::${data(finding.message)}\n`;
}

export const githubText = (findings: readonly JsonFinding[]): string => findings.map(command).join('');
