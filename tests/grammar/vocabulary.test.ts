/** Statements held against the vocabulary: one test for each kind of mistake, and the vocabulary against itself. */
import { describe, expect, it } from 'vitest';
import { CODES } from '../../grammar/codes';
import { parseFile } from '../../grammar/parser';
import { KIND_SHAPES, sayPattern, type Part } from '../../grammar/pattern';
import { readEntry } from '../../grammar/read';
import { allCaptured, captured, matchLine } from '../../grammar/shape-check';
import { FACT_NAMES, KINDS } from '../../grammar/vocabulary';
import { DIRECTIONS, PHRASE_WORDS } from '../../grammar/words';
import { findingsOf, formula, mended, told } from './reading';

const factOf = (kind: string, fact: string, value: string) => {
  const shape = KIND_SHAPES.get(kind)?.facts.get(fact)?.shape;
  const line = parseFile('a', `${fact} ${value}`).statements[0]?.tree.entry.line;
  if (shape === undefined || line === undefined) throw new Error(`no ${kind} ${fact}`);
  return matchLine(shape, line);
};

const values = (kind: string, fact: string, value: string): Record<string, string> => {
  const { match } = factOf(kind, fact, value);
  return Object.fromEntries((match?.captures ?? []).map(({ slot, arg, word }) => [slot.name, word ?? formula(arg)]));
};

describe('values by their names', () => {
  it.each([
    ['section', 'size', '1 3/4 x .095', { od: '1.75', wall: '0.095' }],
    ['section', 'size', '1 3/4 x .095 in', { od: '1.75in', wall: '0.095in' }],
    ['section', 'size', '45 mm x .095 in', { od: '45mm', wall: '0.095in' }],
    ['plane', 'leans', '6 deg aft', { lean: '6deg', toward: 'aft' }],
    ['foot', 'plate', '140 x 100 x 3 turned 20 deg', { long: '140', wide: '100', thick: '3', turned: '20deg' }],
    ['foot', 'bolts', '3 x M8', { count: '3', bolt: 'M8' }],
    ['foot', 'bolts', '4 x 3/8 in', { count: '4', bolt: '0.375in' }],
    ['strap', 'collars', '20 gap 1.5', { width: '20', gap: '1.5' }],
    ['strap', 'at', 'y = 480', { at: 'y = 480' }],
    ['vehicle', 'mass', '980 kg without driver', { mass: '980kg', basis: 'without' }],
    ['vehicle', 'mass', '980 kg', { mass: '980kg' }],
    ['tube', 'existing', 'yes', { existing: 'yes' }],
    ['tube', 'first', 'past 30', { length: '30' }],
    ['seat', 'yaw', '3 deg in', { yaw: '3deg', toward: 'in' }],
    ['seat', 'shoulder', '(forward 110, up 35)', { shoulder: '(forward 110, up 35)' }],
  ])('%s: %s %s', (kind, fact, value, wanted) => expect(values(kind, fact, value)).toEqual(wanted));

  it('gives the items of a list in their order', () => {
    const { match } = factOf('tube', 'first', 'onto main-hoop, plate.left');
    expect(match === null ? null : allCaptured(match, 'hosts').map(({ arg }) => formula(arg))).toEqual([
      'main-hoop',
      'plate.left',
    ]);
    const lies = factOf('foot', 'lies', '6.5 deg up aft, 3 deg up out').match;
    expect(lies === null ? null : allCaptured(lies, 'toward').map(({ word }) => word)).toEqual(['aft', 'out']);
  });

  it('tells which words were written', () => {
    expect(factOf('tube', 'last', 'open').match?.words.has('open')).toBe(true);
    const { match } = factOf('foot', 'plate', '1 x 2 x 3');
    expect(match === null ? undefined : captured(match, 'turned')).toBe(null);
  });
});

