/** Every sample compiles, stands in the layout of the formatter, and is what the README says of it. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { CODES, RULE_CODES } from '../../grammar/codes';
import { formatFile } from '../../grammar/format';
import { Project } from '../../server/project/pipeline';
import type { Analysis } from '../../server/project/project';
import { nodeHost } from '../../server/host/node';

const ROOT = path.resolve(__dirname, '../..');
const samples = readdirSync(path.join(ROOT, 'samples')).filter((name) => name.endsWith('.cage'));
const textOf = (name: string): string => readFileSync(path.join(ROOT, 'samples', name), 'utf8');

async function analyse(name: string): Promise<Analysis> {
  const project = new Project();
  return project.analyse(await project.load(nodeHost({ root: ROOT }), `samples/${name}`, textOf(name)));
}

describe('the samples', () => {
  it.each(samples)('%s stands in the layout of the formatter', (name) => {
    const text = textOf(name);
    expect(formatFile(text)).toBe(text);
  });

  it.each(['plover-rollbar.cage', 'siskin-club-bar.cage', 'curlew-cage.cage'])('%s can be built', async (name) => {
    const { findings, shape } = await analyse(name);
    expect(findings.filter((finding) => finding.severity !== 'information')).toEqual([]);
    for (const part of shape.parts.values()) {
      expect(part.cutLength).toBeGreaterThan(0);
      expect(part.ends.flatMap((end) => end.ordinates).filter((ordinate) => ordinate.cut === null)).toEqual([]);
    }
    expect(shape.spaces.every((space) => space.vented)).toBe(true);
  });

  it('the saloon has forty tubes or more, and six points on the ground', async () => {
    const { shape, cage } = await analyse('curlew-cage.cage');
    expect(new Set([...shape.parts.values()].map((part) => part.tube.name)).size).toBeGreaterThanOrEqual(40);
    const feet = [...cage.things.values()].filter((thing) => thing.kind === 'foot').map((foot) => foot.base);
    expect(feet.filter((base) => base !== 'tower-plate')).toHaveLength(6);
  });

  it('one sample shows every finding that there is', async () => {
    const seen = new Set((await analyse('every-finding.cage')).findings.map((finding) => finding.code));
    // What only a book asks for has its examples with the rules, and its cars in the tests of the rules.
    const plain = Object.keys(CODES).filter((code) => !Object.hasOwn(RULE_CODES, code));
    expect(plain.filter((code) => !seen.has(code as keyof typeof CODES))).toEqual([]);
  });
});
