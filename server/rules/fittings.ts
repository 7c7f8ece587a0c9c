/** Removable joints with their tubes, and the example that the rules about them share. */
import type { Fitting } from '../cage/cage';
import type { Car, Member, MemberEnd } from './car';
import { diagonal } from './examples';

export interface FittingUse {
  readonly fitting: Fitting;
  readonly member: Member;
  readonly end: MemberEnd;
}

const usesOf = (car: Car): readonly FittingUse[] =>
  car.ofKind('fitting').flatMap((fitting) => {
    const member = fitting.tube === null ? null : car.member(fitting.tube.replace(/\.[ab]$/, ''));
    if (member === null || fitting.end === null) return [];
    return [{ fitting, member, end: member.ends[fitting.end === 'first' ? 0 : 1] }];
  });

export const fittingUses = (car: Car): readonly FittingUse[] => car.keep(usesOf);

/** The fitting at the end of a tube on this foot; null: there is none. */
export const fittingOnFoot = (car: Car, foot: string): Fitting | null =>
  fittingUses(car).find(({ end }) => end.foot?.name === foot)?.fitting ?? null;

/** A diagonal that can be taken out. */
export const fittingExample = (facts: string): string =>
  `${diagonal()}\nfitting high { tube cross first; kind muff; ${facts} }`;
