import { describe, expect, it } from 'vitest';
import { analyse } from '../support/analyse';

/** A strap that drops about 14 degrees. */
const car = (waivers: string, rules = 'fia-253, shop'): string => `
cage "Waivers"
rules ${rules}
section t38 { od 38; wall 2.5 }
node a = (0, 900, 700)
node b = (0, -900, 700)
tube bar as harness-bar { section t38; path a, b; first open; last open }
seat driver { slots (200, 0, 770); recline 40 deg; slot-spacing 200; back 1 }
strap s { seat driver; slot left; to bar; width 75; hardware 10; collars 20 gap 1 }
${waivers}
`;

const states = async (waivers: string, rules?: string): Promise<readonly (readonly [string, boolean])[]> =>
  // What the books ask of the bar itself is not the matter here.
  (await analyse(car(waivers, rules))).findings
    .filter((f) => f.code !== 'hoop.missing' && f.code !== 'rule.cannot-judge')
    .map((f) => [f.code, f.waived] as const);

describe('waivers', () => {
  it('mark a finding and leave it in the list', async () => {
    expect(await states('waive strap.drop on s because "looked at"')).toEqual([['strap.drop', true]]);
  });

  it('hold up to their bound; worse than it, the finding counts again and the waiver is told', async () => {
    expect(await states('waive strap.drop on s up to 15 deg because "looked at"')).toEqual([['strap.drop', true]]);
    expect(await states('waive strap.drop on s up to 12 deg because "looked at"')).toEqual([
      ['strap.drop', false],
      ['waive.unused', false],
    ]);
    // A bare number is an angle where an angle is measured.
    expect(await states('waive strap.drop on s up to 15 because "looked at"')).toEqual([['strap.drop', true]]);
  });

  it('hold for one book only, if they name one', async () => {
    expect(await states('waive fia-253 strap.drop on s because "looked at"')).toEqual([['strap.drop', true]]);
    expect(await states('waive shop strap.drop on s because "looked at"')).toEqual([
      ['strap.drop', false],
      ['waive.unused', false],
    ]);
  });

  it('that waive nothing are told why', async () => {
    const { findings, waivers } = await analyse(car('waive seat.gap on driver because "looked at"'));
    const unused = findings.find((f) => f.code === 'waive.unused');
    expect(unused?.severity).toBe('information');
    expect(unused?.message).toContain('seat.gap');
    expect(waivers.map((w) => w.used)).toEqual([false]);
  });

  it('cannot be written for what cannot be built, nor for what is no code', async () => {
    expect((await states('waive end.loose on bar because "looked at"')).map(([code]) => code)).toEqual([
      'strap.drop',
      'waive.not-waivable',
    ]);
    expect((await states('waive strap.dropp on s because "looked at"')).map(([code]) => code)).toEqual([
      'strap.drop',
      'waive.unknown',
    ]);
  });
});

describe('a bound on a figure that is too small', () => {
  const tight = (bound: string): string => `
cage "Too little"
section t38 { od 38; wall 2.5 }
node a = (0, 900, 700)
node b = (0, -900, 700)
tube bar as harness-bar { section t38; path a, b; first open; last open }
seat driver { slots (200, 0, 740); recline 10 deg; slot-spacing 200; back 45 }
strap s { seat driver; slot left; to bar; width 75; hardware 140; collars 20 gap 1 }
waive shop strap.free-run on s up to ${bound} because "shorter slider ordered"
`;

  it('holds down to it', async () => {
    const { findings } = await analyse(tight('130 mm'));
    const [free] = findings.filter((f) => f.code === 'strap.free-run');
    expect(free?.waived).toBe(true);
    expect(free?.measured?.value).toBeGreaterThan(130);
    expect(findings.map((f) => f.code)).not.toContain('waive.unused');
  });

  it('counts again below it, and a bound of another kind holds nothing', async () => {
    for (const bound of ['139 mm', '10 deg']) {
      const { findings } = await analyse(tight(bound));
      expect(findings.find((f) => f.code === 'strap.free-run')?.waived).toBe(false);
      expect(findings.map((f) => f.code)).toContain('waive.unused');
    }
  });
});

describe('twins', () => {
  const mirrored = (more: string): string => `
cage "Twins"
section t38 { od 38; wall 2.5 }
node a = (0, 900, 700)
node b = (0, -900, 700)
tube bar as harness-bar { section t38; path a, b; first open; last open }
mirror left {
  seat chair { slots (200, 400, 770); recline 40 deg; slot-spacing 200; back 1 }
  strap s { seat chair; slot outer; to bar; width 75; hardware 10; collars 20 gap 1 }
}
${more}
`;

  it('that say the same are one finding, at the written statement, without a side', async () => {
    const findings = (await analyse(mirrored(''))).findings.filter((f) => f.code === 'strap.drop');
    expect(findings).toHaveLength(1);
    expect(findings[0]?.subject).toBe('s');
    expect(findings[0]?.message).toMatch(/^Strap s drops 14(\.\d+)?°, .*: raise the bar to z = \d+\. On both sides\.$/);
  });

  it('that differ are two findings, each with its side', async () => {
    const text = `
cage "Twins"
section t38 { od 38; wall 2.5 }
mirror left {
  node a = (0, 900, 700)
  node b = (0, 300, 700)
  tube bar as harness-bar { section t38; path a, b; first open; last open }
  seat chair { slots (200, 600, 770); recline 40 deg; slot-spacing 200; back 1 }
  strap s { seat chair; slot outer; to bar; width 75; hardware 10; collars 20 gap 1 }
}
adjust a.right by (down 10)
adjust b.right by (down 10)
`;
    const drops = (await analyse(text)).findings.filter((f) => f.code === 'strap.drop');
    expect(drops.map((f) => f.subject)).toEqual(['s.left', 's.right']);
  });

  it('are two where one of them is waived', async () => {
    const drops = (await analyse(mirrored('waive strap.drop on s.left because "looked at"'))).findings.filter(
      (f) => f.code === 'strap.drop',
    );
    expect(drops.map((f) => [f.subject, f.waived])).toEqual([
      ['s.left', true],
      ['s.right', false],
    ]);
  });

  it('are both waived by their bare name', async () => {
    const drops = (await analyse(mirrored('waive strap.drop on s because "looked at"'))).findings.filter(
      (f) => f.code === 'strap.drop',
    );
    expect(drops.map((f) => [f.subject, f.waived])).toEqual([['s', true]]);
  });
});
