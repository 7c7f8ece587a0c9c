/** The example that the rules about anchorages share. */
export const anchorExample = (facts: string, as = 'lap'): string =>
  `seat driver { slots (240, 300, 750); recline 10 deg; slot-spacing 220; back 45 }\nanchor outer as ${as} { seat driver; at (200, 520, 120); ${facts} }`;
