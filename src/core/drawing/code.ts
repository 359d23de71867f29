import { encode } from 'uqr';
import { type Area, area } from './draw.ts';

/** Empty border a reader needs around a code, in modules. Source: ISO/IEC 18004:2015, 9.1 (quiet zone of 4 modules). */
export const QUIET_MODULES = 4;

/**
 * One of the standard's eight masks for all codes: any of them decodes, and weighing all eight for every label is most of the
 * time of a packet. Mask 2 (columns) leaves few large plain areas in short texts; the tests read every code of a packet back.
 */
const MASK = 2;

/** The dark bars of a QR code, each row's neighbours joined, in modules of which `count` make its side. Error correction M (15 %). */
export function codeModules(text: string): { readonly count: number; readonly bars: readonly Area[] } {
  const { data } = encode(text, { ecc: 'M', boostEcc: true, border: 0, maskPattern: MASK });
  const bars: Area[] = [];
  data.forEach((row, j) => {
    for (let i = 0; i < row.length; i++) {
      if (!row[i]) continue;
      const start = i;
      while (row[i + 1]) i++;
      bars.push(area(start, j, i - start + 1, 1));
    }
  });
  return { count: data.length, bars };
}
/** The same bars on the paper, the upper left corner at (x, y), and the light ground they need, their quiet zone with it. */
export function codeBars(
  text: string,
  x: number,
  y: number,
  size: number,
): { readonly ground: Area; readonly bars: readonly Area[] } {
  const { count, bars } = codeModules(text);
  const module = size / count;
  const quiet = QUIET_MODULES * module;
  return {
    ground: area(x - quiet, y - quiet, size + 2 * quiet, size + 2 * quiet),
    bars: bars.map((b) => area(x + b.x * module, y + b.y * module, b.width * module, module)),
  };
}
