/** The picture's model: things, ends, marks and findings of real cars, against figures worked out a second way. */
import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { nodeHost } from '../../server/host/node';
import { nearestOn } from '../../server/centreline/query';
import { Project } from '../../server/project/pipeline';
import type { Analysis } from '../../server/project/project';
import type { Point3, ViewMark, ViewModel } from '../../server/view/model';
import { THING_KINDS } from '../../server/view/model';
import { newViewCache, openFindings, viewOf } from '../../server/view/view';
import { meshesOf } from '../../server/mesh/meshes';
import { surfaceOf } from '../../client/view-web/decode';
import { analyse } from '../support/analyse';
import { packed as pack } from '../../server/lsp/view-places';

const EDGE = { pack, say: (): string => 'line 1', have: {} };
const model = (analysis: Analysis): ViewModel => viewOf(analysis, newViewCache(), EDGE);

const floats = (text: string): Float32Array => {
  const bytes = Buffer.from(text, 'base64');
  return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
};
const points = (text: string): Point3[] => {
  const numbers = floats(text);
  return Array.from({ length: numbers.length / 3 }, (_, i) => [
    numbers[3 * i] ?? NaN,
    numbers[3 * i + 1] ?? NaN,
    numbers[3 * i + 2] ?? NaN,
  ]);
};
const minus = (a: Point3, b: Point3): Point3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const size = (v: Point3): number => Math.hypot(v[0], v[1], v[2]);
/** Where in a value a number stands that is none. */
const oddNumbers = (value: unknown, path = ''): string[] => {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, one]) => oddNumbers(one, `${path}.${key}`));
};
const textAt = ({ trees }: Analysis, place: ViewModel['things'][number]['place']): string =>
  place === null ? '' : (trees.get(place.file)?.text.slice(place.start, place.end) ?? '');

const sample = async (file: string): Promise<Analysis> => {
  const project = new Project();
  return project.analyse(await project.load(nodeHost({ root: '.' }), file, readFileSync(file, 'utf8')));
};

const SAMPLES = readdirSync('samples')
  .filter((name) => name.endsWith('.cage'))
  .map((name) => `samples/${name}`);

