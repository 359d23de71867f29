import { type Piece, type Printers, printersFor, USUAL_SAFETY, type Wall } from '../../plan/index.ts';
import { formatSold, inch } from '../../quantity/index.ts';
import { fixingLength, isAsThick } from '../../stock/index.ts';
import { imperial, type Subject, type WallInput } from '../plan-input.ts';
import { numberOf, SCREW_SIZES, type Screw, type ScrewSizes } from '../screw-sizes.ts';
import { rootOf } from '../timber-fixing.ts';
import { isHungPanel } from './hung-panel.ts';
import { type FixKind, isScrew } from './point.ts';
import { type Through, throughAll } from './through.ts';

/** A self-drilling screw shows three threads behind the sheet and its drill point is no thread: mm behind it. Common practice. */
export const BEHIND_SHEET = 10;

/** What goes into one hole. */
export interface Fixing {
  readonly kind: FixKind;
  readonly name: string;
  readonly diameter: number;
  readonly length: number;
  /** What is known of how it is sold, mm. */
  readonly sold: { readonly diameter?: number; readonly length?: number };
  readonly pilot?: number;
  /** Of a plug, where the plan says how long it is. */
  readonly plugLength?: number;
  readonly rated?: { readonly pull: number; readonly shear: number };
  readonly safety: number;
  /** How lengths are told of it. */
  readonly print: Printers;
  /** What is behind the wall is not known, and the plan names none: which it is to be is settled by looking. */
  readonly open?: true;
}

/** The fixing a piece asks for, or the usual one for what is behind its wall. */
export function fixingOf(said: Piece, wall: Wall, heavy: boolean, input: WallInput, through: Through): Fixing {
  const framing = wall.framing?.kind ?? 'unknown';
  const usual: FixKind =
    framing === 'steel stud'
      ? 'self-drilling screw'
      : framing === 'masonry'
        ? 'plug'
        : heavy
          ? 'lag screw'
          : 'wood screw';
  const kind = said.fix?.kind ?? usual;
  const open = framing === 'unknown' && !said.fix;
  const light = isHungPanel(said);
  const usualScrew = usualOf(input, kind, light);
  const diameter = said.fix?.diameter ?? usualScrew?.diameter ?? 8;
  const length =
    said.fix?.length ?? (usualScrew ? longEnough(input, kind, { ...usualScrew, diameter }, through, light) : inch(1.5));
  const print = printersFor(input.plan.units);
  if (open) return { kind, name: 'what suits the wall', sold: {}, diameter, length, safety: USUAL_SAFETY, print, open };
  const sold = isScrew(kind)
    ? { diameter, length }
    : {
        ...(said.fix?.diameter && { diameter: said.fix.diameter }),
        ...(said.fix?.length && { length: said.fix.length }),
      };
  return {
    kind,
    name: [
      kind,
      ...(sold.diameter ? [thicknessIn(input, kind, sold.diameter)] : []),
      ...(sold.length ? ['×', formatSold(sold.length, imperial(input))] : []),
    ].join(' '),
    sold,
    diameter,
    length,
    ...(isScrew(kind) && kind !== 'self-drilling screw' && { pilot: pilotOf(kind, diameter) }),
    // the hole of a plug, an anchor or a toggle is as the packet says: its own diameter unless the plan says none
    ...(!isScrew(kind) && said.fix?.diameter && { pilot: said.fix.diameter }),
    ...(kind === 'plug' && said.fix?.length && { plugLength: said.fix.length }),
    ...(said.fix?.rated && { rated: said.fix.rated }),
    safety: said.fix?.safety ?? USUAL_SAFETY,
    print,
  };
}

/**
 * Lead hole for the thread in framing, mm. Lag screws: NDS-2018, 12.1.4.2, 40 to 70 % of the shank in wood up to a gravity of 0.5. Wood
 * screws by number: NDS-2018, 12.1.5.2, 70 % of the root in wood of 0.5 to 0.6; softer wood may do without, but the hole keeps them straight.
 * Metric ones: EN 1995-1-1, 10.4.5, about 70 % of the shank, which under a rolled thread is 0.72 of the diameter (both from memory).
 */
export function pilotOf(kind: 'lag screw' | 'wood screw', diameter: number): number {
  if (kind === 'lag screw') return 0.65 * diameter;
  return 0.7 * (numberOf(diameter) === undefined ? 0.72 * diameter : rootOf(kind, diameter));
}

/** Screws by their number where they go by it: no tape shows a #10. */
function thicknessIn(input: WallInput, kind: FixKind, diameter: number): string {
  const number = isScrew(kind) && imperial(input) ? numberOf(diameter) : undefined;
  return number === undefined ? formatSold(diameter, imperial(input)) : `#${number}`;
}

/** The sizes sold where the plan's units are used. */
export const sizesFor = (input: Pick<WallInput, 'plan'>): ScrewSizes =>
  SCREW_SIZES[imperial(input) ? 'inch' : 'metric'];

/** For a case that hangs on studs, the stronger screws of those that are sold; none for what is held otherwise. */
export function strongerScrews(
  input: WallInput,
  { placed, said }: Subject,
): readonly (Screw & { readonly kind: 'lag screw' | 'self-drilling screw' })[] {
  const framing = input.plan.room.walls.find((w) => w.id === placed.wall!.id)!.framing?.kind;
  if (said.fix && !isScrew(said.fix.kind)) return [];
  const { heavyDrilling, lags } = sizesFor(input);
  if (framing === 'steel stud') return [{ kind: 'self-drilling screw', ...heavyDrilling }];
  return framing === 'timber stud' ? lags.map((lag) => ({ kind: 'lag screw', ...lag })) : [];
}

/** The usual screw of a kind; undefined for what is no screw. */
function usualOf(input: WallInput, kind: FixKind, light: boolean): Screw | undefined {
  const { usual, panel } = sizesFor(input);
  if (kind === 'wood screw' && light) return panel;
  return isScrew(kind) ? usual[kind] : undefined;
}

/** Of screws of a kind, the usual length, or the next one that is long enough for what they go through. */
function longEnough(
  input: WallInput,
  kind: FixKind,
  { diameter, length: usual }: Screw,
  through: Through,
  light: boolean,
): number {
  // six diameters of thread in the framing, and the point
  const wanted = Math.max(
    light ? 0 : usual,
    throughAll(through) + (kind === 'self-drilling screw' ? BEHIND_SHEET : 8 * diameter),
  );
  // what the shop sells comes before what is usual
  const sold = input.plan.stock.packs
    .flatMap((p) =>
      p.use.toLowerCase() === kind && isAsThick(p.name ?? p.id, diameter) ? (fixingLength(p.name ?? p.id) ?? []) : [],
    )
    .sort((a, b) => a - b);
  const own = sold.find((length) => length >= wanted - 1e-6);
  if (own !== undefined) return own;
  const { lengths } = sizesFor(input);
  return [usual, ...lengths].find((length) => length >= wanted - 1e-6) ?? lengths.at(-1)!;
}
