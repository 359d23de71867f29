import { formula } from '../../notes/index.ts';
import { inch } from '../../quantity/index.ts';
import { actualSize, HARDWOOD, type HardwoodQuarter, NOMINAL_SIZES } from '../data/lumber.ts';
import { PANEL_CATEGORIES, panelThickness, SHEET_SIZES } from '../data/panels.ts';
import { fromMm } from './inches.ts';

const PS_20 = {
  title: 'American Softwood Lumber Standard, PS 20',
  place: 'nominal and minimum dressed sizes',
} as const;

const nominal = formula({
  name: 'nominal-size',
  title: 'Actual size of softwood lumber',
  topic: 'stock',
  about: 'What a board sold by its nominal size measures.',
  formula: 'table',
  inputs: {
    size: {
      choices: NOMINAL_SIZES,
      about: 'nominal thickness x width in inches, as sold',
    },
    seasoning: {
      choices: ['dry', 'green'],
      about: 'when it was dressed: dry is at most 19 % moisture content',
      default: 'dry',
    },
  },
  result: { symbol: 'b', name: 'actual width', dimension: 'length' },
  source: PS_20,
  validity: 'Minimum dressed sizes of boards and dimension lumber. A yard may sell it fuller: measure.',
  compute: ({ size, seasoning }) => {
    const actual = actualSize(size, seasoning);
    if (!actual) throw new RangeError(`PS 20 has no ${size}`);
    return {
      value: actual.width,
      also: [
        { symbol: 't', name: 'actual thickness', value: actual.thickness, unit: 'mm' },
        { symbol: 'b_in', name: 'actual width in inches', value: fromMm(actual.width), unit: 'in' },
        { symbol: 't_in', name: 'actual thickness in inches', value: fromMm(actual.thickness), unit: 'in' },
      ],
    };
  },
});

const hardwood = formula({
  name: 'hardwood-thickness',
  title: 'Thickness of hardwood sold by quarters',
  topic: 'stock',
  about: 'Rough, surfaced on one side or on two.',
  formula: 'table',
  inputs: {
    quarters: { choices: Object.keys(HARDWOOD) as HardwoodQuarter[], about: 'thickness in quarter inches, as sold' },
    surfaced: { choices: ['rough', 'one side', 'two sides'], about: 'how it is planed', default: 'two sides' },
  },
  result: { symbol: 't', name: 'thickness', dimension: 'length' },
  source: { title: 'Hardwood surfaced-thickness table', place: 'as reprinted in engineering handbooks on line' },
  validity: 'Yards commonly plane 4/4 on to 3/4 in, 5/4 to 1 in and 6/4 to 1-1/4 in: ask.',
  compute: ({ quarters, surfaced }) =>
    inch(HARDWOOD[quarters][surfaced === 'rough' ? 0 : surfaced === 'one side' ? 1 : 2]),
});

const panel = formula({
  name: 'panel-thickness',
  title: 'Real thickness of plywood sold by category',
  topic: 'stock',
  about: 'What a plywood panel sold as 3/4 or 23/32 measures: recommended label, least and most.',
  formula: 'PC ± 1/32 in (± 5 % above 13/16); label = 1.03 · least below 9/16, else PC − 1/64 in (0.97 PC above 13/16)',
  inputs: { category: { choices: PANEL_CATEGORIES, about: 'Performance Category in inches', symbol: 'PC' } },
  result: { symbol: 't', name: 'recommended label thickness', dimension: 'length' },
  source: { title: 'US PS 1 / PS 2', place: 'Performance Category thickness table' },
  compute: ({ category }) => {
    const { least, most, label } = panelThickness(category);
    return {
      value: label,
      also: [
        { symbol: 't_min', name: 'least', value: least, unit: 'mm' },
        { symbol: 't_max', name: 'most', value: most, unit: 'mm' },
      ],
    };
  },
});

const slack = formula({
  name: 'dado-slack',
  title: 'Slack of a panel in its groove',
  topic: 'stock',
  about: 'How loose a panel sits in a dado or groove cut to another thickness. Negative: it does not go in.',
  formula: 's = groove − panel',
  inputs: {
    groove: { dimension: 'length', about: 'width of the dado or groove', above: 0 },
    panel: { dimension: 'length', about: 'real thickness of the panel', above: 0 },
  },
  result: { symbol: 's', name: 'slack', dimension: 'length' },
  source: 'common practice',
  compute: ({ groove, panel: thickness }) => groove - thickness,
});

const sheet = formula({
  name: 'sheet-size',
  title: 'Size of a common sheet',
  topic: 'stock',
  about: 'Length and width of sheet goods as commonly sold.',
  formula: 'table',
  inputs: { sheet: { choices: Object.keys(SHEET_SIZES) as (keyof typeof SHEET_SIZES)[], about: 'name it is sold by' } },
  result: { symbol: 'L', name: 'length', dimension: 'length' },
  source: 'common practice',
  validity: 'Sizes vary by up to 5 mm between makers: measure before trimming.',
  compute: ({ sheet: name }) => ({
    value: SHEET_SIZES[name].length,
    also: [{ symbol: 'W', name: 'width', value: SHEET_SIZES[name].width, unit: 'mm' }],
  }),
});

/** Board feet of one board: lengths in mm; a thickness below 1 in counts as 1 in. */
export const boardFeet = (thickness: number, width: number, length: number): number =>
  (Math.max(1, fromMm(thickness)) * fromMm(width) * fromMm(length)) / 144;

const boardFootage = formula({
  name: 'board-feet',
  title: 'Board feet',
  topic: 'stock',
  about: 'The measure rough lumber is sold by: 144 in³ of nominal size.',
  formula: 'bf = n · T · W · L / 144  (inches; T below 1 counts as 1)',
  inputs: {
    thickness: { dimension: 'length', about: 'nominal thickness', symbol: 'T', above: 0 },
    width: { dimension: 'length', about: 'nominal width', symbol: 'W', above: 0 },
    length: { dimension: 'length', about: 'length', symbol: 'L', above: 0 },
    count: { dimension: 'count', about: 'how many boards', symbol: 'n', default: 1, min: 1 },
    price: { dimension: 'money', about: 'price of a board foot', optional: true, min: 0 },
  },
  result: { symbol: 'bf', name: 'board feet', dimension: 'number' },
  source: 'common practice',
  compute: ({ thickness, width, length, count, price }) => {
    const value = count * boardFeet(thickness, width, length);
    return {
      value,
      also: [
        { symbol: 'V', name: 'volume', value: value * 144 * 0.0254 ** 3, unit: 'm³' },
        ...(price === undefined ? [] : [{ symbol: 'cost', name: 'cost', value: price * value, unit: '' }]),
      ],
    };
  },
});

export const SIZE_CALCULATORS = [nominal, hardwood, panel, slack, sheet, boardFootage] as const;
