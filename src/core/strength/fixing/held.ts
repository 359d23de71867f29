import { remember } from '../../remember.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import { ownMass, type Subject, subjectsOf, titleOf, type WallInput } from '../plan-input.ts';
import { isHung } from './carried.ts';
import { caseGroup, isKeptOnly } from './case-back.ts';
import { slid } from './display-plate.ts';
import { fixingOf } from './fastener.ts';
import { isGear, standsOf } from './gear.ts';
import { gearGroup } from './gear-group.ts';
import { type Group, hold } from './group.ts';
import { isHungPanel } from './hung-panel.ts';
import { liningGroup } from './lining-holes.ts';
import type { FixingPlan, PieceFixing } from './point.ts';
import { shelfGroup } from './shelf-plate.ts';
import { hollowOf, liningBehind, throughOf } from './through.ts';

/** Every hole the option asks for in its walls: what goes in, what it lands on, how much of it is used. */
export const fixings = (input: WallInput): FixingPlan =>
  plans(input, [], () => {
    const pieces = subjectsOf(input).flatMap((subject) => keptFixing(input, subject) ?? []);
    return { pieces, points: pieces.flatMap((p) => p.points) };
  });

const plans = remember<WallInput, FixingPlan>();

/** The same as `fixingFor`, kept while nothing it looks at changes: not for what a cure tries out. */
export function keptFixing(input: WallInput, subject: Subject): PieceFixing | undefined {
  // several ask it of every piece of one input
  const known = asked(input, [], () => new Map<PlacedPiece, PieceFixing | undefined>());
  if (!known.has(subject.placed)) known.set(subject.placed, fixingAsBefore(input, subject));
  return known.get(subject.placed);
}
const asked = remember<WallInput, Map<PlacedPiece, PieceFixing | undefined>>();

function fixingAsBefore(input: WallInput, subject: Subject): PieceFixing | undefined {
  const { room, stock, units } = input.plan;
  const behind = liningBehind(input, subject);
  const from = [
    subject.said,
    input.room,
    room,
    stock,
    units,
    ownMass(input, subject.placed),
    behind,
    isHung(input, subject),
    isGear(subject.said) && standsOf(input, subject),
  ];
  return kept(subject.placed, from, () => {
    const held = fixingFor(input, subject);
    return held && behind ? { ...held, behind: { title: titleOf(behind), hollow: hollowOf(behind) } } : held;
  });
}

const kept = remember<PlacedPiece, PieceFixing | undefined>();

/** How one piece is held to its wall; undefined for what is not fixed. */
export function fixingFor(input: WallInput, subject: Subject): PieceFixing | undefined {
  const { placed, said } = subject;
  const wall = placed.wall && input.room.walls.find((w) => w.id === placed.wall!.id);
  const saidWall = wall && input.plan.room.walls.find((w) => w.id === wall.id);
  if (!wall || !saidWall) return undefined;
  const through = throughOf(input, subject, wall, saidWall);
  const fixing = fixingOf(
    said,
    saidWall,
    'display' in said || (!isHungPanel(said) && isHung(input, subject)),
    input,
    through,
  );
  if ('display' in said) return slid(input, subject, said, wall, saidWall, fixing, through);
  const group: (Group & { readonly unknown?: string }) | undefined = isHungPanel(said)
    ? liningGroup(input, subject, said, wall, saidWall, fixing)
    : 'shelf' in said
      ? shelfGroup(input, subject, said, wall, fixing)
      : 'case' in said
        ? caseGroup(input, subject, wall, saidWall)
        : isGear(said)
          ? gearGroup(input, subject, said, wall, saidWall, fixing)
          : undefined;
  if (!group || group.holes.length === 0) return undefined;
  const held = hold(input.room, subject, wall, saidWall, fixing, group.holes, group.hanging, through);
  if (group.unknown !== undefined) return unreckoned(held, group.unknown);
  return isKeptOnly(input, subject) ? { ...held, idle: true } : held;
}

/** Its holes without a share of what they may take, unless none of them holds at all. */
function unreckoned({ points, working: _, use, ...held }: PieceFixing, unknown: string): PieceFixing {
  if (use === Number.POSITIVE_INFINITY) return { ...held, points, use };
  return { ...held, points: points.map(({ use: __, ...point }) => point), unknown };
}
