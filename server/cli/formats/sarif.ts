/** Findings as SARIF 2.1.0 (OASIS), the exchange format of static analysis results. */
import type { JsonFinding, JsonRange } from '../../project/describe';
import { byText } from '../../geometry/tell';
import { explainMarkdown, explainText } from '../../rules/explain';

const LEVELS = { error: 'error', warning: 'warning', information: 'note' } as const;

/** SARIF counts lines and columns from one; the end column is the one after the last character. */
const region = (range: JsonRange) => ({
  startLine: range.start.line + 1,
  startColumn: range.start.character + 1,
  endLine: range.end.line + 1,
  endColumn: range.end.character + 1,
});

const location = (file: string, range: JsonRange) => ({
  physicalLocation: {
    artifactLocation: { uri: file.split('/').map(encodeURIComponent).join('/'), uriBaseId: '%SRCROOT%' },
    region: region(range),
  },
});

const rule = (code: string, severity: JsonFinding['severity']) => ({
  id: code,
  shortDescription: { text: firstLine(code) },
  help: { text: explainText(code) ?? code, markdown: explainMarkdown(code) ?? code },
  defaultConfiguration: { level: LEVELS[severity] },
});

/** The first sentence of a code's explanation. */
const firstLine = (code: string): string => {
  const what = explainText(code)
    ?.split('\n')
    .find((line) => line.startsWith('What: '));
  return what === undefined ? code : what.slice('What: '.length);
};

function result(finding: JsonFinding, index: number) {
  const notes = finding.notes.flatMap((note, id) =>
    note.file === null || note.range === null
      ? []
      : [{ id, ...location(note.file, note.range), message: { text: note.message } }],
  );
  return {
    ruleId: finding.code,
    ruleIndex: index,
    level: LEVELS[finding.severity],
    message: { text: finding.message },
    locations: [location(finding.file, finding.range)],
    ...(notes.length > 0 ? { relatedLocations: notes } : {}),
    ...(finding.waived ? { suppressions: [{ kind: 'inSource' }] } : {}),
    properties: {
      subject: finding.subject,
      ...(finding.measured === null ? {} : { measured: finding.measured }),
      ...(finding.allowed === null ? {} : { allowed: finding.allowed }),
      ...(finding.rule === null ? {} : { rule: finding.rule }),
    },
  };
}

/** One SARIF log with one run. The rules listed are those that something was found by. */
export function sarifText(findings: readonly JsonFinding[], version: string): string {
  const severities = new Map<string, JsonFinding['severity']>();
  for (const finding of findings) if (!severities.has(finding.code)) severities.set(finding.code, finding.severity);
  const codes = [...severities.keys()].sort(byText);
  const log = {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'cagewright',
            version,
            rules: codes.map((code) => rule(code, severities.get(code) ?? 'warning')),
          },
        },
        columnKind: 'utf16CodeUnits',
        results: findings.map((finding) => result(finding, codes.indexOf(finding.code))),
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}
