import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'preact/compat';
import type { PriceSteps, StepsAsked } from '../core/bill/index.ts';
import { nameOf, printersFor } from '../core/plan/index.ts';
import { mm } from '../core/quantity/index.ts';
import { findPiece, written } from './arrange.ts';
import { change, preview, useBench } from './bench.ts';
import { Choice } from './field.tsx';
import { onLost } from './insist.ts';
import { stepsOf as nudgeSteps } from './pull.ts';
import type { FromSteps, ToSteps } from './steps-protocol.ts';
import { today } from './today.ts';
import type { WorkedPlan } from './worked-plan.ts';

const DIMENSIONS = ['width', 'height', 'depth'] as const;
type Dimension = (typeof DIMENSIONS)[number];

/** How the cost moves as one size of one piece changes, as a chart that can be dragged along. */
export function StepsView({ worked }: { readonly worked: WorkedPlan }) {
  const { outcome, plan } = worked;
  const selected = useBench((b) => b.selected)?.split('/')[0];
  const made = outcome.option.pieces.filter((p) => !('thing' in p) && !('display' in p));
  const piece = made.find((p) => nameOf(p) === selected) ?? made[0];
  const [dimension, setDimension] = useState<Dimension>('width');
  const name = piece && nameOf(piece);
  const { steps, failed, isWaiting } = useSteps(worked, name, dimension);

  if (!piece || name === undefined) return <p>There is nothing to be cut in this option yet.</p>;
  const sizes: Readonly<Record<string, number>> = piece.size ?? {};
  const now = sizes[dimension];
  return (
    <section className="sheet-like">
      <h2>Price steps</h2>
      <div className="row">
        <Choice
          name="Piece"
          value={name}
          of={made.map((p) => [nameOf(p), p.title ?? nameOf(p)] as const)}
          onChange={(id) => useBench.setState({ selected: id })}
        />
        <Choice
          name="Size"
          value={dimension}
          of={DIMENSIONS.filter((d) => sizes[d] !== undefined).map((d) => [d, d] as const)}
          onChange={setDimension}
        />
      </div>
      {failed !== '' && <p role="alert">{failed}</p>}
      <p role="status">{isWaiting && 'Working out what each size costs …'}</p>
      {steps && now !== undefined && (
        <>
          <Chart steps={steps} now={now} plan={worked} name={name} dimension={dimension} />
          <Savings {...steps} />
          {steps.steps.length > 0 && <StepsTable steps={steps.steps} print={printersFor(plan.units)} />}
        </>
      )}
    </section>
  );
}

