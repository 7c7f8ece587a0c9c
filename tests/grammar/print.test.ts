/** Figures and sentences for people. */
import { describe, expect, it } from 'vitest';
import { CODES, type Code } from '../../grammar/codes';
import { sayAllowed, sayMeasure, sayNumber, sayOnTape, wordFinding } from '../../grammar/print';

describe('figures', () => {
  it.each([
    [{ value: 45, unit: 'mm' }, 'mm', '45 mm'],
    [{ value: 12.34, unit: 'mm' }, 'mm', '12.3 mm'],
    // 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
    [{ value: 44.45, unit: 'mm' }, 'in', '1 3/4 in'],
    // Plates and drills are called by their fraction, walls by their thousandths (common practice, no source).
    [{ value: 25.4 * 0.1875, unit: 'mm' }, 'in', '3/16 in'],
    [{ value: 25.4 * 0.15625, unit: 'mm' }, 'in', '5/32 in'],
    [{ value: 25.4 * -30.125, unit: 'mm' }, 'in', '-30 1/8 in'],
    [{ value: 25.4 * 0.095, unit: 'mm' }, 'in', '0.095 in'],
    // Between marks nothing is rounded to one: it could hide on which side of a limit it lies.
    [{ value: 25.4 * 6.01, unit: 'mm' }, 'in', '6.01 in'],
    [{ value: 0, unit: 'mm' }, 'in', '0 in'],
    [{ value: 25.4 * 12, unit: 'mm' }, 'ft', '1 ft'],
    [{ value: 1234.5, unit: 'mm' }, 'm', '1.2345 m'],
    [{ value: 645.16, unit: 'mm2' }, 'in', '1 in²'],
    [{ value: 14.24, unit: 'deg' }, 'mm', '14.2°'],
    // 1 lb = 0.45359237 kg exactly (the same agreement).
    [{ value: 45.359237, unit: 'kg' }, 'in', '100 lb'],
    [{ value: 2.754, unit: 'kg' }, 'mm', '2.75 kg'],
    // 1 ksi = 6.894757 MPa (NIST SP 811, table of factors).
    [{ value: 68.94757, unit: 'MPa' }, 'in', '10 ksi'],
    [{ value: 0.1, unit: '1' }, 'mm', '0.1'],
  ] as const)('%o in %s is %s', (measure, units, text) => expect(sayMeasure(measure, units)).toBe(text));

  it('never says 0 of what is not, nor -0', () => {
    expect(sayNumber(0.004, 1)).toBe('0.004');
    expect(sayNumber(-0, 1)).toBe('0');
    expect(sayNumber(-1e-12, 1)).toBe('0');
    expect(sayNumber(NaN, 1)).toBe('no number');
  });

  it('rounds a half up, also where sums in inches leave a hair less', () => {
    expect(1.75 * 25.4).toBeLessThan(44.45);
    expect(sayMeasure({ value: 1.75 * 25.4, unit: 'mm' }, 'mm')).toBe('44.5 mm');
    expect(sayNumber(-44.449999999999996, 1)).toBe('-44.5');
    expect(sayNumber(44.4499, 1)).toBe('44.4');
  });

  it('says what has to be added up to the next mark of a tape', () => {
    expect(sayOnTape(46.66, 'in')).toBe('1 7/8 in');
    expect(sayOnTape(25.4, 'in')).toBe('1 in');
    expect(sayOnTape(0.005, 'in')).toBe('1/16 in');
    expect(sayOnTape(-300, 'ft')).toBe('11 13/16 in');
    expect(sayOnTape(17.2, 'mm')).toBe('18 mm');
    expect(sayOnTape(0.2, 'mm')).toBe('1 mm');
  });

  it('says what is allowed', () => {
    expect(sayAllowed({ from: 0, to: 45, unit: 'deg' }, 'mm')).toBe('0 to 45°');
    expect(sayAllowed({ from: null, to: 20, unit: 'deg' }, 'mm')).toBe('at most 20°');
    expect(sayAllowed({ from: 50.8, to: null, unit: 'mm' }, 'in')).toBe('at least 2 in');
  });
});

describe('sentences', () => {
  const limit = { value: 10, unit: 'deg' } as const;
  const drop = (value: number, params: Record<string, string | typeof limit> = {}): string =>
    wordFinding(
      {
        code: 'strap.skew',
        measured: { value, unit: 'deg' },
        allowed: { from: 0, to: 10, unit: 'deg' },
        params: {
          strap: 'outer',
          tube: 'bar',
          ask: ', {book} recommends at most {limit}',
          book: 'shop',
          limit,
          mend: 'move it',
          ...params,
        },
      },
      'mm',
    );

  it('fill a phrase of the tool with its figures', () =>
    expect(drop(14.2)).toBe(
      'Strap outer meets bar 14.2° off square and will walk along it, shop recommends at most 10°: move it.',
    ));

  it('never fill a name from the file', () => expect(drop(14.2, { strap: '{book}' })).toContain('Strap {book} meets'));

  it('tell a figure from its limit', () => expect(drop(10.04)).toContain('meets bar 10.04° off'));

  it('end without a mend where there is none', () => expect(drop(14.2, { mend: '' })).toMatch(/at most 10°\.$/));

  it('print lengths in the unit of the file', () =>
    expect(
      wordFinding(
        { code: 'section.wall', params: { wall: { value: 25.4, unit: 'mm' }, od: { value: 50.8, unit: 'mm' } } },
        'in',
      ),
    ).toBe('Wall 1 in leaves no bore in od 2 in.'));

  it('leave no hole and no brace, whatever is missing', () => {
    for (const code of Object.keys(CODES)) {
      const says = wordFinding({ code: code as Code, params: {} }, 'mm');
      expect(says.replace('{ order … }', '')).not.toMatch(/\{\w+\}|undefined|null|NaN/);
    }
  });
});
