/** A club's own rulebook: what of its base it replaces, what it says of a car, and that it changes no figure. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { STAGES } from '../../grammar/explanations';
import { modelJson } from '../../server/project/describe';
import { Project } from '../../server/project/pipeline';
import type { Analysis } from '../../server/project/project';
import { BOOKS } from '../../server/rules/books';
import { findBook, libraryOf } from '../../server/rules/library';
import { limitWords } from '../../server/rules/limit-words';
import { canBeDropped, canBeLimited, groupsOf, unitOf } from '../../server/rules/own-book';
import { Car } from '../../server/rules/car';
import type { Limit } from '../../server/rules/rule';
import { RULES } from '../../server/rules/rules';
import { analyse, mapHost, told } from '../support/analyse';

/** The limits of a book on a code: force, figures, for what, whose words, how severe. */
const said = (limits: readonly Limit[], code: string): readonly string[] =>
  limits
    .filter((limit) => limit.code === code)
    .map(
      (limit) =>
        `${limit.force} ${limitWords(limit)}${limit.of === undefined ? '' : ` of ${limit.of.join(', ')}`}` +
        `${limit.notOf === undefined ? '' : ` not of ${limit.notOf.join(', ')}`}` +
        `${limit.inherited === undefined ? '' : ` from ${limit.inherited}`}: ${limit.severity}`,
    );

const bookOf = async (text: string, name = 'heron-club') => {
  const analysis = await analyse(`cage "x"\n${text}\n`);
  expect(told(analysis.findings)).toEqual([]);
  const book = findBook(libraryOf(analysis.cage), name);
  if (book === null) throw new Error(`no book ${name}`);
  return book;
};
const on = async (lines: string, code: string, base = 'fia-253') =>
  said((await bookOf(`rulebook heron-club based on ${base} {\n${lines}\n}`)).limits, code);

