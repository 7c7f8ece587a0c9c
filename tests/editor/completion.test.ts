/** Completion, tested by the text that it leaves behind, on whole and on half-typed lines. */
import { describe, expect, it } from 'vitest';
import { BOOKS } from '../../server/rules/books';
import { FACT_NAMES, KINDS, ROLES } from '../../grammar/vocabulary';
import { complete, snippetOf, type Completion } from '../../server/editor/completion';
import { analyse } from '../support/analyse';
import { readCursor } from '../support/markers';

const HEAD = `cage "x"
units mm
let height = 775
material cds { yield 360 MPa; kind seamless }
section hoop { od 45; wall 2.5; material cds }
die d45 { od 45; radius 135 }
plane flat { at (0, 0, 100) }
mirror left {
  node foot = (0, 600, 0)
  node top = (0, 500, 1000)
  tube leg { section hoop; path foot, top }
}
node mid = (0, 0, 1000)
`;

const offers = async (marked: string, head = HEAD): Promise<readonly Completion[]> => {
  const { text, cursor } = readCursor(head + marked);
  return complete(await analyse(text), 'example.cage', cursor);
};
const labels = async (marked: string, head = HEAD): Promise<string[]> =>
  (await offers(marked, head)).map(({ label }) => label);

describe('completion', () => {
  it('offers statements at the start of a line, those that may stand there', async () => {
    const outside = await labels('<|>', '');
    expect(outside).toEqual(KINDS.map((kind) => kind.name));
    expect(await labels('no<|>', '')).toContain('node');
    const inside = await labels('mirror left {\n  <|>\n}\n');
    expect(inside).toContain('tube');
    expect(inside).not.toContain('section');
    expect(inside).not.toContain('mirror');
  });

  it('replaces what is typed and nothing behind it, on one line', async () => {
    const { text, cursor } = readCursor(`${HEAD}tube t { sect<|>ion hoop }`);
    const found = complete(await analyse(text), 'example.cage', cursor).find(({ label }) => label === 'section');
    expect(found?.span).toEqual({ start: cursor - 4, end: cursor });
    expect(text.slice(found?.span.start, found?.span.end)).toBe('sect');
  });

  it('offers the facts of a block that are not written yet', async () => {
    expect(await labels('section s {\n  <|>\n}\n')).toEqual(['od', 'wall', 'size', 'material']);
    expect(await labels('section s { od 45; <|> }')).toEqual(['wall', 'material']);
    expect(await labels('section s { od 45; <|>')).toEqual(['wall', 'material']);
    for (const name of await labels('tube t { <|>')) expect(FACT_NAMES).toContain(name);
  });

  it('offers the names that a fact wants, with what they are', async () => {
    expect(await offers('tube t { section <|>')).toEqual([
      expect.objectContaining({ label: 'hoop', kind: 'section', detail: '45.00 x 2.50 mm' }),
    ]);
    expect(await labels('tube t { die <|>')).toEqual(['d45']);
    expect(await labels('section s { material <|>')).toEqual(['cds']);
    const nodes = await offers('tube t { path mid, <|>');
    expect(nodes.map(({ label }) => label)).toEqual(['foot.left', 'foot.right', 'top.left', 'top.right', 'mid']);
    expect(nodes[0]?.detail).toBe('node at (0.0, 600.0, 0.0) mm');
    expect(await labels('tube t { path mid,\n    to<|>')).toContain('top.left');
  });

  it('leaves the side out where the block says it', async () => {
    expect(await labels('mirror left {\n  tube t { path <|>\n')).toEqual(['foot', 'top', 'mid']);
  });

  it('offers sides, coordinates and pieces behind a dot', async () => {
    expect(await labels('tube t { path foot.<|>')).toEqual(['left', 'right']);
    expect(await labels('node n = (foot.left.<|>')).toEqual(['x', 'y', 'z']);
    expect(await labels('let n = mid.<|>')).toEqual(['x', 'y', 'z']);
    expect(await labels('let n = nobody.<|>')).toEqual([]);
  });

  it('offers roles behind `as`, and the words of phrases', async () => {
    expect(await labels('tube t as <|>')).toEqual(Object.keys(ROLES));
    expect(await labels('tube t <|>')).toEqual(['as']);
    expect(await labels('tube t { first <|>')).toEqual(['onto', 'open', 'past']);
    expect(await labels('tube t { first onto <|>')).toEqual(['leg.left', 'leg.right']);
    expect(await labels('strap s { wrap <|>')).toEqual(['over', 'under']);
    expect(await labels('plane p { leans 6 deg <|>')).toEqual(expect.arrayContaining(['aft', 'forward', 'out', 'in']));
    expect(await labels('units <|>', '')).toEqual(['mm', 'cm', 'm', 'in', 'ft']);
    expect(await labels('rules <|>', '')).toEqual(BOOKS.map((book) => book.name));
  });

  it('offers the forms of a place, word by word', async () => {
    expect(await labels('node n = <|>')).toEqual(
      expect.arrayContaining(['on', 'between', 'in', 'where', 'mid', 'height', 'distance']),
    );
    expect(await labels('node n = on <|>')).toEqual(['leg.left', 'leg.right']);
    expect(await labels('node n = on leg.left <|>')).toEqual(['at', 'mid', 'where', 'nearest']);
    expect(await labels('node n = on leg.left at 40 <|>')).toEqual(expect.arrayContaining(['from', 'before', 'after']));
    expect(await labels('node n = on leg.left at 40 from <|>')).toContain('foot.left');
    expect(await labels('node n = on leg.left where <|>')).toEqual(['x', 'y', 'z']);
    expect(await labels('node n = in <|>')).toEqual(['flat']);
    expect(await labels('node n = mid + (<|>')).toEqual(expect.arrayContaining(['forward', 'aft', 'up', 'out']));
    expect(await labels('node n = between mid <|>')).toEqual(['and']);
  });

  it('offers what a sum, a function or a direction goes on with', async () => {
    expect(await labels('node n = mid + (aft <|>')).toEqual(expect.arrayContaining(['height', 'sqrt']));
    expect(await labels('node n = mid + (aft <|>')).not.toContain('up');
    expect(await labels('node n = on leg.left at <|>')).toContain('height');
    expect(await labels('node n = on leg.left where z = <|>')).toContain('height');
    expect(await labels('node n = on leg.left where z <|>')).toEqual(['=']);
    expect(await labels('let n = distance(mid, <|>')).toContain('foot.left');
    expect(await labels('let n = sqrt(<|>')).not.toContain('aft');
    expect(await labels('node n = on leg.left at 40 before <|>')).toEqual([
      'foot.left',
      'top.left',
      'foot.right',
      'top.right',
      'mid',
    ]);
    const [bracket] = await offers(
      'node n = in flat <|>',
      HEAD.replace('at (0, 0, 100)', 'at (0, 0, 100); runs across'),
    );
    expect(bracket?.insert).toBe('(out ${1:0}, up ${2:0})');
  });

  it('offers the units that a value may have there, and shares where there are any', async () => {
    expect(await labels('section s { od 45 <|>')).toEqual(['mm', 'cm', 'm', 'in', 'ft']);
    expect(await labels('die d { springback 2 <|>')).toEqual(['deg', 'rad']);
    expect(await labels('material m { yield 360 <|>')).toEqual(['MPa', 'GPa', 'ksi']);
    expect(await labels('vehicle { mass 900 <|>')).toEqual(['with', 'without', 'kg', 'lb']);
    expect(await labels('node n = between foot.left and mid at 40 <|>')).toEqual(['%', 'mm', 'cm', 'm', 'in', 'ft']);
    expect(await labels('node n = on leg.left at 40 <|>')).toContain('%');
    // A fraction that is half typed has no unit yet.
    expect(await labels('section s { od 1 3/<|>')).toEqual([]);
  });

  it('offers only the words that may come next', async () => {
    expect(await labels('foot f { lies 4 deg <|>')).toEqual(['up']);
    expect(await labels('foot f { lies 4 deg up aft, 2 deg <|>')).toEqual(['up']);
    expect(await labels('vent leg.left <|>')).toEqual(['->']);
    expect(await labels('vehicle { mass 900 kg with <|>')).toEqual(['driver']);
    expect(await labels('waive strap.drop <|>')).toEqual(['on']);
    expect(await labels('waive strap.drop on leg.left <|>')).toEqual(['first', 'last', 'up', 'because']);
    expect(await labels('waive fia-253 <|>')).toContain('strap.drop');
    const others = BOOKS.map(({ name }) => name).filter((name) => name !== 'shop');
    expect(await labels('rules shop, <|>', '')).toEqual(others);
  });

  it('offers the files that a use line may name, as it would write them', async () => {
    const files = ['cars/example.cage', 'cars/seats.cage', 'parts.cage', 'cars/used.cage'];
    const at = async (marked: string) => {
      const { text, cursor } = readCursor(`use "used.cage"\n${marked}\n`);
      const analysis = await analyse(text, {}, 'cars/example.cage');
      return complete(analysis, 'cars/example.cage', cursor, files).map(
        ({ insert, span }) => text.slice(0, span.start) + insert + text.slice(span.end),
      );
    };
    expect(await at('use "<|>')).toEqual([
      'use "used.cage"\nuse "seats.cage"\n',
      'use "used.cage"\nuse "../parts.cage"\n',
    ]);
    expect(await at('use "../pa<|>"')).toContain('use "used.cage"\nuse "../parts.cage"\n');
    expect(await at('use <|>')).toContain('use "used.cage"\nuse "seats.cage"\n');
    expect(await at('cage "<|>')).toEqual([]);
  });

  it('offers the codes of findings and what they stand on in a waiver', async () => {
    const { text, cursor } = readCursor(`${HEAD}waive strap.dr<|>`);
    const found = complete(await analyse(text), 'example.cage', cursor).find(({ label }) => label === 'strap.drop');
    expect(text.slice(found?.span.start, found?.span.end)).toBe('strap.dr');
    expect(await labels('waive strap.drop on <|>')).toContain('leg.left');
    expect((await labels('waive <|>')).some((label) => label.startsWith('syntax.'))).toBe(false);
  });

  it('says what a let is worth', async () => {
    expect((await offers('let n = <|>')).find(({ label }) => label === 'height')?.detail).toBe('let, 775 (bare, mm)');
  });

  it('is silent in comments and strings', async () => {
    expect(await labels('# node <|>')).toEqual([]);
    expect(await labels('cage "node <|>')).toEqual([]);
  });

  it('works when the text around is broken', async () => {
    expect(await labels('node n = (((\ntube t { section <|>')).toContain('hoop');
    expect(await labels('tube { path ,,, \n section <|>')).toContain('hoop');
  });

  it('makes snippets that parse once they are filled in', async () => {
    for (const kind of KINDS) {
      const filled = snippetOf(kind)
        .replace(/\$\{\d+\|([^,|]+)[^|]*\|\}/g, '$1')
        .replace(/\$\{\d+:([\w-]+)\}/g, '$1')
        .replace(/^\t\$\d+$/m, '')
        .replace(/\$\d+/g, '1');
      const { findings } = await analyse(`${filled}\n`);
      expect(
        findings.filter(({ code }) => code.startsWith('syntax.') || code === 'kind.unknown'),
        filled,
      ).toEqual([]);
    }
  });
});
