/** Worked values of the fact sheets, and what holds for any choice of books. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { modelJson } from '../../server/project/describe';
import { BOOKS } from '../../server/rules/books';
import { belts, stays } from '../../server/rules/examples';
import { explainText } from '../../server/rules/explain';
import { spacingAsked } from '../../server/rules/measures/strap-spacing-formula';
import { STAGES } from '../../grammar/explanations';
import { analyse } from '../support/analyse';

/** Places in the text are not the matter here. */
const RANGE: Parameters<typeof modelJson>[1] = () => ({
  start: { line: 0, character: 0 },
  end: { line: 0, character: 0 },
});

const names = BOOKS.map(({ name }) => name);
const hoopCar = async (text: string) => (await analyse(`${STAGES.hoop}${text}\n`)).findings;

describe('straps', () => {
  it('a bar 4 in under the shoulder is in order by the drag rule and too steep by angle, close behind the seat', async () => {
    // 4 in of drop are 20 degrees at 11.0 in of reach, and 26.6 degrees at 8 in (arithmetic: atan 4/11, atan 4/8).
    expect((Math.atan(4 / 11) * 180) / Math.PI).toBeCloseTo(20, 1);
    expect((Math.atan(4 / 8) * 180) / Math.PI).toBeCloseTo(26.6, 1);
    const findings = await hoopCar(`rules nhra, nasa-ccr\n${belts('(80, 300, 783)')}`);
    const codes = findings.map((f) => `${f.rule?.book ?? ''} ${f.code}`);
    expect(codes).toContain('nasa-ccr strap.shoulder-angle');
    expect(codes).not.toContain('nhra strap.shoulder-drop');
  });

  it('converge by Y = Z - X / 2: 14.0 degrees a side, and to nothing from 9 in at 18 in', () => {
    expect(spacingAsked(9 * 25.4, 18 * 25.4)).toBeCloseTo(0, 9);
    expect(spacingAsked(220, 200)).toBe(120);
    const aSide = (spacingAsked(220, 0) - spacingAsked(220, 100)) / 2 / 100;
    expect((Math.atan(aSide) * 180) / Math.PI).toBeCloseTo(14.04, 2);
  });
});

describe('books are neither averaged nor merged', () => {
  it('5 in and 6 in of drop: a brace between the two breaks one book only', async () => {
    // 140 mm below the top of the outer surface: 117.5 below the level top's axis.
    const findings = await hoopCar(
      `rules scca-gcr, nhra\n${stays('at 110 before crown').replace('at 110 before crown', 'where z = 882.5')}`,
    );
    const drops = findings.filter((f) => f.code === 'backstay.drop');
    expect(drops.map((f) => f.rule?.book)).toEqual(['nhra']);
    expect(drops[0]?.measured?.value).toBeCloseTo(140, 6);
    expect(drops[0]?.allowed?.to).toBeCloseTo(127, 6);
  });

  it('plates have a smallest area in one book and a greatest in another: 120 cm2, 100 sq in, 144 sq in', () => {
    const areas = BOOKS.flatMap(({ name, limits }) =>
      limits.filter(({ code }) => code === 'foot.area').map(({ allowed }) => [name, allowed.from, allowed.to] as const),
    );
    expect(areas).toEqual([
      ['fia-253', 12000, null],
      ['fia-253', 6000, null],
      ['scca-gcr', null, 144 * 645.16],
      ['nasa-ccr', null, 100 * 645.16],
      ['nasa-ccr', 9 * 645.16, null],
    ]);
  });

  it('one finding for each book that is broken, each with its article and edition', async () => {
    const findings = await hoopCar('rules scca-gcr, nasa-ccr, nhra, fia-253');
    const missing = findings.filter((f) => f.code === 'backstay.missing');
    expect(missing.map((f) => [f.rule?.book, f.severity])).toEqual(
      expect.arrayContaining([
        ['scca-gcr', 'error'],
        ['nasa-ccr', 'error'],
        ['nhra', 'error'],
        ['fia-253', 'warning'],
      ]),
    );
    expect(missing).toHaveLength(4);
    expect(missing.every((f) => (f.rule?.citation ?? '') !== '')).toBe(true);
  });
});

