import { type Framed, framesOf, sittersOf } from '../camera/index.ts';
import type { Note, Working } from '../notes/index.ts';
import type { Staged } from '../surroundings/index.ts';
import { saidOf } from './fields.ts';
import { COARSE, type FaceLight, type LightPlan, lightOf } from './plan.ts';
import { DAYLIGHT } from './ways.ts';

/** In words, daylight that comes in beside warmer lamps: it, not the paint, is what tints a face then. */
function daylightBeside({ plan, option, room }: Staged): string | undefined {
  const panes = room.openings.filter((o) => saidOf(plan, o)?.daylight);
  const warm = Math.min(...option.pieces.flatMap((p) => ('lamp' in p || ('strip' in p && p.lumens) ? [p.kelvin] : [])));
  if (panes.length === 0 || warm > 5000) return undefined;
  return `Daylight of about 6500 K through ${panes.map((o) => o.id).join(' and ')} meets lamps of ${warm} K, and each side of a face takes the colour of its own: draw a blind, or take lamps of 5000 to 6500 K and balance the camera to them.`;
}

/** Lamps of several colours, each of which lights a face more or less than the rest of the room: they, not the paint, tint it then. */
function lampsApart({ option }: Staged, { cast, ofRoom }: FaceLight): string | undefined {
  const kelvins = option.pieces.flatMap((p) => ('lamp' in p || ('strip' in p && p.lumens) ? [p.kelvin] : []));
  const [warm, cold] = [Math.min(...kelvins), Math.max(...kelvins)];
  if (ofRoom === undefined || warm === cold || ofRoom > cast.difference / 2) return undefined;
  return `Lamps of ${warm} to ${cold} K light it in other shares than the rest of the room; what the room sends back adds ΔE00 ${ofRoom.toFixed(1)} to that. Take lamps and strips of one colour temperature.`;
}

/** A cast is seen side by side from about so much on, and worth a brush from the other. Common practice. */
const CAST_SEEN = 1;
const CAST_LIMIT = 2;
/** ISO a camera needs for a mid exposure: C N²/(E t), C = 250 for a flat receptor. From memory of ISO 2720. */
const METER = 250;

/** The ISO from which noise begins to show. Common practice. */
const NOISY = 1600;

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
  const isBright = (face: FaceLight): boolean => face.lux >= DARKEST;
  const bright = light.faces.filter(isBright);
  const dark = light.faces.filter((face) => !isBright(face)).map((face) => darkFace(light, face));
  const first = light.faces[0]!;
  // colours, paints and exposure are told of the first face
  if (!isBright(first)) return dark;
  const worst = bright.reduce((a, b) => (b.cast.difference > a.cast.difference ? b : a));
  return [
    ...dark,
    ...darkSet(light, first),
    castNote(staged, light, worst),
    ...framesOf(staged).map((frame) => exposureNote(frame, first)),
    ...uneven(bright, worst),
  ];
}

const workingOf = ({ faces, workings }: LightPlan, face: FaceLight): Working => workings[faces.indexOf(face)]!;

const darkFace = (light: LightPlan, face: FaceLight): Note => ({
  id: `dark-face:${face.id}`,
  about: face.id,
  at: face.at,
  verdict: 'caution',
  title: `No light to speak of reaches the face of ${face.title}`,
  advice: 'Its lamps shine into something that stands round them, or away: move them or what hides them.',
  working: workingOf(light, face),
});

/** What a set of pale wood would leave of the lamps' light, where that is much more. */
function darkSet({ paler, lumens }: LightPlan, face: FaceLight): readonly Note[] {
  if (paler === undefined || paler <= 1.15) return [];
  return [
    {
      id: 'dark-set:room',
      about: face.id,
      at: face.at,
      verdict: 'caution',
      title: `The dark set swallows light: ${face.title} would have ${Math.round(100 * (paler - 1))} % more before pale wood`,
      advice: `To light the face as well, the lamps need ${Math.round((lumens * paler) / 100) * 100} lm instead of ${Math.round(lumens / 100) * 100}.`,
    },
  ];
}

