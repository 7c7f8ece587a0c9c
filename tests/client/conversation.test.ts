/** The panel's side of things without an editor: who is asked when, and which answers still count. */
import { beforeEach, describe, expect, it } from 'vitest';
import type { TryAnswer, ViewWindow, WireModel } from '../../server/lsp/view-wire';
import { Conversation, type Have, type Ports } from '../../client/view/conversation';
import { readToView, type ToView } from '../../client/view/messages';
import { answer, CAR, model, node, place, thing, without } from './models';

/** A question that the test answers when it likes. */
interface Asked<T> {
  readonly with: unknown;
  answer(value: T): Promise<void>;
  fail(reason: string): Promise<void>;
}

const settle = async (): Promise<void> => {
  for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
};

const desk = <T>(): { readonly asked: Asked<T>[]; readonly ask: (what: unknown) => Promise<T> } => {
  const asked: Asked<T>[] = [];
  const ask = (what: unknown): Promise<T> =>
    new Promise((done, failed) => {
      asked.push({
        with: what,
        answer: async (value) => {
          done(value);
          await settle();
        },
        fail: async (reason) => {
          failed(new Error(reason));
          await settle();
        },
      });
    });
  return { asked, ask };
};

let posted: ToView[];
let done: string[];
let stamp: number;
let writes: boolean[];
let models: ReturnType<typeof desk<WireModel | null>>;
let tries: ReturnType<typeof desk<TryAnswer | null>>;
let hovers: ReturnType<typeof desk<string>>;
let windows: ReturnType<typeof desk<ViewWindow | null>>;
let pauses: ReturnType<typeof desk<undefined>>;
let talk: Conversation;

const last = <T>(list: readonly T[]): T => {
  const one = list.at(-1);
  if (one === undefined) throw new Error('Nothing was asked.');
  return one;
};
const ofType = <T extends ToView['type']>(type: T): Extract<ToView, { type: T }>[] =>
  posted.filter((message): message is Extract<ToView, { type: T }> => message.type === type);
const say = async (message: unknown): Promise<void> => {
  const heard = talk.heard(message);
  await settle();
  // What waits for the server goes on after this.
  void heard;
};
const haveOf = (asked: Asked<unknown>): Have => asked.with as Have;

beforeEach(() => {
  posted = [];
  done = [];
  writes = [];
  stamp = 0;
  models = desk();
  tries = desk();
  hovers = desk();
  windows = desk();
  pauses = desk();
  const ports: Ports = {
    post: (message) => {
      // What is not understood on the other side would be lost without a word.
      expect(readToView(message)).toBe(message);
      posted.push(message);
    },
    model: models.ask,
    window: () => windows.ask(null),
    pause: () => pauses.ask(null),
    tryMove: (id, to, have) => tries.ask({ id, to, have }),
    measure: () => Promise.resolve({ lines: [{ what: 'true', says: '12 mm' }], marks: [] }),
    stamp: () => String(stamp),
    write: (edits, was) => {
      if (was !== String(stamp)) return Promise.resolve(false);
      done.push(`write ${edits.map(({ text }) => text).join(' ')}`);
      return Promise.resolve(writes.shift() ?? true);
    },
    undo: () => Promise.resolve('Taken back.'),
    reveal: (at, focus) => {
      done.push(`reveal ${String(at.start.line)} ${String(focus)}`);
      return Promise.resolve();
    },
    hover: ({ start }) => hovers.ask(start.line),
    copy: (text) => {
      done.push(`copy ${text}`);
      return Promise.resolve();
    },
    savePicture: (png) => Promise.resolve(`${String(png.length)} bytes are written.`),
    save: (kind) => (kind === 'glb' ? Promise.reject(new Error('disk full')) : Promise.resolve(null)),
    sameFile: (a, b) => a === b,
  };
  talk = new Conversation(ports, { uri: CAR, name: 'car.cage' });
});

/** A page that has come up and holds this model. */
const opened = async (full = model()): Promise<void> => {
  await say({ type: 'ready' });
  await last(models.asked).answer(full);
};

