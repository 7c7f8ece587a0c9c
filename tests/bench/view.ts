/**
 * The picture's server side on the sample with over forty tubes: the first model, the model after an edit of one node,
 * a node dragged. What the analysis itself takes is not in the first two. Milliseconds on the processor, so that others on the
 * machine count for little: of the thread that answers, which is what somebody waits for, where the system tells that.
 */
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { nodeHost } from '../../server/host/node';
import { packed } from '../../server/lsp/view-places';
import { Project } from '../../server/project/pipeline';
import type { Analysis } from '../../server/project/project';
import { Viewer } from '../../server/project/view';
import type { ViewModel } from '../../server/view/model';
import { heapOf, PROBED } from './heap';
import { quantile, startPeer } from './peer';

const FILE = 'samples/curlew-cage.cage';
const KNEE = 'node knee = (1180, 600, 640)';

const keysOf = ({ things }: ViewModel): Record<string, string> =>
  Object.fromEntries(things.map(({ id, key }) => [id, key]));

const say = (): string => 'line 1';

/** Linux tells first how many nanoseconds a thread was on a processor; the thread that runs this has the process's id. */
const OF_THREAD = `/proc/self/task/${String(process.pid)}/schedstat`;

/** Time of this thread on a processor, ms; else of the whole process, which also compiles and collects beside it. */
function spent(): number {
  if (existsSync(OF_THREAD)) return Number(readFileSync(OF_THREAD, 'utf8').split(' ')[0]) / 1e6;
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

function taken<T>(work: () => T): readonly [T, number] {
  const before = spent();
  const value = work();
  return [value, spent() - before];
}

const row = (what: string, model: ViewModel, took: readonly number[]): readonly string[] => {
  const at = (share: number): string => quantile(took, share).toFixed(1);
  const sent = model.things.filter(({ mesh }) => mesh !== null).length;
  return [what, String(sent), (JSON.stringify(model).length / 1000).toFixed(0), at(0.5), at(0.95)];
};

/** Rows of the table: what, meshes sent, kB of the answer, median and p95 of the time. */
export async function measureView(quick: boolean): Promise<readonly (readonly string[])[]> {
  const root = path.resolve('.');
  const sample = readFileSync(FILE, 'utf8');
  const project = new Project();
  const analyse = async (text: string): Promise<Analysis> =>
    project.analyse(await project.load(nodeHost({ root }), FILE, text));
  const rounds = quick ? 15 : 60;
  const analysis = await analyse(sample);

  const first: number[] = [];
  let [model, took] = taken(() => new Viewer(packed).model(analysis, say, {}));
  const cold = row('first model in a new process', model, [took]);
  for (let i = 0; i < rounds; i++) {
    [model, took] = taken(() => new Viewer(packed).model(analysis, say, {}));
    first.push(took);
  }
  const warm = row('first model of a car, warm', model, first);

  const viewer = new Viewer(packed);
  model = viewer.model(analysis, say, {});
  const edits: number[] = [];
  for (let i = 0; i < rounds; i++) {
    const edited = await analyse(
      sample.replace(KNEE, `node knee = (${String(1180 + (i % 9))}, 600, ${String(640 + i)})`),
    );
    const have = keysOf(model);
    [model, took] = taken(() => viewer.model(edited, say, have));
    edits.push(took);
  }
  const after = row('model after an edit of one node, beyond the analysis', model, edits);

  const drags = ['node:knee.left', 'node:foot.left', 'node:tower.right', 'node:stay-top.left'].map((node) => {
    const times: number[] = [];
    let last: ViewModel = viewer.model(analysis, say, {});
    const [x, y, z] = last.nodes.find(({ id }) => id === node)?.at ?? [0, 0, 0];
    let have = keysOf(last);
    for (let i = 1; i <= rounds; i++) {
      const [tried, time] = taken(() => viewer.try(analysis, node, [x + (i % 20), y, z + (i % 15)], say, have));
      if (tried.car !== null) last = tried.car.model;
      have = keysOf(last);
      times.push(time);
    }
    return row(`${node.slice(5)} dragged, analysis and all`, last, times);
  });
  return [cold, warm, after, ...drags];
}

/** Heap of the real server while the picture of the sample is open: after so many edits, each with its model. */
export async function measureViewHeap(marks: readonly number[]): Promise<readonly (readonly string[])[]> {
  const text = readFileSync(FILE, 'utf8').replace(/^use .*$/m, '');
  const uri = 'untitled:view.cage';
  const peer = await startPeer(PROBED, true);
  const { connection } = peer;
  await connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId: 'cage', version: 1, text },
  });
  let have: Record<string, string> = {};
  const look = async (): Promise<void> => {
    const model = await connection.sendRequest<ViewModel>('cagewright/view', { textDocument: { uri }, have });
    have = keysOf(model);
  };
  await look();
  const rows: string[][] = [];
  let [first, edits] = [0, 0];
  for (const mark of marks) {
    for (; edits < mark; edits += 1) {
      // A new height each time, so that no cache can answer.
      const knee = `node knee = (1180, 600, ${(640 + (edits % 9000) / 100).toFixed(2)})`;
      void connection.sendNotification('textDocument/didChange', {
        textDocument: { uri, version: edits + 2 },
        contentChanges: [{ text: text.replace(KNEE, knee) }],
      });
      await look();
    }
    const heap = await heapOf(peer);
    if (first === 0) first = heap;
    rows.push([String(mark), (heap / 1e6).toFixed(2), (heap / first).toFixed(3)]);
  }
  await peer.stop();
  return rows;
}
