/** Messages both ways: what is meant passes, and of anything else nothing gets through that is not as the types say. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  EXPORTS,
  readFromView,
  readKept,
  readToView,
  saysModel,
  type FromView,
  type Known,
} from '../../client/view/messages';
import { model } from './models';

const KNOWN: Known = {
  turn: 7,
  things: new Set(['tube:hoop', 'tube:bar']),
  nodes: new Set(['node:a']),
  findings: 3,
};
/** The first eight bytes of every PNG (ISO/IEC 15948:2004, clause 5.2). */
const PNG = new Uint8Array([137, 80, 78, 71, 13, 10, 26, 10, 0]);

const FROM: readonly FromView[] = [
  { type: 'ready' },
  { type: 'pick', part: 'thing', id: 'tube:bar', focus: false },
  { type: 'pick', part: 'node', id: 'node:a', focus: true },
  { type: 'pick', part: 'finding', index: 2, turn: 7, focus: false },
  { type: 'hover', id: 'node:a' },
  { type: 'hover', id: null },
  { type: 'try', number: 1, node: 'node:a', to: [1, -2.5, 3] },
  { type: 'drop', node: 'node:a', to: [0, 0, 0] },
  { type: 'cancel' },
  { type: 'undo' },
  { type: 'measure', number: 0, a: { id: 'tube:bar', at: [0, 0, 0] }, b: { id: 'node:a', at: [1, 1, 1] } },
  { type: 'copy', text: '120 mm' },
  { type: 'picture', png: PNG },
  ...EXPORTS.map((kind) => ({ type: 'export', kind }) as const),
];

const TO: readonly unknown[] = [
  { type: 'begin', uri: 'file:///a.cage', name: 'a.cage' },
  { type: 'model', turn: 1, model: model() },
  { type: 'trouble', text: 'No car.' },
  { type: 'lit', ids: ['tube:bar'], reveal: true },
  {
    type: 'hover',
    id: 'tube:bar',
    blocks: [{ kind: 'words', runs: [{ text: 'a', style: 'code' }] }, { kind: 'rule' }],
  },
  { type: 'hover', id: 'tube:bar', blocks: [{ kind: 'table', rows: [[[{ text: 'a', style: 'plain' }], []]] }] },
  { type: 'hover', id: 'tube:bar', blocks: [{ kind: 'code', text: 'x' }] },
  { type: 'tried', number: 3, model: null, why: 'It hangs on a.', says: '' },
  { type: 'tried', number: 3, model: model(), why: null, says: 'x 420' },
  { type: 'dropped', why: null },
  { type: 'measured', number: 3, answer: { lines: [{ what: 'true', says: '12 mm' }], marks: [] } },
  { type: 'measured', number: 3, answer: null },
  { type: 'done', text: 'Copied.' },
];

/** Every message with one thing in it, at any depth, put in the place of another. */
const spoilt = (value: unknown, instead: unknown): unknown[] => {
  if (Array.isArray(value))
    return value.flatMap((one, index) =>
      [instead, ...spoilt(one, instead)].map((wrong) =>
        value.map((kept, at) => (at === index ? wrong : kept) as unknown),
      ),
    );
  if (typeof value !== 'object' || value === null || value instanceof Uint8Array) return [];
  return Object.entries(value).flatMap(([name, one]) =>
    [instead, ...spoilt(one, instead)].map((wrong) => ({ ...value, [name]: wrong })),
  );
};

/** What must hold of all that gets through, asked without the validators: numbers are numbers, ids are known. */
const isSound = (message: FromView): boolean => {
  const ids: unknown[] = [];
  let finite = true;
  const walk = (value: unknown): void => {
    if (typeof value === 'number') finite &&= Number.isFinite(value);
    if (value instanceof Uint8Array || typeof value !== 'object' || value === null) return;
    for (const [name, one] of Object.entries(value)) {
      if (name === 'id' || name === 'node') ids.push(one);
      walk(one);
    }
  };
  // Fields that a message of its kind has; what is more in it nobody reads.
  const own = new Set(FROM.filter(({ type }) => type === message.type).flatMap((one) => Object.keys(one)));
  walk(Object.fromEntries(Object.entries(message).filter(([name]) => own.has(name))));
  const known = ids.every((id) => id === null || [...KNOWN.things, ...KNOWN.nodes].some((one) => one === id));
  const types = new Set<unknown>(FROM.map(({ type }) => type));
  return finite && known && types.has(message.type);
};

