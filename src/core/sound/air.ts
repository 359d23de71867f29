/** Air: the speed of sound in it and what it takes from sound on the way. Temperatures °C, frequencies Hz. */

const kelvin = (celsius: number): number => celsius + 273.15;

/** Speed of sound in air, m/s: 343.2 √(T/293.15 K). Source: ISO 9613-1:1993. */
export const soundSpeed = (celsius: number): number => 343.2 * Math.sqrt(kelvin(celsius) / 293.15);

/** The air of a room that is lived in. */
export const ROOM_AIR = { celsius: 20, humidity: 50 } as const;
export const ROOM_SPEED = soundSpeed(ROOM_AIR.celsius);

/** k = 24 ln 10 / c, s/m: the constant of every reverberation formula here. Textbooks round it to 0.16 … 0.167; we keep c. */
export const sabineConstant = (speed: number): number => (24 * Math.LN10) / speed;

const NOMINAL_THIRDS = [
  50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150, 4000, 5000, 6300,
  8000, 10000,
];
/** The exact midband frequency behind a nominal one: 1000 · 10^(k/10). Any other frequency is left as it is. */
export const exactMidband = (nominal: number): number =>
  NOMINAL_THIRDS.includes(nominal) ? 1000 * 10 ** (Math.round(10 * Math.log10(nominal / 1000)) / 10) : nominal;

export interface Air {
  readonly celsius: number;
  /** Relative humidity, %. */
  readonly humidity: number;
  /** Pressure, kPa; 101.325 when left out. */
  readonly pressure?: number;
}

/**
 * What air takes from a pure tone, dB/km.
 * Source: ISO 9613-1:1993, equations (3) to (5) and annex B for the saturation pressure; ±10 % for 0.05 to 5 % of water,
 * −20 to 50 °C, below 200 kPa, frequency over pressure 0.4 to 10 kHz/kPa·10⁻¹. The formula was written from memory and
 * reproduces the cells of the standard's table 1 that were read.
 */
export function airAttenuation({ celsius, humidity, pressure = 101.325 }: Air, frequency: number): number {
  const T = kelvin(celsius);
  const t = T / 293.15;
  const p = pressure / 101.325;
  const saturation = 10 ** (-6.8346 * (273.16 / T) ** 1.261 + 4.6151);
  const h = (humidity * saturation) / p; // molar concentration of water vapour, %
  const oxygen = p * (24 + (4.04e4 * h * (0.02 + h)) / (0.391 + h));
  const nitrogen = p * t ** -0.5 * (9 + 280 * h * Math.exp(-4.17 * (t ** (-1 / 3) - 1)));
  const f2 = frequency * frequency;
  const perMetre =
    8.686 *
    f2 *
    ((1.84e-11 / p) * Math.sqrt(t) +
      t ** -2.5 *
        ((0.01275 * Math.exp(-2239.1 / T)) / (oxygen + f2 / oxygen) +
          (0.1068 * Math.exp(-3352 / T)) / (nitrogen + f2 / nitrogen)));
  return perMetre * 1000;
}

/** Power attenuation m, 1/m, from dB/km: the term 4 m V of the reverberation formulas. */
export const powerAttenuation = (dbPerKm: number): number => dbPerKm / 1000 / (10 * Math.LOG10E);
