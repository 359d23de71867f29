import fc from 'fast-check';
import { expect, it } from 'vitest';
import '../../../test/seed.ts';
import { anyHouse, planOfHouse } from '../houses.testing.ts';
import { calendarInput, workOut } from '../outcome.ts';
import { calendarOf, type DatedTaskOf } from './index.ts';

const today = '2026-11-25';
const HOUR = 60;
/** A coat takes the next after eight hours: published, in air no colder than theirs. */
const COAT = 8 * HOUR;

/** What of a job comes before what, read from its dates and from the room alone: none of what decides them is asked. */
it('every room is made in an order in which it can be made', () =>
  fc.assert(
    fc.property(anyHouse, (house) => {
      const plan = planOfHouse(house);
      const outcome = workOut(plan, plan.options[0]!, { today, effort: { steps: 0 } });
      const { tasks, impossible } = calendarOf({ ...calendarInput(outcome, today), steps: 40, brief: true });
      expect(impossible).toBeUndefined();
      const named = (pattern: RegExp): readonly DatedTaskOf[] => tasks.filter(({ task }) => pattern.test(task.id));
      const of = (piece: string, ...verbs: readonly string[]): readonly DatedTaskOf[] =>
        tasks.filter(
          ({ task: { id, pieces = [] } }) =>
            pieces.includes(piece) &&
            // a batch is called by what is in it
            verbs.some((verb) => within(id, `${verb} ${piece}`) || (pieces.length > 1 && id.startsWith(`${verb} · `))),
        );
      const before = (some: readonly DatedTaskOf[], others: readonly DatedTaskOf[], wait = 0): void => {
        for (const a of some)
          for (const b of others)
            if (b.start < a.end + wait) expect.fail(`${b.task.id} begins ${b.start}, ${a.task.id} ends ${a.end}`);
      };

      const walls = named(/ (walls|ceiling)( \d+)?$/).filter(({ task }) => task.phase === 'room');
      const room = [...named(/^clear room/), ...walls];
      const marked = named(/^set out walls/);
      const entered = tasks.filter(({ task }) => task.place === 'room' && ['fitting', 'last'].includes(task.phase));
      before(named(/^clear room/), walls);
      before(room, entered);
      before(named(/ coat (walls|ceiling)( \d+)?$/), entered, COAT);
      const first = named(/^first coat walls/);
      before(first, named(/^second coat walls/), COAT);

      for (const piece of outcome.pieces) {
        const cut = [...new Set(piece.parts.map((part) => part.stock))].flatMap((stock) =>
          tasks.filter(({ task }) => [`cut ${stock}`, `break down ${stock}`].some((id) => within(task.id, id))),
        );
        const sanded = of(piece.id, 'sand parts');
        const joined = of(piece.id, 'assemble', 'turn');
        const coated = of(piece.id, 'first coat', 'second coat');
        const carried = of(piece.id, 'carry', 'line');
        const fixed = of(piece.id, 'fix', 'line');
        before(cut, [...sanded, ...joined]);
        before(sanded, joined);
        before(joined, of(piece.id, 'fill', 'sand'), 0);
        before(of(piece.id, 'fill'), coated);
        before(of(piece.id, 'first coat'), of(piece.id, 'second coat'), COAT);
        before(coated, carried, COAT);
        before(marked, [...carried, ...fixed, ...of(piece.id, 'mount')]);
        before(carried, of(piece.id, 'scribe', 'fix'));
        before(of(piece.id, 'scribe'), of(piece.id, 'fix'));
        before(fixed, of(piece.id, 'hang'));
        // what a display hangs before or stands over is there first
        if (piece.kind === 'display')
          for (const other of outcome.pieces)
            if (other !== piece && other.wall?.id === piece.wall?.id && meets(piece, other))
              before(of(other.id, 'fix', 'line'), of(piece.id, 'mount'));
        if (piece.kind === 'trim') {
          for (const other of outcome.pieces) before(of(other.id, 'fix'), of(piece.id, 'fit'));
          expect(sanded.length, piece.id).toBeGreaterThan(0);
          before(sanded, named(/ coat trim/));
          before(named(/ coat trim/), of(piece.id, 'fit'), COAT);
        }
      }
      before(named(/ coat fronts/), named(/^hang /), COAT);
      before(named(/^(fit|fix|hang|line|mount|wire) /), named(/^clean room/));
      before(named(/^clean room/), named(/^(look over|check on camera)/));
    }),
    { numRuns: 10 },
  ));

/** `cut ply 18`, or `cut ply 18 2` where it is told in parts. */
const within = (id: string, whole: string): boolean =>
  id === whole || (id.startsWith(`${whole} `) && /^\d+$/.test(id.slice(whole.length + 1)));

type Placed = ReturnType<typeof workOut>['pieces'][number];
function meets(a: Placed, b: Placed): boolean {
  const [from, to] = [a.wall!.from + a.outside.min.x, a.wall!.from + a.outside.max.x];
  return from < b.wall!.from + b.outside.max.x && b.wall!.from + b.outside.min.x < to;
}
