/** The figures of the tally, each by the name under which it opens into its working. */
export type FigureName = 'Cost' | 'Panels' | 'Boards' | 'Cuts' | 'Parts' | 'Heaviest lift' | 'Hours' | 'Notes';