describe.each(SAMPLES)('%s', (file) => {
  let analysis: Analysis;
  let seen: ViewModel;
  beforeAll(async () => {
    analysis = await sample(file);
    seen = model(analysis);
  });

  it('has every thing once, of a kind that is known, where it is written', () => {
    expect(new Set(seen.things.map(({ id }) => id)).size).toBe(seen.things.length);
    for (const thing of seen.things) {
      expect(THING_KINDS).toContain(thing.kind);
      const base = thing.name.replace(/\.(left|right)(?=$|\.[ab]$)/, '').replace(/\.[ab]$/, '');
      // What has no name of its own is told at its statement.
      if (!base.includes(':') && thing.kind !== 'helmet') expect(textAt(analysis, thing.place)).toBe(base);
      else expect(textAt(analysis, thing.place)).not.toBe('');
      expect(thing.key === '').toBe(thing.mesh === null);
    }
  });

  it('holds nothing but finite numbers, and no id that does not exist', () => {
    expect(oddNumbers(seen)).toEqual([]);
    const ids = new Set(seen.things.map(({ id }) => id));
    for (const { of } of [...seen.marks, ...seen.findings]) for (const id of of) expect(ids).toContain(id);
    for (const { ends } of seen.things)
      for (const { hosts } of ends ?? []) for (const id of hosts) expect(ids).toContain(id);
    const marks = seen.findings.flatMap((finding) => finding.marks);
    for (const mark of marks) expect(seen.marks[mark]).toBeDefined();
  });

  it('lists the open findings, worst first, and each mark knows the worst that it shows', () => {
    const ranks = seen.findings.map(({ severity }) => ['error', 'warning', 'information'].indexOf(severity));
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    expect(seen.findings).toHaveLength(analysis.findings.filter(({ waived }) => !waived).length);
    seen.marks.forEach(({ finding }, i) => {
      const showing = seen.findings.findIndex(({ marks }) => marks.includes(i));
      expect(finding).toBe(showing < 0 ? null : showing);
    });
  });

  it('shows every finding that measures where its figures were taken', () => {
    openFindings(analysis.findings).forEach(({ measured, code }, i) => {
      if (measured === undefined) return;
      expect(seen.findings[i]?.marks.length, code).toBeGreaterThan(0);
      expect(seen.findings[i]?.of.length, code).toBeGreaterThan(0);
    });
  });

  it('draws straps with the figures that the rules read', () => {
    const marks = (what: string): readonly ViewMark[] => seen.marks.filter((mark) => mark.what === what);
    const known = analysis.shape.straps.filter(({ drop }) => drop !== null);
    for (const [i, strap] of known.entries()) {
      const drop = marks('strap.drop')[i];
      const spread = marks('strap.spread')[i];
      const run = marks('strap.free-run')[i];
      if (drop?.kind !== 'angle' || spread?.kind !== 'angle' || run?.kind !== 'distance') throw new Error('Not drawn.');
      // In side view, between the level arm and the run.
      expect(drop.from[2]).toBe(drop.at[2]);
      const down = minus(drop.to, drop.at);
      expect(Math.atan2(-down[2], Math.abs(down[0]))).toBeCloseTo(strap.drop ?? NaN, 4);
      // In plan, between straight back and the run.
      const [a, b] = [spread.from, spread.to].map((end) => minus(end, spread.at)).map(([x, y]) => Math.atan2(y, x));
      const turn = Math.abs(((a ?? 0) - (b ?? 0) + 3 * Math.PI) % (2 * Math.PI)) - Math.PI;
      expect(Math.abs(turn)).toBeCloseTo(Math.abs(strap.spread ?? NaN), 4);
      expect(size(minus(run.from, run.to))).toBeCloseTo(strap.freeRun ?? NaN, 3);
    }
  });

  it('draws the seat gaps as long as they are', () => {
    const gaps = analysis.shape.seats.filter(({ gap }) => gap !== null && gap > 0);
    const lengths = seen.marks.flatMap((mark) =>
      mark.what === 'seat.gap' && mark.kind === 'distance' ? [size(minus(mark.from, mark.to))] : [],
    );
    const drawn = lengths.filter((length) => length > 1e-3).sort((a, b) => a - b);
    const wanted = gaps.map(({ gap }) => gap ?? NaN).sort((a, b) => a - b);
    expect(drawn).toHaveLength(wanted.length);
    drawn.forEach((length, i) => expect(length).toBeCloseTo(wanted[i] ?? NaN, 3));
  });

  it('sends surfaces that are the meshes, to a 65535th of their boxes', () => {
    const made = new Map(meshesOf(analysis.cage, analysis.shape).map(({ id, made }) => [id, made()]));
    for (const { id, mesh: sent } of seen.things) {
      const mesh = made.get(id)?.mesh ?? null;
      if (sent === null || mesh === null) {
        expect([id, sent]).toEqual([id, mesh]);
        continue;
      }
      const { positions, normals, indices, lines } = surfaceOf(sent);
      expect([...indices]).toEqual([...mesh.indices]);
      const off = (a: Float32Array, b: Float32Array): number =>
        a.length === b.length ? a.reduce((most, value, i) => Math.max(most, Math.abs(value - (b[i] ?? NaN))), 0) : NaN;
      const step = Math.max(...sent.step);
      // Half a step, and what 32 bits round.
      expect(off(positions, mesh.positions)).toBeLessThan(step / 2 + 1e-3);
      expect(off(lines, mesh.lines)).toBeLessThan(step / 2 + 1e-3);
      expect(off(normals, mesh.normals)).toBeLessThan(0.5 / 127 + 1e-6);
      expect(step).toBeLessThan(0.06);
    }
  });

  it('shows cut edges that lie on the tube and on what cuts it, with their clock', () => {
    for (const thing of seen.things) {
      const part = analysis.shape.parts.get(thing.name);
      const radius = (part?.tube.section?.od ?? NaN) / 2;
      if ((part?.centreline ?? null) === null || part === undefined) continue;
      for (const end of thing.ends ?? []) {
        const edge = points(end.edge);
        if (edge.length === 0) continue;
        expect(edge[0]).toEqual(edge.at(-1));
        const of = part.ends[end.which === 'first' ? 0 : 1];
        const host =
          end.fit === 'cope' && of.hosts.length === 1 ? analysis.shape.parts.get(of.hosts[0] ?? '') : undefined;
        const hostLine = host?.centreline ?? null;
        for (const at of edge) {
          // On the round surface of the end's own leg.
          const rel = minus(at, of.origin ?? [NaN, NaN, NaN]);
          const along = rel[0] * end.away[0] + rel[1] * end.away[1] + rel[2] * end.away[2];
          expect(Math.sqrt(Math.max(0, size(rel) ** 2 - along ** 2))).toBeCloseTo(radius, 1);
          if (hostLine !== null) {
            const on = nearestOn(hostLine, at);
            // Beyond the host's end node its surface goes on; between its ends it is a radius from the axis.
            if (on.station > 1 && on.station < hostLine.length - 1)
              expect(on.distance).toBeCloseTo((host?.tube.section?.od ?? NaN) / 2, 1);
          }
        }
        expect(end.clock.length).toBeGreaterThanOrEqual(12);
        expect(end.clock[0]?.label).toMatch(/^(TOP|FRONT)/);
        expect(end.clock[3]?.label).toMatch(/^90°/);
        // The first mark stands where the edge begins, and outward is away from the axis.
        expect(size(minus(end.clock[0]?.at ?? [0, 0, 0], edge[0] ?? [9, 9, 9]))).toBeLessThan(0.01);
        for (const { outward } of end.clock) expect(size(outward)).toBeCloseTo(1, 3);
      }
    }
  });
});

