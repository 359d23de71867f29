import type { Plan } from '../plan/index.ts';
import { remember } from '../remember.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { type AssemblyOptions, type AssemblyPlan, type AssemblyStep, assemblySteps } from './assembly.ts';
import { cellOf } from './solids.ts';

/** A piece that is built, its plan, and the other pieces that are built just the same. */
export interface PieceAssembly {
  readonly piece: PlacedPiece;
  readonly plan: AssemblyPlan;
  readonly alike: readonly PlacedPiece[];
}

/**
 * Every case and floating shelf of an option, in order. What is not yet built is loose and may serve as a gauge; but nothing of a piece
 * that is built along with its like, since the last of them has no other beside it.
 */
export function jobAssembly(
  pieces: readonly PlacedPiece[],
  options: Omit<AssemblyOptions, 'loose'> = {},
): readonly PieceAssembly[] {
  const built = pieces.filter((p) => (p.kind === 'case' || p.kind === 'shelf') && p.parts.length > 0);
  const done: (PieceAssembly & { readonly shape: string; readonly alike: PlacedPiece[] })[] = [];
  const shapes = built.map(shapeOf);
  built.forEach((piece, i) => {
    const shape = shapes[i]!;
    const same = done.find((d) => d.shape === shape);
    if (same) {
      same.alike.push(piece);
      return;
    }
    const begun = new Set(shapes.slice(0, i + 1));
    const loose = built.flatMap((p, k) => (k > i && !begun.has(shapes[k]!) ? p.parts : []));
    done.push({ piece, plan: assemblySteps(piece, { ...options, loose }), alike: [], shape });
  });
  return done.map(({ piece, plan, alike }) => ({ piece, plan, alike }));
}

interface AssembledJob {
  readonly pieces: readonly PlacedPiece[];
  readonly plan: Plan;
  readonly massOf?: AssemblyOptions['massOf'];
}
const assembled = remember<readonly PlacedPiece[], readonly PieceAssembly[]>();

/** The assembly of a plan's pieces, kept for as long as they are: pages and dates speak of the same one, and it is worked out once. */
export function assembliesOf({ pieces, plan, massOf }: AssembledJob): readonly PieceAssembly[] {
  const { lift } = plan.shop;
  return assembled(pieces, [plan.stock, lift, massOf === undefined], () =>
    jobAssembly(pieces, { ...(massOf && { massOf }), ...(lift !== undefined && { aloneMass: lift }) }),
  );
}

/** Which share of the steps of each piece wants two people. Worked out when first asked: it takes about a second for a room of cases. */
export function helpedShares(job: AssembledJob): (piece: string) => number {
  return (id) => {
    const of = assembliesOf(job).find(({ piece, alike }) => piece.id === id || alike.some((other) => other.id === id));
    const steps = of?.plan.steps ?? [];
    return steps.length === 0 ? 0 : steps.filter((step) => step.helper).length / steps.length;
  };
}

/** Two pieces of one shape are built alike: the same parts in the same places, with the same joints. */
const shapeOf = (piece: PlacedPiece): string =>
  JSON.stringify([
    piece.parts.map((p) => [p.role, p.stock, cellOf(p.solid.box), p.solid.taken.map((m) => [m.kind, cellOf(m.box)])]),
    piece.joints.map((j) => [j.kind, cellOf(j.contact), j.fasten]),
  ]);

/** Sub-assemblies that are built in the same way, whatever their sizes: the first of each, and the others. */
export function repeatsOf(
  plan: AssemblyPlan,
  roleOf: (part: string) => string,
): ReadonlyMap<string, readonly string[]> {
  const byManner = new Map<string, string[]>();
  for (const { name } of plan.subassemblies) {
    const manner = JSON.stringify(plan.steps.filter((s) => s.builds === name).map((s) => mannerOf(s, roleOf)));
    const there = byManner.get(manner);
    if (there) there.push(name);
    else byManner.set(manner, [name]);
  }
  return new Map([...byManner.values()].map((names) => [names[0]!, names.slice(1)]));
}
const mannerOf = (step: AssemblyStep, roleOf: (part: string) => string) => [
  step.adds.map(roleOf),
  step.moves,
  step.down,
  step.set.map((s) => [s.by, s.gauge?.distance]),
  step.fasteners.map((f) => [f.kind, f.count, f.from, f.manner]),
  step.glue.length,
];