describe('a model', () => {
  it('is asked for while the page is being loaded, and once', async () => {
    talk.awaitPage();
    expect(models.asked.map(({ with: have }) => have)).toEqual([{}]);
    await say({ type: 'ready' });
    expect(models.asked).toHaveLength(1);
    await last(models.asked).answer(model());
    expect(ofType('model').map(({ turn }) => turn)).toEqual([1]);
    talk.changed();
    expect(last(models.asked).with).toEqual({ 'tube:hoop': 'k1', 'tube:bar': 'k1' });
  });

  it('that was asked for before the text changed is not shown', async () => {
    talk.awaitPage();
    talk.changed();
    expect(models.asked).toHaveLength(2);
    await models.asked[0]?.answer(model({ version: 1 }));
    await say({ type: 'ready' });
    await last(models.asked).answer(model({ version: 2 }));
    expect(ofType('model').map((message) => message.model.version)).toEqual([2]);
  });

  it('that could not be made while the page was loaded is told of, and a hidden panel has none coming', async () => {
    talk.awaitPage();
    await last(models.asked).fail('no server');
    await say({ type: 'ready' });
    expect(last(ofType('trouble')).text).toContain('no server');
    talk.away();
    talk.changed();
    expect(models.asked).toHaveLength(1);
    await say({ type: 'ready' });
    expect(models.asked).toHaveLength(2);
  });

  it('is asked for when the page stands, and not before', async () => {
    talk.changed();
    await say({ type: 'hover', id: null });
    expect(models.asked).toEqual([]);
    await say({ type: 'ready' });
    expect(posted).toEqual([{ type: 'begin', uri: CAR, name: 'car.cage' }]);
    expect(models.asked.map(haveOf)).toEqual([{}]);
    await last(models.asked).answer(model());
    expect(ofType('model').map(({ turn }) => turn)).toEqual([1]);
  });

  it('is asked for once while an answer is on its way, and once more after it', async () => {
    await say({ type: 'ready' });
    for (let change = 0; change < 10; change += 1) talk.changed();
    expect(models.asked).toHaveLength(1);
    await last(models.asked).answer(model());
    expect(models.asked).toHaveLength(2);
    await last(models.asked).answer(without(model({ version: 2 }), haveOf(last(models.asked))));
    expect(models.asked).toHaveLength(2);
    expect(ofType('model').map((message) => message.model.version)).toEqual([1, 2]);
  });

  it('is asked for when the car is judged anew, unless a question is on its way', async () => {
    await opened();
    talk.judged();
    expect(models.asked).toHaveLength(2);
    talk.judged();
    await last(models.asked).answer(without(model({ version: 2 }), haveOf(last(models.asked))));
    expect(models.asked).toHaveLength(2);
  });

  it('comes without the meshes that the page holds', async () => {
    await opened();
    talk.changed();
    expect(haveOf(last(models.asked))).toEqual({ 'tube:hoop': 'k1', 'tube:bar': 'k1' });
    const next = model({ version: 2, things: [thing('hoop', 4), thing('bar', 6, 'k2')] });
    await last(models.asked).answer(without(next, haveOf(last(models.asked))));
    talk.changed();
    expect(haveOf(last(models.asked))).toEqual({ 'tube:hoop': 'k1', 'tube:bar': 'k2' });
  });

  it('that leaves out a mesh which the page has not is asked for again, whole', async () => {
    await opened();
    talk.changed();
    await last(models.asked).answer(model({ things: [thing('hoop', 4, 'k9', { mesh: null })] }));
    expect(haveOf(last(models.asked))).toEqual({});
    await last(models.asked).answer(model({ things: [thing('hoop', 4, 'k9')] }));
    expect(last(ofType('model')).model.things[0]?.mesh).not.toBeNull();
  });

  it('of something that cannot be drawn yet needs no mesh', async () => {
    await opened(model({ things: [thing('hoop', 4, 'k1', { mesh: null, box: null })] }));
    expect(models.asked).toHaveLength(1);
    talk.changed();
    expect(haveOf(last(models.asked))).toEqual({});
  });

  it('that the page has already is not sent again', async () => {
    await opened();
    talk.changed();
    await last(models.asked).answer(without(model(), haveOf(last(models.asked))));
    expect(ofType('model')).toHaveLength(1);
    talk.changed();
    await last(models.asked).answer(without(model({ version: 2 }), haveOf(last(models.asked))));
    expect(ofType('model')).toHaveLength(2);
  });

  it('where there is none, the person is told why, and the next one takes it back', async () => {
    await say({ type: 'ready' });
    await last(models.asked).answer(null);
    expect(last(posted)).toMatchObject({ type: 'trouble' });
    talk.changed();
    await last(models.asked).fail('The server stopped.');
    expect(last(posted)).toEqual({ type: 'trouble', text: 'The picture could not be made: The server stopped.' });
    talk.changed();
    await last(models.asked).answer(model());
    expect(last(posted)).toMatchObject({ type: 'model' });
  });
});

