import { framesOf, sittersOf } from '../camera/index.ts';
import type { Note, Working } from '../notes/index.ts';
import type { Staged } from '../surroundings/index.ts';
import { saidOf } from './fields.ts';
import { COARSE, lightOf } from './plan.ts';
import { DAYLIGHT } from './ways.ts';

/** In words, daylight that comes in beside warmer lamps: it, not the paint, is what tints a face then. */
function daylightBeside({ plan, option, room }: Staged): string | undefined {
  const panes = room.openings.filter((o) => saidOf(plan, o)?.daylight);
  const warm = Math.min(...option.pieces.flatMap((p) => ('lamp' in p || ('strip' in p && p.lumens) ? [p.kelvin] : [])));
  if (panes.length === 0 || warm > 5000) return undefined;
  return `Daylight of about 6500 K through ${panes.map((o) => o.id).join(' and ')} meets lamps of ${warm} K, and each side of a face takes the colour of its own: draw a blind, or take lamps of 5000 to 6500 K and balance the camera to them.`;
}

/** A cast seen side by side from about 1; from 2 it is worth a brush. Common practice. */
const CAST_LIMIT = 2;
/** ISO a camera needs for a mid exposure: C N²/(E t), C = 250 for a flat receptor. From memory of ISO 2720. */
const METER = 250;

/** Less than this on a face is darkness to a camera, lx: of nothing no colour can be told. Common practice. */
const DARKEST = 0.1;

/** Who is filmed by the light of nothing that the plan knows. */
function unlit(staged: Staged): readonly Note[] {
  const [first] = sittersOf(staged);
  if (!first || framesOf(staged).length === 0) return [];
  return [
    {
      id: 'no-lamp:room',
      about: first.id,
      at: first.eyes,
      verdict: 'caution',
      title: 'Light on faces is not worked out: no lamp is in the plan',
      advice: 'Add the lamps of the room, with the lumens that stand on their packing, or give a strip its lumens.',
    },
  ];
}

