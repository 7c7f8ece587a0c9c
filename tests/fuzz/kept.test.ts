/** What is kept between judgements has a bound: by how much text it is, not only by how many files. */
import { describe, expect, it } from 'vitest';
import { Project } from '../../server/project/pipeline';

/** Judges a text that uses nothing; how often a file had to be parsed for it. */
const parsesOf = (project: Project, file: string, text: string): number | undefined =>
  project.analyse({ root: file, files: new Map([[file, text]]), uses: new Map() }).runs['parse'];

describe('what is kept', () => {
  it('small cars judged in turn are parsed once', () => {
    const project = new Project();
    for (const round of [1, 0]) {
      for (const file of ['a.cage', 'b.cage', 'c.cage'])
        expect(parsesOf(project, file, 'node a = (1, 2, 3)')).toBe(round);
    }
  });

  it('of huge ones only the last few are held', () => {
    const project = new Project();
    const huge = `# ${'x'.repeat(700_000)}\nnode a = (1, 2, 3)`;
    for (const file of ['a.cage', 'b.cage', 'c.cage']) expect(parsesOf(project, file, huge)).toBe(1);
    // The one judged last and the one before it are here, the first is gone.
    expect(parsesOf(project, 'c.cage', huge)).toBe(0);
    expect(parsesOf(project, 'b.cage', huge)).toBe(0);
    expect(parsesOf(project, 'a.cage', huge)).toBe(1);
  });
});
