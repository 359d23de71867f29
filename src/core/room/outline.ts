/** Points of a closed outline in plan, the last joined to the first. Clockwise seen from above (x east, z south). */
export type Outline = readonly PlanPoint[];
export interface PlanPoint {
  readonly x: number;
  readonly z: number;
}

const sides = (outline: Outline): readonly (readonly [PlanPoint, PlanPoint])[] =>
  outline.map((p, i) => [p, outline[(i + 1) % outline.length]!]);

/** Twice the area of a triangle, positive when a → b → c turns clockwise seen from above. */
const turning = (a: PlanPoint, b: PlanPoint, c: PlanPoint): number =>
  (b.x - a.x) * (c.z - a.z) - (b.z - a.z) * (c.x - a.x);

export function distanceToSegment(p: PlanPoint, a: PlanPoint, b: PlanPoint): number {
  const [dx, dz] = [b.x - a.x, b.z - a.z];
  const squared = dx * dx + dz * dz;
  const t = squared === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.z - a.z) * dz) / squared));
  return Math.hypot(p.x - a.x - t * dx, p.z - a.z - t * dz);
}

/** How far a point is from the nearest side, whichever side of it. */
export const distanceFromOutline = (outline: Outline, p: PlanPoint): number =>
  Math.min(...sides(outline).map(([a, b]) => distanceToSegment(p, a, b)));

/** Inside or on the outline, or outside it by no more than `tolerance` mm. Even-odd rule. */
export function isInside(outline: Outline, p: PlanPoint, tolerance = 0): boolean {
  let inside = false;
  for (const [a, b] of sides(outline)) {
    if (a.z > p.z !== b.z > p.z && p.x < a.x + ((p.z - a.z) / (b.z - a.z)) * (b.x - a.x)) inside = !inside;
  }
  return inside || distanceFromOutline(outline, p) <= tolerance;
}

/** Pairs of sides (by index) that cross or touch although they are not neighbours, or neighbours that fold back on each other. */
export function crossings(outline: Outline): readonly (readonly [number, number])[] {
  const all = sides(outline);
  const found: (readonly [number, number])[] = [];
  for (let i = 0; i < all.length; i++) {
    for (let j = i + 1; j < all.length; j++) {
      const [a, b] = all[i]!;
      const [c, d] = all[j]!;
      const next = j === i + 1;
      const around = i === 0 && j === all.length - 1;
      if (next || around) {
        const [before, corner, after] = next ? [a, b, d] : [c, d, b];
        const folded =
          Math.abs(turning(before, corner, after)) < 1e-9 &&
          (corner.x - before.x) * (after.x - corner.x) + (corner.z - before.z) * (after.z - corner.z) < 0;
        if (folded) found.push([i, j]);
      } else if (meet(a, b, c, d)) found.push([i, j]);
    }
  }
  return found;
}

function meet(a: PlanPoint, b: PlanPoint, c: PlanPoint, d: PlanPoint): boolean {
  const [abc, abd, cda, cdb] = [turning(a, b, c), turning(a, b, d), turning(c, d, a), turning(c, d, b)];
  if (abc * abd < 0 && cda * cdb < 0) return true;
  return (
    (abc === 0 && distanceToSegment(c, a, b) === 0) ||
    (abd === 0 && distanceToSegment(d, a, b) === 0) ||
    (cda === 0 && distanceToSegment(a, c, d) === 0) ||
    (cdb === 0 && distanceToSegment(b, c, d) === 0)
  );
}
