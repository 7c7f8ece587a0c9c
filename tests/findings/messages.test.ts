/** What a message says, where it once said it oddly: the words of a person at a bench, the cause told once, what mends it. */
import { describe, expect, it } from 'vitest';
import { STAGES } from '../../grammar/explanations';
import { analyse } from '../support/analyse';

const messages = async (text: string, code: string, stage: keyof typeof STAGES = 'hoop'): Promise<readonly string[]> =>
  (await analyse(`${STAGES[stage]}${text}\n`)).findings.filter((f) => f.code === code).map((f) => f.message);

describe('values', () => {
  it('a tube that is told to be cut to itself hears of the fact that says so', async () => {
    const tube = (fact: string): string =>
      `node a = (0, 0, 0)\nnode b = (500, 0, 0)\ntube t { section t38; path a, b; ${fact}; first open }`;
    expect(await messages(tube('last onto t'), 'fact.value', 'parts')).toEqual([
      "'last' wants another tube than this one.",
    ]);
    expect(await messages(tube('last open; split by t'), 'fact.value', 'parts')).toEqual([
      "'split' wants another tube than this one.",
    ]);
  });

  it('what has to stand there is missed before what may', async () => {
    const node = 'node t = (0, 0, 0)\nwaive strap.drop on t';
    expect((await messages(node, 'fact.value', 'parts'))[0]).toMatch(/: 'because' is missing\.$/);
    expect((await messages(`${node} up to 12`, 'fact.value', 'parts'))[0]).toMatch(/: 'because' is missing\.$/);
    expect((await messages(`${node} up to`, 'fact.value', 'parts'))[0]).not.toContain("because' is missing");
  });

  it('a function that there is not is told by its name', async () => {
    expect(await messages('let a = sqr(4)', 'syntax.unexpected', 'parts')).toEqual([
      "'(' has no place here: 'sqr' is no function; did you mean 'sqrt'?",
    ]);
    expect(await messages('let a = sqrt(4, 5)', 'fact.value', 'parts')).toEqual(["'sqrt' wants 1 figure: sqrt(a)."]);
  });

  it('brackets that are no place are told as brackets', async () => {
    const [said] = await messages('node n = (5, 0)', 'fact.value', 'parts');
    expect(said).toMatch(/^'\(…\)' wants three coordinates/);
  });
});

const all = async (text: string, stage: keyof typeof STAGES = 'hoop'): Promise<readonly string[]> =>
  (await analyse(`${STAGES[stage]}${text}\n`)).findings.map((f) => `${f.code}: ${f.message}`);
const codes = async (text: string, stage: keyof typeof STAGES = 'hoop'): Promise<readonly string[]> =>
  (await analyse(`${STAGES[stage]}${text}\n`)).findings.map((f) => f.code);

describe('one cause is told once', () => {
  const stay = (more = ''): string =>
    `node b = (-500, 500, 500)\ntube stay as brace { section t38; path crown.left, b; last open${more} }`;

  it('an end on the corner of a bend, whether it is told to land on that tube or not', async () => {
    expect(await codes(stay())).toEqual(['place.bend-corner']);
    expect(await codes(stay('; first onto hoop'))).toEqual(['place.bend-corner']);
    // Of two ends there nobody needs an order.
    const second = 'node c = (0, 0, 500)\ntube prop as brace { section t38; path crown.left, c; last open }';
    expect(await codes(`${stay()}\n${second}`)).toEqual(['place.bend-corner', 'place.bend-corner']);
  });

  it('a foot, a joint or a vent on the corner of a bend', async () => {
    const said = ["'crown.left' is the corner of a bend in hoop: no point of the tube lies there"];
    for (const text of [
      'foot pad { at crown.left; plate 100 x 100 x 3 }',
      'joint crown.left { order hoop }',
      'vent hoop -> air { at crown.left; from 20; dia 4 }',
    ]) {
      const told = await all(text);
      expect(told).toHaveLength(1);
      expect(told[0]).toContain(said[0]);
    }
    expect(await codes(`${stay()}\njoint crown.left { order hoop, stay }`)).toEqual(['place.bend-corner']);
    expect(await codes(`${stay()}\nvent stay -> hoop { at crown.left; dia 4 }`)).toEqual(['place.bend-corner']);
  });

  it('a node on a shallow bend, whose corner lies within the tube, is no such corner', async () => {
    const shallow = `node a = (0, 0, 0)
node b = (0, 0, 600)
node c = (60, 0, 1200)
node d = (-500, 0, 600)
tube mast as brace { section t45; die d45; path a, b, c; first open; last open }
tube stay as brace { section t38; path b, d; last open }`;
    expect(await codes(shallow, 'parts')).not.toContain('place.bend-corner');
  });

  it('an end beside a tube that runs nearly along with it: it does not touch', async () => {
    const told = await all(
      'node a = (0, 0, 0)\nnode b = (500, 0, 0)\nnode c = (200, 15, 0)\nnode d = (600, 15.5, 0)\ntube one as brace { section t38; path a, b; first open; last open }\ntube two as brace { section t38; path c, d; last open }',
      'parts',
    );
    expect(told).toEqual([
      'cope.no-contact: The first end of two does not touch one: its node stands 15 mm beside the axis of one; move it there.',
    ]);
  });

  it('an end within a tube on the same axis: it is not told to move there, where it is', async () => {
    const [told] = await all(
      'node a = (0, 0, 0)\nnode b = (500, 0, 0)\nnode c = (200, 0, 0)\nnode d = (600, 0, 0)\ntube one as brace { section t45; path a, b; first open; last open }\ntube two as brace { section t38; path c, d; last open }',
      'parts',
    );
    expect(told).toBe(
      'cope.no-contact: The first end of two does not touch one: the axis of one runs on along its own, so nothing can be cut to it; turn one of them, or end it short of one.',
    );
  });

  it('all corners of a tube without a die', async () => {
    const path = 'node a = (0, 0, 0)\nnode b = (400, 0, 0)\nnode c = (400, 400, 0)\nnode d = (0, 400, 0)\n';
    const tube = (nodes: string): string =>
      `${path}tube t as brace { section t38; path ${nodes}; first open; last open }`;
    expect(await all(tube('a, b, c, d'), 'parts')).toEqual([
      'bend.no-die: t turns at b, c but has no die: add die NAME.',
    ]);
    expect(await all(tube('a, b, c'), 'parts')).toEqual([
      'bend.no-die: t turns 90° at b but has no die: add die NAME.',
    ]);
  });
});

