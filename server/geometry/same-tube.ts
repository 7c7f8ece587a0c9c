/** Whether two tubes say the same, wherever they are written. */
import type { Die, EndTold, Tube } from '../cage/cage';

/** The same items in the same order. */
export const sameList = <T>(a: readonly T[], b: readonly T[]): boolean =>
  a.length === b.length && a.every((v, i) => v === b[i]);

/** Whether two tubes say the same, but for their centrelines, which have numbers of their own. */
export function sameTube(a: Tube, b: Tube): boolean {
  if (a === b) return true;
  return (
    a.base === b.base &&
    a.side === b.side &&
    a.role === b.role &&
    a.existing === b.existing &&
    a.splitBy === b.splitBy &&
    sameList(a.path, b.path) &&
    sameTold(a.first, b.first) &&
    sameTold(a.last, b.last) &&
    a.section?.od === b.section?.od &&
    a.section?.wall === b.section?.wall &&
    a.section?.material.density === b.section?.material.density &&
    sameDie(a.die, b.die)
  );
}

function sameTold(a: EndTold, b: EndTold): boolean {
  if (a.kind === 'onto') return b.kind === 'onto' && sameList(a.hosts, b.hosts);
  if (a.kind === 'past') return b.kind === 'past' && a.length === b.length;
  return a.kind === b.kind;
}

function sameDie(a: Die | null, b: Die | null): boolean {
  if (a === b) return true;
  if (a === null || b === null) return false;
  const numbers = (die: Die): readonly (number | null)[] => [
    die.od,
    die.radius,
    die.grip,
    die.between,
    die.follow,
    die.springback,
  ];
  return a.name === b.name && sameList(numbers(a), numbers(b));
}
