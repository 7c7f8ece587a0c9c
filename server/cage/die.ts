/** A bending die from its statement. */
import type { Angle, Length } from '../../grammar/units';
import type { Die } from './cage';
import type { Definition } from './names';
import type { Page } from './page';

const RIGHT_ANGLE = 90;

/** Null where its tube or its radius is not known. Defaults: grip 0, between and follow as grip. */
export function dieFrom(definition: Definition, page: Page): Die | null {
  const od = page.length('od');
  const radius = page.length('radius');
  const grip = lengthOr(page, 'grip', 0 as Length);
  const between = lengthOr(page, 'between', grip);
  const follow = lengthOr(page, 'follow', grip);
  const springback: Angle | null = page.angle('springback', 'springback', RIGHT_ANGLE);
  return od === null || radius === null
    ? null
    : { name: definition.name, od, radius, grip, between, follow, springback };
}

/** A length, or what it is where nothing is written; null where what is written cannot be read. */
const lengthOr = (page: Page, fact: string, otherwise: Length | null): Length | null =>
  page.isWritten(fact) ? page.length(fact) : otherwise;
