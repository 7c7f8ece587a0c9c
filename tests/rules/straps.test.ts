/**
 * The strap rules against their published limits, on a car whose figures have closed forms: an upright seat, a level bar
 * straight across, so that the drop a of a webbing laid over a bar of radius r follows from
 * H cos a - D sin a = r (tangent to a circle), with D and H the slot's distance ahead of and above the bar's centreline.
 */
import { describe, expect, it } from 'vitest';
import type { PlacedFinding } from '../../grammar/finding';
import { analyse, told } from '../support/analyse';

const R = 19;
const rad = (deg: number): number => (deg * Math.PI) / 180;

/** Height of the slot above the bar's centreline for a drop of `deg` at a distance of `d`. */
const heightFor = (deg: number, d: number, r = R): number => (r + d * Math.sin(rad(deg))) / Math.cos(rad(deg));

/** Distance and height of the slot for a run of a length that drops 5 degrees: from the tangent's right angle. */
const runOf = (length: number): { readonly d: number; readonly h: number } => ({
  d: length * Math.cos(rad(5)) - R * Math.sin(rad(5)),
  h: length * Math.sin(rad(5)) + R * Math.cos(rad(5)),
});

interface Car {
  readonly rules?: string;
  readonly d?: number;
  readonly h?: number;
  readonly back?: number;
  readonly at?: string;
  readonly hardware?: number;
  readonly recline?: number;
  readonly units?: string;
  readonly extra?: string;
}

const BAR_Z = 700;

const car = ({
  rules = '',
  d = 200,
  h = 40,
  back = 1,
  at = '',
  hardware = 10,
  recline = 50,
  extra = '',
}: Car): string => `
cage "Worked values"
${rules === '' ? '' : `rules ${rules}`}
section t38 { od 38; wall 2.5 }
let bar-z = ${String(BAR_Z)}
node a = (0, 900, bar-z)
node b = (0, -900, bar-z)
tube bar as harness-bar { section t38; path a, b; first open; last open }
seat driver { slots (${String(d)}, 0, ${String(BAR_Z + h)}); recline ${String(recline)} deg; slot-spacing 200; back ${String(back)} }
strap left { seat driver; slot left; to bar; ${at}width 75; hardware ${String(hardware)}; collars 20 gap 1 }
${extra}
`;

const of = (findings: readonly PlacedFinding[], code: string): readonly PlacedFinding[] =>
  findings.filter((f) => f.code === code);

const drops = async (deg: number, rules: string): Promise<readonly PlacedFinding[]> =>
  of((await analyse(car({ rules, h: heightFor(deg, 200) }))).findings, 'strap.drop');

describe('strap.drop: 0 to 45 degrees, at most 10 recommended (FIA Appendix J, 253-6.2, an excerpt of the 2013 text)', () => {
  it.each([
    [9.999, null, null],
    [10.001, 'warning', 10],
    [14.2, 'warning', 10],
    [44.999, 'warning', 10],
    [45.001, 'error', 45],
    [0.001, null, null],
    [-0.001, 'error', 45],
  ])('%f degrees: %s', async (deg, severity, to) => {
    const [finding, ...more] = await drops(deg, 'fia-253');
    expect(more).toEqual([]);
    expect(finding?.severity ?? null).toBe(severity);
    if (finding === undefined) return;
    expect(finding.measured?.unit).toBe('deg');
    expect(finding.measured?.value).toBeCloseTo(deg, 6);
    expect(finding.allowed).toEqual({ from: 0, to, unit: 'deg' });
    expect(finding.rule).toMatchObject({ book: 'fia-253', source: 'published', edition: '2013' });
  });

  it('is judged by shop practice, as a warning, where no other book is chosen', async () => {
    for (const deg of [14.2, 50, -3]) {
      const [finding, ...more] = await drops(deg, '');
      expect(more).toEqual([]);
      expect(finding?.severity).toBe('warning');
      expect(finding?.rule).toMatchObject({ book: 'shop', source: 'common practice' });
    }
  });

  it('is told once where shop is chosen beside the published book', async () => {
    const findings = await drops(14.2, 'fia-253, shop');
    expect(findings.map((f) => f.rule?.book)).toEqual(['fia-253']);
  });

  it('names the height that mends it: whoever writes it is inside, and no more than 1 mm too high', async () => {
    for (const [deg, back, recline] of [
      [14.2, 1, 0],
      [14.2, 45, 15],
      [38, 45, 5],
      [50, 45, 15],
    ] as const) {
      const text = car({ rules: 'fia-253', h: heightFor(deg, 200), back, recline });
      const [finding] = of((await analyse(text)).findings, 'strap.drop');
      const z = Number(/raise the bar to z = (\d+(?:\.\d+)?)/.exec(finding?.message ?? '')?.[1]);
      expect(z, finding?.message).toBeGreaterThan(BAR_Z);
      const raised = (to: number): string => text.replace(`bar-z = ${String(BAR_Z)}`, `bar-z = ${String(to)}`);
      expect(of((await analyse(raised(z))).findings, 'strap.drop')).toEqual([]);
      expect(of((await analyse(raised(z - 1))).findings, 'strap.drop')).toHaveLength(1);
    }
  });

  it('names a height to lower the bar to where a strap runs up', async () => {
    const text = car({ rules: 'fia-253', h: heightFor(-6, 200) });
    const [finding] = of((await analyse(text)).findings, 'strap.drop');
    const z = Number(/lower the bar to z = (\d+(?:\.\d+)?)/.exec(finding?.message ?? '')?.[1]);
    expect(z).toBeLessThan(BAR_Z);
    expect(
      of((await analyse(text.replace(`bar-z = ${String(BAR_Z)}`, `bar-z = ${String(z)}`))).findings, 'strap.drop'),
    ).toEqual([]);
  });

  it('says it as a fabricator would', async () => {
    const [finding] = await drops(14.2, 'fia-253');
    expect(finding?.message).toBe('Strap left drops 14.2°, fia-253 recommends at most 10°: raise the bar to z = 716.');
  });
});

