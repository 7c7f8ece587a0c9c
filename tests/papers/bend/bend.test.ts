/**
 * Bend sheets: marks against handbook arithmetic, check dimensions against a tube that is bent from the sheet's own marks and
 * sampled, rotations against what is seen along the tube.
 */
import { describe, expect, it } from 'vitest';
import { degrees } from '../../../grammar/units';
import type { Vec3 } from '../../../server/centreline/vector';
import { add, cross, distance, dot, scale, sub, unit } from '../../../server/centreline/vector';
import { nearestOn } from '../../../server/centreline/query';
import type { Item } from '../../../server/drawing/scene';
import { checksOf, type Check, type Spot } from '../../../server/papers/bend/checks';
import { bentParts, wrapped, type BendFigures } from '../../../server/papers/bend/figures';
import { bendPapers } from '../../../server/papers/bend/papers';
import { rotationSketch, rotationWords } from '../../../server/papers/bend/sketch';
import { arcsOf } from '../../../server/papers/bend/stick';
import { trimWords } from '../../../server/papers/bend/words';
import { inchFraction, onTape } from '../../../server/papers/on-tape';
import { isPacketPaper } from '../../../server/papers/packet/marks';
import type { PacketInput } from '../../../server/papers/packet/paper';
import { read, rowsOf } from '../support';
import { bendByMarks, figuresOf, inputOf, ring, sampleInput, type Bent } from './support';

/** Bend allowance: 0.017453 x centreline radius x degrees, π / 180 (any tube bender's handbook; from memory). */
const HANDBOOK = 0.017453292519943295;

const HOOP = (legs: string, more = ''): string => `cage "x"
units mm
section hoop { od 45; wall 2.5 }
die d45 { od 45; radius 135; grip 90; springback 3 deg ${more} }
node a = (0, 600, ${legs})
node b = (0, 600, 1000)
node c = (0, -600, 1000)
node d = (0, -600, ${legs})
tube hoop as main-rollbar { section hoop; die d45; path a, b, c, d; first open; last open }
`;

const pageOf = (input: PacketInput, name: string): string => {
  const paper = bendPapers(input).find(({ parts }) => parts[0] === name);
  if (paper === undefined || typeof paper.content !== 'string') throw new Error(`no sheet of ${name}`);
  return paper.content;
};

