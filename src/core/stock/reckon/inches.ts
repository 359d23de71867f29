import { MM_PER_INCH } from '../../quantity/index.ts';

/** Millimetres as inches, for tables that are printed in inches. */
export const fromMm = (length: number): number => length / MM_PER_INCH;
