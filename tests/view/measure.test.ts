/** Tape and angle gauge: figures against closed forms and examples worked by hand. */
import { expect, it } from 'vitest';
import type { MeasureAnswer, Point3 } from '../../server/view/model';
import { measureBetween } from '../../server/view/measure';
import { analyse } from '../support/analyse';

const tubes = (lines: string, units = 'mm'): string =>
  `cage "M"\nunits ${units}\nsection s { od ${units === 'in' ? '1.5' : '40'}; wall ${units === 'in' ? '0.095' : '2'} }\ndie d { od ${units === 'in' ? '1.5' : '40'}; radius ${units === 'in' ? '4.5' : '120'} }\n${lines}`;

const tube = (name: string, path: string, more = ''): string => {
  const points = [...path.matchAll(/\([^)]*\)/g)].map(([point], i) => ({ node: `${name}-${String(i)}`, point }));
  return `${points.map(({ node, point }) => `node ${node} = ${point}\n`).join('')}tube ${name} { section s; ${more}path ${points.map(({ node }) => node).join(', ')}; first open; last open }\n`;
};

const measure = async (text: string, a: [string, Point3], b: [string, Point3]): Promise<MeasureAnswer> => {
  const { shape } = await analyse(text);
  const answer = measureBetween(shape, { id: a[0], at: a[1] }, { id: b[0], at: b[1] });
  if (answer === null) throw new Error('One of the two is not there.');
  return answer;
};

const says = ({ lines }: MeasureAnswer, start: string): string =>
  lines.find(({ what }) => what.startsWith(start))?.says ?? 'not told';

it('a tape between two nodes: 3-4-12-13, in space and as it is seen', async () => {
  // Euclid: 3² + 4² + 12² = 13²; seen along an axis that axis does not count.
  const text = tubes('node p = (100, 200, 300)\nnode q = (130, 240, 420)');
  const answer = await measure(text, ['node:p', [0, 0, 0]], ['node:q', [9, 9, 9]]);
  expect(says(answer, 'Distance between')).toBe('130 mm');
  expect(says(answer, 'Along the car')).toBe('dx 30 mm, dy 40 mm, dz 120 mm');
  // Side: hypot(30, 120) = 123.693; plan: hypot(30, 40) = 50; front: hypot(40, 120) = 126.491.
  expect(says(answer, 'Distance as seen')).toBe('side 123.7 mm, plan 50 mm, front 126.5 mm');
  expect(answer.marks).toHaveLength(1);
  expect(answer.marks[0]).toMatchObject({ kind: 'distance', from: [100, 200, 300], to: [130, 240, 420] });
});

it('says inches in thousandths and as a tape shows them', async () => {
  const text = tubes('node p = (0, 0, 0)\nnode q = (3, 4, 0)', 'in');
  const answer = await measure(text, ['node:p', [0, 0, 0]], ['node:q', [0, 0, 0]]);
  expect(says(answer, 'Distance between')).toBe('5 in (5 in on a tape)');
  const odd = tubes('node p = (0, 0, 0)\nnode q = (14.19, 0, 0)', 'in');
  // 14.19 x 16 = 227.04 sixteenths.
  expect(says(await measure(odd, ['node:p', [0, 0, 0]], ['node:q', [0, 0, 0]]), 'Distance between')).toBe(
    '14.19 in (14 3/16 in on a tape)',
  );
});

it('two tubes that pass square: axes, surfaces, angles', async () => {
  // Skew lines along x and along y, 100 apart in height: the surfaces are 100 - 40 apart.
  const text = tubes(tube('a', '(-500, 0, 0), (500, 0, 0)') + tube('b', '(0, -500, 100), (0, 500, 100)'));
  const answer = await measure(text, ['tube:a', [200, 0, 20]], ['tube:b', [0, 300, 80]]);
  expect(says(answer, 'Shortest, axis')).toBe('100 mm');
  expect(says(answer, 'Shortest, surface')).toBe('60 mm');
  expect(says(answer, 'Angle between')).toBe('90° (90°)');
  expect(says(answer, 'Angle as seen')).toBe('side end-on, plan 90°, front end-on');
  expect(says(answer, 'Lean of a')).toBe('0°, side 0°, front end-on');
  const gap = answer.marks.find(({ what }) => what === 'gap');
  expect(gap).toMatchObject({ kind: 'distance', from: [0, 0, 20], to: [0, 0, 80] });
});

