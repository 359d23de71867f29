import { overlaps, textArea, textsOf } from '../draw.ts';
import type { Page } from '../marks.ts';

/** Pairs of texts on a page that lie over one another. */
export function collisions(page: Page): readonly string[] {
  const texts = textsOf(page.marks);
  const areas = texts.map(textArea);
  const order = areas.map((_, i) => i).sort((a, b) => areas[a]!.x - areas[b]!.x);
  const out: string[] = [];
  order.forEach((i, k) => {
    for (let m = k + 1; m < order.length; m++) {
      const j = order[m]!;
      if (areas[j]!.x > areas[i]!.x + areas[i]!.width) break;
      if (overlaps(areas[i]!, areas[j]!, 0.25))
        out.push(`${page.number} ${page.id}: '${texts[i]!.text}' and '${texts[j]!.text}'`);
    }
  });
  return out;
}
