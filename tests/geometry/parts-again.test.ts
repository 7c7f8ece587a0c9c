/** The cache only saves work: after any edit the shape is the one that is computed from nothing, and little is computed. */
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../server/centreline/vector';
import { shapeOf, ShapeCache } from '../../server/geometry/index';
import type { End, Shape } from '../../server/geometry/shape';
import { CarMaker, die, OPEN, onto, past } from './car-maker';
import type { TubeOptions } from './car-maker';
import { random } from './joint-maker';

interface Written {
  readonly nodes: Map<string, Vec3>;
  readonly tubes: Map<string, { readonly path: readonly string[]; readonly options: TubeOptions }>;
  readonly feet: Map<string, { readonly node: string; readonly aft: number }>;
  readonly joints: (readonly [readonly string[], readonly string[]])[];
}

const written = (): Written => ({
  nodes: new Map<string, Vec3>([
    ['foot-l', [0, 600, 0]],
    ['crown-l', [-40, 500, 1000]],
    ['crown-r', [-40, -500, 1000]],
    ['foot-r', [0, -600, 0]],
    ['top', [-40, 100, 1000]],
    ['top2', [-40, 130, 1000]],
    ['rear', [-700, 200, 300]],
    ['front', [600, 130, 1050]],
    ['low', [-20, 550, 500]],
    ['low2', [-20, -550, 500]],
    ['x1', [200, 300, 200]],
    ['x2', [200, -300, 600]],
    ['y1', [200, -300, 200]],
    ['y2', [200, 300, 600]],
    ['spare', [900, 0, 0]],
  ]),
  tubes: new Map<string, { path: readonly string[]; options: TubeOptions }>([
    ['hoop', { path: ['foot-l', 'crown-l', 'crown-r', 'foot-r'], options: { od: 45, die: die(45, 135) } }],
    ['stay', { path: ['top', 'rear'], options: {} }],
    ['long', { path: ['top2', 'front'], options: { last: OPEN } }],
    ['bar', { path: ['low', 'low2'], options: {} }],
    ['ex', { path: ['x1', 'x2'], options: { first: OPEN, last: OPEN } }],
    ['why', { path: ['y1', 'y2'], options: { first: OPEN, last: OPEN, split: 'ex' } }],
  ]),
  feet: new Map([
    ['shoe-l', { node: 'foot-l', aft: 0 }],
    ['shoe-r', { node: 'foot-r', aft: 0 }],
    ['rear-plate', { node: 'rear', aft: 5 }],
  ]),
  joints: [],
});

const cageOf = (car: Written, turned = false): ReturnType<CarMaker['cage']> => {
  const maker = new CarMaker();
  for (const [name, at] of car.nodes) maker.node(name, at);
  for (const [name, { path, options }] of car.tubes) maker.tube(name, path, options);
  for (const [name, { node, aft }] of car.feet) maker.foot(name, node, { aft, left: 0 });
  for (const [nodes, order] of car.joints) maker.joint(nodes, order);
  return maker.cage(turned);
};

/** Everything that a shape says. */
const told = (shape: Shape): unknown => ({
  parts: [...shape.parts.values()].map((part) => ({
    ...part,
    tube: part.tube.name,
    centreline: part.centreline?.length,
    ends: part.ends.map((end) => {
      const { ordinates, saddleLength, widestGap, prints, edge } = end;
      const plain: Partial<End> & { figures?: unknown; list?: unknown; covered?: unknown; rim?: unknown } = { ...end };
      delete plain.figures;
      delete plain.list;
      delete plain.covered;
      delete plain.rim;
      return { ...plain, ordinates, saddleLength, widestGap, prints, edge, curve: end.curve?.cut(1) };
    }),
  })),
  spaces: shape.spaces,
  mass: shape.mass,
  findings: shape.findings.map((f) => JSON.stringify([f.code, f.subject, f.at, f.params, f.measured])).sort(),
});

