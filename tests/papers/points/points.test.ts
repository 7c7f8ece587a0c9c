/** The set-out sheet: points as the file tells them, ends where they land on their hosts, plates and gussets with their sizes. */
import { describe, expect, it } from 'vitest';
import { degrees } from '../../../grammar/units';
import { pointPapers } from '../../../server/papers/points/papers';
import { landingsOf, pointsOf } from '../../../server/papers/points/points';
import { inputOf, sampleInput } from '../bend/support';
import { read, rowsOf } from '../support';

const CAR = (more = ''): string => `cage "Tee"
units mm
section bar { od 40; wall 2 }
node low = (0, 0, 0)
node high = (0, 0, 1000)
node root = (0, 0, 400)
tube post as brace { section bar; path low, high; last open }
mirror left {
  node tip = (-250, 600, 400)
  node spare = (5, 5, 5)
  foot pad { at tip; plate 120 x 80 x 3; lies 4 deg up aft, 2 deg up out; counter-plate 130 x 90 x 3 welded }
}
node arm-end = (0, 600, 400)
tube arm as brace { section bar; path root, arm-end; last open }
foot base { at low; plate 100 x 90 x 4 turned 30 deg; lies level }
gusset web { at root; between post, arm; legs 80 x 60; thickness 2; kind flat }
${more}`;

const page = async (text: string): Promise<string> => String(pointPapers(await inputOf(text))[0]?.content);

describe('points', () => {
  it('are what the file says: forward, left, up; twins once; what nothing hangs on is left out', async () => {
    const rows = rowsOf(await page(CAR()), 'Points in the car');
    expect(rows.map((row) => row.slice(0, 4))).toEqual([
      ['low', 'at the zero', 'on the middle', 'at the zero'],
      ['high', 'at the zero', 'on the middle', '1000 mm (39 3/8 in) up'],
      ['root', 'at the zero', 'on the middle', '400 mm (15 3/4 in) up'],
      [
        'tip, LEFT and RIGHT',
        '250 mm (9 27/32 in) aft',
        '600 mm (23 5/8 in) to the left and to the right',
        '400 mm (15 3/4 in) up',
      ],
      ['arm-end', 'at the zero', '600 mm (23 5/8 in) left', '400 mm (15 3/4 in) up'],
    ]);
    expect(rows[0]?.[4]).toContain('END 1');
    expect(rows[0]?.[4]).toContain('plate base');
    expect(rows[3]?.[4]).toBe('plate pad (both sides)');
  });

  it('of samples: every node of every made part is there, once', async () => {
    for (const name of ['plover-rollbar', 'siskin-club-bar', 'curlew-cage']) {
      const input = await sampleInput(name);
      const points = pointsOf(input);
      const listed = points.flatMap(({ name: one, twins }) => (twins ? [`${one}.left`, `${one}.right`] : [one]));
      expect(new Set(listed).size).toBe(listed.length);
      for (const { nodes, tube } of input.shape.parts.values())
        if (!tube.existing) for (const node of nodes) if (node !== null) expect(listed).toContain(node);
    }
  });
});

describe('landings', () => {
  it('are measured along the host from its long point, and round it from FRONT', async () => {
    const input = await inputOf(CAR());
    const [arm, ...rest] = landingsOf(input);
    expect(rest).toEqual([]);
    expect([arm?.part.name, arm?.host.name]).toEqual(['arm', 'post']);
    // The post stands on its plate square, 400 below the arm. To the car's left of an upright tube is a quarter from FRONT,
    // clockwise seen upward: x forward, y left, z up are right-handed.
    expect(arm?.along?.fromFirst).toBeCloseTo(400, 6);
    expect(degrees(arm?.along?.clock ?? NaN)).toBeCloseTo(90, 6);
    expect(arm?.along?.zero).toBe('FRONT');
    expect(arm?.along?.round).toBeCloseTo(10 * Math.PI, 6);
  });

  it('of what an open error touches are not given', async () => {
    const rows = rowsOf(
      await page(CAR().replace('section bar; path root', 'section none; path root')),
      'Where ends land',
    );
    for (const row of rows) expect(row[2]).toContain('not given: an open error touches');
  });
});

it('plates and gussets have their sizes, and say how they lie', async () => {
  const text = await page(CAR());
  const plates = rowsOf(text, 'Plates');
  expect(plates.map((row) => row.slice(0, 4))).toEqual([
    [
      'pad.left',
      '120 mm (4 23/32 in) x 80 mm (3 5/32 in) x 3 mm (1/8 in)',
      'rises 4° aft and 2° to the left',
      '130 mm (5 1/8 in) x 90 mm (3 17/32 in) x 3 mm (1/8 in), welded',
    ],
    [
      'pad.right',
      '120 mm (4 23/32 in) x 80 mm (3 5/32 in) x 3 mm (1/8 in)',
      'rises 4° aft and 2° to the right',
      '130 mm (5 1/8 in) x 90 mm (3 17/32 in) x 3 mm (1/8 in), welded',
    ],
    [
      'base',
      '100 mm (3 15/16 in) x 90 mm (3 17/32 in) x 4 mm (5/32 in)',
      'level; turned 30° anticlockwise from above',
      'none',
    ],
  ]);
  expect(rowsOf(text, 'Gussets')[0]?.slice(1, 5)).toEqual([
    '02 post and 01 arm',
    '80 mm (3 5/32 in) and 60 mm (2 3/8 in)',
    '2 mm (3/32 in)',
    'flat plate',
  ]);
  expect(read(text).errors).toEqual([]);
});

it('an empty file has none', async () => {
  for (const text of ['', 'cage "x"'])
    expect(read(await page(text)).words).toContain('The file tells of no point, plate or joint.');
});
