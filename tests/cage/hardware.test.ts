/** What is welded, bolted, drilled and laid round a cage: read, mirrored, measured along its tube. */
import { describe, expect, it } from 'vitest';
import { degrees } from '../../grammar/units';
import { gradeOf } from '../../server/cage/bolts';
import { read, thing, told } from './cage-of';

/** A hoop of two straight legs, 400 high and 600 wide: its bends of radius 60 take 60 of each leg. */
const HOOP = `section s { od 30; wall 2 }
die d { od 30; radius 60 }
mirror left {
  node f = (0, 300, 0)
  node k = (0, 300, 400)
  node on-leg = (0, 300, 150)
}
tube hoop { section s; die d; path f.left, k.left, k.right, f.right; first open; last open }
`;
/** Two legs of 340, two quarter circles of radius 60, 480 across. */
const LENGTH = 2 * 340 + 60 * Math.PI + 480;

describe('holes', () => {
  it('are measured along the tube, from its first node, from an end inward, from a node between toward the last', () => {
    const car = read(
      `${HOOP}hole hoop for inspection { from 100; dia 5 }\nhole hoop for inspection { at f.right; from 40; dia 5 }\nhole hoop for drain { at on-leg.left; dia 5 }\nhole hoop for bolt { at on-leg.right; from 50; clock 90; dia 8; sleeve yes }`,
    );
    expect(told(car)).toEqual([]);
    const stations = [...car.cage.things.values()].flatMap((one) => (one.kind === 'hole' ? [one.station ?? NaN] : []));
    const wanted = [100, LENGTH - 40, 150, LENGTH - 100];
    for (const [i, station] of stations.entries()) expect(station).toBeCloseTo(wanted[i] ?? NaN, 9);
    expect(stations).toHaveLength(4);
  });

  it('of the twin lie at the mirror image, clocks negated, also on a tube that exists once', () => {
    const car = read(`${HOOP}mirror left { hole hoop for inspection { from 100; clock 30; dia 5 } }`);
    expect(told(car)).toEqual([]);
    expect(thing(car, 'hole', 'hole:0.left').station).toBeCloseTo(100, 9);
    expect(thing(car, 'hole', 'hole:0.right').station).toBeCloseTo(LENGTH - 100, 9);
    expect(degrees(thing(car, 'hole', 'hole:0.left').clock ?? NaN)).toBeCloseTo(30, 9);
    expect(degrees(thing(car, 'hole', 'hole:0.right').clock ?? NaN)).toBeCloseTo(-30, 9);
  });

  it('that are not on their tube have no station', () => {
    const car = read(
      `${HOOP}node away = (0, 320, 150)\nhole hoop for drain { at away; dia 5 }\nhole hoop for drain { from 5 m; dia 5 }`,
    );
    expect(told(car)).toEqual(["hole.off-tube 'away'", "hole.off-tube '5 m'"]);
    for (const one of car.cage.things.values()) if (one.kind === 'hole') expect(one.station).toBeNull();
  });
});

describe('padding', () => {
  it('reaches from and to stations of the tube; that of a twin is turned round on a tube that exists once', () => {
    const car = read(
      `${HOOP}mirror left { padding hoop { thickness 25; from 50 to 300; standard fia 8857; fixed yes } }`,
    );
    expect(told(car)).toEqual([]);
    const [left, right] = [thing(car, 'padding', 'padding:0.left'), thing(car, 'padding', 'padding:0.right')];
    expect([left.from, left.to, left.standard, left.fixed, left.flameRetardant]).toEqual([
      50,
      300,
      'fia-8857',
      true,
      null,
    ]);
    expect(right.from).toBeCloseTo(LENGTH - 300, 9);
    expect(right.to).toBeCloseTo(LENGTH - 50, 9);
  });

  it('covers the whole tube where nothing is said, and nothing that is known where it cannot be read', () => {
    const car = read(
      `${HOOP}padding hoop { thickness 1 in; standard sfi 45.1 }\npadding hoop { thickness 20; from 10 to 9000 }`,
    );
    expect(told(car)).toEqual(["padding.off-tube '9000'"]);
    const all = [...car.cage.things.values()].flatMap((one) => (one.kind === 'padding' ? [one] : []));
    expect(all.map(({ from, to, unread, thickness }) => [from, to, unread, thickness])).toEqual([
      [null, null, false, 25.4],
      [null, null, true, 20],
    ]);
  });
});

