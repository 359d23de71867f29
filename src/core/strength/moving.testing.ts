/**
 * A second route to "does it turn the corner": a walk through sampled positions. The piece is a rectangle given by its middle
 * and its angle; a position is allowed when the whole rectangle lies in the L-shaped passage; steps go to neighbouring
 * positions. Shares nothing with moving.ts. Passage 1 runs along y (x from 0 to a), passage 2 along x (y from 0 to b).
 */
export function walksRound(a: number, b: number, length: number, width: number, cells = 44, turns = 44): boolean {
  // the middle of the piece never needs to leave this square around the corner
  const size = (Math.max(a, b) + length) * 0.75;
  const step = size / cells;
  const inside = (x: number, y: number) => x >= 0 && y >= 0 && (x <= a || y <= b);
  const allowed = (cx: number, cy: number, θ: number): boolean => {
    const [c, s] = [Math.cos(θ), Math.sin(θ)];
    const corners = [
      [length / 2, width / 2],
      [-length / 2, width / 2],
      [-length / 2, -width / 2],
      [length / 2, -width / 2],
    ].map(([u, v]) => [cx + u! * c - v! * s, cy + u! * s + v! * c] as const);
    if (!corners.every(([x, y]) => inside(x, y))) return false;
    // the inner corner (a, b) must not lie in the piece, nor may an edge cut across the block behind it
    const [dx, dy] = [a - cx, b - cy];
    const [u, v] = [dx * c + dy * s, -dx * s + dy * c];
    const eps = 1e-9;
    if (Math.abs(u) < length / 2 - eps && Math.abs(v) < width / 2 - eps) return false;
    return corners.every(([x1, y1], i) => {
      const [x2, y2] = corners[(i + 1) % 4]!;
      for (let k = 1; k < 24; k++) {
        const t = k / 24;
        if (!inside(x1 + t * (x2 - x1), y1 + t * (y2 - y1))) return false;
      }
      return true;
    });
  };
  const n = cells + 1;
  const m = turns + 1;
  const free = new Int8Array(n * n * m);
  const at = (i: number, j: number, k: number) => (k * n + j) * n + i;
  for (let k = 0; k < m; k++)
    for (let j = 0; j < n; j++)
      for (let i = 0; i < n; i++)
        free[at(i, j, k)] = allowed(i * step, j * step, ((1 + k / turns) * Math.PI) / 2) ? 1 : 0;
  // start: along passage 1 at 90°, as far up as looked at; goal: along passage 2 at 180°
  const queue: [number, number, number][] = [];
  for (let i = 0; i < n; i++) if (free[at(i, n - 1, 0)]) queue.push([i, n - 1, 0]);
  const seen = new Int8Array(free.length);
  for (const [i, j, k] of queue) seen[at(i, j, k)] = 1;
  while (queue.length > 0) {
    const [i, j, k] = queue.pop()!;
    if (k === turns && i === n - 1) return true;
    for (let di = -1; di <= 1; di++)
      for (let dj = -1; dj <= 1; dj++)
        for (let dk = -1; dk <= 1; dk++) {
          const [p, q, r] = [i + di, j + dj, k + dk];
          if (p < 0 || q < 0 || r < 0 || p >= n || q >= n || r >= m) continue;
          const to = at(p, q, r);
          if (free[to] && !seen[to]) {
            seen[to] = 1;
            queue.push([p, q, r]);
          }
        }
  }
  return false;
}
