/** Completion, hover, names, outline and layout of gussets, holes, padding, fittings, doors, panels, mounts and anchors. */
import { describe, expect, it } from 'vitest';
import { formatFile } from '../../grammar/format';
import { complete } from '../../server/editor/completion';
import { hover } from '../../server/editor/hover';
import { definitionAt, occurrences, rename } from '../../server/editor/names';
import { outline } from '../../server/editor/symbols';
import { analyse } from '../support/analyse';
import { readCursor } from '../support/markers';

const HEAD = `cage "x"
units mm
section bar { od 38; wall 2.5 }
node a = (0, 500, 0)
node b = (0, 500, 900)
node c = (0, 500, 500)
node d = (0, -500, 500)
tube post { section bar; path a, b; first open; last open }
tube rail { section bar; path c, d; last open }
seat driver { hip (200, 350, 250); recline 12 to 25 deg; slide 0 to 80; slot-height 560; slot-spacing 210; back 40; helmet (forward 60, up 280) radius 150 }
`;
const offers = async (marked: string): Promise<string[]> => {
  const { text, cursor } = readCursor(HEAD + marked);
  return complete(await analyse(text), 'example.cage', cursor).map(({ label }) => label);
};
const said = async (marked: string): Promise<string> => {
  const { text, cursor } = readCursor(HEAD + marked);
  return hover(await analyse(text), 'example.cage', cursor)?.markdown ?? '';
};

describe('completion', () => {
  it.each([
    ['gusset g { between <|>', ['post', 'rail']],
    ['gusset g { between post, <|>', ['rail']],
    ['gusset g { kind <|>', ['sheet', 'tube', 'flat']],
    ['hole <|>', ['post', 'rail']],
    ['hole post <|>', ['for']],
    ['hole post for <|>', ['inspection', 'drain', 'bolt']],
    ['padding <|>', ['post', 'rail']],
    ['padding post { standard <|>', ['fia', 'sfi', 'foam']],
    ['fitting f { tube <|>', ['post', 'rail']],
    ['fitting f { tube rail <|>', ['first', 'last']],
    ['fitting f { kind <|>', ['clevis', 'muff', 'tapered', 'flange', 'lug']],
    ['fitting f { bolt M10 <|>', ['grade']],
    ['panel p <|>', ['as']],
    ['panel p as <|>', ['roof', 'pillar', 'floor', 'dashboard', 'steering-column']],
    ['anchor l as lap { seat <|>', ['driver']],
    ['anchor l as lap { on <|>', ['post', 'rail']],
    ['seat-mount m { seat <|>', ['driver']],
    ['seat-mount m { load 15 <|>', ['kN', 'N', 'lbf']],
    ['door f { outline <|>', ['on', 'between', 'a', 'b']],
    ['foot f { bolts-at <|>', ['(']],
    ['foot f { bolts-at (<|>', ['forward', 'aft', 'out', 'in', 'left', 'right']],
    ['foot f { counter-plate 160 x 120 x 3 <|>', ['welded', 'bolted', 'bonded']],
    ['material m { carbon 0.2 <|>', ['%']],
    ['seat s { recline 12 <|>', ['to', 'deg']],
    ['vehicle { cage <|>', ['self-built', 'asn', 'fia']],
    ['vehicle { shell <|>', ['steel', 'aluminium', 'composite']],
    ['welding { process <|>', ['tig', 'mig', 'mma', 'gas']],
    ['joint c { weld <|>', ['round', 'part']],
  ])('%s', async (marked, wanted) => {
    expect(await offers(marked)).toEqual(expect.arrayContaining(wanted));
  });

  it('offers no height on a level plate', async () => {
    expect(await offers('foot f { bolts-at (<|>')).not.toContain('up');
  });

  it('offers no other unit than the one that fits', async () => {
    expect(await offers('material m { carbon 0.2 <|>')).toEqual(['%']);
    expect(await offers('anchor l as lap { load 15 <|>')).not.toContain('mm');
  });
});