type Edit = (car: Written, roll: () => number) => void;
const pick = <T>(list: Iterable<T>, roll: () => number): T => {
  const all = [...list];
  return all[Math.floor(roll() * all.length)] as T;
};
const EDITS: readonly Edit[] = [
  (car, roll) => {
    const name = pick(car.nodes.keys(), roll);
    const [x, y, z] = car.nodes.get(name) ?? [0, 0, 0];
    const step = pick([0.2, 3, 40], roll);
    car.nodes.set(name, [x + (roll() - 0.5) * step, y + (roll() - 0.5) * step, z + (roll() - 0.5) * step]);
  },
  (car, roll) => {
    const name = pick(car.tubes.keys(), roll);
    const tube = car.tubes.get(name);
    if (tube !== undefined)
      car.tubes.set(name, { ...tube, options: { ...tube.options, wall: pick([2, 2.5, 3], roll) } });
  },
  (car, roll) => {
    const tube = car.tubes.get('stay');
    const first = pick([{ kind: 'auto' } as const, OPEN, past(20), onto('hoop'), onto('long', 'hoop')], roll);
    if (tube !== undefined) car.tubes.set('stay', { ...tube, options: { ...tube.options, first } });
  },
  (car, roll) => {
    if (car.tubes.delete('long')) return;
    car.tubes.set('long', { path: ['top2', 'front'], options: { last: OPEN, od: pick([32, 38, 45], roll) } });
  },
  (car, roll) => {
    const foot = pick(car.feet.keys(), roll);
    car.feet.set(foot, { node: car.feet.get(foot)?.node ?? 'rear', aft: pick([0, 5, 10], roll) });
  },
  (car, roll) => {
    if (car.joints.pop() === undefined) car.joints.push([['top', 'top2'], pick([['stay'], ['long'], ['bar']], roll)]);
  },
  (car, roll) => {
    // Some tube goes through some other nodes.
    const a = pick(car.nodes.keys(), roll);
    const b = pick(car.nodes.keys(), roll);
    car.tubes.set('stray', { path: [a, b], options: { last: pick([OPEN, { kind: 'auto' } as const], roll) } });
  },
];

describe('a kept shape', () => {
  it('after any edit is the shape that is computed from nothing', () => {
    for (let seed = 0; seed < 2; seed++) {
      const roll = random(4000 + seed);
      const car = written();
      const cache = new ShapeCache();
      for (let step = 0; step < 30; step++) {
        const edit = EDITS[Math.floor(roll() * EDITS.length)];
        edit?.(car, roll);
        const turned = roll() < 0.2;
        const kept = told(shapeOf(cageOf(car, turned), cache));
        expect(kept, `seed ${String(seed)} step ${String(step)}`).toEqual(told(shapeOf(cageOf(car, turned))));
      }
    }
  });

  it('keeps no more than a car needs, however long somebody types', () => {
    const cache = new ShapeCache();
    for (let step = 0; step < 500; step++) {
      const maker = new CarMaker()
        .node('r1', [0, -300, 0])
        .node('r2', [0, 300, 0])
        .tube('rail', ['r1', 'r2'], { od: 45, first: OPEN, last: OPEN })
        .node('a', [0, step / 10, 0])
        .node('b', [300, step / 10, 100])
        .tube('stub', ['a', 'b'], { last: OPEN });
      shapeOf(maker.cage(), cache);
    }
    expect(cache.takeRuns().end).toBe(500);
    expect(cache.size).toBeLessThan(1500);
  });

  it('computes nothing again for moved statements and renamed things, and little for one moved node', () => {
    const car = written();
    const cache = new ShapeCache();
    const first = shapeOf(cageOf(car), cache);
    expect(cache.takeRuns()).toMatchObject({ end: 6, part: 7 });
    shapeOf(cageOf(car), cache);
    expect(Object.values(cache.takeRuns()).every((count) => count === 0)).toBe(true);
    // The statements the other way round.
    shapeOf(cageOf(car, true), cache);
    expect(Object.values(cache.takeRuns()).every((count) => count === 0)).toBe(true);
    // Another name for a tube and for its nodes.
    const bar = car.tubes.get('bar');
    car.tubes.delete('bar');
    car.nodes.set('beam-l', car.nodes.get('low') ?? [0, 0, 0]).set('beam-r', car.nodes.get('low2') ?? [0, 0, 0]);
    car.tubes.set('beam', { path: ['beam-l', 'beam-r'], options: bar?.options ?? {} });
    const renamed = shapeOf(cageOf(car), cache);
    expect(Object.values(cache.takeRuns()).every((count) => count === 0)).toBe(true);
    expect(renamed.parts.get('beam')?.cutLength).toBe(first.parts.get('bar')?.cutLength);
    // The far end of the stay moves: the stay and its cope are new, the others are not.
    car.nodes.set('rear', [-710, 200, 300]);
    shapeOf(cageOf(car), cache);
    const runs = cache.takeRuns();
    expect(runs.part).toBe(1);
    expect(runs.end).toBeLessThanOrEqual(2);
  });
});
