/**
 * What each style of line looks like, for every writer. Lines are black or grey, never told apart by colour alone: hidden
 * ones are broken, those in the car already are double-dashed.
 */
import type { Style } from './scene';

export interface Look {
  /** Grey of the paper's white: `#fff`; null: nothing is filled. */
  readonly fill: string | null;
  readonly stroke: string;
  /** mm; null: the item has its own width. */
  readonly width: number | null;
  /** mm on, mm off, …; empty: unbroken. */
  readonly dash: readonly number[];
  readonly roundJoin: boolean;
  readonly roundCap: boolean;
}

const look = (stroke: string, width: number | null, more: Partial<Look> = {}): Look => ({
  fill: null,
  stroke,
  width,
  dash: [],
  roundJoin: false,
  roundCap: false,
  ...more,
});

const BLACK = '#000';
const round = { roundJoin: true };

export const LOOKS: Readonly<Record<Style, Look>> = {
  body: look('#efefef', null, round),
  outline: look(BLACK, 0.3, round),
  hidden: look('#8a8a8a', 0.15, { dash: [0.9, 0.7] }),
  existing: look(BLACK, 0.2, { dash: [2.4, 0.6, 0.6, 0.6] }),
  'existing-hidden': look('#a0a0a0', 0.12, { dash: [0.6, 0.9] }),
  joint: look(BLACK, 0.2, round),
  plate: look(BLACK, 0.25, round),
  seat: look('#444', 0.35),
  helmet: look('#444', 0.25, { dash: [1.6, 0.6] }),
  strap: look(BLACK, 0.55, { roundCap: true }),
  panel: look('#777', 0.2, { dash: [3, 0.8, 0.4, 0.8] }),
  datum: look('#666', 0.18),
  centre: look('#666', 0.15, { dash: [5, 1, 1, 1] }),
  dimension: look(BLACK, 0.16),
  leader: look(BLACK, 0.13),
  balloon: look(BLACK, 0.18, { fill: '#fff' }),
  scale: look(BLACK, 0.2),
  'scale-filled': look(BLACK, 0.2, { fill: BLACK }),
  frame: look('#666', 0.15),
};

/** All of them. */
export const STYLES: readonly Style[] = Object.keys(LOOKS).filter((name): name is Style => name in LOOKS);