/** The cast on the face that has most of it. */
function castNote(staged: Staged, light: LightPlan, face: FaceLight): Note {
  const { cast, before } = face;
  const isBad = cast.difference > CAST_LIMIT;
  const daylight = cast.kelvinShift > 0 ? daylightBeside(staged) : undefined;
  const lamps = isBad && daylight === undefined ? lampsApart(staged, face) : undefined;
  const mixed = daylight ?? lamps;
  const what = daylight ? 'Daylight beside the lamps puts' : lamps ? 'Lamps of several colours put' : 'The room puts';
  const painted = light.painted ? `; before painting ${before.cast.difference.toFixed(1)}` : '';
  return {
    id: 'colour-cast:room',
    about: face.id,
    at: face.at,
    verdict: isBad ? 'caution' : 'fine',
    title: `${what} ${cast.words} on ${face.title}: ΔE00 ${cast.difference.toFixed(1)}${painted}`,
    advice: isBad
      ? [
          `${cast.kelvinShift > 0 ? '+' : '−'}${Math.abs(Math.round(cast.kelvinShift))} K.`,
          mixed ?? causeWords(light),
          lamps ? '' : paintWords(light, face),
          'Or balance the camera to a white card held at the face.',
        ]
          .filter((words) => words !== '')
          .join(' ')
      : 'Checked against the lamps alone. Not checked: the colour rendering of the lamps themselves.',
    working: {
      ...workingOf(light, face),
      what: `Cast of the light on the face of ${face.title}`,
      result: { value: cast.difference, unit: '' },
      limit: { value: CAST_LIMIT, unit: '', why: 'a cast that is plainly seen (common practice)' },
      also: [
        { symbol: 'E', name: 'light on the face', value: face.lux, unit: 'lx' },
        { symbol: 'ΔT', name: 'shift of the colour temperature', value: cast.kelvinShift, unit: 'K' },
        { symbol: 'ΔDuv', name: 'shift from the locus', value: cast.duvShift, unit: '' },
      ],
    },
  };
}

/** In words, what most of the cast comes from; nothing, where that is the daylight or many things. */
function causeWords({ causes: [main] }: LightPlan): string {
  if (!main || main.what === DAYLIGHT || main.takes <= 0.5) return '';
  const they = main.what === 'walls' || main.what.startsWith('cases') ? 'they' : 'it';
  return `Most of it comes from the ${main.what}: were ${they} grey, ${main.without.toFixed(1)} would be left.`;
}

/**
 * In words, the brightest of the paints that leave hardly more cast than the one that leaves least, and less than there is. They are
 * tried on the first face.
 */
function paintWords({ paints, faces: [first] }: LightPlan, face: FaceLight): string {
  if (paints.length === 0) return '';
  const most = Math.min(paints[0]!.cast.difference + 2, first!.cast.difference - CAST_SEEN);
  const best = paints.filter((paint) => paint.cast.difference <= most).toSorted((a, b) => b.lux - a.lux)[0];
  const where = face === first ? '' : ` for ${first!.title}`;
  return best
    ? `Of the paints tried, ${best.name} on the walls does best${where}: ΔE00 ${best.cast.difference.toFixed(1)}, ${Math.round(best.lux)} lx.`
    : `None of the paints tried takes much of it away${where}.`;
}

/** What a camera is set to for the light on a face. */
function exposureNote({ id, title, camera, piece }: Framed, { lux, title: face }: FaceLight): Note {
  const speed = (METER * piece.stop ** 2 * piece.shutter) / lux;
  const isNoisy = speed > NOISY;
  return {
    id: `exposure:${id}`,
    about: id,
    at: camera.at,
    verdict: isNoisy ? 'caution' : 'fine',
    title: `${title} needs about ISO ${Math.round(speed / 10) * 10} for ${Math.round(lux)} lx on ${face}`,
    advice: isNoisy
      ? 'More lumens, lighter walls and cases, a wider stop or a longer exposure: dark colours swallow what the lamps give.'
      : 'At the stop and shutter of the plan.',
    working: {
      what: 'Speed the picture needs',
      formula: 'S = C N²/(E t)',
      inputs: [
        { symbol: 'C', name: 'incident-light constant, flat receptor', value: METER, unit: '', source: 'from memory' },
        { symbol: 'N', name: 'stop', value: piece.stop, unit: '' },
        { symbol: 'E', name: 'light on the face', value: lux, unit: 'lx' },
        { symbol: 't', name: 'exposure', value: 1 / piece.shutter, unit: 's' },
      ],
      result: { value: speed, unit: '' },
      limit: { value: NOISY, unit: '', why: 'noise that begins to show (common practice)' },
      source: 'from memory',
      assumes: ['the calibration of an incident-light meter'],
    },
  };
}

/** Of several faces, when one has more than a stop more light than another. */
function uneven(faces: readonly FaceLight[], { id }: FaceLight): readonly Note[] {
  const lux = faces.map((face) => face.lux);
  const times = Math.max(...lux) / Math.min(...lux);
  if (times <= 2) return [];
  return [
    {
      id: 'faces-even:room',
      about: id,
      verdict: 'caution',
      title: `One face has ${times.toFixed(1)} times the light of another`,
      advice: 'A stop is a factor of 2: move a lamp towards the darker face, or turn the seats.',
    },
  ];
}
