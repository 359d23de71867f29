/** How sheets are written that are put into a page: its style sheet gives colours and font. */
export const WRITTEN = { theme: 'host', decimals: 2, joined: true } as const;
