import { originText, sayFigure, type Working, type WorkingInput } from '../core/notes/index.ts';
import { unbroken } from '../core/quantity/index.ts';
import { useBench } from './bench.ts';

const METRIC = { length: 'mm' } as const;

/** How one figure came about. */
export default function WorkingView({ working }: { readonly working: Working }) {
  const { what, formula, inputs, result, also = [], limit, source, assumes, caution } = working;
  const units = useBench((b) => b.plan?.units) ?? METRIC;
  const figure = (of: Pick<WorkingInput, 'value' | 'unit'>): string => sayFigure(working, of, units);
  return (
    <section className="working" aria-label={`Working of ${what}`}>
      <p>
        <strong>{unbroken(what)}</strong> = {figure(result)}
        {limit && (
          <>
            {' '}
            (limit {figure(limit)}: {unbroken(limit.why)})
          </>
        )}
      </p>
      <p className="formula">{formula}</p>
      <table>
        <tbody>
          {inputs.map((input) => (
            <tr key={`${input.symbol} ${input.name}`}>
              <th scope="row">{input.symbol}</th>
              <td>{unbroken(input.name)}</td>
              <td className="figure">{figure(input)}</td>
            </tr>
          ))}
          {also.map((more) => (
            <tr key={more.symbol}>
              <th scope="row">{more.symbol}</th>
              <td>{unbroken(more.name)}</td>
              <td className="figure">{figure(more)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="source">
        Source: {originText(source)}
        {limit?.source && `; limit: ${originText(limit.source)}`}
      </p>
      {assumes.length > 0 && (
        <ul className="source">
          {assumes.map((a) => (
            <li key={a}>{unbroken(a)}</li>
          ))}
        </ul>
      )}
      {caution && <p className="heed">{unbroken(caution)}</p>}
    </section>
  );
}
