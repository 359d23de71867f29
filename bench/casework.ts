import { buildPiece } from '../src/core/casework/index.ts';
import { type Plan, planSchema } from '../src/core/plan/index.ts';
import { parseLength, parseMass, parseMoney } from '../src/core/quantity/index.ts';

/** How long it takes to build a plan of about 150, 1,500 and 15,000 parts, in processor time (the machine may be busy with other things). */
const schema = planSchema({
  length: (text) => parseLength(text, { unit: 'mm' }),
  mass: (text) => parseMass(text, { unit: 'kg' }),
  money: (text) => parseMoney(text, 'EUR'),
});

function planOf(cases: number): Plan {
  const inside = {
    columns: [{ shelves: 2 }, { width: 400, drawers: 2 }, { door: 'left', rows: [{ shelves: 1 }, { height: 200 }] }],
  };
  return schema.parse({
    setwright: 1,
    units: { length: 'mm', currency: 'EUR' },
    room: { ceiling: 2500, walls: ['a', 'b', 'c'].map((id) => ({ id, length: 4000, corner: 60 })) },
    stock: {
      panels: [
        { id: 'ply', thickness: 18 },
        { id: 'thin', thickness: 6 },
      ],
    },
    make: { panel: 'ply', joint: 'dado', back: { kind: 'grooved', panel: 'thin' } },
    options: [
      {
        id: 'only',
        pieces: Array.from({ length: cases }, (_, i) => ({
          case: `case ${i + 1}`,
          size: { width: 1200, height: 800, depth: 400 },
          toe: { height: 90 },
          inside,
        })),
      },
    ],
  });
}

const placing = { frame: { origin: { x: 0, y: 0, z: 0 }, turn: 0 } };
console.log('parts    first ms   median of 20 ms   µs a part');
for (const cases of [6, 60, 500]) {
  const plan = planOf(cases);
  const times: number[] = [];
  let parts = 0;
  for (let run = 0; run < 21; run++) {
    const before = process.cpuUsage();
    parts = plan.options[0]!.pieces.reduce((n, piece) => n + buildPiece(piece, plan, placing).placed.parts.length, 0);
    const { user, system } = process.cpuUsage(before);
    times.push((user + system) / 1000);
  }
  const [first, ...rest] = times as [number, ...number[]];
  const median = rest.sort((a, b) => a - b)[10]!;
  const cell = (text: string, width: number) => text.padStart(width);
  console.log(
    cell(`${parts}`, 6),
    cell(first.toFixed(1), 9),
    cell(median.toFixed(1), 14),
    cell(((median * 1000) / parts).toFixed(1), 12),
  );
}
