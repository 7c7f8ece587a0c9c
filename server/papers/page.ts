/** The page round a paper: its looks on a screen and on A4 or Letter, and the mark by which the tool knows its own. */
import type { Markup } from './html';
import { element, raw, words } from './html';

/** Stands at the top of every file that the tool writes beside a car. A file without it is somebody else's. */
export const MARK = 'made by cagewright: written anew without asking';

/** So much of a file's beginning is looked at. */
const TOP = 400;

/** True for the text of a file that the tool has made, so that it may be written again. */
export const isOurs = (text: string): boolean => text.slice(0, TOP).includes(`<!-- ${MARK} -->`);

/** Grey and black only: a copy machine and a colour-blind scrutineer read the same. */
const STYLE = `
@page { margin: 12mm; }
* { box-sizing: border-box; }
html { color: #000; background: #fff; }
body { font: 10pt/1.35 Arial, Helvetica, "Liberation Sans", sans-serif; max-width: 186mm; margin: 8mm auto; padding: 0 4mm; }
h1 { font-size: 17pt; margin: 0 0 1mm; }
h2 { font-size: 13pt; margin: 8mm 0 2mm; border-bottom: 0.4mm solid #000; break-after: avoid; }
h3 { font-size: 11pt; margin: 5mm 0 1.5mm; break-after: avoid; }
p { margin: 0 0 2mm; }
.caution { border: 0.6mm solid #000; padding: 2.5mm 3mm; margin: 3mm 0; break-inside: avoid; }
.caution p:last-child { margin: 0; }
.strong { font-weight: bold; }
.small { font-size: 8.5pt; }
div.small { margin: 0 0 3mm; }
table { border-collapse: collapse; table-layout: fixed; width: 100%; margin: 0 0 4mm; font-size: 8.5pt; line-height: 1.3; }
caption { text-align: left; font-weight: bold; padding: 0 0 1mm; }
th, td { border: 0.2mm solid #777; padding: 0.8mm 1.3mm; text-align: left; vertical-align: top; overflow-wrap: break-word; }
thead th { background: #e8e8e8; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
tbody th { font-weight: normal; }
.broken th:first-child, .unknown th:first-child { font-weight: bold; }
.serious { outline: 0.6mm solid #000; outline-offset: -0.3mm; }
.serious th:first-child { font-weight: bold; }
.n { white-space: nowrap; }
table.whole { break-inside: avoid; }
caption, .lead { break-after: avoid; }
.counts td { text-align: right; }
.mark { font-size: 11pt; line-height: 1; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.5mm 4mm; margin: 0 0 3mm; }
dt { font-weight: bold; }
dd { margin: 0; overflow-wrap: anywhere; }
code { font-family: "DejaVu Sans Mono", Consolas, Menlo, monospace; font-size: 0.9em; }
figure { margin: 0 0 5mm; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; }
.details { display: grid; grid-template-columns: 1fr 1fr; gap: 4mm; align-items: start; margin: 0 0 4mm; }
.details figure { margin: 0; }
.reason { font-size: 8.5pt; font-weight: bold; break-after: avoid; margin: 0 0 1mm; }
h4 { font-size: 9.5pt; margin: 3mm 0 1.5mm; break-after: avoid; }
section[aria-labelledby="sign"] { break-inside: avoid; }
.rest { columns: 2; column-gap: 6mm; padding: 0; margin: 0 0 4mm; list-style: none; font-size: 8pt; line-height: 1.25; }
.rest li { break-inside: avoid; margin: 0 0 0.7mm; }
.sign { display: grid; grid-template-columns: 1fr 1fr; gap: 9mm 8mm; margin: 8mm 0 4mm; break-inside: avoid; }
.sign div { border-top: 0.3mm solid #000; padding-top: 0.8mm; font-size: 8.5pt; }
@media (max-width: 160mm) { .details { grid-template-columns: 1fr; } .rest { columns: 1; } }
@media print {
  body { max-width: none; margin: 0; padding: 0; }
  figure svg { width: 180mm; }
  .details svg { width: 87mm; }
}
`;

/** A whole page. Nothing is fetched and nothing runs: what it needs is in it. */
export const page = (title: string, body: Markup): string =>
  `<!DOCTYPE html>
<!-- ${MARK} -->
${element(
  'html',
  { lang: 'en' },
  '\n',
  element(
    'head',
    {},
    raw('\n<meta charset="utf-8">\n'),
    raw(
      '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; style-src \'unsafe-inline\'">\n<meta name="viewport" content="width=device-width, initial-scale=1">\n',
    ),
    element('title', {}, words(title)),
    '\n',
    raw(`<style>${STYLE}</style>\n`),
  ),
  '\n',
  element('body', {}, '\n', body, '\n'),
  '\n',
)}
`;
