import { type Command, InvalidArgumentError } from 'commander';

export function wholeNumber(text: string): number {
  if (!/^\d+$/.test(text)) throw new InvalidArgumentError('expected a whole number.');
  return Number(text);
}
export function positiveNumber(text: string): number {
  const value = Number(text);
  if (!(value > 0) || !Number.isFinite(value)) throw new InvalidArgumentError('expected a number more than 0.');
  return value;
}
export function isoDate(text: string): string {
  const date = new Date(`${text}T00:00:00Z`);
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text) || Number.isNaN(date.getTime()) || date.toISOString().slice(0, 10) !== text)
    throw new InvalidArgumentError('expected a date such as 2026-10-02.');
  return text;
}

/** The flags of every command that works a plan out. */
export const withEffort = (command: Command): Command =>
  command
    .option(
      '--steps <n>',
      'search effort of the cutting plans; the same steps give the same answer everywhere',
      wholeNumber,
    )
    .option(
      '--limit <seconds>',
      'stop searching after this time; the answer then says it was cut short',
      positiveNumber,
    )
    .option('--today <date>', 'the day prices are held against; left out: today', isoDate);
