/** The drill list: vents against the joints of the geometry, holes against the text, by stepping and by hand. */
import { describe, expect, it } from 'vitest';
import { nearestOn, pointAt } from '../../../server/centreline/query';
import type { Vec3 } from '../../../server/centreline/vector';
import { addScaled, cross, distance, dot, norm, sub } from '../../../server/centreline/vector';
import { clockFrame, vectorAt } from '../../../server/geometry/clock';
import type { Part } from '../../../server/geometry/shape';
import { arcsOf } from '../../../server/papers/bend/stick';
import type { AlongTube } from '../../../server/papers/drill/along';
import { clearanceHole } from '../../../server/papers/drill/bolt-holes';
import type { Drilling } from '../../../server/papers/drill/holes';
import { STEPS } from '../../../server/papers/drill/holes';
import { drillPapers, inOrder } from '../../../server/papers/drill/papers';
import { drillSize, STEP_WORDS } from '../../../server/papers/drill/words';
import { isPacketPaper } from '../../../server/papers/packet/marks';
import type { PacketInput } from '../../../server/papers/packet/paper';
import { read, rowsOf } from '../support';
import { inputOf, sampleInput } from '../bend/support';

const SAMPLES = ['plover-rollbar', 'siskin-club-bar', 'curlew-cage'];

const pageOf = (input: PacketInput): string => {
  const [paper] = drillPapers(input);
  if (typeof paper?.content !== 'string') throw new Error('no list');
  return paper.content;
};

const allRows = (page: string): readonly (readonly string[])[] =>
  STEPS.flatMap((step) => rowsOf(page, STEP_WORDS[step][0]));

const alongOf = ({ where }: Drilling): AlongTube => {
  if (where.kind !== 'tube') throw new Error('not on a tube');
  return where.along;
};

/** The place in space, from what somebody with a tape is told: bend or end, then the clock. */
function placeOf({ part, station, clock }: AlongTube): Vec3 {
  const line = part.centreline;
  if (line === null || clock === null) throw new Error('no place');
  const { point, tangent } = pointAt(line, station);
  return addScaled(point, vectorAt(clockFrame(tangent), clock), (part.tube.section?.od ?? NaN) / 2);
}

const radiusOf = (part: Part): number => (part.tube.section?.od ?? NaN) / 2;

/** From a line: of a point. */
const fromAxis = (p: Vec3, at: Vec3, along: Vec3): number => norm(cross(sub(p, at), along));

