import { type Mm, mm } from '../quantity/index.ts';

/**
 * What holds when neither the case nor the plan says otherwise. All are common practice, in millimetres whatever the plan's own
 * units, so that the same plan spelt in inches gives the same parts.
 */
export const DEFAULTS = {
  joint: 'butt',
  capped: false,
  back: 'applied',
  style: 'overlay',
  /** A third of the panel, so that two let in from both faces still leave a third between them. */
  letFraction: 1 / 3,
  /** Of a grooved back: leaves room to scribe the sides to the wall. */
  backInset: mm(12.7),
  /** Of a hanging rail cut from a panel. */
  railHeight: mm(90),
  /** Round inset fronts and between fronts: what doors need to swing past each other with paint on. */
  gap: mm(3),
  reveal: mm(3),
  /** Keeps the shelf off the inside of a door. */
  setback: mm(6),
  /** An adjustable shelf that can be lifted out without scraping. */
  play: mm(3),
  toeSetback: mm(75),
  drawer: {
    /** Half an inch at each side: what side-mounted ball-bearing slides are made for. */
    side: mm(12.7),
    above: mm(12.7),
    below: mm(12.7),
    rear: mm(10),
    slides: [250, 300, 350, 400, 450, 500, 550, 600].map(mm) as readonly Mm[],
    groove: mm(10),
  },
  /** Round a socket cut out of a back: for its plate, and a hand on the plug. */
  serviceClear: mm(10),
  /** Between a vent and what is round it. */
  ventEdge: mm(20),
  /** Holes for shelf pins. */
  pin: { diameter: mm(5), depth: mm(10), pitch: mm(32), inset: mm(37), eitherWay: 2 },
  /** Widest clear run of a plinth between two cross pieces. */
  plinthSpan: mm(600),
  /** Steel rods out of a flat steel plate; `short` is how far they end behind the lip. */
  rod: {
    diameter: mm(12),
    spacing: mm(400),
    short: mm(15),
    plate: mm(30),
    plateThickness: mm(5),
    plateBeyond: mm(20),
    leastBearing: mm(3),
  },
  shelfPlay: mm(20),
  /** Of a lining: no strip narrower than this if it can be helped. */
  leastRipping: mm(150),
} as const;

/**
 * Hinges by the length of the hinged edge: up to 900 mm two, 1600 three, 2000 four, and one more for every further 500.
 * Common practice; a heavy door wants the hinge maker's own chart.
 */
export function hingeCount(edge: Mm): number {
  if (edge <= 900) return 2;
  if (edge <= 1600) return 3;
  return 4 + Math.max(0, Math.ceil((edge - 2000) / 500));
}

/**
 * Stays of a flap by the length of its hinged edge: without one it falls on a hand or a head, or tears its hinges out. One serves up to
 * 600 mm, at one side; a wider one twists unless both sides are held. Common practice; how heavy a flap they hold is told by their maker.
 */
export const stayCount = (edge: Mm): number => (edge <= 600 ? 1 : 2);

/** Screws one every 150 mm of joint and brads one every 100, never fewer than two. Common practice. */
export const FASTENER_SPACING = { screws: mm(150), brads: mm(100) } as const;
export const fastenerCount = (length: Mm, kind: 'screws' | 'brads'): number =>
  Math.max(2, Math.ceil(length / FASTENER_SPACING[kind]) + 1);

/** Edge band bought beyond the edge itself, to trim flush. Common practice. */
export const BAND_OVER: Mm = mm(50);
