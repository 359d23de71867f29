import type { Bay } from '../plan/index.ts';
import { toTicks } from '../quantity/index.ts';
import { DEFAULTS } from './defaults.ts';
import { halves } from './divide.ts';
import { cuboid, type DraftPart, long, type Span, take } from './draft.ts';
import { type Job, partOf, type Space } from './space.ts';

/**
 * Cuts the two vents of a bay out of its back or its door: as wide as the plan says and in the middle, one near the bay's floor and one
 * near its top. A pair of doors shares each vent out, half in the middle of either leaf. A bay without a back is vented as it is.
 */
export function cutVents({ draft, oddAtEnd }: Job, bay: Bay, space: Space): void {
  const { vent } = bay;
  if (!vent) return;
  const refuse = (message: string, found: string, expected: string): void => {
    draft.issues.push({ path: [...space.path, 'vent'], message, found, expected });
  };
  if (vent.in === 'door' && bay.door === undefined) {
    refuse('this bay has no door that vents could be cut out of', 'door', 'back, or a door');
    return;
  }
  const ids = vent.in === 'door' ? ['door', 'left-door', 'right-door'] : [];
  const doors = ids.flatMap((what) => draft.parts.filter((p) => p.id === `${draft.piece}/${partOf(space, what).id}`));
  const cut: readonly DraftPart[] = vent.in === 'door' ? doors : space.back ? [space.back] : [];
  const [width, height, edge] = [toTicks(vent.width), toTicks(vent.height), toTicks(DEFAULTS.ventEdge)];
  for (const part of cut) {
    const across: Span = vent.in === 'door' ? [part.box.min.x, part.box.max.x] : space.open.x;
    const [own] = halves(width, oddAtEnd);
    const wide = cut.length === 2 ? own : width;
    const most = { width: long(across) - 2 * edge, height: Math.floor((long(space.open.y) - 3 * edge) / 2) };
    if (wide > most.width || height > most.height) {
      refuse(
        'two such vents do not fit one above the other',
        `${draft.notLess(width)} × ${draft.notLess(height)}`,
        `at most ${draft.notMore(Math.max(0, most.width) * cut.length)} × ${draft.notMore(Math.max(0, most.height))}`,
      );
      return;
    }
    const from = across[0] + Math.floor((long(across) - wide) / 2);
    for (const [y, why] of [
      [space.open.y[0] + edge, 'lower vent'],
      [space.open.y[1] - edge - height, 'upper vent'],
    ] as const)
      take(part, {
        kind: 'cut-out',
        box: cuboid([from, from + wide], [y, y + height], [part.box.min.z, part.box.max.z]),
        why: `${why} of ${bay.name ?? (space.number ? `bay ${space.number}` : 'the case')}`,
      });
  }
}
