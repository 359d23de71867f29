import type { Note, Working } from '../notes/index.ts';
import type { Part } from '../scene/index.ts';
import {
  materialNameOf,
  panelItem,
  SPECIES_NAMES,
  type SpeciesName,
  seasonalMovement,
  stockName,
} from '../stock/index.ts';
import { type Subject, saying, small, titleOf, type WallInput } from './plan-input.ts';

/** Humidity of a heated room in the dry and in the damp season. Common practice; the maker's own hygrometer is better. */
const DRY = 0.3;
const DAMP = 0.6;
/** What screws in their holes and a glue line give way before wood splits or a joint opens, mm. Common practice. */
const GIVES = 1.5;
/** Panels of these words are named after the wood on their face, and do not move like it. */
const LAID_UP = /veneer|faced|laminat|core|print/i;

/** The wood a part moves like: a board of a species, or a panel glued up from one. Undefined for sheet goods and what is not known. */
function solidWood({ plan }: WallInput, { stock }: Part): SpeciesName | undefined {
  if (LAID_UP.test(panelItem(plan.stock, stock)?.kind ?? '')) return undefined;
  const name = materialNameOf(plan.stock, stock);
  return SPECIES_NAMES.find((species) => species === name);
}

/** A solid part, and how much of its width is held by parts that do not move with it. */
interface Held {
  readonly part: Part;
  readonly species: SpeciesName;
  readonly width: number;
  readonly by: readonly Part[];
  readonly glued: boolean;
}

/**
 * Parts of solid wood held across their grain: glued or screwed to sheet goods, or to wood whose grain runs across theirs. Brads
 * bend, and what lies loose in a groove, on pins or on hinges is free; wood beside wood with the same grain moves along with it.
 */
function heldAcross(input: WallInput, { placed }: Subject): readonly Held[] {
  const byId = new Map(placed.parts.map((part) => [part.id, part]));
  return placed.parts.flatMap((part): Held[] => {
    const species = solidWood(input, part);
    if (species === undefined) return [];
    const across = part.axes.width;
    const holds = placed.joints.flatMap((joint) => {
      const other = byId.get(joint.a === part.id ? joint.b : joint.b === part.id ? joint.a : '');
      const fast = joint.fasten.includes('glue') || joint.fasten.includes('screws');
      if (!other || !fast) return [];
      if (solidWood(input, other) !== undefined && other.axes.length !== across) return [];
      return [{ other, from: joint.contact.min[across], to: joint.contact.max[across], joint }];
    });
    if (holds.length === 0) return [];
    const width = Math.max(...holds.map((h) => h.to)) - Math.min(...holds.map((h) => h.from));
    if (width <= 0) return [];
    const glued = holds.some((h) => h.joint.fasten.includes('glue'));
    return [{ part, species, width, by: holds.map((h) => h.other), glued }];
  });
}

/** How far a width of a wood travels between the dry and the damp season of a heated room. */
function travel(species: SpeciesName, width: number): Working {
  const reckoned = seasonalMovement.reckon({
    width,
    species,
    coefficient: undefined,
    direction: 'tangential',
    dry: DRY,
    damp: DAMP,
    temperature: 21,
  });
  return {
    ...reckoned,
    assumes: [
      ...reckoned.assumes,
      `a heated room from ${DRY * 100} to ${DAMP * 100} % humidity (common practice), and flat-sawn wood, which moves most`,
    ],
    limit: { value: GIVES, unit: 'mm', why: 'what fixed screws and glue give', source: 'common practice' },
  };
}

/** Solid wood that is fixed so that it cannot move across its grain: one note for each piece, on the part that travels furthest. */
export function movementNotes(input: WallInput, subject: Subject): readonly Note[] {
  const { placed } = subject;
  const found = heldAcross(input, subject)
    .map((held) => ({ ...held, working: travel(held.species, held.width) }))
    .filter(({ working }) => working.result.value > GIVES)
    .sort((a, b) => b.working.result.value - a.working.result.value);
  const worst = found[0];
  if (!worst) return [];
  const { length } = saying(input);
  const { part, species, width, by, glued, working } = worst;
  const names = [...new Set(by.map((p) => p.label.name))];
  const to = names.length > 2 ? `${names[0]} and ${names.length - 1} more` : names.join(' and ');
  const more = found.length > 1 ? ` The same goes for ${found.length - 1} more of its parts.` : '';
  const panel = panelItem(input.plan.stock, part.stock);
  return [
    {
      id: `across-grain:${part.id}`,
      about: part.id,
      verdict: 'caution',
      title: `The ${part.label.name} of ${titleOf(placed)} is solid wood held across its grain: over ${length(width)} it moves ${small(input, working.result.value)} in a year`,
      advice: [
        `${stockName(input.plan.stock, part.stock)} (${species}) ${glued ? 'glued' : 'screwed'} fast to the ${to} splits, cups or tears its joint.`,
        glued
          ? 'Glue it along one edge only, or leave the glue away, and hold the rest with screws in slots'
          : 'Fix it fast along its front edge, and hold the rest with screws in slotted holes',
        'that run across the grain, with figure-eight clips or with wooden buttons in a groove; each must let it travel the whole movement.',
        `Or take plywood for it.${more}`,
        ...(panel ? [`If ${panel.name ?? panel.id} is not solid, say so in its kind.`] : []),
      ].join(' '),
      working,
    },
  ];
}
