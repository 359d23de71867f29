import type { Note } from '../../notes/index.ts';
import type { DisplayPiece, Edit } from '../../plan/index.ts';
import { type Subject, set, type WallInput } from '../plan-input.ts';
import { sizesFor } from './fastener.ts';
import { changed, holds, moveTo } from './trial.ts';

/** Stronger screws, a plate that reaches the studs, no arm: in this order, where it hangs or at the nearest stud. */
export function displayCure(input: WallInput, subject: Subject, said: DisplayPiece): Note['cure'] {
  const { path, placed } = subject;
  const wall = input.room.walls.find((w) => w.id === placed.wall!.id)!;
  const saidWall = input.plan.room.walls.find((w) => w.id === wall.id)!;
  if (saidWall.framing?.kind !== 'timber stud' && saidWall.framing?.kind !== 'steel stud') return undefined;
  const centre = placed.wall!.from + said.size.width / 2;
  const steel = saidWall.framing.kind === 'steel stud';
  const sizes = sizesFor(input);
  const fixes = steel
    ? [{ kind: 'self-drilling screw', ...sizes.heavyDrilling } as const]
    : sizes.lags.map((lag) => ({ kind: 'lag screw', ...lag }) as const);
  const plates = [undefined, { width: 450, height: 450 }, { width: 900, height: 450 }, { width: 900, height: 600 }];
  const mounts = said.mount?.kind === 'arm' ? (['arm', 'tilt'] as const) : [said.mount?.kind ?? 'fixed'];
  for (const kind of mounts)
    for (const plate of plates)
      for (const fix of fixes) {
        // where it hangs, or pulled along to the nearest stud
        const nearest = wall.studs.map((s) => s.at).sort((a, b) => Math.abs(a - centre) - Math.abs(b - centre))[0];
        for (const to of nearest === undefined ? [centre] : [centre, nearest]) {
          const mount = { ...(said.mount ?? {}), kind, ...(plate && { plate }) } as NonNullable<DisplayPiece['mount']>;
          const moved = {
            ...placed,
            wall: { ...placed.wall!, from: (to - said.size.width / 2) as NonNullable<typeof placed.wall>['from'] },
          };
          const tried = changed({ ...subject, placed: moved }, { mount, fix: fix as NonNullable<DisplayPiece['fix']> });
          if (!holds(input, tried)) continue;
          const edits: Edit[] = [
            set([...path, 'fix'], { kind: fix.kind, diameter: `${fix.diameter} mm`, length: `${fix.length} mm` }),
          ];
          if (plate)
            edits.push(set([...path, 'mount', 'plate'], { width: `${plate.width} mm`, height: `${plate.height} mm` }));
          if (kind !== (said.mount?.kind ?? 'fixed')) edits.push(set([...path, 'mount', 'kind'], kind));
          if (to !== centre) edits.push(...moveTo(said, path, to, said.size.width));
          const what = [
            `Fix it with ${fix.kind}s into the studs`,
            ...(plate ? ['on a plate that reaches them'] : []),
            ...(kind !== (said.mount?.kind ?? 'fixed') ? ['without the arm'] : []),
          ];
          return { title: what.join(', '), edits };
        }
      }
  return undefined;
}
