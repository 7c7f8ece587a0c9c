/** What lies on a bar: on it, off its bends, clear of each other, and held sideways. */
import { describe, expect, it } from 'vitest';
import { wordFinding } from '../../grammar/print';
import { mm } from '../../grammar/units';
import type { Finding } from '../../grammar/finding';
import type { Thing } from '../../server/cage/cage';
import type { Vec3 } from '../../server/centreline/vector';
import { strapsOf } from '../../server/geometry/straps';
import { cageOf, collarOf, partOf, partsByName, seatOf, strapOf, tubeOf } from './strap-car';

// A bar of od 40 from y = 500 to y = -500, its top level with the slots at y ±100: straps run level, straight back.
const straight = partOf(
  tubeOf(
    'bar',
    [
      [-240, 500, 780],
      [-240, -500, 780],
    ],
    40,
  ),
);
const seat = seatOf([0, 0, 800]);
const at = (y: number) => ({ axis: 'y' as const, value: mm(y) });
const COLLARS = { width: mm(20), gap: mm(1.5) };

const told = (things: readonly Thing[], bar = straight, code?: string): readonly Finding[] => {
  const { findings } = strapsOf(cageOf(seat, bar.tube, ...things), partsByName(bar));
  return code === undefined ? findings : findings.filter((finding) => finding.code === code);
};
const says = (finding: Finding | undefined): string => (finding === undefined ? '' : wordFinding(finding, 'mm'));

describe('a strap on its bar', () => {
  it('has nothing said of it where it is held and clear', () => {
    expect(told([strapOf({ collars: COLLARS })])).toEqual([]);
  });

  it('lies wholly on it: the webbing, and its collars', () => {
    // The webbing is 75 wide: its edge at y = 470 + 37.5 hangs 7.5 over the end at 500.
    const [over] = told([strapOf({ at: at(470) })], straight, 'strap.misses-bar');
    expect(over?.measured?.value).toBeCloseTo(7.5, 9);
    expect(over?.severity).toBe('error');
    expect(says(over)).toBe(
      'Strap belt does not meet bar: its webbing hangs 7.5 mm over the first end; move it inward.',
    );
    expect(told([strapOf({ at: at(462.5) })], straight, 'strap.misses-bar')).toEqual([]);
    // With collars of 20 at 1.5: 37.5 + 21.5 = 59 to each side.
    expect(told([strapOf({ at: at(441), collars: COLLARS })], straight, 'strap.misses-bar')).toEqual([]);
    const [collar] = told([strapOf({ at: at(442), collars: COLLARS })], straight, 'strap.misses-bar');
    expect(collar?.measured?.value).toBeCloseTo(1, 9);
    expect(says(collar)).toContain('its collar hangs 1 mm over');
  });

  it('stops where the cope takes the tube away', () => {
    const coped = partOf(straight.tube, { minCut: mm(15), maxCut: mm(22) });
    const [over] = told([strapOf({ at: at(450) })], coped, 'strap.misses-bar');
    expect(over?.measured?.value).toBeCloseTo(450 + 37.5 - (500 - 22), 9);
  });

  it('says where it does not meet it at all', () => {
    expect(says(told([strapOf({ at: at(600) })])[0])).toBe(
      'Strap belt does not meet bar: no point of the bar lies at y = 600 mm.',
    );
    const short = partOf(
      tubeOf(
        'bar',
        [
          [-240, 90, 780],
          [-240, -500, 780],
        ],
        40,
      ),
    );
    expect(says(told([strapOf()], short)[0])).toBe(
      'Strap belt does not meet bar: the bar does not pass straight behind the slot; say where with at.',
    );
  });

  it('says that it lies on the rear edge of the slot', () => {
    const low = partOf(
      tubeOf(
        'bar',
        [
          [-240, 500, 700],
          [-240, -500, 700],
        ],
        40,
      ),
    );
    expect(told([strapOf()], low, 'strap.slot-edge')).toHaveLength(1);
    expect(told([strapOf()], straight, 'strap.slot-edge')).toEqual([]);
  });
});

