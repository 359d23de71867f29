import type { PanelProblem } from '../problem.ts';

/**
 * Open academic instances with the published number of sheets, any number of stages. Parts are written length x width x count;
 * `null` where no figure was published for the way the parts may lie.
 */
export const PUBLISHED: readonly {
  readonly name: string;
  readonly source: string;
  readonly sheet: string;
  readonly parts: string;
  readonly fixed: number | null;
  readonly turned: number | null;
  /** Our bounds prove it too. */
  readonly proven: boolean;
}[] = [
  {
    name: 'Class_01_20_1',
    source:
      'Berkey & Wang, Journal of the OR Society 38, 1987, class 1; optimum as kept by the benchmark libraries of the 2BP literature',
    sheet: '10x10',
    parts: '5x9 4x2 10x6 5x7 6x3 10x7 1x5 3x5 6x9 2x4 6x7 7x2 8x3 4x10 4x5 10x3 8x3 7x8 8x3 8x7',
    fixed: 8,
    turned: 7,
    proven: true,
  },
  {
    name: 'Class_03_20_1',
    source: 'Berkey & Wang 1987, class 3; optimum as above',
    sheet: '40x40',
    parts:
      '18x30 13x5 33x19 17x22 18x9 34x24 1x16 9x15 19x31 4x11 19x23 24x4 27x9 13x33 13x15 34x9 27x10 22x28 26x11 25x25',
    fixed: 6,
    turned: 5,
    proven: false,
  },
  {
    name: 'Class_09_20_1',
    source: 'Martello & Vigo, Management Science 44, 1998, class 9; optimum as above',
    sheet: '100x100',
    parts:
      '56x75 97x77 62x73 98x84 71x50 76x93 83x55 83x55 97x88 67x71 64x99 80x89 85x87 70x60 57x53 89x85 84x98 85x61 62x70 10x42',
    fixed: 19,
    turned: 19,
    proven: true,
  },
  {
    name: 'W',
    source:
      'Wang, Operations Research 31, 1983; best guillotine result and lower bound of the cutting-stock literature',
    sheet: '70x40',
    parts:
      '17x9 24x15 24x15x2 25x16x4 27x17x2 11x19x4 12x21x3 32x22x3 14x23x4 34x24x4 35x25x3 36x26x4 37x27x3 38x28x4 18x29x3 39x29x4 41x30x2 21x31x3 43x31x4 23x33x4',
    fixed: 23,
    turned: null,
    proven: true,
  },
  {
    name: 'A1',
    source:
      'Hifi, Computers & Operations Research 24, 1997; best guillotine result and lower bound of the cutting-stock literature',
    sheet: '50x60',
    parts:
      '31x43x4 30x41x2 29x39x4 28x38x4 27x37x3 26x36x4 25x35x3 24x34x4 33x23x4 22x32x3 31x21x3 29x18x3 17x27x2 15x24x2 16x25x4 15x24 23x14x4 21x12x3 19x11x4 9x17',
    fixed: 23,
    turned: null,
    proven: true,
  },
  {
    name: 'gcut9d',
    source:
      'Cintra, Miyazawa, Wakabayashi & Xavier, European Journal of Operational Research 191, 2008; best guillotine result',
    sheet: '1000x1000',
    parts:
      '310x426x91 673x468x61 426x463x40 325x498x95 555x540x18 292x455x30 343x341x56 362x491x95 305x688x51 459x607x53',
    fixed: 131,
    turned: null,
    proven: true,
  },
];

const numbers = (text: string): number[] => text.split('x').map(Number);

export function publishedProblem(row: (typeof PUBLISHED)[number], turn: boolean): PanelProblem {
  const [length, width] = numbers(row.sheet);
  return {
    name: row.name,
    kind: 'panels',
    kerf: 0,
    trim: 0,
    stock: [{ id: 'sheet', length: length!, width: width!, cost: 1, count: null }],
    parts: row.parts.split(' ').map((text, i) => {
      const [partLength, partWidth, count] = numbers(text);
      return { id: `p${i + 1}`, length: partLength!, width: partWidth!, count: count ?? 1, turn };
    }),
  };
}
