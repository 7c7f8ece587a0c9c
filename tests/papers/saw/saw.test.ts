/** Saw sheets: what they say, read back by an HTML parser and compared with the curve itself. */
import { parse } from 'parse5';
import { mm } from '../../../grammar/units';
import { describe, expect, it } from 'vitest';
import type { PacketInput, Paper } from '../../../server/papers/packet/paper';
import { packetInput } from '../../../server/papers/packet/packet';
import type { CopeStart, KnownStarts } from '../../../server/papers/saw/figures';
import { sawnFigures } from '../../../server/papers/saw/figures';
import { sawPapers } from '../../../server/papers/saw/papers';
import { holdWords } from '../../../server/papers/saw/sheet';
import { markFromBend, markFromEnd } from '../../../server/papers/saw/tape';
import { fromBend, noLess, noMore } from '../../../server/papers/on-tape';
import { analyse } from '../../support/analyse';
import { wordsIn } from '../support';

/** An invented car: a bent hoop on level plates, and a brace that comes from behind and below to its middle. */
const car = (more = ''): string => `cage "Dunlin saw car"
units mm
section t { od 45; wall 2.5 }
die d { od 45; radius 135; grip 75 }
mirror left {
  node a = (0, 600, 0)
  node b = (0, 500, 1000)
  foot pad { at a; plate 120 x 120 x 3; lies 0 deg up out }
}
node c = (-900, 0, 0)
node d = (0, 0, 1000)
tube hoop as main-rollbar { section t; die d; path a.left, b.left, b.right, a.right }
tube brace { section t; path c, d }
${more}
`;

const inputOf = async (text: string): Promise<PacketInput> => {
  const { cage, shape, findings } = await analyse(text);
  return packetInput({ cage, shape, findings, hash: '0123456789abcdef0123', maker: 'Cagewright 9', placeOf: () => '' });
};

const untouched = (input: PacketInput): PacketInput => ({ ...input, touched: new Map() });

const brace = (papers: readonly Paper[]): string => {
  const found = papers.find(({ parts }) => parts.includes('brace'));
  return typeof found?.content === 'string' ? wordsIn(parse(found.content)) : '';
};

const copeOf = (input: PacketInput): CopeStart => {
  const part = input.shape.parts.get('brace');
  const figures = part === undefined ? null : sawnFigures(part, part.ends[1], input.cage.saw);
  if (figures?.kind !== 'cope') throw new Error('the brace was meant to have a fish-mouth');
  return figures;
};

