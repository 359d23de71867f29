import { partNumbers } from '../core/drawing/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { massesOf } from '../core/outcome.ts';
import { printersFor } from '../core/plan/index.ts';
import { unbroken } from '../core/quantity/index.ts';
import { type Part, stickingOf } from '../core/scene/index.ts';
import { stockName } from '../core/stock/index.ts';
import { useBench } from './bench.ts';
import { PartPicture } from './part-picture.tsx';

const sides = (...lengths: readonly string[]): string => unbroken(lengths.join(' × '));

/** Edges by the side of the room they look to, where the trade has another word for it. */
const EDGES: Readonly<Record<string, string>> = { up: 'top', down: 'bottom' };

/** One part: where it goes, which way is up, how large it is cut, and what it joins. */
export default function PartCard({
  part,
  outcome,
  onPart = (id) => useBench.setState({ selected: id }),
}: {
  readonly part: Part;
  readonly outcome: Outcome;
  readonly onPart?: (id: string) => void;
}) {
  const print = printersFor(outcome.plan.units);
  const numbers = new Map(partNumbers(outcome.pieces).map(({ part: p, number }) => [p.id, number]));
  const piece = outcome.pieces.find((p) => p.id === part.piece);
  const joints = (piece?.joints ?? []).filter((j) => j.a === part.id || j.b === part.id);
  const nameOf = (id: string): string => outcome.parts.find((p) => p.id === id)?.label.name ?? id;
  const mass = massesOf(outcome)(part.id);
  return (
    <section className="part-card" aria-labelledby={`part-${part.id}`}>
      <h2 id={`part-${part.id}`}>
        <span className="number">{numbers.get(part.id)}</span> {part.label.name}
      </h2>
      {piece && <PartPicture piece={piece} part={part.id} />}
      <dl className="facts">
        <dt>Goes</dt>
        <dd>{part.label.place || piece?.title}</dd>
        <dt>Label</dt>
        <dd>{labelWords(part)}</dd>
        <dt>Cut</dt>
        <dd>
          {sides(print.length(part.cut.length), print.length(part.cut.width), print.thickness(part.size.thickness))}
        </dd>
        <dt>Finished</dt>
        <dd>{sides(print.length(part.size.length), print.length(part.size.width))}</dd>
        <dt>From</dt>
        <dd>
          {unbroken(stockName(outcome.plan.stock, part.stock))}, grain{' '}
          {part.grain === 'fixed' ? 'along the length' : 'free'}
        </dd>
        {mass !== undefined && (
          <>
            <dt>Weighs</dt>
            <dd>{unbroken(print.mass(mass))}</dd>
          </>
        )}
        {part.edges.length > 0 && (
          <>
            <dt>Banded</dt>
            <dd>{part.edges.map(({ towards }) => `${EDGES[towards] ?? towards} edge`).join(', ')}</dd>
          </>
        )}
      </dl>
      {joints.length > 0 && (
        <>
          <h3>Joins</h3>
          <ul>
            {joints.map((j) => {
              const other = j.a === part.id ? j.b : j.a;
              return (
                <li key={j.id}>
                  <button type="button" className="link" onClick={() => onPart(other)}>
                    {numbers.get(other)} {nameOf(other)}
                  </button>
                  : {j.kind}
                  {j.a === part.id && ['rabbet', 'dado', 'groove'].includes(j.kind) ? ', let into it' : ''},{' '}
                  {j.fasten.join(' and ')}
                </li>
              );
            })}
          </ul>
        </>
      )}
    </section>
  );
}

const SIDES = { up: 'top', down: 'underside', left: 'left', right: 'right', front: 'front', back: 'back' } as const;
/** Where the label is stuck, which tells every side of the part: `on its left, the arrow to the top`. */
function labelWords(part: Part): string {
  const { face, arrow } = stickingOf(part);
  return `on its ${SIDES[face]}, the arrow to the ${SIDES[arrow]}`;
}
