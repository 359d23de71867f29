import { type AnyCalculator, formula } from '../notes/index.ts';

/** Height the top corner of a case reaches while it is stood up on its lower back edge: √(H² + D²), mm. */
export const standUpHeight = (height: number, depth: number): number => Math.hypot(height, depth);

/** Tallest case of a depth that can be stood up under a ceiling: √(C² − D²); 0 where none can. */
export const tallestToStandUp = (ceiling: number, depth: number): number =>
  Math.sqrt(Math.max(0, ceiling ** 2 - depth ** 2));

/**
 * Longest rectangle of a width that can be turned through a right-angled corner from a passage of width a into one of b.
 *
 *     L = min over 0 < x < 90° of (a sin x + b cos x − t)/(sin x cos x);   t = 0: (a^(2/3) + b^(2/3))^(3/2)
 *
 * The outer walls touch both ends, the inner corner touches the side. 0 when it is wider than a passage.
 * Source: calculus of the moving rod ("ladder round a corner"); the strip by the same argument.
 */
export function cornerTurn(a: number, b: number, width = 0): number {
  if (width >= Math.min(a, b)) return 0;
  const length = (x: number) => (a * Math.sin(x) + b * Math.cos(x) - width) / (Math.sin(x) * Math.cos(x));
  if (width === 0) return (a ** (2 / 3) + b ** (2 / 3)) ** (3 / 2);
  // one valley: coarse look, then golden section
  const steps = 720;
  let best = 1;
  for (let i = 1; i < steps; i++)
    if (length((i * Math.PI) / 2 / steps) < length((best * Math.PI) / 2 / steps)) best = i;
  let [low, high] = [
    ((best - 1) * Math.PI) / 2 / steps || 1e-9,
    Math.min(((best + 1) * Math.PI) / 2 / steps, Math.PI / 2 - 1e-9),
  ];
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let i = 0; i < 80; i++) {
    const [p, q] = [high - golden * (high - low), low + golden * (high - low)];
    if (length(p) < length(q)) high = q;
    else low = p;
  }
  return Math.max(0, length((low + high) / 2));
}

/** Longest rectangle that gets round: turned, or pushed through sideways without turning. */
export function cornerPass(a: number, b: number, width = 0): number {
  const straight = Math.max(width <= a ? b : 0, width <= b ? a : 0);
  return Math.max(cornerTurn(a, b, width), straight);
}

/** Does a rectangle p × q lie inside an opening a × b, turned in its plane if need be? Source: W. B. Carver, 1957. */
export function rectangleFits(p: number, q: number, a: number, b: number): boolean {
  const [long, short] = p >= q ? [p, q] : [q, p];
  const [A, B] = a >= b ? [a, b] : [b, a];
  if (short > B) return false;
  if (long <= A) return true;
  const d = long ** 2 + short ** 2;
  const need = (2 * long * short * A + (long ** 2 - short ** 2) * Math.sqrt(Math.max(0, d - A ** 2))) / d;
  return B >= need;
}

export interface Box {
  readonly width: number;
  readonly height: number;
  readonly depth: number;
}
export interface Opening {
  readonly width: number;
  readonly height: number;
}
export interface DoorPass {
  readonly passes: boolean;
  /** What could be added to both sides of the leading face before it sticks, mm; negative: what must come off. */
  readonly spare: number;
  /** Which side of the box goes along the way through. */
  readonly leading: 'width' | 'height' | 'depth';
}

/** The best way to carry a box through an opening: any side first, the face turned in the opening if need be. */
export function passesDoor(box: Box, door: Opening): DoorPass {
  const ways = [
    { leading: 'width', p: box.height, q: box.depth },
    { leading: 'height', p: box.width, q: box.depth },
    { leading: 'depth', p: box.width, q: box.height },
  ] as const;
  const best = ways
    .map(({ leading, p, q }) => ({ leading, spare: spareOf(p, q, door) }))
    .reduce((x, y) => (y.spare > x.spare ? y : x));
  return { ...best, passes: best.spare >= 0 };
}

