/**
 * An even beam under an even load on any number of supports, its ends running past the outer ones. Lengths mm, load N/mm, moments N·mm;
 * deflections times E·I, downwards. By the three-moment equation (É. Clapeyron, 1857): M₁ l₁ + 2 M₂ (l₁ + l₂) + M₃ l₂ = w (l₁³ + l₂³)/4.
 */
export interface RodBeam {
  /** Moment over each support, that which pulls at the top counted as positive. */
  readonly moments: readonly number[];
  /** How far each part goes down at most below the supports: what runs past on the left, the spans, what runs past on the right. */
  readonly parts: readonly { readonly kind: 'end' | 'span'; readonly length: number; readonly sag: number }[];
  /** Largest bending moment anywhere. */
  readonly most: number;
}

/** Places in a span that are looked at: the largest sag lies between two of them and is no thousandth larger. */
const STEPS = 60;

export function beamOnRods(length: number, supports: readonly number[], w: number): RodBeam {
  const at = [...supports].sort((a, b) => a - b);
  if (at.length === 0 || at[0]! < 0 || at.at(-1)! > length || at.some((x, i) => i > 0 && x <= at[i - 1]!))
    throw new RangeError('the rods must stand within the length of the shelf, each at a place of its own');
  const ends = [at[0]!, length - at.at(-1)!] as const;
  const spans = at.slice(1).map((x, i) => x - at[i]!);
  const moments = momentsOver(spans, ends, w);
  const slope = (l: number, near: number, far: number) => (w * l ** 3) / 24 - (near * l) / 3 - (far * l) / 6;
  // one rod alone is reckoned to hold the shelf level
  const slopes =
    spans.length === 0
      ? [0, 0]
      : [slope(spans[0]!, moments[0]!, moments[1]!), slope(spans.at(-1)!, moments.at(-1)!, moments.at(-2)!)];
  const end = (i: 0 | 1) =>
    ({ kind: 'end', length: ends[i], sag: (w * ends[i] ** 4) / 8 - slopes[i]! * ends[i] }) as const;
  const between = spans.map((l, i) => {
    const [a, b] = [moments[i]!, moments[i + 1]!];
    const down = (x: number) =>
      (w * x * (l ** 3 - 2 * l * x ** 2 + x ** 3)) / 24 -
      (a * x * (l - x) * (2 * l - x)) / (6 * l) -
      (b * x * (l ** 2 - x ** 2)) / (6 * l);
    const sag = Math.max(...Array.from({ length: STEPS + 1 }, (_, k) => down((l * k) / STEPS)));
    // where the shear is nothing the moment of the span is largest
    const x = l / 2 + (a - b) / (w * l);
    const inner = x > 0 && x < l ? (w * x * (l - x)) / 2 - a - ((b - a) * x) / l : 0;
    return { part: { kind: 'span', length: l, sag } as const, inner };
  });
  return {
    moments,
    parts: [end(0), ...between.map(({ part }) => part), end(1)],
    most: Math.max(...moments.map(Math.abs), ...between.map(({ inner }) => Math.abs(inner))),
  };
}

/** The three equations a row, from one end to the other: what is known over the outer rods is taken to the right. */
function momentsOver(spans: readonly number[], [left, right]: readonly [number, number], w: number): readonly number[] {
  const [first, last] = [(w * left ** 2) / 2, (w * right ** 2) / 2];
  if (spans.length === 0) return [Math.max(first, last)];
  const n = spans.length - 1;
  const known = Array.from({ length: n }, (_, i) => {
    const [a, b] = [spans[i]!, spans[i + 1]!];
    return (w * (a ** 3 + b ** 3)) / 4 - (i === 0 ? first * a : 0) - (i === n - 1 ? last * b : 0);
  });
  const own = Array.from({ length: n }, (_, i) => 2 * (spans[i]! + spans[i + 1]!));
  for (let i = 1; i < n; i++) {
    const share = spans[i]! / own[i - 1]!;
    own[i]! -= share * spans[i]!;
    known[i]! -= share * known[i - 1]!;
  }
  const inner = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) inner[i] = (known[i]! - (i + 1 < n ? spans[i + 1]! * inner[i + 1]! : 0)) / own[i]!;
  return [first, ...inner, last];
}
