/** The names in scope as completions: what each is, in a word or two, and its value. */
import type { LengthUnit } from '../../grammar/units';
import { PLAIN, sameDimension, UNITS } from '../../grammar/units';
import type { NameSpace } from '../../grammar/vocabulary';
import type { Cage, Side, Thing } from '../cage/cage';
import type { Analysis } from '../project/project';
import { fixed, inDegrees, inUnit, pointIn } from './figures';
import { partsOf, sizeOf } from './hover-tube';

export interface NameItem {
  readonly name: string;
  readonly kind: 'node' | 'tube' | 'thing' | 'let' | 'plane' | 'material' | 'section' | 'die';
  /** `(0.0, 596.0, 118.0) mm`. */
  readonly detail: string;
}

/** What a thing is, in a few words with its value. */
export const thingDetail = (analysis: Analysis, thing: Thing, unit: LengthUnit): string => {
  switch (thing.kind) {
    case 'node':
      return thing.at === null ? 'node' : `node at ${pointIn(thing.at, unit)} ${unit}`;
    case 'tube': {
      const length = partsOf(analysis.shape, thing).reduce<number | null>(
        (sum, part) => (sum === null || part.centrelineLength === null ? null : sum + part.centrelineLength),
        0,
      );
      return `${thing.role}${length === null || length === 0 ? '' : `, ${inUnit(length, unit)} ${unit}`}`;
    }
    case 'foot': {
      if (thing.plate === null) return 'foot';
      const { long, wide, thick } = thing.plate;
      return `foot, plate ${[long, wide, thick].map((side) => inUnit(side, unit)).join(' x ')} ${unit}`;
    }
    case 'strap': {
      const drop = analysis.shape.straps.find(({ name }) => name === thing.name)?.drop ?? null;
      return drop === null ? 'strap' : `strap, drops ${inDegrees(drop)}`;
    }
    case 'seat':
      return thing.slots === null ? 'seat' : `seat, slots at ${pointIn(thing.slots, unit)} ${unit}`;
    case 'gusset': {
      const legs =
        thing.legs === null ? '' : `, legs ${thing.legs.map((leg) => inUnit(leg, unit)).join(' x ')} ${unit}`;
      return `gusset${legs}`;
    }
    case 'fitting':
      return [thing.made ?? 'fitting', thing.tube === null ? '' : `at the ${thing.end ?? ''} end of ${thing.tube}`]
        .filter((text) => text !== '')
        .join(' ');
    case 'panel':
      return thing.as ?? 'panel';
    case 'anchor':
      return [`${thing.as ?? ''} anchor`.trim(), thing.at === null ? '' : `at ${pointIn(thing.at, unit)} ${unit}`]
        .filter((text) => text !== '')
        .join(' ');
    case 'seat-mount':
      return thing.seat === null ? 'seat-mount' : `seat-mount of ${thing.seat}`;
    default:
      return thing.kind;
  }
};

const wanted = (space: NameSpace, thing: Thing): boolean => {
  if (space === 'any') return !thing.name.includes(':');
  if (space === 'host') return thing.kind === 'tube' || thing.kind === 'foot';
  return thing.kind === space;
};

/** Inside `mirror` the bare name means the same side; outside the side is written. */
const thingItems = (analysis: Analysis, space: NameSpace, side: Side | null, unit: LengthUnit): NameItem[] => {
  const items = new Map<string, NameItem>();
  for (const thing of analysis.cage.things.values()) {
    if (!wanted(space, thing)) continue;
    if (side !== null && thing.side !== null && thing.side !== side) continue;
    const name = side !== null && thing.side === side ? thing.base : thing.name;
    const kind = thing.kind === 'node' || thing.kind === 'tube' ? thing.kind : 'thing';
    items.set(name, { name, kind, detail: thingDetail(analysis, thing, unit) });
  }
  return [...items.values()];
};

/** The lets, with what they are worth. */
export const letItems = (cage: Cage, unit: LengthUnit): NameItem[] =>
  [...cage.lets].map(([name, { value }]) => {
    if (value === null) return { name, kind: 'let', detail: 'let' };
    const length = value.dimension.length === 1 && sameDimension({ ...value.dimension, length: 0 }, PLAIN);
    const worth = length ? `${inUnit(value.value, unit)} ${unit}` : fixed(value.value, 3).replace(/\.?0+$/, '');
    return {
      name,
      kind: 'let',
      detail: `let, ${worth}${value.bare !== null && value.bare in UNITS ? ` (bare, ${value.bare})` : ''}`,
    };
  });

/** The names of a space that can be written where the cursor stands; `side` is that of the mirror around it. */
export const nameItems = (analysis: Analysis, space: NameSpace, side: Side | null, unit: LengthUnit): NameItem[] => {
  const { cage } = analysis;
  switch (space) {
    case 'plane':
      return [...cage.planes].map(([name, { runs }]) => ({ name, kind: 'plane', detail: `plane, runs ${runs}` }));
    case 'material':
      return [...cage.materials].map(([name, { value }]) => ({
        name,
        kind: 'material',
        detail: value.kind ?? 'material',
      }));
    case 'section':
      return [...cage.sections].map(([name, { value }]) => ({
        name,
        kind: 'section',
        detail: value === null ? 'section' : sizeOf(value.od, value.wall, unit),
      }));
    case 'die':
      return [...cage.dies].map(([name, { value }]) => ({
        name,
        kind: 'die',
        detail: value === null ? 'die' : `radius ${inUnit(value.radius, unit)} ${unit}`,
      }));
    case 'book':
    case 'code':
      return [];
    default:
      return thingItems(analysis, space, side, unit);
  }
};
