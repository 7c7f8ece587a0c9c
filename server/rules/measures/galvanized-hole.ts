/** `galvanized.hole`: the diameter of the holes through which zinc and air pass when a tube is dipped. */
import type { Vent } from '../../cage/cage';
import { boreOf, isDipped, isGalvanized } from '../galvanized';
import type { Car } from '../car';
import { reading } from '../readings';
import type { Reading, Rule } from '../rule';

/** 3/8 in, and a quarter of the bore: ASTM A385 as the galvanizers' association has it for rails of tube. */
const LEAST = 9.5;

function ventReading(car: Car, vent: Vent): readonly Reading[] {
  const names = [vent.tube, typeof vent.to === 'string' ? vent.to : null];
  const tubes = names.flatMap((name) => (name === null ? [] : (car.member(name.replace(/\.[ab]$/, ''))?.tube ?? [])));
  const bores = tubes.flatMap((tube) => boreOf(tube) ?? []);
  if (vent.dia === null || bores.length === 0 || !tubes.some((tube) => isGalvanized(car, tube))) return [];
  const limit = { from: Math.max(LEAST, Math.min(...bores) / 4), to: null };
  return [reading(vent.name, vent.dia, 'mm', { tube: vent.tube ?? '' }, { fact: 'dia', limit })];
}

const dipped = (dia: string): string =>
  `node low = (-400, 0, 0)\nnode high = (-400, 0, 700)\ntube post as brace { section t38; path low, high; first open; last open; finish galvanized }\nvent post -> air { at low; from 60; dia ${dia} }`;

export const galvanizedHole: Rule = {
  code: 'galvanized.hole',
  unit: 'mm',
  slack: 0.05,
  read: (car) => (isDipped(car) ? car.ofKind('vent').flatMap((vent) => ventReading(car, vent)) : []),
  mend: (_, target) => ({ says: 'drill {to}', params: { to: { value: target, unit: 'mm' } } }),
  explanation: {
    what: 'A vent of a tube that is to be galvanized is too small for the bath.',
    why: 'Zinc is thick: through a small hole it does not get in while the tube sinks, and does not run out while it is drawn; the tube floats, or stays half full.',
    measured: 'The diameter as it is written, against 9.5 mm (3/8 in) and a quarter of the smaller bore.',
    mend: 'Drill larger, beside each weld, at the highest and the lowest point.',
    stage: 'parts',
    bad: dipped('5'),
    good: dipped('10'),
  },
};