describe('gussets', () => {
  const CORNER = `${HOOP}mirror left {
  node a = (-200, 300, 150)
  tube stay { section s; path on-leg, a; last open }
  gusset web { at on-leg; between hoop, stay; legs 60 x 70; thickness 1.5; kind sheet; cut-out 20; hole 10 }
}
`;
  it('name the tubes of their own side', () => {
    const car = read(CORNER);
    expect(told(car)).toEqual([]);
    const twin = thing(car, 'gusset', 'web.right');
    expect([twin.node, twin.between, twin.legs, twin.made]).toEqual([
      'on-leg.right',
      ['hoop', 'stay.right'],
      [60, 70],
      'sheet',
    ]);
    expect([twin.thickness, twin.cutOut, twin.hole]).toEqual([1.5, 20, 10]);
  });

  it('want two tubes that meet at the node', () => {
    expect(told(read(CORNER.replace('at on-leg; between', 'at a; between')))).toEqual(["gusset.apart 'hoop'"]);
    expect(told(read(CORNER.replace('hoop, stay;', 'stay, stay;')))).toEqual(["fact.value 'stay'"]);
    expect(told(read(CORNER.replace('hoop, stay;', 'stay;')))).toEqual(["fact.value 'stay'"]);
    expect(thing(read(CORNER.replace('hoop, stay;', 'stay;')), 'gusset', 'web.left').between).toBeNull();
  });
});

describe('bolts and plates', () => {
  it('know grades by their standards: ISO 898-1 by its classes, SAE J429 by its grades', () => {
    // ISO 898-1: the first figure is a hundredth of the nominal tensile strength. SAE J429 (from memory): 120 and 150 ksi.
    expect(gradeOf(8.8)).toEqual({ standard: 'iso', value: 8.8, tensile: 800 });
    expect(gradeOf(10.9)?.tensile).toBe(1000);
    expect(gradeOf(12.9)?.tensile).toBe(1200);
    expect(gradeOf(5)?.tensile).toBeCloseTo(120 * 6.894757, 0);
    expect(gradeOf(8)?.tensile).toBeCloseTo(150 * 6.894757, 0);
    expect([gradeOf(5)?.standard, gradeOf(8.7), gradeOf(0)]).toEqual(['sae', null, null]);
  });

  it('stand on a foot where they are written, mirrored on the twin', () => {
    const car = read(
      `${HOOP}mirror left { foot shoe { at f; plate 140 x 100 x 3; bolts 3 x M8 8.8; bolts-at (forward 50, out 30), (50, -30), (aft 40, left 5); counter-plate 160 x 120 x 3 welded; welded yes } }`,
    );
    expect(told(car)).toEqual([]);
    const [left, right] = [thing(car, 'foot', 'shoe.left'), thing(car, 'foot', 'shoe.right')];
    expect(left.boltsAt).toEqual([
      { forward: 50, left: 30 },
      { forward: 50, left: -30 },
      { forward: -40, left: 5 },
    ]);
    expect(right.boltsAt).toEqual([
      { forward: 50, left: -30 },
      { forward: 50, left: 30 },
      { forward: -40, left: -5 },
    ]);
    expect(left.bolts).toEqual({ count: 3, diameter: 8, grade: { standard: 'iso', value: 8.8, tensile: 800 } });
    expect([left.counterPlate, left.welded, left.on]).toEqual([
      { long: 160, wide: 120, thick: 3, held: 'welded' },
      true,
      'shell',
    ]);
  });

  it('are none where one of them cannot be read', () => {
    const foot = (facts: string): string => `${HOOP}foot shoe { at f.left; plate 140 x 100 x 3; ${facts} }`;
    const boltsAt = (facts: string) => thing(read(foot(facts)), 'foot', 'shoe').boltsAt;
    expect(boltsAt('bolts 2 x M8; bolts-at (50, 0), (-50, 0)')).toHaveLength(2);
    expect(boltsAt('bolts 2 x M8; bolts-at (50, 0), (nowhere, 0)')).toBeNull();
    expect(boltsAt('bolts 3 x M8; bolts-at (50, 0), (-50, 0)')).toBeNull();
    expect(boltsAt('bolts 2 x M8; bolts-at (50, 0), (-70.1, 0)')).toBeNull();
    expect(boltsAt('bolts 2 x M8')).toBeNull();
    expect(told(read(foot('bolts 4 x 3/8 in grade 5')))).toEqual([]);
    expect(thing(read(foot('bolts 4 x 3/8 in grade 5')), 'foot', 'shoe').bolts).toMatchObject({
      count: 4,
      diameter: expect.closeTo(9.525, 9) as number,
    });
  });
});