describe('a bend', () => {
  // Straight from y = 200 to -200, bent forward by 45° outside: radius 100, so each bend begins 100 tan 22.5° = 41.421
  // before its corner at y = ±200.
  const path: readonly Vec3[] = [
    [-140, 300, 780],
    [-240, 200, 780],
    [-240, -200, 780],
    [-140, -300, 780],
  ];
  const bent = partOf(tubeOf('bar', path, 40, 100));
  const begins = 200 - 100 * Math.tan(Math.PI / 8);

  it('takes no webbing', () => {
    expect(told([strapOf({ at: at(begins - 37.5) })], bent, 'strap.on-bend')).toEqual([]);
    const [on] = told([strapOf({ at: at(begins - 37.5 + 3) })], bent, 'strap.on-bend');
    expect(on?.measured?.value).toBeCloseTo(3, 9);
    expect(says(on)).toBe('Strap belt lies on the bend of bar at bar-1, by 3 mm: move it 3 mm inward along the bar.');
  });

  it('takes no collar either', () => {
    const y = begins - 59 + 4;
    const [on] = told([strapOf({ at: at(y), collars: COLLARS })], bent, 'strap.on-bend');
    expect(on?.measured?.value).toBeCloseTo(4, 9);
    expect(says(on)).toMatch(/^A collar of strap belt lies on the bend/);
    expect(told([strapOf({ at: at(begins - 59), collars: COLLARS })], bent, 'strap.on-bend')).toEqual([]);
    const [own] = told([collarOf('ring', begins)], bent, 'strap.on-bend');
    expect(own).toMatchObject({ subject: 'ring' });
    expect(says(own)).toMatch(/^Collar ring lies on the bend of bar at bar-1, by 10 mm/);
  });

  it('holds the webbing where it begins within 5 mm of its edge', () => {
    const held = (y: number) => told([strapOf({ at: at(y) })], bent, 'strap.can-slide').map((f) => f.params['side']);
    expect(held(begins - 37.5 - 5)).toEqual(['inward']);
    expect(held(begins - 37.5 - 5.1)).toEqual(['both ways']);
  });
});

describe('a strap that can slide', () => {
  const sides = (...things: readonly Thing[]) => told(things, straight, 'strap.can-slide').map((f) => f.params['side']);

  it('has nothing within 5 mm of its edge', () => {
    expect(sides(strapOf())).toEqual(['both ways']);
    expect(sides(strapOf({ collars: { width: mm(20), gap: mm(5) } }))).toEqual([]);
    expect(sides(strapOf({ collars: { width: mm(20), gap: mm(5.1) } }))).toEqual(['both ways']);
  });

  it('is held on one side by a collar of its own statement', () => {
    // Webbing from y = 62.5 to 137.5; a collar 20 wide at 150 begins 2.5 from it.
    expect(sides(strapOf(), collarOf('ring', 150))).toEqual(['inward']);
    expect(sides(strapOf(), collarOf('ring', 50))).toEqual(['outward']);
    expect(sides(strapOf(), collarOf('one', 150), collarOf('two', 50))).toEqual([]);
    expect(sides(strapOf(), collarOf('ring', 153))).toEqual(['both ways']);
  });

  it('is held by the collar of its neighbour', () => {
    const neighbour = strapOf({ name: 'other', slot: 'right', at: at(-1), collars: COLLARS });
    // The neighbour's collar ends at y = -1 + 59 = 58; the webbing begins at 62.5.
    expect(sides(strapOf(), neighbour)).toEqual(['outward']);
  });
});

describe('two things on one bar', () => {
  const overlaps = (...things: readonly Thing[]) => told(things, straight, 'strap.overlap');
  const other = (y: number, collars: typeof COLLARS | null = null) =>
    strapOf({ name: 'other', slot: 'right', at: at(y), collars });

  it('overlap by webbing', () => {
    expect(overlaps(strapOf(), other(25))).toEqual([]);
    const [finding] = overlaps(strapOf(), other(30));
    expect(finding?.measured?.value).toBeCloseTo(5, 9);
    expect(says(finding)).toMatch(/^belt and other overlap by 5 mm on bar/);
    expect(finding?.at).toEqual({ kind: 'thing', thing: 'other' });
    expect(finding?.notes[0]?.at).toEqual({ kind: 'thing', thing: 'belt' });
  });

  it('overlap by collars, and by a collar on webbing', () => {
    // belt's collar ends at 100 - 59 = 41; the other's, at -20 + 59 = 39, and one further at -15 + 59 = 44.
    expect(overlaps(strapOf({ collars: COLLARS }), other(-20, COLLARS))).toEqual([]);
    expect(overlaps(strapOf({ collars: COLLARS }), other(-15, COLLARS))[0]?.measured?.value).toBeCloseTo(3, 9);
    // A ring from 130 to 150 stands on webbing that reaches to 137.5.
    expect(overlaps(strapOf(), collarOf('ring', 140))[0]?.measured?.value).toBeCloseTo(7.5, 9);
  });

  it('are the same pair whatever the order of the text, told at the later one', () => {
    const [one] = overlaps(strapOf(), other(30));
    const [two] = overlaps(other(30), strapOf());
    expect([two?.subject, two?.params, two?.measured]).toEqual([one?.subject, one?.params, one?.measured]);
    expect(two?.at).toEqual({ kind: 'thing', thing: 'belt' });
  });
});

describe('a collar', () => {
  it('sits somewhere on its bar', () => {
    expect(says(told([collarOf('ring', 600)])[0])).toBe('No point of bar lies at y = 600 mm.');
    const [over] = told([collarOf('ring', 495)]);
    expect(over?.code).toBe('place.none');
    expect(says(over)).toBe('Collar ring reaches 5 mm past the first end of bar: move it inward.');
    expect(told([{ ...collarOf('ring', 600), tube: 'none' }])).toEqual([]);
    expect(told([{ ...collarOf('ring', 600), width: null }])).toEqual([]);
  });
});
