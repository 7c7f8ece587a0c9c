/**
 * Appendix J, Article 253: the figures of the book against those of the excerpts, quotations and national echoes that
 * were collected of it (each limit names its own source; what is from memory says so), and the days on which they change.
 */
import { describe, expect, it } from 'vitest';
import type { RuleCode } from '../../grammar/codes';
import { STAGES } from '../../grammar/explanations';
import { FIA_253 } from '../../server/rules/books/fia-253';
import { crossExample } from '../../server/rules/crosses';
import { diagonal, front, stays } from '../../server/rules/examples';
import { FOUR_BENDS } from '../../server/rules/hoop-examples';
import { analyse, told } from '../support/analyse';

const findingsOf = async (text: string, stage: 'hoop' | 'parts' = 'hoop') =>
  (await analyse(`${STAGES[stage]}rules fia-253\n${text}\n`)).findings;
const codesOf = async (text: string, stage: 'hoop' | 'parts' = 'hoop') =>
  (await findingsOf(text, stage)).map((f) => f.code);

/** Article, quantity, for what, least, most, from which day, and whether the figure was seen (true) or is from memory. */
const FIGURES: readonly (readonly [string, RuleCode, string, number | null, number | null, string, boolean])[] = [
  ['253-8.2.3', 'hoop.tilt', '', null, 10, '', false],
  ['253-8.3.1', 'backstay.angle', '', 30, null, '', false],
  ['253-8.3.1', 'backstay.missing', '', 2, null, '', false],
  ['253-8.3.1', 'hoop.leg-bends', 'main leg', null, 1, '', false],
  ['253-8.3.1', 'hoop.leg-bends', 'front leg', null, 1, '', false],
  ['253-8.3.1', 'fitting.at-roof', '', null, 4, '', false],
  ['253-8.3.2.1.1', 'diagonal.missing', '', 2, null, '2002-01-01', false],
  ['253-8.3.2.1.1', 'diagonal.cross', '', 1, null, '2002-01-01', false],
  ['253-8.3.2.1.1', 'diagonal.feet', '', null, 300, '', false],
  ['253-8.3.2.1.1', 'diagonal.top', '', null, 100, '', false],
  ['253-8.3.2.1.1', 'diagonal.bottom', '', null, 100, '', false],
  ['253-8.3.2.1.2', 'door.bars', "the driver's side", 2, null, '2007-01-01', false],
  ['253-8.3.2.1.3', 'roof.bars', 'two seats', 2, null, '2005-01-01', false],
  ['253-8.3.2.1.3', 'roof.bars', 'one seat', 1, null, '2005-01-01', false],
  ['253-8.3.2.1.3', 'roof.ends', '', null, 100, '', false],
  ['253-8.3.2.1.3', 'roof.gap', '', null, 100, '2005-01-01', false],
  ['253-8.3.2.1.4', 'pillar.missing', '', null, 200, '2006-01-01', false],
  ['253-8.3.2.1.4', 'pillar.bend', '', null, 20, '', false],
  ['253-8.3.2.1.4', 'pillar.top', '', null, 100, '', false],
  ['253-8.3.2.1.4', 'pillar.bottom', '', null, 100, '', false],
  ['253-8.3.2.1.5', 'gusset.missing', 'diagonals', 2, null, '', false],
  ['253-8.3.2.1.5', 'gusset.missing', 'roof', 2, null, '2007-01-01', false],
  ['253-8.2.14', 'gusset.thickness', '', 1, null, '', false],
  ['253-8.2.14', 'gusset.legs', '', 2, 4, '', false],
  ['253-8.2.14', 'gusset.cut-out', '', null, 1.5, '', false],
  ['253-8.2.14', 'gusset.hole', '', null, 1, '', false],
  // Drawing 253-49, dimension E, in the text of 2016.
  ['253-8.3.2.5', 'door.height', '', null, 0.5, '', true],
  ['253-8.3.2.2.5', 'dash.column', '', null, 0, '2007-01-01', false],
  ['253-8.3.2.6', 'foot.area', 'hoop foot', 12000, null, '', true],
  ['253-8.3.2.6', 'foot.thickness', 'hoop foot', 3, null, '', true],
  ['253-8.3.2.6', 'foot.bolts', 'hoop foot', 3, null, '', true],
  ['253-8.3.2.6', 'foot.bolt-size', 'hoop foot', 8, null, '', true],
  ['253-8.3.2.6', 'foot.bolt-angle', 'hoop foot', 60, null, '', false],
  ['253-8.3.2.6', 'foot.area', 'backstay foot', 6000, null, '', false],
  ['253-8.3.2.6', 'foot.bolts', 'backstay foot', 2, null, '', false],
  ['253-8.3.3', 'tube.strength', '', 350, null, '', true],
  ['253-8.3.3', 'steel.analysis', 'carbon', null, 0.3, '', false],
  ['253-8.3.3', 'steel.analysis', 'manganese', null, 1.7, '', true],
  ['253-8.3.3', 'steel.analysis', 'any other element', null, 0.6, '', true],
  ['253-6.2', 'strap.drop', '', 0, 45, '', true],
  ['253-6.2', 'strap.drop', '', 0, 10, '', true],
  ['253-6.2', 'strap.spread', '', null, 20, '', true],
  // 1470 and 720 daN.
  ['253-6.2', 'anchor.load', 'lap anchor', 14700, null, '', false],
  ['253-6.2', 'anchor.load', 'crotch anchor', 7200, null, '', false],
  ['253-6.2', 'anchor.shared', '', null, 1, '', true],
  ['253-6.2', 'anchor.plate-area', '', 4000, null, '', false],
  ['253-6.2', 'anchor.plate-thickness', '', 3, null, '', false],
  ['253-16.2', 'seat-mount.points', '', 4, null, '', true],
  ['253-16.2', 'seat-mount.bolt-size', 'shell', 8, null, '', true],
  ['253-16.2', 'seat-mount.area', '', 4000, null, '', true],
  ['253-16.4', 'seat-mount.seat-bolts', '', 4, null, '', true],
  ['253-16.4', 'seat-mount.load', '', 15000, null, '', false],
  ['253-16.3', 'seat-mount.quick-release', '', 18000, null, '', false],
  ['253-16.5', 'seat-mount.thickness', 'steel', 3, null, '', true],
  ['253-16.5', 'seat-mount.thickness', 'aluminium', 5, null, '', true],
  ['253-16.5', 'seat-mount.length', '', 60, null, '', true],
  ['253-16.6', 'seat.cushion', '', null, 50, '', false],
];

