import { type CheckRow, checkTable } from '../notes/index.ts';

const EXACT = 1e-9;
const STEAM = 'a printed table of saturated water by temperature';
const LECTURE = 'lecture notes on project scheduling, three-point network of ten activities: 20.83 days';
const TEXTBOOK =
  'a textbook of management science, exercise on three-point networks: 24 weeks, σ² 5.00, P(28) = 0.9633';

export const checks: readonly CheckRow[] = [
  // Magnus against a steam table: the formula is fitted to 0.3 %
  ...checkTable('vapour-pressure', STEAM, 'seen', [
    [{ temperature: '5 °C' }, 0.8721, 'kPa', '0.3%'],
    [{ temperature: '10 °C' }, 1.2276, 'kPa', '0.3%'],
    [{ temperature: '15 °C' }, 1.7051, 'kPa', '0.3%'],
    [{ temperature: '20 °C' }, 2.339, 'kPa', '0.3%'],
    [{ temperature: '25 °C' }, 3.169, 'kPa', '0.3%'],
    [{ temperature: '30 °C' }, 4.246, 'kPa', '0.3%'],
  ]),
  ...checkTable('drying-time', 'ratio of saturation pressures of the same steam table', 'computed', [
    [{ tin: '4 h', temperature: '77 °F', humidity: 50 }, 4, 'h', EXACT],
    [{ tin: '4 h', temperature: '10 °C' }, (4 * 3.169) / 1.2276, 'h', '0.5%'],
    [{ tin: '4 h', temperature: '25 °C', humidity: 75 }, 8, 'h', EXACT],
    [{ tin: '4 h', temperature: '35 °C', humidity: 20 }, 4, 'h', EXACT],
  ]),
  // joint compound, a coat at 50 %: the trade's table as remembered, which has whole hours
  ...checkTable('drying-time', 'drying of joint compound by temperature and humidity, trade table', 'memory', [
    [{ tin: '17 h', temperature: '60 °F', 'tin-temperature': '70 °F' }, 24, 'h', 0.5],
    [{ tin: '17 h', temperature: '50 °F', 'tin-temperature': '70 °F' }, 36, 'h', 2],
    [{ tin: '17 h', temperature: '70 °F', humidity: 80, 'tin-temperature': '70 °F' }, 38, 'h', 5],
  ]),
  ...checkTable('three-point', LECTURE, 'seen', [
    [{ least: '2 d', likely: '5 d', most: '8 d' }, 5, 'd', EXACT],
    [{ least: '1 d', likely: '4 d', most: '7 d' }, 4, 'd', EXACT],
    [{ least: '5 d', likely: '7 d', most: '12 d' }, 7.5, 'd', EXACT],
    [{ least: '4 d', likely: '6 d', most: '10 d' }, 6.33, 'd', 0.005],
    [{ least: '3 d', likely: '5 d', most: '10 d' }, 5.5, 'd', EXACT],
  ]),
  ...checkTable('three-point', TEXTBOOK, 'seen', [[{ least: '5 d', likely: '8 d', most: '17 d' }, 2, 'd', EXACT, 'σ']]),
  // events 1 to 6 of the lecture notes, the dummy among them; times are its own means
  ...checkTable('critical-path', LECTURE, 'seen', [
    [
      {
        times: '5, 4, 0, 4, 7.5, 5.5, 6, 6.33333333, 5, 4 d',
        before: '1, 1, 1, 2, 2, 3, 3, 4, 4, 6, 6, 7, 8',
        after: '3, 4, 5, 6, 7, 6, 7, 8, 9, 8, 9, 10, 10',
      },
      20.83,
      'd',
      0.005,
    ],
  ]),
  ...checkTable('deadline-chance', TEXTBOOK, 'seen', [
    // printed with z cut to 1.79
    [
      { least: '5, 3, 4, 3 week', likely: '8, 5, 6, 4 week', most: '17, 7, 8, 5 week', by: '28 week' },
      0.9633,
      '',
      0.0005,
    ],
    [
      { least: '5, 3, 4, 3 week', likely: '8, 5, 6, 4 week', most: '17, 7, 8, 5 week', by: '24 week' },
      24,
      'week',
      EXACT,
      'Σt',
    ],
  ]),
];