describe('a limit takes the place of what the base says', () => {
  // fia-253 allows 0 to 45 degrees and recommends 0 to 10; its own test holds that against the sheet.
  it('wholly where both sides are written: recommendations go too', async () => {
    expect(await on('limit strap.drop from 0 to 20', 'strap.drop')).toEqual(['allows 0 to 20°: error']);
  });

  it('on one side where one is written: the other stays as the base has it, in its words', async () => {
    expect(await on('limit strap.drop to 20', 'strap.drop')).toEqual([
      'wants at least 0° from fia-253: error',
      'allows at most 20°: error',
      'recommends at least 0° from fia-253: warning',
    ]);
    expect(await on('limit strap.drop from -5', 'strap.drop')).toEqual([
      'allows at most 45° from fia-253: error',
      'wants at least -5°: error',
      'recommends at most 10° from fia-253: warning',
    ]);
  });

  it('only of recommendations where it is one itself', async () => {
    expect(await on('limit strap.drop from 0 to 15 recommended', 'strap.drop')).toEqual([
      'allows 0 to 45° from fia-253: error',
      'recommends 0 to 15°: information',
    ]);
    expect(await on('limit strap.drop from 0 to 30; limit strap.drop from 0 to 15 recommended', 'strap.drop')).toEqual([
      'allows 0 to 30°: error',
      'recommends 0 to 15°: information',
    ]);
  });

  it('for the days that are written: on others what the base says stands', async () => {
    const dated = async (lines: string, code: string): Promise<readonly string[]> =>
      (await bookOf(`rulebook heron-club based on fia-253 {\n${lines}\n}`)).limits
        .filter((limit) => limit.code === code)
        .map(
          ({ allowed, since = '', before = '' }) => `${String(allowed.from)}..${String(allowed.to)} ${since} ${before}`,
        );
    // fia-253: 30 degrees at least, whenever the car was homologated.
    expect(await dated('limit backstay.angle from 35 since "2010" before "2015-07-01"', 'backstay.angle')).toEqual([
      '35..null 2010-01-01 2015-07-01',
      '30..null  2010-01-01',
      '30..null 2015-07-01 ',
    ]);
    // fia-253: two diagonals from 2002 on, one before.
    const diagonals = await dated('limit diagonal.missing from 2 since "1999"', 'diagonal.missing');
    expect(diagonals).toContain('2..null 1999-01-01 ');
    expect(diagonals).toContain('1..null  1999-01-01');
    expect(diagonals.filter((one) => one.startsWith('2'))).toHaveLength(1);
    // Two that speak of different days do not say the same twice; of the same day they do.
    expect(
      await dated(
        'limit backstay.angle from 35 since "2010"\nlimit backstay.angle from 32 before "2010"',
        'backstay.angle',
      ),
    ).toEqual(['35..null 2010-01-01 ', '32..null  2010-01-01']);
    const twice = await analyse(
      'cage "x"\nrulebook b { limit backstay.angle from 35 since "2010"; limit backstay.angle from 32 before "2011" }',
    );
    expect(twice.findings.map(({ code }) => code)).toContain('fact.twice');
  });

  it('and judges each car by its own day', async () => {
    const judged = async (day: string): Promise<readonly string[]> =>
      (
        await analyse(`${STAGES.hoop}rules heron-club
rulebook heron-club { limit hoop.tilt to 2 since "2010" }
${day === '' ? '' : `vehicle { homologated "${day}" }`}
plane lean { at (-500, 0, 0); leans 6 deg aft }
mirror left { node f = in lean (out 500, up 0); node c = in lean (out 450, up 900) }
tube second as main-rollbar { section t45; die d45; path f.left, c.left, c.right, f.right; first open; last open }
`)
      ).findings
        .filter(
          ({ subject, rule, code }) => (subject === 'second' && rule !== undefined) || code === 'rule.cannot-judge',
        )
        .map(({ code }) => code);
    expect(await judged('2009-12-31')).not.toContain('hoop.tilt');
    expect(await judged('2010-01-01')).toContain('hoop.tilt');
    // Without the day nobody knows, and nobody guesses.
    expect(await judged('')).toContain('rule.cannot-judge');
  });

  it('by other words where it goes by words', async () => {
    expect(await on('accept tube.material "drawn over mandrel", "4130 alloy"', 'tube.material')).toEqual([
      'wants drawn over mandrel, 4130 alloy: error',
    ]);
    const steel = (lines: string) =>
      analyse(`${STAGES.hoop}rules heron-club
rulebook heron-club based on fia-253 { ${lines} }
material dom { yield 480 MPa; tensile 550 MPa; kind drawn-over-mandrel }
section s { od 45; wall 2.5; material dom }
node low = (-300, 0, 0)
node high = on hoop nearest (0, 0, 1000)
tube prop as brace { section s; path low, high; first open }
`);
    const told = async (lines: string): Promise<number> =>
      (await steel(lines)).findings.filter(({ code, subject }) => code === 'tube.material' && subject === 'prop')
        .length;
    expect(await told('')).toBe(1);
    expect(await told('accept tube.material "cold-drawn seamless", "drawn over mandrel"')).toBe(0);
    expect(await told('accept tube.material "4130 alloy"')).toBe(1);
  });

  it('of the groups that are written, and leaves the others', async () => {
    // fia-253: 120 cm2 under hoops, 60 under backstays.
    expect(await on('limit foot.area from 150 cm2 of "hoop foot"', 'foot.area')).toEqual([
      'wants at least 15000 mm² of hoop foot: error',
      'wants at least 6000 mm² of backstay foot from fia-253: warning',
    ]);
    expect(await on('limit foot.area from 150 cm2', 'foot.area')).toEqual(['wants at least 15000 mm²: error']);
    expect(
      await on('limit foot.area from 150 cm2\nlimit foot.area from 10 in2 of "backstay foot"', 'foot.area'),
    ).toEqual([
      'wants at least 15000 mm² not of backstay foot: error',
      'wants at least 6451.6 mm² of backstay foot: error',
    ]);
  });

  it('for the cars for which the base says it, and counted as the base counts', async () => {
    // fia-253 asks for door bars in full cages only: a bare roll bar has none to count.
    const { limits } = await bookOf('rulebook heron-club based on fia-253 { limit door.bars from 3 }');
    const of = (code: string, list: readonly Limit[]) => list.filter((limit) => limit.code === code);
    expect(of('door.bars', limits).map(({ structure, allowed }) => [structure, allowed.from])).toEqual([['cage', 3]]);
    const bare = await analyse(`rulebook heron-club based on fia-253 { limit door.bars from 3 }
${STAGES.hoop}rules heron-club\n`);
    expect(bare.findings.filter(({ code }) => code === 'door.bars')).toEqual([]);
    const counting = BOOKS.flatMap((book) =>
      book.limits.filter(({ counts }) => counts !== undefined).map((l) => [book, l] as const),
    );
    expect(counting.length).toBeGreaterThan(0);
    for (const [{ name }, { code, counts }] of counting) {
      const own = await bookOf(`rulebook heron-club based on ${name} { limit ${code} from 1 to 9 }`);
      expect(of(code, own.limits).map((limit) => limit.counts)).toContainEqual(counts);
    }
  });

  it('and adds what the base does not limit but the tool measures', async () => {
    expect(await on('limit seat.gap from 2 in', 'seat.gap')).toEqual(['wants at least 50.8 mm: error']);
    for (const { code } of RULES.filter((rule) => canBeLimited(rule.code))) {
      const unit = { mm: ' mm', deg: ' deg', kg: ' kg', N: ' N', MPa: ' MPa', '1': '', mm2: ' mm2' }[
        unitOf(code) ?? '1'
      ];
      const limits = said(
        (await bookOf(`rulebook heron-club { limit ${code} from 1${unit} to 2${unit} }`)).limits,
        code,
      );
      expect([code, limits.length]).toEqual([code, 1]);
    }
  });
});

