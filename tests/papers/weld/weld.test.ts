/** The weld list: lengths against circles and ellipses, reach against cases whose answer is plain. */
import { describe, expect, it } from 'vitest';
import { betweenStretches } from '../../../server/centreline/stretches';
import { sawnEdge, weldLines } from '../../../server/papers/weld/list';
import { weldPapers } from '../../../server/papers/weld/papers';
import { howWords } from '../../../server/papers/weld/words';
import { outOfCarOf } from '../../../server/papers/weld/out';
import type { Reach } from '../../../server/papers/weld/reach';
import { blockersAt, TORCH } from '../../../server/papers/weld/torch';
import { inputOf, sampleInput } from '../bend/support';
import { read } from '../support';

/** A post with a bar square to it at 500 up, running to the car's left. */
const TEE = (more = ''): string => `cage "Tee"
units mm
section bar { od 40; wall 2 }
node low = (0, 0, 0)
node high = (0, 0, 1000)
node root = (0, 0, 500)
node tip = (0, 600, 500)
tube post as brace {
  section bar
  path low, high
}
tube arm as brace {
  section bar
  path root, tip
}
${more}
`;

async function armReach(more = ''): Promise<Reach> {
  const input = await inputOf(TEE(more));
  const line = weldLines(input).find(({ part, end }) => part.name === 'arm' && end.which === 'first');
  if (line?.reach === undefined || line.reach === null) throw new Error('no joint');
  return line.reach;
}

const roof = (z: number): string =>
  `panel skin as roof { outline (-400, -400, ${String(z)}), (400, -400, ${String(z)}), (400, 900, ${String(z)}), (-400, 900, ${String(z)}) }`;

describe('reach', () => {
  it('a joint alone is reached all round, at all points of 15 degrees', async () => {
    expect(await armReach()).toEqual({
      ...{ blocked: 0, of: 24, by: [], fixed: [], lowers: true, drop: 0 },
      ...{ plates: [], under: [], covered: 0, sharp: 0, heel: expect.closeTo(Math.PI / 2, 2) as number },
    });
  });

  it('a roof far above stands in no way; close above the arm it does, and the drop frees it', async () => {
    expect((await armReach(roof(700))).blocked).toBe(0);
    const tight = await armReach(roof(535));
    expect(tight.blocked).toBeGreaterThan(0);
    expect([tight.by, tight.fixed]).toEqual([['skin'], ['skin']]);
    // What a drop does is what a higher roof does: a roof higher by the drop is free, one millimetre less is not.
    const drop = tight.drop ?? NaN;
    expect((await armReach(roof(535 + drop))).blocked).toBe(0);
    expect((await armReach(roof(535 + drop - 1))).blocked).toBeGreaterThan(0);
  });

  it('at the top of a tee the steepest way that is left is 15 degrees off level: that is the drop', async () => {
    // At the top of the arm: groove of 90°, middle 45° up, leaning 30°: 15° above level. The nozzle of 18 mm with its end
    // 90 mm out stands 90 · sin 15° + 9 above the arm's top at 520: worked by hand.
    const drop = (await armReach(roof(530))).drop ?? NaN;
    const needed = 520 + 90 * Math.sin(Math.PI / 12) + 9;
    expect(drop).toBe(Math.ceil(needed - 530));
  });

  it('a smaller torch of the file finds room where the assumed one does not, and the list says whose sizes it took', async () => {
    const torch = 'torch { nozzle 10; reach 20; stick-out 5; lean 40 deg }';
    expect((await armReach(roof(545))).blocked).toBeGreaterThan(0);
    expect((await armReach(`${roof(545)}\n${torch}`)).blocked).toBe(0);
    const words = async (more: string): Promise<string> =>
      read(String(weldPapers(await inputOf(TEE(more)))[0]?.content)).words;
    expect(await words(torch)).toContain('Sizes as the file tells them.');
    expect(await words('torch { nozzle 10; reach 20 }')).toContain(
      'Not told, and assumed (common practice): beginning 10 mm (13/32 in) from the weld, up to 30° from the middle',
    );
    expect(await words('')).toContain('Assumed sizes, common practice: measure your own');
  });

  it('a tube that comes down with it is freed by no drop', async () => {
    const reach = await armReach(`node a = (-300, 50, 550)
node b = (300, 50, 550)
tube over as brace {
  section bar
  path a, b
}`);
    expect(reach.blocked).toBeGreaterThan(0);
    expect(reach.by).toContain('over');
    expect([reach.drop, reach.fixed]).toEqual([null, []]);
    expect(howWords(reach, 'mm', (name) => name)).toContain(
      'take over, and what is tacked to it, out again and put it back after it',
    );
  });
});

