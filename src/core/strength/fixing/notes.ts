import type { Note, Working } from '../../notes/index.ts';
import { STANDARD_GRAVITY } from '../../quantity/index.ts';
import { remember } from '../../remember.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import { ownMass, type Subject, saying, subjectsOf, titleOf, type WallInput } from '../plan-input.ts';
import { WALL_CABINET_PROOF } from '../standards.ts';
import { usedWords } from '../used.ts';
import { isHung } from './carried.ts';
import { CLIMBER, isKeptOnly } from './case-back.ts';
import { isGear, standsOf } from './gear.ts';
import { BRACKET, gearNotes } from './gear-group.ts';
import { WEIGHTLESS } from './group.ts';
import { fixings, keptFixing } from './held.ts';
import { patternNotes } from './hole-pattern.ts';
import { isHungPanel } from './hung-panel.ts';
import { letInNotes } from './let-in.ts';
import { takesNoFixings } from './meant.ts';
import { heldBeside } from './neighbour.ts';
import { cannotOpen, isHeld, isScrew, type PieceFixing } from './point.ts';
import { railNotes, railsOf } from './rails.ts';
import { hollowOf, liningBehind, railsThrough } from './through.ts';

/** Notes on what holds the pieces to the walls. */
export const fixingNotes = (input: WallInput): readonly Note[] =>
  subjectsOf(input).flatMap((subject) => {
    const { placed, said, path } = subject;
    const { room, stock, units } = input.plan;
    const held = keptFixing(input, subject);
    // of what stands round it only the one that may hold it counts
    const hangs = isHung(input, subject);
    const beside = held && !hangs && missingOf(held).all ? heldBeside(input, subject) : undefined;
    const leans = beside && [beside.placed, beside.said, keptFixing(input, beside)];
    // what else is screwed to the timber that it is screwed to
    const beam = held?.points.some((p) => p.lands === 'blocking') ? fixings(input).points : [];
    const from = [
      said,
      path.join(),
      input.room,
      room,
      stock,
      units,
      ownMass(input, placed),
      held,
      hangs,
      isGear(said) && standsOf(input, subject),
      ...(leans ?? []),
      ...(beam.length > 0 ? fixings(input).pieces : []),
    ];
    return told(placed, from, () => {
      const notes = held ? heldNotes(input, subject, held, beside) : [];
      const railed = held && notes.length > 0 && (held.use ?? 0) <= 1 ? railNotes(input, subject, held) : [];
      const timber = held && notes.length > 0 && (held.use ?? 0) <= 1 ? letInNotes(input, subject, held, beam) : [];
      return [
        ...patternNotes(input, subject),
        ...notes,
        ...railed,
        ...timber,
        ...(held ? [] : unheldNotes(input, subject)),
      ];
    });
  });

const told = remember<PlacedPiece, readonly Note[]>();

/** Of what no fixing holds to a wall: gear that hangs all the same, and fixings that the plan tells of what reaches none. */
function unheldNotes(input: WallInput, subject: Subject): readonly Note[] {
  const { placed, said } = subject;
  const own = gearNotes(input, subject);
  const reaches = placed.wall && !(isGear(said) && standsOf(input, subject) === 'in the air');
  if (own.length > 0 || !said.fix || reaches || takesNoFixings(said)) return own;
  return [
    {
      id: `fixing:${placed.id}`,
      about: placed.id,
      verdict: 'caution',
      title: `The ${said.fix.kind}s of ${titleOf(placed)} reach no wall: nothing holds it, and nothing is checked`,
      advice: 'Put it at a wall, or take away what the plan says under fix.',
    },
  ];
}

/** The holes of a piece that hit nothing that holds what goes into them. */
function missingOf({ points }: PieceFixing) {
  const screws = isScrew(points[0]!.kind);
  const shut = points.some((p) => cannotOpen(p.kind, p.lands));
  const missing = points.filter(
    (p) =>
      p.lands === 'edge of masonry' ||
      cannotOpen(p.kind, p.lands) ||
      (screws && (p.lands === 'board only' || p.lands === 'edge of a stud')),
  );
  return { missing, all: missing.length === points.length, shut };
}

