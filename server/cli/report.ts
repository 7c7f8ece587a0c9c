/** `report`: writes the page for the scrutineer, and nothing over what somebody else has made. */
import { resolve } from 'node:path';
import type { Analysis } from '../project/project';
import { isOwnFile, reportHtml } from '../project/report';
import type { Arguments } from './arguments';
import type { Io, Result } from './io';
import { complaint } from './io';
import { rangesOf } from './ranges';

const refused = (why: string): Result => ({ stdout: '', stderr: complaint(why), exit: 2 });

/** What is wrong with the arguments before anything is read; null: nothing. */
export function reportRefusal({ words, out }: Arguments): Result | null {
  if (words.length > 1) return refused('report takes one FILE');
  if (words.length === 1 && out === null) return refused('report wants --out X.html');
  return null;
}

const isCage = (path: string | null): boolean => path?.toLowerCase().endsWith('.cage') === true;

/** 1 where an error stands that is not waived: the report is written all the same. */
export async function writeReport(args: Arguments, io: Io, analysis: Analysis): Promise<Result> {
  const out = args.out ?? '-';
  const rangeOf = rangesOf([analysis]);
  const html = reportHtml(analysis, {
    hashOf: io.sha256,
    placeOf: ({ place }) => `${place.file}:${String(rangeOf(place).start.line + 1)}`,
    maker: `Cagewright ${io.version}`,
    date: args.date,
  });
  const exit = analysis.findings.some(({ waived, severity }) => !waived && severity === 'error') ? 1 : 0;
  if (out === '-') return { stdout: html, stderr: '', exit };
  if (out.includes('\0')) return refused('--out: that is no file name');
  const path = resolve(io.cwd, out);
  if (isCage(path) || isCage(await io.realPath(path))) return refused(`${out}: a report does not go over a cage file`);
  const why = await io.writeWhole(path, html, isOwnFile, args.force);
  return why === null ? { stdout: '', stderr: '', exit } : refused(`${out}: ${why}`);
}
