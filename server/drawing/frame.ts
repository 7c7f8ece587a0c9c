/** How a drawing lies on its paper: the scale, and where the model's millimetres come to stand. */
import type { Box, Point } from './scene';
import { point } from './scene';

/** Scales of drawings: 1 to each of these and their tenfolds. */
const SCALES = [1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8];
/** Room for words and overall dimensions round the car, and for what stands below, mm of paper. */
const MARGIN = { side: 17, top: 9, bottom: 16 };
const DETAIL_MARGIN = { side: 2, top: 2, bottom: 2 };
export const BELOW = 13;

/** The largest scale of the series that fits. */
function scaleFor(width: number, height: number, room: { readonly x: number; readonly y: number }): number {
  const wanted = Math.max(width / room.x, height / room.y, 1e-6);
  const ten = 10 ** Math.floor(Math.log10(wanted));
  const found = [...SCALES.map((one) => one * ten), 10 * ten].find((one) => one >= wanted * (1 - 1e-9));
  return 1 / (found ?? wanted);
}

export interface Frame {
  /** mm of paper for a mm of the car. */
  readonly scale: number;
  readonly height: number;
  /** The part of the paper on which the car is drawn. */
  readonly field: Box;
  /** From mm to the right and upward of the view. */
  readonly onPaper: (u: number, v: number) => Point;
  /** The field in mm of the view: `top` is the lowest height, as y grows upward there. */
  readonly seen: Box;
}

/** Fits what is to be seen (mm of the view) on the paper; a detail fills it, the whole car takes what it needs. */
export function frameFor(
  whole: Box,
  paper: { readonly width: number; readonly height: number },
  detail: boolean,
): Frame {
  const margin = detail ? DETAIL_MARGIN : MARGIN;
  const room = { x: paper.width - 2 * margin.side, y: paper.height - margin.top - margin.bottom - BELOW };
  const scale = scaleFor(whole.right - whole.left, whole.bottom - whole.top, room);
  const tall = (whole.bottom - whole.top) * scale;
  const spare = detail ? Math.max(0, room.y - tall) : 0;
  const height = tall + spare + margin.top + margin.bottom + BELOW;
  const left = (paper.width - (whole.right - whole.left) * scale) / 2;
  const top = margin.top + spare / 2;
  const field: Box = { left: 0, top: 0, right: paper.width, bottom: height - BELOW };
  return {
    scale,
    height,
    field,
    onPaper: (u, v) => point(left + (u - whole.left) * scale, top + (whole.bottom - v) * scale),
    seen: {
      left: whole.left - left / scale,
      right: whole.left + (paper.width - left) / scale,
      top: whole.bottom - (field.bottom - top) / scale,
      bottom: whole.bottom + top / scale,
    },
  };
}
