/** What a shop has: sticks, saw and torch, read in the file's units, each said once over all files. */
import { describe, expect, it } from 'vitest';
import { degrees } from '../../grammar/units';
import { KIND_BY_NAME } from '../../grammar/vocabulary';
import { TORCH, torchOf } from '../../server/papers/weld/torch';
import { read, told } from './cage-of';

const SECTION = 'section s { od 38; wall 2.5 }\n';

describe('torch', () => {
  it('is read in the units of the file', () => {
    const { torch } = read('units in\ntorch { nozzle 5/8; reach 2.5; stick-out 3/8; lean 20 deg }').cage;
    // 25.4 mm to the inch (international yard and pound agreement, 1959).
    const wanted = [15.875, 63.5, 9.525];
    for (const [i, one] of [torch?.nozzle, torch?.reach, torch?.stickOut].entries())
      expect(one).toBeCloseTo(wanted[i] ?? NaN, 9);
    expect(degrees(torch?.lean ?? NaN)).toBeCloseTo(20, 9);
    expect(read('torch { nozzle 16 }').cage.torch).toMatchObject({ nozzle: 16, reach: null, stickOut: null });
    expect(read('units mm').cage.torch).toBeNull();
  });

  it('that ends before its nozzle begins is told, and its two lengths are not believed', () => {
    const car = read('torch { nozzle 16; reach 60; stick-out 60 }');
    expect(told(car)).toEqual(["fact.value '60'"]);
    expect(car.cage.torch).toMatchObject({ nozzle: 16, reach: null, stickOut: null });
    expect(told(read('torch { reach 60; stick-out 59 }'))).toEqual([]);
  });

  it('has no size of nothing, and leans by less than a right angle', () => {
    expect(told(read('torch { nozzle 0; reach 60; lean 90 deg }'))).toEqual([
      "number.range '0'",
      "number.range '90 deg'",
    ]);
    expect(told(read('torch { nozzle 1; reach 60; stick-out 0; lean 0 deg }'))).toEqual([]);
  });

  it('what it does not tell is what the reference says; no assumed length contradicts a told one', () => {
    expect(torchOf(null)).toEqual(TORCH);
    const said = Object.fromEntries(
      (KIND_BY_NAME.get('torch')?.facts ?? []).map(({ name, default: without }) => [name, without]),
    );
    expect(said).toEqual({
      nozzle: `${String(TORCH.nozzle)} mm`,
      reach: `${String(TORCH.reach)} mm`,
      'stick-out': `${String(TORCH.stickOut)} mm`,
      lean: `${String(Math.round(degrees(TORCH.lean)))} deg`,
    });
    const of = (text: string): { readonly reach: number; readonly stickOut: number } => torchOf(read(text).cage.torch);
    expect(of('torch { reach 8 }')).toMatchObject({ reach: 8, stickOut: 8 });
    expect(of('torch { stick-out 120 }')).toMatchObject({ reach: 120, stickOut: 120 });
  });
});

describe('once over all files', () => {
  it('a second saw or torch is told in its own file as well as in another, and the first counts', () => {
    const here = read('saw { kerf 2 }\nsaw { kerf 3 }\ntorch { nozzle 16 }\ntorch { nozzle 20 }');
    expect(told(here)).toEqual(["fact.twice 'saw'", "fact.twice 'torch'"]);
    const there = read(`use "a.cage"\nuse "b.cage"\n${SECTION}saw { kerf 2 }`, {
      'a.cage': 'saw { kerf 3 }\nsaw { kerf 4 }\ntorch { nozzle 16 }',
      'b.cage': 'torch { nozzle 20 }\nsaw { kerf 5 }',
    });
    expect(there.cage.saw?.kerf).toBe(2);
    expect(there.cage.torch?.nozzle).toBe(16);
    const places = there.findings.flatMap(({ code, at }) =>
      at.kind === 'place' ? [`${code} ${at.place.file}:${String(at.place.span.start)}`] : [],
    );
    expect(places).toEqual([
      'fact.twice a.cage:0',
      'fact.twice a.cage:15',
      'fact.twice b.cage:0',
      'fact.twice b.cage:20',
    ]);
    const [note] = there.findings[0]?.notes ?? [];
    expect(note?.at?.kind === 'place' ? note.at.place.file : null).toBe('car.cage');
  });

  it('one in the car, none in what it uses, or one in what it uses alone: nothing to tell', () => {
    expect(told(read('use "a.cage"\nsaw { kerf 2 }', { 'a.cage': SECTION }))).toEqual([]);
    const used = read('use "a.cage"', { 'a.cage': 'saw { kerf 3 }\ntorch { nozzle 16 }' });
    expect(told(used)).toEqual([]);
    expect([used.cage.saw?.kerf, used.cage.torch?.nozzle]).toEqual([3, 16]);
  });

  it('two lists of sticks for one section, in two files', () => {
    const car = read(`use "a.cage"\n${SECTION}stock s { length 6000 }`, {
      'a.cage': 'use "car.cage"\nstock s { length 3000 }',
    });
    expect(told(car)).toContain("stock.twice 's'");
    expect(car.cage.stocks.get('s')?.sold).toEqual([{ length: 6000, price: null }]);
  });
});