/** Worked out beside the page for what the plan says; a preview, and dragging along the chart, do not ask anew. */
function useSteps({ outcome, plan }: WorkedPlan, name: string | undefined, dimension: Dimension) {
  const text = useBench((b) => b.text);
  const [found, setFound] = useState<{ readonly steps: PriceSteps; readonly option: string; readonly text: string }>();
  const [failed, setFailed] = useState('');
  const [tries, setTries] = useState(0);
  const option = outcome.option.id;

  useEffect(() => {
    const size = findPiece(outcome, name)?.piece.size as Readonly<Record<string, number>> | undefined;
    const middle = size?.[dimension];
    if (name === undefined || middle === undefined) return;
    const worker = new Worker(new URL('./steps.worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<FromSteps>) => {
      if (data.type === 'done') setFound({ steps: data.steps, option, text });
      else setFailed(data.message);
    };
    onLost(worker, () => setTries((n) => n + 1));
    setFailed('');
    const [, large] = nudgeSteps(plan);
    const asked: StepsAsked = {
      piece: name,
      dimension,
      from: mm(Math.max(large * 4, middle - 12 * large)),
      to: mm(middle + 12 * large),
      step: mm(large),
    };
    worker.postMessage({ revision: 1, text, option, asked, today: today() } satisfies ToSteps);
    return () => worker.terminate();
    // the outcome follows from the text
  }, [text, option, name, dimension, tries]);

  // until those of the new size come the last ones stay: the chart is not taken from under the hand or the keys that move along it
  const isOfThis = found?.option === option && found.steps.piece === name && found.steps.dimension === dimension;
  const isWaiting = failed === '' && !(isOfThis && found.text === text);
  return { steps: isOfThis ? found.steps : undefined, failed, isWaiting };
}

const Savings = ({ nearest, cheapest, steps, points, without }: PriceSteps) => (
  <ul>
    {nearest && (
      <li>
        {nearest.words === cheapest?.words ? 'Nearest saving, and least of all' : 'Nearest saving'}: {nearest.words}.
      </li>
    )}
    {cheapest && cheapest.words !== nearest?.words && <li>Least of all: {cheapest.words}.</li>}
    {steps.length === 0 && points.some(({ cost }) => cost !== undefined) && (
      <li>The cost does not change in this range.</li>
    )}
    {without.length > 0 && <li>Left out of every cost, for want of a price or a pack: {without.join(', ')}.</li>}
  </ul>
);

const StepsTable = ({
  steps,
  print,
}: {
  readonly steps: PriceSteps['steps'];
  readonly print: ReturnType<typeof printersFor>;
}) => (
  <table>
    <thead>
      <tr>
        <th scope="col">From</th>
        <th scope="col">What changes</th>
        <th scope="col" className="figure">
          Before
        </th>
        <th scope="col" className="figure">
          After
        </th>
      </tr>
    </thead>
    <tbody>
      {steps.map(({ at, words, proven, before, after }) => (
        <tr key={at}>
          <td className="one-line">{print.length(at)}</td>
          <td>
            {words}
            {!proven && ' (best found)'}
          </td>
          <td className="figure">{print.money(before)}</td>
          <td className="figure">{print.money(after)}</td>
        </tr>
      ))}
    </tbody>
  </table>
);

const [WIDE, NARROW, H, LEFT, BOTTOM] = [720, 370, 300, 70, 34];

function Chart({
  steps,
  now,
  plan: { outcome, plan },
  name,
  dimension,
}: {
  readonly steps: PriceSteps;
  readonly now: number;
  readonly plan: WorkedPlan;
  readonly name: string;
  readonly dimension: Dimension;
}) {
  const print = printersFor(plan.units);
  // on a phone less wide, so that its letters are as large as others
  const W = matchMedia('(max-width: 40rem)').matches ? NARROW : WIDE;
  const svg = useRef<SVGSVGElement>(null);
  const [held, setHeld] = useState(false);
  const points = pointsOf(steps);
  if (points.length < 2) return <p>The cost is not known here: {steps.current.why ?? 'something has no price yet'}.</p>;
  const [x0, x1] = [points[0]!.x, points.at(-1)!.x];
  const ys = points.map((p) => p.y);
  const slack = Math.max(100, (Math.max(...ys) - Math.min(...ys)) * 0.15);
  const [y0, y1] = [Math.min(...ys) - slack, Math.max(...ys) + slack];
  const X = (x: number) => LEFT + ((x - x0) / (x1 - x0)) * (W - LEFT - 10);
  const Y = (y: number) => 10 + (1 - (y - y0) / (y1 - y0)) * (H - BOTTOM - 10);
  const path = points
    .map((p, i) => `${i === 0 ? 'M' : `H${X(p.x)}V`}${i === 0 ? `${X(p.x)} ${Y(p.y)}` : Y(p.y)}`)
    .join('');
  const found = findPiece(outcome, name);
  const [small, large] = nudgeSteps(plan);
  const editsFor = (x: number) =>
    found ? [{ op: 'set' as const, path: [...found.path, 'size', dimension], value: written(plan.units, x) }] : [];
  const at = (event: PointerEvent<SVGElement>): number => {
    const box = svg.current!.getBoundingClientRect();
    const x = x0 + ((((event.clientX - box.left) / box.width) * W - LEFT) / (W - LEFT - 10)) * (x1 - x0);
    return Math.min(x1, Math.max(x0, Math.round(x / small) * small));
  };
  const keep = (x: number) => change(`${dimension} ${print.length(x)}`, editsFor(x));
  const onKey = (event: KeyboardEvent<SVGElement>) => {
    const by = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    keep(now + by * (event.shiftKey ? large : small));
  };
  const cost = [...points].reverse().find((p) => p.x <= now + 1e-6)?.y;
  const marks = [y0 + slack, (y0 + y1) / 2, y1 - slack];
  return (
    <svg ref={svg} className="chart" viewBox={`0 0 ${W} ${H}`} aria-label="Cost over size">
      {marks.map((y) => (
        <g key={y}>
          <line x1={LEFT} x2={W - 10} y1={Y(y)} y2={Y(y)} className="chart-rule" />
          <text x={LEFT - 6} y={Y(y) + 4} textAnchor="end">
            {print.money(Math.round(y))}
          </text>
        </g>
      ))}
      <line x1={LEFT} x2={W - 10} y1={H - BOTTOM} y2={H - BOTTOM} className="chart-axis" />
      {[x0, (x0 + x1) / 2, x1].map((x, i) => (
        <text key={x} x={X(x)} y={H - 12} textAnchor={i === 2 ? 'end' : i === 1 ? 'middle' : 'start'}>
          {print.length(x)}
        </text>
      ))}
      <path d={path} className="chart-line" />
      {steps.steps.map((s) => (
        <circle key={s.at} cx={X(s.at)} cy={Y(s.after)} r={4} className="chart-step" />
      ))}
      <g
        role="slider"
        // of what is drawn the letters count: written otherwise it is none
        tabindex={0}
        aria-label={`${dimension} of ${found?.placed?.title ?? name}`}
        aria-valuemin={Math.round(x0)}
        aria-valuemax={Math.round(x1)}
        aria-valuenow={Math.round(now)}
        aria-valuetext={`${print.length(now)}${cost === undefined ? '' : `, about ${print.money(cost)}`}`}
        className="chart-slide"
        onKeyDown={onKey}
        onPointerDown={(e) => {
          e.currentTarget.setPointerCapture(e.pointerId);
          setHeld(true);
        }}
        onPointerMove={(e) => held && preview(editsFor(at(e)))}
        onPointerUp={(e) => {
          setHeld(false);
          keep(at(e));
        }}
      >
        <rect x={LEFT} y={0} width={W - LEFT} height={H - BOTTOM} fill="transparent" />
        <line x1={X(now)} x2={X(now)} y1={6} y2={H - BOTTOM} className="chart-now" />
        <text x={Math.min(W - 130, X(now) + 8)} y={22} className="chart-value">
          {print.length(now)}
          {cost !== undefined && ` · ${print.money(cost)}`}
        </text>
      </g>
    </svg>
  );
}

/** What each size costs, by size: the exact places of the steps lie between the sizes that were tried. */
const pointsOf = ({ points, steps }: PriceSteps): readonly { readonly x: number; readonly y: number }[] =>
  [
    ...points.flatMap(({ value, cost }) =>
      typeof value === 'number' && cost !== undefined ? [{ x: value, y: cost as number }] : [],
    ),
    ...steps.map(({ at, after }) => ({ x: at as number, y: after as number })),
  ].sort((p, q) => p.x - q.x);