describe('marks along the stick', () => {
  it('of a hoop of two right angles, by hand', async () => {
    // Legs 1000 - 135 = 865, bends 0.017453 x 135 x 90 = 212.06, top 1200 - 2 x 135 = 930.
    const bend = HANDBOOK * 135 * 90;
    expect(bend).toBeCloseTo(212.06, 2);
    const figures = figuresOf(await inputOf(HOOP('0')), 'hoop');
    const [first, second] = figures.rows;
    expect(first?.start).toBeCloseTo(865, 6);
    expect(first?.middle).toBeCloseTo(865 + bend / 2, 6);
    expect(first?.end).toBeCloseTo(865 + bend, 6);
    expect(second?.straight).toBeCloseTo(930, 6);
    expect(second?.start).toBeCloseTo(865 + bend + 930, 6);
    expect(figures.stick).toBeCloseTo(2 * 865 + 930 + 2 * bend, 6);
    expect(figures.tails).toEqual([0, 0]);
    // Springback 3 degrees for 90: the machine is set to 93.
    expect(degrees(first?.set ?? NaN)).toBeCloseTo(93, 9);
    expect(figures.flat).toBe(true);
  });

  it('from the middle of a hoop: both sides alike', async () => {
    const bend = HANDBOOK * 135 * 90;
    const { middle, stick } = figuresOf(await inputOf(HOOP('0')), 'hoop');
    expect(middle?.fromFirst).toBeCloseTo((stick ?? NaN) / 2, 6);
    expect(middle?.marks[0]?.end).toBeCloseTo(-465, 6);
    expect(middle?.marks[0]?.begin).toBeCloseTo(-465 - bend, 6);
    expect(middle?.marks[1]?.begin).toBeCloseTo(465, 6);
    expect(middle?.marks[1]?.end).toBeCloseTo(465 + bend, 6);
    for (const name of ['plover-rollbar', 'curlew-cage', 'siskin-club-bar']) {
      const marks = figuresOf(await sampleInput(name), 'main-hoop').middle?.marks ?? [];
      expect(marks.length).toBeGreaterThan(1);
      marks.forEach(({ begin, end }, i) => {
        const other = marks[marks.length - 1 - i];
        expect(begin + (other?.end ?? NaN)).toBeCloseTo(0, 6);
        expect(end + (other?.begin ?? NaN)).toBeCloseTo(0, 6);
      });
    }
  });

  it('short legs: tails make up what the die holds, the middle is not that of the stick, and what comes off is told', async () => {
    // Legs from 800 to 1000: 200 - 135 = 65, 25 short of the grip of 90 and 55 short of the follow of 120.
    const input = await inputOf(HOOP('800', '; follow 120'));
    const figures = figuresOf(input, 'hoop');
    const bend = HANDBOOK * 135 * 90;
    expect(figures.tails?.[0]).toBeCloseTo(25, 6);
    expect(figures.tails?.[1]).toBeCloseTo(55, 6);
    expect(figures.rows[0]?.start).toBeCloseTo(90, 6);
    expect(figures.stick).toBeCloseTo(90 + bend + 930 + bend + 120, 6);
    expect(figures.trims[0].fromTangent).toBeCloseTo(65, 6);
    expect(figures.trims[1].fromTangent).toBeCloseTo(65, 6);
    expect(figures.middle?.fromFirst).toBeCloseTo(90 + bend + 465, 6);
    const page = pageOf(input, 'hoop');
    expect(read(page).words).toContain('it lies 15 mm (19/32 in) nearer to END 2');
    const [one, two] = rowsOf(page, 'Where to cut');
    expect(one?.[1]).toBe('65 mm (2 9/16 in) from where bend 1 begins, along the straight leg');
    expect(one?.[2]).toBe('a tail of 25 mm (31/32 in)');
    expect(two?.[2]).toBe('a tail of 55 mm (2 5/32 in)');
  });

  it('halves that are not alike have no middle', async () => {
    const text = HOOP('0').replace('(0, -600, 1000)', '(0, -600, 1100)').replace('(0, -600, 0)', '(0, -640, 0)');
    expect(figuresOf(await inputOf(text), 'hoop').middle).toBeNull();
  });
});

describe('cut to length', () => {
  it('says from which line a long point is clocked, and that one in a bend has no straight to be cut on', async () => {
    const car = (corner: number): string => `cage "Dunlin hook"
units mm
section t { od 40; wall 2 }
die d { od 40; radius 120; grip 60 }
node a = (0, -600, 500)
node b = (0, 600, 500)
node c = (0, 0, 500)
node d = (${String(corner)}, 0, 500)
node e = (${String(corner)}, 300, 500)
tube host as main-rollbar { section t; path a, b; first open; last open }
tube hook { section t; die d; path c, d, e; last open }
`;
    // The bend turns by 90 degrees: it begins 120 before its corner. The long point of equal tubes: √(20² - 18²) = 8.72 away.
    const free = trimWords(figuresOf(await inputOf(car(200)), 'hook').trims[0], 'mm');
    expect(free[1]).toBe('71.3 mm (2 13/16 in) from where bend 1 begins, along the straight leg');
    // Out along x, clockwise from the top is -y; the bend goes to +y. Ears of a square joint stand at top and bottom.
    expect(free[3]).toContain('clock 0° and 180° (0° is TOP of this end, the inside of bend 1 is at 270°)');
    const into = trimWords(figuresOf(await inputOf(car(124)), 'hook').trims[0], 'mm');
    expect(into[1]).toBe('4.7 mm (11/64 in) into bend 1: no straight is left there, move the bend away');
  });

  it('the long point stands so far from the bend as the tube runs before it meets its host', async () => {
    const input = await sampleInput('plover-rollbar');
    const figures = figuresOf(input, 'harness-bar');
    const host = input.shape.parts.get('main-hoop');
    const line = host?.centreline ?? null;
    const arc = arcsOf(figures.part.centreline)[0];
    if (line === null || arc === undefined) throw new Error('no tubes');
    const tangent = add(arc.centre, scale(arc.fromCentre, arc.radius));
    const back = scale(arc.tangent, -1);
    // Every generator from the outside to the bore, stepped from the bend until it touches the hoop's outside. The cut
    // clears the hoop over the whole wall; the long point is the longest of all clocks.
    const wall = [19, 18.4, 17.75, 17.1, 16.5].map((radius) =>
      ring(tangent, back, radius, 90).map((p) => {
        let far = 0;
        for (const stride of [1, 0.01])
          while (nearestOn(line, add(p, scale(back, far + stride))).distance >= 22.5) far += stride;
        return far;
      }),
    );
    const longest = Math.max(...Array.from({ length: 90 }, (_, i) => Math.min(...wall.map((fars) => fars[i] ?? NaN))));
    const said = figures.trims[0].fromTangent ?? NaN;
    expect(Math.abs(said - longest)).toBeLessThan(0.1);
    expect(rowsOf(pageOf(input, 'harness-bar'), 'Where to cut')[0]?.[1]).toContain(onTape(said, 'mm'));
  });
});