describe('where a harness bar may be', () => {
  const { window } = model();

  it('is asked for when nobody has typed for a moment, and goes into the model', async () => {
    await opened(model({ window: null }));
    talk.changed();
    await last(models.asked).answer(model({ window: null, version: 2 }));
    expect([pauses.asked.length, windows.asked.length]).toEqual([1, 0]);
    await pauses.asked[0]?.answer(undefined);
    // Somebody typed in that moment: one more moment.
    expect([pauses.asked.length, windows.asked.length]).toEqual([2, 0]);
    await last(pauses.asked).answer(undefined);
    await last(windows.asked).answer(window);
    expect(ofType('model').map((message) => message.model.window)).toEqual([null, null, window]);
    expect(last(ofType('model')).model.things.map(({ mesh }) => mesh)).toEqual([null, null]);
    // The next model has the last one until there is a new one; where that is the same, nothing is sent.
    talk.changed();
    await last(models.asked).answer(without(model({ window: null, version: 3 }), haveOf(last(models.asked))));
    expect(last(ofType('model')).model.window).toEqual(window);
    await last(pauses.asked).answer(undefined);
    await last(windows.asked).answer(window);
    expect(ofType('model')).toHaveLength(4);
  });

  it('is not worked out for a panel that is hidden', async () => {
    await opened();
    talk.away();
    await last(pauses.asked).answer(undefined);
    expect(windows.asked).toEqual([]);
  });
});

describe('a hidden panel', () => {
  it('asks nothing, is sent nothing, and begins anew when it is seen', async () => {
    await opened();
    talk.changed();
    const late = last(models.asked);
    talk.away();
    const count = posted.length;
    await late.answer(model({ version: 2 }));
    talk.changed();
    talk.cursorMoved({ uri: CAR, at: { line: 6, character: 2 } }, true);
    await say({ type: 'hover', id: 'tube:bar' });
    expect([models.asked.length, hovers.asked.length, posted.length]).toEqual([2, 0, count]);
    await say({ type: 'ready' });
    expect(posted[count]).toMatchObject({ type: 'begin' });
    expect(haveOf(last(models.asked))).toEqual({});
    await last(models.asked).answer(model({ version: 2 }));
    expect(ofType('model')).toHaveLength(2);
    // The cursor has moved meanwhile.
    expect(last(ofType('lit')).ids).toEqual(['tube:bar']);
  });

  it('that is seen again before the old answer came does not take it for its own', async () => {
    await say({ type: 'ready' });
    const [early] = models.asked;
    talk.away();
    await say({ type: 'ready' });
    await early?.answer(model());
    expect(ofType('model')).toEqual([]);
    expect(models.asked).toHaveLength(2);
    await last(models.asked).answer(model({ version: 2 }));
    expect(ofType('model').map((message) => message.model.version)).toEqual([2]);
  });
});

