/** Facts of a thing of which a test says nothing, as the cage has them where nothing is written. */
import { deg, mm } from '../../grammar/units';
import type { Foot, Joint, Material, Seat, Strap, Tube } from '../../server/cage/cage';

export const NO_ANALYSIS = { carbon: null, manganese: null, others: null } satisfies Partial<Material>;

export const PLAIN_TUBE = { carries: null, finish: null } satisfies Partial<Tube>;

export const PLAIN_FOOT = {
  boltsAt: null,
  counterPlate: null,
  welded: null,
  on: 'shell',
} as const satisfies Partial<Foot>;

export const PLAIN_JOINT = { weld: null } satisfies Partial<Joint>;

export const PLAIN_SEAT = {
  reclineRange: { from: deg(0), to: deg(0) },
  slideRange: { from: mm(0), to: mm(0) },
  helmet: null,
  elbow: null,
  shoulderWidth: null,
  width: null,
  cushion: null,
} satisfies Partial<Seat>;

export const PLAIN_STRAP = {
  fixing: 'wrap',
  bolt: null,
  insert: null,
  slider: null,
  locked: null,
  tail: null,
  adjuster: null,
} as const satisfies Partial<Strap>;
