/** Broken cages: nothing throws, every part is still listed, and what cannot be computed is null, never a wrong number. */
import { describe, expect, it } from 'vitest';
import { mm } from '../../grammar/units';
import type { Cage, EndTold, Thing, Tube } from '../../server/cage/cage';
import { buildPath } from '../../server/centreline/build';
import type { Vec3 } from '../../server/centreline/vector';
import { shapeOf, ShapeCache } from '../../server/geometry/index';
import { CarMaker, die, OPEN, section } from './car-maker';
import { random } from './joint-maker';

/** A cage whose tubes, feet and joints hang on whatever there is, or on nothing. */
function anything(seed: number): Cage {
  const roll = random(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(roll() * list.length)] as T;
  const coordinate = (): number => pick([0, 0, 0.3, 5, 20, -20, 100, 300, -300, 1e9, roll() * 500]);
  const names = ['n0', 'n1', 'n2', 'n3', 'n4', 'n5', 'n6'];
  const tubes = ['t0', 't1', 't2', 't3', 't4', 't5'];
  const car = new CarMaker().node('base', [0, 0, 0]).node('end', [1, 0, 0]).tube('base-tube', ['base', 'end']);
  const plain = car.cage();
  const things = new Map<string, Thing>(plain.things);
  const model = plain.things.get('base-tube') as Tube;
  const node = plain.things.get('base');
  const at = new Map<string, Vec3 | null>();
  for (const name of names) {
    const point: Vec3 | null = roll() < 0.1 ? null : [coordinate(), coordinate(), coordinate()];
    at.set(name, point);
    if (node?.kind === 'node') things.set(name, { ...node, name, base: name, at: point });
  }
  const told = (): EndTold =>
    pick<EndTold>([
      { kind: 'auto' },
      { kind: 'auto' },
      OPEN,
      { kind: 'past', length: mm(pick([0, 30, -5, 1e6])) },
      { kind: 'onto', hosts: [pick([...tubes, 'foot', 'nowhere', 't1.a'])] },
      { kind: 'onto', hosts: [] },
    ]);
  for (const name of tubes) {
    const path = Array.from({ length: pick([0, 1, 2, 2, 2, 3, 4]) }, () => (roll() < 0.05 ? null : pick(names)));
    const points = path.map((n) => at.get(n ?? '') ?? null).filter((p): p is Vec3 => p !== null);
    const bender = pick([null, die(38, 114), die(38, 20)]);
    const built =
      points.length === path.length
        ? buildPath(points, bender?.radius ?? null)
        : { centreline: null, corners: [], problems: [] };
    things.set(name, {
      ...model,
      name,
      base: name,
      section: pick([null, section(38), section(45), section(30, 2), section(30, 20)]),
      die: bender,
      path,
      first: told(),
      last: told(),
      splitBy: pick([null, null, null, ...tubes, 'nowhere']),
      existing: roll() < 0.1,
      ...built,
    });
  }
  const more = new CarMaker().node('base', [0, 0, 0]).foot('foot', 'base').joint(['n0', 'n1'], ['t0', 't9', 't2.a']);
  for (const thing of more.cage().things.values()) {
    if (thing.kind === 'foot') things.set('foot', { ...thing, node: pick([null, ...names]) });
    if (thing.kind === 'joint') things.set(thing.name, { ...thing, nodes: pick([[], ['n0'], ['n1', 'zz']]) });
  }
  return { ...plain, things };
}

const numbers = (value: unknown): readonly number[] => {
  if (typeof value === 'number') return [value];
  if (Array.isArray(value)) return value.flatMap(numbers);
  if (typeof value === 'object' && value !== null) return Object.values(value).flatMap(numbers);
  return [];
};

describe('a broken cage', () => {
  it('has a shape: nothing throws, no figure is NaN or infinite, every tube is listed', () => {
    const cache = new ShapeCache();
    for (let seed = 0; seed < 120; seed++) {
      const cage = anything(seed);
      const shape = shapeOf(cage, seed % 2 === 0 ? cache : undefined);
      for (const thing of cage.things.values()) {
        if (thing.kind !== 'tube') continue;
        const expected = thing.splitBy === null ? [thing.name] : [`${thing.name}.a`, `${thing.name}.b`];
        for (const name of expected) expect(shape.parts.has(name), `${name} of seed ${String(seed)}`).toBe(true);
      }
      for (const part of shape.parts.values()) {
        const { tube: _tube, centreline: _line, ...figures } = part;
        for (const n of numbers(figures)) expect(Number.isFinite(n), `seed ${String(seed)}, ${part.name}`).toBe(true);
        expect(part.cutLength ?? 1).toBeGreaterThan(0);
      }
      for (const f of shape.findings) {
        for (const n of numbers([f.measured, f.params])) {
          expect(Number.isFinite(n), `seed ${String(seed)}, ${f.code}`).toBe(true);
        }
      }
    }
  });
});