describe('fittings, doors, panels, mounts and anchors', () => {
  it('are read on both sides', () => {
    const car = read(`${HOOP}mirror left {
  node a = (-200, 300, 150)
  tube stay { section s; path on-leg, a; last open }
  fitting pin { tube stay first; kind clevis; shear double; bolt M10 8.8; stand-off 35; drawing "253-37"; welded no; bush yes }
  door front { outline (900, 700, 250), (-150, 700, 250), (-150, 650, 900) }
  seat chair { hip (200, 350, 250); recline 12 to 25 deg; slide -20 to 80; slot-height 560; slot-spacing 210; back 40; helmet (forward 60, out 10, up 280) radius 150; elbow (forward 200, down 200) }
  seat-mount rails { seat chair; points 4; bolts 4 x M8 8.8; seat-bolts 4 x M8; plate 80 x 60 x 3; counter-plate 80 x 60 x 3; load 15 kN; quick-release 18 kN }
  anchor belt as lap { seat chair; at (150, 550, 120); on stay; plate 80 x 60 x 3; bolt 7/16 in grade 5; load 3300 lbf }
}
panel skin as roof { outline (0, 400, 1200), (0, -400, 1200) }`);
    expect(told(car)).toEqual([]);
    const pin = thing(car, 'fitting', 'pin.right');
    expect([pin.tube, pin.end, pin.made, pin.shear, pin.standOff]).toEqual([
      'stay.right',
      'first',
      'clevis',
      'double',
      35,
    ]);
    expect([pin.drawing, pin.welded, pin.bush, pin.bolt?.count, pin.bolt?.diameter]).toEqual([
      '253-37',
      false,
      true,
      1,
      10,
    ]);
    expect(thing(car, 'door', 'front.right').outline?.map(([, y]) => y)).toEqual([-700, -700, -650]);
    expect(thing(car, 'panel', 'skin').outline).toHaveLength(2);
    const [left, right] = [thing(car, 'seat', 'chair.left'), thing(car, 'seat', 'chair.right')];
    expect(left.helmet).toEqual({ offset: [60, 10, 280], radius: 150 });
    expect(right.helmet).toEqual({ offset: [60, -10, 280], radius: 150 });
    expect(degrees(left.recline)).toBeCloseTo(12, 9);
    expect([left.reclineRange?.from, left.reclineRange?.to].map((a) => degrees(a ?? NaN))).toEqual([12, 25]);
    expect([right.slideRange, right.elbow]).toEqual([{ from: -20, to: 80 }, [200, 0, -200]]);
    const mount = thing(car, 'seat-mount', 'rails.right');
    expect([mount.seat, mount.points, mount.load, mount.quickRelease]).toEqual(['chair.right', 4, 15000, 18000]);
    const belt = thing(car, 'anchor', 'belt.right');
    expect([belt.as, belt.at, belt.tube, belt.bolt?.count]).toEqual(['lap', [150, -550, 120], 'stay.right', 1]);
    expect(belt.bolt?.diameter).toBeCloseTo((7 / 16) * 25.4, 9);
    // 1 lbf = 0.45359237 kg x 9.80665 m/s2 (international pound and standard gravity).
    expect(belt.load).toBeCloseTo(3300 * 0.45359237 * 9.80665, 6);
  });

  it('a range takes its unit from behind, is sorted, and is none where it cannot be read', () => {
    const seat = (facts: string) =>
      thing(read(`units in\nseat s { slots (0, 10, 20); slot-spacing 8; back 2; ${facts} }`), 'seat', 's');
    const one = seat('recline 10 deg; slide 20 to 80 mm');
    expect(one.slideRange).toEqual({ from: 20, to: 80 });
    expect(seat('recline 10 deg; slide -20 to 80 mm').slideRange).toEqual({ from: -20, to: 80 });
    expect(one.reclineRange?.from).toBe(one.reclineRange?.to);
    const back = seat('recline 25 to 12');
    expect(degrees(back.recline)).toBeCloseTo(25, 9);
    expect(degrees(back.reclineRange?.from ?? NaN)).toBeCloseTo(12, 9);
    expect(seat('recline 12 to 95').reclineRange).toBeNull();
    expect(seat('recline 12; slide 0 to nowhere').slideRange).toBeNull();
    expect(seat('recline 12').slideRange).toEqual({ from: 0, to: 0 });
    // No rails are longer than a metre: 8000 for 80.0 is a slip of the pen.
    expect(seat('recline 12; slide -1 to 1 m').slideRange).toEqual({ from: -1000, to: 1000 });
    expect(seat('recline 12; slide 0 to 1001 mm').slideRange).toBeNull();
    expect(seat('recline 12; slide -8000 to 80 mm').slideRange).toBeNull();
  });
});

