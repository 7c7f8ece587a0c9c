/** Words in a PDF: Helvetica, which every reader has, in the encoding WinAnsi (ISO 32000-1, annex D.2), and how wide they are. */

/** Widths of the signs 32 to 126, thousandths of the size: the font's published metrics, from memory; held against a library's in the tests. */
const REGULAR =
  '278 278 355 556 556 889 667 191 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 278 278 584 584 584 556 1015 667 667 722 722 667 611 778 722 278 500 667 556 833 722 778 667 778 722 667 611 722 667 944 667 667 611 278 278 278 469 556 333 556 556 500 556 556 278 556 556 222 222 500 222 833 556 556 556 556 333 500 278 556 500 722 500 500 500 334 260 334 584';
const BOLD =
  '278 333 474 556 556 889 722 238 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 333 333 584 584 584 611 975 722 722 722 722 667 611 778 722 278 556 722 611 833 722 778 667 778 722 667 611 722 667 944 667 667 611 333 278 333 584 556 333 556 611 556 611 556 333 611 611 278 278 556 278 889 611 611 611 611 389 556 333 611 556 778 556 556 500 389 280 389 584';

const WIDTHS = { regular: REGULAR.split(' ').map(Number), bold: BOLD.split(' ').map(Number) };

/** Signs outside ASCII that papers use: width of either weight, thousandths. */
const OTHERS: Readonly<Record<string, number>> = {
  '°': 400,
  '·': 278,
  '×': 584,
  '±': 584,
  Ø: 778,
  ø: 611,
  '½': 834,
  '¼': 834,
  '¾': 834,
  '–': 556,
  '—': 1000,
  '…': 1000,
  '•': 350,
};

/** Codes of WinAnsi that differ from Latin-1: 128 to 159. */
const HIGH: Readonly<Record<string, number>> = {
  '€': 128,
  '…': 133,
  '‘': 145,
  '’': 146,
  '“': 147,
  '”': 148,
  '•': 149,
  '–': 150,
  '—': 151,
};

/** What the font lacks, in signs that it has. */
const INSTEAD: Readonly<Record<string, string>> = {
  '→': '->',
  '←': '<-',
  '−': '-',
  '≤': '<=',
  '≥': '>=',
  '²': '²',
  '⌀': 'Ø',
  '\t': ' ',
  '\n': ' ',
  '\r': ' ',
};

/** The code of a sign; null: the font has none. */
function codeOf(sign: string): number | null {
  const high = HIGH[sign];
  if (high !== undefined) return high;
  const code = sign.codePointAt(0) ?? 0;
  return (code >= 32 && code <= 126) || (code >= 160 && code <= 255) ? code : null;
}

/** Latin-1: almost every text is, and is taken as it stands. */
const PLAIN_TEXT = /^[ -~\u00a0-\u00ff]*$/;

const replaced = (text: string): string =>
  [...text.normalize('NFC')]
    .map((sign) => INSTEAD[sign] ?? sign)
    .join('')
    .replace(/[^]/gu, (sign) => {
      if (codeOf(sign) !== null) return sign;
      const bare = sign.normalize('NFD').charAt(0);
      return codeOf(bare) !== null ? bare : '?';
    });

/** Signs that the font has: what it lacks loses its accent, or becomes a question mark. */
export const drawable = (text: string): string => (PLAIN_TEXT.test(text) ? text : replaced(text));

/** Of any sign, by the rules above. */
function slowWidth(sign: string, widths: readonly number[]): number {
  let sum = 0;
  for (const one of drawable(sign)) {
    const plain = one.normalize('NFD').charAt(0);
    sum += OTHERS[one] ?? widths[(plain.codePointAt(0) ?? 0) - 32] ?? 556;
  }
  return sum;
}

/** Signs that stand for themselves by their code: almost every text is of these alone. */
const LATIN = 256;
const latinWidths = (widths: readonly number[]): Float64Array =>
  Float64Array.from({ length: LATIN }, (_, code) =>
    code >= 32 && code <= 126 ? (widths[code - 32] ?? 0) : slowWidth(String.fromCharCode(code), widths),
  );
const BY_CODE = { regular: latinWidths(WIDTHS.regular), bold: latinWidths(WIDTHS.bold) };

/** How wide a text is at a size, in the size's unit. */
export function helveticaWidth(text: string, size: number, bold: boolean): number {
  const byCode = bold ? BY_CODE.bold : BY_CODE.regular;
  let sum = 0;
  for (let i = 0; i < text.length; i++) {
    const width = byCode[text.charCodeAt(i)];
    if (width === undefined) return (slowWidth(text, bold ? WIDTHS.bold : WIDTHS.regular) * size) / 1000;
    sum += width;
  }
  return (sum * size) / 1000;
}

/** What stands for itself in a PDF's string. */
const PLAIN = /^[ !"#$%&'*-[\]-~]*$/;
const BESIDE = /[^ !"#$%&'*-[\]-~]/gu;

/** A string as a PDF writes it: in brackets, one byte a sign, what is not plain ASCII as octal. */
export function pdfString(text: string): string {
  if (PLAIN.test(text)) return `(${text})`;
  const signs = drawable(text).replace(BESIDE, (sign) => {
    const code = codeOf(sign) ?? 63;
    return code < 127 ? `\\${sign}` : `\\${code.toString(8).padStart(3, '0')}`;
  });
  return `(${signs})`;
}
