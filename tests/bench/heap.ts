/** Heap of the real server after many edits, each time after a forced collection. */
import { editTarget, generateCar } from './generate';
import { startPeer, type Peer } from './peer';

/** Heap in use after a forced collection, bytes; the peer has been started with the probe. */
export async function heapOf(peer: Peer): Promise<number> {
  const told = peer.stderr().length;
  process.kill(peer.pid, 'SIGUSR2');
  while (!/heap \d+\n/.test(peer.stderr().slice(told))) await new Promise((resolve) => setTimeout(resolve, 20));
  return Number(/heap (\d+)\n/.exec(peer.stderr().slice(told))?.[1]);
}

/** What starts a server whose heap can be asked for. */
export const PROBED: readonly string[] = [
  '--expose-gc',
  '-r',
  './.build/bench/heap-probe.js',
  'server/dist/server.js',
  '--stdio',
];

export async function measureHeap(marks: readonly number[]): Promise<readonly (readonly string[])[]> {
  const text = generateCar(300);
  const uri = 'untitled:heap.cage';
  const peer = await startPeer(PROBED, true);
  await peer.connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId: 'cage', version: 1, text },
  });
  const before = text.slice(0, editTarget(text, 0).start).split('\n');
  const line = before.length - 1;
  const character = before[line]?.length ?? 0;
  const range = { start: { line, character }, end: { line, character: character + 6 } };
  const rows: string[][] = [];
  let first = 0;
  let edits = 0;
  for (const mark of marks) {
    for (; edits < mark; edits += 1) {
      // A new height each time, so that no cache can answer.
      const height = (700 + (edits % 9000) / 100).toFixed(2);
      void peer.connection.sendNotification('textDocument/didChange', {
        textDocument: { uri, version: edits + 2 },
        contentChanges: [{ range, text: height }],
      });
      await peer.connection.sendRequest('textDocument/diagnostic', { textDocument: { uri } });
    }
    const heap = await heapOf(peer);
    if (first === 0) first = heap;
    rows.push([String(mark), (heap / 1e6).toFixed(2), (heap / first).toFixed(3)]);
  }
  await peer.stop();
  return rows;
}
