/**
 * The later value with every part that did not change taken from the earlier one, so that `===` means "nothing to redo": what is
 * worked out from a piece is not worked out again because another piece was edited.
 */
export function sharing<T>(before: unknown, after: T): T {
  if (Object.is(before, after)) return after;
  if (typeof before !== 'object' || typeof after !== 'object' || before === null || after === null) return after;
  if (Array.isArray(before) !== Array.isArray(after)) return after;
  if (Array.isArray(after)) return sharingAll(before as readonly unknown[], after) as T;
  const old = before as Readonly<Record<string, unknown>>;
  const keys = Object.keys(after);
  let same = keys.length === Object.keys(before).length;
  const parts = keys.map((key) => {
    const was = Object.hasOwn(old, key) ? old[key] : undefined;
    const part = sharing(was, (after as Record<string, unknown>)[key]);
    same &&= Object.hasOwn(old, key) && Object.is(was, part);
    return part;
  });
  if (same) return before as T;
  return Object.fromEntries(keys.map((key, i) => [key, parts[i]])) as T;
}

/** Of lists, place by place: long ones of which one changed are gone through at every move of a hand. */
function sharingAll(before: readonly unknown[], after: readonly unknown[]): readonly unknown[] {
  let same = before.length === after.length;
  const all = after.map((one, i) => {
    const part = i < before.length ? sharing(before[i], one) : one;
    same &&= i < before.length && Object.is(before[i], part);
    return part;
  });
  return same ? before : all;
}
