/** A node dragged: every grip against the car itself, with its number made larger by a millimetre and analysed anew. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { nodeHost } from '../../server/host/node';
import type { Node } from '../../server/cage/cage';
import { Project } from '../../server/project/pipeline';
import type { Analysis } from '../../server/project/project';
import { dragged, editedFiles } from '../../server/view/drag';
import { GripReader } from '../../server/view/grips';
import { analyse } from '../support/analyse';

const say = (): string => 'line 1';
const nodesOf = ({ cage }: Analysis): readonly Node[] =>
  [...cage.things.values()].filter((thing): thing is Node => thing.kind === 'node');

const nodeNamed = (analysis: Analysis, name: string): Node => {
  const node = nodesOf(analysis).find((one) => one.name === name);
  if (node === undefined) throw new Error(`There is no node ${name}.`);
  return node;
};

describe.each(['samples/plover-rollbar.cage', 'samples/curlew-cage.cage', 'samples/siskin-club-bar.cage'])(
  '%s',
  (file) => {
    let analysis: Analysis;
    beforeAll(async () => {
      const project = new Project();
      analysis = project.analyse(await project.load(nodeHost({ root: '.' }), file, readFileSync(file, 'utf8')));
    });

    it('each grip goes the way that it says, on both sides of the car', () => {
      const reader = new GripReader(analysis, say);
      const apart = analysis.apart();
      let seen = 0;
      for (const node of nodesOf(analysis)) {
        for (const { way, literal, line, worth } of reader.of(node).grips) {
          // A hundredth of the number's own unit: the way of a place on a bend is its tangent.
          const step = 0.01;
          const text = String(literal.value + step);
          const files = editedFiles(analysis.sources.files, [
            { file: literal.file, span: literal.span, newText: text },
          ]);
          const { cage } = apart.build({ ...analysis.sources, files });
          const after = cage.things.get(node.name);
          const at = after?.kind === 'node' ? after.at : null;
          const size = step * worth;
          const went = at?.map((value, i) => (value - (node.at?.[i] ?? 0)) / size) ?? [];
          for (const [i, share] of way.entries())
            expect(went[i], `${node.name} ${literal.text} ${line === null ? '' : 'along'}`).toBeCloseTo(share, 2);
          seen += 1;
        }
      }
      expect(seen).toBeGreaterThan(5);
    });
  },
);

const CAR = (units: string, lines: string): string =>
  `cage "G"\nunits ${units}\nsection s { od 40 mm; wall 2 mm }\n${lines}`;

const drag = async (
  text: string,
  node: string,
  by: readonly [number, number, number],
): Promise<{ readonly says: string; readonly text: string; readonly why: string | null }> => {
  const analysis = await analyse(text);
  const at = nodeNamed(analysis, node).at ?? [0, 0, 0];
  const to: [number, number, number] = [at[0] + by[0], at[1] + by[1], at[2] + by[2]];
  const { edits, says, why } = dragged(analysis, `node:${node}`, to, say);
  const files = editedFiles(analysis.sources.files, edits ?? []);
  return { says, why, text: files.get(analysis.root) ?? '' };
};

describe('what is written', () => {
  it('whole millimetres from where the number is, with its sign and its digits', async () => {
    const text = CAR('mm', 'node n = (-790.50, 505, .5)');
    const after = await drag(text, 'n', [12.3, -0.4, -3.7]);
    expect(after.text).toContain('node n = (-778.50, 505, -3.5)');
    expect(after.says).toBe('x -778.50, z -3.5');
  });

  it('a number that comes through zero loses its sign or gains one', async () => {
    expect((await drag(CAR('mm', 'node n = (-5, 5, 0)'), 'n', [12, -12, 3])).text).toContain('node n = (7, -7, 3)');
    expect((await drag(CAR('mm', 'node n = (-5, 5, 0)'), 'n', [5, -5, 0])).text).toContain('node n = (0, 0, 0)');
  });

  it('sixteenths of an inch, as fractions where a fraction stands there or none', async () => {
    const text = CAR('in', 'node n = (16 9/16, -8, 3.5)');
    // 1/16 in is 1.5875 mm.
    const after = await drag(text, 'n', [1.6, 25.4, -3.2]);
    expect(after.text).toContain('node n = (16 5/8, -7, 3.375)');
    expect(after.says).toBe('x 16 5/8, y -7, z 3.375');
  });

  it('keeps the unit of a number that has one of its own', async () => {
    const after = await drag(CAR('mm', 'node n = (16 in, 0, 5 cm)'), 'n', [25.4, 0, 10]);
    expect(after.text).toContain('node n = (17 in, 0, 6 cm)');
    expect(after.says).toBe('x 17 in, z 6 cm');
  });

  it('offsets and direction words, on the side that they are for', async () => {
    const offset = CAR('mm', 'node a = (100, 200, 300)\nnode n = a + (aft 50, up 20)');
    const after = await drag(offset, 'n', [-7, 5, 4]);
    expect(after.text).toContain('n = a + (aft 57, up 24)');
    const right = 'mirror right { node n = (aft 100, out 400, up 50) }';
    expect((await drag(CAR('mm', right), 'n.right', [0, -10, 0])).text).toContain('(aft 100, out 410, up 50)');
    expect((await drag(CAR('mm', right), 'n.left', [0, 10, 0])).text).toContain('(aft 100, out 410, up 50)');
    const inward = 'mirror left { node a = (0, 500, 0)\nnode n = a + (in 60, up 0) }';
    expect((await drag(CAR('mm', inward), 'n.left', [0, 10, 0])).text).toContain('a + (in 50, up 0)');
  });

  it('in a plane that leans, along the plane', async () => {
    const text = CAR('mm', 'plane hoop { at (0, 0, 0); leans 30 deg aft }\nnode n = in hoop (100, 200)');
    // Up by 17.32 in height is 20 along a plane that leans 30 degrees.
    const after = await drag(text, 'n', [0, 3, 20 * Math.cos(Math.PI / 6)]);
    expect(after.text).toContain('in hoop (103, 220)');
  });

  it('along a tube: from an end, behind a bend, where it crosses a height', async () => {
    const tube = 'node a = (0, 0, 0)\nnode b = (0, 0, 1000)\ntube t { section s; path a, b; first open; last open }\n';
    expect((await drag(CAR('mm', `${tube}node n = on t at 100 from a`), 'n', [5, 5, 30])).text).toContain(
      'at 130 from a',
    );
    expect((await drag(CAR('mm', `${tube}node n = on t at 100 from b`), 'n', [5, 5, 30])).text).toContain(
      'at 70 from b',
    );
    expect((await drag(CAR('mm', `${tube}node n = on t at 20 from a`), 'n', [0, 0, -90])).text).toContain(
      'at 0 from a',
    );
    expect((await drag(CAR('mm', `${tube}node n = on t where z = 400`), 'n', [0, 0, 30])).text).toContain(
      'where z = 430',
    );
  });

  it('a share of a tube, in half per cents', async () => {
    const tube = 'node a = (0, 0, 0)\nnode b = (0, 0, 1000)\ntube t { section s; path a, b; first open; last open }\n';
    expect((await drag(CAR('mm', `${tube}node n = on t at 40 %`), 'n', [5, 5, 32])).text).toContain('at 43 %');
    expect((await drag(CAR('mm', `${tube}node n = on t at 40 %`), 'n', [0, 0, 9000])).text).toContain('at 100 %');
  });

  it('between two nodes, along the line between them: a share, or a distance from the first', async () => {
    const two = 'node a = (0, 0, 0)\nnode b = (600, 0, 800)\n';
    const by = async (at: string, x: number, z: number): Promise<string> =>
      (await drag(CAR('mm', `${two}node n = between a and b at ${at}`), 'n', [x, 40, z])).text;
    // The two are 1000 apart, 3 : 4 in side view: 30 along is 18 forward and 24 up.
    expect(await by('40 %', 18, 24)).toContain('at 43 %');
    expect(await by('250', 18, 24)).toContain('at 280');
    expect(await by('40 %', 9000, 12000)).toContain('at 100 %');
    expect(await by('250.5', 9000, 12000)).toContain('at 999.5');
    expect(await by('250', -9000, -12000)).toContain('at 0');
    const told = await drag(CAR('mm', `${two}node n = between a and b at 40 %`), 'n', [18, 0, 24]);
    expect(told.says).toBe('at 43 %');
  });

  it('between two nodes of a mirrored part, on either side and across the car', async () => {
    const lines =
      'mirror left {\nnode a = (0, 500, 0)\nnode b = (0, 500, 1000)\nnode n = between a and b at 40 %\n' +
      'node m = between a and b.right at 400\n}';
    for (const side of ['left', 'right'])
      expect((await drag(CAR('mm', lines), `n.${side}`, [0, 0, 50])).text, side).toContain('a and b at 45 %');
    // From (0, ±500, 0) to (0, ∓500, 1000): 50 up and 50 across is 70.7 along.
    expect((await drag(CAR('mm', lines), 'm.left', [0, -50, 50])).text).toContain('b.right at 471');
    expect((await drag(CAR('mm', lines), 'm.right', [0, 50, 50])).text).toContain('b.right at 471');
  });

  it('a let that stands for this coordinate alone is written; one that others use is not', async () => {
    const alone = CAR('mm', 'let high = 700 # the bar\nnode n = (0, 0, high)');
    expect((await drag(alone, 'n', [0, 0, 12])).text).toContain('let high = 712 # the bar');
    const shared = CAR('mm', 'let high = 700\nnode n = (0, 0, high)\nnode m = (0, 50, high)');
    const after = await drag(shared, 'n', [4, 0, 12]);
    expect(after.text).toContain('node n = (4, 0, high)');
    expect(after.text).toContain('let high = 700');
    const analysis = await analyse(shared);
    const held = new GripReader(
      analysis,
      ({ span }) => `line ${String(shared.slice(0, span.start).split('\n').length)}`,
    );
    expect(held.of(nodeNamed(analysis, 'n')).hangs).toBe('z comes from let high (line 4)');
  });
});

describe('what cannot be moved says what it hangs on', () => {
  const why = async (lines: string): Promise<string> => {
    const answer = await drag(CAR('mm', lines), 'n', [5, 5, 5]);
    expect(answer.text).toBe(CAR('mm', lines));
    return answer.why ?? 'nothing';
  };
  const tube = 'node a = (0, 0, 0)\nnode b = (0, 0, 1000)\ntube t { section s; path a, b; first open; last open }\n';

  it.each([
    [`${tube}node n = on t at 2 * 50 from a`, 'n: on t at 2 * 50 from a: it moves with that tube'],
    [`${tube}node n = between a and b at 2 * 20 %`, 'n: between a and b at 2 * 20 %: it moves with those places'],
    [
      `${tube}node n = between a and (0, 0, 500) at 40 %`,
      'n: between a and (0, 0, 500) at 40 %: it moves with those places',
    ],
    [`${tube}node n = on t nearest (50, 0, 300)`, 'n: on t nearest (50, 0, 300): it moves with that tube'],
    [`${tube}node n = b`, 'n: it is the same place as b, and moves with it'],
    [
      'node n = (2 * 50, sqrt(9), 1 + 2)',
      'n: x is worked out, 2 * 50; y is worked out, sqrt(9); z is worked out, 1 + 2',
    ],
  ])('%s', async (lines, told) => {
    expect(await why(lines)).toBe(told);
  });

  it('a node that does not exist', async () => {
    const analysis = await analyse(CAR('mm', 'node n = (0, 0, 0)'));
    expect(dragged(analysis, 'node:m', [0, 0, 0], say)).toEqual({
      edits: null,
      why: 'there is no such node',
      says: '',
    });
  });
});
