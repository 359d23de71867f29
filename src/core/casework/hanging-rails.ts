import type { CasePiece, Plan } from '../plan/index.ts';
import { fromTicks, type Mm, mm, toTicks } from '../quantity/index.ts';
import { DEFAULTS } from './defaults.ts';
import type { Ticks } from './divide.ts';
import { addPart, cuboid, type Draft, type DraftPart, join, long, type Path, type Span } from './draft.ts';
import type { Habits, Said } from './habits.ts';
import { findMaterial } from './material.ts';

interface Round {
  readonly path: Path;
  /** Between the sides, and between bottom and top. */
  readonly inner: Span;
  readonly clear: Span;
  readonly made: Readonly<Record<'left' | 'right' | 'top' | 'bottom' | 'back', DraftPart | undefined>>;
}

/** How far from the rear edges the groove of the back must lie for rails of a stock behind it; undefined where there is no such stock. */
export function railGroove(plan: Plan, { make }: CasePiece, stock: string): Mm | undefined {
  const found = findMaterial(plan, stock, [], ['panel', 'board']);
  const inset = make?.back?.inset ?? plan.make.back?.inset ?? DEFAULTS.backInset;
  return found.ok ? mm(Math.max(inset, fromTicks(found.material.thickness))) : undefined;
}

/**
 * Rails behind a grooved back, under the top and above the bottom, glued and screwed between the sides: what hangs is screwed to the
 * wall through them, and they carry it. Issues where there is no room for them.
 */
export function buildRails(
  draft: Draft,
  asked: NonNullable<CasePiece['rails']>,
  { back }: Habits,
  plan: Plan,
  said: Said,
  { path, inner, clear, made }: Round,
): void {
  const at = [...path, 'rails'];
  const found = findMaterial(plan, asked.stock, [...at, 'stock'], ['panel', 'board']);
  if (!found.ok) {
    draft.issues.push(found.issue);
    return;
  }
  const { material } = found;
  if (back?.kind !== 'grooved') {
    draft.issues.push({
      path: said('back', 'kind'),
      message: 'hanging rails lie behind a back in a groove',
      found: back?.kind ?? 'none',
      expected: 'grooved',
    });
    return;
  }
  if (back.inset < material.thickness) {
    draft.issues.push({
      path: said('back', 'inset'),
      message: 'the groove of the back leaves no room for the hanging rails behind it',
      found: draft.notMore(back.inset),
      expected: `at least ${draft.notLess(material.thickness)}`,
    });
    return;
  }
  const height: Ticks =
    asked.height === undefined ? (material.width ?? toTicks(DEFAULTS.railHeight)) : toTicks(asked.height);
  const where = asked.at === 'top' ? (['top'] as const) : (['top', 'bottom'] as const);
  if (where.length * height > long(clear)) {
    draft.issues.push({
      path: asked.height === undefined ? at : [...at, 'height'],
      message: 'the hanging rails are higher than the case is inside',
      found: draft.notLess(where.length * height),
      expected: `at most ${draft.notMore(long(clear))}`,
    });
    return;
  }
  for (const end of where) {
    const y: Span = end === 'top' ? [clear[1] - height, clear[1]] : [clear[0], clear[0] + height];
    const rail = addPart(draft, {
      id: `${end}-hanging-rail`,
      name: `${end} hanging rail`,
      role: 'hanging rail',
      material,
      box: cuboid(inner, y, [back.inset - material.thickness, back.inset]),
      length: 'x',
      thickness: 'z',
      path: at,
    });
    for (const panel of [made.left, made.right, made[end]]) join(draft, 'butt', rail, panel, ['glue', 'screws']);
    join(draft, 'applied', made.back, rail, ['glue']);
  }
}