it('keeps ids after an edit, and gives new keys to what has changed alone', async () => {
  const before = model(await analyse(readFileSync('samples/plover-rollbar.cage', 'utf8')));
  const text = readFileSync('samples/plover-rollbar.cage', 'utf8').replace('stay-foot = (-790', 'stay-foot = (-780');
  const after = model(await analyse(`# A line more.\n${text}`));
  expect(after.things.map(({ id }) => id)).toEqual(before.things.map(({ id }) => id));
  const changed = after.things.filter(({ key }, i) => key !== before.things[i]?.key).map(({ id }) => id);
  expect(changed).toContain('tube:backstay.left');
  expect(changed).not.toContain('tube:main-hoop');
  expect(changed).not.toContain('tube:harness-bar');
});

it('says what a thing is in the units of the file', async () => {
  const text = readFileSync('samples/plover-rollbar.cage', 'utf8');
  const label = ({ things }: ViewModel, id: string): string => things.find((thing) => thing.id === id)?.label ?? '';
  const metric = model(await analyse(text));
  expect(label(metric, 'tube:diagonal')).toMatch(/^diagonal: diagonal, 38 × 2\.5 mm, 13\d\d\.\d mm long$/);
  expect(label(metric, 'foot:hoop-foot.left')).toBe('hoop-foot.left: foot, 140 × 100 × 3 mm, at foot.left');
  const inches = model(
    await analyse(
      'cage "I"\nunits in\nsection s { od 1.5; wall 0.095 }\nnode a = (0, 0, 0)\nnode b = (0, 0, 40)\ntube t as brace { section s; path a, b; first open; last open }\n',
    ),
  );
  expect(inches.units).toBe('in');
  // 40 in from node to node.
  expect(label(inches, 'tube:t')).toBe('t: brace, 1 1/2 × 0.095 in, 40 in long');
});

it('tells both sides where a finding is about both', async () => {
  const seen = model(await sample('samples/curlew-cage.cage'));
  const shallow = seen.findings.find(({ code }) => code === 'cope.shallow');
  expect(shallow?.of).toEqual(expect.arrayContaining(['tube:pillar-bar.left', 'tube:pillar-bar.right']));
  const at = shallow?.marks.flatMap((i) => {
    const mark = seen.marks[i];
    return mark?.kind === 'spot' ? [mark.at] : [];
  });
  expect(at).toHaveLength(2);
  expect(at?.[0]?.[1]).toBeCloseTo(-(at?.[1]?.[1] ?? NaN), 3);
});

it('tints the space that has no vent, with all its tubes', async () => {
  const text = readFileSync('samples/plover-rollbar.cage', 'utf8').replace(/^vent diagonal.*$/m, '');
  const seen = model(await analyse(text));
  const finding = seen.findings.find(({ code }) => code === 'space.unvented');
  const space = seen.things.find(({ kind }) => kind === 'space');
  expect(finding?.of).toEqual(expect.arrayContaining([space?.id, 'tube:diagonal']));
  expect(space?.mesh).not.toBeNull();
});

it('is a picture of whatever is written: half a car, no car, nothing', async () => {
  const text = readFileSync('samples/curlew-cage.cage', 'utf8');
  for (const part of [
    text.slice(0, 900),
    text.slice(0, 4321),
    text.slice(3000),
    text.replaceAll(')', ''),
    '',
    '}{',
    'tube',
  ]) {
    const seen = model(await analyse(part));
    expect(oddNumbers(seen)).toEqual([]);
    expect(seen.window).toBeNull();
  }
});