/** The tube as its sheet says to bend it. */
const fromSheet = ({ rows, stick, od }: BendFigures, step = 1): Bent =>
  bendByMarks(
    rows.map(({ start, end, angle, rotation }) => ({
      start: start ?? NaN,
      end: end ?? NaN,
      angle,
      rotation: rotation ?? 0,
    })),
    stick ?? NaN,
    (od ?? NaN) / 2,
    step,
  );

const pointsOf = (spot: Spot, bent: Bent, radius: number): readonly Vec3[] => {
  if (spot.kind === 'bend')
    return [(spot.face === 'outside' ? bent.outside : bent.inside)[spot.bend - 1] ?? [NaN, 0, 0]];
  const end = spot.which === 'first' ? bent.axis[0] : bent.axis[bent.axis.length - 1];
  return end === undefined ? [] : ring(end.at, end.tangent, radius, 360);
};

/** By trying all pairs of points. */
function byTrying(check: Check & { readonly kind: 'between' }, bent: Bent, radius: number): number {
  const pick = check.from.face === 'outside' ? Math.max : Math.min;
  let value = check.from.face === 'outside' ? 0 : Infinity;
  const others = pointsOf(check.to, bent, radius);
  for (const a of pointsOf(check.from, bent, radius)) for (const b of others) value = pick(value, distance(a, b));
  return value;
}

/** The whole surface in a direction. */
const reach = (bent: Bent, radius: number, direction: Vec3): number => {
  let most = -Infinity;
  for (const { at, tangent } of bent.axis) {
    const along = dot(tangent, direction);
    most = Math.max(most, dot(at, direction) + radius * Math.sqrt(Math.max(0, 1 - along * along)));
  }
  return most;
};

const WAVY = `cage "x"
units mm
section bar { od 38; wall 2.5 }
die d38 { od 38; radius 114; grip 75; springback 2 deg }
mirror left {
  node a = (0, 600, 0)
  node b = (0, 640, 500)
  node c = (200, 560, 1000)
  node d = (900, 500, 1100)
  node e = (1300, 650, 700)
  tube bar as brace { section bar; die d38; path a, b, c, d, e; first open; last open }
}
`;

