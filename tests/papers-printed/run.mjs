/**
 * Templates as they print: pages rendered by poppler and measured as with a ruler, against joints worked out in `cars.mjs`.
 * Installs poppler where apt is at hand, and fails where nothing can be measured. The project must be built.
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { installPrograms, pathOf } from '../support/apt.mjs';
import { cutAt, JOINTS, LARGE, leastCut, textOf } from './cars.mjs';
import { alongRow, downColumn, likeness, middleOf } from './picture.mjs';
import { render, sizes, textOf as wordsOnPage, wordsOf } from './poppler.mjs';
import { drawnByBrowser } from './svg.mjs';

const DPI = 600;
/** What a ruler on paper may show, mm. */
const TENTH = 0.1;
/** The thick line's stroke, mm. */
const STROKE = 0.3;
/** Office paper, as the wrap allows for it: common practice, no source. */
const PAPER = 0.1;
/** ISO 216 and ANSI/ASME Y14.1. */
const SHEETS = { a4: [210, 297], letter: [215.9, 279.4] };

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const pictures = join(root, '.build/printed');
const results = [];

const check = (what, holds, found = '') => {
  results.push(holds);
  process.stdout.write(`${holds ? 'ok    ' : 'FAILED'} ${what}${found === '' ? '' : `: ${String(found)}`}\n`);
};

const mm = (value) => `${value.toFixed(3)} mm`;

/** Both scale bars: between the middles of their end ticks. */
const measureBars = (picture, name) => {
  // The only lines so long that begin at the margin: looked for from the foot up.
  const rows = [];
  for (let y = picture.height / picture.perMm - 10; y > 200 && rows.length < 2; y -= 0.05) {
    const line = alongRow(picture, y).find(({ wide }) => wide > 90 && wide < 110);
    if (line !== undefined && (rows[0] === undefined || rows[0] - y > 1)) rows.push(y);
  }
  const [inches, metric] = rows;
  const between = (y) => {
    const ticks = alongRow(picture, y).filter(({ at, wide }) => at < 113 && wide < 0.6);
    return ticks.at(-1).at - ticks[0].at;
  };
  for (const [what, y, length] of [
    ['100 mm', metric - 1, 100],
    ['4 in', inches + 1, 101.6],
  ]) {
    const measured = between(y);
    check(`${name}: the bar of ${what}`, Math.abs(measured - length) < TENTH, mm(measured));
  }
};

/**
 * The wrap on a page: its seams, the mark line, and the curve below it.
 * @param {{ from: number, to: number }} within rows of the page, mm, that the wrap lies in
 */
const measureWrap = (picture, joint, name, within) => {
  const round = Math.PI * (joint.branch + PAPER);
  // With the way to the other end up and the print outside, the clock grows to the right at a first end.
  const growing = joint.last ? -1 : 1;
  // The mark line runs from seam to seam, and is the first that does so below the wrap's upper edge.
  const across = [];
  for (let y = within.from; y < within.to && across.length < 2; y += 0.04) {
    const line = alongRow(picture, y).find(({ wide }) => Math.abs(wide - round) < 1);
    if (line !== undefined && (across.length === 0 || y - across[0].y > 5)) across.push({ y, line });
  }
  const mark = across[1];
  if (mark === undefined) return check(`${name}: there is a wrap`, false);
  const seams = alongRow(picture, mark.y + 3.4).filter(({ wide }) => wide < 0.6);
  const [left, right] = [seams[0].at, seams.at(-1).at];
  check(`${name}: once round the tube`, Math.abs(right - left - round) < TENTH, `${mm(right - left)} for ${mm(round)}`);

  // Down many columns, clear of the lines of the clock and of TOP: the first dark below the mark line is the thick curve.
  // Its upper edge is looked at, and half its stroke added: under it begins the hatch, and the outer edge is near.
  const clock = (x) => (growing * (x - (left + right) / 2) * 2 * Math.PI) / round;
  const top = downColumn(picture, left + 1.1).filter(({ at }) => Math.abs(at - mark.y) < 0.5)[0].at;
  const edge = (x) => downColumn(picture, x).find(({ at, from }) => at > top + 4 && from > top + 4)?.from ?? NaN;
  const seen = [];
  for (let degrees = -175; degrees < 180; degrees += 10) {
    const x = middleOf(picture, (left + right) / 2 + (degrees / 360) * round);
    const slope = (edge(x + 0.4) - edge(x - 0.4)) / 0.8;
    seen.push({ x, below: edge(x) + (STROKE / 2) * Math.hypot(1, slope) - top });
  }
  // From the mark line to the long point, by each place of the curve: all the same, and as it is written to a tenth.
  const whole = seen.map(({ x, below }) => below + cutAt(joint, clock(x)) - leastCut(joint));
  const middle = (Math.max(...whole) + Math.min(...whole)) / 2;
  const worst = Math.max(...whole) - middle;
  check(
    `${name}: the curve, at ${String(seen.length)} places`,
    seen.length > 30 && worst < TENTH,
    `off by ${mm(worst)} at most`,
  );
  const said = Number(/mark line lies ([\d.]+) mm/.exec(wordsOnPage(joint.pdf, 1))?.[1]);
  check(
    `${name}: the mark line behind the long point`,
    Math.abs(said - middle) < TENTH,
    `${mm(middle)}, written ${mm(said)}`,
  );
};

