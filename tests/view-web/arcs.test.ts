/** Angles on the picture: the arc as it is drawn has the figure that stands beside it, and stands at what was measured. */
import { readdirSync, readFileSync } from 'node:fs';
import { Vector3 } from 'three';
import { expect, it } from 'vitest';
import { arcOf } from '../../client/view-web/marks';
import type { Analysis } from '../../server/project/project';
import type { ViewMark } from '../../server/view/model';
import { measureBetween } from '../../server/view/measure';
import { newViewCache, viewOf } from '../../server/view/view';
import { STAGES } from '../../grammar/explanations';
import { CODES, type Code } from '../../grammar/codes';
import { explanationOf } from '../../server/rules/explanations';
import { analyse } from '../support/analyse';

type Arc = Extract<ViewMark, { readonly kind: 'angle' }>;

/** Degrees that the arc of a mark turns about its corner, by its first and last point. */
function turned({ at, from, to }: Arc): number {
  const arc = arcOf(at, from, to);
  const [first, last] = [arc?.[0], arc?.at(-1)];
  if (!first || !last) return NaN;
  const corner = new Vector3(...at);
  return (first.sub(corner).angleTo(last.sub(corner)) * 180) / Math.PI;
}

const written = ({ says }: Arc): number => Number(/(-?\d+(?:\.\d+)?)°/.exec(says)?.[1] ?? NaN);
const arcsOf = (marks: readonly ViewMark[]): readonly Arc[] => marks.filter((mark) => mark.kind === 'angle');
const marksIn = (analysis: Analysis): readonly ViewMark[] =>
  viewOf(analysis, newViewCache(), { pack: () => '', say: () => '', have: {} }).marks;

it('every arc turns by the figure that it bears, to the tenth that is written', async () => {
  const seen = new Set<string>();
  const hold = (name: string, marks: readonly ViewMark[]): void => {
    for (const mark of arcsOf(marks)) {
      expect(Math.abs(turned(mark) - written(mark)), `${name}: ${mark.what} ${mark.says}`).toBeLessThan(0.06);
      seen.add(mark.what);
    }
  };
  const samples = readdirSync('samples').filter((name) => name.endsWith('.cage'));
  const files = Object.fromEntries(samples.map((name) => [name, readFileSync(`samples/${name}`, 'utf8')]));
  for (const name of samples) hold(name, marksIn(await analyse(files[name] ?? '', files)));
  for (const code of Object.keys(CODES) as Code[]) {
    if (!/^(strap|backstay|hoop)\./.test(code)) continue;
    const { stage, bad, files: more } = explanationOf(code);
    hold(code, marksIn(await analyse(`${STAGES[stage]}${bad}\n`, more)));
  }
  expect([...seen].sort()).toEqual(
    expect.arrayContaining(['backstay.angle', 'hoop.tilt', 'strap.drop', 'strap.skew', 'strap.spread']),
  );
}, 120_000);

it('a drop is against the horizontal that runs through the slot, a spread against the straight back from it', async () => {
  const text = readFileSync('samples/curlew-cage.cage', 'utf8');
  const seats = readFileSync('samples/curlew-seats.cage', 'utf8');
  const analysis = await analyse(text, { 'curlew-seats.cage': seats });
  const arcs = arcsOf(marksIn(analysis));
  for (const { name, start } of analysis.shape.straps) {
    const of = (what: string) => arcs.find((mark) => mark.what === what && mark.of.includes(`strap:${name}`));
    const [drop, spread] = [of('strap.drop'), of('strap.spread')];
    expect(start, name).not.toBeNull();
    for (const mark of [drop, spread]) {
      for (const axis of [0, 1, 2]) expect(mark?.at[axis], name).toBeCloseTo(start?.[axis] ?? NaN, 3);
    }
    // Level, and seen from the side; in plan, and straight back.
    expect([drop?.from[2], drop?.from[1], drop?.to[1]], name).toEqual([drop?.at[2], drop?.at[1], drop?.at[1]]);
    expect([spread?.from[2], spread?.to[2], spread?.from[1]], name).toEqual([
      spread?.at[2],
      spread?.at[2],
      spread?.at[1],
    ]);
    expect(drop?.to[0], name).toBeLessThan(drop?.at[0] ?? NaN);
  }
});

it('what is measured by hand between two legs turns by what is read', async () => {
  const analysis = await analyse(
    'units mm\nsection s { od 40; wall 2 }\nnode a = (300, 200, 100)\nnode b = (300, 200, 700)\nnode c = (900, 500, 400)\n' +
      'tube up { section s; path a, b }\ntube off { section s; path b, c }\n',
    {},
  );
  const answer = measureBetween(
    analysis.shape,
    { id: 'tube:up', at: [300, 200, 300] },
    { id: 'tube:off', at: [700, 400, 500] },
  );
  const [arc] = arcsOf(answer?.marks ?? []);
  expect(arc).toBeDefined();
  if (!arc) return;
  expect(Math.abs(turned(arc) - written(arc))).toBeLessThan(0.06);
  // At the tubes, not at the origin of the car.
  expect(new Vector3(...arc.at).distanceTo(new Vector3(300, 200, 700))).toBeLessThan(40);
  expect(new Vector3(...arc.from).distanceTo(new Vector3(...arc.at))).toBeCloseTo(150, 3);
});