describe('the figures of the book', () => {
  it.each(FIGURES)('%s %s %s: %s to %s, from %s', (article, code, group, from, to, since, seen) => {
    const found = FIA_253.limits.filter(
      (limit) =>
        limit.code === code &&
        limit.citation.includes(article) &&
        limit.allowed.from === from &&
        limit.allowed.to === to &&
        (limit.since ?? '') === since &&
        (group === '' ? true : limit.of?.includes(group) === true),
    );
    expect(found.length).toBeGreaterThan(0);
    expect(found.map(({ source }) => source === 'published')).toEqual(found.map(() => seen));
  });

  it('less than 100 mm is less', () => {
    const near = FIA_253.limits.filter(({ allowed }) => allowed.to === 100 && allowed.unit === 'mm');
    expect(
      near
        .filter(({ strict }) => strict === true)
        .map(({ code }) => code)
        .sort(),
    ).toEqual(['diagonal.bottom', 'diagonal.top', 'pillar.bottom', 'pillar.top', 'roof.ends']);
  });
});

describe('a gusset reaches two to four diameters (253-8.2.14, from memory: 38: 76 to 152, 45: 90 to 180, 50: 100 to 200)', () => {
  const car = (od: number, legs: string): string =>
    `section s { od ${String(od)}; wall 2.5 }\nnode a = (-400, 0, 0)\nnode b = (-400, 0, 600)\nnode c = (-900, 0, 600)\ntube one as brace { section s; path a, b; first open; last open }\ntube two as brace { section s; path c, b; first open }\ngusset corner { at b; between one, two; kind sheet; thickness 1.5; legs ${legs} }`;
  it.each([
    [38, 76, 152],
    [45, 90, 180],
    [50, 100, 200],
  ])('od %i: %i to %i', async (od, least, most) => {
    expect(await codesOf(car(od, `${String(least)} x ${String(most)}`))).not.toContain('gusset.legs');
    const out = (await findingsOf(car(od, `${String(least - 1)} x ${String(most + 1)}`))).filter(
      (f) => f.code === 'gusset.legs',
    );
    expect(out).toHaveLength(2);
    expect(out.map((f) => /make that leg (\d+) mm/.exec(f.message)?.[1]).sort()).toEqual(
      [String(least), String(most)].sort(),
    );
  });
});

