import type { Note } from '../notes/index.ts';
import { type Body, isLoose, type Standing } from './bodies.ts';
import { areNear, overlapDepth, sharedPoint } from './oriented.ts';
import { lengthWorking, named, type Show, TOUCH } from './said.ts';

/** Two pieces, as they stand in the list, whose solids run into each other. What stands inside an open bay of another meets none of its solids. */
export function meetingNote(a: Standing, b: Standing, show: Show): Note | undefined {
  if (!areNear(a.outside, b.outside) || overlapDepth(a.outside, b.outside) <= TOUCH) return undefined;
  const worst = deepest(a.bodies(), b.bodies());
  if (!worst) return undefined;
  const loose = isLoose(a.piece) || isLoose(b.piece);
  const [first, second] = [a.piece.id, b.piece.id].toSorted();
  return {
    id: `meets:${first}/${second}`,
    about: b.piece.id,
    at: sharedPoint(worst.a.upright, worst.b.upright),
    verdict: loose ? 'caution' : 'stop',
    title: `${named(b.piece)} runs ${show(worst.depth)} into ${named(a.piece)}`,
    advice: loose
      ? 'A thing counts as its whole outside box: look whether they really meet there, else move one of them.'
      : 'Move or narrow one of them by at least that much.',
    working: lengthWorking(
      'How far two pieces reach into each other',
      'the shortest straight move that parts the two solids that meet deepest',
      [],
      worst.depth,
      { value: 0, why: 'two solids cannot be in one place' },
    ),
  };
}

function deepest(as: readonly Body[], bs: readonly Body[]): { a: Body; b: Body; depth: number } | undefined {
  let worst: { a: Body; b: Body; depth: number } | undefined;
  for (const a of as)
    for (const b of bs) {
      if (!areNear(a.upright, b.upright)) continue;
      const depth = overlapDepth(a.upright, b.upright);
      if (depth > TOUCH && depth > (worst?.depth ?? 0)) worst = { a, b, depth };
    }
  return worst;
}

/** The bodies of all pieces but one that reach into an upright. */
export function reaching(
  all: readonly Standing[],
  except: string,
  into: Body['upright'],
): readonly { readonly by: Standing; readonly body: Body; readonly depth: number }[] {
  const found: { by: Standing; body: Body; depth: number }[] = [];
  for (const by of all) {
    if (!areNear(by.outside, into) || by.piece.id === except || overlapDepth(by.outside, into) <= TOUCH) continue;
    const hit = deepest([{ upright: into, role: '' }], by.bodies());
    if (hit) found.push({ by, body: hit.b, depth: hit.depth });
  }
  return found;
}