it('the angle of a stay: a slope of 3 in 4, and what it looks like from the side', async () => {
  // The leg runs (400, 300, 300): against horizontal atan(300 / 500) = 30.964°, from the side atan(300 / 400) = 36.870°,
  // from the front atan(300 / 300) = 45°; to a level tube along x: acos(400 / sqrt(400² + 300² + 300²)) = 46.686°.
  const text = tubes(tube('stay', '(0, 0, 0), (400, 300, 300)') + tube('sill', '(0, -200, 0), (900, -200, 0)'));
  const answer = await measure(text, ['tube:stay', [200, 150, 170]], ['tube:sill', [300, -200, 20]]);
  expect(says(answer, 'Lean of stay')).toBe('31°, side 36.9°, front 45°');
  expect(says(answer, 'Angle between')).toBe('46.7° (133.3°)');
  // From above: atan(300 / 400) = 36.870°.
  expect(says(answer, 'Angle as seen')).toBe('side 36.9°, plan 36.9°, front end-on');
});

it('takes the leg that was picked of a bent tube, and says where it is a bend', async () => {
  // Up, a right-angled bend of radius 120 at (0, 0, 600), then forward.
  const bent = tube('hoop', '(0, 0, 0), (0, 0, 600), (600, 0, 600)', 'die d; ');
  const text = tubes(bent + tube('floor', '(-300, 300, 0), (300, 300, 0)'));
  const upright = await measure(text, ['tube:hoop', [20, 0, 200]], ['tube:floor', [0, 280, 0]]);
  expect(says(upright, 'Angle between')).toBe('90° (90°)');
  expect(says(upright, 'Lean of hoop')).toBe('90°, side 90°, front 90°');
  const level = await measure(text, ['tube:hoop', [400, 0, 620]], ['tube:floor', [0, 280, 0]]);
  expect(says(level, 'Angle between')).toBe('0° (180°)');
  // The middle of the arc: its centre is (120, 0, 480), the tangent there leans 45 degrees.
  const middle: Point3 = [120 - 140 * Math.SQRT1_2, 0, 480 + 140 * Math.SQRT1_2];
  const bend = await measure(text, ['tube:hoop', middle], ['tube:floor', [0, 280, 0]]);
  expect(says(bend, 'Lean of hoop, there in its bend,')).toBe('45°, side 45°, front 90°');
  // Two legs of one tube: the angle that the bend turns.
  const both = await measure(text, ['tube:hoop', [20, 0, 200]], ['tube:hoop', [400, 0, 620]]);
  expect(says(both, 'Angle between')).toBe('90° (90°)');
  expect(says(both, 'Shortest')).toBe('not told');
});

it('brings a pick from the facets of the mesh onto the round tube', async () => {
  const text = tubes(tube('a', '(0, 0, 0), (1000, 0, 0)') + tube('b', '(0, 300, 0), (1000, 300, 0)'));
  // Picked 0.2 inside of either surface: the tape lies on the surfaces, 300 - 40 apart.
  const answer = await measure(text, ['tube:a', [500, 19.8, 0]], ['tube:b', [500, 280.2, 0]]);
  expect(says(answer, 'Distance between')).toBe('260 mm');
});

it('an end that points at a tube: the rim of its face is nearest', async () => {
  // The end of b at (0, 0, 100) leans: along (0, 1, 1), its face of radius 20 comes down to 100 - 20 sin 45° = 85.858.
  const text = tubes(tube('a', '(-500, 0, 0), (500, 0, 0)') + tube('b', '(0, 0, 100), (0, 500, 600)'));
  const answer = await measure(text, ['tube:a', [100, 0, 20]], ['tube:b', [0, 250, 330]]);
  // The lowest point of the rim is (0, 20 sin 45°, 100 - 20 sin 45°): so far from a's axis, less its radius.
  const aside = 20 * Math.SQRT1_2;
  const gap = answer.marks.find(({ what }) => what === 'gap');
  const far = gap?.kind === 'distance' ? Math.hypot(...gap.from.map((v, i) => v - (gap.to[i] ?? 0))) : NaN;
  expect(far).toBeCloseTo(Math.hypot(aside, 100 - aside) - 20, 3);
});