describe('check dimensions', () => {
  const cars: readonly (readonly [string, () => Promise<PacketInput>, readonly string[]])[] = [
    ['plover', () => sampleInput('plover-rollbar'), ['main-hoop', 'harness-bar']],
    ['siskin', () => sampleInput('siskin-club-bar'), ['main-hoop']],
    ['curlew', () => sampleInput('curlew-cage'), ['main-hoop', 'half-lateral.left', 'half-lateral.right']],
    ['a tube in many planes', () => inputOf(WAVY), ['bar.left', 'bar.right']],
  ];
  for (const [car, inputFor, names] of cars)
    it(`${car}: as the tube is when it is bent from its marks and sampled`, async () => {
      const input = await inputFor();
      for (const name of names) {
        const figures = figuresOf(input, name);
        const radius = (figures.od ?? NaN) / 2;
        if (figures.asBent === null) throw new Error('not bent');
        const bent = fromSheet(figures);
        const checks = checksOf(figures.asBent, radius);
        expect(checks.length).toBeGreaterThan(2);
        for (const check of checks) {
          if (check.kind === 'between') {
            // Rims are tried every degree: 0.02 mm short at most.
            const tried = byTrying(check, bent, radius);
            expect(Math.abs(check.value - tried), `${name} ${JSON.stringify([check.from, check.to])}`).toBeLessThan(
              0.03,
            );
            if (check.reach === 'square') expect(figures.flat).toBe(true);
            else {
              // A tape in the air: nothing of the tube in between.
              const [a, b] = check.ends;
              const asBent = figures.asBent;
              for (let i = 1; i < 300; i++) {
                const at = add(a, scale(sub(b, a), i / 300));
                const on = nearestOn(asBent, at);
                const beyond = on.station <= 1e-6 || on.station >= asBent.length - 1e-6;
                expect(on.distance > radius - 0.1 || beyond).toBe(true);
              }
            }
          }
          if (check.kind === 'rise') {
            // The floor lies under both legs of that bend: its normal is square to both.
            const i = check.bend - 1;
            const normal = unit(cross(bent.along[i] ?? [0, 0, 0], bent.toward[i] ?? [0, 0, 0]));
            const heights = [normal, scale(normal, -1)].map((up) => {
              const floor = -reach(bent, radius, scale(up, -1));
              const end = check.which === 'first' ? bent.axis[0] : bent.axis[bent.axis.length - 1];
              const rim = end === undefined ? [] : ring(end.at, end.tangent, radius, 720);
              return Math.max(...rim.map((p) => dot(p, up))) - floor;
            });
            expect(Math.min(...heights.map((height) => Math.abs(height - check.value)))).toBeLessThan(0.02);
          }
        }
      }
    });

  it('of a hoop, by hand: width, height, corner to corner, over the straightedge', async () => {
    const figures = figuresOf(await inputOf(HOOP('0')), 'hoop');
    if (figures.asBent === null) throw new Error('not bent');
    const checks = checksOf(figures.asBent, 22.5);
    const value = (kind: Check['kind']): number => checks.find((check) => check.kind === kind)?.value ?? NaN;
    expect(value('height')).toBeCloseTo(1000 + 22.5, 3);
    expect(value('across')).toBeCloseTo(1200 + 45, 3);
    const between = checks.flatMap((check) => (check.kind === 'between' ? [check] : []));
    const ends = between.find(({ from, to }) => from.kind === 'end' && to.kind === 'end');
    expect(ends?.value).toBeCloseTo(1245, 3);
    expect(ends?.reach).toBe('tape');
    // Centres of the bends 930 apart, each outside 157.5 x cos 45 degrees farther out.
    const corners = between.find(({ from, to }) => from.kind === 'bend' && to.kind === 'bend');
    expect(corners?.value).toBeCloseTo(930 + 2 * 157.5 * Math.SQRT1_2, 3);
    // The diagonals are equal, and say so.
    expect(read(pageOf(await inputOf(HOOP('0')), 'hoop')).words).toContain('these have to agree: A = D');
  });

  it('height and width of a hoop whose legs lean, by sampling over the line of its feet', async () => {
    for (const name of ['plover-rollbar', 'curlew-cage', 'siskin-club-bar']) {
      const figures = figuresOf(await sampleInput(name), 'main-hoop');
      if (figures.asBent === null) throw new Error('not bent');
      const radius = (figures.od ?? NaN) / 2;
      const bent = fromSheet(figures, 0.25);
      const [first, last] = [bent.axis[0], bent.axis[bent.axis.length - 1]];
      if (first === undefined || last === undefined) throw new Error('no ends');
      // Both halves are alike: the straightedge runs as the line between the middles of the ends.
      const e = unit(sub(last.at, first.at));
      const normal = unit(cross(bent.along[0] ?? [0, 0, 0], bent.toward[0] ?? [0, 0, 0]));
      const heights = [cross(normal, e), cross(e, normal)].map((up) => {
        const floor = Math.min(...ring(first.at, first.tangent, radius, 3600).map((p) => dot(p, up)));
        return reach(bent, radius, up) - floor;
      });
      const checks = checksOf(figures.asBent, radius);
      const height = checks.find((check) => check.kind === 'height')?.value ?? NaN;
      expect(height).toBeCloseTo(Math.max(...heights), 2);
      const across = checks.find((check) => check.kind === 'across')?.value ?? NaN;
      expect(across).toBeCloseTo(reach(bent, radius, e) + reach(bent, radius, scale(e, -1)), 2);
    }
  });
});

