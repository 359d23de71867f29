import { boxAt } from '../geometry/index.ts';
import { type Plan, planSchema } from '../plan/index.ts';
import { mm, parseLength, parseMass, parseMoney } from '../quantity/index.ts';
import type { Part } from '../scene/index.ts';

/** A plan of stock and shop only; lengths are in mm, money in euros. */
export function stockPlan(written: {
  readonly stock?: object;
  readonly shop?: object;
  readonly units?: object;
  readonly pieces?: readonly unknown[];
}): Plan {
  const schema = planSchema({
    length: (text) => parseLength(text, { unit: 'mm' }),
    mass: (text) => parseMass(text, { unit: 'kg' }),
    money: (text) => parseMoney(text, 'EUR'),
  });
  return schema.parse({
    setwright: 1,
    units: { length: 'mm', currency: 'EUR', ...written.units },
    room: { ceiling: 2500, walls: ['north', 'east', 'south', 'west'].map((id) => ({ id, length: 4000 })) },
    stock: written.stock ?? {},
    shop: { kerf: 0, ...written.shop },
    options: [{ id: 'only', pieces: written.pieces ?? [] }],
  });
}

/** A part of 18 mm stock, cut to length × width. */
export function partOf(id: string, stock: string, length: number, width: number, more: Partial<Part> = {}): Part {
  const size = { length: mm(length), width: mm(width), thickness: mm(18) };
  return {
    id,
    piece: id.split('/')[0]!,
    label: { place: id.split('/')[0]!, name: id.split('/')[1] ?? id, up: 'up', show: 'front' },
    role: 'shelf',
    stock,
    from: 'panel',
    solid: { box: boxAt(0, 0, 0, length, 18, width), taken: [] },
    axes: { length: 'x', width: 'z', thickness: 'y' },
    size,
    cut: { length: size.length, width: size.width },
    grain: 'fixed',
    edges: [],
    ...more,
  };
}
