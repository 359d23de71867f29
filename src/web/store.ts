import { useSyncExternalStore } from 'preact/compat';
import { createStore, type StoreApi } from 'zustand/vanilla';

/** A store that components can look into: they are drawn again only when what they picked from it is another value. */
export type Store<T> = StoreApi<T> & { (): T; <Picked>(pick: (state: T) => Picked): Picked };

export function create<T>(first: () => T): Store<T> {
  const store = createStore<T>(first);
  const use = <Picked>(pick: (state: T) => T | Picked = (state) => state): T | Picked =>
    useSyncExternalStore(store.subscribe, () => pick(store.getState()));
  return Object.assign(use, store) as Store<T>;
}
