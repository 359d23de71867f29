import { originText, type Working, type WorkingInput } from '../notes/index.ts';
import { formatNumber } from '../quantity/index.ts';

const shown = (value: WorkingInput['value'], unit: string): string =>
  `${
    typeof value === 'string'
      ? value
      : [value]
          .flat()
          .map((each) => formatNumber(each, 5))
          .join(', ')
  }${unit === '' ? '' : ` ${unit}`}`;

/** The working as lines for a terminal or a page of print: formula, what went in, what came out, limit, source, caution. */
export function workingText(working: Working): string {
  const width = Math.max(
    0,
    ...working.inputs.map((i) => i.symbol.length),
    ...(working.also ?? []).map((a) => a.symbol.length),
  );
  const { limit } = working;
  return [
    working.what,
    `  ${working.formula}`,
    ...working.inputs.map(
      (i) =>
        `  ${i.symbol.padEnd(width)} = ${shown(i.value, i.unit)}   ${i.name}${i.source === undefined ? '' : ` [${originText(i.source)}]`}`,
    ),
    ...(working.also ?? []).map((a) => `  ${a.symbol.padEnd(width)} → ${shown(a.value, a.unit)}   ${a.name}`),
    `  result: ${shown(working.result.value, working.result.unit)}`,
    ...(limit
      ? [
          `  limit: ${shown(limit.value, limit.unit)} (${limit.why}${limit.source === undefined ? '' : `; ${originText(limit.source)}`})`,
        ]
      : []),
    ...working.assumes.map((a) => `  assumes: ${a}`),
    `  source: ${originText(working.source)}`,
    ...(working.caution === undefined ? [] : [`  caution: ${working.caution}`]),
  ].join('\n');
}
