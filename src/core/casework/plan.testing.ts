import { type Piece, type Plan, planSchema } from '../plan/index.ts';
import { parseLength, parseMass, parseMoney } from '../quantity/index.ts';
import type { Placing } from '../room/index.ts';

/** Everything of a plan but what a test is about. Lengths are text in any unit; a bare number is in `unit`. */
export interface WrittenPlan {
  readonly pieces: readonly unknown[];
  readonly make?: unknown;
  readonly panels?: readonly unknown[];
  readonly boards?: readonly unknown[];
  readonly packs?: readonly unknown[];
  readonly shop?: unknown;
}

const schemaFor = (unit: 'mm' | 'in') =>
  planSchema({
    length: (text) => parseLength(text, { unit }),
    mass: (text) => parseMass(text, { unit: 'kg' }),
    money: (text) => parseMoney(text, 'EUR'),
  });
const SCHEMAS = { mm: schemaFor('mm'), in: schemaFor('in') };

export function planOf(written: WrittenPlan, unit: 'mm' | 'in' = 'mm'): Plan {
  return SCHEMAS[unit].parse({
    setwright: 1,
    units: { length: unit, currency: 'EUR' },
    room: {
      ceiling: '2.5 m',
      walls: ['north', 'east', 'south', 'west'].map((id) => ({ id, length: '4 m' })),
    },
    stock: { panels: written.panels ?? [], boards: written.boards ?? [], packs: written.packs ?? [] },
    make: written.make ?? {},
    shop: written.shop ?? {},
    options: [{ id: 'only', pieces: written.pieces }],
  });
}

/** The first piece of a plan that has only those of a test. */
export const firstOf = <K extends string>(plan: Plan, kind: K): Extract<Piece, Record<K, string>> => {
  const piece = plan.options[0]!.pieces[0]!;
  if (!(kind in piece)) throw new Error(`expected a ${kind}`);
  return piece as Extract<Piece, Record<K, string>>;
};

export const AT_ORIGIN: Placing = { frame: { origin: { x: 0, y: 0, z: 0 }, turn: 0 } };
