/** `window`: where a harness bar may lie, as text, as JSON, as a drawing. */
import { resolve } from 'node:path';
import type { Analysis } from '../project/project';
import { isOwnFile } from '../project/report';
import { isGood, windowJson, windowOf, windowSvg, windowText } from '../project/window';
import type { Arguments } from './arguments';
import type { Exit, Io, Result } from './io';
import { complaint, visible } from './io';

const refused = (why: string): Result => ({ stdout: '', stderr: complaint(why), exit: 2 });

/** What is wrong with the arguments before anything is read; null: nothing. */
export function windowRefusal({ words, out }: Arguments): Result | null {
  if (words.length > 1) return refused('window takes one FILE');
  if (out !== null && out !== '-' && !out.toLowerCase().endsWith('.svg'))
    return refused(`--out is the drawing, a name that ends with .svg, not '${out}'; --format json prints JSON`);
  return null;
}

/**
 * Exit status 1 where there is no place for the bar, or it lies outside, or something is broken wherever it lies; 2 where
 * the tube has no window to be worked out.
 */
export async function showWindow(args: Arguments, io: Io, analysis: Analysis): Promise<Result> {
  const window = windowOf(analysis, args.tube);
  if (typeof window === 'string') return refused(`${analysis.root}: ${window}`);
  const exit: Exit = isGood(window) ? 0 : 1;
  const printed = (): string => {
    switch (args.format) {
      case 'json':
        return `${JSON.stringify(windowJson(window), null, 2)}\n`;
      case 'svg':
        return windowSvg(window);
      default:
        return `${windowText(window).split('\n').map(visible).join('\n')}\n`;
    }
  };
  const { out } = args;
  if (out === null) return { stdout: printed(), stderr: '', exit };
  const svg = windowSvg(window);
  if (out === '-') return { stdout: svg, stderr: '', exit };
  if (out.includes('\0')) return refused('--out: that is no file name');
  const why = await io.writeWhole(resolve(io.cwd, out), svg, isOwnFile, args.force);
  if (why !== null) return refused(`${out}: ${why}`);
  // What was asked for is in the file already.
  return { stdout: args.format === 'svg' ? '' : printed(), stderr: '', exit };
}
