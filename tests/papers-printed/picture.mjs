/** Pictures of paper, looked at as a person with a ruler would: where along a line is it dark. */

/** Darker than this counts, of 0 (black) to 255. */
const DARK = 128;

/**
 * @typedef {object} Picture
 * @property {number} width pixels
 * @property {number} height
 * @property {number} perMm pixels to the millimetre
 * @property {(x: number, y: number) => number} at grey of a pixel, 0 to 255
 */

/** Dark stretches of a list of greys, in pixels, `to` excluded. */
const stretches = (count, grey) => {
  const found = [];
  let from = -1;
  for (let i = 0; i <= count; i += 1) {
    const dark = i < count && grey(i) < DARK;
    if (dark && from < 0) from = i;
    if (!dark && from >= 0) {
      found.push({ from, to: i });
      from = -1;
    }
  }
  return found;
};

/** The middle of the pixel that a place, mm, lies in. */
export const middleOf = ({ perMm }, x) => (Math.floor(x * perMm) + 0.5) / perMm;

/** Middles and widths in mm of what is dark along a row, `y` mm from the top. */
export const alongRow = ({ width, perMm, at }, y) => {
  const row = Math.floor(y * perMm);
  return stretches(width, (x) => at(x, row)).map(({ from, to }) => ({
    at: (from + to) / 2 / perMm,
    wide: (to - from) / perMm,
  }));
};

/** The same down a column, `x` mm from the left, with where it begins. */
export const downColumn = ({ height, perMm, at }, x) => {
  const column = Math.floor(x * perMm);
  return stretches(height, (y) => at(column, y)).map(({ from, to }) => ({
    at: (from + to) / 2 / perMm,
    from: from / perMm,
    wide: (to - from) / perMm,
  }));
};

/** The share of dark pixels of a square round a place that are dark in another picture, moved by whole pixels, as well. */
export const likeness = (a, [ax, ay], b, [bx, by], half) => {
  const side = Math.round(half * a.perMm);
  const px = (v) => Math.round(v * a.perMm);
  let [both, either] = [0, 0];
  for (let dy = -side; dy <= side; dy += 1) {
    for (let dx = -side; dx <= side; dx += 1) {
      const inA = a.at(px(ax) + dx, px(ay) + dy) < DARK;
      const inB = b.at(px(bx) + dx, px(by) + dy) < DARK;
      if (inA && inB) both += 1;
      if (inA || inB) either += 1;
    }
  }
  return both / Math.max(1, either);
};
