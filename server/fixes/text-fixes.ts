/** Fixes of what is written: characters, numbers, units, names. The finding itself knows what should stand there. */
import { unitsOf } from '../../grammar/file-units';
import type { PlacedFinding } from '../../grammar/finding';
import type { FixContext, FixOffer, Fixer } from './fix';
import { textAt } from './fix';

/** Offers to write `newText` in place of the finding's own span, or of a part of it counted from its start. */
const replacing = (
  finding: PlacedFinding,
  id: string,
  title: string,
  newText: string,
  preferred: boolean,
  part?: { readonly from: number; readonly to: number },
): FixOffer => {
  const { file, span } = finding.place;
  const place = part === undefined ? span : { start: span.start + part.from, end: span.start + part.to };
  return { id, title, preferred, edits: () => [{ file, span: place, newText }] };
};

const text = (value: unknown): string | null => (typeof value === 'string' ? value : null);
const number = (value: unknown): number | null => (typeof value === 'number' ? value : null);

const quoted = (value: string): string => `'${value.trim()}'`;

const titleFor = (found: string, wanted: string): string => {
  if (wanted.trim() === '') return `Take ${quoted(found)} out`;
  if (found.trim() === '') return `Write ${quoted(wanted)}`;
  return `Write ${quoted(wanted)} instead of ${quoted(found)}`;
};

/** `text.replace`: the reader of the text says what should stand there. */
export const textReplace: Fixer = (finding, context) =>
  finding.fixes.flatMap((fix, i): readonly FixOffer[] => {
    const newText = text(fix.data['text']);
    if (fix.id !== 'text.replace' || newText === null) return [];
    const from = number(fix.data['from']);
    const to = number(fix.data['to']);
    const part = from === null || to === null ? undefined : { from, to };
    const { start } = finding.place.span;
    const span = part === undefined ? finding.place.span : { start: start + part.from, end: start + part.to };
    const found = textAt(context, { file: finding.place.file, span });
    const title = text(fix.data['title']) ?? titleFor(found, newText);
    return [replacing(finding, `text.replace.${String(i)}`, title, newText, i === 0, part)];
  });

/** `text.close-brace`: `}` on a line of its own, where the block's text ends. */
export const closeBrace: Fixer = (finding, context) =>
  finding.fixes.flatMap((fix): readonly FixOffer[] => {
    const at = number(fix.data['at']);
    if (fix.id !== 'text.close-brace' || at === null) return [];
    const { file, span } = finding.place;
    const source = context.trees.get(file)?.text ?? '';
    const where = span.start + at;
    const newline = source.includes('\r\n') ? '\r\n' : '\n';
    const begin = source.lastIndexOf('\n', span.start - 1) + 1;
    const indent = /^[ \t]*/.exec(source.slice(begin, span.start))?.[0] ?? '';
    // A comment behind the last fact would swallow the brace.
    const lineEnd = source.indexOf('\n', where);
    const rest = source.slice(where, lineEnd < 0 ? source.length : lineEnd).replace(/\r$/, '');
    const target = where + (rest.trimStart().startsWith('#') ? rest.length : 0);
    return [
      {
        id: 'text.close-brace',
        title: "Close it with '}'",
        preferred: true,
        edits: () => [{ file, span: { start: target, end: target }, newText: `${newline}${indent}}` }],
      },
    ];
  });

/** "Did you mean": the nearest known word in place of the unknown one. */
export const didYouMean: Fixer = (finding, context) => {
  const nearest = text(finding.params['nearest']) ?? text(finding.params['known']);
  if (nearest === null) return [];
  return [replacing(finding, 'text.nearest', titleFor(textAt(context, finding.place), nearest), nearest, true)];
};

/** `place.on-centre`: on the centreline left and right are what out and in cannot be. */
export const leftOrRight: Fixer = (finding, context) =>
  ['left', 'right'].map((word) =>
    replacing(finding, `text.${word}`, titleFor(textAt(context, finding.place), word), word, false),
  );

