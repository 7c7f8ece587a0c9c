/** All rulebooks at once on the sample with over forty tubes, warm: the time of judging alone. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import { Project } from '../../server/project/pipeline';
import { nodeHost } from '../../server/host/node';
import { BOOKS } from '../../server/rules/books';
import { Judging, judge } from '../../server/rules/judge';

const FILE = 'samples/curlew-cage.cage';

/** Rows of the table: what, how many tubes, how many findings, median and p95 in milliseconds. */
export async function measureBooks(quick: boolean): Promise<readonly (readonly string[])[]> {
  const root = path.resolve('.');
  const text = readFileSync(FILE, 'utf8').replace(/^rules .*$/m, `rules ${BOOKS.map(({ name }) => name).join(', ')}`);
  const project = new Project();
  const { cage, shape } = project.analyse(await project.load(nodeHost({ root }), FILE, text));
  const warm = quick ? 50 : 200;
  const tubes = String(new Set([...shape.parts.values()].map((part) => part.tube.name)).size);
  const judging = new Judging();
  const timed = (what: string, run: () => number): readonly string[] => {
    const took: number[] = [];
    let found = 0;
    for (let i = 0; i < 2 * warm; i++) {
      const start = performance.now();
      found = run();
      if (i >= warm) took.push(performance.now() - start);
    }
    took.sort((a, b) => a - b);
    const at = (share: number): string => (took[Math.floor(share * (took.length - 1))] ?? 0).toFixed(2);
    return [what, tubes, String(found), at(0.5), at(0.95)];
  };
  return [
    timed(`${String(BOOKS.length)} books, all anew`, () => judge(cage, shape).length),
    timed('the same car again', () => judging.judge(cage, shape).findings.length),
  ];
}
