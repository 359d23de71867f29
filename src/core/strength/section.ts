/**
 * Bending stiffness of sections. Lengths mm, modulus MPa (N/mm²), second moments mm⁴, stiffness E·I in N·mm².
 * Source: parallel-axis theorem and transformed section, any text on strength of materials.
 */

/** b h³/12 */
export const rectangle = (width: number, height: number): number => (width * height ** 3) / 12;

/** π (d⁴ − bore⁴)/64 */
export const round = (diameter: number, bore = 0): number => (Math.PI * (diameter ** 4 - bore ** 4)) / 64;

/** A rectangle with a rectangular hollow in its middle: (B H³ − b h³)/12. */
export const hollow = (width: number, height: number, voidWidth: number, voidHeight: number): number =>
  rectangle(width, height) - rectangle(voidWidth, voidHeight);

/** One rectangle of a built-up section, its middle `y` below the top edge. */
export interface Strip {
  readonly width: number;
  readonly height: number;
  readonly y: number;
  readonly modulus: number;
}

export interface BuiltUp {
  /** Σ E (I + A·a²) about the neutral axis, N·mm². */
  readonly stiffness: number;
  /** Neutral axis below the top edge, mm. */
  readonly axis: number;
}

/** Rectangles glued into one section, each with its own modulus; plane sections stay plane, glue lines do not slip. */
export function builtUp(strips: readonly Strip[]): BuiltUp {
  const stretch = strips.reduce((sum, s) => sum + s.modulus * s.width * s.height, 0);
  const axis = strips.reduce((sum, s) => sum + s.modulus * s.width * s.height * s.y, 0) / stretch;
  const stiffness = strips.reduce(
    (sum, s) => sum + s.modulus * (rectangle(s.width, s.height) + s.width * s.height * (s.y - axis) ** 2),
    0,
  );
  return { stiffness, axis };
}

export interface ShelfSection {
  readonly depth: number;
  readonly thickness: number;
  readonly modulus: number;
  /** A strip glued along the front edge, flush with the top and hanging below it (or turned over: the same stiffness). */
  readonly lip?: { readonly height: number; readonly thickness: number; readonly modulus: number };
  /** Skins over webs: the shelf is hollow between them. `webs` is their total width. */
  readonly hollow?: { readonly skin: number; readonly webs: number; readonly webModulus?: number };
}

/** Stiffness of a shelf seen from its end: a plain board, with a front lip, or a hollow box. */
export function shelfSection({ depth, thickness, modulus, lip, hollow: box }: ShelfSection): BuiltUp {
  const strips: Strip[] = box
    ? [
        { width: depth, height: box.skin, y: box.skin / 2, modulus },
        { width: depth, height: box.skin, y: thickness - box.skin / 2, modulus },
        {
          width: box.webs,
          height: thickness - 2 * box.skin,
          y: thickness / 2,
          modulus: box.webModulus ?? modulus,
        },
      ].filter((s) => s.width > 0 && s.height > 0)
    : [{ width: depth, height: thickness, y: thickness / 2, modulus }];
  if (lip) strips.push({ width: lip.thickness, height: lip.height, y: lip.height / 2, modulus: lip.modulus });
  return builtUp(strips);
}
