/** The whole packet of shop papers, in a process that has made none before, as the command line meets it. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { performance } from 'node:perf_hooks';

const FILES = ['samples/plover-rollbar.cage', 'samples/curlew-cage.cage'];

/** Rows of the table: file, papers, kilobytes, median and worst of a few runs from start to end in seconds. */
export function measurePacket(quick: boolean): readonly (readonly string[])[] {
  return FILES.map((file) => {
    const took: number[] = [];
    let papers: readonly string[] = [];
    let size = 0;
    for (let i = 0; i < (quick ? 2 : 5); i++) {
      const folder = mkdtempSync(path.join(tmpdir(), 'cage-bench-'));
      const start = performance.now();
      execFileSync(process.execPath, ['server/dist/cli.js', 'packet', file, '--out', folder]);
      took.push((performance.now() - start) / 1000);
      papers = readdirSync(folder, { withFileTypes: true, recursive: true })
        .filter((entry) => entry.isFile())
        .map((entry) => path.join(entry.parentPath, entry.name));
      size = papers.reduce((sum, one) => sum + statSync(one).size, 0);
      rmSync(folder, { recursive: true, force: true });
    }
    took.sort((a, b) => a - b);
    const at = (share: number): string => (took[Math.floor(share * (took.length - 1))] ?? 0).toFixed(2);
    return [path.basename(file), String(papers.length), (size / 1000).toFixed(0), at(0.5), at(1)];
  });
}
