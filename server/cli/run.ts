/** The program as a function: arguments and a world in, text and an exit status out. Nothing that it meets throws. */
import { formatFile } from '../../grammar/format';
import { CODES } from '../../grammar/codes';
import { meant, nearestWord } from '../../grammar/nearest';
import type { JsonFinding } from '../project/describe';
import { findingsJson, modelJson } from '../project/describe';
import { modelText } from '../project/describe-text';
import { Project } from '../project/pipeline';
import type { Analysis } from '../project/project';
import { bookText, explainText } from '../rules/explain';
import { BUILT_IN, libraryOf, type Library } from '../rules/library';
import type { Arguments } from './arguments';
import { COMMANDS, readArguments, SEVERITIES } from './arguments';
import type { Opened } from './files';
import { openFiles } from './files';
import { githubText } from './formats/github';
import { sarifText } from './formats/sarif';
import { findingsText } from './formats/text';
import { helpFor } from './help';
import type { Exit, Io, Result } from './io';
import { complaint, visible, worse } from './io';
import { rangesOf } from './ranges';
import { packetRefusal, writePacket } from './packet';
import { paperRefusal, writeDrawing, writeReport } from './report';
import { showWindow, windowRefusal } from './window';

const said = (stdout: string, exit: Exit = 0): Result => ({ stdout, stderr: '', exit });
const refused = (why: string): Result => ({ stdout: '', stderr: complaint(why), exit: 2 });

const jsonText = (data: unknown): string => `${JSON.stringify(data, null, 2)}\n`;

/** Runs one command to its end. */
export async function run(argv: readonly string[], io: Io): Promise<Result> {
  const args = readArguments(argv);
  if (typeof args === 'string') return refused(args);
  switch (args.command) {
    case 'help':
      return said(helpFor(COMMANDS.find((command) => command === args.words[0]) ?? null));
    case 'version':
      return said(`${io.version}\n`);
    case 'explain':
      return explain(args, io);
    case 'lsp':
      return serve(args, io);
    case 'check':
      return withFiles(args, io, check);
    case 'describe':
      return args.words.length > 1 ? refused('describe takes one FILE') : withFiles(args, io, describe);
    case 'window':
      return windowRefusal(args) ?? withFiles(args, io, window);
    case 'report':
      return paperRefusal(args) ?? withFiles(args, io, paper(writeReport));
    case 'draw':
      return paperRefusal(args) ?? withFiles(args, io, paper(writeDrawing));
    case 'packet':
      return packetRefusal(args) ?? withFiles(args, io, paper(writePacket));
    case 'format':
      return withFiles(args, io, format);
  }
}

async function serve(args: Arguments, io: Io): Promise<Result> {
  if (!args.stdio) return refused('lsp wants --stdio');
  if (args.words.length > 0) return refused('lsp takes no FILE');
  await io.serve();
  return said('');
}

/** The books of the tool, and those of the file that `--rules` names; a string says why they cannot be had. */
async function libraryFor({ rules, root }: Arguments, io: Io): Promise<Library | string> {
  if (rules === null) return BUILT_IN;
  const [file] = await openFiles(io, [rules], { root, name: null });
  if (file === undefined || file.kind === 'problem') return file?.message ?? `${rules}: that is no file name`;
  const [analysis] = await analysed([file]);
  if (analysis === undefined || analysis.cage.ownBooks.size === 0) return `${rules}: no rulebook stands in it`;
  return libraryOf(analysis.cage);
}

async function explain(args: Arguments, io: Io): Promise<Result> {
  if (args.words.length === 0) return refused('explain wants a CODE, such as strap.drop, or the name of a rulebook');
  const found = await libraryFor(args, io);
  const library = typeof found === 'string' ? BUILT_IN : found;
  const texts = args.words.map((word) => ({ word, text: explainText(word, library) ?? bookText(word, library) }));
  const unknown = texts.filter(({ text }) => text === null);
  const known = [...Object.keys(CODES), ...library.books.map(({ name }) => name)];
  return {
    stdout: visibleLines(texts.flatMap(({ text }) => text ?? []).join('\n')),
    stderr: [
      ...(typeof found === 'string' ? [complaint(found)] : []),
      ...unknown.map(({ word }) => complaint(`there is no finding '${word}'${meant(nearestWord(word, known))}`)),
    ].join(''),
    exit: unknown.length === 0 && typeof found !== 'string' ? 0 : 2,
  };
}