it('a tube behind a seat: to the rear face about the slots', async () => {
  // Upright: the rear face is the plane x = 200 - 45; the tube at x = 0 has a radius of 20.
  const seat = 'seat s { slots (200, 0, 700); recline 0 deg; slot-spacing 200; back 45 }\n';
  const text = tubes(seat + tube('bar', '(0, -500, 700), (0, 500, 700)'));
  const answer = await measure(text, ['seat:s', [155, 0, 700]], ['tube:bar', [20, 0, 700]]);
  expect(says(answer, 'Shortest, rear face about the slots of s to surface of bar')).toBe('135 mm');
  expect(says(answer, 'Shortest, the place on s to axis of bar')).toBe('155 mm');
});

it('a joint: the tubes touch', async () => {
  const host = tube('host', '(0, 0, 0), (0, 0, 1000)');
  const text = tubes(
    `${host}node j = on host at 500 from host-0\nnode k = (600, 0, 500)\ntube stub { section s; path j, k; last open }\n`,
  );
  const answer = await measure(text, ['tube:host', [20, 0, 300]], ['tube:stub', [300, 0, 520]]);
  expect(says(answer, 'Shortest, surface')).toBe('they touch');
  expect(says(answer, 'Angle between')).toBe('90° (90°)');
  // Set out to meet: the axes cross in the node, though the stub is cut back from there.
  expect(says(answer, 'Shortest, axis of host to axis of stub')).toBe('0 mm');
});

it('axes go from node to node, where the metal runs past it as far as that', async () => {
  // The stub is set out to (0, 0, 500) and cut back to the host's surface; a rod stands square to it 100 before the host.
  const host = tube('host', '(0, 0, 0), (0, 0, 1000)');
  const rod = tube('rod', '(-100, -300, 500), (-100, 300, 500)');
  const text = (more: string): string =>
    tubes(`${host}${rod}node k = (600, 0, 500)\nnode j = ${more}\ntube stub { section s; path j, k; last open }\n`);
  const coped = await measure(text('(0, 0, 500)'), ['tube:rod', [-100, 0, 520]], ['tube:stub', [300, 0, 520]]);
  expect(says(coped, 'Shortest, axis of rod to axis of stub')).toBe('100 mm');
  const past = tubes(
    `${rod}node k = (600, 0, 500)\nnode j = (0, 0, 500)\ntube stub { section s; path j, k; first past 40; last open }\n`,
  );
  const on = await measure(past, ['tube:rod', [-100, 0, 520]], ['tube:stub', [300, 0, 520]]);
  expect(says(on, 'Shortest, axis of rod to axis of stub')).toBe('60 mm');
});

it('a helmet is a ball', async () => {
  const seat =
    'seat s { slots (0, 0, 700); recline 0 deg; slot-spacing 200; back 45; helmet (forward 0, up 200) radius 150 }\n';
  const text = tubes(seat + tube('bar', '(-500, 0, 1200), (500, 0, 1200)'));
  const answer = await measure(text, ['helmet:s', [0, 0, 1049]], ['tube:bar', [0, 0, 1180]]);
  // 1200 - 20 - (900 + 150).
  expect(says(answer, 'Shortest, surface of helmet of s')).toBe('130 mm');
});

it('a panel whose edge turns inward is measured to where it is, not over the notch', async () => {
  // An L in the plane y = 700: over (0, 650) there is nothing of it. The nearest is its inner edge, x = 700.
  const panel =
    'panel ell as side { outline (0, 700, 0), (1000, 700, 0), (1000, 700, 900), (700, 700, 900), (700, 700, 300), (0, 700, 300) }\n';
  const text = tubes(panel + tube('bar', '(-500, 700, 650), (500, 700, 650)'));
  const answer = await measure(text, ['panel:ell', [800, 700, 600]], ['tube:bar', [0, 700, 670]]);
  expect(says(answer, 'Shortest, surface of ell to surface of bar')).toBe('200 mm');
  const node = await measure(
    `${text}node n = (400, 700, 700)\n`,
    ['node:n', [0, 0, 0]],
    ['panel:ell', [800, 700, 600]],
  );
  expect(says(node, 'Shortest, n to surface of ell')).toBe('300 mm');
});

it('says nothing of what is not in the car', async () => {
  const { shape } = await analyse(tubes(tube('a', '(0, 0, 0), (1000, 0, 0)')));
  for (const id of ['tube:none', 'node:none', '', 'tube:', ':a', 'seat:a-0x', '__proto__:constructor', 'node:a'])
    expect(measureBetween(shape, { id, at: [0, 0, 0] }, { id: 'tube:a', at: [0, 0, 0] })).toBeNull();
});