function spareOf(p: number, q: number, door: Opening): number {
  const fits = (extra: number) => rectangleFits(p + extra, q + extra, door.width, door.height);
  let low = -Math.min(p, q);
  let high = Math.max(door.width, door.height);
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  // an exact fit is a fit
  return Math.abs(low) < 1e-9 * high || (fits(0) && low < 0) ? 0 : low;
}

/** Carried on any of its sides that fits under the ceiling, does the box get round a right-angled corner? */
export function turnsCorner(box: Box, a: number, b: number, ceiling: number): { passes: boolean; spare: number } {
  const ways = [
    { up: box.height, p: box.width, q: box.depth },
    { up: box.width, p: box.height, q: box.depth },
    { up: box.depth, p: box.width, q: box.height },
  ].filter((way) => way.up <= ceiling);
  const spare = Math.max(
    Number.NEGATIVE_INFINITY,
    ...ways.map(({ p, q }) => cornerPass(a, b, Math.min(p, q)) - Math.max(p, q)),
  );
  return { passes: spare >= 0, spare };
}

/** Does a box lie square in a load space? The least spare of the three sides, largest to largest. */
export function vehicleSpare(
  box: Box,
  space: { readonly length: number; readonly width: number; readonly height: number },
): number {
  const sorted = (v: readonly number[]) => [...v].sort((x, y) => x - y);
  const [sides, room] = [sorted([box.width, box.height, box.depth]), sorted([space.length, space.width, space.height])];
  return Math.min(...sides.map((side, i) => room[i]! - side));
}

const CAUTION = 'Two people, straps and a clear way; nobody below a case on the stairs.';
const boxInputs = {
  height: { dimension: 'length', about: 'height of the case', symbol: 'H', above: 0 },
  width: { dimension: 'length', about: 'width of the case', symbol: 'W', above: 0 },
  depth: { dimension: 'length', about: 'depth of the case', symbol: 'D', above: 0 },
} as const;

export const standUp = formula({
  name: 'stand-up-height',
  title: 'Ceiling needed to stand a case up',
  topic: 'strength',
  about: 'A case that was built lying down swings its top corner higher than it is tall.',
  formula: 'C = √(H² + D²)',
  inputs: {
    height: boxInputs.height,
    depth: boxInputs.depth,
    ceiling: { dimension: 'length', about: 'ceiling at its lowest', symbol: 'C', optional: true, above: 0 },
  },
  result: { symbol: 'C', name: 'height its corner reaches', dimension: 'length' },
  source: { title: 'Geometry', place: 'diagonal of the side' },
  caution: CAUTION,
  assumes: ['it turns on its lower back edge; light fittings and cornices hang lower than the ceiling'],
  compute: (v) => {
    const value = standUpHeight(v.height, v.depth);
    return {
      value,
      ...(v.ceiling !== undefined && {
        limit: { value: v.ceiling, unit: 'mm', why: 'ceiling' },
        also: [{ symbol: 's', name: 'spare under the ceiling', value: v.ceiling - value, unit: 'mm' }],
      }),
    };
  },
});

const tallest = formula({
  name: 'tallest-case',
  title: 'Tallest case that can be stood up under a ceiling',
  topic: 'strength',
  about: 'For a case built lying down; a separate plinth lets it be taller.',
  formula: 'H = √(C² − D²)',
  inputs: {
    ceiling: { dimension: 'length', about: 'ceiling at its lowest', symbol: 'C', above: 0 },
    depth: boxInputs.depth,
  },
  result: { symbol: 'H', name: 'tallest', dimension: 'length' },
  source: { title: 'Geometry', place: 'diagonal of the side' },
  caution: CAUTION,
  compute: ({ ceiling, depth }) => {
    if (depth >= ceiling) throw new RangeError('it is deeper than the room is high');
    return tallestToStandUp(ceiling, depth);
  },
});

