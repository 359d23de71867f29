import type { Origin, Source } from '../notes/index.ts';

/**
 * Limits from codes, each with its source. They are paraphrased, section numbers move between editions, and the local code and a
 * licensed electrician decide.
 */
export const ELECTRICAL_CAUTION =
  'Mains wiring is for a licensed electrician, and the local code decides. These figures come from reprints of codes whose section numbers move between editions: verify them locally.';

export const CLASS_2: Source = { title: 'NFPA 70 (NEC)', place: 'chapter 9 table 11(B)' };

/**
 * Nameplate limits of a class 2 d.c. source: 5·V volt-amperes and 5 A up to 20 V, 100 VA and 100/V amperes above, to 60 V.
 * The table's body is from memory; its notes were read.
 */
export function class2Limit(volts: number): { readonly power: number; readonly current: number } {
  if (!(volts > 0 && volts <= CLASS_2_VOLTS.dry))
    throw new RangeError(`class 2 d.c. ends at ${CLASS_2_VOLTS.dry} V, got ${volts} V`);
  return volts <= 20 ? { power: 5 * volts, current: 5 } : { power: 100, current: 100 / volts };
}
/** Highest continuous d.c. voltage; less where wet contact is likely (note 4 of the table). */
export const CLASS_2_VOLTS = { dry: 60, wet: 30 } as const;
/** Most current of an inherently limited source on short circuit, up to 30 V. Source: IEC 60950-1 tables 2B/2C. */
export const SHORT_CIRCUIT_LIMIT = {
  amps: 8,
  upTo: 30,
  source: { title: 'IEC 60950-1', place: 'tables 2B and 2C, limited power sources' },
} as const;

/** A device may carry 80 % of its rating for three hours or more; put the other way, it is chosen at 125 % of such a load. */
export const CONTINUOUS = {
  share: 0.8,
  source: { title: 'NFPA 70 (NEC)', place: '210.19(A) and 210.20(A), section number from memory' } satisfies Source,
} as const;
export const continuousLimit = (device: number): number => device * CONTINUOUS.share;
export const deviceFor = (load: number): number => load / CONTINUOUS.share;

/** Most overcurrent protection for a copper conductor, A by gauge. 240.4(D); the two small ones from memory, with conditions. */
export const PROTECTION_BY_GAUGE: readonly {
  readonly gauge: number;
  readonly amps: number;
  readonly source: Origin;
}[] = [
  { gauge: 18, amps: 7, source: 'from memory' },
  { gauge: 16, amps: 10, source: 'from memory' },
  { gauge: 14, amps: 15, source: { title: 'NFPA 70 (NEC)', place: '240.4(D)' } },
  { gauge: 12, amps: 20, source: { title: 'NFPA 70 (NEC)', place: '240.4(D)' } },
  { gauge: 10, amps: 30, source: { title: 'NFPA 70 (NEC)', place: '240.4(D)' } },
];
export function protectionFor(gauge: number): (typeof PROTECTION_BY_GAUGE)[number] {
  const row = PROTECTION_BY_GAUGE.find((r) => r.gauge === gauge);
  if (!row)
    throw new RangeError(
      `no limit is known here for gauge ${gauge} (only ${PROTECTION_BY_GAUGE.map((r) => r.gauge).join(', ')}): take it from the wire's data sheet`,
    );
  return row;
}

/**
 * Most current of a flexible lead by its nominal area in mm², A; a fuse may be no larger. From memory of BS 7671 table 4F3A
 * (flexible cords, 30 °C): verify before use.
 */
export const PROTECTION_BY_AREA: readonly { readonly area: number; readonly amps: number; readonly source: Origin }[] =
  [
    { area: 0.5, amps: 3, source: 'from memory' },
    { area: 0.75, amps: 6, source: 'from memory' },
    { area: 1, amps: 10, source: 'from memory' },
    { area: 1.5, amps: 16, source: 'from memory' },
    { area: 2.5, amps: 25, source: 'from memory' },
    { area: 4, amps: 32, source: 'from memory' },
  ];

/** Ratings that supplies are sold in, A. Common practice. */
export const SUPPLY_RATINGS: readonly number[] = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30, 40, 60];
/** The smallest supply on sale that is loaded to 80 % at most; undefined when the largest is too small. */
export const supplyFor = (load: number): number | undefined =>
  SUPPLY_RATINGS.find((rating) => rating >= deviceFor(load) * (1 - 1e-12));

/** Ratings of common small fuses, A. From memory. */
export const FUSES: readonly number[] = [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30];

/** The smallest fuse that carries a load for hours and still guards the wire; undefined when none does. */
export function fuseFor(load: number, wireLimit: number): number | undefined {
  const least = deviceFor(load) * (1 - 1e-12);
  return FUSES.find((rating) => rating >= least && rating <= wireLimit);
}

/** Least distance of class 2 wires from power conductors, mm. */
export const SEPARATION: Readonly<
  Record<
    'outside enclosures' | 'in one enclosure',
    { readonly distance: number; readonly source: Source; readonly note: string }
  >
> = {
  'outside enclosures': {
    distance: 50,
    source: { title: 'NFPA 70 (NEC)', place: '725.136(I)' },
    note: 'not asked for where either circuit is in a raceway or in metal- or nonmetallic-sheathed cable',
  },
  'in one enclosure': {
    distance: 6,
    source: { title: 'NFPA 70 (NEC)', place: '725.136(D)' },
    note: 'where the wires enter only to be joined to the equipment in it',
  },
};

/** Voltage rating of power-limited cable, V: the higher may stand in for the lower, never the other way. */
export const LIMITED_CABLE = {
  volts: { CL2: 150, CL3: 300 },
  source: { title: 'NFPA 70 (NEC)', place: 'article 725, listing of CL2 and CL3 cable' } satisfies Source,
} as const;