describe('a plate below the joint', () => {
  /** The arm runs off at `height` above a large plate on which the post stands. */
  const low = async (height: number, more = ''): Promise<Reach> => {
    const car = TEE(`foot pad { at low; plate 400 x 400 x 3; lies level }\n${more}`).replaceAll(
      '500)',
      `${String(height)})`,
    );
    const line = weldLines(await inputOf(car)).find(({ part, end }) => part.name === 'arm' && end.which === 'first');
    if (line?.reach === undefined || line.reach === null) throw new Error('no joint');
    return line.reach;
  };

  it('is in the way where the flattest torch still meets it', async () => {
    // Below the arm: groove of 90°, middle 45° down, leaning 30°: 15° below level. The nozzle of 18 mm with its end 90 mm out
    // reaches 90 · sin 15° + 9 below the arm's underside, 20 below its axis: worked by hand.
    const needed = 20 + 90 * Math.sin(Math.PI / 12) + 9;
    expect((await low(needed + 0.1)).blocked).toBe(0);
    const tight = await low(needed - 0.1);
    expect([tight.blocked > 0, tight.by, tight.plates, tight.fixed, tight.drop]).toEqual([
      true,
      ['pad'],
      ['pad'],
      [],
      null,
    ]);
    expect(howWords(tight, 'mm', (name) => name)).toBe(
      'weld it before pad is on its tube, or with that off again; or weld it with a smaller torch',
    );
  });

  it('comes off where the tubes are let down anyway', async () => {
    const tight = await low(45, roof(75));
    expect([...tight.by].sort()).toEqual(['pad', 'skin']);
    // Without the plate it is the drop of the roof alone.
    const car = TEE(roof(75)).replaceAll('500)', '45)');
    const line = weldLines(await inputOf(car)).find(({ part, end }) => part.name === 'arm' && end.which === 'first');
    expect([tight.drop !== null, tight.drop]).toEqual([true, line?.reach?.drop]);
  });

  it('and is not in the way of the tube that stands on it', async () => {
    const lines = weldLines(await inputOf(TEE('foot pad { at low; plate 400 x 400 x 3; lies level }')));
    expect(lines.find(({ end }) => end.fit === 'foot')?.reach?.blocked).toBe(0);
  });
});

describe('a gusset that goes in afterwards', () => {
  const web = (more: string): string => `gusset web { at root; between arm, post; legs 90 x 90; thickness 2; ${more} }`;

  it('stands in no way before, and is told with what it will cover: the upper half at most', async () => {
    const flat = await armReach(web('kind flat'));
    expect([flat.blocked, flat.under]).toEqual([0, ['web']]);
    // A thin plate in the middle hides the top; beside it a torch that leans away from it gets in.
    expect(flat.covered).toBeGreaterThan(0);
    expect(flat.covered).toBeLessThan(6);
    // Bent sheet as wide as the tubes hides all that a plate in its middle hides, and more.
    const sheet = await armReach(web('kind sheet'));
    expect(sheet.covered).toBeGreaterThan(flat.covered);
    expect(sheet.covered).toBeLessThanOrEqual(13);
    // At the far end of the post it covers nothing.
    expect((await armReach(`${web('kind sheet').replace('at root', 'at high')}`)).covered).toBe(0);
    const car = TEE(web('kind sheet'))
      .replace('path low, high', 'path low, high; first open; last open')
      .replace('path root, tip', 'path root, tip; last open');
    const text = read(String(weldPapers(await inputOf(car))[0]?.content)).words;
    expect(text).toMatch(/weld it before web goes in, which covers \d+\s%\sof it/);
  });
});

describe('the heel of a joint', () => {
  const leaning = async (degrees: number): Promise<Reach> => {
    const [y, z] = [600 * Math.sin((degrees * Math.PI) / 180), 500 + 600 * Math.cos((degrees * Math.PI) / 180)];
    const source = TEE()
      .replace('(0, 600, 500)', `(0, ${String(y)}, ${String(z)})`)
      .replace('(0, 0, 1000)', '(0, 0, 1400)');
    const found = weldLines(await inputOf(source)).find(
      ({ part, end }) => part.name === 'arm' && end.which === 'first',
    );
    if (found?.reach === undefined || found.reach === null) throw new Error('no joint');
    return found.reach;
  };

  it.each([20, 29, 45, 70])('is as open as the tubes lean to each other: %i degrees', async (degrees) => {
    // In the plane of both axes the two surfaces lie as the axes do: plane geometry.
    const reach = await leaning(degrees);
    expect((reach.heel * 180) / Math.PI).toBeCloseTo(degrees, 3);
    // The least local dihedral angle at which the root is counted on: 30 degrees, AWS D1.1 (from memory).
    expect(reach.sharp > 0).toBe(degrees < 30);
  });
});

it("of two that are in each other's way only the first is welded with the other one out", async () => {
  const input = await inputOf(
    TEE(`node a = (0, 12, 545)
node far = (0, 500, 1000)
tube over as brace {
  section bar
  path a, far
}`),
  );
  const out = outOfCarOf(input);
  const arms = out.map(({ part }) => part);
  expect(arms).toEqual(expect.arrayContaining(['arm', 'over']));
  const hows = out.map(({ how }) => how);
  expect(hows[0]).toContain('out again and put it back after it');
  const later = hows.slice(1).filter((how) => how.includes('is welded by then'));
  expect(later.length).toBeGreaterThan(0);
  // Nothing that is welded already is taken out.
  const welded = new Set<string>();
  for (const { part, how } of out) {
    for (const name of welded) expect(how).not.toContain(`take ${input.numbers.get(name)?.label ?? name},`);
    welded.add(part);
  }
});

