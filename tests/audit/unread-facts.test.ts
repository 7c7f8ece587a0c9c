/**
 * What is written but cannot be read is a hole, never a default: figures that hang on it are null, and nothing else is
 * told of them (command line page: "null, never absent, never 0"; architecture page, invariant 1).
 */
import { describe, expect, it } from 'vitest';
import { analyse, told } from '../support/analyse';

interface Words {
  readonly lies?: string;
  readonly recline?: string;
  readonly yaw?: string;
  readonly at?: string;
  readonly wrap?: string;
  readonly last?: string;
  readonly grip?: string;
  readonly density?: string;
}

const car = (w: Words): string => `material m { density ${w.density ?? '7850 kg/m3'} }
section s { od 40; wall 2; material m }
die d { od 40; radius 120; grip ${w.grip ?? '20'}; between 20 }
node f = (0, 600, 0)
node a = (0, 600, 760)
node b = (0, -600, 760)
node g = (0, -600, 0)
tube hoop { section s; die d; path f, a, b, g; last ${w.last ?? 'past 10'} }
foot plate { at f; plate 100 x 100 x 3; lies ${w.lies ?? '4 deg up aft'}; hole 8 }
seat driver { slots (230, 345, 830); recline ${w.recline ?? '15 deg'}; yaw ${w.yaw ?? '3 deg in'}; slot-spacing 220; back 45 }
strap so { seat driver; slot outer; to hoop; at ${w.at ?? 'y = 400'}; width 75; wrap ${w.wrap ?? 'over'}; hardware 110; collars 20 gap 1.5 }
`;

const figures = async (words: Words) => {
  const { shape, findings } = await analyse(car(words));
  const hoop = shape.parts.get('hoop');
  const strap = shape.straps[0];
  return {
    codes: findings.filter((f) => f.severity === 'error').map((f) => f.code),
    others: told(findings.filter((f) => f.severity !== 'error')),
    saw: hoop?.ends[0].sawAngle ?? null,
    cutLength: hoop?.cutLength ?? null,
    stickLength: hoop?.stickLength ?? null,
    startMark: hoop?.bends[0]?.startMark ?? null,
    area: hoop?.section?.area ?? null,
    mass: hoop?.mass ?? null,
    total: shape.mass,
    slot: strap?.slot ?? null,
    drop: strap?.drop ?? null,
    spread: strap?.spread ?? null,
    gap: shape.seats[0]?.gap ?? null,
    lastCut: hoop?.ends[1].ordinates[0]?.cut ?? null,
  };
};

describe('a fact that cannot be read', () => {
  it('is nothing, where all can be read', async () => {
    const whole = await figures({});
    expect(whole.codes).toEqual([]);
    expect(Object.values(whole).filter((value) => value === null)).toEqual([]);
    // Rises 4 degrees toward aft under an upright leg: sawn 4 degrees off square.
    expect(whole.saw).toBeCloseTo((4 * Math.PI) / 180, 9);
  });

  it.each(['lvl', '', '3 kg up aft', '3 deg up aft, 3 deg up outt', '3 deg up aft, 1 / 0 deg up out'])(
    'lies %s: the plate is not level for that',
    async (lies) => {
      const found = await figures({ lies });
      expect([found.saw, found.cutLength, found.stickLength]).toEqual([null, null, null]);
      expect(found.codes).toHaveLength(1);
    },
  );

  it.each([{ recline: '3 kg' }, { recline: '' }, { yaw: '3 deg inn' }, { yaw: '' }, { yaw: '1 / 0 deg in' }])(
    '%o: the seat is not upright or straight for that',
    async (words) => {
      const found = await figures(words);
      expect([found.slot, found.drop, found.spread, found.gap]).toEqual([null, null, null, null]);
      expect(found.codes).toHaveLength(1);
    },
  );

  it.each([{ at: 'y = 3 kg' }, { at: 'foo' }, { at: '' }, { wrap: 'undr' }])(
    '%o: the strap does not run straight back, or over, for that',
    async (words) => {
      const found = await figures(words);
      expect([found.drop, found.spread]).toEqual([null, null]);
      expect(found.slot).not.toBeNull();
      expect(found.codes).toHaveLength(1);
    },
  );

  it.each(['past', 'past 3 kg', 'onto', 'onto nothing', 'opn'])(
    'last %s: the end is not what it would be taken for without it',
    async (last) => {
      const found = await figures({ last });
      expect([found.lastCut, found.cutLength, found.stickLength]).toEqual([null, null, null]);
      expect(found.codes).toHaveLength(1);
    },
  );

  it.each(['', '3 kg', 'foo'])('grip %s: tails are not 0 for that', async (grip) => {
    const found = await figures({ grip });
    expect([found.stickLength, found.startMark]).toEqual([null, null]);
    expect(found.cutLength).not.toBeNull();
    expect(found.codes).toHaveLength(1);
  });

  it.each(['', '3 kg', 'foo'])('density %s: it is not steel for that', async (density) => {
    const found = await figures({ density });
    expect([found.mass, found.total]).toEqual([null, null]);
    expect(found.area).toBeCloseTo(Math.PI * 38 * 2, 9);
    expect(found.codes).toHaveLength(1);
  });
});