const corner = formula({
  name: 'corner-turn',
  title: 'Longest piece that turns a corner',
  topic: 'strength',
  about: 'From one passage into another at a right angle, or from a hall through a door in its side; carried level.',
  formula: 'L = min_x (a sin x + b cos x − t)/(sin x cos x);  t = 0: (a^(2/3) + b^(2/3))^(3/2)',
  inputs: {
    from: { dimension: 'length', about: 'width of the first passage', symbol: 'a', above: 0 },
    to: { dimension: 'length', about: 'width of the second passage, or of the door', symbol: 'b', above: 0 },
    thickness: {
      dimension: 'length',
      about: 'width of the piece as it is carried, across its length',
      symbol: 't',
      default: 0,
      min: 0,
    },
  },
  result: { symbol: 'L', name: 'longest that turns', dimension: 'length' },
  source: { title: 'Calculus of the moving rod and strip' },
  caution: CAUTION,
  assumes: ['carried level, square corners, bare walls; hands and handrails need room too'],
  compute: (v) => {
    if (v.thickness >= Math.min(v.from, v.to)) throw new RangeError('the piece is wider than a passage');
    return {
      value: cornerTurn(v.from, v.to, v.thickness),
      also: [
        {
          symbol: 'L_s',
          name: 'longest that goes through sideways, without turning',
          value: Math.max(v.from, v.to),
          unit: 'mm',
        },
        {
          symbol: 'L_max',
          name: 'longest that gets round either way',
          value: cornerPass(v.from, v.to, v.thickness),
          unit: 'mm',
        },
      ],
    };
  },
});

export const throughDoor = formula({
  name: 'door-pass',
  title: 'Does a case go through a door',
  topic: 'strength',
  about:
    'Any side first, turned in the opening if need be: what is to spare on both sides of the face that goes first.',
  formula: 'largest s with (p + s) × (q + s) inside the opening',
  inputs: {
    ...boxInputs,
    'door-width': { dimension: 'length', about: 'clear width, door leaf and stops off', above: 0 },
    'door-height': { dimension: 'length', about: 'clear height', above: 0 },
  },
  result: { symbol: 's', name: 'to spare (negative: too big)', dimension: 'length' },
  source: { title: 'W. B. Carver, rectangle inside a rectangle', place: 'American Mathematical Monthly, 1957' },
  caution: CAUTION,
  compute: (v) => {
    const pass = passesDoor(v, { width: v['door-width'], height: v['door-height'] });
    return { value: pass.spare, assumes: [`${pass.leading} first`] };
  },
});

export const roundCorner = formula({
  name: 'corner-pass',
  title: 'Does a case get round a corner',
  topic: 'strength',
  about: 'Carried on any side that fits under the ceiling, turned level.',
  formula: 'spare = longest that gets round − longest side carried level',
  inputs: {
    ...boxInputs,
    from: { dimension: 'length', about: 'width of the first passage', symbol: 'a', above: 0 },
    to: { dimension: 'length', about: 'width of the second passage, or of the door', symbol: 'b', above: 0 },
    ceiling: { dimension: 'length', about: 'lowest ceiling or door head on the way', above: 0 },
  },
  result: { symbol: 's', name: 'to spare in length (negative: it sticks)', dimension: 'length' },
  source: { title: 'Calculus of the moving strip' },
  caution: CAUTION,
  assumes: ['carried level: tilting a long piece up may still get it round'],
  compute: (v) => {
    const { spare } = turnsCorner(v, v.from, v.to, v.ceiling);
    if (!Number.isFinite(spare)) throw new RangeError('no side of it fits under the ceiling');
    return spare;
  },
});

export const intoVehicle = formula({
  name: 'vehicle-fit',
  title: 'Does a case fit in a vehicle',
  topic: 'strength',
  about: 'Laid square in the load space, largest side to largest.',
  formula: 's = min(space_i − side_i), both sorted',
  inputs: {
    ...boxInputs,
    'space-length': { dimension: 'length', about: 'length of the load space', above: 0 },
    'space-width': { dimension: 'length', about: 'width between the wheel arches', above: 0 },
    'space-height': { dimension: 'length', about: 'height at the hatch', above: 0 },
  },
  result: { symbol: 's', name: 'to spare on the tightest side', dimension: 'length' },
  source: { title: 'Geometry' },
  caution: CAUTION,
  compute: (v) => vehicleSpare(v, { length: v['space-length'], width: v['space-width'], height: v['space-height'] }),
});

export const MOVING_CALCULATORS: readonly AnyCalculator[] = [
  standUp,
  tallest,
  corner,
  roundCorner,
  throughDoor,
  intoVehicle,
];
