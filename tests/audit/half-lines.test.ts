/** "No name or unit finding inside a line that did not parse; at most one syntax finding a line" (findings page, "Place"). */
import { describe, expect, it } from 'vitest';
import { analyse } from '../support/analyse';

const HEAD = `section s { od 40; wall 2 }
node a = (0, 500, 0)
node crown = (0, 500, 800)
`;

describe('a line that did not parse', () => {
  it.each([
    'node crown- = (0, 400, 800)',
    'node crown-',
    'node a--b = (1, 2, 3)',
    'tube crown { section s; path a, }',
    'node b = a + (aft 3, nowhere',
    'let k = unknown * (3 deg',
  ])('%s: one finding, of its syntax', async (line) => {
    const { findings } = await analyse(`${HEAD}${line}\n`);
    const here = findings.filter((f) => f.place.file === 'example.cage' && f.place.span.start >= HEAD.length);
    const syntax = here.filter((f) => f.code.startsWith('syntax.'));
    expect(syntax).toHaveLength(1);
    if (!line.startsWith('tube')) expect(here).toHaveLength(1);
  });

  it('a name that stands twice is told where its line is whole', async () => {
    const { findings } = await analyse(`${HEAD}node crown = (0, 400, 800)\n`);
    expect(findings.map((f) => f.code)).toEqual(['name.twice']);
  });
});