/** The sign that is wanted, where one alone is: `a ')' is wanted`. */
const WANTED_SIGN = /^(?:an? )?'([^'\w\s]+)' is wanted$/;

/** `syntax.missing`: writes the sign that is missing. What a value should be nobody can know. */
export const writeSign: Fixer = (finding, context) => {
  const sign = WANTED_SIGN.exec(text(finding.params['wanted']) ?? '')?.[1];
  if (sign === undefined || finding.fixes.some((fix) => fix.id === 'text.replace')) return [];
  const { file, span } = finding.place;
  const source = context.trees.get(file)?.text ?? '';
  const apart = sign === ')' || /\s/.test(source[span.end - 1] ?? ' ') ? '' : ' ';
  return [
    replacing(finding, 'text.sign', `Write ${quoted(sign)}`, `${textAt(context, finding.place)}${apart}${sign}`, true),
  ];
};

/** A number without a unit, behind the operator or before it. */
const BARE_BEHIND = /^\s*(-?(?:\d+ +\d+\/\d+|\d+\/\d+|\d*\.?\d+))(?![\d.]|[ \t]*(?:[a-zA-Z%]|\d*\/))/;
const BARE_BEFORE = /(?:^|[\s(=+*/-])((?:\d+ +\d+\/\d+|\d+\/\d+|\d*\.?\d+))\s*$/;

/** `unit.mixed`: the number that stands here, at the operator, is given the unit that it has by its file. */
export const giveUnit: Fixer = (finding, context) => {
  const { file, span } = finding.place;
  const tree = context.trees.get(file);
  if (tree === undefined) return [];
  const unit = unitsOf(tree);
  const offers: FixOffer[] = [];
  const add = (number: string, at: number): void => {
    const newText = `${number} ${unit}`;
    offers.push({
      id: `text.unit.${String(offers.length)}`,
      title: titleFor(number, newText),
      preferred: offers.length === 0,
      edits: () => [{ file, span: { start: at, end: at + number.length }, newText }],
    });
  };
  const behind = BARE_BEHIND.exec(tree.text.slice(span.end, span.end + 60));
  if (behind?.[1] !== undefined) add(behind[1], span.end + behind[0].length - behind[1].length);
  const before = BARE_BEFORE.exec(tree.text.slice(Math.max(0, span.start - 60), span.start));
  if (before?.[1] !== undefined) add(before[1], span.start - (before[0].length - before[0].lastIndexOf(before[1])));
  return offers;
};

/** A name that needs a side: one offer for each side. */
export const chooseSide: Fixer = (finding, context) => {
  const choices = finding.params['choices'];
  if (!Array.isArray(choices)) return [];
  return choices.map((choice: string) =>
    replacing(
      finding,
      `text.side.${choice}`,
      titleFor(textAt(context, finding.place), choice),
      choice,
      choices.length === 1,
    ),
  );
};

/**
 * The mend of a number or a unit, where the sentence names the text to write. Where the finding stands at a sign behind
 * a number (`45°`), the number stays and the sign becomes the word.
 */
export const writeMend: Fixer = (finding, context: FixContext) => {
  const mend = text(finding.params['mend']);
  if (mend === null || finding.fixes.some((fix) => fix.id === 'text.replace')) return [];
  const here = textAt(context, finding.place);
  const found = text(finding.params['found']) ?? here;
  const before = found.endsWith(here) ? found.slice(0, found.length - here.length) : '';
  const rest = mend.startsWith(before) ? mend.slice(before.length) : mend;
  const source = context.trees.get(finding.place.file)?.text ?? '';
  const afterBlank = before !== '' && /\s/.test(source[finding.place.span.start - 1] ?? '');
  return [replacing(finding, 'text.mend', titleFor(found, mend), afterBlank ? rest.trimStart() : rest, true)];
};
