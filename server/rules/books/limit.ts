/** Short ways to write a limit down, with the state of its source in the name. */
import type { RuleCode } from '../../../grammar/codes';
import type { Allowed, MeasureUnit } from '../../../grammar/finding';
import type { Force, Limit } from '../rule';

type Range = Pick<Allowed, 'from' | 'to' | 'unit'>;

export const atLeast = (from: number, unit: MeasureUnit): Range => ({ from, to: null, unit });
export const atMost = (to: number, unit: MeasureUnit): Range => ({ from: null, to, unit });
export const between = (from: number, to: number, unit: MeasureUnit): Range => ({ from, to, unit });
/** Where the bound is the thing's own, or the limit is a table or a list of words. */
export const own = (unit: MeasureUnit): Range => ({ from: null, to: null, unit });

/** Where a limit is written. */
export interface Where {
  readonly citation: string;
  readonly edition: string;
}

interface Common extends Partial<
  Pick<
    Limit,
    | 'accepts'
    | 'sizes'
    | 'strict'
    | 'borderline'
    | 'counts'
    | 'onShell'
    | 'of'
    | 'cars'
    | 'noFrame'
    | 'ifBolted'
    | 'structure'
    | 'since'
    | 'before'
    | 'standsBack'
  >
> {
  readonly force?: Force;
  readonly why?: string;
  /** Row ids of the fact sheets. */
  readonly rows: readonly string[];
}

const limit = (
  code: RuleCode,
  allowed: Range,
  where: Where,
  more: Common,
  rest: Pick<Limit, 'severity' | 'source'>,
): Limit => ({
  why: '',
  standsBack: false,
  force: allowed.to === null ? 'wants' : 'allows',
  ...more,
  code,
  allowed,
  ...where,
  ...rest,
});

/** A figure that was seen at its source: breaking it is an error unless told to be less. */
export const seen = (
  code: RuleCode,
  allowed: Range,
  where: Where,
  more: Common & { readonly severity?: Limit['severity'] },
): Limit => limit(code, allowed, where, more, { severity: more.severity ?? 'error', source: 'published' });

/** A figure that is known from memory: never more than a warning. */
export const memory = (
  code: RuleCode,
  allowed: Range,
  citation: string,
  more: Common & { readonly severity?: 'warning' | 'information' },
): Limit =>
  limit(code, allowed, { citation, edition: '' }, more, {
    severity: more.severity ?? 'warning',
    source: 'from memory',
  });

/** What the trade does: no source. */
export const practice = (
  code: RuleCode,
  allowed: Range,
  more: Common & { readonly severity?: 'warning' | 'information' },
): Limit =>
  limit(code, allowed, { citation: 'common practice, no source', edition: '' }, more, {
    severity: more.severity ?? 'warning',
    source: 'common practice',
  });