describe('rotations', () => {
  it('bend the tube that is in the car, not its mirror image', async () => {
    const input = await inputOf(WAVY);
    for (const name of ['bar.left', 'bar.right']) {
      const figures = figuresOf(input, name);
      const bent = fromSheet(figures);
      const arcs = arcsOf(figures.part.centreline);
      const model = arcs.map(({ tangent }) => tangent);
      // Three directions of travel: their triple product changes its sign in a mirror.
      const triple = (t: readonly Vec3[], i: number): number =>
        dot(cross(t[i] ?? [0, 0, 0], t[i + 1] ?? [0, 0, 0]), t[i + 2] ?? [0, 0, 0]);
      for (let i = 0; i + 2 < arcs.length; i++) {
        expect(Math.abs(triple(model, i))).toBeGreaterThan(0.01);
        expect(triple(bent.along, i)).toBeCloseTo(triple(model, i), 6);
      }
    }
  });

  it('of twins are each other turned round; marks, sticks and angles are the same', async () => {
    const curlew = await sampleInput('curlew-cage');
    const wavy = await inputOf(WAVY);
    for (const [input, base] of [
      [curlew, 'half-lateral'],
      [wavy, 'bar'],
    ] as const) {
      const [left, right] = [figuresOf(input, `${base}.left`), figuresOf(input, `${base}.right`)];
      expect(left.stick).toBeCloseTo(right.stick ?? NaN, 6);
      expect(left.twin?.mirrored).toBe(true);
      left.rows.forEach((row, i) => {
        const other = right.rows[i];
        expect(row.start).toBeCloseTo(other?.start ?? NaN, 6);
        expect(row.angle).toBeCloseTo(other?.angle ?? NaN, 9);
        if (i > 0) expect(wrapped((row.rotation ?? NaN) + (other?.rotation ?? NaN))).toBeCloseTo(0, 9);
      });
      const words = read(pageOf(input, `${base}.left`)).words;
      expect(words).toContain('LEFT HAND');
      expect(words).toContain(`${base} RIGHT is its mirror image`);
      for (const { number, rotation } of right.rows.slice(1))
        expect(words).toContain(`bend ${String(number)} ${rotationWords(rotation ?? NaN)}`);
      expect(read(pageOf(input, `${base}.right`)).words).toContain('RIGHT HAND');
    }
  });

  it('are drawn as they are seen along the tube from END 1', async () => {
    const figures = figuresOf(await inputOf(WAVY), 'bar.left');
    const arcs = arcsOf(figures.part.centreline);
    for (const row of figures.rows.slice(1)) {
      const arc = arcs[row.number - 1];
      const before = arcs[row.number - 2];
      if (arc === undefined || before === undefined || row.rotation === null) throw new Error('no bend');
      const next = scale(arc.fromCentre, -1);
      // The bend before, where it ends: across the straight, toward its centre.
      const up = cross(before.axis, arc.tangent);
      // Looking along the travel with that upward, the right hand is travel x up.
      const right = cross(arc.tangent, up);
      const items = rotationSketch(row.number, row.rotation).items({ x: 0, y: 0 });
      const arrow = items.find(
        (item): item is Extract<Item, { kind: 'group' }> => item.kind === 'group' && item.name === 'next',
      );
      const line = arrow?.items.find((item) => item.kind === 'line');
      const end = line?.kind === 'line' ? line.points[1] : undefined;
      if (end === undefined) throw new Error('no arrow');
      const length = Math.hypot(end.x, end.y);
      expect(end.x / length).toBeCloseTo(dot(next, right), 6);
      expect(-end.y / length).toBeCloseTo(dot(next, up), 6);
    }
  });

  it('read as a person turns a tube', () => {
    expect(rotationWords(0)).toBe('0°, to the same side');
    expect(rotationWords(Math.PI)).toBe('180°, to the opposite side');
    expect(rotationWords(Math.PI / 6)).toBe('30° clockwise (+30°)');
    expect(rotationWords(-Math.PI / 6)).toBe('30° anticlockwise (-30°)');
  });
});

