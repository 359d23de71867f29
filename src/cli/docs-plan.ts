import { jsonSchema, PLAN_VERSION, type SchemaNode } from '../core/plan/index.ts';
import { PIXEL_KINDS } from '../core/power/index.ts';
import { SURFACE_MATERIALS } from '../core/sound/index.ts';
import { FRAMING_NAMES, MATERIAL_NAMES } from '../core/stock/index.ts';

/** The text of `schema/plan.schema.json`. */
export const planSchemaText = (): string => `${JSON.stringify(jsonSchema(), null, 2)}\n`;

/** The text of `docs/plan-format.md`: every key of a plan file, from the schema itself. */
export function planFormatPage(): string {
  const schema = jsonSchema();
  const defs = schema.$defs ?? {};
  const values = Object.entries(defs)
    .filter(([, node]) => !node.properties)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  const groups = Object.entries(defs).filter(([, node]) => node.properties);
  return `${[
    '# The plan file',
    '',
    '<!-- Generated from the schema by `npm run docs`; change src/core/plan/schema instead. -->',
    '',
    `A plan is one YAML 1.2 file. Version ${PLAN_VERSION} of the format is described here; a newer file than the program knows is refused`,
    'untouched, an older one is brought up to date in memory. A file is read whole or refused whole, with every error named at once.',
    'The first line lets an editor complete and check what is typed:',
    '',
    '```yaml',
    '# yaml-language-server: $schema=../schema/plan.schema.json',
    `setwright: ${PLAN_VERSION}`,
    'units: {length: ft-in, fraction: 1/32, currency: USD}',
    '```',
    '',
    'Comments stay where they are when a plan is edited. Inside `{ }` and `[ ]` a comma parts entries, so a value with a comma needs',
    'quotes there; so does a value with ` #`, which begins a comment. Aliases (`&size`, `*size`) work; merge keys (`<<`) do not.',
    '',
    '## How values are written',
    '',
    ...table(
      ['value', 'written'],
      values.map(([name, node]) => [
        `<a id="${anchor(name)}"></a>${plainName(name)}`,
        node.anyOf ? holds(node, defs) : (node.description ?? holds(node, defs)),
      ]),
    ),
    '',
    ...LENGTHS,
    '',
    '## The whole file',
    '',
    ...section(schema, defs),
    ...groups.flatMap(([name, node]) => [
      '',
      `## ${capital(plainName(name))}`,
      '',
      ...said(node),
      ...section(node, defs),
    ]),
    '',
    ...words(),
  ].join('\n')}\n`;
}

/** What may be written where a table is asked: the tables themselves. */
function words(): readonly string[] {
  const listed = (names: readonly string[]): string => names.map((name) => `\`${name}\``).join(' · ');
  return [
    '## Words of the tables',
    '',
    'Another word is kept as it is written, and told where something is to be reckoned by it.',
    '',
    '### Woods and panels',
    '',
    'For the `kind` of a panel and the `species` of a board: mass, stiffness, and how screws hold. Words of the trade for them are read',
    'too, such as `birch plywood`, `chipboard` or `oak`.',
    '',
    listed(MATERIAL_NAMES),
    '',
    '### Framing lumber',
    '',
    'For the `species` of studs and of timber let in between them; each of the woods above will do as well.',
    '',
    listed(FRAMING_NAMES),
    '',
    '### Surfaces',
    '',
    'For the sound: the `surface` of the floor, the ceiling or a thing, and the `material` of an absorber; that of a wall, where it is one of these.',
    '',
    listed(SURFACE_MATERIALS.map(({ id }) => id)),
    '',
    '### Lights',
    '',
    'For the `pixel` of a strip.',
    '',
    ...table(
      ['kind of light', 'volts', 'channels', 'mA at full white'],
      PIXEL_KINDS.map(({ id, volts, channels, quiescent }) => [
        `\`${id}\``,
        `${volts}`,
        `${channels.length}`,
        `${Number((1000 * (quiescent + channels.reduce((sum, one) => sum + one, 0))).toFixed(1))}`,
      ]),
    ),
  ];
}