describe('vents inside joints', () => {
  for (const name of SAMPLES)
    it(`${name}: where the child's axis enters its host, inside the child's bore, in the host's wall`, async () => {
      const input = await sampleInput(name);
      const vents = inOrder(input).filter(({ sort }) => sort === 'vent');
      const written = [...input.cage.things.values()].filter(({ kind }) => kind === 'vent');
      expect(vents).toHaveLength(written.length);
      for (const vent of vents) {
        const along = alongOf(vent);
        const { closing, part: host } = vent;
        if (closing === null || host === null || host.centreline === null) throw new Error('no joint');
        const { end, part: child } = closing;
        if (end.origin === null || end.away === null) throw new Error('no end');
        expect(end.hosts.some((one) => one === host.name || one === host.tube.name)).toBe(true);
        expect(along.part).toBe(host);
        // By stepping outward along the axis from where the ends meet until the host is left behind.
        let far = -radiusOf(host);
        for (const stride of [0.5, 0.001])
          while (nearestOn(host.centreline, addScaled(end.origin, end.away, far + stride)).distance < radiusOf(host))
            far += stride;
        const entry = addScaled(end.origin, end.away, far);
        const place = placeOf(along);
        expect(distance(place, entry)).toBeLessThan(0.01);
        const bore = radiusOf(child) - (child.tube.section?.wall ?? NaN);
        expect(fromAxis(place, end.origin, end.away) + (vent.dia ?? NaN) / 2).toBeLessThan(bore);
      }
    });

  for (const name of SAMPLES)
    it(`${name}: the same place from the bend, from both ends and on the straight stick`, async () => {
      const input = await sampleInput(name);
      for (const drilling of inOrder(input)) {
        if (drilling.where.kind !== 'tube') continue;
        const { part, station, fromBend, fromFirst, fromLast, onStick } = drilling.where.along;
        if (part.cutLength !== null) expect((fromFirst ?? NaN) + (fromLast ?? NaN)).toBeCloseTo(part.cutLength, 6);
        const arcs = arcsOf(part.centreline);
        expect(fromBend === null).toBe(arcs.length === 0);
        if (fromBend === null) continue;
        const arc = arcs[fromBend.bend - 1];
        if (arc === undefined) throw new Error('no bend');
        const tangent = fromBend.tangent === 'begins' ? arc.start : arc.start + arc.length;
        expect(tangent + (fromBend.toward === 'END 2' ? 1 : -1) * fromBend.distance).toBeCloseTo(station, 6);
        for (const other of arcs)
          for (const mark of [other.start, other.start + other.length])
            if (!fromBend.inBend) expect(Math.abs(mark - station)).toBeGreaterThanOrEqual(fromBend.distance - 1e-9);
        const mark = part.bends[fromBend.bend - 1]?.startMark ?? null;
        if (mark !== null) {
          const along = mark + (tangent - arc.start) + (station - tangent);
          expect(onStick).toBeCloseTo(along, 6);
        }
      }
    });

  it('are drilled before the joint that closes them is welded, and the list says which that is', async () => {
    const input = await sampleInput('curlew-cage');
    const rows = rowsOf(pageOf(input), STEP_WORDS.joint[0]);
    const vents = inOrder(input).filter(({ step }) => step === 'joint');
    expect(rows).toHaveLength(vents.length);
    rows.forEach((row, i) => {
      const { closing, part } = vents[i] ?? { closing: null, part: null };
      const child = input.numbers.get(closing?.part.name ?? '')?.label ?? '?';
      expect(row[2]).toBe(input.numbers.get(part?.name ?? '')?.label);
      expect(row[5]).toContain(`${child} ${closing?.end.which === 'first' ? 'END 1' : 'END 2'}`);
      expect(row[5]).toContain('is tacked over it');
      expect(row[5]?.startsWith('after bending, ')).toBe((part?.bends.length ?? 0) > 0);
    });
  });

  it('of twins lie in mirrored places', async () => {
    const input = await sampleInput('curlew-cage');
    const all = inOrder(input).filter(({ where, part }) => where.kind === 'tube' && (part?.tube.side ?? null) !== null);
    let pairs = 0;
    for (const { thing, where } of all) {
      if (thing.side !== 'left' || where.kind !== 'tube') continue;
      const twin = all.find((one) => one.thing.name === thing.name.replace('.left', '.right'));
      if (twin === undefined) continue;
      const [x, y, z] = placeOf(where.along);
      expect(distance(placeOf(alongOf(twin)), [x, -y, z])).toBeLessThan(1e-6);
      pairs++;
    }
    expect(pairs).toBeGreaterThan(5);
  });
});

const CAR = `cage "x"
units mm
section bar { od 38; wall 2.5 }
die d38 { od 38; radius 114; grip 75 }
node a = (0, 600, 0)
node b = (0, 600, 800)
node c = (0, -600, 800)
tube bent as brace { section bar; die d38; path a, b, c; first open; last open }
`;

