/**
 * What is worked out when it is first asked for, and once.
 *
 * A function, not an accessor of an object literal: an engine may keep each such accessor, with all that it closes over, until its next
 * full collection (V8 does, in the shape of the object). Under a hand, that was every state of the plan there had been.
 */
export function lazy<T>(make: () => T): () => T {
  let known: { readonly value: T } | undefined;
  return () => {
    known ??= { value: make() };
    return known.value;
  };
}
