/** `report` and `draw`: write a paper to a file, and nothing over what somebody else has made. */
import { resolve } from 'node:path';
import type { Analysis } from '../project/project';
import { isOwnFile, reportHtml, viewSvg } from '../project/report';
import type { Arguments } from './arguments';
import { DRAWN_VIEWS } from './arguments';
import type { Exit, Io, Result } from './io';
import { complaint } from './io';
import { rangesOf } from './ranges';

const refused = (why: string): Result => ({ stdout: '', stderr: complaint(why), exit: 2 });

/** What is wrong with the arguments before anything is read; null: nothing. */
export function paperRefusal({ command, words, out, view }: Arguments): Result | null {
  if (words.length > 1) return refused(`${command} takes one FILE`);
  if (words.length === 0) return null;
  if (command === 'draw' && view === null) return refused(`draw wants --view ${DRAWN_VIEWS.join('|')}`);
  const ends = command === 'draw' ? '.svg' : '.html';
  if (out === null) return refused(`${command} wants --out X${ends}`);
  if (command === 'draw' && out !== '-' && !out.toLowerCase().endsWith(ends))
    return refused(`--out is a name that ends with ${ends}, not '${out}'`);
  return null;
}

const isCage = (path: string | null): boolean => path?.toLowerCase().endsWith('.cage') === true;

/** 1 where an error stands that is not waived: the paper is written all the same. */
export const exitFor = ({ findings }: Analysis): Exit =>
  findings.some(({ waived, severity }) => !waived && severity === 'error') ? 1 : 0;

async function write(args: Arguments, io: Io, text: string, exit: Exit): Promise<Result> {
  const out = args.out ?? '-';
  if (out === '-') return { stdout: text, stderr: '', exit };
  if (out.includes('\0')) return refused('--out: that is no file name');
  const path = resolve(io.cwd, out);
  if (isCage(path) || isCage(await io.realPath(path)))
    return refused(`${out}: ${args.command === 'draw' ? 'a drawing' : 'a report'} does not go over a cage file`);
  const why = await io.writeWhole(path, text, isOwnFile, args.force);
  return why === null ? { stdout: '', stderr: '', exit } : refused(`${out}: ${why}`);
}

/** The page for the scrutineer. */
export function writeReport(args: Arguments, io: Io, analysis: Analysis): Promise<Result> {
  const rangeOf = rangesOf([analysis]);
  const html = reportHtml(analysis, {
    hashOf: io.sha256,
    placeOf: ({ place }) => `${place.file}:${String(rangeOf(place).start.line + 1)}`,
    maker: `Cagewright ${io.version}`,
    date: args.date,
  });
  return write(args, io, html, exitFor(analysis));
}

/** One view of the car. */
export const writeDrawing = (args: Arguments, io: Io, analysis: Analysis): Promise<Result> =>
  write(args, io, viewSvg(analysis, args.view ?? 'side'), exitFor(analysis));
