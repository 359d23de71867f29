import { grouped } from '../grouped.ts';
import type { DataLine, Joining, SuppliedStrips, WiredStrip } from './wired.ts';

/** Plugs at both ends of every strip, so that any of them comes out without a knife; a fuse for every lead, at the supply. */
export function joiningsOf(
  strips: readonly WiredStrip[],
  supplies: readonly SuppliedStrips[],
  data: readonly DataLine[],
): readonly Joining[] {
  const fuses = grouped(
    strips.flatMap(({ wire, feeds }) => (wire ? feeds.boundaries.map(() => wire.fuse) : [])),
    (f) => f,
  );
  const extra = strips.reduce((sum, s) => sum + s.feeds.boundaries.length - 1, 0);
  const handed = data.reduce((sum, d) => sum + d.links.length - 1, 0);
  const rows: Joining[] = [
    { what: 'plug and socket, 3 poles: +, −, data in', count: strips.length, use: 'connector 3 poles' },
    {
      what: 'plug and socket, 2 poles: further feeds, data out with its −',
      count: extra + handed,
      use: 'connector 2 poles',
    },
    ...[...fuses].map(
      ([amps, all]): Joining => ({
        what:
          amps === undefined
            ? 'fuse: take it from the wire’s data sheet'
            : `fuse ${amps} A in its holder, at the supply`,
        count: all.length,
        use: amps === undefined ? 'fuse' : `fuse ${amps} A`,
      }),
    ),
    ...supplies.map(
      (s): Joining => ({
        what: `supply ${s.volts} V, ${s.rating === undefined ? 'larger than any on the list' : `${s.rating} A`}${s.class2 ? ', class 2' : ''}`,
        count: 1,
        use: `power supply ${s.volts} V ${s.rating ?? Math.ceil(s.current / 0.8)} A`,
      }),
    ),
    { what: 'controller, with a resistor of 330 Ω in each data line', count: data.length, use: 'light controller' },
  ];
  // the same line twice is one line of twice as many
  const merged = new Map<string, Joining>();
  for (const row of rows) {
    const known = merged.get(row.what);
    merged.set(row.what, known ? { ...known, count: known.count + row.count } : row);
  }
  return [...merged.values()].filter((row) => row.count > 0);
}
