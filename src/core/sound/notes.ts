import { nearest } from '../issue/index.ts';
import type { Note } from '../notes/index.ts';
import { printersFor } from '../plan/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import type { Staged } from '../surroundings/index.ts';
import { ROOM_SPEED } from './air.ts';
import type { Cure } from './cures.ts';
import { SURFACE_MATERIALS } from './materials.ts';
import { soundOf } from './plan.ts';
import { SCATTER } from './surfaces.ts';
import { hasTilePacks, TILE_USES } from './tiles.ts';

/** How much longer than the room two faces may ring before they are heard by themselves. Common practice. */
const FLUTTER = 1.5;

/** What cellular plastic does when it burns is a matter for a label and the local code. */
export const FOAM_CAUTION =
  'Foam and fabric burn: buy only what carries a fire test that your local code accepts for walls (ask for the certificate, not the word), keep it from lamps, heaters and sockets, and never use packing or bedding foam.';

/** Notes on the sound of the option: reverberation, first reflections, flutter, fire. */
export function soundNotes(staged: Staged): readonly Note[] {
  if (!staged.option.pieces.some((p) => 'seat' in p || 'absorber' in p)) return [];
  const s = soundOf(staged);
  const notes: Note[] = [];
  const about = s.tiles[0]?.piece.absorber ?? staged.option.pieces.flatMap((p) => ('seat' in p ? [p.seat] : []))[0]!;
  const long = s.worst.after > s.target.speech;
  const say = (t: number): string => t.toFixed(2);
  const { plan } = staged;
  const show = printersFor(plan.units);
  const sayCure = (c: Cure): string => {
    const price = c.cost === undefined ? '' : `, about ${show.money(c.cost)} before tax`;
    return `${c.tiles === undefined ? c.what : `${c.tiles} ${c.what}`} (${show.area(c.area * 1e6)}${price})`;
  };
  const enough = s.cures.filter((c) => c.enough);
  const bareAt = [...new Set(s.reflections.filter((r) => r.met === undefined).map((r) => r.face))].filter(
    (f) => f !== 'floor' && f !== 'ceiling',
  );
  notes.push({
    id: 'reverberation:room',
    about,
    verdict: long ? 'caution' : 'fine',
    title: long
      ? `The room rings ${say(s.worst.after)} s at ${s.worst.band} Hz with nobody in it (${say(s.worst.before)} s bare); ${say(s.target.speech)} s is the most for teaching`
      : `The room rings ${say(s.worst.after)} s at most in the middle bands with nobody in it (${say(s.worst.before)} s bare)`,
    advice: long
      ? `${enough.length === 0 ? 'No one thing is enough: tiles on every bare wall and a carpet together.' : `Any one of these would do: ${enough.map(sayCure).join('; ')}.`}${bareAt.length > 0 ? ` Tiles first where reflections land bare: ${bareAt.join(', ')}.` : ''} Speech index ${s.index.after.toFixed(2)}, ${s.index.word}.`
      : `Speech index ${s.index.after.toFixed(2)}, ${s.index.word}; for close recording ${say(s.target.listening)} s is the mark. Not checked: below ${Math.round(s.schroeder)} Hz, where single modes rule.`,
    working: s.workings[0]!,
  });
  const ringing = s.flutter
    .filter((f) => f.treated > FLUTTER * s.mid.after)
    .toSorted((a, b) => b.treated - a.treated)[0];
  if (ringing)
    notes.push({
      id: `flutter:${ringing.faces}`,
      about,
      verdict: 'caution',
      title: `Clap between ${ringing.faces}: an echo ${Math.round(ringing.rate)} times a second that rings ${say(ringing.treated)} s`,
      advice: `Both faces are hard and ${show.length(ringing.distance)} apart. ${ringing.faces === 'floor and ceiling' ? 'A rug or a carpet on the floor ends it; tiles under the ceiling do too, hung by a licensed trade.' : 'Tiles, a filled bookcase or a curtain on one of them, at the height of the mouth, end it.'} Open bays and shelves on them are reckoned to throw half of what meets them about; loose furniture before them, which helps too, is left out.`,
      working: {
        what: 'Flutter between two parallel faces',
        formula: 'T = 60 / (−10 lg((1 − α1)(1 − α2))) · 2 d / c',
        inputs: [
          { symbol: 'd', name: 'distance', value: ringing.distance, unit: 'mm' },
          { symbol: 'c', name: 'speed of sound', value: ROOM_SPEED, unit: 'm/s' },
        ],
        result: { value: ringing.treated, unit: 's' },
        limit: {
          value: FLUTTER * s.mid.after,
          unit: 's',
          why: 'longer than the rest of the room by half (common practice)',
        },
        source: { title: 'energy left after each pair of reflections' },
        assumes: [
          'each face at 1000 Hz: swallowed and thrown about by what hangs on it, the rest smooth and parallel',
          `open bays and shelves scatter s = ${SCATTER} of it (common practice): α counts as 1 − (1 − α)(1 − s)`,
        ],
      },
    });
  const strongest = s.reflections.filter((r) => r.met === undefined).toSorted((a, b) => b.level - a.level)[0];
  if (strongest)
    notes.push({
      id: `reflection:${strongest.from}/${strongest.face}`,
      about,
      at: strongest.point,
      verdict: 'caution',
      title: `The strongest bare reflection of ${strongest.from} at ${strongest.to} comes off the ${strongest.face}, ${(1000 * strongest.delay).toFixed(1)} ms late`,
      advice:
        strongest.face === 'floor' || strongest.face === 'ceiling'
          ? 'A rug, or a cloud hung by a licensed trade, takes it away; hanging over heads is not for glue.'
          : 'Put an absorber where the balloon stands, or move the microphone nearer to the mouth.',
      working: {
        what: 'Level of the reflection against the direct sound',
        formula: '20 lg(d/L)',
        inputs: [{ symbol: 'L − d', name: 'detour', value: strongest.delay * ROOM_SPEED * 1000, unit: 'mm' }],
        result: { value: strongest.level, unit: 'dB' },
        source: { title: 'J. B. Allen, D. A. Berkley, J. Acoust. Soc. Am. 65', edition: '1979' },
        assumes: ['a mirror-like face; its absorption is not taken off'],
      },
    });
  if (s.tiles.length > 0)
    notes.push({
      id: 'foam-fire:room',
      about,
      verdict: 'caution',
      title: `${s.tiles.reduce((n, t) => n + t.buy, 0)} absorber tiles go on the walls: mind their fire rating`,
      advice: FOAM_CAUTION,
    });
  if (s.tiles.length > 0 && !hasTilePacks(staged))
    notes.push({
      id: 'tiles-unpriced:stock',
      about,
      verdict: 'caution',
      title: 'Tiles and their adhesive are not in the bill: the stock has no packs of them',
      advice: `Add packs with their prices and 'use' of: ${TILE_USES.join(', ')}.`,
    });
  notes.push(...heldByNothing(staged));
  for (const name of new Set(s.unknown))
    notes.push({
      id: `surface:${name}`,
      about,
      verdict: 'caution',
      title: `“${name}” is not in the table of surfaces; another was taken`,
      advice: `${near(name)}Name one of: ${SURFACE_MATERIALS.slice(0, 6)
        .map((m) => m.id)
        .join('; ')} … (setwright reckon lists them).`,
    });
  return notes;
}

