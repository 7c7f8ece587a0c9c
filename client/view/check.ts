/** Whether a value from the other side of a wall is what it should be: small questions, and how they are put together. */

export type Is<T> = (value: unknown) => value is T;

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A text of at most so many characters. */
export const text =
  (longest: number): Is<string> =>
  (value): value is string =>
    typeof value === 'string' && value.length <= longest;

/** A number that is one: neither endless nor none. */
export const figure: Is<number> = (value): value is number => typeof value === 'number' && Number.isFinite(value);

/** A whole number from 0 to less than `end`. */
export const below =
  (end: number): Is<number> =>
  (value): value is number =>
    Number.isInteger(value) && figure(value) && value >= 0 && value < end;

export const flag: Is<boolean> = (value): value is boolean => typeof value === 'boolean';

/** One of these, exactly. */
export const oneOf =
  <const T extends string>(...words: readonly T[]): Is<T> =>
  (value): value is T =>
    words.some((word) => word === value);

export const orNull =
  <T>(is: Is<T>): Is<T | null> =>
  (value): value is T | null =>
    value === null || is(value);

/** A list of at most so many. */
export const listOf =
  <T>(is: Is<T>, most: number): Is<readonly T[]> =>
  (value): value is readonly T[] =>
    Array.isArray(value) && value.length <= most && value.every((one) => is(one));

/** As many as there are questions, each its own. */
export const row =
  <T extends readonly unknown[]>(...each: { readonly [K in keyof T]: Is<T[K]> }): Is<T> =>
  (value): value is T =>
    Array.isArray(value) && value.length === each.length && each.every((is, index) => is(value[index]));

/**
 * An object with at least these fields. Every field of the type has its question, or it does not compile; what is more in
 * the value is nobody's business. A field is asked for as the object's own.
 */
export const record = <T extends object>(fields: { readonly [K in keyof T]-?: Is<T[K]> }): Is<T> => {
  const each = Object.entries<Is<unknown>>(fields);
  return (value): value is T =>
    isObject(value) && each.every(([name, is]) => Object.hasOwn(value, name) && is(value[name]));
};

/** Objects that `name` tells apart: `word` → the question for that one. */
export const cases =
  <N extends string, T extends { readonly [K in N]: string }>(
    name: N,
    each: { readonly [W in T[N]]: Is<Extract<T, { readonly [K in N]: W }>> },
  ): Is<T> =>
  (value): value is T => {
    if (!isObject(value) || !Object.hasOwn(value, name)) return false;
    const word = value[name];
    if (typeof word !== 'string' || !Object.hasOwn(each, word)) return false;
    const is: Is<unknown> = each[word as T[N]];
    return is(value);
  };