describe('presence and role', () => {
  it('a bare roll bar is judged by the rows that carry over, and told to be no cage', async () => {
    const findings = await hoopCar('rules fia-253, scca-solo, shop');
    const bars = findings.filter((f) => f.code === 'rule.roll-bar');
    expect(bars.map((f) => [f.severity, f.params['book']])).toEqual([['information', 'fia-253']]);
    expect(findings.map((f) => f.code)).not.toContain('structure.missing');
    expect(findings.map((f) => f.code)).not.toContain('door.bars');
    expect(findings.map((f) => f.code)).toContain('backstay.missing');
  });

  it('a stay that runs forward is judged by a book that asks, and else contradicts its role', async () => {
    const forward = stays('at 60 before crown', '(700, 500, 300)');
    const asked = (await hoopCar(`rules fia-253\n${forward}`)).map((f) => f.code);
    expect(asked).toContain('backstay.rearward');
    expect(asked).not.toContain('role.contradicts');
    const alone = (await hoopCar(forward)).filter((f) => f.code === 'role.contradicts');
    expect(alone.map((f) => f.severity)).toEqual(['warning']);
    expect(alone[0]?.message).toContain('runs forward');
  });

  it('from 2021 on geometry is not enough', async () => {
    const of = async (day: string) =>
      (await hoopCar(`rules fia-253\nvehicle { homologated "${day}" }`)).filter((f) => f.code === 'rule.edition');
    expect(await of('2020-12-31')).toEqual([]);
    expect((await of('2021-01-01')).map((f) => f.message).join()).toContain('certificate');
  });

  it('of a cage with a certificate the certificate is judged, not its structure', async () => {
    // 253-8.1 a, b, c: only a cage that is built by the text is held against 253-8.2 and 8.3.
    const of = async (route: string) => hoopCar(`rules fia-253\nvehicle { homologated "2015"; ${route} }`);
    const built = (await of('cage self-built')).map((f) => f.code);
    const certified = await of('cage asn; identified yes');
    expect(built).toContain('backstay.missing');
    expect(certified.filter((f) => f.severity !== 'information')).toEqual([]);
    expect(
      certified
        .filter((f) => f.code === 'rule.edition')
        .map((f) => f.message)
        .join(),
    ).toContain('certificate counts');
  });

  it('a day that there is not is told', async () => {
    const codes = (await hoopCar('vehicle { homologated "2021-13-01" }')).map((f) => f.code);
    expect(codes).toContain('fact.value');
  });
});

describe('a choice of books', () => {
  const text = readFileSync(path.resolve(__dirname, '../../samples/curlew-cage.cage'), 'utf8');
  const seats = readFileSync(path.resolve(__dirname, '../../samples/curlew-seats.cage'), 'utf8');
  const withBooks = async (books: readonly string[]) =>
    analyse(text.replace(/^rules .*$/m, `rules ${books.join(', ')}`), { 'curlew-seats.cage': seats });

  it('changes no figure, and no finding but those of books', async () => {
    const figures = (model: ReturnType<typeof modelJson>): string =>
      JSON.stringify(model, (key, value: unknown) =>
        ['rules', 'findings', 'waivers', 'books'].includes(key) ? undefined : value,
      );
    const first = await withBooks(['shop']);
    const plain = (findings: typeof first.findings): readonly string[] =>
      findings.filter((f) => f.rule === undefined && !f.code.startsWith('rule.')).map((f) => f.message);
    await fc.assert(
      fc.asyncProperty(fc.subarray(names, { minLength: 1 }), async (books) => {
        const other = await withBooks(books);
        expect(figures(modelJson(other, RANGE))).toBe(figures(modelJson(first, RANGE)));
        expect(plain(other.findings)).toEqual(plain(first.findings));
        const asked = other.findings.flatMap((f) => (f.rule === undefined ? [] : [f.rule.book]));
        expect(asked.filter((book) => !books.includes(book))).toEqual([]);
      }),
      { numRuns: 12 },
    );
  });
});

describe('explain', () => {
  it("shows every book's limit with its article, edition and state", () => {
    const said = explainText('tube.size') ?? '';
    for (const words of [
      'scca-gcr',
      'with driver',
      '1.750 x .095 in',
      '45 x 2.5 mm',
      'published',
      'from memory',
      '9.4.F',
    ])
      expect(said).toContain(words);
    const angle = explainText('backstay.angle') ?? '';
    expect(angle).toContain('at least 30°');
    expect(angle).toContain('from memory): warning');
  });
});
