/** The straps in the examples of the rules about straps, on the stage with a harness bar. */

/** A strap of the stage's seat; its facts come between the braces. */
export const strapLine = (facts: string): string => `strap outer { seat driver; ${facts} }`;
export const GOOD = strapLine('slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5');
