/** Removable joints in the picture: a band where the bolt is, as wide as the bolt; nothing where the file does not say it. */
import { describe, expect, it } from 'vitest';
import { boxOf, volumeOf } from '../../server/mesh/mesh';
import type { Mesh } from '../../server/mesh/mesh';
import { meshesOf } from '../../server/mesh/meshes';
import { Labels } from '../../server/view/labels';
import { analyse } from '../support/analyse';
import { leaks } from './closed';

const CAR = (facts: string, end = 'first'): string => `units mm
section host { od 45; wall 2.5 }
section t { od 40; wall 2 }
node a = (0, 0, -300)
node b = (0, 0, 300)
node c = (0, 0, 0)
node d = (0, 500, 0)
tube post { section host; path a, b; first open; last open }
tube arm { section t; path ${end === 'first' ? 'c, d; last open' : 'd, c; first open'} }
fitting pin { tube arm ${end}; kind clevis; ${facts} }
`;

const bandOf = async (text: string): Promise<Mesh | null> => {
  const { cage, shape } = await analyse(text);
  const thing = meshesOf(cage, shape).find(({ id }) => id === 'fitting:pin');
  if (thing === undefined) throw new Error('it is not among the things');
  return thing.made()?.mesh ?? null;
};

describe('a fitting', () => {
  for (const end of ['first', 'last'] as const)
    it(`at the ${end} end stands where its bolt is: from the host's axis along the tube`, async () => {
      const mesh = await bandOf(CAR('bolt M10; stand-off 60', end));
      if (mesh === null) throw new Error('it has no body');
      expect(leaks(mesh)).toEqual([]);
      expect(volumeOf(mesh)).toBeGreaterThan(0);
      const [low, high] = boxOf(mesh) ?? [];
      // The host's axis is y = 0: the bolt of 10 mm lies from 55 to 65.
      expect(low?.[1]).toBeCloseTo(55, 3);
      expect(high?.[1]).toBeCloseTo(65, 3);
      // Round the tube: outside of its 20 mm, and no more than a band.
      expect(high?.[2]).toBeGreaterThan(20);
      expect(high?.[2]).toBeLessThan(25);
    });

  it('of a tube that is split sits on the piece that has its end', async () => {
    const text = `${CAR('bolt M8; stand-off 40', 'last')}`
      .replace('path d, c; first open', 'path d, c; first open; split by stop')
      .concat(
        'node e = (-300, 250, 0)\nnode f = (300, 250, 0)\ntube stop { section host; path e, f; first open; last open }\n',
      );
    const [low, high] =
      boxOf(
        (await bandOf(text)) ?? {
          positions: new Float32Array(),
          normals: new Float32Array(),
          indices: new Uint32Array(),
          lines: new Float32Array(),
        },
      ) ?? [];
    expect(low?.[1]).toBeCloseTo(36, 3);
    expect(high?.[1]).toBeCloseTo(44, 3);
  });

  it('has no body where its bolt or its stand-off is not written, or the bolt would stand past its tube', async () => {
    for (const facts of ['bolt M10', 'stand-off 60', 'shear double', 'bolt M10; stand-off 900'])
      expect(await bandOf(CAR(facts)), facts).toBeNull();
  });

  it('is named in the list by what it is and where', async () => {
    const { cage, shape } = await analyse(CAR('bolt M10; stand-off 60'));
    const thing = meshesOf(cage, shape).find(({ id }) => id === 'fitting:pin');
    if (thing === undefined) throw new Error('it is not among the things');
    expect(new Labels(shape).of(thing)).toBe('pin: clevis joint, at the first end of arm, bolt 10 mm');
  });
});