describe('mistakes in words, each at its place', () => {
  const tube = (facts: string): string => `tube a as brace { section s; path b, c; ${facts} }`;
  it.each([
    ['an unknown statement', 'tub a { section s; path b, c }', 'kind.unknown tub'],
    ['an unknown fact', tube('dye d'), 'fact.unknown dye'],
    ['a missing fact, at the name', 'tube main { section s }', 'fact.missing main'],
    ['a missing fact of a statement without a name', 'vent a -> air { at b; dia 5 }', 'fact.missing a'],
    ['a fact written twice', tube('section t'), 'fact.twice section'],
    ['two facts that say the same', 'section s { od 45; wall 2; size 45 x 2 }', 'fact.twice size'],
    ['a value of another kind', 'seat s { hip 5; recline 3; slot-height 5; slot-spacing 3; back 2 }', 'fact.value 5'],
    ['a value that is missing', tube('die'), 'fact.value die'],
    ['a word that is nearly right', tube('first opn'), 'fact.value opn'],
    ['measures that are too few', 'foot f { at n; plate 140 x 100 }', 'fact.value 140 x 100'],
    ['a phrase that is cut short', 'foot f { at n; plate 1 x 2 x 3 turned }', 'fact.value turned'],
    ['a list without a comma', 'tube a { section s; path b c }', 'fact.value c'],
    ['more than fits', tube('existing yes no'), 'fact.value no'],
    ['a head that lacks its name', 'tube { section s; path b, c }', 'fact.value tube'],
    ['a side that is none', 'mirror lft { }', 'fact.value lft'],
    ['a unit that is none', 'die d { od 45 mmm; radius 90 }', 'unit.unknown mmm'],
    ['a unit behind the last of a list that is none', 'section s { size 45 x 2 inch }', 'unit.unknown inch'],
    ['inches after an angle', 'plane p { at (1, 2, 3); leans 6 in }', 'unit.inch-after-angle 6 in'],
    ['a statement that cannot stand in a mirror', 'mirror left { let a = 1 }', 'mirror.not-here let'],
    ['a waiver without a reason', 'waive strap.drop on a', 'fact.value a'],
  ])('%s', (_, text, finding) => expect(told(text)).toEqual([finding]));

  it.each([
    ['tub a { section s; path b, c }', 'tube a { section s; path b, c }'],
    ['tube a { sction s; path b, c }', 'tube a { section s; path b, c }'],
    ['tube a { section s; path b, c; first opn }', 'tube a { section s; path b, c; first open }'],
    ['units inn', 'units in'],
    ['die d { od 45 inches; radius 90 }', 'die d { od 45 in; radius 90 }'],
    ['plane p { at (1, 2, 3); leans 6 in }', 'plane p { at (1, 2, 3); leans 6 deg in }'],
  ])('did you mean: %s', (text, mend) => expect(mended(text)).toBe(mend));

  it('takes a misspelt fact as written: one finding, not two', () =>
    expect(told('tube a { sction s; path b, c }')).toEqual(['fact.unknown sction']));

  it('names every missing fact in one finding', () => {
    const [finding] = findingsOf('seat s { hip (1, 2, 3) }');
    expect(finding?.params['facts']).toEqual(['recline', 'slot-spacing', 'back', 'slot-height']);
  });

  it('points from the second to the first', () => {
    const [finding] = findingsOf('die d { od 45; radius 90; od 38 }');
    expect(finding?.notes[0]?.at).toEqual({ kind: 'place', place: { file: '', span: { start: 8, end: 10 } } });
  });

  it('asks for no facts of a block that is not closed', () =>
    expect(told('tube a {\nnode b = (1, 2, 3)')).toEqual(['syntax.brace {']));
});

describe('the vocabulary', () => {
  const parts = (part: Part): readonly Part[] =>
    part.part === 'optional' || part.part === 'list' ? part.parts.flatMap(parts) : [part];
  const patterns = [...KIND_SHAPES.values()].flatMap(({ head, facts }) => [
    head.pattern,
    ...[...facts.values()].map(({ shape }) => shape.pattern),
  ]);

  it('has examples that fit their own patterns', () => {
    for (const { kind, head, facts } of KIND_SHAPES.values()) {
      const examples = [
        { shape: head, text: kind.example },
        ...[...facts.values()].map(({ fact, shape }) => ({ shape, text: fact.example })),
      ];
      for (const { shape, text } of examples) {
        if (text === null) continue;
        const line = parseFile('a', `${shape.name} ${text}`).statements[0]?.tree.entry.line;
        expect([text, line?.ok, line === undefined ? null : matchLine(shape, line).slip]).toEqual([text, true, null]);
      }
    }
  });

  it('asks only for facts that it has', () => {
    for (const { name, facts, needs, needsWhen, oneOf } of KINDS) {
      const known = facts.map((fact) => fact.name);
      expect([name, known]).toEqual([
        name,
        expect.arrayContaining([...needs.flat(), ...oneOf.flat(), ...needsWhen.map((one) => one.fact)]),
      ]);
    }
  });

  it('reads every pattern: no type is unknown, no literal stands where a value was meant', () => {
    for (const pattern of patterns) {
      for (const part of pattern.flatMap((sequence) => sequence.flatMap(parts))) {
        if (part.part === 'literal')
          expect([...Object.keys(PHRASE_WORDS), ...Object.keys(DIRECTIONS)]).toContain(part.word);
        if (part.part === 'slot' && part.type === 'word') expect(['kind', 'plug']).toContain(part.name);
      }
      expect(sayPattern(pattern)).not.toContain('undefined');
    }
  });

  it('has one line of meaning for everything', () => {
    for (const kind of KINDS) {
      expect(kind.meaning).not.toBe('');
      for (const fact of kind.facts)
        expect([kind.name, fact.name, fact.meaning.length > 0]).toEqual([kind.name, fact.name, true]);
    }
  });

  it('can tell a statement from a fact by its {, its = or its quotes, where one word is both', () => {
    const both = KINDS.filter((kind) => FACT_NAMES.has(kind.name)).map((kind) => kind.name);
    for (const name of both) {
      const kind = KIND_SHAPES.get(name)?.kind;
      const quoted = KINDS.flatMap(({ facts }) => facts).filter(
        (fact) => fact.name === name && /string/.test(fact.pattern),
      );
      if (kind?.block === 'none') expect([name, kind.head, quoted]).toEqual([name, '<title:string>', []]);
      else expect([name, kind?.block]).toEqual([name, 'facts']);
    }
    const cut = parseFile('a', 'vehicle {\n  cage self-built\n  body closed\ncage "Title"');
    expect(cut.statements.map(({ tree }) => tree.entry.line.word.text)).toEqual(['vehicle', 'cage']);
  });

  it('reads an entry that is no statement without a word of its own', () => {
    const entry = parseFile('a', '(1)').statements[0]?.tree.entry;
    expect(entry === undefined ? null : readEntry(entry, false).findings).toEqual([]);
  });

  it('uses codes that the table of findings has', () => {
    for (const { code } of findingsOf('tub a { } tube b { x 1; path c d }')) expect(Object.keys(CODES)).toContain(code);
  });
});