describe('the cursor', () => {
  const at = (line: number, character = 3): { uri: string; at: { line: number; character: number } } => ({
    uri: CAR,
    at: { line, character },
  });

  it('lights what its statement makes, once', async () => {
    await opened();
    talk.cursorMoved(at(6), true);
    talk.cursorMoved(at(6, 9), true);
    talk.cursorMoved(at(2), false);
    talk.cursorMoved(at(9), true);
    expect(ofType('lit')).toEqual([
      { type: 'lit', ids: ['tube:bar'], reveal: true },
      { type: 'lit', ids: ['node:a'], reveal: false },
      { type: 'lit', ids: [], reveal: true },
    ]);
  });

  it('waits for the model of the text that it stands in', async () => {
    await opened();
    talk.changed();
    talk.cursorMoved(at(7), true);
    expect(ofType('lit')).toEqual([]);
    await last(models.asked).answer(model({ version: 2, things: [thing('bar', 7)], nodes: [node('a', 2)] }));
    expect(ofType('lit')).toEqual([{ type: 'lit', ids: ['tube:bar'], reveal: true }]);
  });
});

describe('a hand on the picture', () => {
  it('moves the cursor to what it picked, and to nothing that is not there', async () => {
    await opened();
    await say({ type: 'pick', part: 'thing', id: 'tube:bar', focus: false });
    await say({ type: 'pick', part: 'node', id: 'node:a', focus: true });
    await say({ type: 'pick', part: 'finding', index: 0, turn: 1, focus: false });
    await say({ type: 'pick', part: 'finding', index: 0, turn: 2, focus: false });
    await say({ type: 'pick', part: 'thing', id: 'tube:gone', focus: false });
    expect(done).toEqual(['reveal 6 false', 'reveal 2 true', 'reveal 6 false']);
  });

  it('gets the hover of the newest thing that it rests on', async () => {
    await opened();
    await say({ type: 'hover', id: 'tube:bar' });
    await say({ type: 'hover', id: 'tube:hoop' });
    await say({ type: 'hover', id: 'node:a' });
    expect(hovers.asked.map((one) => one.with)).toEqual([6]);
    await last(hovers.asked).answer('**tube** `bar`');
    expect(hovers.asked.map((one) => one.with)).toEqual([6, 2]);
    await last(hovers.asked).answer('**node** `a`');
    const runs = [
      { text: 'node', style: 'strong' },
      { text: ' ', style: 'plain' },
      { text: 'a', style: 'code' },
    ];
    expect(ofType('hover')).toEqual([{ type: 'hover', id: 'node:a', blocks: [{ kind: 'words', runs }] }]);
  });

  it('measures, copies, saves; what fails is told, what is called off is not', async () => {
    await opened();
    const end = { id: 'tube:bar', at: [0, 0, 0] };
    await say({ type: 'measure', number: 4, a: end, b: { id: 'node:a', at: [1, 0, 0] } });
    await say({ type: 'copy', text: '12 mm' });
    await say({ type: 'picture', png: new Uint8Array([137, 80, 78, 71, 13, 10, 26, 10]) });
    await say({ type: 'export', kind: 'side' });
    await say({ type: 'export', kind: 'glb' });
    expect(ofType('measured')).toEqual([
      { type: 'measured', number: 4, answer: { lines: [{ what: 'true', says: '12 mm' }], marks: [] } },
    ]);
    expect(done).toEqual(['copy 12 mm']);
    expect(ofType('done').map(({ text }) => text)).toEqual([
      'Copied.',
      '8 bytes are written.',
      'That did not work: disk full',
    ]);
  });
});

