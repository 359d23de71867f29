import { encode } from 'uqr';
import { type Area, area } from './draw.ts';

/** Empty border a reader needs around a code, in modules. Source: ISO/IEC 18004:2015, 9.1 (quiet zone of 4 modules). */
export const QUIET_MODULES = 4;

/**
 * One of the standard's eight masks for all codes: any of them decodes, and weighing all eight for every label is most of the
 * time of a packet. Mask 2 (columns) leaves few large plain areas in short texts; the tests read every code of a packet back.
 */
const MASK = 2;

/** The dark bars of a QR code whose upper left corner is at (x, y), each row's neighbours joined. Error correction M (15 %). */
export function codeBars(text: string, x: number, y: number, size: number): readonly Area[] {
  const { data } = encode(text, { ecc: 'M', boostEcc: true, border: 0, maskPattern: MASK });
  const module = size / data.length;
  const bars: Area[] = [];
  data.forEach((row, j) => {
    for (let i = 0; i < row.length; i++) {
      if (!row[i]) continue;
      const start = i;
      while (row[i + 1]) i++;
      bars.push(area(x + start * module, y + j * module, (i - start + 1) * module, module));
    }
  });
  return bars;
}