describe('holes of the text', () => {
  it('along a leg, by hand: 150 from the first node is 800 - 114 - 150 = 536 before the bend', async () => {
    const input = await inputOf(`${CAR}hole bent for drain { at a; from 150; clock 90; dia 6 }\n`);
    const [hole] = inOrder(input).filter(({ sort }) => sort === 'drain');
    if (hole === undefined) throw new Error('no hole');
    const along = alongOf(hole);
    expect(along.fromFirst).toBeCloseTo(150, 6);
    expect(along.fromBend).toMatchObject({ bend: 1, tangent: 'begins', toward: 'END 1', inBend: false });
    expect(along.fromBend?.distance).toBeCloseTo(536, 6);
    // The leg is upright: 0 is FRONT; looking up, clockwise from front, 90 degrees is the left, a quarter of 38 x pi round.
    expect(along.zero).toBe('FRONT');
    expect(along.round).toBeCloseTo((Math.PI * 38) / 4, 6);
    const place = placeOf(along);
    expect(distance(place, [0, 619, 150])).toBeLessThan(1e-6);
    const row = rowsOf(pageOf(input), STEP_WORDS.tube[0])[0];
    expect(row?.[1]).toBe('Drain hole, 6 mm (0.236 in)');
    expect(row?.[3]).toContain('536 mm (21 3/32 in) from where bend 1 begins, toward END 1');
    expect(row?.[4]).toBe('90° from FRONT: 29.8 mm (1 3/16 in) round, clockwise');
    expect(row?.[5]).toBe('after bending, before the tube is fitted');
  });

  it('in a bend: along its middle from where it begins, and said so', async () => {
    // 800 - 114 = 686 is where the bend begins.
    const input = await inputOf(`${CAR}hole bent for drain { at a; from 706; clock 0; dia 6 }\n`);
    const [hole] = inOrder(input);
    if (hole === undefined) throw new Error('no hole');
    const along = alongOf(hole);
    expect(along.fromBend?.inBend).toBe(true);
    expect(along.fromBend?.distance).toBeCloseTo(20, 6);
    expect(rowsOf(pageOf(input), STEP_WORDS.tube[0])[0]?.[3]).toContain('(in the bend, along its middle)');
  });

  it('vents to the air: before the last end is welded, from either end', async () => {
    for (const [node, which] of [
      ['a', 'fromFirst'],
      ['c', 'fromLast'],
    ] as const) {
      const text = CAR.replace('first open; last open', node === 'a' ? 'last open' : 'first open');
      const input = await inputOf(`${text}vent bent -> air { at ${node}; from 80; clock 180; dia 5; plug weld }\n`);
      const [vent] = inOrder(input).filter(({ sort }) => sort === 'air');
      if (vent === undefined) throw new Error('no vent');
      expect(alongOf(vent)[which]).toBeCloseTo(80, 6);
      const row = rowsOf(pageOf(input), STEP_WORDS.joint[0])[0];
      expect(row?.[1]).toBe('Vent to the air, 5 mm (0.197 in)');
      expect(row?.[5]).toContain('before the last of END 1 at a and END 2 at c is welded');
      expect(row?.[5]).toContain('closed afterwards: weld');
    }
  });

  it('in inches: the inspection hole of the club bar stands nine inches from the right foot', async () => {
    const input = await sampleInput('siskin-club-bar');
    const hole = inOrder(input).find(({ sort }) => sort === 'inspection');
    const line = hole?.part?.centreline ?? null;
    if (hole === undefined || hole.part === null || line === null) throw new Error('no hole');
    const { ends } = hole.part;
    const along = alongOf(hole);
    const node = input.cage.things.get('foot.right');
    if (node?.kind !== 'node' || node.at === null) throw new Error('no foot');
    const at = pointAt(line, along.station).point;
    expect(distance(at, node.at)).toBeCloseTo(9 * 25.4, 3);
    const last = ends[1];
    if (last.origin === null || last.away === null || last.minCut === null) throw new Error('no end');
    const long = addScaled(last.origin, last.away, last.minCut);
    expect(along.fromLast).toBeCloseTo(dot(sub(at, long), last.away), 6);
    const row = rowsOf(pageOf(input), STEP_WORDS.tube[0])[0];
    expect(row?.[1]).toBe('Inspection hole, 3/16 in (4.8 mm)');
    expect(row?.[4]).toMatch(/^180° from FRONT: \d+ \d+\/\d+ in \(\d+(\.\d)? mm\) round/);
  });

  it('in a tube that stands in the car are drilled there, and nobody bends it first', async () => {
    const old = (existing: string): string => `cage "Old hoop"
units mm
section bar { od 38; wall 2.5 }
die d { od 38; radius 114; grip 75 }
mirror left {
  node foot = (0, 500, 0)
  node top = (0, 500, 900)
  node half = on hoop where z = 450
}
tube hoop { section bar; die d; path foot.left, top.left, top.right, foot.right; first open; last open${existing} }
tube rung { section bar; path half.left, half.right }
vent rung -> hoop { at half.left; dia 5 }
hole hoop for inspection { from 200; clock 0; dia 5 }
seat chair { hip (300, 0, 200); recline 15 deg; slot-height 500; slot-spacing 200; back 40 }
anchor belt as lap { seat chair; at (0, 500, 150); on hoop; bolt M10 8.8 }
`;
    const words = async (existing: string): Promise<readonly string[]> =>
      allRows(pageOf(await inputOf(old(existing)))).map((row) => row[5] ?? '');
    const [made, stands] = [await words(''), await words('; existing yes')];
    expect([made.length, stands.length]).toEqual([3, 3]);
    for (const said of made) expect(said).toContain('after bending, before');
    for (const said of stands) expect(said).not.toContain('bending');
    expect(stands.filter((said) => said.startsWith('in the car, before the cage'))).toHaveLength(2);
  });

  it('whose end is cut away by a host count from the long point, not from the node', async () => {
    const text = `${CAR}node p = (0, 600, 300)\nnode q = (500, 600, 300)
tube stub as brace { section bar; path p, q; last open }
hole stub for drain { at p; from 100; clock 0; dia 5 }\n`;
    const input = await inputOf(text);
    const hole = inOrder(input).find(({ part }) => part?.name === 'stub');
    const end = hole?.part?.ends[0];
    if (hole === undefined || end === undefined) throw new Error('no hole');
    // Equal tubes at a right angle: the long point stands sqrt(19² - 16.5²) from the host's axis (closed form, at the bore).
    expect(alongOf(hole).fromFirst).toBeCloseTo(100 - Math.sqrt(19 ** 2 - 16.5 ** 2), 6);
  });
});

