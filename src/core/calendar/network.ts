/** Tasks by number, and what comes before what; nobody's hands counted. */
export interface Network {
  readonly durations: readonly number[];
  readonly arcs: readonly { readonly from: number; readonly to: number }[];
}
export interface NetworkTimes {
  readonly length: number;
  readonly starts: readonly number[];
  /** How much later each may start without moving the end. */
  readonly slack: readonly number[];
  /** One longest chain, first to last. */
  readonly chain: readonly number[];
}

/**
 * The critical path: earliest starts forwards, latest starts backwards. Source: Kelley & Walker, Proceedings of the Eastern Joint
 * Computer Conference 1959, 160–173.
 * @throws RangeError, in words for the user, when tasks wait for each other in a ring or an arc leads nowhere.
 */
export function criticalPath({ durations, arcs }: Network): NetworkTimes {
  const n = durations.length;
  for (const { from, to } of arcs)
    if (!(Number.isInteger(from) && Number.isInteger(to) && from >= 0 && to >= 0 && from < n && to < n))
      throw new RangeError(`there are only tasks 1 to ${n}`);
  const waits = durations.map((_, i) => arcs.filter((a) => a.to === i).length);
  const line = durations.map((_, i) => i).filter((i) => waits[i] === 0);
  for (let k = 0; k < line.length; k++)
    for (const { from, to } of arcs) if (from === line[k] && --waits[to]! === 0) line.push(to);
  if (line.length < n) throw new RangeError('tasks wait for each other in a ring');
  const starts = durations.map(() => 0);
  for (const i of line)
    for (const { from, to } of arcs) if (to === i) starts[i] = Math.max(starts[i]!, starts[from]! + durations[from]!);
  const length = Math.max(0, ...durations.map((d, i) => starts[i]! + d));
  const latest = durations.map((d) => length - d);
  for (const i of [...line].reverse())
    for (const { from, to } of arcs) if (from === i) latest[i] = Math.min(latest[i]!, latest[to]! - durations[i]!);
  const slack = durations.map((_, i) => latest[i]! - starts[i]!);
  const close = 1e-9 * Math.max(1, length);
  const chain: number[] = [];
  let at = line.find((i) => Math.abs(starts[i]! + durations[i]! - length) <= close);
  while (at !== undefined) {
    const here: number = at;
    chain.unshift(here);
    at = arcs.find(
      (a) => a.to === here && Math.abs(starts[a.from]! + durations[a.from]! - starts[here]!) <= close,
    )?.from;
  }
  return { length, starts, slack, chain };
}