describe('less than 100 mm (253-8.3.2.1.1, drawing 253-52, from memory; a national rule has "not further than 100")', () => {
  const of = async (low: string) =>
    (await findingsOf(diagonal('at 110 before crown.left', `at ${low} from foot.right`))).filter(
      (f) => f.code === 'diagonal.bottom',
    );
  it('100 mm is not less, and up to 125 mm is borderline', async () => {
    expect(await of('99.9')).toEqual([]);
    const [at, ...none] = await of('100');
    expect(none).toEqual([]);
    expect(at?.message).toContain('less than 100 mm');
    expect(at?.message).toContain('1 mm nearer');
    expect(at?.message).toContain('borderline');
    expect((await of('125'))[0]?.message).toContain('borderline');
    expect((await of('126'))[0]?.message).not.toContain('borderline');
  });
});

describe('diagonals by the day of homologation (253-8.3.2.1.1, from memory)', () => {
  const on = (day: string, text: string): string => `vehicle { homologated "${day}" }\n${front()}\n${text}`;
  it('one until 2001, two that cross from 2002 on', async () => {
    expect(await codesOf(on('2001-12-31', diagonal()))).not.toContain('diagonal.missing');
    expect(await codesOf(on('2002-01-01', diagonal()))).toContain('diagonal.missing');
    const two = await codesOf(on('2002-01-01', crossExample()));
    expect(two).not.toContain('diagonal.missing');
    expect(two).not.toContain('diagonal.cross');
  });

  it('until 2001 one between the backstays counts', async () => {
    const between = `${stays()}\nnode ya = on stay.left at 60 from stay-top.left\nnode yb = on stay.right at 60 from stay-foot.right\ntube yonder as backstay-diagonal { section t38; path ya, yb }`;
    expect(await codesOf(on('2001-12-31', between))).not.toContain('diagonal.missing');
    expect(await codesOf(on('2002-01-01', between))).toContain('diagonal.missing');
  });

  it('an X on the feet of the hoop is no pair with mountings of its own', async () => {
    const onFeet = `node xh = on hoop at 110 before crown.left\nnode yh = on hoop at 110 before crown.right\ntube xa as diagonal { section t38; path xh, foot.right }\ntube xb as diagonal { section t38; path yh, foot.left; split by xa }`;
    expect(told((await findingsOf(onFeet)).filter((f) => f.code === 'diagonal.feet'))).toEqual([]);
  });
});

describe('hoops', () => {
  it('a corner in two bends is one corner: the leg below has one bend', async () => {
    const doubled =
      'node f = (0, 600, 0)\nnode w = (0, 610, 420)\nnode c = (0, 560, 880)\nnode d = (0, 300, 1060)\nnode e = (0, -300, 1060)\nnode g = (0, -560, 880)\nnode h = (0, -610, 420)\nnode i = (0, -600, 0)\ntube hoop as main-rollbar { section t45; die d45; path f, w, c, d, e, g, h, i; first open; last open }';
    expect(await codesOf(doubled, 'parts')).not.toContain('hoop.leg-bends');
    expect(await codesOf(FOUR_BENDS(), 'parts')).not.toContain('hoop.leg-bends');
  });
});

describe('what is missing is told with a place for it', () => {
  it.each([
    ['diagonal.missing', '', /from an upper corner of hoop, near \(.*\), to the opposite foot at \(.*\)/],
    ['backstay.missing', '', /near \(0, \d+, \d+\) and \(0, -\d+, \d+\), straight to the rear/],
    [
      'structure.missing',
      front().replace('as transverse', 'as brace'),
      /1 transverse.*from near \(.*\) to near \(.*\)/,
    ],
    ['door.bars', `vehicle { homologated "2008" }\n${front()}`, /from side.* near \(.*\) to hoop near \(.*\)/],
    [
      'roof.bars',
      `vehicle { homologated "2008" }\n${front()}`,
      /with one leg from near \(.*\) to near \(.*\) and its image/,
    ],
    ['gusset.missing', crossExample(), /between long, short; .* at \(.*\)/],
  ] as const)('%s', async (code, text, words) => {
    const [found] = (await findingsOf(text)).filter((f) => f.code === code);
    expect(found?.message).toMatch(words);
  });
});
