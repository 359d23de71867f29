import type { NewTick } from './protocol.ts';

/**
 * What holds for each thing: the tick that was tapped last, and of two at the same instant the one with the greater id. The order
 * in which ticks arrived does not matter, nor whether one arrived twice.
 */
export function tickStates<T extends NewTick>(ticks: Iterable<T>): ReadonlyMap<string, T> {
  const states = new Map<string, T>();
  for (const tick of ticks) {
    const known = states.get(tick.about);
    if (!known || isLater(tick, known)) states.set(tick.about, tick);
  }
  return states;
}

export const isLater = (a: NewTick, b: NewTick): boolean => {
  const [at, bt] = [Date.parse(a.at), Date.parse(b.at)];
  return at > bt || (at === bt && a.id > b.id);
};
