import { type Area, area, below, LETTER, overlaps, rectangle, right, text } from '../draw.ts';
import { fitText, textWidth, wrapText } from '../font/measure.ts';
import type { Mark, Point } from '../marks.ts';
import { type Places, takeFirst } from './place.ts';
import { LEADING } from './table.ts';

export interface Naming {
  readonly words: string;
  /** What is named. */
  readonly at: Area;
  /** Lines of the drawing, as flat areas: the name stands where it crosses the fewest. */
  readonly lines?: readonly Area[];
  /** Good places, best first, before the general ones. */
  readonly prefer?: readonly Point[];
  readonly bold?: boolean;
  /** Only inside, or not at all. */
  readonly inside?: boolean;
  /** Above or below something long it may stand anywhere along it. */
  readonly along?: boolean;
}

/** Where a name may stand. Only of the name and the drawing under it, whatever else is written. */
export interface NamePlace {
  /** Line by line. */
  readonly words: readonly string[];
  readonly bold: boolean;
  readonly area: Area;
  /** In what is named; in it and past its edges; right above or below it. */
  readonly where: 'inside' | 'across' | 'beside';
}
/** Above and below what is written. */
const EDGE = 0.1;
const LINES = 3;
/** A name that has no room in so many lines is made wider by such steps, up to so much, mm. */
const [WIDER, WIDEST] = [3, 60];

/** Names something on the drawing: in it, else above or below it, where nothing else is written. Takes the place. */
export const nameIn = (places: Places, naming: Naming): readonly Mark[] => takeName(places, namePlaces(naming));

export function takeName(places: Places, candidates: readonly NamePlace[]): readonly Mark[] {
  const found = takeFirst(places, candidates);
  if (!found) return [];
  const { words, bold, area: own } = found;
  const lines = words.map((line, i) =>
    text(own.x + own.width / 2, own.y + EDGE + LEADING * (i + 0.5), line, { align: 'centre', anchor: 'middle', bold }),
  );
  return [rectangle(own, { fill: 'paper' }), ...lines];
}

/** Best first. */
export function namePlaces({
  words,
  at,
  lines = [],
  prefer = [],
  bold = true,
  inside = false,
  along = false,
}: Naming): readonly NamePlace[] {
  const longest = Math.max(...words.split(/\s+/).map((w) => textWidth(w, LETTER.small, bold)));
  let width = Math.max(at.width - 2, inside ? 0 : Math.min(longest, 40) + 0.1);
  const wrapped = () => wrapText(words, LETTER.small, width, bold);
  // a long name over something narrow stands wider than that, before any of it is cut off
  while (!inside && width < WIDEST && wrapped().length > LINES) width += WIDER;
  const all = wrapped();
  const shown = [...all.slice(0, LINES - 1), all.slice(LINES - 1).join(' ')]
    .filter((l) => l !== '')
    .map((l) => fitText(l, LETTER.small, width, bold));
  if (shown.every((l) => l === '')) return [];
  const high = shown.length * LEADING;
  const [cx, cy] = [at.x + at.width / 2, at.y + at.height / 2];
  const general = [0.5, 0.3, 0.7, 0.15, 0.85].flatMap((fy) =>
    [0.5, 0.3, 0.7, 0.2, 0.8].map((fx) => ({ x: at.x + at.width * fx, y: at.y + at.height * fy })),
  );
  const within = [{ x: cx, y: cy }, ...prefer, ...general];
  const wide = Math.max(...shown.map((l) => textWidth(l, LETTER.small, bold))) + 1.2;
  const shares = along && at.width > 2 * wide ? [0.5, 0.25, 0.75, 0.1, 0.9] : [0.5];
  const without = inside
    ? []
    : shares.flatMap((share) => {
        const free =
          share === 0.5 ? cx : Math.min(right(at) - wide / 2, Math.max(at.x + wide / 2, at.x + at.width * share));
        return [
          { x: free, y: at.y - high / 2 - 1.2 },
          { x: free, y: below(at) + high / 2 + 1.2 },
        ];
      });
  const candidates = [...within, ...without].map(({ x, y }, i) => {
    const own = area(x - wide / 2, y - high / 2 - EDGE, wide, high + 2 * EDGE);
    const sticksOut =
      i < within.length && (own.x < at.x || right(own) > right(at) || own.y < at.y || below(own) > below(at));
    let crossed = 0;
    for (const line of lines) if (overlaps(own, line, -0.2)) crossed++;
    const cost = 2 * crossed + (i === 0 ? 0 : 1) + (i >= within.length ? 4 : 0) + (sticksOut ? 30 : 0);
    const where = i >= within.length ? ('beside' as const) : sticksOut ? ('across' as const) : ('inside' as const);
    return { words: shown, bold, area: own, cost, where };
  });
  const allowed = inside ? candidates.filter((c) => c.where === 'inside') : candidates;
  return allowed.sort((a, b) => a.cost - b.cost);
}