describe('the groups for which a limit can be meant', () => {
  it('are all that any rule reads, in all examples of all rules', { timeout: 60_000 }, async () => {
    const unknown = new Set<string>();
    for (const { explanation } of RULES) {
      const text = `${STAGES[explanation.stage]}${explanation.bad}\n`;
      const { cage, shape } = await analyse(text, explanation.files);
      const car = new Car(cage, shape);
      for (const { code, read } of RULES)
        for (const { group } of read(car))
          if (group !== null && !groupsOf(code).includes(group)) unknown.add(`${code}: ${group}`);
    }
    expect([...unknown].sort()).toEqual([]);
  });
});

describe('drop', () => {
  it('leaves out what the base says, wholly or of a group', async () => {
    expect(await on('drop strap.drop', 'strap.drop')).toEqual([]);
    expect(await on('drop foot.area of "backstay foot"', 'foot.area')).toEqual([
      'wants at least 12000 mm² of hoop foot from fia-253: error',
    ]);
    // Also where the base says it of all things alike.
    expect(await on('drop foot.side of "hoop foot"', 'foot.side', 'scca-gcr')).toEqual(
      (await on('', 'foot.side', 'scca-gcr')).map((line) => line.replace(' from', ' not of hoop foot from')),
    );
  });

  it('comes before the own limits, so that the other side can be left open', async () => {
    expect(await on('limit strap.drop to 20\ndrop strap.drop', 'strap.drop')).toEqual(['allows at most 20°: error']);
  });

  it('can drop whatever a book limits', () => {
    const limited = new Set(BOOKS.flatMap(({ limits }) => limits.map(({ code }) => code)));
    expect([...limited].filter((code) => !canBeDropped(code))).toEqual([]);
  });
});

describe('a chain of books', () => {
  const CHAIN = `rulebook heron-juniors based on heron-club {
  limit strap.spread to 15
  drop foot.bolts
}
rulebook heron-club based on fia-253 {
  cite "Heron Hill Climb Club, yearbook 2026"
  limit strap.drop from 0 to 20 cite "yearbook 2026, 4.2"
  limit seat.gap from 60
}`;
  it('hands down what each of them says, with its own citation', async () => {
    const { limits, asksCage, texts, base } = await bookOf(CHAIN, 'heron-juniors');
    expect(said(limits, 'strap.drop')).toEqual(['allows 0 to 20° from heron-club: error']);
    expect(said(limits, 'strap.spread')).toEqual(['allows at most 15°: error']);
    expect(said(limits, 'foot.bolts')).toEqual([]);
    expect(said(limits, 'hoop.flat')).toEqual(['allows at most 5 mm from fia-253: warning']);
    const where = (code: string) => limits.filter((limit) => limit.code === code).map((l) => [l.citation, l.source]);
    expect(where('strap.drop')).toEqual([['yearbook 2026, 4.2', 'written here']]);
    expect(where('seat.gap')).toEqual([['Heron Hill Climb Club, yearbook 2026', 'written here']]);
    expect(where('strap.spread')).toEqual([['rulebook heron-juniors in example.cage', 'written here']]);
    expect(where('hoop.flat')).toEqual([['Appendix J, Article 253-8.2.3', 'from memory']]);
    expect([asksCage, texts.length, base]).toEqual([true, 3, 'heron-club']);
  });

  it('may stand in any order, and in any of the files', async () => {
    const [, first = '', second = ''] = /^(.*?\n\})\n(.*)$/s.exec(CHAIN) ?? [];
    const turned = await bookOf(`${second}\n${first}`, 'heron-juniors');
    const apart = await analyse(`cage "x"\nuse "club.cage"\n${first}`, { 'club.cage': second });
    const plain = (limits: readonly Limit[]) => limits.map((limit) => ({ ...limit, writtenAt: undefined }));
    const whole = plain((await bookOf(CHAIN, 'heron-juniors')).limits);
    expect(plain(turned.limits)).toEqual(whole);
    expect(plain(findBook(libraryOf(apart.cage), 'heron-juniors')?.limits ?? [])).toEqual(whole);
  });

  it('needs no base, and no lines', async () => {
    const alone = await bookOf('rulebook heron-club { limit strap.drop to 20 }');
    expect([alone.limits.length, alone.asksCage, alone.base]).toEqual([1, false, null]);
    const base = findBook(libraryOf((await analyse('')).cage), 'nhra');
    const same = await bookOf('rulebook heron-club based on nhra { }');
    expect(same.limits.map((limit) => ({ ...limit, inherited: undefined }))).toEqual(
      [...(base?.limits ?? [])]
        .sort((a, b) => RANK.indexOf(a.severity) - RANK.indexOf(b.severity))
        .map((limit) => ({ ...limit, inherited: undefined })),
    );
  });
});