const LENGTHS = [
  '### Lengths',
  '',
  "A bare number is in the unit of the plan; with `ft-in` it is in inches, so `12` is a foot and `12'` twelve. These are one length:",
  '',
  '> `3\' 4-1/2"` · `3\'4½` · `3 ft 4.5 in` · `40 1/2"` · `40-1/2 in` · `1028.7 mm` · `102,87 cm` · `1.0287 m` · `1 m 28.7 mm`',
  '',
  'A sign stands before the whole length. A lone point always parts decimals; a lone comma does too, except before exactly three digits,',
  'where it could part thousands. Kept is the nearest 1/640 mm, which holds every tenth of a millimetre and every 1/128 inch.',
  'Refused, because it can be read in two ways or is more likely a slip:',
  '',
  '| written | why | instead |',
  '|---|---|---|',
  '| `3 4` | feet and inches, or a slip | `3\' 4"` |',
  '| `1,029 mm` | 1029 or 1.029 | `1029 mm` |',
  '| `5-6 mm` | a range, or a subtraction | one length |',
  '| `40 - 1/2` | 40-1/2, or 39-1/2 | `40-1/2` |',
  '| `401/2` | 40-1/2, or 200-1/2 | `40-1/2` |',
  '| `3\' 14"` | more than a foot of inches | `4\' 2"` |',
  "| `3.5' 6\"` | parts of a foot twice | `4'` |",
  '| `1 m 20` | 20 of what? | `1 m 20 cm` |',
  '| `3" long` | words | `3"` |',
];

const said = (node: SchemaNode): readonly string[] =>
  node.description === undefined ? [] : [`${capital(node.description)}.`, ''];
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
/** PanelSize: panel size. */
const plainName = (name: string): string => name.replace(/(?<=[a-z])[A-Z]/g, (letter) => ` ${letter}`).toLowerCase();
const anchor = (name: string): string => plainName(name).replaceAll(' ', '-');

type Defs = Readonly<Record<string, SchemaNode>>;

function section(node: SchemaNode, defs: Defs): readonly string[] {
  return table(['key', 'holds', 'left out', 'meaning'], rows(node, defs, '', true));
}

function rows(node: SchemaNode, defs: Defs, prefix: string, needed: boolean): readonly (readonly string[])[] {
  return Object.entries(node.properties ?? {}).flatMap(([key, inner]) => {
    const required = node.required?.includes(key) ?? false;
    const group = inner.properties ? inner : inner.anyOf?.find((one) => one.properties);
    const list = inner.items?.properties ? inner.items : undefined;
    return [
      [`\`${prefix}${key}\``, holds(inner, defs), absent(inner, required && needed, required), inner.description ?? ''],
      ...(group ? rows(group, defs, `${prefix}${key}.`, required && needed) : []),
      ...(list ? rows(list, defs, `${prefix}${key}[].`, true) : []),
    ];
  });
}

function absent(node: SchemaNode, must: boolean, withGroup: boolean): string {
  if (must) return '**needed**';
  if (node.default !== undefined) {
    const text = JSON.stringify(node.default);
    return text === '{}' || text === '[]' ? 'none' : `\`${typeof node.default === 'string' ? node.default : text}\``;
  }
  return withGroup ? 'needed with the group' : '';
}

/** What a key may hold, in words. */
function holds(node: SchemaNode, defs: Defs): string {
  if (node.$ref !== undefined) {
    const name = node.$ref.replace('#/$defs/', '');
    return `[${plainName(name)}](#${anchor(name)})`;
  }
  if (node.anyOf) return node.anyOf.map((one) => holds(one, defs)).join(' or ');
  if (node.enum) return node.enum.map((one) => `\`${one}\``).join(', ');
  if (node.const !== undefined) return `\`${node.const}\``;
  if (node.type === 'array') return `list of ${node.items ? holds(node.items, defs) : 'values'}`;
  if (node.properties) return 'group';
  if (typeof node.additionalProperties === 'object')
    return `${holds(node.additionalProperties, defs)} by ${node.propertyNames?.description ?? 'name'}`;
  const whole = node.type === 'integer';
  if (whole || node.type === 'number') return `${whole ? 'whole number' : 'number'}${range(node)}`;
  if (node.type === 'boolean') return '`true` or `false`';
  return 'text';
}

function range({
  minimum,
  maximum,
  exclusiveMinimum,
  exclusiveMaximum,
}: SchemaNode & { exclusiveMaximum?: number }): string {
  const low = minimum ?? exclusiveMinimum;
  const high = maximum ?? exclusiveMaximum;
  const from = low === undefined ? '' : exclusiveMinimum === undefined ? `from ${low}` : `more than ${low}`;
  const to = high === undefined || high >= Number.MAX_SAFE_INTEGER ? '' : `${from === '' ? 'up ' : ''}to ${high}`;
  const text = [from, to].filter((part) => part !== '').join(' ');
  return text === '' ? '' : `, ${text}`;
}

function table(heads: readonly string[], body: readonly (readonly string[])[]): readonly string[] {
  const line = (cells: readonly string[]) => `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  return [line(heads), `|${heads.map(() => '---').join('|')}|`, ...body.map(line)];
}
