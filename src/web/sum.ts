import { readersFor, type Units } from '../core/plan/index.ts';
import { written } from './arrange.ts';

/** A bare number, which stands for a length only where nothing else is one. */
interface Value {
  readonly amount: number;
  readonly isLength: boolean;
}

/**
 * What a sum of lengths comes to, as the plan writes it: `36 + 3/4`, `4' 6 - 2 x 3/4"`, `1/2 of 3'`, `2.31 m / 4`. A sign of it has a space on
 * both sides: `4-1/2` is one length. Undefined for what is no sum, or is one of more than lengths and bare numbers.
 */
export function summed(units: Units, text: string): string | undefined {
  const { length } = readersFor(units);
  const one = length('1');
  const read = (part: string): Value | undefined => {
    const number = part.trim().replace(/^half$/i, '1/2');
    const result = length(number);
    if (!result.ok || !one.ok) return undefined;
    const isLength = /[\p{L}'"′″’”]/u.test(number);
    return { amount: isLength ? result.value : result.value / one.value, isLength };
  };
  const inLengths = ({ amount, isLength }: Value): number => (isLength || !one.ok ? amount : amount * one.value);
  let total = 0;
  const parts = text.split(/ ([-+−]) /);
  for (let i = 0; i < parts.length; i += 2) {
    const product = multiplied(parts[i]!, read);
    if (!product) return undefined;
    total += (i === 0 || parts[i - 1] === '+' ? 1 : -1) * inLengths(product);
  }
  return parts.length > 1 || TIMES.test(text) ? written(units, total) : undefined;
}

const TIMES = / ([x×*÷/]|of) /i;
function multiplied(text: string, read: (part: string) => Value | undefined): Value | undefined {
  const [first, ...rest] = text.split(TIMES);
  let product = read(first!);
  for (let i = 0; i < rest.length && product; i += 2) {
    const by = read(rest[i + 1]!);
    const divides = rest[i] === '/' || rest[i] === '÷';
    // an area, or one by a length, is no length
    if (!by || (by.isLength && (product.isLength || divides)) || (divides && by.amount === 0)) return undefined;
    const amount: number = divides ? product.amount / by.amount : product.amount * by.amount;
    product = { amount, isLength: product.isLength || by.isLength };
  }
  return product;
}
