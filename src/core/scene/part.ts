import type { Axis, Box, Frame, Vec3 } from '../geometry/index.ts';
import type { Mm } from '../quantity/index.ts';

/** `scores/left-side`: the piece, then the part's place in it. The same after an edit that leaves the part in being. */
export type PartId = string;

/** A direction of a piece's own frame, in words: facing the wall, x to the right, y up, z out of the wall. */
export type Direction = 'left' | 'right' | 'up' | 'down' | 'back' | 'front';
export const OPPOSITE: Readonly<Record<Direction, Direction>> = {
  left: 'right',
  right: 'left',
  up: 'down',
  down: 'up',
  front: 'back',
  back: 'front',
};
/** A step of 1 that way, in the frame of a piece. */
export const TOWARDS: Readonly<Record<Direction, Vec3>> = {
  right: { x: 1, y: 0, z: 0 },
  left: { x: -1, y: 0, z: 0 },
  up: { x: 0, y: 1, z: 0 },
  down: { x: 0, y: -1, z: 0 },
  front: { x: 0, y: 0, z: 1 },
  back: { x: 0, y: 0, z: -1 },
};
export const AXIS_OF: Readonly<Record<Direction, Axis>> = {
  left: 'x',
  right: 'x',
  up: 'y',
  down: 'y',
  back: 'z',
  front: 'z',
};

/**
 * What a part is, exactly: a box in its piece's own frame, less everything machined out of it. All parts of a piece are
 * axis-aligned in that frame.
 */
export interface Solid {
  readonly box: Box;
  readonly taken: readonly Machining[];
}

/** Material taken out of a part's box: by a joint, or for something that must pass. */
export interface Machining {
  readonly kind: 'rabbet' | 'dado' | 'groove' | 'notch' | 'cut-out' | 'hole' | 'bore';
  /** May reach past the part's box; only what lies inside it counts. For a hole or bore the box around the cylinder. */
  readonly box: Box;
  readonly why: string;
  /** Of a hole or bore, along `axis`. Its box is what is checked; the drawing shows the circle. */
  readonly round?: { readonly diameter: Mm; readonly axis: Axis };
}

/** A band glued to one edge. The part is cut smaller by its thickness, so that the finished size is what was asked. */
export interface Edge {
  readonly towards: Direction;
  readonly band: string;
  readonly thickness: Mm;
  readonly length: Mm;
}

export interface Label {
  /** Where it goes: the piece's title, and the bay where it helps. */
  readonly place: string;
  readonly name: string;
  /** Which way is up when it is in place, as a direction of the piece; and which face is seen. Drawn as marks on the label. */
  readonly up: Direction;
  readonly show: Direction;
}

export interface Part {
  readonly id: PartId;
  readonly piece: string;
  readonly label: Label;
  /** What it does, in the trade's word: side, bottom, top, shelf, back, door, drawer front, stile, rail, skin, lip … */
  readonly role: string;
  /** The stock it is cut from: the id of a panel or a board of the plan, or undefined when the plan names none. */
  readonly stock: string;
  readonly from: 'panel' | 'board';
  readonly solid: Solid;
  /** Which axes of the piece the part's length, width and thickness run along. Grain runs along the length. */
  readonly axes: { readonly length: Axis; readonly width: Axis; readonly thickness: Axis };
  /** Finished, edge bands and tongues included: the sides of `solid.box`. */
  readonly size: { readonly length: Mm; readonly width: Mm; readonly thickness: Mm };
  /** What the saw is set to: finished less edge bands. */
  readonly cut: { readonly length: Mm; readonly width: Mm };
  /** May it be turned on the sheet? 'fixed' when the stock has grain and it matters. */
  readonly grain: 'fixed' | 'free';
  readonly edges: readonly Edge[];
}

/** Where two parts meet and are fastened. `contact` is the region they share: flat for a butt, a box for what is let in. */
export interface Joint {
  readonly id: string;
  readonly kind: 'butt' | 'rabbet' | 'dado' | 'groove' | 'applied' | 'pinned' | 'hung' | 'slid';
  /** `a` is let into, or rests against, `b`. */
  readonly a: PartId;
  readonly b: PartId;
  readonly contact: Box;
  readonly fasten: readonly ('glue' | 'screws' | 'brads' | 'hinges' | 'slides' | 'pins' | 'nothing')[];
}

