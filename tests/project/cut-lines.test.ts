/**
 * Cutting any line short damages no other line, through the whole pipeline: a finding stands in the line that was cut, in
 * a line that hangs on something of it, or it was there before. Nothing throws, and no figure is lost that does not hang
 * on the line.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { PlacedFinding } from '../../grammar/finding';
import { Project } from '../../server/project/pipeline';
import type { Analysis } from '../../server/project/project';
import { mapHost } from '../support/analyse';

const FOLDER = join(__dirname, '../../samples');
const FILE = 'plover-rollbar.cage';
const TEXT = readFileSync(join(FOLDER, FILE), 'utf8');

const project = new Project();
const analysed = async (text: string): Promise<Analysis> =>
  project.analyse(await project.load(mapHost(new Map([[FILE, text]])), FILE, text));

describe('a line that is cut short', () => {
  it('makes no finding of words, figures or units in any other line', async () => {
    const before = await analysed(TEXT);
    expect(before.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    const damage: string[] = [];
    let start = 0;
    for (const line of TEXT.split('\n')) {
      const end = start + line.length;
      const bare = line.trim();
      // Comments say nothing; a brace cut off is told where it opens.
      if (bare !== '' && !bare.startsWith('#') && !/[{}]$/.test(bare)) {
        const indent = line.length - line.trimStart().length;
        for (let at = start + indent + 1; at < end; at += 7) {
          const { findings } = await analysed(TEXT.slice(0, at) + TEXT.slice(end));
          for (const { code, place, message } of findings as readonly PlacedFinding[]) {
            const inside = place.span.start >= start && place.span.start <= at;
            if (!inside && /^(syntax|number|unit|fact\.twice|kind)\b/.test(code))
              damage.push(`${line.trim()} cut at ${String(at - start)}: ${code} ${message}`);
          }
        }
      }
      start = end + 1;
    }
    expect(damage).toEqual([]);
  }, 120_000);

  it('leaves every figure of a tube that does not hang on it', async () => {
    const figures = ({ shape }: Analysis): ReadonlyMap<string, number | null> =>
      new Map([...shape.parts].map(([name, part]) => [name, part.cutLength]));
    const before = figures(await analysed(TEXT));
    expect(before.size).toBeGreaterThanOrEqual(5);
    // The second half of a line of one strap, of one seat, of a vent: no tube hangs on them.
    for (const word of ['strap driver-outer', 'slot-spacing 210', 'vent diagonal']) {
      const start = TEXT.indexOf(word);
      const end = TEXT.indexOf('\n', start);
      for (let at = start + 2; at < end; at += 6) {
        const now = figures(await analysed(TEXT.slice(0, at) + TEXT.slice(end)));
        expect([...now]).toEqual([...before]);
      }
    }
    // The path of the diagonal: the other tubes are as they were, and whole.
    const start = TEXT.indexOf('path diagonal-top');
    const end = TEXT.indexOf('\n', start);
    for (let at = start + 5; at < end; at += 4) {
      const now = figures(await analysed(TEXT.slice(0, at) + TEXT.slice(end)));
      for (const [name, length] of before)
        if (name !== 'diagonal') expect([name, now.get(name)]).toEqual([name, length]);
    }
  }, 60_000);
});