describe('saw sheets', () => {
  it('one for each part that is made, with mark, hash, cautions, and the same bytes twice', async () => {
    const input = untouched(await inputOf(car('saw { vice 120 mm; kerf 2 mm }')));
    const papers = sawPapers(input);
    expect(papers.map(({ path }) => path)).toEqual(['saw/01-brace.html', 'saw/02-hoop.html']);
    for (const { content, kind } of papers) {
      expect(kind).toBe('two-cut');
      expect(content).toContain('a paper of a packet');
      expect(content).toContain('0123456789abcdef');
      expect(content).toContain('An aid, not an approval');
      expect(content).not.toContain('not known');
    }
    expect(sawPapers(untouched(await inputOf(car('saw { vice 120 mm; kerf 2 mm }'))))).toEqual(papers);
  });

  it('a part that an error touches has none', async () => {
    const input = await inputOf(car());
    const [name] = input.shape.parts.keys();
    const finding = input.findings[0];
    if (name === undefined || finding === undefined) throw new Error('this car was meant to have findings');
    const touched = new Map([[name, { finding, why: 'for this test' }]]);
    expect(sawPapers({ ...input, touched }).flatMap(({ parts }) => parts)).not.toContain(name);
  });

  it('the printed cuts, in half degrees and whole clocks, stay clear of the curve by themselves', async () => {
    const { coped, chosen, cuts } = copeOf(await inputOf(car()));
    expect(chosen.cuts.length).toBe(2);
    let nearest = Infinity;
    for (const { cut } of cuts) {
      expect((cut.angle * 360) / Math.PI).toBeCloseTo(Math.round((cut.angle * 360) / Math.PI), 6);
      // As the tape has it: half a millimetre, rounded toward the end.
      const printed = Number.parseFloat(markFromEnd(cut.fromLongPoint, 'mm'));
      expect(printed).toBeLessThanOrEqual(cut.fromLongPoint);
      expect(printed).toBeGreaterThan(cut.fromLongPoint - 0.5);
      for (let k = 0; k < 720; k++) {
        const clock = (k * Math.PI) / 360;
        for (const rho of [coped.innerRadius, coped.outerRadius]) {
          const slope = rho * Math.cos(clock - (cut.deepClock ?? 0)) - coped.outerRadius;
          const setback = coped.minCut + printed + Math.tan(cut.angle) * slope;
          nearest = Math.min(nearest, (coped.curve.cut(clock) ?? NaN) - setback);
        }
      }
    }
    expect(nearest).toBeGreaterThan(0);
  });

  it.each(['mm', 'in'] as const)(
    'what is left to grind is what the printed marks leave, in a file of %s',
    async (units) => {
      const input = untouched(await inputOf(car()));
      const part = input.shape.parts.get('brace');
      const figures = part === undefined ? null : sawnFigures(part, part.ends[1], null, units);
      if (figures?.kind !== 'cope') throw new Error('the brace was meant to have a fish-mouth');
      const { coped, chosen } = figures;
      // Marks as a tape has them: half millimetres, thirty-seconds of an inch; then the planes through them, by hand.
      const [step, perUnit] = units === 'mm' ? [0.5, 1] : [1 / 32, 25.4];
      const marks = chosen.cuts.map(({ fromLongPoint }) => fromLongPoint / perUnit / step);
      for (const mark of marks) expect(mark).toBeCloseTo(Math.round(mark), 6);
      let left = -Infinity;
      for (let k = 0; k < 1440; k++) {
        const clock = (k * Math.PI) / 720;
        for (const rho of [coped.innerRadius, coped.outerRadius]) {
          const kept = chosen.cuts.map((cut, i) => {
            const slope = rho * Math.cos(clock - (cut.deepClock ?? 0)) - coped.outerRadius;
            return coped.minCut + Math.round(marks[i] ?? NaN) * step * perUnit + Math.tan(cut.angle) * slope;
          });
          left = Math.max(left, (coped.curve.cut(clock) ?? NaN) - Math.max(...kept));
        }
      }
      expect(chosen.left).toBeCloseTo(left, 1);
      expect(chosen.left).toBeGreaterThan(left - 1e-6);
    },
  );

  it('each end says how its line TOP is found: a bent one by the inside of its bend, a straight one has one line', async () => {
    const papers = sawPapers(untouched(await inputOf(car())));
    const hoop = papers.find(({ parts }) => parts.includes('hoop'));
    const said = typeof hoop?.content === 'string' ? wordsIn(parse(hoop.content)) : '';
    // Legs stand nearly upright, so 0° is forward. Up along the left leg, clockwise from forward is left, and the bend's inside
    // is right: 270°. Down along the right leg, clockwise from forward is right, and the inside is left: 270° again.
    expect(said).toMatch(
      /Line FRONT\s*the inside of bend 1 stands at clock 270°, 106 mm \(4 11\/64 in\) round from FRONT/,
    );
    expect(said).toMatch(/Line FRONT\s*the inside of bend 2 stands at clock 270°/);
    expect(brace(papers)).toMatch(/Line TOP\s*one straight line along the whole tube/);
  });

  it('twins are sawn by the same angles at mirrored clocks, and their numbers hold for their own curves', async () => {
    const input = untouched(
      await inputOf(
        `${car()}mirror left {
  node e = (-700, 350, 150)
  node f = (0, 300, 1000)
  tube stay { section t; path e, f }
}
`,
      ),
    );
    const known: KnownStarts = [];
    const [left, right] = ['stay.left', 'stay.right'].map((name) => {
      const part = input.shape.parts.get(name);
      const figures = part === undefined ? null : sawnFigures(part, part.ends[1], null, 'mm', known);
      if (figures?.kind !== 'cope') throw new Error(`${name} was meant to have a fish-mouth`);
      return figures;
    });
    expect(known).toHaveLength(1);
    expect(right?.chosen.cuts.map(({ angle }) => angle)).toEqual(left?.chosen.cuts.map(({ angle }) => angle));
    left?.chosen.cuts.forEach(({ deepClock }, i) =>
      expect((deepClock ?? 0) + (right?.chosen.cuts[i]?.deepClock ?? 0)).toBeCloseTo(2 * Math.PI, 9),
    );
    // Worked out for itself, the twin loses as little.
    const alone = input.shape.parts.get('stay.right');
    const own = alone === undefined ? null : sawnFigures(alone, alone.ends[1], null);
    expect(own?.kind === 'cope' ? own.leftTwo : NaN).toBeCloseTo(right?.leftTwo ?? NaN, 1);
  });

  it('an end on a foot has its angle and the clock of its long point alone', async () => {
    const input = untouched(await inputOf(car()));
    const part = input.shape.parts.get('hoop');
    const figures = part === undefined ? null : sawnFigures(part, part.ends[0], null);
    // The leg leans 100 in 1000 from the plate's normal.
    expect(figures?.kind).toBe('sawn');
    if (figures?.kind !== 'sawn') return;
    expect(Math.tan(figures.angle)).toBeCloseTo(0.1, 9);
    expect(figures.depth).toBeCloseTo(45 * 0.1, 9);
    expect(figures.reached).toBe(true);
  });
});

