/** `report` and `draw`: write a paper to a file, and nothing over what somebody else has made. */
import { resolve } from 'node:path';
import type { Analysis } from '../project/project';
import { carGlb, isOwnPicture, viewPng } from '../project/picture';
import { isBlank, isOwnFile, lackingWords, reportHtml, viewSvg } from '../project/report';
import type { Arguments } from './arguments';
import { DRAWN_VIEWS } from './arguments';
import type { Exit, Io, Result } from './io';
import { complaint } from './io';
import { rangesOf } from './ranges';

const refused = (why: string): Result => ({ stdout: '', stderr: complaint(why), exit: 2 });

/** What a drawing is written as, by the ending of its file's name. */
const ENDINGS = ['.svg', '.png', '.glb'] as const;
const endingOf = (out: string): (typeof ENDINGS)[number] | null =>
  out === '-' ? '.svg' : (ENDINGS.find((ending) => out.toLowerCase().endsWith(ending)) ?? null);

/** What is wrong with the arguments before anything is read; null: nothing. */
export function paperRefusal({ command, words, out, view }: Arguments): Result | null {
  if (words.length > 1) return refused(`${command} takes one FILE`);
  if (words.length === 0) return null;
  if (command !== 'draw') return out === null ? refused(`${command} wants --out X.html`) : null;
  const ending = out === null ? null : endingOf(out);
  if (view === null && ending !== '.glb') return refused(`draw wants --view ${DRAWN_VIEWS.join('|')}`);
  if (out === null) return refused('draw wants --out X.svg, X.png or X.glb');
  return ending === null ? refused(`--out is a name that ends with .svg, .png or .glb, not '${out}'`) : null;
}

const isCage = (path: string | null): boolean => path?.toLowerCase().endsWith('.cage') === true;

/** 1 where an error stands that is not waived: the paper is written all the same. */
export const exitFor = ({ findings }: Analysis): Exit =>
  findings.some(({ waived, severity }) => !waived && severity === 'error') ? 1 : 0;

interface Paper {
  readonly content: string | Uint8Array;
  /** Whether a file with that text may be written over. */
  readonly mine: (text: string) => boolean;
  readonly exit: Exit;
}

async function write(args: Arguments, io: Io, { content, mine, exit }: Paper): Promise<Result> {
  const out = args.out ?? '-';
  if (out === '-') return { stdout: typeof content === 'string' ? content : '', stderr: '', exit };
  if (out.includes('\0')) return refused('--out: that is no file name');
  const path = resolve(io.cwd, out);
  if (isCage(path) || isCage(await io.realPath(path)))
    return refused(`${out}: ${args.command === 'draw' ? 'a drawing' : 'a report'} does not go over a cage file`);
  const why = await io.writeWhole(path, content, mine, args.force);
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
  return write(args, io, { content: html, mine: isOwnFile, exit: exitFor(analysis) });
}

/** One view of the car, or the whole of it for other programs. */
export async function writeDrawing(args: Arguments, io: Io, analysis: Analysis): Promise<Result> {
  const ending = endingOf(args.out ?? '-');
  const exit = exitFor(analysis);
  const view = args.view ?? 'side';
  const nothing = refused(`${analysis.root}: nothing to draw: no tube has a centreline and a section that are known`);
  // A file of seats alone has surfaces, but no drawing.
  if (ending === '.svg' && isBlank(analysis)) return nothing;
  const maker = `Cagewright ${io.version}`;
  const content =
    ending === '.svg'
      ? viewSvg(analysis, view)
      : ending === '.glb'
        ? await carGlb(analysis, maker)
        : await viewPng(analysis, view, maker);
  if (content === null) return nothing;
  const result = await write(args, io, { content, mine: ending === '.svg' ? isOwnFile : isOwnPicture, exit });
  if (result.exit === 2) return result;
  const lacks = lackingWords(analysis);
  const said = [
    ...(lacks === null ? [] : [`${analysis.root}: ${lacks.charAt(0).toLowerCase()}${lacks.slice(1)}`]),
    ...(ending === '.glb' && args.view !== null ? ['a .glb holds the whole car: --view is not used'] : []),
  ];
  return { ...result, stderr: said.map(complaint).join('') };
}
