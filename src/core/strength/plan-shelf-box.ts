import { alsoOf, type Note, work } from '../notes/index.ts';
import { materialNameOf, stockName } from '../stock/index.ts';
import { ownMass, type Subject, saying, small, titleOf, type WallInput } from './plan-input.ts';
import { shelfBox } from './shelf-box.ts';
import { designMassOf } from './standards.ts';

/** kg that stand on a floating shelf: what the plan says, or the load that open casework is made for. */
export function standingOn({ said }: Subject): number {
  if (!('shelf' in said)) return 0;
  return said.load ?? designMassOf('casework: all other', said.size.width, said.size.depth);
}

/** Notes on the box of a floating shelf, which bends along the wall between its rods and past the outer ones. */
export function boxNotes(input: WallInput, subject: Subject): readonly Note[] {
  const { placed, said } = subject;
  if (!('shelf' in said)) return [];
  const rods = placed.fittings.flatMap((f) => (f.use === 'rod' && f.solid ? [f.solid.box] : []));
  const skin = placed.parts.find((p) => p.role === 'skin');
  if (rods.length === 0 || !skin) return [];
  const { stock } = input.plan;
  const lip = placed.parts.find((p) => p.role === 'lip');
  const bearers = placed.parts.filter((p) => p.role === 'bearer');
  const base = { id: `shelf-sag:${placed.id}`, about: placed.id };
  const unknown = [skin, ...bearers, ...(lip ? [lip] : [])].find((p) => materialNameOf(stock, p.stock) === undefined);
  if (unknown)
    return [
      {
        ...base,
        verdict: 'caution',
        title: `How far ${titleOf(placed)} will sag between its rods is not known`,
        advice: `Give ${stockName(stock, unknown.stock)} a kind or species the handbook has, such as birch plywood.`,
      },
    ];
  const named = (id: string) => materialNameOf(stock, id)!;
  const load = standingOn(subject);
  const all = load + ownMass(input, placed);
  const working = work(shelfBox, {
    length: said.size.width,
    rods: rods.map(({ min, max }) => (min.x + max.x) / 2),
    depth: skin.size.width,
    height: said.size.height,
    skin: skin.size.thickness,
    webs: bearers.reduce((sum, p) => sum + p.size.thickness, 0),
    material: named(skin.stock),
    ...(bearers[0] && { 'web-material': named(bearers[0].stock) }),
    ...(lip && {
      'lip-height': lip.size.width,
      'lip-thickness': lip.size.thickness,
      'lip-material': named(lip.stock),
    }),
    load: all,
  });
  const { length, notLess, notMore, mass } = saying(input);
  const [now, later, limit] = [working.result.value, alsoOf(working, 'δ∞'), working.limit!.value];
  const verdict = now > limit ? 'stop' : later > limit ? 'caution' : 'fine';
  const where = `over the ${length(alsoOf(working, 'l'))} ${
    working.also!.some((a) => a.symbol === 'l' && a.name.startsWith('between'))
      ? 'between two rods'
      : 'past its outer rod'
  }`;
  return [
    {
      ...base,
      verdict,
      title:
        verdict === 'stop'
          ? `${titleOf(placed)} sags ${notLess(now)} at once, ${notLess(later)} in time, ${where}; ${notMore(limit)} is allowed`
          : verdict === 'caution'
            ? `${titleOf(placed)} will have sagged ${notLess(later)} in some years ${where}; ${notMore(limit)} is allowed`
            : `${titleOf(placed)} stays within ${length(limit)} ${where}: it sags ${small(input, later)} in time`,
      advice:
        verdict === 'fine'
          ? `Checked with ${mass(load)} on it, evenly spread, and its own weight. Not checked: someone leaning on an end of it. What the rods bend comes on top.`
          : `Under ${mass(load)}, evenly spread, and its own weight. A rod more, rods nearer to its ends, or thicker skins.`,
      working,
    },
  ];
}