describe('hover', () => {
  it.each([
    [
      'gusset we<|>b { at c; between post, rail; legs 100 x 90; thickness 1.5; kind sheet }',
      ['**gusset** `web` at `c`', '100.0 mm (3.937 in)', 'sheet'],
    ],
    ['ho<|>le post for drain { from 200; dia 5; plug screw }', ['drilled into a tube']],
    ['padding rail { thick<|>ness 25; standard sfi 45.1 }', ['thickness']],
    [
      'fitting p<|>in { tube rail first; kind clevis; bolt M10 8.8; stand-off 35 }',
      ['first end of `rail`', '1 x M10 8.8', 'clevis'],
    ],
    ['panel sk<|>in as roof { outline (0, 0, 1200), (0, 100, 1200) }', ['roof', '(0.0, 0.0, 1200.0)']],
    [
      'anchor be<|>lt as lap { seat driver; at (150, 550, 120); bolt 7/16 in grade 5; load 15 kN }',
      ['lap', 'grade 5', '15.00 kN', 'the shell'],
    ],
    ['seat-mount ra<|>ils { seat driver; plate 80 x 60 x 3 }', ['48.0 cm²']],
    ['strap x { seat dri<|>ver; slot left; to rail; width 75 }', ['12.0° to 25.0°', 'Slides forward', 'Helmet']],
  ])('%s', async (marked, wanted) => {
    const text = await said(marked);
    for (const one of wanted) expect(text).toContain(one);
  });
});

describe('names', () => {
  const CAR = `${HEAD.replace('tube rail', 'tube ra<|>il')}gusset web { at c; between post, rail; legs 100 x 90; thickness 1.5; kind sheet }
hole rail for drain { from 200; dia 5 }
padding rail { thickness 25 }
fitting pin { tube rail first; kind clevis }
anchor belt as lap { seat driver; at (150, 550, 120); on rail }
waive shop fitting.stand-off on pin because "drawn by the maker"
`;

  it('of tubes are found and renamed in all of them', async () => {
    const { text, cursor } = readCursor(CAR);
    const analysis = await analyse(text);
    const lineOf = (at: number): number => text.slice(0, at).split('\n').length - HEAD.split('\n').length + 1;
    const found = occurrences(analysis, 'example.cage', cursor).map(({ place }) => lineOf(place.span.start));
    expect(found.filter((line) => line > 0)).toEqual([1, 2, 3, 4, 5]);
    const renamed = rename(analysis, 'example.cage', cursor, 'sill');
    expect(renamed.kind === 'edits' ? renamed.places.length : renamed).toBe(found.length);
  });

  it('of their own lead from a waiver to where they are written', async () => {
    const { text, cursor } = readCursor(CAR.replace('<|>', '').replace('on pin', 'on p<|>in'));
    const { span } = definitionAt(await analyse(text), 'example.cage', cursor)?.targets[0] ?? {
      span: { start: 0, end: 0 },
    };
    expect(text.slice(span.start, span.end)).toBe('pin');
    expect(text.slice(span.start - 8, span.start)).toBe('fitting ');
  });
});

describe('outline and layout', () => {
  it('names each with what it is', async () => {
    const text = `${HEAD}fitting pin { tube rail first; kind clevis }\nhole post for drain { from 200; dia 5 }\npanel skin as roof { outline a, b, c }\n`;
    const symbols = outline(await analyse(text), 'example.cage').slice(-3);
    expect(symbols.map(({ name, detail }) => [name, detail])).toEqual([
      ['pin', 'clevis at the first end of rail'],
      ['hole post for drain', ''],
      ['skin', 'roof'],
    ]);
  });

  it('lays them out as everything else', () => {
    const text =
      'gusset  web {at c ;between post,rail;legs 100x90}\nhole post  for drain{from 200;dia 5}\nfoot f { at c; plate 140x100x3; bolts 3x M8   8.8; bolts-at (50,30),(-50,30) ; counter-plate 160x120x3 welded }\n';
    expect(formatFile(text)).toBe(
      'gusset web { at c; between post, rail; legs 100 x 90 }\nhole post for drain { from 200; dia 5 }\nfoot f { at c; plate 140 x 100 x 3; bolts 3 x M8 8.8; bolts-at (50, 30), (-50, 30); counter-plate 160 x 120 x 3 welded }\n',
    );
  });
});
