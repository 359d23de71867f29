import { addsFault, buildCase, DEFAULTS } from '../casework/index.ts';
import { gearWarming } from '../ergonomics/index.ts';
import { fromRoom } from '../geometry/index.ts';
import { type Note, work } from '../notes/index.ts';
import {
  applyToPlain,
  type Bay,
  type CasePiece,
  type Edit,
  type Path,
  type PlainValue,
  type Plan,
  printersFor,
} from '../plan/index.ts';
import { mm } from '../quantity/index.ts';
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

interface At {
  readonly bay: Bay;
  readonly path: Path;
}
interface Warm extends At {
  /** As the bays of a built case are numbered. */
  readonly number: readonly number[];
  /** Whose doors it is behind: its own, and those that it shares with the bays beside it. */
  readonly behind: readonly At[];
}
/** Bays behind a door in which something gets warm. */
function* warmBays(bay: Bay, path: Path, number: readonly number[], outer: readonly At[] = []): Generator<Warm> {
  const behind = bay.door === undefined ? outer : [...outer, { bay, path }];
  const divided = bay.columns ?? bay.rows;
  if (divided) {
    const key = bay.columns ? 'columns' : 'rows';
    for (const [i, inner] of divided.entries()) yield* warmBays(inner, [...path, key, i], [...number, i + 1], behind);
  } else if (behind.length > 0 && (bay.heat ?? 0) > 0) yield { bay, path, number, behind };
}

type Vent = NonNullable<Bay['vent']>;

/**
 * Two vents that keep a bay cool and can be cut: as wide as the bay allows, as high as they must be, since each taller vent leaves less
 * height between them; narrower where that is refused, and in the door where the back has no hollow or something stands across it.
 */
function ventsFor(
  wide: number,
  high: number,
  riseWith: (width: number, height: number) => number,
  hollow: number,
  places: readonly NonNullable<Vent['in']>[],
  isCut: (vent: Vent) => boolean,
): Vent | undefined {
  const widest = Math.max(60, Math.floor((wide - 80) / 10) * 10);
  const widths = [0, 10, 20, 40].map((less) => widest - less).filter((width) => width >= 40);
  for (const where of places)
    for (const width of widths) {
      let height = 20;
      while (height + 5 <= (high - 3 * DEFAULTS.ventEdge) / 2 && riseWith(width, height) > RISE) height += 5;
      if (riseWith(width, height) > RISE || (where === 'back' && hollow < OPEN * height)) continue;
      const vent = { width: mm(width), height: mm(height), in: where };
      if (isCut(vent)) return vent;
    }
  return undefined;
}

/** Whether a bay can have such vents: the case is built with them, and asked. */
function isCut(plan: Plan, said: CasePiece, placed: PlacedPiece, number: readonly number[], vent: Vent): boolean {
  const within = (bay: Bay, [first, ...rest]: readonly number[]): Bay => {
    const key = bay.columns ? 'columns' : 'rows';
    const inner = first === undefined ? undefined : bay[key]?.[first - 1];
    if (first === undefined || !inner) return { ...bay, vent };
    return { ...bay, [key]: bay[key]!.with(first - 1, within(inner, rest)) };
  };
  const { frame, wall } = placed;
  const tried = { ...said, inside: within(said.inside!, number) };
  return buildCase(tried, plan, { frame, ...(wall && { wall }) }).issues.every(({ path }) => path.at(-1) !== 'vent');
}

/** Whether a case is built as well with these edits, whose paths begin at its own fields: what lies behind a door may not fit without one. */
function isBuilt(plan: Plan, said: CasePiece, { frame, wall }: PlacedPiece, edits: readonly Edit[]): boolean {
  const changed = applyToPlain(said as unknown as PlainValue, edits);
  if (!changed.ok) return false;
  const built = (piece: CasePiece) => buildCase(piece, plan, { frame, ...(wall && { wall }) });
  return !addsFault(built(said), built(changed.value as unknown as CasePiece));
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
      ({ bay, path, number, behind }): readonly Note[] => {
        const id = number.length === 0 ? 'bay-1' : `bay-${number.join('-')}`;
        const opening = placed.bays.find((b) => b.id.endsWith(`/${id}`));
        if (!opening) return [];
        const [wide, high] = [opening.clear.max.x - opening.clear.min.x, opening.clear.max.y - opening.clear.min.y];
        const name = `${bay.name ?? 'a bay'} of ${said.title ?? said.case}`;
        const power = bay.heat!;
        const vent = bay.vent;
        // without vents only the gaps along the top and the bottom of the door let air through
        const hollow = hollowBehind(room, placed);
        // what opens behind another door opens into no room
        const inner = behind.length > 1;
        const opens = vent && (vent.in === 'back' ? hollow : inner ? 0 : Number.POSITIVE_INFINITY);
        const open = vent && Math.min(OPEN * vent.height, opens!);
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
        const riseWith = (w: number, h: number): number =>
          work(gearWarming, { power, area: OPEN * w * h * 1e-6, height: heightBetween(high, h) }).result.value;
        const found = ventsFor(wide, high, riseWith, hollow, inner ? ['back'] : ['back', 'door'], (tried) =>
          isCut(plan, said, placed, number, tried),
        );
        // with a door goes what is said of it
        const doorOff = behind.flatMap(({ bay: shut, path: at }) =>
          (['door', 'style', ...(shut.vent?.in === 'door' ? (['vent'] as const) : [])] as const)
            .filter((key) => shut[key] !== undefined)
            .map((key) => ({ op: 'remove' as const, path: [...at, key] })),
        );
        const own = doorOff.map(({ op, path }) => ({ op, path: path.slice(4) }));
        return [
          {
            ...base,
            verdict: rise > 25 ? ('stop' as const) : ('caution' as const),
            title: `${name} gets ${rise.toFixed(0)} K warmer than the room with ${power} W behind its ${inner ? 'doors' : 'door'}${vent ? (open! < OPEN * vent.height ? `, its vents shut off by the ${vent.in === 'back' ? 'wall' : 'door before them'}` : '') : ' and no vents'}`,
            advice: found
              ? `Two vents of ${length(found.width)} × ${length(found.height)}, half open, one low and one high in the ${found.in}, keep it to ${RISE} K. In a back they want a hollow of ${length(OPEN * found.height)} behind it, open above: here there ${hollow < 1 ? 'is none' : `are ${length(hollow)}`}. Keep them off foam and fabric.`
              : `No two vents that fit keep it to ${RISE} K: leave the ${inner ? 'doors' : 'door'} off, put a fan in, or set the gear elsewhere.`,
            ...(found
              ? {
                  cure: {
                    title: `Give it two vents of ${length(found.width)} × ${length(found.height)} in the ${found.in}`,
                    edits: [
                      {
                        op: 'set' as const,
                        path: [...path, 'vent'],
                        value: { width: `${found.width} mm`, height: `${found.height} mm`, in: found.in },
                      },
                    ],
                  },
                }
              : isBuilt(plan, said, placed, own) && {
                  cure: { title: inner ? 'Leave its doors off' : 'Leave its door off', edits: doorOff },
                }),
          },
        ];
      },
    );
  });
}
