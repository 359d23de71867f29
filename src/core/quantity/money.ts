import { fail, type Issue, ok, type Result } from '../issue/index.ts';
import { numeralOf, plainText } from './amount.ts';
import { padded0 } from './decimal.ts';
import type { Money } from './units.ts';

/** Decimals of currencies that do not have two. Source: ISO 4217, list one (minor unit). */
const MINOR_UNITS: Readonly<Record<string, number>> = Object.fromEntries([
  ...'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF'.split(' ').map((code) => [code, 0] as const),
  ...'BHD IQD JOD KWD LYD OMR TND'.split(' ').map((code) => [code, 3] as const),
  ...'CLF UYW'.split(' ').map((code) => [code, 4] as const),
]);
export const minorUnits = (currency: string): number => MINOR_UNITS[currency] ?? 2;

/** Signs that may stand for several currencies: the plan says which one it is. */
const SIGNS: Readonly<Record<string, readonly string[]>> = {
  $: ['USD', 'CAD', 'AUD', 'NZD', 'SGD', 'HKD', 'MXN', 'TWD', 'ARS', 'CLP', 'COP'],
  '€': ['EUR'],
  '£': ['GBP', 'GIP', 'FKP', 'SHP'],
  '¥': ['JPY', 'CNY'],
  '₹': ['INR'],
  '₩': ['KRW'],
};
const OWN_SIGN: Readonly<Record<string, string>> = { USD: '$', EUR: '€', GBP: '£', JPY: '¥', INR: '₹', KRW: '₩' };
const MOST = 1e12;

/**
 * Reads an amount of the plan's currency into whole smallest units: `48`, `48.00`, `$48`, `48,50 €`, `EUR 1.299,00`, `1,299.00`.
 * A lone point parts the decimals. A comma before exactly three digits parts thousands when the currency has fewer than three
 * decimals, since no amount of it could end like that. More decimals than the currency has are refused, not rounded.
 */
export function parseMoney(written: string | number, currency: string): Result<Money> {
  const places = minorUnits(currency);
  const text = plainText(typeof written === 'number' ? (numeralOf(written) ?? '') : written);
  const refuse = (message: string, more: Partial<Issue> = {}) =>
    fail({
      path: [],
      message,
      found: typeof written === 'number' ? `${written}` : `'${written.slice(0, 40)}'`,
      expected: `an amount such as ${padded0(1250 * 10 ** places, places)}`,
      ...more,
    });
  if (text === '') return refuse(typeof written === 'number' ? 'this is no amount' : 'nothing is written here');
  const parts = /^(-)? ?([^\d\s.,-]+)? ?(-)?(\d[\d.,' ]*|[.,]\d+) ?([^\d\s.,]+)?$/u.exec(text);
  if (!parts || (parts[1] && parts[3])) return refuse('this is not one amount of money');
  for (const mark of [parts[2], parts[5]]) {
    if (mark === undefined) continue;
    const meant = SIGNS[mark] ?? [mark.toUpperCase()];
    if (!meant.includes(currency))
      return refuse(`the currency of this plan is ${currency}, not ${mark}`, { expected: `an amount in ${currency}` });
  }
  if (parts[2] && parts[5] && parts[2] in SIGNS === parts[5] in SIGNS) return refuse('it names its currency twice');
  const numeral = readAmount(parts[4]!.trim(), places);
  if ('trouble' in numeral)
    return refuse(numeral.trouble, numeral.expected === undefined ? {} : { expected: numeral.expected });
  const { whole, decimals } = numeral;
  if (decimals.length > places) {
    const count = places === 0 ? 'no decimals' : `${places} decimals`;
    if (/[1-9]/.test(decimals.slice(places)))
      return refuse(`${currency} has ${count}`, { expected: `an amount with ${count}` });
  }
  const minor = Number(whole + decimals.slice(0, places).padEnd(places, '0'));
  if (minor > MOST) return refuse('this is too much money');
  return ok((minor === 0 ? 0 : parts[1] || parts[3] ? -minor : minor) as Money);
}

type Digits = { readonly whole: string; readonly decimals: string };
function readAmount(text: string, places: number): Digits | { trouble: string; expected?: string } {
  const split = (point: string, thousands?: string): Digits => {
    const [whole = '', decimals = ''] = (thousands ? text.replaceAll(thousands, '') : text).split(point);
    return { whole, decimals };
  };
  if (/^\d*\.\d+$|^\d+$/.test(text)) return split('.');
  const grouped = /^([1-9]\d{0,2})([,.' ])\d{3}(?:\2\d{3})*(?:([.,])\d+)?$/.exec(text);
  if (grouped && grouped[2] !== grouped[3]) {
    const [, , parter, point] = grouped;
    const once = text.split(parter!).length === 2;
    if (parter === ',' && once && point === undefined && places >= 3) {
      const [plain, decimal] = [text.replace(',', ''), text.replace(',', '.')];
      return {
        trouble: `${text} could be ${plain} or ${decimal}`,
        expected: `${plain} or ${decimal}, without the comma`,
      };
    }
    return split(point ?? '\0', parter);
  }
  if (/^\d*,\d+$/.test(text)) return split(',');
  return { trouble: `'${text}' is not a number` };
}

export interface MoneyFormat {
  /** `sign`: $48.00; `code`: 48.00 USD; `none`: 48.00. Currencies without a sign of their own take the code. Left out: sign. */
  readonly mark?: 'sign' | 'code' | 'none';
}

/** Every decimal of the currency and nothing else, for a table that another program reads: `1299.00`. */
export const plainMoney = (money: number, currency: string): string => padded0(money, minorUnits(currency));

/** Every decimal of the currency, thousands parted by commas: `$1,299.00`. Reads back as the same amount. */
export function formatMoney(money: number, currency: string, { mark = 'sign' }: MoneyFormat = {}): string {
  if (!Number.isSafeInteger(money)) throw new RangeError(`expected whole smallest units of ${currency}, got ${money}`);
  const places = minorUnits(currency);
  const [whole = '0', part] = padded0(Math.abs(money), places).split('.');
  // a lone comma before three digits would read as a decimal comma where the currency has three decimals, but then there is a point
  const digits = whole.replace(/\B(?=(?:\d{3})+$)/g, ',') + (part === undefined ? '' : `.${part}`);
  const sign = mark === 'sign' ? OWN_SIGN[currency] : undefined;
  const minus = money < 0 ? '-' : '';
  if (sign !== undefined) return `${minus}${sign}${digits}`;
  return `${minus}${digits}${mark === 'none' ? '' : ` ${currency}`}`;
}
