/** Findings in the formats of others, held against what those formats say of themselves. */
import { afterEach, describe, expect, it } from 'vitest';
import { githubText } from '../../server/cli/formats/github';
import { sarifText } from '../../server/cli/formats/sarif';
import { countLine } from '../../server/cli/formats/text';
import type { JsonFinding } from '../../server/project/describe';
import type { World } from './world';
import { UNVENTED, world } from './world';

const FINDING: JsonFinding = {
  file: 'cars/my bar, 50%.cage',
  range: { start: { line: 2, character: 4 }, end: { line: 2, character: 9 } },
  code: 'strap.drop',
  severity: 'warning',
  subject: 'belt',
  message: '100% too steep:\r\nraise, the bar',
  measured: { value: 14.2, unit: 'deg' },
  allowed: { from: 0, to: 10, unit: 'deg' },
  rule: { book: 'shop', citation: 'common practice', edition: '', source: 'common practice' },
  waived: false,
  notes: [
    { file: 'b.cage', range: { start: { line: 0, character: 0 }, end: { line: 1, character: 0 } }, message: 'here' },
  ],
};

let w: World | null = null;
afterEach(() => w?.remove());

describe('github', () => {
  // Escapes as the workflow-command documentation gives them: % CR LF everywhere, and : , in the properties.
  it('escapes its message and its properties', () => {
    expect(githubText([FINDING])).toBe(
      '::warning file=cars/my bar%2C 50%25.cage,line=3,endLine=3,col=5,endColumn=10,title=strap.drop::100%25 too steep:%0D%0Araise, the bar\n',
    );
  });

  it('gives no columns over several lines, and says notice for information and for what is waived', () => {
    const long = { ...FINDING, range: { start: { line: 0, character: 3 }, end: { line: 4, character: 1 } } };
    expect(githubText([{ ...long, severity: 'information' }])).toMatch(/^::notice file=[^:]*,line=1,endLine=5,title=/);
    expect(githubText([{ ...FINDING, severity: 'error', waived: true }])).toMatch(
      /^::notice .*title=strap\.drop \(waived\)/,
    );
    expect(githubText([{ ...FINDING, severity: 'error' }])).toMatch(/^::error /);
  });
});

interface Region {
  readonly startLine: number;
  readonly startColumn: number;
  readonly endLine: number;
  readonly endColumn: number;
}
interface Location {
  readonly physicalLocation: { readonly artifactLocation: { readonly uri: string }; readonly region: Region };
}
interface Log {
  readonly $schema: string;
  readonly version: string;
  readonly runs: readonly {
    readonly tool: {
      readonly driver: {
        readonly name: string;
        readonly version: string;
        readonly rules: readonly {
          readonly id: string;
          readonly help: { readonly text: string };
          readonly shortDescription: { readonly text: string };
        }[];
      };
    };
    readonly columnKind: string;
    readonly results: readonly {
      readonly ruleId: string;
      readonly ruleIndex: number;
      readonly level: string;
      readonly message: { readonly text: string };
      readonly locations: readonly Location[];
      readonly relatedLocations?: readonly Location[];
      readonly suppressions?: readonly { readonly kind: string }[];
    }[];
  }[];
}

const sarif = (findings: readonly JsonFinding[]): Log => JSON.parse(sarifText(findings, '0.1.0')) as Log;

describe('sarif', () => {
  // Section numbers: Static Analysis Results Interchange Format (SARIF) 2.1.0, OASIS Standard, from memory.
  it('is one run with its tool and rules', () => {
    const log = sarif([FINDING, { ...FINDING, code: 'seat.gap', severity: 'error' }]);
    expect(log.version).toBe('2.1.0'); // 3.13.2
    expect(log.$schema).toContain('sarif-schema-2.1.0');
    const [run, ...more] = log.runs;
    expect(more).toEqual([]);
    expect(run?.tool.driver.name).toBe('cagewright'); // 3.19.8
    expect(run?.columnKind).toBe('utf16CodeUnits'); // 3.14.27
    expect(run?.tool.driver.rules.map((rule) => rule.id)).toEqual(['seat.gap', 'strap.drop']);
    for (const rule of run?.tool.driver.rules ?? []) {
      expect(rule.help.text).toContain('Mend: '); // 3.49.13
      expect(rule.shortDescription.text.length).toBeGreaterThan(10);
    }
    for (const result of run?.results ?? []) {
      expect(run?.tool.driver.rules[result.ruleIndex]?.id).toBe(result.ruleId); // 3.27.6
      expect(['error', 'warning', 'note']).toContain(result.level); // 3.27.10
      expect(result.message.text).not.toBe('');
    }
  });

  it('counts from one, and writes names as relative URIs', () => {
    const [result] = sarif([FINDING]).runs[0]?.results ?? [];
    expect(result?.locations[0]?.physicalLocation.region).toEqual({
      startLine: 3,
      startColumn: 5,
      endLine: 3,
      endColumn: 10,
    }); // 3.30.5
    expect(result?.locations[0]?.physicalLocation.artifactLocation.uri).toBe('cars/my%20bar%2C%2050%25.cage'); // 3.4.3
    expect(result?.relatedLocations?.[0]?.physicalLocation.artifactLocation.uri).toBe('b.cage'); // 3.27.22
  });

  it('suppresses what is waived in the source', () => {
    expect(sarif([FINDING]).runs[0]?.results[0]?.suppressions).toBeUndefined();
    expect(sarif([{ ...FINDING, waived: true }]).runs[0]?.results[0]?.suppressions).toEqual([{ kind: 'inSource' }]); // 3.35.3
  });

  it('holds no results and no rules where nothing was found', () => {
    expect(sarif([]).runs[0]).toMatchObject({ results: [], tool: { driver: { rules: [] } } });
  });

  it('comes out of the program', async () => {
    w = await world({ 'a.cage': UNVENTED });
    const { stdout } = await w.run(['check', 'a.cage', '--format', 'sarif']);
    expect((JSON.parse(stdout) as Log).runs[0]?.results[0]?.ruleId).toBe('space.unvented');
    expect((await w.run(['check', 'a.cage', '--format', 'github'])).stdout).toMatch(/^::warning file=a\.cage,line=12,/);
  });
});

describe('the count', () => {
  const of = (severity: JsonFinding['severity'], waived = false): JsonFinding => ({ ...FINDING, severity, waived });
  it('counts each severity, and the waived aside', () => {
    expect(countLine([])).toBe('No findings.');
    expect(countLine([of('error')])).toBe('1 finding: 1 error, 0 warnings, 0 information.');
    expect(countLine([of('error'), of('warning'), of('information'), of('error', true)])).toBe(
      '3 findings: 1 error, 1 warning, 1 information; 1 waived.',
    );
  });
});