describe('the vice', () => {
  it('not told, held, and too little beside a bend by how much', async () => {
    expect(brace(sawPapers(untouched(await inputOf(car()))))).toContain('what the vice needs is not told');
    const held = untouched(await inputOf(car('saw { vice 120; kerf 2 }')));
    expect(brace(sawPapers(held))).toContain('yes: ');
    expect(brace(sawPapers(held))).toContain('the kerf of 2 mm (3/32 in) is in the waste');

    const { hold } = copeOf(held).cuts[0] ?? { hold: null };
    const just = hold?.straight ?? NaN;
    for (const [vice, holds] of [
      [just - 0.01, true],
      [just + 0.01, false],
    ] as const) {
      const input = await inputOf(car(`saw { vice ${vice.toFixed(4)} }`));
      expect(copeOf(input).cuts[0]?.hold.holds).toBe(holds);
    }
    // A leg of 1004.99 with a tangent length of 135 · tan(t / 2), t = 90° - atan(1/10) the turn at the corner.
    const part = held.shape.parts.get('hoop');
    const foot = part === undefined ? null : sawnFigures(part, part.ends[0], held.cage.saw);
    const tangent = 135 * Math.tan((Math.PI / 2 - Math.atan(0.1)) / 2);
    const straight = Math.hypot(100, 1000) - tangent;
    expect(foot?.kind === 'sawn' ? (foot.fromBend ?? NaN) + (foot.end.minCut ?? NaN) : NaN).toBeCloseTo(straight, 6);
  });

  it('a saw that reaches less is not asked for more', async () => {
    const input = await inputOf(car('saw { reach 15 deg }'));
    for (const { cut } of copeOf(input).cuts) expect(cut.angle).toBeLessThanOrEqual((15 * Math.PI) / 180 + 1e-9);
    expect(copeOf(input).leftTwo).toBeGreaterThan(copeOf(await inputOf(car())).leftTwo);
  });
});