describe("the car's own facts", () => {
  it('are read from vehicle, welding and material', () => {
    const car = read(`cage "x"
vehicle { mass 980 kg without driver; body closed; homologated "2004-02-29"; passport "2005"; cage asn; identified yes; shell composite; frame no; codriver no; kind production; elapsed-time 11.49; front-suspension (900, 500, 600); rear-suspension (-900, 500, 500); finish galvanized }
welding { process tig; weld round; ground no }
material cds { carbon 0.2 %; manganese 1.2 %; others 0.35 % }`);
    expect(told(car)).toEqual([]);
    expect(car.cage.vehicle).toMatchObject({
      ...{ homologated: '2004-02-29', passport: '2005-01-01', cage: 'asn', identified: true, shell: 'composite' },
      ...{ frame: false, codriver: false, kind: 'production', elapsedTime: 11.49, finish: 'galvanized' },
      ...{ frontSuspension: [900, 500, 600], rearSuspension: [-900, 500, 500] },
    });
    expect(car.cage.welding).toMatchObject({ process: 'tig', weld: 'round', ground: false });
    const steel = car.cage.materials.get('cds')?.value;
    expect([steel?.carbon, steel?.manganese]).toEqual([0.002, 0.012]);
    expect(steel?.others).toBeCloseTo(0.0035, 12);
  });

  it('a day that the calendar does not have is none', () => {
    for (const [day, known] of [
      ['2004-02-29', true],
      ['2003-02-29', false],
      ['1900-02-29', false],
      ['2000-02-29', true],
      ['2006-04-31', false],
      ['2006-13-01', false],
    ] as const) {
      const car = read(`cage "x"\nvehicle { homologated "${day}" }`);
      expect([day, car.cage.vehicle?.homologated]).toEqual([day, known ? day : null]);
      expect(told(car)).toEqual(known ? [] : [`fact.value '"${day}"'`]);
    }
  });
});
