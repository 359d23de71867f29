import type { Note } from '../../notes/index.ts';
import type { DisplayPiece, ShelfPiece } from '../../plan/index.ts';
import { mm } from '../../quantity/index.ts';
import { exact, type Subject, saying, set, type WallInput } from '../plan-input.ts';
import { isHung } from './carried.ts';
import { caseCure } from './case-cure.ts';
import { displayCure } from './display-cure.ts';
import { type Fixing, fixingOf, sizesFor } from './fastener.ts';
import { isGear } from './gear.ts';
import { gearCure } from './gear-cure.ts';
import { fixingFor } from './held.ts';
import { type Hung, isHungPanel } from './hung-panel.ts';
import { tilesCure } from './panel-cure.ts';
import { holdsWell } from './point.ts';
import { shelfCure } from './shelf-cure.ts';
import { throughOf } from './through.ts';
import { changed, holds, moveTo } from './trial.ts';

/** The first of some changes after which the fixings hold. */
export function cureOf(input: WallInput, subject: Subject): Note['cure'] {
  const { said } = subject;
  const fixing = fixingIn(input, subject);
  const longer = longerCure(input, subject, fixing);
  if (longer) return longer;
  const edge = fixingFor(input, subject)?.points.some((p) => p.lands === 'edge of masonry');
  if (edge && ('display' in said || 'shelf' in said)) return awayCure(input, subject, said);
  if (isHungPanel(said)) return turnedCure(input, subject, said) ?? tilesCure(input, subject, said, fixing);
  if ('display' in said) return displayCure(input, subject, said);
  if ('shelf' in said) return shelfCure(input, subject, said);
  if (isGear(said)) return gearCure(input, subject);
  return 'case' in said ? caseCure(input, subject) : undefined;
}

/** What goes into its holes as the plan stands. */
function fixingIn(input: WallInput, subject: Subject): Fixing {
  const { said, placed } = subject;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const saidWall = input.plan.room.walls.find((w) => w.id === wall.id)!;
  const through = throughOf(input, subject, wall, saidWall);
  return fixingOf(said, saidWall, 'display' in said || (!isHungPanel(said) && isHung(input, subject)), input, through);
}

/** The same screws, long enough for the board they go through. */
function longerCure(input: WallInput, subject: Subject, fixing: Fixing): Note['cure'] {
  const { said, path } = subject;
  const { kind, diameter } = fixing;
  if (kind === 'toggle' || kind === 'hollow-wall anchor') return undefined;
  const sizes = sizesFor(input);
  const length = (kind === 'plug' ? sizes.plugs : sizes.lengths).find(
    (long) =>
      long > fixing.length &&
      holds(input, changed(subject, { fix: { ...said.fix, kind, diameter: mm(diameter), length: mm(long) } })),
  );
  if (length === undefined) return undefined;
  const { length: show } = saying(input);
  return {
    title: `Take ${kind}s ${show(length)} long`,
    edits: said.fix
      ? [set([...path, 'fix', 'length'], exact(input, length))]
      : [set([...path, 'fix'], { kind, diameter: exact(input, diameter), length: exact(input, length) })],
  };
}

/** Moved along its wall until its plugs sit in whole masonry. */
function awayCure(input: WallInput, subject: Subject, said: DisplayPiece | ShelfPiece): Note['cure'] {
  const { placed, path } = subject;
  const centre = placed.wall!.from + said.size.width / 2;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  for (let step = 10; step <= 1000; step += 10)
    for (const to of [centre - step, centre + step]) {
      const from = to - said.size.width / 2;
      if (from < 0 || from + said.size.width > wall.length) continue;
      const moved = { ...subject, placed: { ...placed, wall: { ...placed.wall!, from: mm(from) } } };
      const found = fixingFor(input, moved);
      if (!holdsWell(found) || found!.points.some((p) => p.lands === 'edge of masonry')) continue;
      return {
        title: `Move it ${saying(input).length(step)} away from the edge`,
        edits: moveTo(said, path, to, said.size.width),
      };
    }
  return undefined;
}

/** Battens that stand between the studs turned across them: they run across the panels, so these are turned. */
function turnedCure(input: WallInput, { placed, said, path }: Subject, lining: Hung): Note['cure'] {
  if (!('lining' in said) || !('lining' in lining) || !lining.battens || lining.board !== 'horizontal')
    return undefined;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const { from } = placed.wall!;
  const crossed = wall.studs.some((s) => s.at > from + 30 && s.at < from + lining.size.width - 30);
  return crossed
    ? { title: 'Turn the battens across the studs', edits: [set([...path, 'board'], 'vertical')] }
    : undefined;
}
