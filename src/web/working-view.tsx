import { originText, type Working, type WorkingValue } from '../core/notes/index.ts';

const figure = ({ value, unit }: WorkingValue): string => `${tidy(value)}${unit ? ` ${unit}` : ''}`;
const tidy = (value: number | string | readonly number[]): string =>
  typeof value === 'object'
    ? value.map(tidy).join(', ')
    : typeof value === 'string'
      ? value
      : Number.isInteger(value)
        ? String(value)
        : String(Number(value.toPrecision(5)));

/** How one figure came about. */
export default function WorkingView({ working }: { readonly working: Working }) {
  const { what, formula, inputs, result, also = [], limit, source, assumes, caution } = working;
  return (
    <section className="working" aria-label={`Working of ${what}`}>
      <p>
        <strong>{what}</strong> = {figure(result)}
        {limit && (
          <>
            {' '}
            (limit {figure(limit)}: {limit.why})
          </>
        )}
      </p>
      <p className="formula">{formula}</p>
      <table>
        <tbody>
          {inputs.map((input) => (
            <tr key={`${input.symbol} ${input.name}`}>
              <th scope="row">{input.symbol}</th>
              <td>{input.name}</td>
              <td className="figure">
                {tidy(input.value)} {input.unit}
              </td>
            </tr>
          ))}
          {also.map((more) => (
            <tr key={more.symbol}>
              <th scope="row">{more.symbol}</th>
              <td>{more.name}</td>
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
            <li key={a}>{a}</li>
          ))}
        </ul>
      )}
      {caution && <p className="heed">{caution}</p>}
    </section>
  );
}
