/** Fixes that solve, on the sample with over forty tubes: from asking to the ways to mend it, each way verified on the whole car. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import { solve } from '../../server/fixes/fixes';
import { nodeHost } from '../../server/host/node';
import { Project } from '../../server/project/pipeline';

const FILE = 'samples/curlew-cage.cage';

/** What is made wrong in the sample: what stands there, what is written instead, and the code that tells of it. */
const FAULTS: readonly (readonly [was: string, wrong: string, code: string])[] = [
  ['let harness-height = 772', 'let harness-height = 740', 'strap.drop'],
  ['harness-bend = (-170', 'harness-bend = (-60', 'strap.free-run'],
  ['hoop-x-high = on main-hoop at 100', 'hoop-x-high = on main-hoop at 190', 'diagonal.top'],
  ['stay-foot = (-830', 'stay-foot = (-300', 'backstay.angle'],
  ['v-rear = on main-hoop at 80', 'v-rear = on main-hoop at 160', 'roof.ends'],
];

/** Rows of the table: the code, how many ways were found, the first time in a new process, median and p95 in milliseconds. */
export async function measureFixes(quick: boolean): Promise<readonly (readonly string[])[]> {
  const root = path.resolve('.');
  const sample = readFileSync(FILE, 'utf8');
  const rows: string[][] = [];
  for (const [was, wrong, code] of FAULTS) {
    const project = new Project();
    const sources = await project.load(nodeHost({ root }), FILE, sample.replace(was, wrong));
    const analysis = project.analyse(sources);
    const finding = analysis.findings.find((one) => one.code === code);
    if (finding === undefined) {
      rows.push([code, 'not told', '', '', '']);
      continue;
    }
    const took: number[] = [];
    let found = 0;
    for (let i = 0; i <= (quick ? 10 : 40); i++) {
      const start = performance.now();
      found = solve(finding, analysis).length;
      took.push(performance.now() - start);
    }
    const [first = 0, ...rest] = took;
    rest.sort((a, b) => a - b);
    const at = (share: number): string => (rest[Math.floor(share * (rest.length - 1))] ?? 0).toFixed(0);
    rows.push([code, String(found), first.toFixed(0), at(0.5), at(0.95)]);
  }
  return rows;
}