/** What stays whole in front of the point of a screw driven from behind, mm. Common practice. */
const LEFT_WHOLE = 3;
/** The longest screw that may be driven straight through one part into the next, mm, both lying flat across its way: a longer one comes out of the face. Undefined where it finds an edge to go into. */
export const longestScrew = (through: Lying, into: Lying, way: Axis): number | undefined =>
  through.axes.thickness === way && into.axes.thickness === way
    ? through.size.thickness + into.size.thickness - LEFT_WHOLE
    : undefined;
interface Lying {
  readonly axes: Pick<Part['axes'], 'thickness'>;
  readonly size: Pick<Part['size'], 'thickness'>;
}

/** Something bought by the piece and not cut: hinge, slide, shelf pin, rod, screw … */
/** The `use` of what goes into a wall of which nobody knows yet what is behind it. */
export const WALL_FIXING = 'wall fixing';

export interface Fitting {
  readonly id: string;
  readonly piece: string;
  /** The `use` of a pack in the stock: 'hinge', 'drawer slide', 'shelf pin', 'rod', 'screw', 'front screw', 'brad', 'edge band', 'glue' … */
  readonly use: string;
  readonly name: string;
  readonly count: number;
  /** A length in mm (edge band, rod), an area in mm² (paint) or a volume in L when it is not counted by the piece. */
  readonly amount?: { readonly value: number; readonly unit: 'mm' | 'mm²' | 'L' | 'kg' };
  /** A pack of the plan named for it, when one is. */
  readonly stock?: string;
  /** Of what is sold by how long it is (a wall screw, a plug, a pair of slides), and of a rod how thick, mm. */
  readonly length?: number;
  readonly diameter?: number;
  /** Of a strip of lights: how many to the metre, and at how many volts. */
  readonly lights?: { readonly perMetre: number; readonly volts: number };
  /** Of tiles that swallow sound: the material reckoned with, and the side of one, mm. */
  readonly tiles?: { readonly material: string; readonly side: number };
  /** Of a screw driven from behind into what is seen, mm: the point of a longer one would come out of its face. */
  readonly longest?: number;
  /** Where it sits in the piece's own frame, when it has a body worth drawing and checking (a rod). */
  readonly solid?: Solid;
}

/** One opening of a case as built: its clear box in the case's own frame. */
export interface BayOpening {
  readonly id: string;
  readonly kind: 'open' | 'door' | 'drawers' | 'divided';
  /** What the plan calls it, when it does. */
  readonly title?: string;
  readonly clear: Box;
  readonly level: number;
}

/** A piece of the plan with its place in the room, its outside, and all it is made of. */
export interface PlacedPiece {
  readonly id: string;
  readonly kind: string;
  readonly title: string;
  readonly frame: Frame;
  /** The outside in the piece's own frame, overhangs included. */
  readonly outside: Box;
  /** The wall it stands at or hangs on, and how far along it its left end is, when it is at one. */
  readonly wall?: { readonly id: string; readonly from: Mm };
  /** Further space it needs to be used: a door's swing, a drawer pulled out, in the piece's own frame. */
  readonly needs: readonly { readonly what: string; readonly box: Box; readonly part?: PartId }[];
  readonly parts: readonly Part[];
  readonly joints: readonly Joint[];
  readonly fittings: readonly Fitting[];
  readonly bays: readonly BayOpening[];
  /** Kilograms that are not in parts or fittings: a display, a thing. */
  readonly mass?: number;
}

/** Kinds of piece that the room already has or that are bought whole: nothing is set out, cut or put together for them. */
const READY: ReadonlySet<string> = new Set(['thing', 'seat', 'camera', 'lamp', 'strip']);
export const isMade = ({ kind }: PlacedPiece): boolean => !READY.has(kind);
/** An absorber on no wall is left out of sound and bill, and nobody's time goes into it. */
export const hangsNowhere = ({ kind, wall }: Pick<PlacedPiece, 'kind' | 'wall'>): boolean =>
  kind === 'absorber' && !wall;
