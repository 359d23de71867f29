import type { Vec3 } from '../geometry/index.ts';
import { frameTime } from './pixel.ts';
import { apart, type DataLine, type WiredStrip } from './wired.ts';

/** A data line to the first light without a stronger driver, mm. Common practice. */
export const DATA_REACH = 3000;

/** Along the room: from the controller at the outlet to the nearest strip, then always to the nearest that is left. */
export function dataLine(own: readonly WiredStrip[]): DataLine {
  const left = [...own].sort((a, b) => a.lead - b.lead);
  const links: { to: string; title: string; wire: number }[] = [];
  let end: Vec3 | undefined;
  while (left.length > 0) {
    const from = end;
    const next =
      from === undefined
        ? left[0]!
        : left.reduce((best, s) => (apart(from, s.run.from) < apart(from, best.run.from) ? s : best));
    left.splice(left.indexOf(next), 1);
    links.push({
      to: next.run.id,
      title: next.run.title,
      wire: from === undefined ? next.lead : apart(from, next.run.from),
    });
    end = next.run.to;
  }
  const pixels = own.reduce((sum, s) => sum + s.pixels, 0);
  return {
    outlet: own[0]!.supply,
    pixels,
    frames: 1 / frameTime(pixels, own[0]!.kind.bits, Math.max(...own.map((s) => s.kind.reset))),
    links,
    far: links.some((link) => link.wire > DATA_REACH),
  };
}
