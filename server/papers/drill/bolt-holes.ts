/**
 * Holes for bolts to pass through. Metric: ISO 273, medium series; inch: ASME B18.2.8, normal fit; both from memory.
 * Millimetres.
 */

const INCH = 25.4;

const METRIC: Readonly<Record<string, number>> = {
  4: 4.5,
  5: 5.5,
  6: 6.6,
  8: 9,
  10: 11,
  12: 13.5,
  14: 15.5,
  16: 17.5,
  18: 20,
  20: 22,
};

/** Thirty-seconds of an inch: bolt, hole. */
const IMPERIAL: readonly (readonly [number, number])[] = [
  [8, 9],
  [10, 11],
  [12, 13],
  [14, 15],
  [16, 18],
  [20, 22],
  [24, 26],
];

const SAME = 1e-6;

/** The hole for a bolt; null for a size that is in neither table. */
export function clearanceHole(bolt: number): number | null {
  const metric = METRIC[String(Math.round(bolt * 1e6) / 1e6)];
  if (metric !== undefined) return metric;
  const inch = IMPERIAL.find(([size]) => Math.abs((size / 32) * INCH - bolt) < SAME);
  return inch === undefined ? null : (inch[1] / 32) * INCH;
}

/** `M8`; `3/8 in` bolts say their size in inches. */
export const isInchBolt = (bolt: number): boolean =>
  IMPERIAL.some(([size]) => Math.abs((size / 32) * INCH - bolt) < SAME);