const RANK = ['error', 'warning', 'information'];

/** A strap that drops between 10 and 20 degrees, on a bar that is level. */
const strapCar = (rules: string, more = ''): string =>
  `${STAGES.harness.replace('z = 700', 'z = 675').replace('cage "Example"', `cage "Example"\nuse "club.cage"\nrules ${rules}`)}
strap inner { seat driver; slot inner; to bar; width 75; hardware 110; collars 20 gap 1.5 }
${more}`;
const CLUB = (lines: string, base = 'shop'): string => `rulebook heron-club based on ${base} { ${lines} }\n`;

const drops = async (rules: string, club: string, more = '') => {
  const { findings } = await analyse(strapCar(rules, more), { 'club.cage': club });
  return findings.filter(({ code }) => code === 'strap.drop');
};

describe('what a car is told by a book of its own', () => {
  it('names the club, its words and the place where they stand', async () => {
    const club = CLUB('cite "yearbook 2026"; limit strap.drop to 5');
    const [finding, ...more] = await drops('heron-club', club);
    expect(more).toEqual([]);
    expect(finding?.severity).toBe('error');
    expect(finding?.message).toMatch(/, heron-club allows at most 5°: raise the bar to z = \d/);
    expect(finding?.rule).toEqual({
      book: 'heron-club',
      citation: 'yearbook 2026',
      edition: '',
      source: 'written here',
    });
    expect(finding?.allowed).toEqual({ from: null, to: 5, unit: 'deg' });
    const [note] = finding?.notes ?? [];
    expect(note?.message).toBe('The limit of heron-club is written here.');
    expect([note?.place?.file, club.slice(note?.place?.span.start, note?.place?.span.end)]).toEqual([
      'club.cage',
      'strap.drop',
    ]);
  });

  it('says of what is handed down whose it is', async () => {
    const [finding] = await drops('heron-club', CLUB('drop strap.spread'));
    expect(finding?.message).toContain('heron-club (from shop) recommends at most 10°');
    expect(finding?.rule).toMatchObject({ book: 'heron-club', source: 'common practice' });
  });

  it('judges by it only where rules names it', async () => {
    expect((await drops('fia-253', CLUB('limit strap.drop to 5'))).map((f) => f.rule?.book)).toEqual(['fia-253']);
    expect((await drops('fia-253, heron-club', CLUB('limit strap.drop to 5'))).map((f) => f.rule?.book)).toEqual([
      'fia-253',
      'heron-club',
    ]);
  });

  it('judges each book by itself: practice stands back before a limit, not before itself', async () => {
    expect((await drops('shop, heron-club', CLUB(''))).map((f) => f.rule?.book)).toEqual(['heron-club', 'shop']);
    expect((await drops('shop, heron-club', CLUB('limit strap.drop to 5'))).map((f) => f.rule?.book)).toEqual([
      'heron-club',
    ]);
  });

  it('is information where it is recommended, and nothing where it is dropped', async () => {
    const recommended = await drops('heron-club', CLUB('drop strap.drop; limit strap.drop to 5 recommended'));
    expect(recommended.map((f) => [f.severity, f.message.includes('heron-club recommends at most 5°')])).toEqual([
      ['information', true],
    ]);
    expect(await drops('heron-club', CLUB('drop strap.drop'))).toEqual([]);
  });

  it('can be waived by its name, and only by that', async () => {
    const club = CLUB('limit strap.drop to 5', 'fia-253');
    const own = await drops('heron-club', club, 'waive heron-club strap.drop on inner because "the shell is fixed"');
    expect(own.map(({ waived }) => waived)).toEqual([true]);
    const base = await drops('heron-club', club, 'waive fia-253 strap.drop on inner because "the shell is fixed"');
    expect(base.map(({ waived }) => waived)).toEqual([false]);
  });
});