describe('on a plate', () => {
  const POST = (more = ''): string => `cage "Post"
units mm
section bar { od 40; wall 2 }
node low = (0, 0, 0)
node high = (0, 0, 800)
foot pad { at low; plate 120 x 120 x 3; lies square }
tube post as brace { section bar; path low, high; last open }
${more}
`;
  const reach = async (more = ''): Promise<Reach | null | undefined> =>
    weldLines(await inputOf(POST(more))).find(({ end }) => end.fit === 'foot')?.reach;
  const wall = (y: number): string =>
    `panel skin as side { outline (-400, ${String(y)}, -200), (400, ${String(y)}, -200), (400, ${String(y)}, 500), (-400, ${String(y)}, 500) }`;

  it('free, it is reached all round; the panel that the plate lies on is not in the way', async () => {
    expect(await reach()).toMatchObject({ blocked: 0, of: 24, lowers: false });
    const floor = 'panel floor as floor { outline (-400, -400, -2), (400, -400, -2), (400, 400, -2), (-400, 400, -2) }';
    expect(await reach(floor)).toMatchObject({ blocked: 0 });
  });

  it('a wall beside it is: half of the tube lies on that side at most, and no drop is told', async () => {
    // Middle of the groove 45° up and out, leaning up by 30° to 75°: the tip, 90 mm from the weld, is 90 · cos 75° + 9 mm
    // out of the tube's side at 20: a wall farther than that is in no way.
    const far = 20 + 90 * Math.cos((75 * Math.PI) / 180) + 9;
    expect((await reach(wall(far + 1)))?.blocked).toBe(0);
    const near = await reach(wall(30));
    expect(near?.blocked).toBeGreaterThan(0);
    expect(near?.blocked).toBeLessThanOrEqual(13);
    expect(near).toMatchObject({ by: ['skin'], fixed: ['skin'], drop: null });
    const text = String(weldPapers(await inputOf(POST(wall(30))))[0]?.content);
    expect(text).toContain('get skin out of the way; or weld it with a smaller torch');
    expect(text).not.toContain('let the tubes down');
    expect(text).not.toContain('no drop');
  });
});

it('lengths and throats: a square end on a plate is a circle, a saddle is longer; 0.7 of the thinner wall', async () => {
  expect(sawnEdge(20, 0)).toBeCloseTo(40 * Math.PI, 6);
  // Ellipse with half axes 20 and 40: 193.77, by the complete elliptic integral E(0.75) = 1.2110560 (handbook table).
  expect(sawnEdge(20, Math.PI / 3)).toBeCloseTo(4 * 40 * 1.211056, 2);
  const [arm] = weldLines(await inputOf(TEE())).filter(({ part }) => part.name === 'arm');
  expect(arm?.throat).toBeCloseTo(1.4, 9);
  expect(arm?.length).toBeGreaterThan(40 * Math.PI);
});

it('distance of stretches: crossing, side by side, end on', () => {
  expect(betweenStretches([-1, 0, 0], [1, 0, 0], [0, -1, 3], [0, 1, 3])).toBeCloseTo(3, 9);
  expect(betweenStretches([0, 0, 0], [4, 0, 0], [1, 2, 0], [9, 2, 0])).toBeCloseTo(2, 9);
  expect(betweenStretches([0, 0, 0], [1, 0, 0], [4, 4, 0], [9, 4, 0])).toBeCloseTo(5, 9);
});

it('a nozzle beside a rod: free at a hair more than both radii', () => {
  const rod = (x: number) =>
    ({ kind: 'tube', name: 'rod', a: [x, -500, 50], b: [x, 500, 50], radius: 10, moves: false }) as const;
  const straight = { ...TORCH, lean: 0 };
  expect(blockersAt([0, 0, 0], [0, 0, 1], [rod(18.9)], straight)).toEqual(['rod']);
  expect(blockersAt([0, 0, 0], [0, 0, 1], [rod(19.1)], straight)).toBeNull();
});

it('the cage of the samples: a page with every weld, the same twice', async () => {
  const input = await sampleInput('curlew-cage');
  const [paper] = weldPapers(input);
  expect(paper?.content).toBe(weldPapers(input)[0]?.content);
  const ends = [...input.shape.parts.values()].filter(({ tube }) => !tube.existing).flatMap((part) => part.ends);
  expect(String(paper?.content).match(/☐/g)).toHaveLength(
    ends.filter(({ fit }) => fit === 'cope' || fit === 'foot').length,
  );
  expect(String(paper?.content)).toContain(input.hash.slice(0, 16));
});
