/** How an entry of the vocabulary is written: a statement, and its facts, with what is not said filled in. */
import type { FactEntry, KindEntry } from './vocabulary-types';

/** `more`: the default and an example, in a person's words; whether it may be written several times. */
export const fact = (
  name: string,
  pattern: string,
  meaning: string,
  more: { readonly default?: string; readonly example?: string; readonly many?: boolean } = {},
): FactEntry => ({
  name,
  pattern,
  meaning,
  default: more.default ?? null,
  example: more.example ?? null,
  many: more.many ?? false,
});

export const kind = (name: string, head: string, meaning: string, more: Partial<KindEntry> = {}): KindEntry => ({
  name,
  head,
  meaning,
  example: null,
  target: false,
  block: 'none',
  notInMirror: null,
  judgedOnly: false,
  once: false,
  facts: [],
  needs: [],
  needsWhen: [],
  oneOf: [],
  ...more,
});

/** Bolts: how many, which, and their grade by ISO 898-1 or SAE J429. */
export const BOLTS = '<count:count > 0> x <bolt:bolt > 0> [[grade] <grade:plain > 0>]';
/** One bolt, or several. */
export const BOLT = `<bolt:bolt > 0> [[grade] <grade:plain > 0>] | ${BOLTS}`;
export const PLATE = '<long:length > 0> x <wide:length > 0> x <thick:length > 0>';
export const COUNTER_PLATE = `${PLATE} [<held:welded|bolted|bonded>]`;