/** All that can be asked, without places of the text. */
const RANGE: Parameters<typeof modelJson>[1] = () => ({
  start: { line: 0, character: 0 },
  end: { line: 0, character: 0 },
});

const CODES = RULES.map(({ code }): string => code);
const line: fc.Arbitrary<string> = fc
  .record({
    code: fc.constantFrom(...CODES),
    drop: fc.boolean(),
    from: fc.option(fc.integer({ min: -20, max: 200 })),
    to: fc.option(fc.integer({ min: -20, max: 400 })),
    unit: fc.constantFrom('', ' deg', ' mm', ' cm2', ' MPa'),
    group: fc.nat(),
    ofGroup: fc.boolean(),
    recommended: fc.boolean(),
  })
  .map(({ code, drop, from, to, unit, group, ofGroup, recommended }) => {
    const groups = groupsOf(code);
    const of = ofGroup && groups.length > 0 ? ` of "${groups[group % groups.length] ?? ''}"` : '';
    if (drop) return `drop ${code}${of}`;
    const range = `${from === null ? '' : ` from ${String(from)}${unit}`}${to === null ? '' : ` to ${String(to)}${unit}`}`;
    return `limit ${code}${range}${of}${recommended ? ' recommended' : ''}`;
  });
const book = fc.record({
  base: fc.constantFrom(...BOOKS.map(({ name }) => name), 'heron-juniors', 'nobody'),
  lines: fc.array(line, { maxLength: 8 }),
});

describe('an own book', () => {
  const text = readFileSync(path.resolve(__dirname, '../../samples/plover-rollbar.cage'), 'utf8');
  const files = (one: { base: string; lines: readonly string[] }) =>
    new Map([
      [
        'club.cage',
        `rulebook heron-club based on ${one.base} {\n  ${one.lines.join('\n  ')}\n}\nrulebook heron-juniors based on heron-club { }\n`,
      ],
    ]);
  const car = text.replace(/^rules .*$/m, 'use "club.cage"\nrules heron-club, heron-juniors, shop');
  const run = async (project: Project, one: Parameters<typeof files>[0]): Promise<Analysis> =>
    project.analyse(await project.load(mapHost(files(one)), 'car.cage', car));
  const figures = (analysis: Analysis): string =>
    JSON.stringify(modelJson(analysis, RANGE), (key, value: unknown) => (key === 'findings' ? undefined : value));

  it(
    'changes no figure, whatever is written in it, and no finding but those of books',
    { timeout: 60_000 },
    async () => {
      const first = await analyse(text);
      const plain = ({ findings }: Analysis) =>
        findings
          .filter(
            (f) =>
              f.rule === undefined &&
              /^(bend|cope|end|leg|place|space|vent)\./.test(f.code) &&
              !f.code.startsWith('bend.radius'),
          )
          .map((f) => f.message);
      await fc.assert(
        fc.asyncProperty(book, async (one) => {
          const other = await run(new Project(), one);
          expect(figures(other)).toBe(figures(first));
          expect(plain(other)).toEqual(plain(first));
        }),
        { numRuns: 25 },
      );
    },
  );

  it('that is edited renews what it says: as if it were seen for the first time', { timeout: 60_000 }, async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(book, { minLength: 2, maxLength: 5 }), async (books) => {
        const project = new Project();
        for (const one of books) {
          const [again, anew] = [await run(project, one), await run(new Project(), one)];
          expect(told(again.findings)).toEqual(told(anew.findings));
          expect(again.findings.map(({ place, notes }) => [place, notes])).toEqual(
            anew.findings.map(({ place, notes }) => [place, notes]),
          );
        }
      }),
      { numRuns: 15 },
    );
  });

  it('works nothing out again but the judgement when a limit of it changes', async () => {
    const project = new Project();
    await run(project, { base: 'fia-253', lines: ['limit strap.drop to 20'] });
    const { runs, findings } = await run(project, { base: 'fia-253', lines: ['limit strap.drop to 2'] });
    expect(runs).toMatchObject({ end: 0, part: 0, clash: 0, strap: 0, seat: 0, vent: 0 });
    expect(findings.filter((f) => f.code === 'strap.drop' && f.rule?.book === 'heron-club').length).toBeGreaterThan(0);
  });
});
