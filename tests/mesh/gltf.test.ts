/**
 * glTF files against the Khronos validator (gltf-validator), the standard's own judge, and read back by a general-purpose
 * library: metres and axes as ISO/IEC 12113 has them.
 */
import fc from 'fast-check';
import { WebIO } from '@gltf-transform/core';
import { validateBytes } from 'gltf-validator';
import { describe, expect, it } from 'vitest';
import { glbFile } from '../../server/mesh/gltf';
import { boxOf } from '../../server/mesh/mesh';
import { meshesOf } from '../../server/mesh/meshes';
import { analyse } from '../support/analyse';
import { randomCage } from './random-cage';
import { SAMPLES, sampleCar } from './samples';

const MAKER = 'Cagewright 9.9.9';

describe('the samples as glTF', () => {
  for (const name of SAMPLES) {
    it(`${name}: no error and no warning of the validator, and the same bytes twice`, async () => {
      const { cage, shape } = await sampleCar(name);
      const bytes = await glbFile(cage, shape, MAKER);
      if (bytes === null) throw new Error('nothing was made');
      const report = await validateBytes(bytes, { maxIssues: 100 });
      expect(report.issues.messages).toEqual([]);
      expect(report.issues.numErrors).toBe(0);
      expect(report.issues.numWarnings).toBe(0);
      expect(report.info.generator).toBe(MAKER);
      const again = await sampleCar(name);
      expect(
        Buffer.compare(Buffer.from(bytes), Buffer.from((await glbFile(again.cage, again.shape, MAKER)) ?? [])),
      ).toBe(0);
    });
  }
});

describe('cages at random', () => {
  it('have files without error and without warning', async () => {
    for (const text of fc.sample(randomCage, { numRuns: 12, seed: 21 })) {
      const { cage, shape } = await analyse(text);
      const { issues } = await validateBytes((await glbFile(cage, shape, MAKER)) ?? new Uint8Array(), {
        maxIssues: 100,
      });
      expect(issues.messages.filter(({ severity }) => severity < 2)).toEqual([]);
    }
  });
});

describe('what is in the file', () => {
  it('has a node for each thing with its name, and the figures of a tube', async () => {
    const { cage, shape } = await sampleCar('plover-rollbar');
    const document = await new WebIO().readBinary((await glbFile(cage, shape, MAKER)) ?? new Uint8Array());
    const nodes = document.getRoot().listNodes();
    for (const [name, part] of shape.parts) {
      const node = nodes.filter((each) => each.getName() === name);
      expect(node.length, name).toBe(1);
      const extras = node[0]?.getExtras() ?? {};
      expect(extras['outsideDiameter']).toBe(part.tube.section?.od);
      expect(extras['wall']).toBe(part.tube.section?.wall);
      expect(extras['cutLength']).toBeCloseTo(part.cutLength ?? NaN, 5);
      expect(extras['mass']).toBeCloseTo(part.mass ?? NaN, 5);
    }
  });

  it('stands in metres, y up, z forward, x to the left', async () => {
    const { cage, shape } = await analyse(
      `cage "axes"\nunits mm\nsection t { od 40; wall 2 }\nnode a = (100, 200, 300)\nnode b = (900, 250, 320)\n` +
        `tube bar { section t; path a, b; first open; last open }\n`,
    );
    const thing = meshesOf(cage, shape).find(({ id }) => id === 'tube:bar');
    const mesh = thing?.made()?.mesh;
    const [low, high] = (mesh === undefined ? null : boxOf(mesh)) ?? [
      [0, 0, 0],
      [0, 0, 0],
    ];
    const document = await new WebIO().readBinary((await glbFile(cage, shape, MAKER)) ?? new Uint8Array());
    const position = document.getRoot().listMeshes()[0]?.listPrimitives()[0]?.getAttribute('POSITION');
    const [least, most] = [position?.getMinNormalized([]) ?? [], position?.getMaxNormalized([]) ?? []];
    // Left, up, forward.
    [1, 2, 0].forEach((axis, k) => {
      expect(least[k]).toBeCloseTo((low[axis] ?? NaN) / 1000, 6);
      expect(most[k]).toBeCloseTo((high[axis] ?? NaN) / 1000, 6);
    });
  });

  it('is nothing where nothing is known, and holds names that no file format likes', async () => {
    const empty = await analyse('cage "empty"\nunits mm\n');
    expect(await glbFile(empty.cage, empty.shape, MAKER)).toBeNull();
    const { cage, shape } = await analyse(
      `cage "„quoted\\" <&> \u{1f600}"\nunits mm\nsection t { od 40; wall 2 }\nnode a = (0, 0, 0)\nnode b = (0, 0, 500)\n` +
        `tube bar { section t; path a, b; first open; last open }\npanel flat as floor { outline a, b }\n`,
    );
    const bytes = await glbFile(cage, shape, MAKER);
    const report = await validateBytes(bytes ?? new Uint8Array(), {});
    expect(report.issues.messages).toEqual([]);
  });
});

describe('the validator', () => {
  it('would tell a file that is broken', async () => {
    const { cage, shape } = await sampleCar('plover-rollbar');
    const bytes = (await glbFile(cage, shape, MAKER)) ?? new Uint8Array();
    // A coordinate that is no number.
    const broken = bytes.slice();
    const at = broken.length - 4;
    broken.set([0xff, 0xff, 0xff, 0xff], at);
    const text = Buffer.from(bytes).toString('latin1');
    expect(text.startsWith('glTF')).toBe(true);
    expect((await validateBytes(broken, {})).issues.numErrors).toBeGreaterThan(0);
  });
});
