import { DEFAULTS } from '../casework/index.ts';
import { gearWarming } from '../ergonomics/index.ts';
import { fromRoom } from '../geometry/index.ts';
import { type Note, work } from '../notes/index.ts';
import type { Bay, Path } from '../plan/index.ts';
import { printersFor } from '../plan/index.ts';
import type { PlacedRoom } from '../room/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import type { WallInput } from '../strength/index.ts';

/** Of a grille or a row of holes this share is open. Common practice. */
const OPEN = 0.5;
/** How much warmer than a room of 25 °C gear in a cupboard may get, K. Common practice: makers ask for 40 °C at most. */
const RISE = 15;
/** A cupboard without vents still leaks through the gap round its door: mm wide. Common practice. */
const DOOR_GAP = 2;

/** Between the middles of two vents one above the other, and of the gaps above and below a door without them, mm. */
const heightBetween = (bay: number, vent: number | undefined): number =>
  Math.max(50, vent === undefined ? bay : bay - 2 * DEFAULTS.ventEdge - vent);

/** Behind the back, open above, mm: as far as the case stands out; one that stands at no wall has the room's air behind it. */
function hollowBehind(room: PlacedRoom, { wall: at, frame }: PlacedPiece): number {
  const wall = at && room.walls.find((w) => w.id === at.id);
  return wall ? Math.max(0, fromRoom(wall.frame, frame.origin).z) : Number.POSITIVE_INFINITY;
}

interface Warm {
  readonly bay: Bay;
  readonly path: Path;
  /** As the bays of a built case are numbered. */
  readonly number: readonly number[];
}
function* warmBays(bay: Bay, path: Path, number: readonly number[]): Generator<Warm> {
  const divided = bay.columns ?? bay.rows;
  if (divided) {
    const key = bay.columns ? 'columns' : 'rows';
    for (const [i, inner] of divided.entries()) yield* warmBays(inner, [...path, key, i], [...number, i + 1]);
  } else if ((bay.heat ?? 0) > 0) yield { bay, path, number };
}

/** How warm gear gets behind a door, and the vents that keep it cool. */
export function gearNotes({ plan, option, pieces, room }: WallInput): readonly Note[] {
  const { length } = printersFor(plan.units);
  const at = plan.options.indexOf(option);
  const byId = new Map(pieces.toReversed().map((p) => [p.id, p]));
  return option.pieces.flatMap((said, j): readonly Note[] => {
    if (!('case' in said) || !said.inside) return [];
    const placed = byId.get(said.case);
    if (!placed) return [];
    return [...warmBays(said.inside, ['options', at, 'pieces', j, 'inside'], [])].flatMap(
      ({ bay, path, number }): readonly Note[] => {
        if (bay.door === undefined) return [];
        const id = number.length === 0 ? 'bay-1' : `bay-${number.join('-')}`;
        const opening = placed.bays.find((b) => b.id.endsWith(`/${id}`));
        if (!opening) return [];
        const [wide, high] = [opening.clear.max.x - opening.clear.min.x, opening.clear.max.y - opening.clear.min.y];
        const name = `${bay.name ?? 'a bay'} of ${said.title ?? said.case}`;
        const power = bay.heat!;
        const vent = bay.vent;
        // without vents only the gaps along the top and the bottom of the door let air through
        const hollow = hollowBehind(room, placed);
        const open = vent && (vent.in === 'back' ? Math.min(OPEN * vent.height, hollow) : OPEN * vent.height);
        const shut = vent !== undefined && open! * vent.width < DOOR_GAP * wide;
        const area = (open === undefined || shut ? DOOR_GAP * wide : open * vent!.width) * 1e-6;
        const between = heightBetween(high, vent && !shut ? vent.height : undefined);
        const working = work(gearWarming, { power, area, height: between });
        const rise = working.result.value;
        const limited = {
          ...working,
          limit: { value: RISE, unit: 'K', why: 'gear in a room of 25 °C', source: 'common practice' as const },
        };
        const base = { id: `gear-heat:${said.case}/${id}`, about: said.case, working: limited };
        if (rise <= RISE)
          return [
            {
              ...base,
              verdict: 'fine' as const,
              title: `${name} gets ${rise.toFixed(0)} K warmer than the room with ${power} W in it`,
              advice:
                'Checked with still air, one vent low and one high, half of each open. Not checked: gear that blows its own exhaust at its own intake; its maker decides.',
            },
          ];
        // as wide as the bay allows, as high as it must be; each taller vent leaves less height between them
        const width = Math.max(60, Math.floor((wide - 80) / 10) * 10);
        let height = 20;
        const riseWith = (h: number): number =>
          work(gearWarming, { power, area: OPEN * width * h * 1e-6, height: heightBetween(high, h) }).result.value;
        while (height + 5 <= (high - 3 * DEFAULTS.ventEdge) / 2 && riseWith(height) > RISE) height += 5;
        const enough = riseWith(height) <= RISE;
        const inBack = hollow >= OPEN * height;
        return [
          {
            ...base,
            verdict: rise > 25 ? ('stop' as const) : ('caution' as const),
            title: `${name} gets ${rise.toFixed(0)} K warmer than the room with ${power} W behind its door${vent ? (open! < OPEN * vent.height ? ', its vents shut off by the wall' : '') : ' and no vents'}`,
            advice: enough
              ? `Two vents of ${length(width)} × ${length(height)}, half open, one low and one high in the ${inBack ? 'back' : 'door'}, keep it to ${RISE} K. In a back they want a hollow of ${length(OPEN * height)} behind it, open above: here there ${hollow < 1 ? 'is none' : `are ${length(hollow)}`}. Keep them off foam and fabric.`
              : `No two vents that fit keep it to ${RISE} K: leave the door off, put a fan in, or set the gear elsewhere.`,
            cure: enough
              ? {
                  title: `Give it two vents of ${length(width)} × ${length(height)} in the ${inBack ? 'back' : 'door'}`,
                  edits: [
                    {
                      op: 'set',
                      path: [...path, 'vent'],
                      value: { width: `${width} mm`, height: `${height} mm`, in: inBack ? 'back' : 'door' },
                    },
                  ],
                }
              : { title: 'Leave its door off', edits: [{ op: 'remove', path: [...path, 'door'] }] },
          },
        ];
      },
    );
  });
}
