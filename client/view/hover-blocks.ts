/** A hover's Markdown as blocks of words, so that the panel shows it without ever reading HTML. */
import type { HoverBlock, Run } from './messages';

const ESCAPED = /^\\([!-/:-@[-`{-~])/;
const CODE = /^(`+)(.+?)\1(?!`)/s;
const STRONG = /^\*\*(?=\S)(.+?)\*\*/s;
const LINK = /^!?\[((?:\\.|[^\]\\])*)\]\([^()\s]*\)/;

/** Words, names in code, and what stands out; whatever else Markdown knows stays as it is written. */
const runsOf = (text: string, style: Run['style'] = 'plain'): Run[] => {
  const runs: Run[] = [];
  const add = (more: Run): void => {
    const last = runs.at(-1);
    if (last?.style === more.style && more.style !== 'code')
      runs[runs.length - 1] = { ...last, text: last.text + more.text };
    else if (more.text !== '') runs.push(more);
  };
  for (let rest = text; rest !== '';) {
    const escaped = ESCAPED.exec(rest);
    const code = CODE.exec(rest);
    const strong = STRONG.exec(rest);
    const link = LINK.exec(rest);
    if (escaped !== null) add({ text: escaped[1] ?? '', style });
    else if (code !== null) add({ text: code[2] ?? '', style: 'code' });
    else if (strong !== null) runsOf(strong[1] ?? '', 'strong').forEach(add);
    else if (link !== null) runsOf(link[1] ?? '', style).forEach(add);
    else add({ text: rest[0] ?? '', style });
    rest = rest.slice((escaped ?? code ?? strong ?? link)?.[0].length ?? 1);
  }
  return runs;
};

const cellsOf = (line: string): Run[][] =>
  line
    .trim()
    .replace(/^\|/, '')
    .replace(/(?<!\\)\|$/, '')
    .split(/(?<!\\)\|/)
    .map((cell) => runsOf(cell.trim()));

const isRow = (line: string | undefined): line is string => line?.trimStart().startsWith('|') === true;
const isMarks = (line: string | undefined): boolean => line !== undefined && /^\s*\|?[\s:|-]*-[\s:|-]*$/.test(line);
const FENCE = /^\s*(`{3,}|~{3,})/;
const HEADING = /^ {0,3}#{1,6}\s+(.*?)\s*#*\s*$/;
const ITEM = /^\s*(?:[-*+]|\d{1,9}[.)])\s+(.*)$/;
const RULE = /^ {0,3}(?:(?:- *){3,}|(?:\* *){3,}|(?:_ *){3,})$/;

/** Never fails: what is no Markdown is words. */
export const hoverBlocks = (markdown: string): HoverBlock[] => {
  const blocks: HoverBlock[] = [];
  const lines = markdown.split(/\r\n?|\n/);
  let words: string[] = [];
  const endWords = (): void => {
    if (words.length > 0) blocks.push({ kind: 'words', runs: runsOf(words.join(' ')) });
    words = [];
  };
  for (let at = 0; at < lines.length; at += 1) {
    const line = lines[at] ?? '';
    const fence = FENCE.exec(line)?.[1];
    const heading = HEADING.exec(line);
    const item = ITEM.exec(line);
    if (fence !== undefined) {
      endWords();
      const code: string[] = [];
      while (at + 1 < lines.length && !(lines[at + 1] ?? '').trim().startsWith(fence))
        code.push(lines[(at += 1)] ?? '');
      at += 1;
      blocks.push({ kind: 'code', text: code.join('\n') });
    } else if (isRow(line) && isMarks(lines[at + 1])) {
      endWords();
      const rows = [cellsOf(line)];
      at += 1;
      for (let next = lines[at + 1]; isRow(next); next = lines[at + 1]) {
        rows.push(cellsOf(next));
        at += 1;
      }
      blocks.push({ kind: 'table', rows });
    } else if (RULE.test(line)) {
      endWords();
      blocks.push({ kind: 'rule' });
    } else if (heading !== null || item !== null) {
      endWords();
      const kind = heading !== null ? 'heading' : 'item';
      blocks.push({ kind, runs: runsOf((heading ?? item)?.[1] ?? '') });
    } else if (line.trim() === '') endWords();
    else words.push(line.trim());
  }
  endWords();
  return blocks;
};
