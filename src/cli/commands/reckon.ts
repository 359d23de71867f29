import { type Command, Option } from 'commander';
import type { Working } from '../../core/notes/index.ts';
import { convertTo, findUnit } from '../../core/quantity/index.ts';
import { describeRegister, findCalculator, listCalculators, reckon, workingText } from '../../core/reckoner/index.ts';
import { data, Ending, json } from '../shell.ts';
import { table } from '../table.ts';

export function reckonCommand(program: Command): void {
  program
    .command('reckon')
    .summary('do one calculation by itself')
    .description(
      'Does one calculation from the register and shows its working. Without a name, lists the register; with a name alone, its inputs.',
    )
    .argument('[name]', 'a calculator, such as shelf-sag')
    .argument('[inputs...]', 'its inputs as name=value; any unit: span=36in depth=11-1/4in load="25 lb"')
    .addOption(new Option('--unit <unit>', 'unit to give the result in'))
    .option('--topic <topic>', 'list only this topic')
    .option('--json', 'give it as data')
    .addHelpText('after', '\nExample:\n  setwright reckon board-feet thickness=1in width=6in length=8ft count=4')
    .action((name: string | undefined, inputs: string[], options: { unit?: string; topic?: string; json?: true }) => {
      if (name === undefined) return list(options);
      const found = findCalculator(name);
      if (!found.ok) throw new Ending(2, 'That is not in the register; `setwright reckon` lists it.', found.issues);
      const described = describeRegister().find((c) => c.name === found.value.name)!;
      if (inputs.length === 0 && described.inputs.some((input) => input.required))
        return options.json ? json(described) : data(inputsText(described.name));
      const typed: Record<string, string> = {};
      for (const input of inputs) {
        const split = input.indexOf('=');
        if (split < 1) {
          throw new Ending(
            2,
            `Inputs are written name=value; found '${input}'. ${found.value.name} takes: ${Object.keys(found.value.inputs).join(', ')}.`,
          );
        }
        const key = input.slice(0, split).trim();
        if (key in typed) throw new Ending(2, `The input '${key}' is given twice.`);
        typed[key] = input.slice(split + 1);
      }
      const result = reckon(name, typed);
      if (!result.ok) throw new Ending(2, `${found.value.name} could not be worked out.`, result.issues);
      const working =
        options.unit === undefined ? result.value : inUnit(result.value, options.unit, found.value.result.dimension);
      // 16 board feet, not 16.000000000000007: the last bit of a product says nothing
      const settled = { ...working.result, value: Number(working.result.value.toPrecision(15)) };
      if (options.json) json({ result: settled, working: { ...working, result: settled } });
      else data(workingText(working));
    });
}

function inUnit(working: Working, unit: string, dimension: Parameters<typeof convertTo>[2]): Working {
  const known = findUnit(unit, dimension);
  if (!known) throw new Ending(2, `The result is a ${dimension}; it cannot be given in '${unit}'.`);
  return { ...working, result: { value: convertTo(working.result.value, unit, dimension), unit } };
}

function list(options: { topic?: string; json?: true }): void {
  const topics = [...new Set(listCalculators().map((c) => c.topic))];
  if (options.topic !== undefined && !topics.includes(options.topic)) {
    throw new Ending(2, `There is no topic '${options.topic}'; there are ${topics.join(', ')}.`);
  }
  if (options.json) {
    json(describeRegister().filter((c) => options.topic === undefined || c.topic === options.topic));
    return;
  }
  for (const topic of topics.filter((t) => options.topic === undefined || t === options.topic)) {
    const rows = listCalculators().filter((c) => c.topic === topic);
    data(
      `\n${topic}\n${table(rows, [
        { title: 'name', text: (c) => c.name },
        { title: 'what it works out', text: (c) => c.title },
      ])}`,
    );
  }
  data('\n`setwright reckon NAME` shows the inputs of one; `--json` gives it all as data.');
}

function inputsText(name: string): string {
  const described = describeRegister().find((c) => c.name === name)!;
  const calculator = listCalculators().find((c) => c.name === name)!;
  return [
    `${calculator.title}`,
    calculator.about,
    `  ${calculator.formula}`,
    '',
    table(described.inputs, [
      { title: 'input', text: (input) => input.name },
      { title: 'unit', text: (input) => input.unit ?? '' },
      {
        title: '',
        text: (input) => (input.required ? 'needed' : input.default === undefined ? '' : `${input.default}`),
      },
      { title: 'what', text: (input) => input.about ?? '' },
    ]),
    ...described.inputs
      .filter((input) => input.choices !== undefined)
      .map((input) => `\n${input.name}: ${input.choices!.join(', ')}`),
  ].join('\n');
}
