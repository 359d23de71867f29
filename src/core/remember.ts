/**
 * Keeps what was made of an object for as long as the object lives, and makes it anew only when something else that it was made from is
 * no longer the same. An edit makes new values, so `===` means that there is nothing to redo.
 *
 * `from` names everything else that `make` looks at; what it leaves out may be stale. That a scene edited step by step equals one worked
 * out from nothing is a law in `solids.test.ts`.
 */
export function remember<K extends object, V>(): (key: K, from: readonly unknown[], make: () => V) => V {
  const kept = new WeakMap<K, { readonly from: readonly unknown[]; readonly value: V }>();
  return (key, from, make) => {
    const known = kept.get(key);
    if (known && known.from.length === from.length && from.every((one, i) => Object.is(one, known.from[i])))
      return known.value;
    const value = make();
    kept.set(key, { from, value });
    return value;
  };
}