/** The printed table against the joint. */
const measureTable = (joint, name) => {
  const rows = [...wordsOnPage(joint.pdf, 1).matchAll(/([\d.]+)°\s+([\d.]+) mm \([^)]*\)\s+(-?[\d.]+) mm/g)];
  const least = leastCut(joint);
  let worst = 0;
  for (const [, degrees, round, cut] of rows) {
    const clock = (Number(degrees) * Math.PI) / 180;
    worst = Math.max(
      worst,
      Math.abs(Number(round) - (clock * joint.branch) / 2),
      Math.abs(Number(cut) - (cutAt(joint, clock) - least)),
    );
  }
  const count = joint.branch < 32 ? 16 : 24;
  check(
    `${name}: ${String(count)} ordinates`,
    rows.length === count && worst < TENTH,
    `${String(rows.length)}, off by ${mm(worst)} at most`,
  );
};

/** Sheets of one wrap over each other: at the crosses they share, the paper is the same. */
const measureSheets = (pdf, name) => {
  const pages = sizes(pdf).length;
  check(`${name}: a page of words and four sheets`, pages === 5, pages);
  const sheets = [2, 3, 4, 5].map((page) => ({
    picture: render(pdf, page, 300),
    marks: new Map(
      wordsOf(pdf, page)
        .filter(({ word }) => /^\+\d+$/.test(word))
        .map((one) => [one.word, one]),
    ),
    words: wordsOnPage(pdf, page),
  }));
  sheets.forEach(({ words }, i) => {
    const row = 1 + Math.floor(i / 2);
    const column = 1 + (i % 2);
    check(
      `${name}: sheet ${String(i + 1)} says where it belongs`,
      words.includes(
        `Sheet ${String(i + 1)} of 4: row ${String(row)} of 2 from the top, column ${String(column)} of 2`,
      ),
    );
  });
  for (const [one, other] of [
    [0, 1],
    [2, 3],
    [0, 2],
    [1, 3],
  ]) {
    const [a, b] = [sheets[one], sheets[other]];
    const shared = [...a.marks.keys()].filter((mark) => b.marks.has(mark));
    let least = 1;
    let drift = 0;
    const moves = shared.map((mark) => {
      const [p, q] = [a.marks.get(mark), b.marks.get(mark)];
      // A cross stands 2.4 mm left of its number and below it; 5 mm round it lie on both sheets.
      const at = ({ left, bottom }) => [left - 2.4, bottom + 0.9];
      least = Math.min(least, likeness(a.picture, at(p), b.picture, at(q), 5));
      return [p.left - q.left, p.top - q.top];
    });
    for (const [x, y] of moves) drift = Math.max(drift, Math.abs(x - moves[0][0]), Math.abs(y - moves[0][1]));
    check(
      `${name}: sheets ${String(one + 1)} and ${String(other + 1)} lie over each other`,
      shared.length >= 2 && drift < TENTH && least > 0.7,
      `${shared.join(' ')}, apart by ${mm(drift)}, alike ${least.toFixed(2)}`,
    );
  }
};

const papersOf = (home, name, joint) => {
  const folder = join(home, name.replaceAll(/[^a-z]+/g, '-'));
  mkdirSync(folder);
  writeFileSync(join(folder, 'car.cage'), textOf(joint));
  const out = join(folder, 'out');
  execFileSync(process.execPath, [join(root, 'server/dist/cli.js'), 'packet', join(folder, 'car.cage'), '--out', out]);
  const templates = join(out, 'templates');
  const found = (ending) =>
    join(
      templates,
      readdirSync(templates).find((one) => one.endsWith(ending)),
    );
  const end = `end-${joint.last ? '2' : '1'}`;
  return { a4: found(`${end}.a4.pdf`), letter: found(`${end}.letter.pdf`), svg: found(`${end}.svg`) };
};

installPrograms({ pdftoppm: 'poppler-utils', chromium: 'chromium' });
rmSync(pictures, { recursive: true, force: true });
mkdirSync(pictures, { recursive: true });
const home = mkdtempSync(join(tmpdir(), 'cage-printed-'));
try {
  for (const [name, joint] of Object.entries(JOINTS)) {
    const papers = papersOf(home, name, joint);
    for (const sheet of ['a4', 'letter']) {
      const pdf = papers[sheet];
      const [wide, tall] = SHEETS[sheet];
      const of = `${name}, ${sheet}`;
      const [size] = sizes(pdf);
      check(
        `${of}: the size of the sheet`,
        Math.hypot(size[0] - wide, size[1] - tall) < 0.05,
        size.map(mm).join(' x '),
      );
      const picture = render(pdf, 1, DPI);
      measureBars(picture, of);
      measureWrap(picture, { ...joint, pdf }, of, { from: 45, to: 200 });
      measureTable({ ...joint, pdf }, of);
    }
    const shown = await drawnByBrowser(
      pathOf('chromium'),
      papers.svg,
      join(pictures, `${name.replaceAll(/[^a-z]+/g, '-')}.png`),
    );
    measureWrap(shown, { ...joint, pdf: papers.a4 }, `${name}, SVG in a browser`, { from: 45, to: 200 });
  }
  const large = papersOf(home, 'large', LARGE);
  for (const sheet of ['a4', 'letter']) measureSheets(large[sheet], `two by two, ${sheet}`);
} finally {
  rmSync(home, { recursive: true, force: true });
}

const failed = results.filter((holds) => !holds).length;
process.stdout.write(`${String(results.length - failed)} passed, ${String(failed)} failed\n`);
process.exit(failed > 0 || results.length === 0 ? 1 : 0);
