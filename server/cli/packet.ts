/** `packet`: writes all shop papers of a car into one folder. */
import { resolve } from 'node:path';
import type { Analysis } from '../project/project';
import type { Arguments } from './arguments';
import type { Io, Result } from './io';
import { complaint } from './io';
import { rangesOf } from './ranges';
import { exitFor } from './report';

const refused = (why: string): Result => ({ stdout: '', stderr: complaint(why), exit: 2 });

/** What is wrong with the arguments before anything is read; null: nothing. */
export function packetRefusal({ words, out }: Arguments): Result | null {
  if (words.length > 1) return refused('packet takes one FILE');
  if (words.length === 0) return null;
  if (out === null) return refused('packet wants --out DIR');
  if (out === '-') return refused('--out is a folder: a packet is many papers');
  return out.includes('\0') ? refused('--out: that is no file name') : null;
}

/** Exit status 1 where an open error stands: the papers are written, without templates of the parts that it touches. */
export async function writePacket(args: Arguments, io: Io, analysis: Analysis): Promise<Result> {
  const out = args.out ?? '';
  // Loaded only here: the other commands start without it.
  const { packetOf, isPacketPaper } = await import('../project/packet');
  const rangeOf = rangesOf([analysis]);
  const packet = packetOf(analysis, {
    hashOf: io.sha256,
    placeOf: ({ place }) => `${place.file}:${String(rangeOf(place).start.line + 1)}`,
    maker: `Cagewright ${io.version}`,
    progress: ({ done, of, what }) => io.progress(`${String(done + 1)} of ${String(of)}: ${what}`),
  });
  io.progress(`writing ${String(packet.papers.length)} papers`);
  const answer = await io.writeFolder({
    folder: resolve(io.cwd, out),
    files: packet.papers,
    mine: isPacketPaper,
    unfinished: packet.unfinished,
    force: args.force,
  });
  io.progress('');
  if (answer.kind === 'refused') return refused(`${out}: ${answer.why}`);
  const stopped = packet.errorsTouch.size;
  const said = [
    ...(stopped === 0
      ? []
      : [`errors are open: no templates of ${String(stopped)} part${stopped === 1 ? '' : 's'}, see index.html`]),
    ...(answer.removed === 0
      ? []
      : [`${String(answer.removed)} paper${answer.removed === 1 ? '' : 's'} of an earlier packet removed`]),
  ];
  return { stdout: '', stderr: said.map(complaint).join(''), exit: exitFor(analysis) };
}
