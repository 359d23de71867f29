import { vec } from '../geometry/index.ts';
import { nameOf } from '../plan/index.ts';
import type { Staged } from '../surroundings/index.ts';

/** One way of standing things and seats: as the plan has them, or with all that have a place of this name moved there. */
export interface Arrangement {
  readonly name: string;
  readonly moved: readonly string[];
  readonly staged: Staged;
}

/** As planned first, then every named place that a desk or a seat may take. */
export function arrangementsOf(staged: Staged): readonly Arrangement[] {
  const movable = staged.option.pieces.flatMap((p) => (('thing' in p || 'seat' in p) && p.places ? [p] : []));
  const names = [...new Set(movable.flatMap((p) => p.places!.map((place) => place.name)))];
  return [
    { name: 'as planned', moved: [], staged },
    ...names.map((name): Arrangement => {
      const to = new Map(
        movable.flatMap((p) => {
          const place = p.places!.find((q) => q.name === name);
          return place ? [[nameOf(p), place.at] as const] : [];
        }),
      );
      const pieces = staged.pieces.map((p) => {
        const at = to.get(p.id);
        return at ? { ...p, frame: { origin: vec(at.x, p.frame.origin.y, at.y), turn: at.turn } } : p;
      });
      return { name, moved: [...to.keys()], staged: { ...staged, pieces } };
    }),
  ];
}
