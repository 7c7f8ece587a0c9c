/** A club's own rulebook in an editor: hover, completion, definition, references, renaming, outline. */
import { describe, expect, it } from 'vitest';
import { formatFile } from '../../grammar/format';
import { complete, type Completion } from '../../server/editor/completion';
import { hover } from '../../server/editor/hover';
import { definitionAt, occurrences, rename, renameTarget } from '../../server/editor/names';
import { outline } from '../../server/editor/symbols';
import { canBeLimited } from '../../server/rules/own-book';
import { BOOKS } from '../../server/rules/books';
import { RULES } from '../../server/rules/rules';
import { analyse } from '../support/analyse';
import { readCursor } from '../support/markers';

const CLUB = `units mm
rulebook heron-club based on fia-253 {
  cite "Heron Hill Climb Club, yearbook 2026"
  limit strap.drop from 0 to 20
  limit foot.area from 150 cm2 of "hoop foot" cite "yearbook 2026, 4.2"
  limit seat.gap from 2 in
  drop tube.size
}
`;
const CAR = `cage "Club car"
units mm
use "club.cage"
rules heron-club
node here = (0, 0, 0)
waive heron-club strap.drop on here because "to see it"
rulebook heron-juniors based on heron-club { drop strap.spread }
`;

const load = async (marked: string, club = CLUB) => {
  const { text, cursor } = readCursor(marked);
  return { analysis: await analyse(text, { 'club.cage': club }, 'car.cage'), cursor };
};
const hoverAt = async (marked: string): Promise<string> => {
  const { analysis, cursor } = await load(marked);
  return hover(analysis, 'car.cage', cursor)?.markdown ?? '';
};
const offers = async (marked: string): Promise<readonly Completion[]> => {
  const { analysis, cursor } = await load(marked);
  return complete(analysis, 'car.cage', cursor);
};
const labels = async (marked: string): Promise<string[]> => (await offers(marked)).map(({ label }) => label);

