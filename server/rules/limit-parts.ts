/** Parts of limits: of some groups of things, of some days of homologation, of some sides. */
import type { Allowed } from '../../grammar/finding';
import type { Limit } from './rule';

/** For which days of homologation something holds: from the one, before the other. Days sort as texts. */
export type Days = Pick<Limit, 'since' | 'before'>;

const later = (a: string | undefined, b: string | undefined): string | undefined =>
  a === undefined || (b !== undefined && b > a) ? b : a;
const earlier = (a: string | undefined, b: string | undefined): string | undefined =>
  a === undefined || (b !== undefined && b < a) ? b : a;

/** The same with other days, without those that are not said; null: there is no such day. */
function onDays<T extends Days>(limit: T, since: string | undefined, before: string | undefined): T | null {
  if (since !== undefined && before !== undefined && since >= before) return null;
  const { since: _since, before: _before, ...rest } = limit;
  return {
    ...rest,
    ...(since === undefined ? {} : { since }),
    ...(before === undefined ? {} : { before }),
  } as T;
}

/** True where there is a day on which both hold. */
export const meet = (a: Days, b: Days): boolean =>
  onDays({}, later(a.since, b.since), earlier(a.before, b.before)) !== null;

/** What of a limit holds on those days, and what on others. */
export function splitByDays(
  limit: Limit,
  { since, before }: Days,
): { readonly hit: Limit | null; readonly rest: readonly Limit[] } {
  const hit = onDays(limit, later(limit.since, since), earlier(limit.before, before));
  if (hit === null) return { hit, rest: [limit] };
  const ahead = since === undefined ? null : onDays(limit, limit.since, earlier(limit.before, since));
  const after = before === undefined ? null : onDays(limit, later(limit.since, before), limit.before);
  return { hit, rest: [ahead, after].flatMap((one) => one ?? []) };
}

/** The part of a limit that is about these groups, and the part about all others; null: there is none. */
export function split(
  limit: Limit,
  groups: readonly string[],
): { readonly hit: Limit | null; readonly rest: Limit | null } {
  if (groups.length === 0) return { hit: limit, rest: null };
  const { of, notOf = [] } = limit;
  const part = (some: readonly string[]): Limit | null => (some.length === 0 ? null : { ...limit, of: some });
  if (of !== undefined)
    return {
      hit: part(of.filter((group) => groups.includes(group))),
      rest: part(of.filter((group) => !groups.includes(group))),
    };
  return {
    hit: part(groups.filter((group) => !notOf.includes(group))),
    rest: { ...limit, notOf: [...new Set([...notOf, ...groups])] },
  };
}

/** What is left of a limit where some of its sides are said anew; null: nothing. */
export function leftOf(limit: Limit, { from, to }: Allowed): Limit | null {
  const allowed = {
    ...limit.allowed,
    from: from === null ? limit.allowed.from : null,
    to: to === null ? limit.allowed.to : null,
  };
  if (allowed.from === null && allowed.to === null) return null;
  const same = allowed.from === limit.allowed.from && allowed.to === limit.allowed.to;
  const force = limit.force === 'recommends' || same ? limit.force : allowed.to === null ? 'wants' : 'allows';
  return { ...limit, allowed, force };
}