describe('holes in twins', () => {
  it('stand at the clock of the mirror image, from 0 up to a full turn', async () => {
    const text = `cage "x"
units mm
section bar { od 38; wall 2.5 }
mirror left {
  node a = (0, 600, 0)
  node b = (700, 500, 400)
  tube stay as brace { section bar; path a, b; last open }
  vent stay -> air { at a; from 80; clock 90; dia 5 }
  hole stay for drain { at a; from 200; clock 60; dia 6 }
}
`;
    const all = inOrder(await inputOf(text));
    for (const [sort, clock] of [
      ['air', 90],
      ['drain', 60],
    ] as const) {
      const [left, right] = ['left', 'right'].map((side) =>
        all.find((one) => one.sort === sort && one.thing.side === side),
      );
      if (left === undefined || right === undefined) throw new Error('no twins');
      expect(((alongOf(left).clock ?? NaN) * 180) / Math.PI).toBeCloseTo(clock, 9);
      expect(((alongOf(right).clock ?? NaN) * 180) / Math.PI).toBeCloseTo(360 - clock, 9);
      const [x, y, z] = placeOf(alongOf(left));
      expect(distance(placeOf(alongOf(right)), [x, -y, z])).toBeLessThan(1e-6);
    }
  });
});

describe('plates', () => {
  it('their vents, and their bolt holes where the text puts them', async () => {
    const input = await sampleInput('curlew-cage');
    const feet = [...input.cage.things.values()].filter((thing) => thing.kind === 'foot');
    const plates = inOrder(input).filter(({ thing }) => thing.kind === 'foot');
    expect(plates.filter(({ sort }) => sort === 'plate-hole')).toHaveLength(
      feet.filter((foot) => foot.hole !== null).length,
    );
    expect(plates.filter(({ sort }) => sort === 'plate-bolts')).toHaveLength(
      feet.filter((foot) => foot.bolts !== null).length,
    );
    for (const plate of plates) expect(plate.step).toBe('plate');
    const row = rowsOf(pageOf(input), STEP_WORDS.plate[0]).find(
      (one) => one[2]?.includes('foot plate hoop-foot.left and its counter-plate') === true,
    );
    // `bolts 3 x M8`; ISO 273 medium gives 9 mm for M8 (from memory). `bolts-at (forward 60, out 0), (aft 55, out 35), …`
    expect(row?.[1]).toBe('3 x bolt hole for M8, 9 mm (0.354 in)');
    expect(row?.[3]).toContain('60 mm (2 3/8 in) forward of its middle');
    expect(row?.[3]).toContain('55 mm (2 5/32 in) aft, 35 mm (1 3/8 in) left of its middle');
    expect(row?.[5]).toContain('main-hoop END 1 is welded to the plate');
  });

  it('holes for bolts: ISO 273 medium and ASME B18.2.8 normal (both from memory)', () => {
    expect([6, 8, 10, 12].map(clearanceHole)).toEqual([6.6, 9, 11, 13.5]);
    expect((clearanceHole(25.4 * 0.375) ?? NaN) / 25.4).toBeCloseTo(13 / 32, 9);
    expect((clearanceHole(25.4 * 0.5) ?? NaN) / 25.4).toBeCloseTo(9 / 16, 9);
    expect(clearanceHole(7.7)).toBeNull();
  });

  it('sizes of drills in both systems', () => {
    expect(drillSize(5, 'mm')).toBe('5 mm (0.197 in)');
    expect(drillSize(25.4 * 0.1875, 'in')).toBe('3/16 in (4.8 mm)');
    expect(drillSize(5, 'in')).toBe('0.197 in (5 mm)');
    expect(drillSize(null, 'mm')).toBe('not known');
  });
});