/** Whether what holds a piece to its wall holds. */
function heldNotes(
  input: WallInput,
  subject: Subject,
  held: PieceFixing,
  neighbour: Subject | undefined,
): readonly Note[] {
  const { placed, said } = subject;
  const name = titleOf(placed);
  const panels = isHungPanel(said);
  const gear = isGear(said) && standsOf(input, subject);
  const kind = gear === 'on something' || ('case' in said && !isHung(input, subject)) ? 'tall' : 'hung';
  if (isKeptOnly(input, subject)) return [];
  const { missing, all: misses, shut } = missingOf(held);
  const broken = missing.some((p) => p.lands === 'edge of masonry');
  const id = `fixing:${placed.id}`;
  const base = { id, about: placed.id, ...(held.working && { working: held.working }) };
  if (held.use === undefined)
    return [
      {
        ...base,
        verdict: 'caution',
        title: `Whether the fixings of ${name} hold is not known: ${held.unknown}`,
        advice:
          held.unknown === BRACKET
            ? 'It stands off its wall: give the heights of the fixings of its bracket above its own lowest point, under fix: heights. The lower of two takes the bracket’s lower edge.'
            : held.unknown === WEIGHTLESS && gear
              ? 'Give what it weighs, under mass.'
              : held.unknown === WEIGHTLESS
                ? 'Give its stock a kind or species the handbook has, such as birch plywood, or a density: weigh a piece of it.'
                : `${behindOf(input, subject)}Look what is behind the wall, and give the figures from the packet under fix: rated.`,
      },
    ];
  const beside = kind === 'tall' ? neighbour : undefined;
  if (beside) {
    const other = titleOf(beside.placed);
    const { use = 0, working } = keptFixing(input, beside)!;
    return [
      {
        ...base,
        verdict: 'caution',
        title: `No stud stands behind ${name}: ${other} beside it must hold it`,
        advice: `${use > 1 ? `${other} is not held well enough yet: its own note says what would hold it. ` : ''}Join the two with connector bolts through their sides before ${other} is screwed to the wall. Reckoned with one child on one of them, not on both.`,
        ...(working && { working }),
      },
    ];
  }
  if (held.use > 1) {
    return [
      {
        ...base,
        verdict: kind === 'tall' && !misses ? 'caution' : 'stop',
        title: misses
          ? broken
            ? `Every fixing of ${name} sits too near an edge of the masonry`
            : shut
              ? `Every fixing of ${name} lands on the framing, where it cannot open`
              : `Every fixing of ${name} misses the studs`
          : Number.isFinite(held.use)
            ? `The fixings of ${name} do not hold: ${usedWords(held.use)} of what they may take`
            : `The fixings of ${name} do not hold: ${held.unknown}`,
        advice:
          kind === 'tall'
            ? `Reckoned with ${childWords(input)}. ${headWords(placed, held)}Fix it near its top${gear ? '' : ' through the back'} into the framing or the masonry.`
            : panels && !misses
              ? `${mostWords(input, held)}${gapWords(input, held)}Put in more, thicker or longer fixings, or hang up less in one piece.`
              : panels
                ? 'Turn the battens so that they lie across the studs, add timber behind the board, or name toggles or anchors with their figures under fix.'
                : `${mostWords(input, held)}${behindOf(input, subject)}${besideOf(input, held)}${headWords(placed, held)}${gapWords(input, held)}Fix into the framing, nearer to the wall or on a taller plate, with more or stronger fixings; or let timber in behind the board.`,
        tried: true,
      },
    ];
  }
  const off = [
    {
      count: missing.length,
      why: broken ? 'sit too near an edge' : shut ? 'land on the framing, where nothing opens,' : 'miss',
    },
    { count: held.crowded ?? 0, why: 'stand too near another' },
  ]
    .filter(({ count }) => count > 0)
    .map(({ count, why }) => `; ${count} of ${held.points.length} holes ${why} and count for nothing`)
    .join('');
  return [
    {
      ...base,
      verdict: off ? 'caution' : 'fine',
      title: `The fixings of ${name} hold: ${usedWords(held.use)} used${off}`,
      advice: `${
        kind === 'tall'
          ? `Checked with ${childWords(input)}.${gear ? ' Not checked: what it is screwed through.' : `${jointWords(subject)} Fix every tall case.`}`
          : kind === 'hung' && 'case' in said
            ? `${behindOf(input, subject)}${proofWords(input, subject, held)}`
            : panels
              ? `${'absorber' in said ? 'Its screws go through the level joints between the tiles. ' : ''}Checked with its own weight, at rest. Not checked: someone leaning or hanging on it, and whether the framing is where the plan says.`
              : `${behindOf(input, subject)}${besideOf(input, held)}Checked at rest with ${gear ? 'its own weight' : 'its full load'}. Not checked: ${gear ? 'the hook or bracket itself, ' : ''}someone hanging on it, and whether the framing is where the plan says.`
      }`,
    },
  ];
}