describe('strap.spread: at most 20 degrees either way (FIA Appendix J, 253-6.2, a quotation of the 1996 text)', () => {
  /** The strap at y on the bar; its slot is at y = 100. Start and contact in plan: the contact lies r sin a behind the centreline. */
  const spreadAt = async (
    y: number,
    rules: string,
  ): Promise<{ finding: PlacedFinding | undefined; spread: number }> => {
    const { findings, shape } = await analyse(car({ rules, h: heightFor(8, 200), at: `at y = ${String(y)}; ` }));
    return { finding: of(findings, 'strap.spread')[0], spread: ((shape.straps[0]?.spread ?? 0) * 180) / Math.PI };
  };

  it.each([
    [19.99, false],
    [20.01, true],
    [-19.99, false],
    [-20.01, true],
  ])('%f degrees', async (deg, broken) => {
    // The contact lies r sin a behind the bar's centreline, from the closed form of the tangent.
    const y = 100 + Math.tan(rad(deg)) * (200 + R * Math.sin(rad(8)));
    const { finding, spread } = await spreadAt(y, 'fia-253');
    expect(spread).toBeCloseTo(deg, 6);
    expect(finding !== undefined).toBe(broken);
    if (!broken) return;
    expect(finding?.severity).toBe('error');
    expect(finding?.allowed).toEqual({ from: null, to: 20, unit: 'deg' });
    expect(finding?.rule).toMatchObject({ book: 'fia-253', source: 'published' });
    expect(finding?.message).toContain(deg > 0 ? 'outward' : 'inward');
  });

  it('names the place on the bar that mends it', async () => {
    const { finding } = await spreadAt(250, 'fia-253');
    const y = Number(/to y = (-?\d+(?:\.\d+)?)/.exec(finding?.message ?? '')?.[1]);
    expect((await spreadAt(y, 'fia-253')).finding, finding?.message).toBeUndefined();
    expect((await spreadAt(y + 1, 'fia-253')).finding).toBeDefined();
  });
});

describe('shop practice (common practice, no source)', () => {
  it.each([
    [
      'strap.skew',
      { at: `at y = ${String(100 + Math.tan(rad(21)) * 200)}; ` },
      { at: `at y = ${String(100 + Math.tan(rad(19)) * 200)}; ` },
      'warning',
    ],
    ['strap.length', runOf(250.01), runOf(249.99), 'information'],
    ['seat.gap', { d: 69.9, recline: 0 }, { d: 70.1, recline: 0 }, 'warning'],
  ] as const)('%s', async (code, outside, inside, severity) => {
    const bad = (await analyse(car(outside))).findings;
    expect(
      of(bad, code).map((f) => [f.severity, f.rule?.book, f.rule?.source]),
      told(bad).join('\n'),
    ).toEqual([[severity, 'shop', 'common practice']]);
    expect(of((await analyse(car(inside))).findings, code)).toEqual([]);
  });

  it('strap.free-run: what the strap itself asks for; the message says how far aft, within 1 mm', async () => {
    const text = car({ d: 200, back: 45, recline: 12, hardware: 150 });
    const [finding] = of((await analyse(text)).findings, 'strap.free-run');
    expect(finding?.allowed).toEqual({ from: 150, to: null, unit: 'mm' });
    const aft = Number(/aft by (\d+(?:\.\d+)?)/.exec(finding?.message ?? '')?.[1]);
    const moved = (by: number): string => text.replaceAll('(0, ', `(${String(-by)}, `);
    expect(of((await analyse(moved(aft))).findings, 'strap.free-run'), finding?.message).toEqual([]);
    expect(of((await analyse(moved(aft - 1))).findings, 'strap.free-run')).toHaveLength(1);
  });

  it('says nothing where shop is not chosen', async () => {
    const text = car({ rules: 'fia-253', d: 60, back: 1, hardware: 150 });
    const codes = (await analyse(text)).findings.map((f) => f.code);
    expect(codes).not.toContain('seat.gap');
    expect(codes).not.toContain('strap.free-run');
  });
});

describe('a book changes no figure, only what is said about it', () => {
  it('for every choice of books', async () => {
    const figures = await Promise.all(
      ['', 'fia-253', 'shop', 'fia-253, shop'].map(
        async (rules) => (await analyse(car({ rules, h: 90 }))).shape.straps,
      ),
    );
    for (const other of figures) expect(other).toEqual(figures[0]);
  });
});