describe('a hover on a rulebook', () => {
  it('lists its limits, and how they differ from those of its base', async () => {
    const said = await hoverAt(CAR.replace('rules heron-club', 'rules heron<|>-club'));
    expect(said).toContain('**heron-club**: Heron Hill Climb Club, yearbook 2026. Based on `fia-253`.');
    expect(said).toMatch(
      /\| `strap\.drop` \| allows 0 to 20° \| \*\*here\*\*, fia-253 allows 0 to 45°, recommends 0 to 10° \| Heron Hill Climb Club, yearbook 2026 \| written here \|/,
    );
    expect(said).toMatch(
      /\| `foot\.area` \| wants at least 15000 mm² for hoop foot; cages without a certificate \| \*\*here\*\*, fia-253 wants at least/,
    );
    expect(said).toMatch(/\| `seat\.gap` \| wants at least 50\.8 mm \| \*\*here only\*\* \|/);
    expect(said).toMatch(/\| `strap\.spread` \| allows at most 20° \| as fia-253 \|/);
    expect(said).toContain('Left out of fia-253: `tube.size`.');
  });

  it('prints every limit of every book with its own unit', async () => {
    for (const { name, limits } of BOOKS) {
      const said = await hoverAt(`cage "x"\nunits mm\nrules ${name.slice(0, 2)}<|>${name.slice(2)}\n`);
      const rows = said.split('\n').filter((line) => line.startsWith('| `'));
      expect(rows).toHaveLength(limits.length);
      for (const [i, { code, allowed, sizes, accepts }] of limits.entries()) {
        const row = rows[i] ?? '';
        expect(row).toContain(`\`${code}\``);
        if (sizes !== undefined || accepts !== undefined || (allowed.from === null && allowed.to === null)) continue;
        const unit = { mm: ' mm', deg: '°', mm2: ' mm²', kg: ' kg', N: ' N', MPa: ' MPa', '1': '' }[allowed.unit];
        // A half goes up: a quarter of an inch, 6.35 mm, is 6.4.
        const figure = String(Math.round(10 * (allowed.to ?? allowed.from ?? 0) + 1e-9) / 10);
        expect([code, row.includes(`${figure}${unit}`)]).toEqual([code, true]);
      }
      expect(said).not.toMatch(/undefined|NaN|\[object/);
    }
  });

  it('says what each book asks where a code is limited, and what the words of the line do', async () => {
    const { text, cursor } = readCursor(CLUB.replace('strap.drop', 'strap.dr<|>op'));
    const said = hover(await analyse(text), 'example.cage', cursor)?.markdown ?? '';
    expect(said).toContain('**strap.drop**');
    expect(said).toContain('- `heron-club` allows 0 to 20°');
    expect(said).toContain('- `fia-253` allows 0 to 45°, recommends 0 to 10°');
    const figure = readCursor(CLUB.replace('to 20', 'to <|>20'));
    expect(hover(await analyse(figure.text), 'example.cage', figure.cursor)?.markdown).toContain('20.0000 deg');
    const word = readCursor(CLUB.replace('from 0', 'fr<|>om 0'));
    expect(hover(await analyse(word.text), 'example.cage', word.cursor)?.markdown).toContain('**limit** of rulebook');
  });

  it('finds the book behind every name: rules, waive, based on, its own head', async () => {
    for (const [from, to] of [
      ['waive heron-club', 'waive heron-cl<|>ub'],
      ['based on heron-club', 'based on hero<|>n-club'],
    ] as const)
      expect(await hoverAt(CAR.replace(from, to))).toContain('**heron-club**');
    expect(await hoverAt(CAR.replace('rulebook heron-juniors', 'rulebook heron<|>-juniors'))).toContain(
      'Based on `heron-club`',
    );
  });
});

describe('completion', () => {
  it("offers the car's own books beside those of the tool", async () => {
    const all = [...BOOKS.map(({ name }) => name), 'heron-club', 'heron-juniors'];
    expect((await labels(CAR.replace('rules heron-club', 'rules <|>'))).sort()).toEqual([...all].sort());
    const base = await labels(CAR.replace('based on heron-club', 'based on <|>'));
    expect(base.sort()).toEqual(all.filter((name) => name !== 'heron-juniors').sort());
    expect(await labels(CAR.replace('waive heron-club', 'waive <|>'))).toContain('heron-club');
  });

  it('offers the codes that can be limited, or dropped, and writes them whole', async () => {
    const inside = (line: string): string => CAR.replace('drop strap.spread', line);
    const limited = await labels(inside('limit <|>'));
    expect(limited).toContain('foot.area');
    expect(limited).not.toContain('tube.size');
    expect(limited).not.toContain('tube.clash');
    expect(limited.sort()).toEqual(
      RULES.map(({ code }): string => code)
        .filter((code) => canBeLimited(code))
        .sort(),
    );
    expect(await labels(inside('drop <|>'))).toContain('tube.size');
    const marked = inside('limit strap.<|>');
    const { text, cursor } = readCursor(marked);
    const drop = (await offers(marked)).find(({ label }) => label === 'strap.drop');
    expect(drop === undefined ? '' : text.slice(0, drop.span.start) + drop.insert).toBe(
      `${text.slice(0, cursor - 'strap.'.length)}strap.drop`,
    );
  });

  it('offers what goes on in a limit, also a second time', async () => {
    const inside = (line: string): string => CAR.replace('drop strap.spread', line);
    expect(await labels(inside('limit foot.area <|>'))).toEqual(expect.arrayContaining(['from', 'to']));
    expect(await labels(inside('limit foot.area from 3 cm2 <|>'))).toEqual(
      expect.arrayContaining(['to', 'of', 'recommended', 'cite']),
    );
    expect(await labels(inside('limit foot.area from 3 cm2 of <|>'))).toContain('"hoop foot"');
    const again = await labels(inside('cite "x"; limit strap.drop to 3; <|>'));
    expect(again).toContain('limit');
    expect(again).toContain('drop');
    expect(again).not.toContain('cite');
  });
});

describe('the name of a rulebook', () => {
  it('leads to its statement, in the file where it stands', async () => {
    const { analysis, cursor } = await load(CAR.replace('rules heron-club', 'rules her<|>on-club'));
    const targets = definitionAt(analysis, 'car.cage', cursor)?.targets ?? [];
    expect(targets.map(({ file, span }) => [file, analysis.trees.get(file)?.text.slice(span.start, span.end)])).toEqual(
      [['club.cage', 'heron-club']],
    );
    expect(CLUB.slice(0, targets[0]?.span.start)).toMatch(/rulebook $/);
  });

  it('is found and renamed everywhere, but never to the name of a book of the tool', async () => {
    const { analysis, cursor } = await load(CAR.replace('rules heron-club', 'rules her<|>on-club'));
    expect(occurrences(analysis, 'car.cage', cursor).map(({ place }) => place.file)).toEqual([
      'club.cage',
      'car.cage',
      'car.cage',
      'car.cage',
    ]);
    expect(renameTarget(analysis, 'car.cage', cursor)?.text).toBe('heron-club');
    const result = rename(analysis, 'car.cage', cursor, 'heron-2027');
    expect(result.kind === 'edits' ? result.places.length : 0).toBe(4);
    expect(rename(analysis, 'car.cage', cursor, 'shop').kind).toBe('refused');
    expect(rename(analysis, 'car.cage', cursor, 'heron-juniors').kind).toBe('refused');
  });

  it('of the tool is not renamed', async () => {
    const { analysis, cursor } = await load('cage "x"\nrules fia<|>-253\n');
    expect(renameTarget(analysis, 'car.cage', cursor)).toBeNull();
    expect(definitionAt(analysis, 'car.cage', cursor)).toBeNull();
  });
});

describe('the text of a rulebook', () => {
  it('stands in the outline with what it is based on', async () => {
    const analysis = await analyse(CLUB);
    expect(outline(analysis, 'example.cage').map(({ name, detail }) => [name, detail])).toContainEqual([
      'heron-club',
      'based on fia-253, 3 limits, 1 dropped',
    ]);
  });

  it('is laid out like any other', () => {
    expect(formatFile(CLUB)).toBe(CLUB);
    const untidy = 'rulebook   a   based on  shop {\nlimit strap.drop   from 0   to 20;drop   seat.gap\n}\n';
    expect(formatFile(untidy)).toBe(
      'rulebook a based on shop {\n  limit strap.drop from 0 to 20\n  drop seat.gap\n}\n',
    );
  });
});