describe('the list', () => {
  for (const name of [...SAMPLES, 'every-finding'])
    it(`${name}: every hole once, step by step, a sound page, the same bytes twice`, async () => {
      const input = await sampleInput(name);
      const page = pageOf(input);
      expect(read(page).errors).toEqual([]);
      expect(isPacketPaper(page)).toBe(true);
      expect(page).toBe(pageOf(input));
      expect(read(page).words).not.toContain('NaN');
      const all = inOrder(input);
      expect(allRows(page).map(([number]) => number)).toEqual(all.map((_, i) => `D${String(i + 1)}`));
      const steps = all.map(({ step }) => STEPS.indexOf(step));
      expect(steps).toEqual([...steps].sort((a, b) => a - b));
    });

  it('gives no place in a part that an open error touches, and none for a vent that joins nothing', async () => {
    const sound = `${CAR}hole bent for drain { at a; from 150; clock 90; dia 6 }\n`;
    expect(allRows(pageOf(await inputOf(sound)))[0]?.[3]).toContain('536 mm');
    const broken = await inputOf(`${sound}tube bent as brace { section bar; path a, b }\n`);
    expect(broken.touched.size).toBeGreaterThan(0);
    expect(allRows(pageOf(broken))[0]?.[3]).toBe('not given: an open error touches bent');
    const apart = `${CAR}node p = (0, 0, 300)\nnode q = (500, 0, 300)
tube lone as brace { section bar; path p, q; first open; last open }
vent lone -> bent { at p; dia 5 }\n`;
    expect(allRows(pageOf(await inputOf(apart)))[0]?.[3]).toBe('cannot be drilled as it is written: see the findings');
  });

  it('says so where there is nothing to drill', async () => {
    expect(read(pageOf(await inputOf(CAR))).words).toContain('tells of no hole that is drilled');
  });
});