/** Text with what a terminal would take for orders made visible. */
const visibleLines = (text: string): string => text.split('\n').map(visible).join('\n');

type OnFiles = (args: Arguments, io: Io, opened: readonly Opened[]) => Promise<Result>;

/** Opens the FILEs; those that cannot be opened are told, and the others done all the same. */
async function withFiles(args: Arguments, io: Io, does: OnFiles): Promise<Result> {
  if (args.words.length === 0) return refused(`${args.command} wants a FILE`);
  if (args.name !== null && !args.words.includes('-'))
    return refused('--name is for standard input: give - as the FILE');
  const files = await openFiles(io, args.words, args);
  const opened = files.flatMap((file) => (file.kind === 'opened' ? [file] : []));
  const problems = files.flatMap((file) => (file.kind === 'problem' ? [complaint(file.message)] : []));
  if (opened.length === 0) return { stdout: '', stderr: problems.join(''), exit: 2 };
  const result = await does(args, io, opened);
  return {
    stdout: result.stdout,
    stderr: problems.join('') + result.stderr,
    exit: problems.length > 0 ? 2 : result.exit,
  };
}

async function analysed(opened: readonly Opened[]): Promise<readonly Analysis[]> {
  const project = new Project();
  const analyses: Analysis[] = [];
  for (const { host, key, text } of opened) analyses.push(project.analyse(await project.load(host, key, text)));
  return analyses;
}

/** 1 where something that is not waived is as severe as asked. */
const exitFor = (findings: readonly JsonFinding[], failOn: Arguments['failOn']): Exit => {
  const counting = SEVERITIES.slice(0, SEVERITIES.indexOf(failOn) + 1);
  return findings.some((finding) => !finding.waived && counting.includes(finding.severity)) ? 1 : 0;
};

async function check(args: Arguments, io: Io, opened: readonly Opened[]): Promise<Result> {
  const analyses = await analysed(opened);
  const data = findingsJson(analyses, rangesOf(analyses));
  const exit = exitFor(data.findings, args.failOn);
  switch (args.format) {
    case 'json':
      return said(jsonText(data), exit);
    case 'sarif':
      return said(sarifText(data.findings, io.version), exit);
    case 'github':
      return said(githubText(data.findings), exit);
    default:
      return said(findingsText(data.findings), exit);
  }
}

async function describe(args: Arguments, _io: Io, opened: readonly Opened[]): Promise<Result> {
  const [analysis] = await analysed(opened);
  if (analysis === undefined) return said('');
  const model = modelJson(analysis, rangesOf([analysis]));
  const exit = exitFor(model.findings, 'error');
  return said(args.format === 'json' ? jsonText(model) : visibleLines(modelText(analysis)), exit);
}

const paper =
  (writes: (args: Arguments, io: Io, analysis: Analysis) => Promise<Result>): OnFiles =>
  async (args, io, opened) => {
    const [analysis] = await analysed(opened);
    return analysis === undefined ? said('') : writes(args, io, analysis);
  };

async function window(args: Arguments, io: Io, opened: readonly Opened[]): Promise<Result> {
  const [analysis] = await analysed(opened);
  return analysis === undefined ? said('') : showWindow(args, io, analysis);
}

/** What became of one file that was laid out. */
async function formatOne(args: Arguments, io: Io, file: Opened): Promise<Result> {
  const text = formatFile(file.text);
  if (args.check) return text === file.text ? said('') : said(`${visible(file.key)}\n`, 1);
  if (file.path === null) return said(text);
  if (text === file.text) return said('');
  const why = await io.replaceText(file.path, file.text, text);
  return why === null ? said('') : refused(`${file.argument}: ${why}`);
}

async function format(args: Arguments, io: Io, opened: readonly Opened[]): Promise<Result> {
  let all = said('');
  for (const file of opened) {
    const one = await formatOne(args, io, file);
    all = { stdout: all.stdout + one.stdout, stderr: all.stderr + one.stderr, exit: worse(all.exit, one.exit) };
  }
  return all;
}
