import type { CheckRow } from '../core/notes/index.ts';
import { formatQuantity } from '../core/quantity/index.ts';
import { type DescribedCalculator, type DescribedInput, describeRegister, listChecks } from '../core/reckoner/index.ts';

const cell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('\n', ' ');
const place = (name: string): string => name.toLowerCase().replaceAll(' ', '-');

function range(input: DescribedInput): string {
  if (input.choices !== undefined) {
    const few = input.choices.length <= 12 ? input.choices : input.choices.slice(0, 10);
    return `${few.map((choice) => `\`${choice}\``).join(', ')}${few.length < input.choices.length ? ` … ${input.choices.length} in all` : ''}`;
  }
  const from = input.above !== undefined ? `> ${input.above}` : input.min !== undefined ? `≥ ${input.min}` : '';
  const to = input.max !== undefined ? `≤ ${input.max}` : '';
  return [input.list ? 'a list' : '', from, to].filter(Boolean).join(', ');
}

function defaultOf(input: DescribedInput): string {
  if (input.required) return '**needed**';
  if (input.default === undefined) return '';
  if (typeof input.default === 'string' || input.dimension === undefined) return `\`${input.default}\``;
  return formatQuantity(input.default, input.dimension as Parameters<typeof formatQuantity>[1]);
}

const inputRow = (input: DescribedInput): string =>
  `| \`${input.name}\` | ${cell(input.symbol ?? '')} | ${input.unit} | ${cell(defaultOf(input))} | ${cell(range(input))} | ${cell(input.about)} |`;

/** How the published values of one calculator are told: how many, and from where. */
function held(rows: readonly CheckRow[]): string {
  const by = (confidences: readonly CheckRow['confidence'][]) =>
    rows.filter((row) => confidences.includes(row.confidence));
  const firm = by(['seen', 'computed']);
  const sources = [...new Set(firm.map((row) => row.source))];
  const remembered = by(['memory']).length;
  return [
    firm.length === 0
      ? ''
      : `${firm.length} ${firm.length === 1 ? 'value' : 'values'}: ${sources.map(cell).join('; ')}.`,
    remembered === 0 ? '' : `${remembered} more from memory, shown but not relied on.`,
  ]
    .filter(Boolean)
    .join(' ');
}

function section(c: DescribedCalculator, rows: readonly CheckRow[]): string {
  return [
    `### ${c.name}`,
    `${c.title}. ${c.about}`,
    c.formula === 'table' ? 'From a table.' : `\`\`\`text\n${c.formula}\n\`\`\``,
    [
      '| input | symbol | unit | default | range or choices | what |',
      '|---|---|---|---|---|---|',
      ...c.inputs.map(inputRow),
    ].join('\n'),
    [
      `- Result: ${[c.result.symbol, c.result.name].filter(Boolean).join(', ')}${c.result.unit === '' ? '' : ` in ${c.result.unit}`}`,
      `- Source: ${c.source}`,
      ...(c.validity === undefined ? [] : [`- Holds: ${c.validity}`]),
      ...(c.caution === undefined ? [] : [`- Caution: ${c.caution}`]),
      `- Held against ${held(rows)}`,
    ].join('\n'),
  ].join('\n\n');
}

/** The page of formulas and sources, from the register of calculators: the same declarations that do the sums. */
export function formulasPage(): string {
  const register = describeRegister();
  const checks = listChecks();
  const topics = [...new Set(register.map((c) => c.topic))];
  const firm = checks.filter((row) => row.confidence !== 'memory').length;
  return `${[
    '# Formulas and sources',
    'Generated from the register of calculators (`npm run docs`). `setwright reckon NAME input=value …` does any of them; a bare number is in the unit of the table, text may name any unit of its kind (`36in`, `3\' 4-1/2"`, `25 lb`, `1.8e6 psi`, `65%`).',
    `${register.length} calculators, held in the tests against ${firm} values from outside the project. "Seen" values were read in the publication or in a page that reprints it; "computed" ones follow from a published formula. What is only remembered says so, and no test hangs on it.`,
    'A result is a sum, not a permission: where a person can be hurt, local codes and licensed trades decide.',
    topics
      .map((topic) => {
        const names = register.filter((c) => c.topic === topic).map((c) => `[${c.name}](#${place(c.name)})`);
        return `- [${topic}](#${place(topic)}): ${names.join(', ')}`;
      })
      .join('\n'),
    ...topics.flatMap((topic) => [
      `## ${topic}`,
      ...register
        .filter((c) => c.topic === topic)
        .map((c) =>
          section(
            c,
            checks.filter((row) => row.calculator === c.name),
          ),
        ),
    ]),
  ].join('\n\n')}\n`;
}