describe('what mends it is said', () => {
  it('of an end that hangs over: nearer to the axis, or the other way round', async () => {
    const over = (z: number, section: string): string =>
      `section big { od 60; wall 3 }\nnode b = (-300, 0, ${String(z)})\nnode c = (0, 0, ${String(z)})\ntube stay as brace { section ${section}; path c, b; first onto hoop; last open }`;
    expect((await messages(over(1015, 't38'), 'cope.overhang')).join()).toContain(
      'move its axis 11.5 mm toward that of hoop',
    );
    expect((await messages(over(1000, 'big'), 'cope.overhang')).join()).toContain(
      'it is of od 60 mm, hoop of 45 mm only; cut hoop to it, or use a larger tube there',
    );
  });

  it('of an end on a bend, of tubes that run into each other, and of a tube that runs into itself', async () => {
    const onBend = await messages(
      'node b = (-300, 400, 900)\nnode s = on hoop mid crown.left\ntube stay as brace { section t38; path s, b; last open }',
      'cope.on-bend',
    );
    expect(onBend.join()).toMatch(/lands on a bend of hoop: move it 102\.7 mm along hoop, onto its straight\./);
    const clash = await messages(
      'node a = (-300, 0, 1010)\nnode b = (300, 0, 1010)\ntube bar as brace { section t38; path a, b; first open; last open }',
      'tube.clash',
    );
    expect(clash).toEqual([
      'bar and hoop run 31.5 mm into each other without a joint, at (0, 0, 1005): move them 31.5 mm apart, or join them: split one by the other, or end it there.',
    ]);
    // Two legs of one tube that cross: the axes pass 38 - 32.3 mm apart.
    const loop = (rise: number): string =>
      `node a = (1000, 0, 0)
node b = (1400, 0, 0)
node c = (1400, 450, 0)
node d = (1150, 450, 0)
node e = (1150, -300, ${String(rise)})
tube loop as brace { section t38; die d38; path a, b, c, d, e; first open; last open }`;
    expect((await messages(loop(10), 'tube.clash')).join()).toMatch(/^loop runs 32 mm into itself, at \(1150, /);
    expect(await messages(loop(80), 'tube.clash')).toEqual([]);
  });

  it('of an order that was chosen where no node stands', async () => {
    const crossing = `node a = (1000, -400, 0)
node b = (1000, 400, 0)
node c = (600, 0, 0)
node d = (1400, 0, 0)
node e = (1000, 0, 400)
node f = (1000, 0, -400)
tube through as brace { section t38; path a, b; first open; last open }
tube cut as brace { section t38; path c, d; first open; last open; split by through }
tube post as brace { section t38; path e, f; first open; last open; split by through }
`;
    const [said] = await messages(crossing, 'cope.order-guessed');
    expect(said).toMatch(/^Where post\.a, post\.b meet cut\.a, cut\.b, the tool chose .* a node there, and joint NODE/);
    const decided = 'node m = (1000, 0, 0)\njoint m { order post, cut }';
    expect(await messages(`${crossing}${decided}`, 'cope.order-guessed')).toEqual([]);
  });
});

describe('a bar inside a seat', () => {
  it('is told to be inside, and by how much', async () => {
    const [said] = await messages(
      'node a = (30, -600, 700)\nnode b = (30, 600, 700)\ntube bar as harness-bar { section t38; path a, b; first open; last open }\nseat driver { slots (15, 300, 700); recline 0 deg; slot-spacing 220; back 45 }',
      'seat.gap',
      'parts',
    );
    // Upright: the rear face at x = 15 - 45 = -30, the bar's front at 30 + 19.
    expect(said).toBe(
      'bar stands inside seat driver, by 79 mm, a slide needs 50 mm: move it 129 mm aft, or the seat forward.',
    );
  });
});