describe('the sheets', () => {
  for (const name of ['plover-rollbar', 'siskin-club-bar', 'curlew-cage'])
    it(`${name}: one for each bent tube, sound pages with the packet's mark, the same bytes twice`, async () => {
      const input = await sampleInput(name);
      const papers = bendPapers(input);
      expect(papers.map(({ parts }) => parts[0])).toEqual(bentParts(input.shape).map((part) => part.name));
      expect(papers.length).toBeGreaterThan(0);
      for (const [i, { content, path, title }] of papers.entries()) {
        if (typeof content !== 'string') throw new Error('a page is text');
        expect(path).toMatch(/^bend\/\d\d-[a-z0-9.-]+\.html$/);
        expect(title).toContain('Bend sheet');
        expect(isPacketPaper(content)).toBe(true);
        expect(read(content).errors).toEqual([]);
        expect(read(content).words).not.toContain('NaN');
        expect(content).toBe(bendPapers(input)[i]?.content);
        const bends = input.shape.parts.get(papers[i]?.parts[0] ?? '')?.bends.length ?? 0;
        expect(rowsOf(content, 'Marks on the straight stick')).toHaveLength(bends);
        expect(rowsOf(content, 'Rotations')).toHaveLength(bends);
        expect(
          read(content).elements.filter((one) => one.attrs.some(({ value }) => value === 'rotation')),
        ).toHaveLength(bends);
      }
    });

  it('in a file of inches: fractions of an inch first, millimetres beside them', async () => {
    const input = await sampleInput('siskin-club-bar');
    const figures = figuresOf(input, 'main-hoop');
    const start = figures.rows[0]?.start ?? NaN;
    const row = rowsOf(pageOf(input, 'main-hoop'), 'Marks on the straight stick')[0];
    const mark = /^(\d+)(?: (\d+)\/(\d+))? in\((\d+(?:\.\d)?) mm\)$/.exec(row?.[1] ?? '');
    const [, whole, over = '0', under = '1', metric] = mark ?? [];
    expect(Number(metric)).toBeCloseTo(start, 1);
    expect(Math.abs((Number(whole) + Number(over) / Number(under)) * 25.4 - start)).toBeLessThanOrEqual(
      25.4 / 64 + 1e-9,
    );
    expect(32 % Number(under)).toBe(0);
  });

  it('say what a tape shows, to a thirty-second', () => {
    // 1/32 in is 0.79375 mm by the inch of 25.4 mm.
    expect(inchFraction(25.4 * 12.09375)).toBe('12 3/32 in');
    expect(inchFraction(25.4)).toBe('1 in');
    expect(inchFraction(0.79375)).toBe('1/32 in');
    expect(inchFraction(0.1)).toBe('0 in');
    expect(onTape(63.5, 'mm')).toBe('63.5 mm (2 1/2 in)');
    expect(onTape(63.5, 'in')).toBe('2 1/2 in (63.5 mm)');
    expect(onTape(63.5, 'ft')).toBe('2 1/2 in (63.5 mm)');
    expect(onTape(null, 'in')).toBe('not known');
  });

  it('are not made for a part that an open error touches', async () => {
    const text = HOOP('0');
    expect(bendPapers(await inputOf(text))).toHaveLength(1);
    const broken = `${text}tube hoop as brace { section hoop; path a, b }\n`;
    const input = await inputOf(broken);
    expect(input.findings.some(({ severity }) => severity === 'error')).toBe(true);
    expect(bendPapers(input)).toHaveLength(0);
  });

  it('without a springback say to bend a trial, and give no angle to set', async () => {
    const page = pageOf(await inputOf(HOOP('0').replace('; springback 3 deg', '')), 'hoop');
    expect(read(page).words).toContain('bend a piece of the same tube to 90°');
    expect(rowsOf(page, 'Marks on the straight stick')[0]?.[7]).toBe('not known');
  });
});