describe('from the panel', () => {
  it('all that it can mean gets through as it is', () => {
    for (const message of FROM) expect(readFromView(message, KNOWN)).toBe(message);
  });

  it('nothing gets through that is missing a part, or has another in its place', () => {
    for (const message of FROM) {
      for (const name of Object.keys(message)) {
        const less = Object.fromEntries(Object.entries(message).filter(([field]) => field !== name));
        expect(readFromView(less, KNOWN), `${message.type} without ${name}`).toBeNull();
      }
      for (const instead of [undefined, Number.NaN, Number.POSITIVE_INFINITY, 'tube:gone', -1, 1e9, {}, [], true]) {
        for (const wrong of spoilt(message, instead)) {
          const read = readFromView(wrong, KNOWN);
          if (read !== null) expect(isSound(read), JSON.stringify(wrong)).toBe(true);
        }
      }
    }
  });

  it('anything at all is dropped or sound', () => {
    fc.assert(
      fc.property(fc.anything({ withNullPrototype: true, withTypedArray: true }), (value) => {
        const read = readFromView(value, KNOWN);
        return read === null || (read === value && isSound(read));
      }),
    );
    const typed = fc.record({ type: fc.constantFrom(...FROM.map(({ type }) => type)) });
    const fields = fc.dictionary(
      fc.constantFrom('part', 'id', 'focus', 'index', 'turn', 'number', 'node', 'to', 'a', 'b', 'text', 'png', 'kind'),
      fc.oneof(
        fc.anything(),
        fc.constantFrom('thing', 'node', 'finding', 'tube:bar', 'node:a', true, 7, 'glb'),
        fc.array(fc.double(), { minLength: 3, maxLength: 3 }),
      ),
    );
    fc.assert(
      fc.property(typed, fields, (head, rest) => {
        const read = readFromView({ ...rest, ...head }, KNOWN);
        return read === null || isSound(read);
      }),
      { numRuns: 1000 },
    );
  });

  it('nothing is known of an older model, of what is too far, too long or no picture', () => {
    const no = (message: unknown): void => expect(readFromView(message, KNOWN)).toBeNull();
    no({ type: 'pick', part: 'finding', index: 2, turn: 6, focus: false });
    no({ type: 'pick', part: 'finding', index: 3, turn: 7, focus: false });
    no({ type: 'pick', part: 'thing', id: 'node:a', focus: false });
    no({ type: 'try', number: 1, node: 'tube:bar', to: [0, 0, 0] });
    no({ type: 'try', number: 1, node: 'node:a', to: [0, 0, 2e6] });
    no({ type: 'try', number: 1, node: 'node:a', to: [0, 0] });
    no({ type: 'copy', text: 'x'.repeat(20_001) });
    no({ type: 'picture', png: PNG.slice(1) });
    no({ type: 'picture', png: [...PNG] });
    no({ type: 'export', kind: 'exe' });
    no({ type: 'constructor' });
    no({ type: '__proto__' });
    no(Object.create({ type: 'ready' }));
  });
});

describe('to the panel', () => {
  it('all that it can be told gets through as it is', () => {
    for (const message of TO) expect(readToView(message)).toBe(message);
  });

  it('a message with a hole in it does not', () => {
    for (const message of TO)
      for (const wrong of spoilt(message, undefined)) expect(readToView(wrong), JSON.stringify(wrong)).toBeNull();
  });

  it('no number that is none gets through', () => {
    for (const message of TO)
      for (const wrong of spoilt(message, Number.NaN)) expect(readToView(wrong), JSON.stringify(wrong)).toBeNull();
  });

  it('in a model, indices lead somewhere and ids are used once', () => {
    const one = model();
    const [mark] = one.marks;
    const [finding] = one.findings;
    const [first] = one.things;
    expect(mark && finding && first).toBeDefined();
    const no = (more: Partial<typeof one>): void =>
      expect(readToView({ type: 'model', turn: 1, model: { ...one, ...more } })).toBeNull();
    no({ findings: [] });
    no({ marks: [] });
    if (first !== undefined) no({ things: [first, first] });
    no({ nodes: [...one.nodes, ...one.nodes] });
  });

  it('names and sentences may be as long as a person writes them', () => {
    const one = model();
    const long = {
      ...one,
      nodes: one.nodes.map((node) => ({ ...node, name: 'n'.repeat(5000), hangs: 'x + '.repeat(10_000) })),
    };
    expect(one.nodes.length).toBeGreaterThan(0);
    const message = { type: 'model', turn: 1, model: long };
    expect(readToView(message)).toBe(message);
    expect(readToView({ ...message, model: { ...long, title: 'x'.repeat(1_000_001) } })).toBeNull();
  });

  it('what says that it is a model is told from the rest', () => {
    expect(saysModel({ type: 'model', model: 3 })).toBe(true);
    for (const other of [null, 'model', {}, { type: 'lit' }, Object.create({ type: 'model' })])
      expect(saysModel(other)).toBe(false);
  });

  it('anything at all is dropped or itself', () => {
    fc.assert(
      fc.property(fc.anything(), fc.constantFrom(...TO), (value, message) => {
        const read = readToView(value);
        const mixed = readToView({ ...(message as object), ...(typeof value === 'object' ? value : {}) });
        return (read === null || read === value) && (mixed === null || typeof mixed.type === 'string');
      }),
    );
  });
});

describe('what a window kept', () => {
  it('is a document or nothing', () => {
    expect(readKept({ uri: 'file:///a.cage', camera: [1] })).toEqual({ uri: 'file:///a.cage' });
    for (const wrong of [undefined, null, 3, 'file:///a.cage', {}, { uri: 3 }, []]) expect(readKept(wrong)).toBeNull();
  });
});