/** Of a hung case, what its fixings would be used by the load that wall cabinets are tested with. */
function proofWords(input: WallInput, subject: Subject, { use, working }: PieceFixing): string {
  const { placed } = subject;
  const hangs = massOn(working);
  const proof = WALL_CABINET_PROOF / STANDARD_GRAVITY + ownMass(input, placed);
  const rest = `Checked at rest with its full load.${jointWords(subject)} Not checked: someone hanging on it, and whether the framing is where the plan says.`;
  if (hangs === undefined || use === undefined) return rest;
  // pull and shear both grow with the mass
  return `${rest} Under the ${saying(input).mass(WALL_CABINET_PROOF / STANDARD_GRAVITY)} that wall cabinets are tested with (ANSI/KCMA A161.1) they would be used ${usedWords((use * proof) / hangs)}.`;
}

/** kg that hang on fixings, as their working has it. */
function massOn(working: Working | undefined): number | undefined {
  const given = working?.inputs.find((i) => i.symbol === 'm')?.value;
  return typeof given === 'number' ? given : undefined;
}

/** In words, how much would hold as it hangs there: pull and shear both grow with the mass. */
function mostWords(input: WallInput, { use, working }: PieceFixing): string {
  const hangs = massOn(working);
  if (hangs === undefined || use === undefined || !Number.isFinite(use)) return '';
  const { mass } = saying(input);
  return `${mass(hangs)} hang on them, and they hold ${mass(Math.floor((10 * hangs) / use) / 10)}. `;
}

/** In words, what a case that stands is held against. */
const childWords = (input: WallInput): string =>
  `a child hanging on its front, or pulling outward at its top, with ${saying(input).mass(CLIMBER)} (the test weight of ASTM F2057 and F3096)`;

/** In words, what gives way first where that is under the heads. */
function headWords(placed: PlacedPiece, { head }: PieceFixing): string {
  if (!head) return '';
  const more =
    placed.kind !== 'case'
      ? 'washers under them, or something thicker, bear'
      : railsOf(placed).length > 0
        ? 'thicker rails, or washers under the heads, bear'
        : 'a thicker back, or hanging rails behind it, bears';
  return `The heads pull through what they bear on before what is behind lets go: ${more} more. `;
}

/** In words, that screws into timber have nothing to bear on before it. */
function gapWords(input: WallInput, { gap }: PieceFixing): string {
  return gap
    ? `The ${saying(input).length(gap)} between it and the framing count as a gap: plasterboard is crushed before it bears (AWC TR12), and thicker screws or more of them help most. `
    : '';
}

/** In words, that nobody reckons what holds a back to its case where no rails do. */
function jointWords(subject: Subject): string {
  if (!('case' in subject.said) || railsThrough(subject).length > 0) return '';
  const back = subject.placed.parts.some((p) => p.role === 'back');
  return back
    ? ' Not checked: the joint of the back to the case, glue and brads without published figures; hanging rails behind the back would carry it (rails in the plan; common practice).'
    : ' Not checked: what it is screwed through, as it has no back.';
}

/** In words, the lining that the fixings go through. */
function behindOf(input: WallInput, subject: Subject): string {
  const behind = liningBehind(input, subject);
  if (!behind) return '';
  const { length } = saying(input);
  const hollow = hollowOf(behind);
  const pack =
    hollow > 0 ? ` Pack the hollow of ${length(hollow)} behind it at every hole, or the screws pull the panel in.` : '';
  return `Its fixings go through ${titleOf(behind)}: longer by ${length(behind.outside.max.z)}.${pack} `;
}

/** In words, where a wall plate is to sit when it is not behind the middle of its display. */
function besideOf(input: WallInput, { shift, points }: PieceFixing): string {
  if (shift === undefined) return '';
  const { length } = saying(input);
  return `The wall plate sits ${length(Math.abs(shift))} to the ${shift < 0 ? 'left' : 'right'} of the display's centre: there ${points.filter(isHeld).length} of its ${points.length} fixings land in the framing, more than behind the middle. The rails of the display still hang on it. `;
}
