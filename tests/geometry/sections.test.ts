import { describe, expect, it } from 'vitest';
import { sectionFigures } from '../../server/geometry/sections';

const STEEL = 7850;

/**
 * Circular hollow sections as tables of EN 10219-2 and EN 10210-2 print them: outside diameter and wall in mm, mass in
 * kg/m, area in cm², second moment in cm⁴, elastic modulus in cm³, torsion constant in cm⁴. From memory.
 */
const TABLE = [
  [26.9, 2.3, 1.4, 1.78, 1.36, 1.01, 2.71],
  [33.7, 2.6, 1.99, 2.54, 3.09, 1.84, 6.19],
  [33.7, 3.2, 2.41, 3.07, 3.6, 2.14, 7.21],
  [42.4, 3.2, 3.09, 3.94, 7.62, 3.59, 15.2],
  [48.3, 3.2, 3.56, 4.53, 11.6, 4.8, 23.2],
  [48.3, 4, 4.37, 5.57, 13.8, 5.7, 27.5],
  [60.3, 3.2, 4.51, 5.74, 23.5, 7.78, 46.9],
  [60.3, 5, 6.82, 8.69, 33.5, 11.1, 67],
] as const;

/** Equal to three figures, as the tables print: half a unit of the third. */
const toThreeFigures = (value: number, printed: number): void => {
  const unit = 10 ** (Math.floor(Math.log10(printed)) - 2);
  expect(Math.abs(value - printed)).toBeLessThanOrEqual(unit * 0.51);
};

describe('sections against the published tables', () => {
  it.each(TABLE)('%d x %d', (od, wall, mass, area, inertia, modulus, torsion) => {
    const figures = sectionFigures(od, wall, STEEL);
    expect(figures).not.toBeNull();
    if (figures === null) return;
    toThreeFigures(figures.massPerMetre ?? NaN, mass);
    toThreeFigures(figures.area / 100, area);
    toThreeFigures(figures.secondMoment / 1e4, inertia);
    toThreeFigures(figures.modulus / 1e3, modulus);
    toThreeFigures(figures.torsionConstant / 1e4, torsion);
  });

  // Pounds per foot of steel tube: 10.68 (od - wall) wall, inches; the handbook formula of API 5L and ASME B36.10.
  // The weights: printed to three figures for the sizes that cages are made of.
  it.each([
    [1.5, 0.095, 1.43],
    [1.5, 0.12, 1.77],
    [1.625, 0.12, 1.93],
    [1.75, 0.095, 1.68],
    [1.75, 0.12, 2.09],
    [1.75, 0.134, 2.31],
    [2, 0.12, 2.41],
  ])('%d x %d in weighs %d lb a foot', (od, wall, printed) => {
    const figures = sectionFigures(od * 25.4, wall * 25.4, STEEL);
    const poundsPerFoot = ((figures?.massPerMetre ?? NaN) / 0.45359237) * 0.3048;
    expect(Math.abs(poundsPerFoot - 10.68 * (od - wall) * wall)).toBeLessThan(0.004);
    // 10.68 stands for a steel a little lighter than 7850 kg/m³: a thousandth more than half a unit.
    expect(Math.abs(poundsPerFoot - printed)).toBeLessThan(0.006);
  });

  it('agrees with sums over thin rings', () => {
    const figures = sectionFigures(45, 2.5, STEEL);
    let area = 0;
    let inertia = 0;
    const steps = 4000;
    for (let i = 0; i < steps; i++) {
      const r = 20 + (2.5 * (i + 0.5)) / steps;
      const ring = 2 * Math.PI * r * (2.5 / steps);
      area += ring;
      inertia += (ring * r * r) / 2;
    }
    expect(figures?.area).toBeCloseTo(area, 6);
    expect(figures?.secondMoment).toBeCloseTo(inertia, 2);
  });

  it.each([
    [0, 1],
    [45, 0],
    [45, -2],
    [45, 22.5],
    [45, 30],
    [NaN, 2],
    [45, NaN],
    [Infinity, 2],
  ])('there is no tube %d x %d', (od, wall) => {
    expect(sectionFigures(od, wall, STEEL)).toBeNull();
    expect(sectionFigures(45, 2.5, NaN)).toBeNull();
  });
});
