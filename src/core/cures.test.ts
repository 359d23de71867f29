import fc from 'fast-check';
import { expect, it } from 'vitest';
import { cureOf } from './cures.ts';
import { anyHouse, plainOf } from './houses.testing.ts';
import { sceneOf } from './outcome.ts';
import { applyToPlain, type Edit, type PlainValue, type Plan, planOf } from './plan/index.ts';

type Said = { [key: string]: unknown };

/** Gear behind some of the doors of a house, which gets warm and asks for vents. */
function heated(plain: Said, watts: readonly number[]): PlainValue {
  let next = 0;
  const into = (bay: Said, shut = false): Said => {
    const behind = shut || bay.door !== undefined;
    const divided = (['columns', 'rows'] as const).find((key) => bay[key]);
    if (divided) return { ...bay, [divided]: (bay[divided] as Said[]).map((inner) => into(inner, behind)) };
    const heat = behind ? watts[next++ % watts.length]! : 0;
    return heat > 0 ? { ...bay, heat } : bay;
  };
  const options = plain.options as Said[];
  const pieces = (options[0]!.pieces as Said[]).map((piece) =>
    piece.case && piece.inside ? { ...piece, inside: into(piece.inside as Said) } : piece,
  );
  return { ...plain, options: [{ ...options[0], pieces }] } as PlainValue;
}

/** Something on the first shelves inside the cases of a house, which it may overload. */
function stocked(plain: PlainValue, kgs: readonly number[]): PlainValue {
  const { plan } = planOf(plain);
  const shelves = sceneOf(plan!, plan!.options[0]!).pieces.flatMap(({ wall, frame, parts, kind }) =>
    kind === 'case' && wall
      ? parts
          .filter(({ role }) => role === 'fixed shelf' || role === 'adjustable shelf')
          .map(({ solid: { box } }) => ({ wall, box, above: frame.origin.y + box.max.y }))
      : [],
  );
  const things = shelves.slice(0, kgs.length).flatMap(({ wall, box: { min, max }, above }, i) =>
    kgs[i] === 0
      ? []
      : [
          {
            ...{
              thing: `in ${i}`,
              wall: wall.id,
              from: `${wall.from + min.x + 20} mm`,
              above: `${above} mm`,
              mass: `${kgs[i]} kg`,
            },
            out: `${min.z + 20} mm`,
            size: { width: `${Math.max(20, (max.x - min.x) / 2)} mm`, height: '60 mm', depth: '80 mm' },
          },
        ],
  );
  const [option, ...others] = (plain as Said).options as { pieces: PlainValue[] }[];
  return {
    ...(plain as Said),
    options: [{ ...option, pieces: [...option!.pieces, ...things] }, ...others],
  } as PlainValue;
}

/** Whatever bay it is of: a cure may divide one, and what was wrong in it is wrong in both. */
const issuesOf = (plan: Plan) => {
  const scene = sceneOf(plan, plan.options[0]!);
  return { scene, said: new Set(scene.issues.map(({ message }) => message.replaceAll(/[\d.]+/g, 'n'))) };
};

it('law: every cure that is offered can be applied, makes no new fault of the plan, and leaves no stop where it was offered', () => {
  let cures = 0;
  const kinds = new Set<string>();
  fc.assert(
    fc.property(
      anyHouse,
      fc.array(fc.constantFrom(0, 30, 80, 150, 400), { minLength: 1, maxLength: 4 }),
      fc.array(fc.constantFrom(0, 8, 30, 45, 90), { minLength: 1, maxLength: 3 }),
      (house, watts, kgs) => {
        const plain = stocked(heated(plainOf(house, 'mm') as Said, watts), kgs);
        const { plan } = planOf(plain);
        const { scene, said } = issuesOf(plan!);
        for (const note of scene.notes) {
          const cure = cureOf(scene, note);
          if (!cure) continue;
          cures++;
          kinds.add(note.id.split(':')[0]!);
          if (note.id.startsWith('stood-on:')) kinds.add(cure.title.replace(/ to .*/, ''));
          const edited = applyToPlain(plain, cure.edits as readonly Edit[]);
          const after = edited.ok ? planOf(edited.value) : undefined;
          const what = `${note.id}: ${cure.title} ${JSON.stringify(cure.edits)}`;
          expect([what, after?.issues]).toEqual([what, []]);
          const cured = issuesOf(after!.plan!);
          expect([what, [...cured.said].filter((one) => !said.has(one))]).toEqual([what, []]);
          const left = cured.scene.notes.find(({ id }) => id === note.id);
          if (note.id.startsWith('stood-on:')) expect([what, left]).toEqual([what, undefined]);
          expect([what, left?.verdict === 'stop' && left.title]).toEqual([what, false]);
          // nor is what it is held by, its rails or timber in the wall, found not to hold
          const under = cured.scene.notes.filter(
            ({ id }) => id === `let-in:${note.about}` || id === `rails:${note.about}`,
          );
          const wrong = under.filter(
            ({ id, verdict }) => verdict === 'stop' && !scene.notes.some((n) => n.id === id && n.verdict === 'stop'),
          );
          expect([what, wrong.map(({ title }) => title)]).toEqual([what, []]);
        }
      },
    ),
    { numRuns: 60 },
  );
  expect(cures).toBeGreaterThan(40);
  expect([...kinds]).toEqual(
    expect.arrayContaining([
      'fixing',
      'gear-heat',
      'shelf-sag',
      'lift',
      'casing-gap',
      'moulding-gap',
      'Raise its load',
      'Reckon it as a case of books',
    ]),
  );
});