/** Notes on light: colour cast and its cure, exposure, evenness between people. */
export function lightNotes(staged: Staged, size = COARSE): readonly Note[] {
  const light = lightOf(staged, size);
  if (!light) return unlit(staged);
  const bright = light.faces.filter((f) => f.lux >= DARKEST);
  const notes: Note[] = light.faces
    .filter((f) => !(f.lux >= DARKEST))
    .map((f) => ({
      id: `dark-face:${f.id}`,
      about: f.id,
      at: f.at,
      verdict: 'caution',
      title: `No light to speak of reaches the face of ${f.title}`,
      advice: 'Its lamps shine into something that stands round them, or away: move them or what hides them.',
      working: light.workings[light.faces.indexOf(f)]!,
    }));
  const first = light.faces[0]!;
  // colours, paints and exposure are told of the first face
  if (first !== bright[0]) return notes;
  const worst = bright.reduce((a, b) => (b.cast.difference > a.cast.difference ? b : a));
  const working = light.workings[light.faces.indexOf(worst)]!;
  const limited: Working = {
    ...working,
    what: `Cast of the light on the face of ${worst.title}`,
    result: { value: worst.cast.difference, unit: '' },
    limit: { value: CAST_LIMIT, unit: '', why: 'a cast that is plainly seen (common practice)' },
    also: [
      { symbol: 'E', name: 'light on the face', value: worst.lux, unit: 'lx' },
      { symbol: 'ΔT', name: 'shift of the colour temperature', value: worst.cast.kelvinShift, unit: 'K' },
      { symbol: 'ΔDuv', name: 'shift from the locus', value: worst.cast.duvShift, unit: '' },
    ],
  };
  // The brightest of those that leave hardly more cast than the least.
  const best = light.paints
    .filter((p) => p.cast.difference <= light.paints[0]!.cast.difference + 2)
    .toSorted((a, b) => b.lux - a.lux)[0];
  const before = light.painted ? `; before painting ${worst.before.cast.difference.toFixed(1)}` : '';
  const bad = worst.cast.difference > CAST_LIMIT;
  const main = light.causes[0];
  const cause =
    main && main.what !== DAYLIGHT && main.takes > 0.5
      ? `Most of it comes from the ${main.what}: were ${main.what === 'walls' || main.what.startsWith('cases') ? 'they' : 'it'} grey, ${main.without.toFixed(1)} would be left.`
      : '';
  const mixed = worst.cast.kelvinShift > 0 ? daylightBeside(staged) : undefined;
  if (light.paler !== undefined && light.paler > 1.15)
    notes.push({
      id: 'dark-set:room',
      about: first.id,
      at: first.at,
      verdict: 'caution',
      title: `The dark set swallows light: ${first.title} would have ${Math.round(100 * (light.paler - 1))} % more before pale wood`,
      advice: `To light the face as well, the lamps need ${Math.round((light.lumens * light.paler) / 100) * 100} lm instead of ${Math.round(light.lumens / 100) * 100}.`,
    });
  notes.push({
    id: 'colour-cast:room',
    about: worst.id,
    at: worst.at,
    verdict: bad ? 'caution' : 'fine',
    title: `${mixed ? 'Daylight beside the lamps' : 'The room'} puts ${worst.cast.words} on ${worst.title}: ΔE00 ${worst.cast.difference.toFixed(1)}${before}`,
    advice: bad
      ? [
          `${worst.cast.kelvinShift > 0 ? '+' : '−'}${Math.abs(Math.round(worst.cast.kelvinShift))} K.`,
          ...(mixed ? [mixed] : cause ? [cause] : []),
          ...(best
            ? [
                `Of the paints tried, ${best.name} on the walls does best: ΔE00 ${best.cast.difference.toFixed(1)}, ${Math.round(best.lux)} lx.`,
              ]
            : []),
          'Or balance the camera to a white card held at the face.',
        ].join(' ')
      : 'Checked against the lamps alone. Not checked: the colour rendering of the lamps themselves.',
    working: limited,
  });
  for (const frame of framesOf(staged)) {
    const speed = (METER * frame.piece.stop ** 2 * frame.piece.shutter) / first.lux;
    notes.push({
      id: `exposure:${frame.id}`,
      about: frame.id,
      at: frame.camera.at,
      verdict: speed > 1600 ? 'caution' : 'fine',
      title: `${frame.title} needs about ISO ${Math.round(speed / 10) * 10} for ${Math.round(first.lux)} lx on ${first.title}`,
      advice:
        speed > 1600
          ? 'More lumens, lighter walls and cases, a wider stop or a longer exposure: dark colours swallow what the lamps give.'
          : 'At the stop and shutter of the plan.',
      working: {
        what: 'Speed the picture needs',
        formula: 'S = C N²/(E t)',
        inputs: [
          {
            symbol: 'C',
            name: 'incident-light constant, flat receptor',
            value: METER,
            unit: '',
            source: 'from memory',
          },
          { symbol: 'N', name: 'stop', value: frame.piece.stop, unit: '' },
          { symbol: 'E', name: 'light on the face', value: first.lux, unit: 'lx' },
          { symbol: 't', name: 'exposure', value: 1 / frame.piece.shutter, unit: 's' },
        ],
        result: { value: speed, unit: '' },
        limit: { value: 1600, unit: '', why: 'noise that begins to show (common practice)' },
        source: 'from memory',
        assumes: ['the calibration of an incident-light meter'],
      },
    });
  }
  const [low, high] = [Math.min(...bright.map((f) => f.lux)), Math.max(...bright.map((f) => f.lux))];
  if (bright.length > 1 && high > 2 * low)
    notes.push({
      id: 'faces-even:room',
      about: worst.id,
      verdict: 'caution',
      title: `One face has ${(high / low).toFixed(1)} times the light of another`,
      advice: 'A stop is a factor of 2: move a lamp towards the darker face, or turn the seats.',
    });
  return notes;
}