describe('a node that is dragged', () => {
  const drag = (number: number, x: number): Promise<void> =>
    say({ type: 'try', number, node: 'node:a', to: [x, 0, 0] });

  it('is tried at its newest place, one question at a time', async () => {
    await opened();
    for (let number = 1; number <= 5; number += 1) await drag(number, number * 10);
    expect(tries.asked).toHaveLength(1);
    await last(tries.asked).answer(answer({ says: 'x 10' }));
    expect(tries.asked).toHaveLength(2);
    expect(last(tries.asked).with).toMatchObject({ to: [50, 0, 0], have: { 'tube:bar': 'k1' } });
    await last(tries.asked).answer(answer({ model: null, why: 'It hangs on b.', says: '' }));
    expect(ofType('tried').map(({ number, why, says }) => [number, why, says])).toEqual([
      [1, null, 'x 10'],
      [5, 'It hangs on b.', ''],
    ]);
    expect(done).toEqual([]);
  });

  it('is tried again where a newer model took away what the answer leaves out', async () => {
    await opened();
    await drag(1, 10);
    talk.changed();
    const moved = model({ version: 2, things: [thing('hoop', 4), thing('bar', 6, 'k2')] });
    await last(models.asked).answer(without(moved, haveOf(last(models.asked))));
    await last(tries.asked).answer(answer({ model: without(model(), { 'tube:bar': 'k1', 'tube:hoop': 'k1' }) }));
    expect(ofType('tried')).toEqual([]);
    expect(last(tries.asked).with).toMatchObject({ have: { 'tube:bar': 'k2' } });
    // One that can never be drawn is answered all the same: the hand waits for it.
    await last(tries.asked).answer(answer({ model: without(model(), { 'tube:bar': 'k1', 'tube:hoop': 'k1' }) }));
    expect(ofType('tried')).toMatchObject([{ number: 1, model: null, why: null }]);
  });

  it('is forgotten when the hand lets go of it without writing', async () => {
    await opened();
    await drag(1, 10);
    await drag(2, 20);
    await say({ type: 'cancel' });
    await last(tries.asked).answer(answer());
    expect([tries.asked.length, ofType('tried').length, done.length]).toEqual([1, 0, 0]);
  });

  it('is written once where it is let go', async () => {
    await opened();
    await drag(1, 10);
    const [under] = tries.asked;
    await say({ type: 'drop', node: 'node:a', to: [420, 0, 0] });
    await under?.answer(answer());
    await last(tries.asked).answer(answer());
    expect(done).toEqual(['write 420']);
    expect(ofType('dropped')).toEqual([{ type: 'dropped', why: null }]);
    expect(ofType('tried')).toEqual([]);
    // The change of the text asks for the next model; nobody else does.
    expect(models.asked).toHaveLength(1);
  });

  it('is worked out again when the text changes meanwhile, and given up in the end', async () => {
    await opened();
    await say({ type: 'drop', node: 'node:a', to: [420, 0, 0] });
    for (const _ of [1, 2, 3]) {
      stamp += 1;
      await last(tries.asked).answer(answer());
    }
    expect(tries.asked).toHaveLength(3);
    expect(done).toEqual([]);
    expect(last(ofType('dropped')).why).toMatch(/changed at the same time/);
    // What the page shows is of no text: it is told how the car stands.
    await last(models.asked).answer(without(model(), haveOf(last(models.asked))));
    expect(ofType('model')).toHaveLength(2);
  });

  it('is taken back by the editor when the hand asks for it', async () => {
    await opened();
    await say({ type: 'undo' });
    expect(ofType('done')).toEqual([{ type: 'done', text: 'Taken back.' }]);
  });

  it('that may not go there stays, and the reason is told', async () => {
    await opened();
    await say({ type: 'drop', node: 'node:a', to: [420, 0, 0] });
    await last(tries.asked).answer(answer({ model: null, why: 'It hangs on b.', edits: [] }));
    expect(ofType('dropped')).toEqual([{ type: 'dropped', why: 'It hangs on b.' }]);
    await say({ type: 'drop', node: 'node:a', to: [420, 0, 0] });
    await last(tries.asked).fail('It stopped.');
    expect(last(ofType('dropped')).why).toBe('It could not be written: It stopped.');
    expect(done).toEqual([]);
  });
});

describe('a document that is renamed', () => {
  it('is told to the page, and the car is asked for again', async () => {
    await opened();
    talk.moved({ uri: 'file:///shop/other.cage', name: 'other.cage' });
    expect(last(posted)).toEqual({ type: 'begin', uri: 'file:///shop/other.cage', name: 'other.cage' });
    expect(talk.uri).toBe('file:///shop/other.cage');
    expect(models.asked).toHaveLength(2);
  });
});

it('places of a statement over several lines hold the cursor in any of them', async () => {
  await opened(model({ things: [thing('bar', 6, 'k1', { statement: place(6, 0, 4, 9) })] }));
  talk.cursorMoved({ uri: CAR, at: { line: 8, character: 99 } }, true);
  expect(last(ofType('lit')).ids).toEqual(['tube:bar']);
});
