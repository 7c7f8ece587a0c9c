/** What the grammar says of a text, for tests: every finding of parser and vocabulary with the text that it stands on. */
import type { Finding, Params } from '../../grammar/finding';
import { parseFile, placeFinding } from '../../grammar/parser';
import { readEntry } from '../../grammar/read';
import type { Arg, Expr, PlaceForm } from '../../grammar/tree';

export const findingsOf = (text: string): readonly Finding[] => {
  const tree = parseFile('a.cage', text);
  return [
    ...tree.findings,
    ...tree.statements.flatMap(({ tree: statement, offset }) =>
      readEntry(statement.entry, false).findings.map((finding) => placeFinding(finding, 'a.cage', offset)),
    ),
  ];
};

/** `code "the text that it stands on"`, in the order of the text. */
export const told = (text: string): readonly string[] =>
  findingsOf(text).map(({ code, at }) => {
    if (at.kind !== 'place') return `${code} without a place`;
    const { start, end } = at.place.span;
    return end > start
      ? `${code} ${text.slice(start, end)}`
      : `${code} behind ${text.slice(0, start).split(/\s/).pop() ?? ''}`;
  });

/** The text with the first fix that writes something taken, or with the mend in place of what is wrong. */
export const mended = (text: string): string => {
  const finding = findingsOf(text)[0];
  if (finding?.at.kind !== 'place') return text;
  const { start, end } = finding.at.place.span;
  const data: Params = finding.fixes.find((fix) => fix.id === 'text.replace')?.data ?? {};
  const write = data['text'] ?? finding.params['mend'] ?? finding.params['nearest'];
  if (typeof write !== 'string') return text;
  const from = typeof data['from'] === 'number' ? start + data['from'] : start;
  const to = typeof data['to'] === 'number' ? start + data['to'] : end;
  return text.slice(0, from) + write + text.slice(to);
};

/** A value as a formula, with every bracket that its reading implies. */
export const formula = (arg: Arg | Expr | PlaceForm): string => {
  switch (arg.kind) {
    case 'number':
      return `${String(arg.value)}${arg.unit?.text ?? ''}`;
    case 'ref':
      return arg.names.map((name) => name.text).join('.');
    case 'string':
      return JSON.stringify(arg.value);
    case 'tuple':
      return `(${arg.items.map(({ word, value }) => `${word === null ? '' : `${word.text} `}${formula(value)}`).join(', ')})`;
    case 'call':
      return `${arg.name.text}${formula(arg.args)}`;
    case 'unary':
      return `[-${formula(arg.value)}]`;
    case 'binary':
      return `[${formula(arg.left)} ${arg.op} ${formula(arg.right)}]`;
    case 'sized':
      return arg.parts.map(formula).join(' x ');
    case 'plane':
      return `${arg.axis} = ${formula(arg.value)}`;
    case 'arrow':
      return '->';
    case 'missing':
      return '?';
    case 'between':
      return `between{${formula(arg.a)} | ${formula(arg.b)} | ${formula(arg.at)}}`;
    case 'in-plane':
      return `in{${formula(arg.plane)} | ${formula(arg.pair)}}`;
    case 'on-at':
      return `on{${formula(arg.tube)} | ${formula(arg.at)}${arg.from === null ? '' : ` | from ${formula(arg.from)}`}}`;
    case 'on-bend':
      return `on{${formula(arg.tube)} | ${formula(arg.at)} ${arg.side} ${formula(arg.corner)}}`;
    case 'on-mid':
      return `on{${formula(arg.tube)} | mid ${formula(arg.corner)}}`;
    case 'on-where':
      return `on{${formula(arg.tube)} | ${formula(arg.plane)}${arg.near === null ? '' : ` | near ${formula(arg.near)}`}}`;
    case 'on-nearest':
      return `on{${formula(arg.tube)} | nearest ${formula(arg.to)}}`;
    case 'meets':
      return `meets{${formula(arg.a)} | ${formula(arg.b)}}`;
  }
};

/** All values of the first line of a text, groups with commas between; `!` before a line that did not parse. */
export const read = (text: string): string => {
  const line = parseFile('a.cage', text).statements[0]?.tree.entry.line;
  if (line === undefined) return '';
  return `${line.ok ? '' : '!'}${line.groups.map(({ args }) => args.map(formula).join(' ')).join(', ')}`;
};

/** Words of the statements of a text, with what stands in their blocks: `tube{section path} die`. */
export const outline = (text: string): string => {
  const say = (entry: ReturnType<typeof parseFile>['statements'][number]['tree']['entry']): string =>
    `${entry.line.word.text}${entry.block === null ? '' : `{${entry.block.entries.map(say).join(' ')}}`}`;
  return parseFile('a.cage', text)
    .statements.map(({ tree }) => say(tree.entry))
    .join(' ');
};
