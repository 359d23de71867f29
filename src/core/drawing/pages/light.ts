import { sittersOf } from '../../camera/index.ts';
import { lightOf } from '../../light/index.ts';
import { bodyOf, lampsOf } from '../../surroundings/index.ts';
import { area, group, line, point, rectangle } from '../draw.ts';
import type { Column } from '../layout/table.ts';
import type { Desk } from './desk.ts';
import { setPlan, tableOf, tables, wordsAt } from './set-plan.ts';
import type { Draft } from './sheet.ts';

/** Lamps and faces on the plan; what reaches each face, its cast, and what each paint would do. */
export function lightPages(desk: Desk): readonly Draft[] {
  const light = lightOf(desk.input);
  if (!light) return [];
  const { body } = desk.sheet;
  const left = area(body.x, body.y, body.width * 0.44, body.height);
  const rest = area(body.x + body.width * 0.48, body.y, body.width * 0.52, body.height);
  const { marks, at, scale, places } = setPlan(desk, left);
  const lamps = lampsOf(desk.input).map((lamp) => {
    const { min, max } = bodyOf(desk.input.pieces.find((p) => p.id === lamp.id)!);
    const [a, b] = [at(min), at(max)];
    const box = area(a.x, a.y, b.x - a.x, b.y - a.y);
    places.taken.push(box);
    return group(
      lamp.id,
      [
        rectangle(box, { pen: 'visible' }),
        line(a.x, a.y, b.x, b.y, 'thin'),
        line(a.x, b.y, b.x, a.y, 'thin'),
        ...wordsAt(places, point((a.x + b.x) / 2, b.y), `${lamp.piece.lumens} lm, ${lamp.piece.kelvin} K`),
      ],
      lamp.title,
    );
  });
  const faces = sittersOf(desk.input).flatMap((s) => {
    const lit = light.faces.find((f) => f.id === s.id);
    if (!lit) return [];
    const eye = at(s.eyes);
    const tip = at({ x: s.eyes.x + 300 * s.ahead.x, y: 0, z: s.eyes.z + 300 * s.ahead.z });
    return [
      group(s.id, [
        { kind: 'circle' as const, centre: eye, radius: 1.6, pen: 'outline' as const },
        line(eye.x, eye.y, tip.x, tip.y, 'visible'),
        ...wordsAt(places, eye, `${s.title} ${Math.round(lit.lux)} lx`, true),
      ]),
    ];
  });
  const signed = (v: number, digits = 0): string => `${v > 0 ? '+' : v < 0 ? '−' : ''}${Math.abs(v).toFixed(digits)}`;
  type Row = (typeof light.faces)[number];
  const faceColumns: Column<Row>[] = [
    { head: 'face', cell: (f) => f.title, share: 1 },
    { head: 'lx', cell: (f) => `${Math.round(f.lux)}`, align: 'right', bold: true },
    { head: 'from lamps', cell: (f) => `${Math.round(f.directLux)}`, align: 'right' },
    { head: 'K', cell: (f) => `${Math.round(f.cast.kelvin)}`, align: 'right' },
    { head: 'shift', cell: (f) => signed(f.cast.kelvinShift), align: 'right' },
    { head: 'Duv', cell: (f) => signed(f.cast.duv, 4), align: 'right' },
    { head: 'ΔE00', cell: (f) => f.cast.difference.toFixed(1), align: 'right', bold: true },
    ...(light.painted
      ? [{ head: 'unpainted', cell: (f: Row) => f.before.cast.difference.toFixed(1), align: 'right' as const }]
      : []),
  ];
  const paintColumns: Column<(typeof light.paints)[number]>[] = [
    { head: 'all walls in', cell: (p) => p.name, share: 1 },
    { head: 'reflects', cell: (p) => `${p.reflectance.toFixed(0)} %`, align: 'right' },
    { head: 'lx', cell: (p) => `${Math.round(p.lux)}`, align: 'right' },
    { head: 'lumens', cell: (p) => `× ${p.lumens.toFixed(2)}`, align: 'right' },
    { head: 'ΔE00', cell: (p) => p.cast.difference.toFixed(1), align: 'right', bold: true },
    { head: 'cast', cell: (p) => p.cast.words, most: 44 },
  ];
  const even = [
    { what: 'walls', ...light.walls },
    { what: 'floor', ...light.floor },
  ];
  return [
    {
      id: 'light',
      chapter: 'Light',
      title: 'Light on faces and walls',
      scale: scale.text,
      marks: [
        ...marks,
        ...lamps,
        ...faces,
        ...tables(rest, [
          { head: 'Light that reaches the faces', draw: tableOf(faceColumns, light.faces) },
          { head: 'What paint on the walls would do', draw: tableOf(paintColumns, light.paints) },
          {
            head: 'Room',
            draw: tableOf<(typeof even)[number]>(
              [
                { head: 'surface', cell: (r) => r.what, share: 1 },
                { head: 'mean lx', cell: (r) => `${Math.round(r.mean)}`, align: 'right' },
                { head: 'least over mean', cell: (r) => r.evenness.toFixed(2), align: 'right' },
              ],
              even,
            ),
          },
        ]),
      ],
    },
  ];
}
