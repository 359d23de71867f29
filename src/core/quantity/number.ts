import { VULGAR as FRACTIONS } from './amount.ts';

/** The number at the start of a text, and what follows it. */
export interface NumberRead {
  readonly value: number;
  readonly rest: string;
  /** Why the number could mean two things; then `value` is not to be used. */
  readonly ambiguous?: string;
}

const VULGAR = Object.fromEntries(Object.entries(FRACTIONS).map(([sort, [over, under]]) => [sort, over / under]));
const vulgar = `[${Object.keys(VULGAR).join('')}]`;

const SIGN = '(?<sign>[+\\-−]?)\\s*';
const FORMS = [
  new RegExp(`^${SIGN}(?<whole>\\d+)(?:\\s+|\\s?-\\s?)(?<over>\\d+)\\s?[/⁄]\\s?(?<under>\\d+)`),
  new RegExp(`^${SIGN}(?<over>\\d+)\\s?[/⁄]\\s?(?<under>\\d+)`),
  new RegExp(`^${SIGN}(?<whole>\\d+)?[\\s-]?(?<vulgar>${vulgar})`),
  new RegExp(`^${SIGN}(?<grouped>\\d{1,3}(?:,\\d{3})+(?:\\.\\d+)?)(?![\\d.,])`),
  new RegExp(`^${SIGN}(?<decimal>(?:\\d+(?:[.,]\\d+)?|[.,]\\d+)(?:[eE][+\\-]?\\d+)?)(?![\\d.,])`),
];

/**
 * Reads whole, decimal (point or comma), fraction, mixed and scientific numbers: `3`, `0.5`, `0,5`, `1/2`, `1-1/2`, `1 1/2`,
 * `1½`, `1.8e6`, `1,800,000`. `1,800` alone could be 1.8 or 1800 and is called ambiguous. Undefined when there is none.
 */
export function readNumber(text: string): NumberRead | undefined {
  const trimmed = text.trim();
  for (const form of FORMS) {
    const match = form.exec(trimmed);
    if (!match?.groups) continue;
    const { sign, whole, over, under, vulgar: sort, grouped, decimal } = match.groups;
    const rest = trimmed.slice(match[0].length).trim();
    if (under !== undefined && Number(under) === 0) return { value: 0, rest, ambiguous: 'a fraction over nothing' };
    let value: number;
    if (grouped !== undefined) {
      const oneComma = grouped.split(',').length === 2 && !grouped.includes('.');
      if (oneComma && grouped.startsWith('0')) value = Number(grouped.replace(',', '.'));
      else if (oneComma)
        return {
          value: 0,
          rest,
          ambiguous: `${grouped} could mean ${grouped.replace(',', '')} or ${grouped.replace(',', '.')}; write it without the comma`,
        };
      else value = Number(grouped.replaceAll(',', ''));
    } else if (decimal !== undefined) value = Number(decimal.replace(',', '.'));
    else if (sort !== undefined) value = Number(whole ?? 0) + VULGAR[sort]!;
    else value = Number(whole ?? 0) + Number(over) / Number(under);
    if (!Number.isFinite(value)) return undefined;
    return { value: sign === '-' || sign === '−' ? -value : value, rest };
  }
  return undefined;
}
