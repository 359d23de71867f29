import type { Source } from '../notes/index.ts';

/**
 * Sizes of people, mm, at the 5th, 50th and 95th percentile. A sample of American soldiers (4082 men, 1986 women), unweighted: for
 * children or civilians take another survey.
 */
export const ANSUR: Source = {
  title: '2012 Anthropometric Survey of U.S. Army Personnel (Gordon et al., NATICK/TR-15/007)',
  place: 'percentiles of the public data, linear interpolation',
};
export const PERCENTILES = [5, 50, 95] as const;
export type Percentile = (typeof PERCENTILES)[number];
export type Sex = 'men' | 'women';
type Three = readonly [number | undefined, number | undefined, number | undefined];

/** A gap is a value that was not at hand; it is refused, not guessed. */
export const PEOPLE: Readonly<Record<string, Readonly<Record<Sex, Three>>>> = {
  'shoulder breadth': { men: [459, 509, 567], women: [406, 450, 499] },
  stature: { men: [1648, 1755, 1870], women: [1525, 1626, 1740] },
  // men's 95th from the published sum of eye and popliteal height (1331 − 471)
  'eye height sitting': { men: [undefined, undefined, 860], women: [698, 748, 799] },
  'sitting height': { men: [860, 918, 977], women: [803, 857, 912] },
  'popliteal height': { men: [390, 430, 471], women: [350, 387, 428] },
  'forearm breadth': { men: [undefined, undefined, undefined], women: [432, 492, 564] },
};
/** Mean and standard deviation of the shoulder (bideltoid) breadth. */
export const SHOULDERS: Readonly<Record<Sex, { readonly mean: number; readonly deviation: number }>> = {
  men: { mean: 510.4, deviation: 32.5 },
  women: { mean: 450.3, deviation: 28.7 },
};

export function personSize(measure: string, sex: Sex, percentile: number): number {
  const row = PEOPLE[measure]?.[sex];
  if (!row) throw new RangeError(`no measure '${measure}': ${Object.keys(PEOPLE).join(', ')}`);
  const printed = PERCENTILES.indexOf(percentile as Percentile);
  const missing = `the ${percentile}th percentile of ${measure} of ${sex} is not in the table here`;
  if (printed >= 0) {
    const value = row[printed];
    if (value === undefined) throw new RangeError(missing);
    return value;
  }
  // Between and beyond the printed ones as a normal distribution would have it: straight lines over its deviate.
  const [low, middle, high] = row;
  if (low === undefined || middle === undefined || high === undefined) throw new RangeError(missing);
  const z = deviate(percentile / 100);
  const reach = deviate(0.95);
  return middle + ((z < 0 ? middle - low : high - middle) * z) / reach;
}

/** The standard normal deviate below which a share lies, by halving; the integral by Simpson's rule. Good to 1e-9. */
export function deviate(share: number): number {
  if (!(share > 0.0001 && share < 0.9999))
    throw new RangeError(`a percentile lies between 0.01 and 99.99, got ${100 * share}`);
  const below = (z: number): number => {
    const n = 200;
    let sum = 0;
    for (let k = 0; k <= n; k++) {
      const x = (z * k) / n;
      sum += (k === 0 || k === n ? 1 : k % 2 === 1 ? 4 : 2) * Math.exp((-x * x) / 2);
    }
    return 0.5 + (sum * z) / (3 * n) / Math.sqrt(2 * Math.PI);
  };
  let [low, high] = [-4, 4];
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (below(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
