/** Holes that let a bore breathe, and fittings at ends that are joined to something. */
import { describe, expect, it } from 'vitest';
import { analyse } from '../support/analyse';

const BAR = `cage "x"
units mm
rules bench
rulebook bench { cite "a book that limits nothing" }
section s { od 38; wall 2.5 }
node a = (0, 500, 0)
node b = (0, 500, 900)
node c = (0, -500, 0)
node d = (0, -500, 900)
tube left { section s; path a, b; first open; last open }
tube right { section s; path c, d; first open; last open }
node e = (0, 500, 500)
node f = (0, -500, 500)
tube bar { section s; path e, f }
`;

async function codes(text: string): Promise<readonly string[]> {
  return (await analyse(`${BAR}${text}`)).findings.map(({ code }) => code);
}
const vented = async (text: string): Promise<boolean | null | undefined> =>
  (await analyse(`${BAR}${text}`)).shape.spaces.find(({ tubes }) => tubes.includes('bar'))?.vented;

describe('a hole in a tube', () => {
  it('lets its bore breathe while it stays open', async () => {
    expect(await vented('')).toBe(false);
    expect(await codes('')).toEqual(['space.unvented']);
    expect(await vented('hole bar for inspection { from 200; dia 5 }')).toBe(true);
    expect(await codes('hole bar for drain { from 200; dia 5 }')).toEqual([]);
    expect(await vented('hole bar for drain { from 200; dia 5; plug screw }')).toBe(false);
    expect(await vented('hole bar for bolt { from 200; dia 11; sleeve yes }')).toBe(false);
    // A vent beside an open hole joins nothing new.
    expect(await codes('hole bar for drain { from 200; dia 5 }\nvent bar -> left { at e; dia 5 }')).toEqual([
      'vent.no-effect',
    ]);
  });

  it('of which the place cannot be read leaves it unknown', async () => {
    expect(await vented('hole bar for drain { from nowhere; dia 5 }')).toBeNull();
    expect(await vented('hole bar for drain { from 200 }')).toBeNull();
    expect(await vented('hole bar for drain { from 200; dia 5; sleeve maybe }')).toBeNull();
    expect(await vented('hole bar for drain { from 200; dia 5; plug }')).toBeNull();
  });

  it('lies on the piece of a split tube that it is drilled into', async () => {
    const cross =
      'node g = (0, 0, 100)\nnode h = (0, 0, 900)\ntube post { section s; path g, h; first open; last open }\n';
    const text = `${BAR.replace('path e, f }', 'path e, f; split by post }')}${cross}hole bar for drain { from 300; dia 5 }`;
    const spaces = (await analyse(text)).shape.spaces;
    expect(spaces.find(({ tubes }) => tubes.includes('bar.a'))?.vented).toBe(true);
    expect(spaces.find(({ tubes }) => tubes.includes('bar.b'))?.vented).toBe(false);
  });

  it('is told where the end is cut away', async () => {
    // The bar is coped to a post of radius 19: its long points lie 16 to 19 beside the post's axis.
    expect(await codes('hole bar for drain { from 10; dia 5 }')).toContain('hole.off-tube');
    expect(await codes('hole bar for drain { from 30; dia 5 }')).toEqual([]);
  });
});

describe('a fitting', () => {
  const VENT = 'hole bar for drain { from 200; dia 5 }\n';

  it('holds an end to what it lands on, and cuts it no other way', async () => {
    expect(await codes(`${VENT}fitting pin { tube bar first; kind clevis; shear double; bolt M10 8.8 }`)).toEqual([]);
    const [plain, pinned] = await Promise.all(
      [VENT, `${VENT}fitting pin { tube bar first; kind clevis }`].map((text) => analyse(`${BAR}${text}`)),
    );
    expect(pinned?.shape.parts.get('bar')?.cutLength).toBe(plain?.shape.parts.get('bar')?.cutLength);
    expect(pinned?.shape.parts.get('bar')?.ends[0].fit).toBe('cope');
  });

  it('joins two ends that butt against each other, and a corner', async () => {
    const butt = 'node m = (0, 500, 1500)\ntube more { section s; path b, m; last open }\n';
    const joined = BAR.replace('path a, b; first open; last open', 'path a, b; first open');
    const found = await analyse(`${joined}${VENT}${butt}fitting sleeve { tube more first; kind muff }`);
    expect(found.findings.map(({ code }) => code)).not.toContain('fitting.no-joint');
  });

  it('has nothing to hold at an open end, and an end has one', async () => {
    expect(await codes(`${VENT}fitting pin { tube left last; kind clevis }`)).toEqual(['fitting.no-joint']);
    expect(
      await codes(`${VENT}fitting pin { tube bar last; kind clevis }\nfitting lug { tube bar last; kind lug }`),
    ).toEqual(['fitting.twice']);
  });
});