describe('odd pieces', () => {
  const rung = (gap: number, units: string, more = ''): string => `cage "Dunlin ladder"
units ${units}
saw { vice 120 mm; kerf 2 mm }
section t { od 45 mm; wall 2.5 mm }
node a = (0 mm, -500 mm, 500 mm)
node b = (0 mm, 500 mm, 500 mm)
node c = (${String(gap)} mm, -500 mm, 500 mm)
node d = (${String(gap)} mm, 500 mm, 500 mm)
node e = (0 mm, 0 mm, 500 mm)
node f = (${String(gap)} mm, 0 mm, 500 mm)
tube rail as main-rollbar { section t; path a, b; first open; last open }
tube other { section t; path c, d; first open; last open }
tube brace { section t; path e, f }
${more}`;

  it('too short for the vice between both cuts, and so short that nothing is left between them', async () => {
    // From axis to axis less both radii of 22.5 mm is what stands at the short sides, 55 mm, before anything is cut.
    const short = brace(sawPapers(untouched(await inputOf(rung(100, 'mm')))));
    expect(short).toMatch(/NO: \d+(\.\d)? mm \([^)]*\) straight to the other end, it needs 120 mm/);
    expect(short).toContain('clamp the tube in V-blocks');
    const none = brace(sawPapers(untouched(await inputOf(rung(43, 'mm')))));
    expect(none).toContain('How this end is cut is not known');
    expect(none).not.toContain('Saw off square');
    const into = { straight: mm(-1), upTo: 'other end', vice: mm(120), holds: false } as const;
    expect(holdWords(into, 'mm')).toBe('no: the cut runs into the other end');
    expect(brace(sawPapers(untouched(await inputOf(rung(400, 'mm')))))).toContain('yes: ');
  });

  it('a cut that runs into a bend is marked past where the bend begins, never by a length below nothing', async () => {
    const more = `die d { od 45 mm; radius 135 mm; grip 60 mm }
node g = (72 mm, 200 mm, 500 mm)
node h = (500 mm, 250 mm, 900 mm)
node at = (0 mm, 200 mm, 500 mm)
tube hook { section t; die d; path at, g, h; last open }
`;
    const hook = sawPapers(untouched(await inputOf(rung(900, 'mm', more)))).find(({ parts }) => parts.includes('hook'));
    const said = typeof hook?.content === 'string' ? wordsIn(parse(hook.content)) : '';
    expect(said).toMatch(/\d mm \([^)]*\) past where it begins, in the bend/);
    expect(said).not.toMatch(/-\d/);
  });

  it('where a slant saves less than a millimetre the cut that is printed is square, as the words say', async () => {
    // A thin tube that leans by 1.9 degrees from square meets a thick one: its end leans by 25 tan 1.9° = 0.8 mm in all.
    const input = untouched(
      await inputOf(`cage "Dunlin thin"
units mm
section h { od 120; wall 4 }
section t { od 25; wall 2 }
node a = (0, -500, 500)
node b = (0, 500, 500)
node c = (0, 0, 500)
node d = (600, 20, 500)
tube rail as main-rollbar { section h; path a, b; first open; last open }
tube brace { section t; path c, d; last open }
`),
    );
    const said = brace(sawPapers(input));
    expect(said).toContain('No slanted cut is worth it: saw square, then grind.');
    expect(said).toMatch(/\n10° ?all round ?0 mm \(0 in\)/);
  });

  it('a car in inches has them first, and is told what the vice needs in a unit that is written', async () => {
    const said = brace(sawPapers(untouched(await inputOf(rung(400, 'in')))));
    expect(said).toMatch(/it needs 4 23\/32 in \(120 mm\)/);
    expect(said).toContain('tube 1.7717 in x 0.0984 in (45 mm x 2.5 mm)');
    const untold = brace(sawPapers(untouched(await inputOf(rung(400, 'in').replace(/saw .*\n/, '')))));
    expect(untold).toContain('saw { vice 120 mm }');
  });

  it('both pieces of a tube that is cut by another have their sheets', async () => {
    const more = `node g = (0 mm, 300 mm, 500 mm)
node h = (400 mm, -300 mm, 500 mm)
tube cross { section t; path g, h; split by brace }
`;
    const papers = sawPapers(untouched(await inputOf(rung(400, 'mm', more))));
    const pieces = papers.filter(({ parts }) => parts.some((name) => name.startsWith('cross.')));
    expect(pieces.map(({ path }) => path)).toEqual(['saw/02-cross.a.html', 'saw/03-cross.b.html']);
    for (const { content } of pieces) {
      expect(content).toContain('at the split');
      expect(content).toContain('cut to 01 brace');
      expect(content).not.toContain('is not known');
    }
  });
});

describe('marks on a tape', () => {
  it('are rounded toward the end, in both systems, never into the part', () => {
    expect(markFromEnd(9.99, 'mm')).toBe('9.5 mm (3/8 in)');
    expect(markFromEnd(10, 'mm')).toBe('10 mm (3/8 in)');
    expect(markFromEnd(25.4, 'in')).toBe('1 in (25 mm)');
    expect(markFromEnd(-0.01, 'mm')).toBe('0 mm (0 in)');
    expect(markFromBend(9.99, 'mm')).toBe('10 mm (13/32 in)');
    expect(markFromBend(25.4, 'in')).toBe('1 in (25.5 mm)');
    // On a mark they stay there; beside one, lengths toward the end grow to the next, lengths from the end shrink.
    expect([noLess(25.4, 'in'), noMore(25.4, 'in')]).toEqual(['1 in (25.4 mm)', '1 in (25.4 mm)']);
    expect([noLess(25.5, 'in'), noMore(25.7, 'in')]).toEqual(['1 1/64 in (25.5 mm)', '1 in (25.7 mm)']);
    expect(noLess(null, 'mm')).toBe('not known');
    expect(fromBend(-25.5, 'bend 2', 'in')).toBe('1 in (25.5 mm) into bend 2');
  });
});
