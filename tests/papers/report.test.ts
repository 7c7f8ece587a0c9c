/** The report for the scrutineer: every rule and every finding stands in it, and nothing of a file can break out of its words. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { STAGES } from '../../grammar/explanations';
import { VERDICTS, wordOf } from '../../server/papers/judged';
import { isOurs } from '../../server/papers/page';
import { assessmentsOf } from '../../server/project/report';
import { BOOKS } from '../../server/rules/books';
import { analyse } from '../support/analyse';
import { attribute, html, read, reportOf, rowsOf, unusedOf, wordsIn } from './support';

const sample = (name: string): string => readFileSync(new URL(`../../samples/${name}`, import.meta.url), 'utf8');
const USED = Object.fromEntries(
  ['curlew-seats.cage', 'every-finding-part.cage', 'heron-club.cage'].map((name) => [name, sample(name)]),
);
const SAMPLES = ['plover-rollbar', 'siskin-club-bar', 'curlew-cage', 'every-finding'];

const ALL = BOOKS.map(({ name }) => name).join(', ');
// The slots of the seat `low` stand so high that its strap drops by more than ten degrees.
const strap = `seat low { slots (240, -300, 778); recline 20 deg; slot-spacing 220; back 45 }
strap inner { seat low; slot inner; to bar; width 75; hardware 110; collars 20 gap 1.5 }`;
const CAR = `rules fia-253, shop\n${STAGES.harness}\n${strap}\n`;

const bare = (name: string): string => name.replace(/\.(left|right)(?=$|\.[ab]$)/, '');

describe('every rule', () => {
  for (const name of SAMPLES) {
    it(`of the chosen books stands in it, judged or without anything to judge: ${name}`, async () => {
      const text = sample(`${name}.cage`).replace(/^rules .*$/m, name === 'siskin-club-bar' ? '$&' : `rules ${ALL}`);
      const analysis = await analyse(text, USED, `${name}.cage`);
      const page = html(analysis);
      const { judged, books, car } = assessmentsOf(analysis);
      const day = car.day();
      const unused = unusedOf(page);
      expect(books.length).toBeGreaterThan(0);
      for (const book of books) {
        const rows = rowsOf(page, `What ${book.name} says`);
        const inBook = judged.filter(({ assessment }) => assessment.book === book);
        for (const one of inBook) {
          const { rule, item, limits } = one.assessment;
          const word = VERDICTS[wordOf(one)].says;
          const holds = limits.some(
            ({ since, before }) =>
              day === null || ((since === undefined || day >= since) && (before === undefined || day < before)),
          );
          const found = rows.some(
            ([verdict, code, of]) =>
              verdict?.includes(word) === true &&
              code === rule.code &&
              (of?.split(', ').includes(item.subject) === true ||
                of?.includes(`${bare(item.subject)} (both sides)`) === true),
          );
          expect(found || !holds, `${book.name} ${rule.code} on ${item.subject}: ${word}`).toBe(true);
        }
        for (const { code } of book.limits)
          expect(rows.some((row) => row[1] === code) || unused.some((one) => one.startsWith(`${code} `)), code).toBe(
            true,
          );
      }
    });

    it(`and every finding of check, in its words: ${name}`, async () => {
      const analysis = await analyse(sample(`${name}.cage`), USED, `${name}.cage`);
      const rows = rowsOf(html(analysis), 'Findings');
      expect(rows.map((row) => row[2])).toEqual(analysis.findings.map(({ code }) => code));
      for (const [i, { message, severity, waived }] of analysis.findings.entries()) {
        expect(rows[i]?.[3]).toContain(message);
        expect(rows[i]?.[0]).toBe(waived ? `waived (${severity})` : severity);
      }
    });
  }

  it('counts what it lists', async () => {
    const analysis = await analyse(CAR);
    const page = html(analysis);
    const { judged } = assessmentsOf(analysis);
    const counts = rowsOf(page, 'Judgements').map((row) => row.slice(1).map(Number));
    const all = counts[counts.length - 1] ?? [];
    expect(all.slice(0, 6).reduce((sum, one) => sum + one, 0)).toBe(judged.length);
    expect(all[6]).toBe(unusedOf(page).length);
  });
});

describe('verdicts', () => {
  it('come as a word with a shape, the figure, the limit, its place and how well it is known', async () => {
    const page = await reportOf(CAR);
    const rows = rowsOf(page, 'What fia-253 says');
    const drop = rows.find((row) => row[1] === 'strap.drop');
    expect(drop?.[0]).toContain('■ broken');
    expect(drop?.[2]).toBe('inner');
    expect(drop?.[3]).toMatch(/^\d+(\.\d)?°$/);
    // 253-6.2 in the text of 2013 is published: 0 to 45 degrees, 10 recommended (the rule sheet's own figures).
    expect(drop?.[4]).toContain('0 to 45°');
    expect(drop?.[4]).toContain('recommended: 0 to 10°');
    expect(drop?.[5]).toContain('253-6.2, 2013 text, published');
    expect(rows.some((row) => row[5]?.includes('from memory') === true)).toBe(true);
  });

  it('that are waived give the reason and the bound; beyond the bound they count again', async () => {
    const waived = await reportOf(`${CAR}waive strap.drop on inner up to 40 deg because "the club's letter of May"\n`);
    const row = rowsOf(waived, 'What fia-253 says').find((one) => one[1] === 'strap.drop');
    expect(row?.[0]).toBe('◆ waived');
    expect(row?.[3]).toContain("Waived, up to 40°: the club's letter of May");
    expect(rowsOf(waived, 'Waivers')[0]).toEqual(['strap.drop', 'inner', '40°', "the club's letter of May", 'yes']);
    const beyond = await reportOf(`${CAR}waive strap.drop on inner up to 10.1 deg because "x"\n`);
    expect(rowsOf(beyond, 'What fia-253 says').find((one) => one[1] === 'strap.drop')?.[0]).toContain('broken');
    expect(rowsOf(beyond, 'Waivers')[0]?.[4]).toContain('no');
  });

  it('that cannot be given say which fact is missing and how to write it', async () => {
    const page = await reportOf(`rules scca-gcr\n${STAGES.hoop.replace('od 45; wall 2.5', 'od 38.1; wall 2.4')}\n`);
    const size = rowsOf(page, 'What scca-gcr says').find((row) => row[1] === 'tube.size' && row[0]?.includes('judged'));
    expect(size?.[0]).toBe('△ cannot be judged');
    expect(size?.[3]).toMatch(/Missing: .*vehicle \{ mass/);
    expect(read(page).words).toContain('Mass of the car');
    expect(read(page).words).toContain('not written (vehicle { mass 980 kg without driver })');
  });

  it('of a dated book name the text that counts, or say that the day is missing', async () => {
    const open = rowsOf(await reportOf(CAR), 'Books')[0] ?? [];
    expect(open[2]).toContain('hangs on the day of homologation');
    const dated =
      rowsOf(await reportOf(CAR.replace(/\n/, '\nvehicle { homologated "2019-05-01" }\n')), 'Books')[0] ?? [];
    expect(dated[2]).toContain('2020 text, by the day 2019-05-01');
  });

  it('of a club’s own book say that it is written in the car’s files', async () => {
    const page = await reportOf(`use "club.cage"\nrules heron\n${STAGES.harness}\n${strap}\n`, {
      'club.cage': 'rulebook heron based on fia-253 {\n  limit strap.drop from 0 to 5 cite "yearbook, 4.2"\n}\n',
    });
    const row = rowsOf(page, 'What heron says').find((one) => one[1] === 'strap.drop');
    expect(row?.[5]).toContain('yearbook, 4.2');
    expect(row?.[4]).toContain('0 to 5°');
  });
});

describe('figures', () => {
  it('stand in the file’s unit with the other beside it', async () => {
    const page = await reportOf(sample('siskin-club-bar.cage'), USED);
    const tubes = rowsOf(page, 'Tubes');
    // 1 3/4 x .120 in is 44.45 x 3.048 mm: an inch is 25.4 mm.
    expect(tubes.find((row) => row[1] === 'main-hoop')?.[3]).toBe('1 3/4 in x 0.12 in (44.45 mm x 3.05 mm)');
    const seat = rowsOf(page, 'Seats')[0] ?? [];
    const [, inch, mm] = /^([\d.]+) in \(([\d.]+) mm\)$/.exec(seat[2] ?? '') ?? [];
    expect(Number(mm)).toBeCloseTo(Number(inch) * 25.4, 0);
  });

  it('are drawn from the side, from above and from ahead', async () => {
    const { elements } = read(await reportOf(CAR));
    const titles = elements.filter(({ tagName }) => tagName === 'title').map(wordsIn);
    for (const name of ['Side view', 'Plan', 'Front view', 'Straps of low, side view', 'Straps of low, plan'])
      expect(
        titles.some((one) => one.includes(name)),
        name,
      ).toBe(true);
  });
});

describe('the page', () => {
  it('is made and sound for every fixture, whatever is wrong in it', async () => {
    const folder = new URL('../findings/fixtures/', import.meta.url);
    for (const name of readdirSync(folder).filter((one) => one.endsWith('.cage'))) {
      const page = await reportOf(readFileSync(new URL(name, folder), 'utf8'));
      expect(read(page).errors, name).toEqual([]);
      expect(page, name).not.toMatch(/\bNaN\b|\bInfinity\b|\bundefined\b|\[object/);
    }
  });

  it('is sound HTML for every sample, and for no car at all', async () => {
    for (const page of [
      ...(await Promise.all(SAMPLES.map((name) => reportOf(sample(`${name}.cage`), USED)))),
      await reportOf(''),
      await reportOf('rules nothing-known'),
      await reportOf('{{{ ]] "'),
    ]) {
      const { errors, elements } = read(page);
      expect(errors.map(({ code, startLine, startCol }) => `${code} ${String(startLine)}:${String(startCol)}`)).toEqual(
        [],
      );
      const ids = elements.flatMap((one) => attribute(one, 'id') ?? []);
      expect(new Set(ids).size).toBe(ids.length);
      // Who listens to the page hears to which column and row a cell belongs.
      for (const th of elements.filter(({ tagName }) => tagName === 'th'))
        expect(attribute(th, 'scope')).toMatch(/^(col|row)$/);
      for (const table of elements.filter(({ tagName }) => tagName === 'table'))
        expect(table.childNodes.some((one) => one.nodeName === 'caption')).toBe(true);
      expect(attribute(elements[0] ?? ({ attrs: [] } as never), 'lang')).toBe('en');
      expect(isOurs(page)).toBe(true);
    }
  });

  it('needs nothing from outside and runs nothing', async () => {
    for (const name of SAMPLES) {
      const page = await reportOf(sample(`${name}.cage`), USED);
      const { elements } = read(page);
      const tags = new Set(elements.map(({ tagName }) => tagName));
      for (const tag of ['script', 'link', 'img', 'image', 'iframe', 'object', 'embed', 'use', 'form', 'a', 'base'])
        expect(tags.has(tag), tag).toBe(false);
      for (const { attrs } of elements)
        for (const { name: key } of attrs) expect(key).not.toMatch(/^(on|src|href|action|data$|poster|background)/);
      expect(page).not.toMatch(/url\(|@import/);
      expect(
        (page.match(/https?:\/\/[^"'\s<)]*/g) ?? []).filter((one) => one !== 'http://www.w3.org/2000/svg'),
      ).toEqual([]);
    }
  });

  it('says what it is not, before the figures and before the signature', async () => {
    const { words } = read(await reportOf(CAR));
    const said =
      'This report is an aid, not an approval. The current printed rulebook of the event and the scrutineer decide';
    expect(words.split(said).length - 1).toBe(2);
    expect(words.indexOf(said)).toBeLessThan(words.indexOf('Summary'));
    expect(words.lastIndexOf(said)).toBeLessThan(words.indexOf('Scrutineer: name and signature'));
  });

  it('is the same for the same text, and bears no date but one that is given', async () => {
    const [one, other] = [await reportOf(CAR), await reportOf(CAR)];
    expect(one).toBe(other);
    expect(one).not.toMatch(/20\d\d-\d\d-\d\dT|\d\d:\d\d:\d\d/);
    expect(html(await analyse(CAR), '25 May 2026')).toContain('Date: 25 May 2026');
  });

  it('shows markup from a file as words', async () => {
    const evil = '<script>alert(1)</script><img src=x onerror=alert(2)>&amp;]]>';
    const text = `cage "${evil}"\n${CAR}waive strap.drop on inner because "${evil}'"\nmaterial steel { kind cold-drawn-seamless }\nuse "${evil}.cage"\n`;
    const page = html(await analyse(text, {}, `${evil}.cage`), evil);
    const { errors, elements, words } = read(page);
    expect(errors).toEqual([]);
    expect(elements.some(({ tagName }) => tagName === 'script' || tagName === 'img')).toBe(false);
    expect(words.split(evil).length).toBeGreaterThan(4);
  });

  it('stands whatever words a file brings', async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'binary', maxLength: 40 }), async (words) => {
        const told = words.replace(/["\\\r\n]/g, '');
        const page = await reportOf(
          `cage "${told}"\nsection t { od 45; wall 2.5 }\nwaive strap.drop on x because "${told}"`,
        );
        const { errors, elements } = read(page);
        expect(errors).toEqual([]);
        expect(elements.some(({ tagName }) => tagName === 'script')).toBe(false);
      }),
      { numRuns: 25 },
    );
  });
});
