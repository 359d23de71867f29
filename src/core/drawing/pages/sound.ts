import { soundOf } from '../../sound/index.ts';
import { type Area, area, line, point, polyline, text } from '../draw.ts';
import type { Mark } from '../marks.ts';
import type { Desk } from './desk.ts';
import { setPlan, tableOf, tables } from './set-plan.ts';
import type { Draft } from './sheet.ts';

/** Reverberation before and after, first reflections on the plan, tiles, modes. */
export function soundPages(desk: Desk): readonly Draft[] {
  const { option } = desk.input;
  if (!option.pieces.some((p) => 'absorber' in p || 'seat' in p)) return [];
  const s = soundOf(desk.input);
  const { body } = desk.sheet;
  const width = body.width * 0.44;
  const left = area(body.x, body.y, width, body.height * 0.56);
  const { marks, at, scale } = setPlan(desk, left);
  const spots = s.reflections
    .filter((r) => r.face !== 'floor' && r.face !== 'ceiling')
    .map(
      (r): Mark => ({
        kind: 'circle',
        centre: at(r.point),
        radius: 1.2,
        pen: 'visible',
        fill: r.met === undefined ? 'paper' : 'ink',
      }),
    );
  const low = area(body.x, body.y + body.height * 0.6, width, body.height * 0.4);
  const rest = area(body.x + width + body.width * 0.04, body.y, body.width * 0.52, body.height);
  const bands = s.bands.map((f, i) => ({
    f,
    before: s.before[i]!,
    after: s.after[i]!,
    sabine: s.sabineAfter[i]!,
  }));
  return [
    {
      id: 'sound',
      chapter: 'Sound',
      title: 'Sound of the room',
      scale: scale.text,
      marks: [
        ...marks,
        ...spots,
        ...curve(s, low),
        ...tables(rest, [
          {
            head: `Reverberation (speech index ${s.index.after.toFixed(2)}, ${s.index.word})`,
            draw: tableOf<(typeof bands)[number]>(
              [
                { head: 'Hz', cell: (b) => `${b.f}`, align: 'right' },
                { head: 'bare, s', cell: (b) => b.before.toFixed(2), align: 'right' },
                { head: 'treated, s', cell: (b) => b.after.toFixed(2), align: 'right', bold: true },
                { head: 'by Sabine, s', cell: (b) => b.sabine.toFixed(2), align: 'right' },
                { head: '', cell: () => '', share: 1 },
              ],
              bands,
            ),
          },
          {
            head: 'First reflections',
            draw: tableOf<(typeof s.reflections)[number]>(
              [
                { head: 'from', cell: (r) => r.from, share: 1 },
                { head: 'off', cell: (r) => r.face },
                { head: 'late, ms', cell: (r) => (1000 * r.delay).toFixed(1), align: 'right' },
                { head: 'dB', cell: (r) => r.level.toFixed(1).replace('-', '−'), align: 'right' },
                { head: 'met by', cell: (r) => r.met ?? 'nothing', most: 40 },
              ],
              s.reflections.slice(0, 8),
            ),
          },
          {
            head: 'Tiles to lay',
            draw: tableOf<(typeof s.tiles)[number]>(
              [
                { head: 'absorber', cell: (t) => t.piece.title ?? t.piece.absorber, share: 1 },
                { head: 'whole', cell: (t) => `${t.whole}`, align: 'right' },
                { head: 'cut', cell: (t) => `${t.cut}`, align: 'right' },
                { head: 'area', cell: (t) => desk.letter.area(t.area * 1e6), align: 'right' },
              ],
              s.tiles,
            ),
          },
          {
            head: `Lowest modes (single below ${Math.round(s.schroeder)} Hz)`,
            draw: tableOf<string>(
              [{ head: 'Hz', cell: (w) => w, share: 1 }],
              [s.modes.map((m) => m.frequency.toFixed(0)).join(', ')],
            ),
          },
        ]),
      ],
    },
  ];
}

/** Time over the octaves, before as a dashed line, after as a full one, the mark for speech across. */
function curve(s: ReturnType<typeof soundOf>, place: Area): readonly Mark[] {
  const most = Math.ceil(Math.max(...s.before, ...s.after, s.target.speech) * 5) / 5;
  const inner = area(place.x + 9, place.y + 6, place.width - 12, place.height - 14);
  const y = (t: number): number => inner.y + inner.height * (1 - t / most);
  const x = (i: number): number => inner.x + (inner.width * i) / (s.bands.length - 1);
  const steps = Array.from({ length: Math.round(most / 0.2) + 1 }, (_, k) => k * 0.2);
  const shown = steps.filter((_, k) => k % Math.ceil(steps.length / 6) === 0);
  return [
    text(place.x, place.y + 2.5, 'Reverberation, s: bare dashed, treated full, most for teaching thin', {
      tone: 'faint',
    }),
    ...shown.flatMap((t): readonly Mark[] => [
      line(inner.x, y(t), inner.x + inner.width, y(t), 'thin', 'faint'),
      text(inner.x - 2, y(t), t.toFixed(1), { align: 'right', anchor: 'middle' }),
    ]),
    ...s.bands.map((f, i) => text(x(i), inner.y + inner.height + 5, `${f}`, { align: 'centre' })),
    polyline(
      s.before.map((t, i) => point(x(i), y(t))),
      'hidden',
    ),
    polyline(
      s.after.map((t, i) => point(x(i), y(t))),
      'outline',
    ),
    line(inner.x, y(s.target.speech), inner.x + inner.width, y(s.target.speech), 'visible'),
  ];
}
