/** Gussets with what they stand between, and the example that the rules about them share. */
import type { Gusset, Tube } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import type { Car } from './car';
import { stays } from './examples';

export interface GussetUse {
  readonly gusset: Gusset;
  /** The apex: where the two tubes meet; null: not known. */
  readonly at: Vec3 | null;
  readonly tubes: readonly Tube[];
  /** Outside diameter of the larger of the two tubes, mm; null: not known. */
  readonly larger: number | null;
}

const usesOf = (car: Car): readonly GussetUse[] =>
  car.ofKind('gusset').map((gusset) => {
    const tubes = (gusset.between ?? []).flatMap((name) => {
      const thing = name === null ? undefined : car.cage.things.get(name.replace(/\.[ab]$/, ''));
      return thing?.kind === 'tube' ? [thing] : [];
    });
    const ods = tubes.flatMap(({ section }) => (section === null ? [] : [section.od as number]));
    return {
      gusset,
      at: car.nodeAt(gusset.node),
      tubes,
      larger: ods.length === 2 ? Math.max(...ods) : null,
    };
  });

export const gussetUses = (car: Car): readonly GussetUse[] => car.keep(usesOf);

/** A gusset between hoop and backstay, of tubes of 45 and 38. */
export const gussetExample = (facts: string): string =>
  `${stays()}\nmirror left { gusset corner { at stay-top; between hoop, stay; ${facts} } }`;
