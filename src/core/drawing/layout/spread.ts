/**
 * Places labels of given widths along a line, in their order, none over another, each as near to where it wants to be as the
 * others allow: the least sum of squared shifts (pool adjacent violators). Within [from, to] when they fit there; else they
 * run out evenly at both ends. Returns the centres.
 */
export function spread(
  wanted: readonly { readonly centre: number; readonly width: number }[],
  gap: number,
  from = -Infinity,
  to = Infinity,
): readonly number[] {
  // Measured from the centre of the first label when all stand side by side, each wants to start a block at `want`.
  interface Block {
    start: number;
    count: number;
    sum: number;
  }
  const offsets: number[] = [];
  let along = 0;
  wanted.forEach((label, i) => {
    if (i > 0) along += (wanted[i - 1]!.width + label.width) / 2 + gap;
    offsets.push(along);
  });
  const blocks: Block[] = [];
  wanted.forEach((label, i) => {
    blocks.push({ start: i, count: 1, sum: label.centre - offsets[i]! });
    while (blocks.length > 1) {
      const [a, b] = [blocks.at(-2)!, blocks.at(-1)!];
      if (a.sum / a.count <= b.sum / b.count) break;
      blocks.splice(-2, 2, { start: a.start, count: a.count + b.count, sum: a.sum + b.sum });
    }
  });
  const centres: number[] = [];
  const least = wanted.length === 0 ? 0 : from + wanted[0]!.width / 2;
  const most = wanted.length === 0 ? 0 : to - wanted.at(-1)!.width / 2 - along;
  const limited = (base: number): number =>
    least > most ? (Number.isFinite(least + most) ? (least + most) / 2 : base) : Math.min(Math.max(base, least), most);
  for (const { start, count, sum } of blocks) {
    const base = limited(sum / count);
    for (let i = start; i < start + count; i++) centres.push(base + offsets[i]!);
  }
  return centres;
}
