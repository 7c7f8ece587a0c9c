/** Cages at random, as text: bent hoops, tubes on tubes at every angle and offset, feet that lie askew, seats and straps. */
import fc from 'fast-check';

const between = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max });

/** An end on one of the tubes before, or free in the air. */
const placeOf = (count: number): fc.Arbitrary<string> =>
  fc.oneof(
    {
      weight: 3,
      arbitrary: fc
        .tuple(between(0, count - 1), between(8, 92))
        .map(([i, share]) => `on t${String(i)} at ${String(share)} %`),
    },
    {
      weight: 1,
      arbitrary: fc.tuple(between(-900, 900), between(-700, 700), between(0, 1200)).map((at) => `(${at.join(', ')})`),
    },
  );

const bent = fc.option(fc.tuple(between(-900, 900), between(-700, 700), between(100, 1300)), { nil: null, freq: 3 });

/** A tube from place to place, maybe over a corner. */
const tube = (i: number): fc.Arbitrary<string> =>
  fc.tuple(fc.constantFrom('thick', 'thin', 'rod'), placeOf(i), placeOf(i), bent).map(([section, from, to, corner]) => {
    const n = String(i);
    const middle = corner === null ? '' : `node m${n} = (${corner.join(', ')})\n`;
    return (
      `node a${n} = ${from}\nnode b${n} = ${to}\n${middle}` +
      `tube t${n} { section ${section}; die d-${section}; path a${n}, ${corner === null ? '' : `m${n}, `}b${n} }`
    );
  });

const hoop = fc
  .tuple(
    between(400, 800),
    between(300, 700),
    between(800, 1400),
    between(-300, 300),
    between(-15, 15),
    between(-15, 15),
  )
  .map(
    ([out, top, high, back, aft, left]) =>
      `node f0 = (0, ${String(out)}, 0)\nnode c0 = (${String(back)}, ${String(top)}, ${String(high)})\n` +
      `node c1 = (${String(back)}, ${String(-top)}, ${String(high)})\nnode f1 = (0, ${String(-out)}, 0)\n` +
      `tube t0 as main-rollbar { section thick; die d-thick; path f0, c0, c1, f1 }\n` +
      `foot plate { at f0; plate 150 x 110 x 3; lies ${String(aft)} deg up aft, ${String(left)} deg up left; hole 8; counter-plate 160 x 120 x 3 welded }`,
  );

const seat = fc
  .tuple(between(0, 30), between(-20, 20), between(150, 320), between(20, 90))
  .map(
    ([recline, yaw, spacing, back]) =>
      `seat s { slots (-150, 0, 700); recline ${String(recline)} deg; yaw ${String(yaw)} deg; slot-spacing ${String(spacing)}; back ${String(back)} }\n` +
      `node h0 = (-420, 500, 680)\nnode h1 = (-420, -500, 680)\n` +
      `tube harness { section thin; die d-thin; path h0, h1; first open; last open }\n` +
      `strap left { seat s; slot left; to harness; width 75; collars 12 gap 2 }\n` +
      `strap right { seat s; slot right; to harness; width 50; fixing bolt }`,
  );

export const randomCage: fc.Arbitrary<string> = between(1, 7).chain((count) =>
  fc
    .tuple(
      fc.tuple(between(40, 60), between(25, 45), between(8, 30), between(10, 40)),
      hoop,
      fc.tuple(...Array.from({ length: count }, (_, i) => tube(i + 1))),
      seat,
    )
    .map(([[thick, thin, rod, wall], first, tubes, beside]) =>
      [
        'cage "at random"\nunits mm',
        `section thick { od ${String(thick)}; wall ${String(wall / 10)} }`,
        `section thin { od ${String(thin)}; wall ${String(Math.min(wall / 10, thin / 4))} }`,
        `section rod { od ${String(rod)}; wall ${String(rod / 5)} }`,
        `die d-thick { od ${String(thick)}; radius ${String(3 * thick)} }`,
        `die d-thin { od ${String(thin)}; radius ${String(3 * thin)} }`,
        `die d-rod { od ${String(rod)}; radius ${String(3 * rod)} }`,
        first,
        ...tubes,
        beside,
      ].join('\n'),
    ),
);
