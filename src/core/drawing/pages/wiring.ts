import { powerOf } from '../../power/index.ts';
import { area, group, line, point, rectangle, text } from '../draw.ts';
import { fitText } from '../font/measure.ts';
import type { Mark } from '../marks.ts';
import type { Desk } from './desk.ts';
import { tableOf, tables } from './set-plan.ts';
import type { Draft } from './sheet.ts';

/** Supplies, leads, fuses and strips as a diagram; the wires to cut beside it. */
export function wiringPages(desk: Desk): readonly Draft[] {
  const power = powerOf(desk.input);
  if (!power) return [];
  const { body } = desk.sheet;
  const left = area(body.x, body.y, body.width * 0.5, body.height);
  const rest = area(body.x + body.width * 0.54, body.y, body.width * 0.46, body.height);
  const row = Math.min(20, (left.height - 10) / Math.max(1, power.strips.length));
  const marks: Mark[] = [];
  power.supplies.forEach((supply) => {
    const own = power.strips.flatMap((s, i) => (supply.id.startsWith(s.supply) ? [{ s, i }] : []));
    if (own.length === 0) return;
    const ys = own.map(({ i }) => left.y + 8 + row * i);
    const [top, bottom] = [ys[0]!, ys.at(-1)!];
    const box = area(left.x, top - 6, 34, Math.max(16, bottom - top + 12));
    marks.push(
      rectangle(box, { pen: 'outline' }),
      text(box.x + 2, box.y + 4.5, fitText(supply.id.split(' · ')[0]!, 2.5, 30, true), { bold: true }),
      text(box.x + 2, box.y + 9, `${supply.volts} V, ${Math.ceil(supply.rating)} A`),
      text(box.x + 2, box.y + 13.5, `${Math.round(supply.watts)} W`),
    );
    own.forEach(({ s }, k) => {
      const y = ys[k]!;
      const [x0, x1] = [box.x + box.width, left.x + left.width];
      const strip = area(x0 + 36, y - 2, x1 - x0 - 36, 4);
      marks.push(
        group(
          s.run.strip.strip,
          [
            line(x0, y - 0.7, strip.x, y - 0.7, 'outline'),
            line(x0, y + 0.7, strip.x, y + 0.7, 'visible'),
            rectangle(area(x0 + 5, y - 2.2, 7, 3), { pen: 'visible', fill: 'paper' }),
            text(x0 + 2, y + 5, s.wire ? s.wire.wire.name : 'no wire', {}),
            text(x0 + 2, y - 3.4, s.wire?.fuse === undefined ? 'fuse by wire' : `fuse ${s.wire.fuse} A`, {}),
            rectangle(strip, { pen: 'outline' }),
            ...s.feeds.boundaries.map((b): Mark => {
              const x = strip.x + (strip.width * b) / Math.max(1, s.pixels);
              return { kind: 'circle', centre: point(x, y), radius: 0.9, fill: 'ink' };
            }),
            text(strip.x, y - 3.4, fitText(s.run.title, 2.5, strip.width, true), { bold: true }),
            text(
              strip.x,
              y + 5,
              fitText(
                `${s.pixels} lights, ${s.current.toFixed(1)} A, ${s.feeds.lowest.toFixed(2)} V`,
                2.5,
                strip.width,
              ),
            ),
          ],
          s.run.title,
        ),
      );
    });
  });
  const { letter } = desk;
  return [
    {
      id: 'wiring',
      chapter: 'Wiring',
      title: 'Strip lights and their wiring',
      marks: [
        ...marks,
        ...tables(rest, [
          {
            head: 'Strips to cut',
            draw: tableOf<(typeof power.strips)[number]>(
              [
                { head: 'strip', cell: (s) => s.run.title, share: 1 },
                { head: 'length', cell: (s) => letter.length(s.length), align: 'right' },
                { head: 'lights', cell: (s) => `${s.pixels}`, align: 'right' },
              ],
              power.strips,
            ),
          },
          {
            head: 'Wires to cut',
            draw: tableOf<(typeof power.cuts)[number]>(
              [
                { head: 'wire', cell: (c) => c.wire },
                { head: 'from → to', cell: (c) => c.label, share: 1 },
                { head: 'colour', cell: (c) => c.colour },
                { head: 'length', cell: (c) => letter.length(Math.ceil(c.length)), align: 'right' },
              ],
              power.cuts,
            ),
          },
        ]),
      ],
    },
  ];
}
