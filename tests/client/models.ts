/** Small models of a picture, as a server would send them. */
import type { TextPlace, TryAnswer, WireModel, WireNode, WireThing } from '../../server/lsp/view-wire';

export const CAR = 'file:///shop/car.cage';

export const place = (line: number, from = 0, to = 40, lastLine = line): TextPlace => ({
  uri: CAR,
  start: { line, character: from },
  end: { line: lastLine, character: to },
});

const MESH = {
  from: [0, 0, 0],
  step: [1, 1, 1],
  positions: 'AAAA',
  normals: 'AAAA',
  indices: 'AAAA',
  lines: '',
  strokes: '',
} as const;

export const thing = (name: string, line: number, key = 'k1', more: Partial<WireThing> = {}): WireThing => ({
  id: `tube:${name}`,
  kind: 'tube',
  name,
  label: name,
  place: place(line, 5, 9),
  statement: place(line),
  key,
  mesh: MESH,
  box: [
    [0, 0, 0],
    [1, 1, 1],
  ],
  ends: [
    {
      which: 'first',
      node: 'a',
      fit: 'cope',
      hosts: ['tube:hoop'],
      away: [0, 0, 1],
      clock: [{ label: 'TOP', at: [0, 0, 0], outward: [1, 0, 0] }],
      edge: '',
      says: 'cope on hoop',
    },
  ],
  ...more,
});

export const node = (name: string, line: number): WireNode => ({
  id: `node:${name}`,
  name,
  at: [1, 2, 3],
  place: place(line, 5, 9),
  statement: place(line),
  axes: ['x', 'z'],
  along: null,
  hangs: null,
});

export const model = (more: Partial<WireModel> = {}): WireModel => ({
  title: 'Car',
  units: 'mm',
  things: [thing('hoop', 4), thing('bar', 6)],
  nodes: [node('a', 2)],
  marks: [
    {
      kind: 'angle',
      what: 'strap.drop',
      of: ['tube:bar'],
      says: 'drop 52°',
      finding: 0,
      at: [0, 0, 0],
      from: [1, 0, 0],
      to: [0, 0, 1],
    },
    { kind: 'distance', what: 'strap.run', of: [], says: '120 mm', finding: null, from: [0, 0, 0], to: [0, 0, 1] },
    { kind: 'spot', what: 'space.vent', of: [], says: 'no vent', finding: null, at: [0, 0, 0] },
  ],
  findings: [
    { code: 'strap.drop', severity: 'warning', text: 'Too steep.', of: ['tube:bar'], marks: [0], place: place(6) },
  ],
  window: {
    bar: 'bar',
    regions: [
      {
        level: 'required',
        outlines: [
          [
            [0, 0],
            [1, 0],
            [0, 1],
          ],
        ],
      },
    ],
    across: [-100, 100],
  },
  box: null,
  uri: CAR,
  version: 1,
  ...more,
});

/** As the server answers somebody who holds these meshes. */
export const without = (full: WireModel, have: Readonly<Record<string, string>>): WireModel => ({
  ...full,
  things: full.things.map((one) => (have[one.id] === one.key ? { ...one, mesh: null, ends: null } : one)),
});

export const answer = (more: Partial<TryAnswer> = {}): TryAnswer => ({
  model: model(),
  why: null,
  edits: [{ place: place(2, 9, 12), text: '420' }],
  says: 'x 420',
  ...more,
});
