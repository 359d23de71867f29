import type { Units } from '../plan/index.ts';
import {
  DECIMALS,
  denominator,
  formatArea,
  formatLength,
  formatMass,
  formatMoney,
  isInches,
  printedStep,
} from '../quantity/index.ts';

/** How this plan's quantities are written on its drawings: real fractions, true primes, the plan's own units. */
export interface Lettering {
  readonly unit: Units['length'];
  /** For who says figures in other units than these: what does so is no part of every drawing, and of the first script of the pages. */
  readonly units: Units;
  /** With its unit: `564 mm`, `3′ 4-1⁄2″`. */
  readonly length: (mm: number) => string;
  /** As a figure on a dimension line, its unit told in the title block: `564`, `3′ 4-1⁄2″`. */
  readonly figure: (mm: number) => string;
  /** Of a panel, as a gauge shows it, whatever the drawings are rounded to: `0.703″`, `17.7`. */
  readonly thickness: (mm: number) => string;
  /** What a saw is set to, as finely as a blade is sold: a kerf of 3/32 in is not one of 1/8, whatever the drawings are rounded to. */
  readonly blade: (mm: number) => string;
  readonly area: (mm2: number) => string;
  readonly mass: (kg: number) => string;
  readonly money: (minor: number) => string;
  /** The step of the grid that figures are rounded to, mm: each by itself, so that those of a chain need not add up. */
  readonly step: number;
  /** What the title block says of the figures. */
  readonly dimensions: string;
}

export function letteringOf(units: Units): Lettering {
  const inches = isInches(units.length);
  const format = { unit: units.length, fraction: units.fraction, decimals: units.decimals, glyphs: true };
  const step = printedStep(format);
  return {
    unit: units.length,
    units,
    length: (mm) => formatLength(mm, format),
    figure: (mm) => formatLength(mm, inches ? format : { ...format, bare: true }),
    thickness: (mm) =>
      inches
        ? formatLength(mm, { unit: 'in', decimals: DECIMALS[units.length], glyphs: true })
        : formatLength(mm, { ...format, decimals: Math.max(format.decimals ?? 0, DECIMALS[units.length]), bare: true }),
    blade: (mm) =>
      formatLength(mm, {
        ...format,
        // decimals of an inch only where the plan asks for them and for no fraction
        fraction:
          units.fraction === undefined && units.decimals !== undefined
            ? undefined
            : `1/${Math.max(64, denominator(units.fraction))}`,
        decimals: Math.max(units.decimals ?? 0, DECIMALS[units.length]),
      }),
    area: (mm2) => formatArea(mm2, { unit: inches ? 'ft²' : 'm²' }),
    // a strip of plywood weighs little, not nothing
    mass: (kg) => formatMass(kg, { unit: inches ? 'lb' : 'kg', decimals: kg < 0.1 ? 2 : 1 }),
    money: (minor) => formatMoney(Math.round(minor), units.currency),
    step,
    dimensions: inches
      ? `inches, each to ${(units.fraction ?? '1/32').replace('/', '⁄')}`
      : `${units.length}, each to ${formatLength(step, { ...format, bare: true })}`,
  };
}
