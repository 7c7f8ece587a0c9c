/** The words of the command line: which command, which options, which files. Options may stand anywhere. */
import { parseArgs } from 'node:util';
import { meant, nearestWord } from '../../grammar/nearest';

export const COMMANDS = [
  'check',
  'describe',
  'window',
  'report',
  'draw',
  'packet',
  'format',
  'explain',
  'lsp',
  'help',
  'version',
] as const;
export type Command = (typeof COMMANDS)[number];

/** Named in the contract for later; said so when asked for. */
const LATER = ['diff'] as const;

export const DRAWN_VIEWS = ['plan', 'side', 'front', 'free'] as const;

export const SEVERITIES = ['error', 'warning', 'information'] as const;

type OptionName =
  'format' | 'fail-on' | 'name' | 'root' | 'rules' | 'tube' | 'view' | 'out' | 'force' | 'date' | 'check' | 'stdio';

interface OptionKind {
  readonly commands: readonly Command[];
  /** Null: a switch without a value. Empty: any value. */
  readonly values: readonly string[] | null;
}

const FILES: readonly Command[] = ['check', 'describe', 'window', 'report', 'draw', 'packet', 'format'];

const OPTIONS: Readonly<Record<OptionName, OptionKind>> = {
  format: { commands: ['check', 'describe', 'window'], values: [] },
  'fail-on': { commands: ['check'], values: SEVERITIES },
  name: { commands: FILES, values: [] },
  root: { commands: [...FILES, 'explain'], values: [] },
  rules: { commands: ['explain'], values: [] },
  tube: { commands: ['window'], values: [] },
  view: { commands: ['draw'], values: DRAWN_VIEWS },
  out: { commands: ['report', 'window', 'draw', 'packet'], values: [] },
  force: { commands: ['report', 'window', 'draw', 'packet'], values: null },
  date: { commands: ['report'], values: [] },
  check: { commands: ['format'], values: null },
  stdio: { commands: ['lsp'], values: null },
};

/** The formats of each command that has any, the default first. */
const FORMATS: Readonly<Partial<Record<Command, readonly string[]>>> = {
  check: ['text', 'json', 'sarif', 'github'],
  describe: ['text', 'json'],
  window: ['text', 'json', 'svg'],
};

export interface Arguments {
  readonly command: Command;
  /** Files, codes or commands, as written. */
  readonly words: readonly string[];
  readonly format: string;
  readonly failOn: (typeof SEVERITIES)[number];
  readonly name: string | null;
  readonly root: string | null;
  /** A file with rulebooks, for `explain`. */
  readonly rules: string | null;
  /** The tube that is asked about; null: the one that can be meant. */
  readonly tube: string | null;
  /** From where it is drawn. */
  readonly view: (typeof DRAWN_VIEWS)[number] | null;
  /** Where to write; `-` is standard output. */
  readonly out: string | null;
  /** Writes over what the tool has not made. */
  readonly force: boolean;
  /** As it is printed. */
  readonly date: string | null;
  readonly check: boolean;
  readonly stdio: boolean;
}

const isOption = (name: string): name is OptionName => Object.prototype.hasOwnProperty.call(OPTIONS, name);

const isCommand = (word: string): word is Command => COMMANDS.some((command) => command === word);

const noCommand = (word: string): string => `there is no command '${word}'${meant(nearestWord(word, COMMANDS))}`;

const listed = (words: readonly string[]): string => words.join(', ');

/** Reads the arguments; a string says what is wrong with them, in one line. */
export function readArguments(argv: readonly string[]): Arguments | string {
  const { tokens } = parseArgs({
    args: [...argv],
    strict: false,
    allowPositionals: true,
    tokens: true,
    options: {
      format: { type: 'string' },
      'fail-on': { type: 'string' },
      name: { type: 'string' },
      root: { type: 'string' },
      rules: { type: 'string' },
      tube: { type: 'string' },
      view: { type: 'string' },
      out: { type: 'string' },
      force: { type: 'boolean' },
      date: { type: 'string' },
      check: { type: 'boolean' },
      stdio: { type: 'boolean' },
      help: { type: 'boolean', short: 'h' },
      version: { type: 'boolean' },
    },
  });
  const words = tokens.flatMap((token) => (token.kind === 'positional' ? [token.value] : []));
  const given = tokens.flatMap((token) => (token.kind === 'option' ? [token] : []));
  const [word, ...rest] = words;
  const asks = (name: string): boolean => given.some((option) => option.name === name);

  let command: Command;
  if (asks('help')) command = 'help';
  else if (asks('version') && word === undefined) command = 'version';
  else if (word === undefined) return `say what to do: ${listed(COMMANDS)}`;
  else if (isCommand(word)) command = word;
  else if (LATER.some((later) => later === word)) return `'${word}' is not part of this version`;
  else return noCommand(word);
  const [topic] = rest;
  if (word === 'help' && topic !== undefined && !isCommand(topic)) return noCommand(topic);

  const values = new Map<OptionName, string>();
  for (const option of given) {
    if (option.name === 'help' || option.name === 'version') continue;
    const problem = optionProblem(command, option);
    if (problem !== null) return problem;
    if (option.name === 'tube' && values.has('tube')) return '--tube is given twice: each window is of one tube';
    if (isOption(option.name)) values.set(option.name, option.value ?? '');
  }
  return {
    command,
    words: asks('help') ? words : rest,
    format: values.get('format') ?? FORMATS[command]?.[0] ?? 'text',
    failOn: SEVERITIES.find((severity) => severity === values.get('fail-on')) ?? 'error',
    name: values.get('name') ?? null,
    root: values.get('root') ?? null,
    rules: values.get('rules') ?? null,
    tube: values.get('tube') ?? null,
    view: DRAWN_VIEWS.find((view) => view === values.get('view')) ?? null,
    out: values.get('out') ?? null,
    force: values.has('force'),
    date: values.get('date') ?? null,
    check: values.has('check'),
    stdio: values.has('stdio'),
  };
}

interface Given {
  readonly name: string;
  readonly rawName: string;
  readonly value: string | undefined;
}

/** What is wrong with one option; null: nothing. */
function optionProblem(command: Command, option: Given): string | null {
  if (!isOption(option.name)) {
    const near = nearestWord(option.name, Object.keys(OPTIONS));
    return `there is no option ${option.rawName}${near === null ? '' : `; did you mean --${near}`}`;
  }
  const kind = OPTIONS[option.name];
  // `help check --format json` is a question, not a mistake.
  if (command === 'help') return null;
  if (!kind.commands.includes(command)) return `${command} has no option --${option.name}`;
  if (kind.values === null) return option.value === undefined ? null : `--${option.name} takes no value`;
  if (option.value === undefined || option.value === '') return `--${option.name} wants a value`;
  const allowed = option.name === 'format' ? (FORMATS[command] ?? []) : kind.values;
  return allowed.length === 0 || allowed.includes(option.value)
    ? null
    : `--${option.name} is one of ${listed(allowed)}, not '${option.value}'`;
}
