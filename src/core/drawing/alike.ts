import type { PartId } from '../scene/index.ts';
import { type RealLayout, realLayouts } from '../stock/index.ts';
import type { PacketInput } from './input.ts';

/** Layouts that are cut the same way: one drawing, with every part that lies at each place. */
export interface AlikeLayouts {
  readonly layout: RealLayout;
  readonly times: number;
  /** At each place of `layout.placed`, the parts of all of them, in order. */
  readonly parts: readonly (readonly PartId[])[];
}

export function alikeLayouts(cuts: PacketInput['cuts'], from: 'panel' | 'board'): readonly AlikeLayouts[] {
  const groups = new Map<string, RealLayout[]>();
  for (const { job, answer } of cuts) {
    if (job.from !== from) continue;
    for (const layout of realLayouts(job, answer)) {
      const { stock, source, length, width, placed } = layout;
      const of = source.kind === 'buy' ? source.offer.id : source.id;
      const key = JSON.stringify([
        stock,
        source.kind,
        of,
        length,
        width,
        placed.map((p) => [p.x, p.y, p.length, p.width]),
      ]);
      const group = groups.get(key);
      if (group) group.push(layout);
      else groups.set(key, [layout]);
    }
  }
  return [...groups.values()].map((same) => ({
    layout: same[0]!,
    times: same.length,
    parts: same[0]!.placed.map((_, i) => same.map((l) => l.placed[i]!.part)),
  }));
}
