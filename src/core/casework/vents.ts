import type { Bay } from '../plan/index.ts';
import { toTicks } from '../quantity/index.ts';
import { DEFAULTS } from './defaults.ts';
import { halves, type Ticks } from './divide.ts';
import { cuboid, type Draft, type DraftPart, long, type Span, take, withoutSpans } from './draft.ts';
import { type Job, partOf, type Space } from './space.ts';

/**
 * Cuts the two vents of a bay out of its back or its door: as wide as the plan says and in the middle, one near the bay's floor and one
 * near its top. A pair of doors shares each vent out, half in the middle of either leaf. Where an upright would stand across a vent in
 * the back, the openings beside it share it out. A bay without a back is vented as it is.
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
    const rows = [
      { y: [space.open.y[0] + edge, space.open.y[0] + edge + height], why: 'lower vent' },
      { y: [space.open.y[1] - edge - height, space.open.y[1] - edge], why: 'upper vent' },
    ] as const;
    const vents = rows.map(({ y, why }) => {
      const inTheWay = vent.in === 'door' ? [] : standingAcross(draft, space, y);
      return { y, why, inTheWay, spans: shareVent(across, wide, edge, inTheWay) };
    });
    const short = vents.find(({ spans }) => typeof spans === 'number');
    if (short) {
      refuse(
        `${short.inTheWay.map(({ name }) => name).join(' and ')} would stand across the ${short.why}`,
        `${draft.notLess(wide)} wide`,
        short.spans === 0
          ? 'vents clear of it, or in the bays it is divided into'
          : `at most ${draft.notMore(short.spans as Ticks)} wide in all, shared out between the openings beside it`,
      );
      return;
    }
    for (const { y, why, spans } of vents)
      for (const span of spans as readonly Span[])
        take(part, {
          kind: 'cut-out',
          box: cuboid(span, y, [part.box.min.z, part.box.max.z]),
          why: `${why} of ${bay.name ?? (space.number ? `bay ${space.number}` : 'the case')}`,
        });
  }
}

/** What of a bay's own divisions stands against its back, somewhere between two heights. A shelf on pins is moved out of the way. */
const standingAcross = ({ parts }: Draft, { x, back }: Space, y: Span): readonly DraftPart[] =>
  parts.filter(
    ({ role, box }) =>
      (role === 'upright' || role === 'fixed shelf') &&
      box.min.z <= back!.box.max.z &&
      box.min.x < x[1] &&
      box.max.x > x[0] &&
      box.min.y < y[1] &&
      box.max.y > y[0],
  );

/**
 * Where a vent is cut: in the middle where that is clear, else in the middle of each opening left, by the room there is in it. A number
 * is the most that fits where the whole does not.
 */
function shareVent(across: Span, wide: Ticks, edge: Ticks, inTheWay: readonly DraftPart[]): readonly Span[] | Ticks {
  const middleOf = (span: Span, width: Ticks): Span => {
    const from = span[0] + Math.floor((long(span) - width) / 2);
    return [from, from + width];
  };
  const middle = middleOf(across, wide);
  if (inTheWay.every(({ box }) => box.max.x <= middle[0] || box.min.x >= middle[1])) return [middle];
  const free = withoutSpans(
    across,
    inTheWay.map(({ box }): Span => [box.min.x, box.max.x]),
  )
    .map((span) => ({ span, room: long(span) - 2 * edge }))
    .filter(({ room }) => room > 0);
  let room = free.reduce((sum, one) => sum + one.room, 0);
  if (room < wide) return room;
  let left = wide;
  return free.map((one) => {
    const own = Math.round((left * one.room) / room);
    left -= own;
    room -= one.room;
    return middleOf(one.span, own);
  });
}