/** What of the table was likely meant. */
function near(name: string): string {
  const found = nearest(
    name,
    SURFACE_MATERIALS.map((m) => m.id),
  );
  return found === undefined ? '' : `Did you mean “${found}”? `;
}

/** Absorbers that no wall carries: those that hang free, of which nothing is counted, and tiles with nothing but air behind them. */
function heldByNothing({ plan, option, pieces }: Staged): readonly Note[] {
  const { length } = printersFor(plan.units);
  return option.pieces.flatMap((said, i): readonly Note[] => {
    if (!('absorber' in said)) return [];
    const own = pieces.find((p) => p.id === said.absorber);
    if (!own) return [];
    const base = { id: `held:${said.absorber}`, about: said.absorber, verdict: 'caution' as const };
    const title = said.title ?? said.absorber;
    if (!own.wall)
      return [
        {
          ...base,
          title: `${title} hangs on no wall: its sound is not reckoned, and no tiles are bought for it`,
          advice: 'Give it a wall. A screen that stands free and a cloud under a ceiling are left out here.',
        },
      ];
    if (said.backing !== undefined || !said.out || standsOnLining(own, pieces)) return [];
    return [
      {
        ...base,
        title: `${title} stands ${length(said.out)} off its wall, and nothing is behind its tiles to glue them to`,
        advice:
          'Glue them to the wall itself, or give it a backing and battens that fill the gap. What air behind tiles adds at low notes is not reckoned.',
        cure: {
          title: 'Glue its tiles to the wall',
          edits: [{ op: 'remove', path: ['options', plan.options.indexOf(option), 'pieces', i, 'out'] }],
        },
      },
    ];
  });
}

/** A lining of the same wall lies behind it. */
function standsOnLining({ wall, frame, outside }: PlacedPiece, pieces: readonly PlacedPiece[]): boolean {
  const meet = (a: number, b: number, c: number, d: number): boolean => Math.min(b, d) - Math.max(a, c) > 1;
  return pieces.some(
    (p) =>
      p.kind === 'lining' &&
      p.wall?.id === wall!.id &&
      meet(p.wall.from, p.wall.from + p.outside.max.x, wall!.from, wall!.from + outside.max.x) &&
      meet(p.frame.origin.y, p.frame.origin.y + p.outside.max.y, frame.origin.y, frame.origin.y + outside.max.y),
  );
}
