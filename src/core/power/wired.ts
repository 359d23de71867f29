import type { Vec3 } from '../geometry/index.ts';
import type { Working } from '../notes/index.ts';
import type { StripStretch } from '../surroundings/index.ts';
import { traceCurrent } from './conductor.ts';
import type { WireChoice, WireCut } from './design.ts';
import { cutToFit, PIXEL_KINDS, type PixelKind, pitch, pixelKind } from './pixel.ts';
import type { FeedPlan } from './strip.ts';

/** One stretch of a strip as it is cut, fed and protected. Lengths mm, currents A. */
export interface WiredStrip {
  /** From the end that is fed first. */
  readonly run: StripStretch;
  /** Which of its ends that is, as one faces it. */
  readonly begins: 'left' | 'right';
  readonly kind: PixelKind;
  readonly pixels: number;
  readonly length: number;
  readonly current: number;
  readonly feeds: FeedPlan & { readonly enough: boolean };
  readonly lead: number;
  readonly wire: WireChoice | undefined;
  /** The outlet its supply is plugged in at. */
  readonly supply: string;
  readonly wattsPerMetre: number;
  /** How much warmer than the room its channel gets, K. */
  readonly rise: number;
}
/** One supply: its strips, its plate, its fuse box. */
export interface SuppliedStrips {
  readonly id: string;
  /** The outlet it is plugged in at. */
  readonly outlet: string;
  readonly volts: number;
  readonly current: number;
  /** What its plate should say: the smallest on sale that is loaded to 80 % at most; undefined where none is large enough. */
  readonly rating: number | undefined;
  readonly class2: boolean;
  readonly watts: number;
  /** Names of its strips' stretches. */
  readonly strips: readonly string[];
}
/** The data of all strips of one voltage that start at one outlet: one controller, one strip handing on to the next. */
export interface DataLine {
  readonly outlet: string;
  readonly pixels: number;
  readonly frames: number;
  /** Stretches in the order the data runs, with the wire to each from the one before it (the first: from the controller), mm. */
  readonly links: readonly { readonly to: string; readonly title: string; readonly wire: number }[];
  /** Farther to the first light than common practice goes without a stronger driver. */
  readonly far: boolean;
}
/** What is joined so that it can be taken apart again. */
export interface Joining {
  readonly what: string;
  readonly count: number;
  readonly use: string;
}
export interface PowerPlan {
  readonly strips: readonly WiredStrip[];
  readonly supplies: readonly SuppliedStrips[];
  readonly data: readonly DataLine[];
  readonly joinings: readonly Joining[];
  readonly cuts: readonly WireCut[];
  readonly total: ReadonlyMap<string, number>;
  readonly workings: readonly Working[];
}

/** 1 oz copper (35 µm), 2.5 mm wide for each rail. Common practice; the reel's data sheet decides. */
export const RAIL = { width: 2.5, copper: 35 } as const;
/** How much a rail may warm by its own current, K, beside what its lights give off. Common practice. */
export const RAIL_RISE = 10;
/** What a rail may carry then, A: IPC-2221, 6.2, an outer trace. */
export const RAIL_LIMIT = traceCurrent(RAIL.width, RAIL.copper, RAIL_RISE);

/** Free of lights at the ends of a channel, both together, mm: solder and plug. Common practice. */
export const STRIP_ENDS = 20;

/** What of a strip fits into a stretch. */
export function cutOf(run: StripStretch) {
  const known = PIXEL_KINDS.some((k) => k.id === run.strip.pixel);
  const kind = pixelKind(known ? run.strip.pixel : '5 V RGB, typical');
  const step = pitch(run.strip.perMetre);
  return { kind, known, step, ...cutToFit(run.space, step * kind.perGroup, STRIP_ENDS) };
}

/** What is written for a wire where no size of the list will do: it is drawn, and nothing is bought for it. */
export const NO_WIRE = 'none that is thick enough';

/** Down inside the wall or the case and along: not as the crow flies. */
export const apart = (a: Vec3, b: Vec3): number => Math.abs(a.x - b.x) + Math.abs(a.y - b.y) + Math.abs(a.z - b.z);
