/** What a round tube's outside diameter and wall give: area, stiffness, mass. */
import type { SectionFigures } from './shape';

/**
 * Figures of a circular hollow section of outside diameter `od` and wall `wall` (mm), of a material of `density` kg/m³
 * (null: not known, and nor is the mass).
 *
 * EN 10219-2, annex B: A = π (D² - d²) / 4, I = π (D⁴ - d⁴) / 64, torsion constant = 2 I, elastic modulus = 2 I / D,
 * mass = A · density. Written with D - d and D + d, which keeps the digits of thin walls. Null where there is no such
 * tube: a wall that is not positive, or has no bore left within it.
 */
export function sectionFigures(od: number, wall: number, density: number | null): SectionFigures | null {
  if (!(wall > 0 && 2 * wall < od && od < Infinity)) return null;
  if (density !== null && !(density > 0 && density < Infinity)) return null;
  const bore = od - 2 * wall;
  const area = Math.PI * wall * (od - wall);
  // D⁴ - d⁴ = (D² - d²)(D² + d²), and A = π (D² - d²) / 4.
  const secondMoment = (area * (od * od + bore * bore)) / 16;
  return {
    area,
    secondMoment,
    torsionConstant: 2 * secondMoment,
    modulus: (2 * secondMoment) / od,
    // mm² · m of tube = 1e-6 m³.
    massPerMetre: density === null ? null : area * 1e-6 * density,
  };
}
