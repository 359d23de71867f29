/** One measured side of a closed traverse, as components. */
export interface Leg {
  readonly x: number;
  readonly z: number;
}

/**
 * Shares out the misclosure of a closed traverse by the compass (Bowditch) rule: each leg is corrected against the
 * misclosure in proportion to its own length.
 *
 *     cᵢ = −e · Lᵢ / ΣL,   e = Σ legs
 *
 * Any unit of length, the same throughout. Source: Mahun, Open Access Surveying, Traverse Computations, chapter E, eq. E-1 to E-4.
 */
export function shareOut(legs: readonly Leg[]): { readonly legs: readonly Leg[]; readonly misclosure: Leg } {
  const misclosure = legs.reduce((sum, leg) => ({ x: sum.x + leg.x, z: sum.z + leg.z }), { x: 0, z: 0 });
  const perimeter = legs.reduce((sum, leg) => sum + Math.hypot(leg.x, leg.z), 0);
  if (!(perimeter > 0)) throw new RangeError('a traverse needs at least one leg that is longer than 0');
  const corrected = legs.map((leg) => {
    const share = Math.hypot(leg.x, leg.z) / perimeter;
    return { x: leg.x - misclosure.x * share, z: leg.z - misclosure.z * share };
  });
  return { legs: corrected, misclosure };
}
