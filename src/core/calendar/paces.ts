import { PACES } from '../bill/index.ts';

/** Usual minutes of one person for one of each thing. All common practice; those of cutting, building and fitting are the bill's own. */
const BILL = new Map(PACES.map(({ key, minutes, what }) => [key as string, { minutes, what }]));
const OTHERS = {
  clear: { minutes: 60, what: 'room cleared, floor covered, edges masked' },
  sample: { minutes: 45, what: 'samples of old paint and boards taken wet, packed and brought to be tested' },
  'let in': { minutes: 45, what: 'length of timber let in between studs, and the board closed over it' },
  'patch wall': { minutes: 15, what: 'wall looked over and patched' },
  'sand wall': { minutes: 10, what: 'patches of a wall sanded' },
  'prime wall': { minutes: 8, what: 'patches of a wall primed' },
  'paint m²': { minutes: 6, what: 'square metre of wall cut in and rolled, one coat' },
  errand: { minutes: 60, what: 'way to a shop and back, loading' },
  line: { minutes: 3, what: 'line of the shopping list found and checked' },
  order: { minutes: 20, what: 'order written and sent' },
  brad: { minutes: 0.4, what: 'nail hole filled' },
  'sand m²': { minutes: 6, what: 'square metre of a case sanded by hand' },
  'coat m²': { minutes: 8, what: 'square metre of a case or front coated' },
  scribe: { minutes: 30, what: 'filler scribed to the wall' },
  'trim coat m': { minutes: 3, what: 'metre of trim coated' },
  'caulk m': { minutes: 2, what: 'metre of caulk run and wiped' },
  strip: { minutes: 45, what: 'strip light laid and plugged in' },
  'screen cable': { minutes: 20, what: 'cable of a display led and plugged in' },
  mark: { minutes: 3, what: 'hole marked on the wall from plumb and level line' },
  clean: { minutes: 45, what: 'room cleaned' },
  camera: { minutes: 60, what: 'set looked at through the camera, light set' },
  look: { minutes: 30, what: 'set looked over against the drawings' },
} as const;
export type Counted = (typeof PACES)[number]['key'] | keyof typeof OTHERS;

export const paceOf = (counted: Counted): { readonly minutes: number; readonly what: string } =>
  BILL.get(counted) ?? OTHERS[counted as keyof typeof OTHERS];
